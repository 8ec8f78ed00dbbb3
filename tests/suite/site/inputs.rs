//! Ways in: presets, normals, dates alone, heights, pockets, and what is refused.

use super::close;
use catchcrop::site::{Input, Normals, SiteError, SiteSpec, SiteYear, presets, zone};
use catchcrop::units::{Degrees, Length, LengthUnit, TempUnit};

#[test]
fn twenty_one_presets_each_name_their_source() {
    assert_eq!(presets::all().len(), 21);
    for preset in presets::all() {
        assert!(!preset.source.is_empty(), "{}", preset.id);
        let year = SiteYear::preset(preset.id).unwrap();
        assert_eq!(year.source, preset.source);
    }
    let recalled = presets::all().iter().filter(|p| p.from_memory()).count();
    assert_eq!(recalled, 7);
    let london = SiteYear::preset("london").unwrap();
    assert!(london.warnings.iter().any(|w| w.to_string().contains("from memory")));
}

/// Middles of zones of the US Department of Agriculture's map: 10 F wide from -60 F, halves of 5 F.
#[test]
fn hardiness_zones_are_their_middles() {
    for (text, fahrenheit) in [("1", -55.0), ("1a", -57.5), ("6b", -2.5), (" 7A ", 2.5), ("13b", 67.5)] {
        close(zone::middle(text).unwrap().in_unit(TempUnit::F), fahrenheit, 1e-6);
    }
    for text in ["", "b", "0", "14a", "6c", "-21C", "six", "256"] {
        assert_eq!(zone::middle(text), None, "{text}");
    }
}

#[test]
fn an_unknown_preset_offers_the_nearest() {
    let error = SiteYear::preset("new-yrok").unwrap_err().to_string();
    assert!(error.contains("did you mean 'new-york'?"), "{error}");
    let error = SiteYear::preset("zzzz").unwrap_err().to_string();
    assert!(error.contains("lists them"), "{error}");
}

#[test]
fn a_spec_comes_back_from_its_text() {
    for preset in presets::all() {
        let mut spec = SiteSpec::from_preset(preset.id).unwrap();
        spec.elevation = Some(Length::new(1300.0, LengthUnit::Ft));
        spec.cold_pocket = Some(Degrees::new(2.0, TempUnit::F));
        let text = ron::to_string(&spec).unwrap();
        assert_eq!(ron::from_str::<SiteSpec>(&text).unwrap(), spec);
    }
    let error = ron::from_str::<SiteSpec>("(name: \"x\", lat: 1, lon: 2, hight: 3)").unwrap_err().to_string();
    assert!(error.contains("hight"), "{error}");
}

#[test]
fn height_moves_temperatures_and_frost() {
    let mut spec = SiteSpec::from_preset("las-cruces-nm").unwrap();
    let low = SiteYear::new(&spec).unwrap();
    // 1322 m of record and 1000 ft more: 3.5 F cooler.
    spec.elevation = Some(Length::new(1322.0 + 304.8, LengthUnit::M));
    let high = SiteYear::new(&spec).unwrap();
    close(low.tmean[100] - high.tmean[100], 3.5 / 1.8, 1e-6);
    let middle = |year: &SiteYear| year.frost_plain(0.0).last.five_in_10.unwrap();
    assert_eq!(middle(&low).month_day().to_string(), "05-01");
    let later = middle(&high).index() - middle(&low).index();
    assert!((5..25).contains(&later), "{later}");
    assert!(high.warnings.iter().any(|w| w.to_string().contains("305 m above")));
}

#[test]
fn a_cold_pocket_shifts_frost_and_nothing_else() {
    let mut spec = SiteSpec::from_preset("ottawa").unwrap();
    let open = SiteYear::new(&spec).unwrap();
    spec.cold_pocket = Some(Degrees::new(2.2, TempUnit::C));
    let pocket = SiteYear::new(&spec).unwrap();
    assert_eq!(open.tmin, pocket.tmin);
    assert_eq!(open.frost_plain(0.0).last, pocket.frost_plain(-2.2).last);
}

#[test]
fn what_is_given_decides_the_error() {
    let error = |id: &str| SiteYear::preset(id).unwrap().trust;
    assert_eq!(error("paris").weaker(), Input::NormalsAlone);
    assert_eq!(error("ottawa").weaker(), Input::FrostDays);
    assert_eq!(error("las-cruces-nm").weaker(), Input::NormalsAndDates);
    let zone = SiteSpec { frost_days: None, ..SiteSpec::from_preset("miami-fl").unwrap() };
    assert_eq!(SiteYear::new(&zone).unwrap().trust.weaker(), Input::Zone);
    let mut one = SiteSpec::from_preset("paris").unwrap();
    one.last_frost = Some("04-10".parse().unwrap());
    let trust = SiteYear::new(&one).unwrap().trust;
    assert_eq!((trust.spring, trust.autumn), (Input::NormalsAndDates, Input::NormalsAlone));
}

