//! More plants than a block holds.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

const CODE: &str = "too-many-plants";

fn planted(cells: (u16, u16, u16, u16), plants: u16) -> Plot {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", cells, "2027-04-01", "2027-10-01").plants = plants;
    plot
}

/// floor(12/s)^2 in a 12 in cell: 4 at 6 in, 1 at 12 in (Virginia Cooperative Extension 426-335).
#[test]
fn the_narrow_spacing_is_the_limit_and_the_wide_one_a_note() {
    assert!(planted((0, 0, 1, 1), 1).says(&Shelf::new(), CODE).is_empty());
    let close = planted((0, 0, 1, 1), 4).says(&Shelf::new(), CODE);
    assert_eq!(only(&close).weight, Weight::Note);
    tells(only(&close), &["Kale in Box 1 (A1) is planned with 4 plants", "1 fit at 12 in", "4 at 6 in"]);
    let full = planted((0, 0, 1, 1), 5).says(&Shelf::new(), CODE);
    assert_eq!(only(&full).weight, Weight::Stop);
    tells(only(&full), &["5 plants", "at most 4 fit there at 6 in", "Plant 4 at most"]);
}

/// 18 in: 6 plants in a 4x4 ft box by shifted columns, and not one in a single cell.
#[test]
fn plants_are_placed_not_counted_by_area() {
    let mut shelf = Shelf::new();
    shelf.change("kale", r#"(spacing: (dense: "18 in", wide: "18 in"))"#);
    assert!(planted((0, 0, 4, 4), 6).says(&shelf, CODE).is_empty());
    assert_eq!(planted((0, 0, 4, 4), 7).says(&shelf, CODE).len(), 1);
    tells(only(&planted((0, 0, 1, 1), 1).says(&shelf, CODE)), &["not even 1 fits there", "more cells"]);
}

#[test]
fn pots_go_by_volume() {
    let mut plot = Plot::new();
    plot.pot("pot-1", "Pot 1", 8.0, "12 in", "13 in");
    plot.plant("kale", "pot-1", (0, 0, 1, 1), "2027-04-01", "2027-10-01").plants = 2;
    assert!(plot.says(&Shelf::new(), CODE).is_empty(), "1 gal a plant: 2 gal hold 2");
    plot.plan.plantings[0].plants = 3;
    let found = plot.says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(only(&found), &["Pot 1", "holds 2"]);
}

#[test]
fn no_plants_at_all_are_minded() {
    assert_eq!(only(&planted((0, 0, 1, 1), 0).says(&Shelf::new(), CODE)).weight, Weight::Mind);
}
