//! The extension services' count back from the first frost, and what heat makes of it.

use super::super::crop;
use super::super::zones::Fit;
use super::{dated, day, framed};
use crate::support::show;
use catchcrop::calendar::{Date, day_text, days_between, plus};
use catchcrop::crop::{Clock, Crop, Season, Start};
use catchcrop::growth::{Conditions, Method, Refusal, Risk, outlook};
use catchcrop::units::{TempUnit, Temperature};

/// The last start of the autumn, by the catalogue or by heat.
fn latest(crop: &Crop, conditions: &Conditions<'_>, start: Start, frost: Date) -> Option<Date> {
    let late = |on: Date| {
        outlook(crop, conditions, start, on)
            .against
            .iter()
            .any(|r| matches!(r, Refusal::Late { .. } | Refusal::NeverRipe | Refusal::ColdSoil { .. }))
    };
    (0..250).map(|n| plus(frost, -n)).find(|on| !late(*on))
}

/// The extension services' count back from the first frost: days to maturity, picking, 14 days of autumn and, for
/// tender crops, 14 more (Virginia Tech horticulture, quoted 2011; checks P21, P25, P27, P29 and the stories).
#[test]
fn autumn_counts_are_exact_by_the_catalogue() {
    let rows = [
        // What, preset standing for the climate, frost dates, crop, days, picking, first frost, last start.
        ("bean, Virginia", "ottawa", ("05-01", "10-15"), "bean", 52, 14, "2027-10-15", "2027-07-13"),
        ("bean, prairie", "intl-falls-mn", ("05-25", "09-12"), "bean", 52, 14, "2027-09-12", "2027-06-10"),
        (
            "lettuce, prairie",
            "intl-falls-mn",
            ("05-25", "09-12"),
            "lettuce",
            45,
            14,
            "2027-09-12",
            "2027-07-01",
        ),
        ("pea, south", "christchurch", ("10-10", "05-05"), "pea", 65, 14, "2027-05-05", "2027-02-01"),
        (
            "pea, south, leap year",
            "christchurch",
            ("10-10", "05-05"),
            "pea",
            65,
            14,
            "2028-05-05",
            "2028-02-02",
        ),
        ("pea, maritime", "victoria-bc", ("03-10", "11-10"), "pea", 60, 14, "2027-11-10", "2027-08-14"),
        ("bean, Atlantic", "london", ("04-15", "10-20"), "bean", 52, 14, "2027-10-20", "2027-07-18"),
        ("carrot, Atlantic", "london", ("04-15", "10-20"), "carrot", 70, 14, "2027-10-20", "2027-07-14"),
        ("beet, Atlantic", "london", ("04-15", "10-20"), "beet", 55, 14, "2027-10-20", "2027-07-29"),
        ("lettuce, Atlantic", "london", ("04-15", "10-20"), "lettuce", 45, 14, "2027-10-20", "2027-08-08"),
        ("bean, mountain", "new-meadows-id", ("06-20", "09-15"), "bean", 52, 0, "2027-09-15", "2027-06-27"),
        ("corn, mountain", "new-meadows-id", ("06-20", "09-15"), "corn", 75, 0, "2027-09-15", "2027-06-04"),
    ];
    let mut differences = Vec::new();
    let mut lines =
        vec!["last start in autumn, by the extension services' count (met exactly) and by heat".to_owned()];
    for (what, preset, (last, first), id, days, picking, frost, expected) in rows {
        let year = framed(preset, last, first);
        let crop = dated(id, days, picking);
        let plain = Conditions::new(&year).at(Risk::Bold);
        let counted = latest(&crop, &plain.clone().by(Method::Catalogue), Start::InPlace, day(frost));
        assert_eq!(counted, Some(day(expected)), "{what}");
        let counted = day(expected);
        // The count asks every crop, hardy or not, to be done by the average first frost: so does the comparison.
        let mut by_then = crop.clone();
        by_then.frost.foliage = Temperature::new(0.0, TempUnit::C);
        by_then.frost.harvest = by_then.frost.foliage;
        let by_heat = latest(&by_then, &plain, Start::InPlace, day(frost));
        let Some(by_heat) = by_heat else {
            lines.push(format!("  {what:<22} {} by count, never by heat", day_text(counted)));
            continue;
        };
        let difference = days_between(counted, by_heat);
        differences.push(difference as f64);
        lines.push(format!(
            "  {what:<22} {} by count, {} by heat ({difference:+} d)",
            day_text(counted),
            day_text(by_heat)
        ));
    }
    let fit = Fit::of(&differences);
    lines.push(fit.line("  in all"));
    show(&lines);
    assert!(fit.median <= 10.0, "{}", fit.median);
}