#[test]
fn dates_alone_give_the_dates_and_say_so() {
    let spec =
        SiteSpec::from_dates("plot", (42.0, -75.0), "05-12".parse().unwrap(), "10-01".parse().unwrap());
    let year = SiteYear::new(&spec).unwrap();
    assert!(year.catalogue);
    assert!(year.warnings[0].to_string().contains("a quarter"), "{}", year.warnings[0]);
    let curves = year.frost_plain(0.0);
    assert_eq!(curves.last.five_in_10.unwrap().month_day().to_string(), "05-12");
    assert_eq!(curves.first.five_in_10.unwrap().month_day().to_string(), "10-01");
    // Ten-year dates stand 19.5 and 18.5 days off in the measured stations; one spread serves both.
    close(curves.last_place(0.1).unwrap() - curves.last_place(0.5).unwrap(), 18.6, 0.1);
    // At -2.2 C, 20 days earlier and 16 later.
    let hard = year.frost_plain(-2.2);
    close(curves.last_place(0.5).unwrap() - hard.last_place(0.5).unwrap(), 20.0, 0.1);
    close(hard.first_place(0.5).unwrap() - curves.first_place(0.5).unwrap(), 16.0, 0.1);
    // Normal minima on the average dates are those measured, 5.0 and 4.7, on average.
    close(year.tmin[131].midpoint(year.tmin[273]), 4.85, 0.01);
    let zone = SiteSpec { zone_min: Some("-10 F".parse().unwrap()), ..spec };
    let year = SiteYear::new(&zone).unwrap();
    close(year.tmin[131], 4.85, 0.6);
    close(year.tmin[273], 4.85, 0.6);
}

#[test]
fn dates_alone_work_south_of_the_equator() {
    let spec =
        SiteSpec::from_dates("plot", (-38.0, 145.0), "10-05".parse().unwrap(), "05-05".parse().unwrap());
    let year = SiteYear::new(&spec).unwrap();
    assert_eq!(year.frost_plain(0.0).last.five_in_10.unwrap().month_day().to_string(), "10-05");
    assert!(year.tmean[15] > year.tmean[196] + 5.0);
}

#[test]
fn what_cannot_be_is_refused_with_a_remedy() {
    let base = SiteSpec::from_preset("ottawa").unwrap();
    let refused = |spec: SiteSpec| SiteYear::new(&spec).unwrap_err().to_string();
    assert!(refused(SiteSpec { lat: 95.0, ..base.clone() }).contains("-90..90"));
    assert!(refused(SiteSpec { lon: f64::NAN, ..base.clone() }).contains("longitude"));
    let mut normals = base.normals.clone().unwrap();
    normals.tmin[3] = normals.tmax[3] + 1.0;
    let text = refused(SiteSpec { normals: Some(normals), ..base.clone() });
    assert!(text.starts_with("Apr: the mean minimum"), "{text}");
    let swapped = SiteSpec { last_frost: Some("10-12".parse().unwrap()), ..base.clone() };
    assert!(refused(swapped).contains("exchanged"));
    let text = refused(SiteSpec { name: "plot".into(), lat: 40.0, ..SiteSpec::default() });
    assert!(text.contains("preset") && text.contains("plot"), "{text}");
    let south = SiteSpec::from_dates("plot", (42.0, 0.0), "10-05".parse().unwrap(), "05-05".parse().unwrap());
    assert!(matches!(SiteYear::new(&south), Err(SiteError::WrongHalf { .. })));
    let flat = |t: f64| [t; 12];
    let level = Normals { tmax: flat(20.0), tmin: flat(20.0), rain: flat(0.0) };
    let equator = SiteSpec { name: "level".into(), normals: Some(level), ..SiteSpec::default() };
    assert_eq!(SiteYear::new(&equator).unwrap().frost_free(0.0, 0.1).unwrap().days, 365);
}

#[test]
fn short_days_come_when_the_tables_say() {
    // First and last day under 10 h of daylight, solar geometry with sunrise at -0.833 degrees, +-2 d.
    for (lat, first, last) in [(40.0, "11-16", "01-28"), (45.0, "11-06", "02-06"), (51.5, "10-28", "02-15")] {
        let spec = SiteSpec { lat, ..SiteSpec::from_preset("ottawa").unwrap() };
        let span = SiteYear::new(&spec).unwrap().days_under(10.0).unwrap();
        let off = |day: catchcrop::calendar::ClimateDay, text: &str| {
            let wanted: catchcrop::calendar::MonthDay = text.parse().unwrap();
            catchcrop::site::day::apart(day.index(), wanted.climate_day().index()).abs()
        };
        assert!(off(span.first, first) <= 2 && off(span.last, last) <= 2, "{lat}: {span:?}");
    }
    assert_eq!(SiteYear::preset("nairobi").unwrap().days_under(10.0), None);
}
