//! Old boxes of treated wood.

use super::garden::{Plot, Shelf, date, only, tells};

#[test]
fn a_box_from_before_2004_with_food_is_noted() {
    let mut plot = Plot::new();
    plot.place("box-1").since = date("2003-12-31");
    plot.plant("kale", "box-1", (0, 0, 1, 1), "2027-04-10", "2027-10-01");
    tells(
        only(&plot.says(&Shelf::new(), "old-timber")),
        &["Box 1", "kale", "31 Dec 2003", "2004", "never burn"],
    );
    plot.place("box-1").since = date("2004-01-01");
    assert!(plot.says(&Shelf::new(), "old-timber").is_empty());
}

#[test]
fn with_flowers_only_it_is_not() {
    let mut plot = Plot::new();
    plot.place("box-1").since = date("2001-04-01");
    plot.plant("zinnia", "box-1", (0, 0, 1, 1), "2027-05-10", "2027-10-01");
    assert!(plot.says(&Shelf::new(), "old-timber").is_empty());
}
