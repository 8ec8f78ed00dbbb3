//! Dates follow one another.

use super::garden::{Plot, Shelf, date, only, tells};
use catchcrop::check::Weight;

#[test]
fn dates_that_run_backwards_stop() {
    let mut plot = Plot::new();
    let planting = plot.plant("kale", "box-1", (0, 0, 1, 1), "2027-04-01", "2027-10-01");
    planting.planned.first_pick = Some(date("2027-03-20"));
    let found = plot.says(&Shelf::new(), "dates-muddled");
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(only(&found), &["Box 1 (A1)", "1 Apr 2027", "20 Mar 2027"]);
    plot.plan.plantings[0].planned.first_pick = Some(date("2027-04-01"));
    assert!(plot.says(&Shelf::new(), "dates-muddled").is_empty());
}

#[test]
fn no_first_date_is_minded() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (0, 0, 1, 1), "2027-04-01", "2027-10-01").planned.sown = None;
    assert_eq!(only(&plot.says(&Shelf::new(), "dates-muddled")).weight, Weight::Mind);
}
