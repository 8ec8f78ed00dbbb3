//! A planting stands inside a place that is there.

use super::garden::{Plot, Shelf, date, only, tells};

#[test]
fn beyond_the_edge_is_outside_and_up_to_it_is_not() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (3, 3, 2, 1), "2027-04-01", "2027-10-01");
    tells(
        only(&plot.says(&Shelf::new(), "outside-bed")),
        &["Kale takes D4-D5 of Box 1", "4 cells", "Move kale"],
    );
    plot.plan.plantings[0].block.row = 2;
    assert!(plot.says(&Shelf::new(), "outside-bed").is_empty());
}

#[test]
fn a_place_that_is_not_in_the_garden() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-9", (0, 0, 1, 1), "2027-04-01", "2027-10-01");
    tells(only(&plot.says(&Shelf::new(), "outside-bed")), &["box-9", "not a bed or pot of this garden"]);
}

#[test]
fn before_it_is_set_up_or_after_it_is_taken_away() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (0, 0, 1, 1), "2020-02-28", "2020-10-01");
    tells(only(&plot.says(&Shelf::new(), "place-gone")), &["28 Feb 2020", "set up on 1 Mar 2020"]);
    plot.plan.plantings[0].planned.sown = Some(date("2020-03-01"));
    assert!(plot.says(&Shelf::new(), "place-gone").is_empty());
    plot.place("box-1").until = Some(date("2020-09-30"));
    tells(only(&plot.says(&Shelf::new(), "place-gone")), &["1 Oct 2020", "30 Sep 2020"]);
    plot.place("box-1").until = Some(date("2020-10-01"));
    assert!(plot.says(&Shelf::new(), "place-gone").is_empty());
}
