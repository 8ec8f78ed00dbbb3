//! Soil whose past is not recorded.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

const CODE: &str = "past-unknown";
const WHOLE: (u16, u16, u16, u16) = (0, 0, 4, 4);

fn old_box() -> Plot {
    let mut plot = Plot::new();
    plot.place("box-1").fresh = false;
    plot.plant("tomato", "box-1", WHOLE, "2027-05-20", "2027-10-01");
    plot
}

#[test]
fn a_bed_whose_past_was_never_entered_is_unknown() {
    let found = old_box().says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Note);
    tells(only(&found), &["Box 1", "2024, 2025 and 2026", "unknown", "3 free years"]);
}

#[test]
fn said_once_a_place() {
    let mut plot = old_box();
    plot.plan.plantings[0].block.rows = 1;
    plot.plant("kale", "box-1", (1, 0, 1, 4), "2027-05-20", "2027-10-01");
    plot.plant("lettuce", "box-1", (2, 0, 1, 4), "2027-04-20", "2027-10-01");
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
}

#[test]
fn a_record_even_of_nothing_makes_it_known() {
    let mut plot = old_box();
    plot.stood("box-1", "lettuce", "Asteraceae", "2025-04-01", "2025-06-01");
    plot.stood("box-1", "", "", "2026-01-01", "2026-12-31");
    tells(only(&plot.says(&Shelf::new(), CODE)), &["in 2024 is unknown"]);
    plot.stood("box-1", "", "Poaceae", "2024-05-01", "2024-09-01");
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn fresh_mix_has_no_past() {
    let mut plot = old_box();
    plot.place("box-1").refilled = vec![super::garden::date("2027-03-01")];
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    // But three years in the same mix without a record are three unknown years.
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", WHOLE, "2027-05-20", "2027-10-01");
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
}

#[test]
fn families_that_are_not_looked_at_ask_for_no_past() {
    let mut plot = Plot::new();
    plot.place("box-1").fresh = false;
    plot.plant("corn", "box-1", WHOLE, "2027-05-20", "2027-10-01");
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}
