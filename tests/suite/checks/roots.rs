//! Root depth of a box over paving.

use super::garden::{Plot, Shelf, length, only, tells};
use catchcrop::check::Weight;
use catchcrop::garden::Shape;

const CODE: &str = "roots-cramped";

fn over_paving(depth: &str) -> Plot {
    let mut plot = Plot::new();
    let place = plot.place("box-1");
    place.on_paving = true;
    place.shape = Shape::Rect { across: length("4 ft"), down: length("4 ft"), depth: length(depth) };
    plot.plant("kale", "box-1", (0, 0, 1, 1), "2027-04-01", "2027-06-01");
    plot
}

/// The plain crop wants 20 cm; 7.8 in are just as much, 6 in are not.
#[test]
fn soil_over_a_hard_floor_must_hold_the_whole_root() {
    let found = over_paving("6 in").says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(only(&found), &["Box 1 (A1)", "6 in", "8 in"]);
    assert!(over_paving("7.8 in").says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn over_open_soil_it_need_not() {
    let mut plot = over_paving("6 in");
    plot.place("box-1").on_paving = false;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}
