//! A tall planting on the sunny side of a low one.

use super::garden::{CHRISTCHURCH, Plot, Shelf, only, tells};
use catchcrop::check::Weight;

const CODE: &str = "shaded-by-tall";

/// Peas of 6 ft in one row, low carrots that want sun in another: row 0 lies north.
fn rows(tall: u16, low: u16, from: &str, to: &str) -> (Plot, Shelf) {
    let mut shelf = Shelf::new();
    shelf.change("pea", r#"(height: "6 ft", light: (least: 6, full: 8))"#);
    shelf.add("carrot", "Carrot", "Apiaceae", r#"(height: "30 cm", light: (least: 6, full: 8))"#);
    let mut plot = Plot::new();
    plot.plant("pea", "box-1", (tall, 0, 1, 4), from, to);
    plot.plant("carrot", "box-1", (low, 0, 1, 4), from, to);
    (plot, shelf)
}

/// Tall crops at the north end in the northern hemisphere, at the south end in the southern (extension practice).
#[test]
fn the_sunny_side_is_south_in_new_york_and_north_in_christchurch() {
    let (plot, shelf) = rows(3, 2, "2027-04-01", "2027-08-01");
    let found = plot.says(&shelf, CODE);
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(
        only(&found),
        &[
            "Pea in Box 1 (A4-D4)",
            "6 ft tall",
            "stands south of carrot in Box 1 (A3-D3)",
            "2027",
            "hours of direct sun",
            "from 8 on",
            "Swap the two",
        ],
    );
    let (plot, shelf) = rows(1, 2, "2027-04-01", "2027-08-01");
    assert!(plot.says(&shelf, CODE).is_empty());

    let (mut plot, shelf) = rows(1, 2, "2027-09-01", "2028-01-01");
    plot.year = &CHRISTCHURCH;
    tells(only(&plot.says(&shelf, CODE)), &["stands north of carrot"]);
    let (mut plot, shelf) = rows(3, 2, "2027-09-01", "2028-01-01");
    plot.year = &CHRISTCHURCH;
    assert!(plot.says(&shelf, CODE).is_empty());
}

/// A shadow of 0.6 m at noon in June and 2.4 m in late October: harmless, then not.
#[test]
fn the_shadow_is_longer_in_autumn() {
    let (plot, shelf) = rows(3, 0, "2027-05-01", "2027-07-20");
    assert!(plot.says(&shelf, CODE).is_empty(), "two cells away in June");
    let (plot, shelf) = rows(3, 0, "2027-08-01", "2027-11-10");
    assert_eq!(plot.says(&shelf, CODE).len(), 1, "in October");
}

#[test]
fn where_enough_is_left_it_is_a_note() {
    let (plot, mut shelf) = rows(3, 1, "2027-04-01", "2027-08-01");
    shelf.change("carrot", "(light: (least: 4, full: 6))");
    assert_eq!(only(&plot.says(&shelf, CODE)).weight, Weight::Note);
}

#[test]
fn a_turned_plan_turns_the_sun() {
    let (mut plot, shelf) = rows(1, 2, "2027-04-01", "2027-08-01");
    plot.plan.site.plan_turn = 180.0;
    assert_eq!(plot.says(&shelf, CODE).len(), 1);
}

#[test]
fn leaf_crops_and_low_neighbours_are_not_judged() {
    let (plot, mut shelf) = rows(3, 2, "2027-04-01", "2027-08-01");
    shelf.change("carrot", "(light: (least: 3, full: 5))");
    assert!(plot.says(&shelf, CODE).is_empty(), "in heat such shade is an asset");
    let (plot, mut shelf) = rows(3, 2, "2027-04-01", "2027-08-01");
    shelf.change("pea", r#"(height: "1.5 ft")"#);
    assert!(plot.says(&shelf, CODE).is_empty());
}
