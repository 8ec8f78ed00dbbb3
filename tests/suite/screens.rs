//! Screens: keys in, what the window shows out.

use crate::support::{example, opened, press, screen};
use catchcrop::app::Model;
use catchcrop::garden::PlaceId;

/// The courtyard with a few things planted by hand in May.
pub(crate) fn planted() -> Model {
    let mut model = opened(example("courtyard"));
    press(&mut model, "2");
    for (place, cell, crop) in [
        ("box-1", (0, 0), "radish"),
        ("box-1", (0, 2), "bean"),
        ("box-1", (0, 4), "bean"),
        ("box-1", (3, 7), "lettuce"),
        ("trellis-1", (0, 0), "cucumber"),
        ("box-3", (0, 0), "beet"),
        ("box-3", (0, 1), "beet"),
        ("box-3", (0, 2), "tomato"),
        ("border-1", (0, 0), "zinnia"),
        ("pot-1", (0, 0), "basil"),
        ("pot-5", (0, 0), "radish"),
    ] {
        model.go_to(&PlaceId::new(place), cell);
        press(&mut model, "p");
        press(&mut model, crop);
        press(&mut model, "<Enter>");
        press(&mut model, "<Enter>");
    }
    model
}

#[test]
fn ground_of_the_courtyard() {
    let mut model = opened(example("courtyard"));
    insta::assert_snapshot!("ground_80x24", screen(&mut model, 80, 24));
    press(&mut model, "npx");
    insta::assert_snapshot!("new_pot_80x24", screen(&mut model, 80, 24));
}

#[test]
fn look_at_all() {
    let mut model = planted();
    press(&mut model, ".....");
    for n in 1..=9 {
        press(&mut model, &n.to_string());
        println!("{}", screen(&mut model, 80, 24));
    }
    press(&mut model, "2<Left><Left>p");
    println!("{}", screen(&mut model, 80, 24));
    press(&mut model, "pota<Enter>");
    println!("{}", screen(&mut model, 80, 24));
    press(&mut model, "<Esc>4nlett, 3 heads a week, ma");
    println!("{}", screen(&mut model, 80, 24));
}