/// In the mountains a packet's days grow by 14, and a tender crop must be done 14 days before the frost: begun on 10
/// June where it comes on 15 September, margins of 31, 13 and 8 days (Teller County; check P29).
#[test]
fn mountain_margins_decide() {
    let year = framed("new-meadows-id", "06-20", "09-15");
    let conditions = Conditions::new(&year).by(Method::Catalogue).at(Risk::Bold);
    let (begun, frost) = (day("2027-06-10"), day("2027-09-15"));
    for (id, days, start, margin, yes) in [
        ("bean", 52, Start::InPlace, 31, true),
        ("tomato", 70, Start::Bought, 13, false),
        ("corn", 75, Start::InPlace, 8, false),
    ] {
        let crop = dated(id, days, 0);
        // The fourteen days of the mountains are those of autumn here: added after the warmest day, counted back always.
        assert_eq!(days_between(plus(begun, i64::from(days) + 14), frost), margin, "{id}");
        let late = |r: &Refusal| matches!(r, Refusal::Late { .. });
        assert_eq!(!outlook(&crop, &conditions, start, begun).against.iter().any(late), yes, "{id}");
    }
}

/// The third bean sowing of the prairie misses by twelve days (story 2).
#[test]
fn a_sowing_twelve_days_late_is_refused() {
    let year = framed("intl-falls-mn", "05-25", "09-12");
    let conditions = Conditions::new(&year).by(Method::Catalogue).at(Risk::Bold);
    let bean = dated("bean", 52, 14);
    let late = |on: &str| match outlook(&bean, &conditions, Start::InPlace, day(on)).against.last() {
        Some(Refusal::Late { latest: Some(latest), .. }) => Some(days_between(*latest, day(on))),
        _ => None,
    };
    assert_eq!(late("2027-06-22"), Some(12));
    assert_eq!(late("2027-06-08"), None);
}

/// A crop of 65 days takes close to 80 in autumn (Virginia Tech horticulture, quoted 2011; check P22: 75 to 82).
#[test]
fn sixty_five_days_are_eighty_in_autumn() {
    for (season, id) in [(Season::Warm, "bean"), (Season::Cool, "beet")] {
        let mut crop = dated(id, 65, 0);
        crop.clock = Clock::Heat { season, base: None, upper: None };
        let year = framed("new-york", "04-15", "10-20");
        let conditions = Conditions::new(&year);
        let days = |conditions: &Conditions<'_>, on| {
            outlook(&crop, conditions, Start::InPlace, on).schedule.unwrap().days
        };
        let on = day("2027-08-08");
        assert_eq!(days(&conditions.clone().by(Method::Catalogue), on), 79);
        assert_eq!(days(&conditions.clone().by(Method::Catalogue), day("2027-05-08")), 65);
        // By heat: ending at the first frost and two weeks after it.
        for ends in ["2027-10-20", "2027-11-03"] {
            let start = catchcrop::growth::ready(&crop, &conditions, Start::InPlace, day(ends)).unwrap();
            println!(
                "65 days, {season:?}, ripe {ends} at New York: {} d by heat, 79 by count",
                days_between(start, day(ends))
            );
        }
    }
}

/// Setting out on the even-chance or the one-in-ten day: picking days 40 or 26 (story 2; check P73).
#[test]
fn waiting_for_a_safer_day_costs_picking() {
    let year = framed("intl-falls-mn", "05-25", "09-12");
    let conditions = Conditions::new(&year).by(Method::Catalogue).at(Risk::Bold);
    let tomato = dated("tomato", 70, 60);
    for (out, first, left) in [("2027-05-25", "2027-08-03", 40), ("2027-06-08", "2027-08-17", 26)] {
        let seen = outlook(&tomato, &conditions, Start::Bought, day(out)).schedule.unwrap();
        assert_eq!(seen.dates.first_pick, Some(day(first)));
        assert_eq!(days_between(day(first), day("2027-09-12")), left);
    }
}

/// Late snow peas where the first frost comes about 1 October are sown on 1 August, 61 days before (University of Maine
/// Extension 2022; check P23), as a gamble in hot Augusts.
#[test]
fn late_snow_peas_are_sown_two_months_before_frost() {
    let year = framed("ottawa", "05-10", "10-01");
    let pea = crop("pea-snow");
    let found =
        latest(&pea, &Conditions::new(&year).at(Risk::Bold), Start::InPlace, day("2027-10-01")).unwrap();
    println!("late snow peas, first frost 1 Oct: last sowing {} by heat, 1 Aug published", day_text(found));
    assert!(days_between(day("2027-08-01"), found).abs() <= 14, "{found}");
}
