//! The climate page and the fields for other programs, as the command `site` prints them.

use super::close;
use catchcrop::cli::say::{site_json, site_text};
use catchcrop::growth::Risk;
use catchcrop::site::{SiteSpec, SiteYear, presets, words};
use catchcrop::units::Measure;

fn page(year: &SiteYear, measure: Measure) -> String {
    site_text(year, measure, Risk::Usual)
}

#[test]
fn every_preset_has_a_page_of_80_columns() {
    for preset in presets::all() {
        for measure in [Measure::Metric, Measure::Us] {
            let text = page(&SiteYear::preset(preset.id).unwrap(), measure);
            for line in text.lines() {
                assert!(line.chars().count() <= 80, "{}: {line}", preset.id);
                assert!(line == line.trim_end(), "{}: '{line}'", preset.id);
            }
            let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(flat.contains(preset.name) && flat.contains(preset.source), "{flat}");
            assert!(!text.contains("NaN") && !text.contains("inf") && !text.contains(" -0 "));
        }
    }
}

#[test]
fn the_page_says_chances_in_words() {
    let mut spec = SiteSpec::from_preset("ottawa").unwrap();
    spec.last_frost = Some("05-12".parse().unwrap());
    spec.first_frost = Some("10-01".parse().unwrap());
    let text = page(&SiteYear::new(&spec).unwrap(), Measure::Metric);
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("in 1 year of 10, after 12 May in 5,"), "{text}");
    assert!(flat.contains("before 1 Oct in 5,"), "{text}");
    assert!(
        flat.contains("Frost dates may be about 4 days off (normals with known average frost dates)."),
        "{text}"
    );
    assert!(!flat.contains('%') || flat.matches('%').count() == 1, "{text}");
    insta::assert_snapshot!("site_page_ottawa", text);
    let southern = page(&SiteYear::preset("pergamino").unwrap(), Measure::Metric);
    insta::assert_snapshot!("site_page_pergamino", southern);
    let miami = page(&SiteYear::preset("miami-fl").unwrap(), Measure::Us);
    assert!(miami.contains("Free of frost all year"), "{miami}");
    let nairobi = page(&SiteYear::preset("nairobi").unwrap(), Measure::Metric);
    assert!(
        nairobi.contains("None before the warmest day.") && nairobi.contains("whole year is free"),
        "{nairobi}"
    );
    let high = SiteSpec {
        elevation: Some(catchcrop::units::Length::new(4200.0, catchcrop::units::LengthUnit::M)),
        ..spec
    };
    let high = page(
        &SiteYear::new(&SiteSpec { last_frost: None, first_frost: None, ..high }).unwrap(),
        Measure::Metric,
    );
    assert!(
        high.contains("It comes in any month") && high.contains("no stretch of the year is free"),
        "{high}"
    );
}

#[test]
fn years_are_counted_as_people_count_them() {
    let said = [0.0, 0.001, 0.03, 0.1, 0.31, 0.5, 0.55, 0.9, 0.97, 0.999, 1.0].map(words::years);
    assert_eq!(
        said,
        [
            "0 years of 10",
            "1 year of 100",
            "3 years of 100",
            "1 year of 10",
            "3 years of 10",
            "5 years of 10",
            "6 years of 10",
            "9 years of 10",
            "97 years of 100",
            "99 years of 100",
            "10 years of 10"
        ]
    );
}

#[test]
fn the_fields_keep_their_names_and_sizes() {
    let year = SiteYear::preset("new-york").unwrap();
    let json = site_json(&year);
    for threshold in ["0.0", "-2.2"] {
        for side in ["last", "first"] {
            for share in ["1in10", "5in10", "9in10"] {
                let text = json["frost"][threshold][side][share].as_str().unwrap();
                assert!(text.parse::<catchcrop::calendar::MonthDay>().is_ok(), "{text}");
            }
        }
    }
    for curve in ["tmax", "tmin", "rain", "et0", "soil"] {
        assert_eq!(json["monthly"][curve].as_array().unwrap().len(), 12, "{curve}");
    }
    assert_eq!(json["daylength_hours"].as_array().unwrap().len(), 365);
    assert_eq!(json["expected_error_days"], 13.0);
    // Even-chance dates of the chain, reference prototype: day 23 + 69.17 and 205 + 114.25.
    assert_eq!(json["frost"]["0.0"]["last"]["5in10"], "04-03");
    assert_eq!(json["frost"]["0.0"]["first"]["5in10"], "11-16");
    close(json["monthly"]["tmax"][6].as_f64().unwrap(), 29.4, 0.006);
    close(json["monthly"]["rain"][0].as_f64().unwrap(), 92.0, 0.006);
    // Hargreaves at New York in July by hand: 0.0023 (25.3 + 17.8) sqrt(8.2) 40.8 x 0.408 = 4.7 mm a day.
    close(json["monthly"]["et0"][6].as_f64().unwrap(), 4.72, 0.07);
    let miami = site_json(&SiteYear::preset("miami-fl").unwrap());
    assert!(miami["frost"]["0.0"]["last"]["1in10"].is_null());
}
