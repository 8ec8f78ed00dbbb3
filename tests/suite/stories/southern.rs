//! Story: southern hemisphere, 41 S.

use super::{Grower, beside, day, told};
use catchcrop::calendar::{MonthDay, Season, Week, days_between, plus};
use catchcrop::crop::{CropId, Start};
use catchcrop::garden::{Block, Support, SupportKind};
use catchcrop::growth::{age, windows};
use catchcrop::plan::Edit;
use catchcrop::site::sun;
use catchcrop::units::{Length, LengthUnit};
use catchcrop::work::{JobKind, jobs_between};

fn grower() -> Grower {
    Grower::at("christchurch", Some(-41.0), ("10-10", "05-05"), &[("pea-65", "pea", 65, 14)])
}

/// 65 + 14 + 14 = 93 days before 5 May: 1 February, and 2 February in a leap year.
#[test]
fn late_peas_go_in_by_the_first_of_february() {
    let grower = grower();
    assert_eq!(grower.latest("pea-65", "2027-05-05"), day("2027-02-01"));
    assert_eq!(grower.latest("pea-65", "2028-05-05"), day("2028-02-02"));
    let seen = beside(&grower, "pea-65", Start::InPlace, "2027-02-01");
    assert_eq!(days_between(day("2027-02-01"), seen.catalogue), 65 + 14);
}

/// Check P74: tomatoes set out on 24 October (two weeks after the last frost) are sown indoors six to eight weeks
/// earlier, 29 August to 12 September (Cornell; University of New Hampshire).
#[test]
fn tomatoes_are_started_between_the_end_of_august_and_mid_september() {
    let mut grower = grower();
    let (early, late) = (plus(day("2026-10-24"), -56), plus(day("2026-10-24"), -42));
    assert_eq!((early, late), (day("2026-08-29"), day("2026-09-12")));
    let raised = |s: &&Start| matches!(s, Start::Raised { .. });
    let crop = grower.book.get(&CropId::new("tomato")).unwrap();
    let start = *crop.starts.iter().find(raised).unwrap();
    let sown = plus(day("2026-10-24"), -age(start));
    assert!((early..=late).contains(&sown), "{sown}");
    let tomato = grower.put_raised("tomato", ("box-1", (0, 0, 2, 2)), start, "2026-10-24");
    let spring = (Week::of(day("2026-08-01")), Week::of(day("2026-11-30")));
    let all = jobs_between(&grower.plan, &grower.book, &grower.year, spring.0, spring.1);
    let best = |kind| all.iter().find(|j| j.kind == kind && j.planting == Some(tomato)).unwrap().best;
    assert!(
        (early..=plus(late, 7)).contains(&best(JobKind::StartIndoors)),
        "{}",
        best(JobKind::StartIndoors)
    );
    // Check P75: hardened off for 7 to 14 days, not below 45 F (common practice).
    let harden = all.iter().find(|j| j.kind == JobKind::HardenOff && j.planting == Some(tomato)).unwrap();
    assert!((7..=14).contains(&days_between(harden.from, day("2026-10-24"))), "{harden:?}");
    assert!(harden.amount.contains("not below 45 F"), "{}", harden.amount);
}

/// The noon sun stands in the north, 72 degrees high at midsummer: a trellis of 6 ft throws 0.6 m of shade then and 1.6 m
/// at the equinox, to the south. It belongs on the south edge.
#[test]
fn the_trellis_stands_on_the_south_edge() {
    let noon = |date: &str| {
        let day_of = usize::try_from(chrono::Datelike::ordinal0(&day(date))).unwrap();
        90.0 - (-41.0 - sun::declination(day_of)).abs()
    };
    let shadow = |date: &str| 1.83 / noon(date).to_radians().tan();
    assert!((noon("2026-12-21") - 72.4).abs() < 0.5, "{}", noon("2026-12-21"));
    assert!((shadow("2026-12-21") - 0.58).abs() < 0.02 && (shadow("2026-09-23") - 1.59).abs() < 0.04);
    let trellis = |row: u16| {
        let mut grower = grower();
        let mut place = grower.plan.places[0].clone();
        place.supports = vec![Support {
            kind: SupportKind::Trellis,
            cells: Block { row, col: 0, rows: 1, cols: 4 },
            height: Length::new(6.0, LengthUnit::Ft),
            from: day("2026-08-01"),
            until: None,
        }];
        grower.plan.apply(&Edit::Place(place.id.clone(), Some(Box::new(place)))).unwrap();
        grower.put_in("bean-climbing", ("box-1", (row, 0, 1, 4)), Start::InPlace, "2026-11-20");
        let behind = if row == 0 { 1 } else { 2 };
        grower.put_in("beet", ("box-1", (behind, 0, 1, 4)), Start::InPlace, "2027-01-10");
        told(&grower, "shaded-by-tall").len()
    };
    assert_eq!(trellis(3), 0, "south edge: nothing stands behind it");
    assert!(trellis(0) > 0, "north edge: it shades the beets");
}

/// Days under 10 hours: 12 May to 2 August (check P31).
#[test]
fn the_short_days_are_those_of_may_to_august() {
    let short = |date: &str| sun::daylength(-41.0, 174.0, day(date), -0.833) < 10.0;
    assert!(!short("2027-05-09") && short("2027-05-15") && short("2027-07-30") && !short("2027-08-05"));
}

/// The garden's year runs from July to June: peas of September and of February are legumes twice in one season, though
/// New Year lies between (check P91); peas of May and of September are not.
#[test]
fn the_season_is_not_cut_at_new_year() {
    let mut grower = grower();
    let july = MonthDay::new(7, 1).unwrap();
    let season = grower.plan.season(day("2027-02-01"), july);
    assert_eq!(season, Season::beginning(2026, july));
    assert_eq!(grower.year.season_start, Some(july));
    grower.put_in("pea-65", ("box-1", (0, 0, 2, 2)), Start::InPlace, "2026-09-01");
    grower.put_in("pea-65", ("box-1", (0, 0, 2, 2)), Start::InPlace, "2027-02-01");
    assert!(!told(&grower, "family-twice").is_empty());
}

/// "Sow peas in August for autumn", says a northern calendar: here August is early spring, and they may be sown all the
/// same, as spring peas.
#[test]
fn a_northern_calendar_means_spring_peas_here() {
    let grower = grower();
    let crop = grower.book.get(&CropId::new("pea-65")).unwrap();
    let found = windows(crop, &grower.conditions(), day("2026-07-01"));
    let holds = |date: &str| found.iter().any(|w| w.first <= day(date) && day(date) <= w.last);
    assert!(holds("2026-08-25"), "{found:#?}");
}
