//! When families may return, and the best order of few beds.

use super::garden::{CHRISTCHURCH, Plot, Shelf, date};
use catchcrop::check::{Context, Ground, Order, Return, best_order, pauses, rotation_outlook};
use catchcrop::crop::Book;
use catchcrop::plan::Event;

const WHOLE: (u16, u16, u16, u16) = (0, 0, 4, 4);

fn with<T>(plot: &Plot, shelf: &Shelf, ask: impl Fn(&Context<'_>) -> T) -> T {
    let book: Book = shelf.book();
    ask(&Context::whole(&plot.plan, &book, plot.year))
}

fn outlook(plot: &Plot, place: &str, family: &str) -> Return {
    with(plot, &Shelf::new(), |c| rotation_outlook(c, date("2028-01-01"), 4))
        .into_iter()
        .find(|r| r.place.0 == place && r.family == family)
        .unwrap()
}

fn nightshades(plot: &Plot, years: u8) -> Order {
    with(plot, &Shelf::new(), |c| best_order(c, date("2028-01-01"), years))
        .into_iter()
        .find(|o| o.family == "Solanaceae")
        .unwrap()
}

/// Tomatoes until 4 October 2027: least break 3 years, so at their usual time (May) from 2031 on.
#[test]
fn the_outlook_names_the_year_a_family_may_return() {
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", WHOLE, "2027-05-20", "2027-10-05");
    for year in 2024..=2026 {
        plot.stood("box-1", "corn", "Poaceae", &format!("{year}-05-01"), &format!("{year}-09-01"));
    }
    let row = outlook(&plot, "box-1", "Solanaceae");
    assert_eq!(row.last.as_deref(), Some("tomato"));
    assert_eq!((row.until, row.least_from), (Some(date("2027-10-04")), Some(date("2030-10-05"))));
    assert_eq!(row.season, Some(2031));
    let grounds: Vec<Ground> = row.seasons.iter().map(|s| s.1).collect();
    assert_eq!(grounds[..3], [Ground::Closed; 3]);
    assert_eq!(row.seasons[3], (2031, Ground::Free), "if none comes between");
    plot.plant("potato", "box-1", WHOLE, "2029-04-10", "2029-08-20");
    let grounds: Vec<Ground> = outlook(&plot, "box-1", "Solanaceae").seasons.iter().map(|s| s.1).collect();
    assert_eq!(grounds[1..], [Ground::Stands, Ground::Closed, Ground::Closed], "one is planned between");
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", WHOLE, "2027-05-20", "2027-10-05");
    for year in 2028..=2030 {
        plot.stood("box-1", "corn", "Poaceae", &format!("{year}-05-01"), &format!("{year}-09-01"));
    }
    assert_eq!(outlook(&plot, "box-1", "Solanaceae").seasons[3].1, Ground::Free);
}

#[test]
fn what_was_never_written_down_is_unknown_and_what_stands_is_said() {
    let mut plot = Plot::new();
    plot.place("box-2").fresh = false;
    plot.plant("tomato", "box-1", WHOLE, "2028-05-20", "2028-10-05");
    assert_eq!(outlook(&plot, "box-2", "Solanaceae").seasons[0].1, Ground::Unknown);
    assert_eq!(outlook(&plot, "box-1", "Solanaceae").seasons[0].1, Ground::Stands);
    assert_eq!(outlook(&plot, "box-1", "Solanaceae").seasons[1].1, Ground::Closed);
}

#[test]
fn between_least_and_advised_it_is_early() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", WHOLE, "2025-04-01", "2025-10-05");
    for year in 2026..=2027 {
        plot.stood("box-1", "corn", "Poaceae", &format!("{year}-05-01"), &format!("{year}-09-01"));
    }
    let grounds: Vec<Ground> = outlook(&plot, "box-1", "Brassicaceae").seasons.iter().map(|s| s.1).collect();
    assert_eq!(grounds[0], Ground::Early, "2 free years of 3 in April 2028");
}

#[test]
fn a_southern_outlook_counts_its_own_seasons() {
    let mut plot = Plot::new();
    plot.year = &CHRISTCHURCH;
    plot.plant("tomato", "box-1", WHOLE, "2026-11-01", "2027-04-10");
    assert_eq!(
        outlook(&plot, "box-1", "Solanaceae").season,
        Some(2030),
        "free in April, planted in November 2030"
    );
}

/// Computed: three boxes leave two free years; a season in pots makes three.
#[test]
fn three_boxes_leave_two_free_years_and_pots_make_it_three() {
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", WHOLE, "2027-05-20", "2027-10-05");
    let order = nightshades(&plot, 6);
    let beds: Vec<&str> = order.beds.iter().map(|t| t.place.as_ref().unwrap().0.as_str()).collect();
    assert_eq!(beds, ["box-2", "box-3", "box-1", "box-2", "box-3", "box-1"]);
    assert_eq!(order.fewest, Some(2));
    let pots: Vec<i32> = order.with_pots.iter().filter(|t| t.place.is_none()).map(|t| t.season).collect();
    assert_eq!(pots, [2030]);
    assert!(order.with_pots.iter().filter_map(|t| t.free).all(|n| n >= 3));
    for part in
        ["Nightshades: 2028 in Box 2", "2 free years between", "at least 3", "pots with fresh mix in 2030"]
    {
        assert!(order.words.contains(part), "{part}: {}", order.words);
    }
}

#[test]
fn four_boxes_are_enough_without_pots() {
    let mut plot = Plot::new();
    plot.boxed("box-4", "Box 4");
    plot.plant("tomato", "box-1", WHOLE, "2027-05-20", "2027-10-05");
    let order = nightshades(&plot, 8);
    assert_eq!(order.fewest, Some(3));
    assert!(order.with_pots.iter().all(|t| t.place.is_some()));
    assert!(!order.words.contains("pots"), "{}", order.words);
}

#[test]
fn families_are_shared_out_over_the_beds() {
    let mut plot = Plot::new();
    for (crop, place) in [("tomato", "box-1"), ("kale", "box-1"), ("pea", "box-1")] {
        plot.plant(crop, place, (0, 0, 1, 1), "2027-05-20", "2027-10-05");
    }
    let orders = with(&plot, &Shelf::new(), |c| best_order(c, date("2028-01-01"), 3));
    let first: Vec<&str> = orders.iter().map(|o| o.beds[0].place.as_ref().unwrap().0.as_str()).collect();
    assert_eq!(first, ["box-2", "box-3", "box-2"], "the third has no empty bed left that is free of it");
}

#[test]
fn recorded_diseases_run_until_their_advised_break_is_over() {
    let mut shelf = Shelf::new();
    shelf.trouble(
        r#"(id: "clubroot", name: "Clubroot", agent: "Plasmodiophora brassicae", kind: SoilDisease,
            hosts: ["Brassicaceae"], also_on: "", advised: 7, least: 7, survives: "10-15 years",
            remedy: "Lime.", src: [])"#,
    );
    let mut plot = Plot::new();
    plot.note("box-1", "2024-06-01", Event::Trouble("clubroot".into()));
    let rows = with(&plot, &shelf, |c| pauses(c, date("2028-01-01")));
    assert_eq!(rows.len(), 1);
    assert_eq!((rows[0].least_from, rows[0].place.0.as_str()), (date("2031-06-01"), "box-1"));
    assert!(rows[0].words.contains("until 1 Jun 2031"), "{}", rows[0].words);
    assert!(with(&plot, &shelf, |c| pauses(c, date("2031-06-01"))).is_empty());
}
