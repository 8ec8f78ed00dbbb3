//! Two plantings in the same cells.

use super::garden::{Plot, Shelf, id, only, tells};
use catchcrop::garden::Layer;

const CODE: &str = "cells-taken";

#[test]
fn one_cell_and_one_day_in_common_stop() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (0, 0, 2, 2), "2027-04-01", "2027-10-02");
    plot.plant("lettuce", "box-1", (1, 1, 2, 2), "2027-10-01", "2027-11-20");
    let found = plot.says(&Shelf::new(), CODE);
    assert_eq!(only(&found).planting, Some(id(2)));
    tells(only(&found), &["Box 1 (A1-B2)", "Box 1 (B2-C3)", "1 Oct to 1 Oct 2027", "on 2 Oct 2027 or later"]);
}

#[test]
fn cleared_in_the_morning_and_sown_the_same_day_is_right() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (0, 0, 2, 2), "2027-04-01", "2027-10-01");
    plot.plant("lettuce", "box-1", (1, 1, 2, 2), "2027-10-01", "2027-11-20");
    plot.plant("lettuce", "box-1", (0, 2, 1, 1), "2027-05-01", "2027-07-20");
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn layers_are_apart_and_what_stands_for_years_goes_on() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (0, 0, 2, 2), "2025-04-01", "");
    plot.plant("lettuce", "box-1", (1, 1, 1, 1), "2027-05-01", "2027-07-20").layer = Layer::Mate;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    plot.plan.plantings[1].layer = Layer::Main;
    tells(only(&plot.says(&Shelf::new(), CODE)), &["stands for years"]);
}
