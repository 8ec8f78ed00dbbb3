//! Pots large and deep enough.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

fn potted(crop: &str, fields: &str, litres: f64, deep: &str) -> (Plot, Shelf) {
    let mut shelf = Shelf::new();
    shelf.change(crop, fields);
    let mut plot = Plot::new();
    plot.pot("pot-1", "Pot 1", litres, deep, "13 in");
    plot.plant(crop, "pot-1", (0, 0, 1, 1), "2027-05-20", "2027-10-01");
    (plot, shelf)
}

/// Least volumes of the Texas extension bulletins E-545 and EHT-062: eggplant 5 gal for 1, cucumber 1 gal for 1, leaf lettuce
/// 1 gal for 2, broccoli 2 gal for 1.
#[test]
fn published_least_volumes_are_the_limit() {
    for (gallons, plants) in [(5.0, 1), (2.0, 1), (1.0, 1), (1.0, 2)] {
        let fields = format!(r#"(pot: (volume: "{gallons} gal", depth: "20 cm", plants: {plants}))"#);
        let litres = gallons * 3.785_411_784;
        let (plot, shelf) = potted("eggplant", &fields, litres, "12 in");
        assert!(plot.says(&shelf, "pot-small").is_empty(), "{gallons} gal");
        let (plot, shelf) = potted("eggplant", &fields, litres * 0.95, "12 in");
        let found = plot.says(&shelf, "pot-small");
        assert_eq!(only(&found).weight, Weight::Stop);
        tells(only(&found), &["Pot 1", &format!("at least {gallons} gal")]);
    }
}

#[test]
fn a_crop_that_is_not_for_pots() {
    let (plot, mut shelf) = potted("corn", "()", 40.0, "14 in");
    assert!(plot.says(&shelf, "pot-small").is_empty());
    shelf.entry("corn").pot = Some(None);
    tells(only(&plot.says(&shelf, "pot-small")), &["Sweet corn", "Pot 1", "not a crop for pots", "to a bed"]);
}

/// Carrot: the pot 2 in deeper than the root (Texas extension bulletin E-545).
#[test]
fn depth_is_a_rule_of_its_own() {
    let fields = r#"(pot: (volume: "1 gal", depth: "9 in", plants: 3))"#;
    let (plot, shelf) = potted("kale", fields, 20.0, "9 in");
    assert!(plot.says(&shelf, "pot-shallow").is_empty());
    let (plot, shelf) = potted("kale", fields, 20.0, "8 in");
    let found = plot.says(&shelf, "pot-shallow");
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(only(&found), &["Pot 1", "8 in deep", "at least 9 in"]);
    assert!(plot.says(&shelf, "pot-small").is_empty());
}
