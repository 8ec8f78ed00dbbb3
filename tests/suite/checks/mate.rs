//! A mate is gone when the canopy closes.

use super::garden::{Plot, Shelf, date, only, tells};
use catchcrop::check::Weight;
use catchcrop::garden::Layer;

const CODE: &str = "mate-crowded";

/// Tomatoes set out on 20 May close over 40 days later, on 29 June.
fn with_mate(crop: &str, from: &str, to: &str) -> Plot {
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-10-05");
    plot.plant(crop, "box-1", (0, 0, 1, 1), from, to).layer = Layer::Mate;
    plot
}

#[test]
fn lettuce_that_stays_under_closed_tomatoes_stops() {
    let found = with_mate("lettuce", "2027-05-10", "2027-06-30").says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(
        only(&found),
        &["Lettuce", "tomato", "Box 1 (A1)", "29 Jun 2027", "30 Jun 2027", "Clear lettuce by"],
    );
}

#[test]
fn lettuce_cleared_on_the_day_is_right() {
    assert!(with_mate("lettuce", "2027-05-10", "2027-06-29").says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn a_known_date_of_closure_counts_before_the_book() {
    let mut plot = with_mate("lettuce", "2027-05-10", "2027-06-29");
    plot.plan.plantings[0].real.closed = Some(date("2027-06-20"));
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
}

#[test]
fn pairs_of_the_book_share_all_along() {
    let mut shelf = Shelf::new();
    shelf.change("radish", r#"(mates: [(main: "tomato", when: Always)])"#);
    let plot = with_mate("radish", "2027-05-10", "2027-09-29");
    assert!(plot.says(&shelf, CODE).is_empty());
    shelf.change("radish", r#"(mates: [(main: "tomato", when: UntilClosed)])"#);
    assert_eq!(plot.says(&shelf, CODE).len(), 1);
}

#[test]
fn without_a_figure_there_is_no_room() {
    let mut shelf = Shelf::new();
    shelf.change("tomato", "()");
    shelf.add("squash", "Squash", "Cucurbitaceae", "");
    let mut plot = with_mate("lettuce", "2027-05-10", "2027-05-21");
    plot.plan.plantings[0].crop = catchcrop::crop::CropId::new("unheard-of");
    assert_eq!(plot.says(&shelf, CODE).len(), 1);
}
