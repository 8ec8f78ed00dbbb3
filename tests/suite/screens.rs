//! Screens: keys in, what the window shows out.

use crate::support::{example, opened, press, screen};
use catchcrop::app::{Key, Message, Model, View, update};
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

/// Every view of the planted courtyard, five weeks on.
fn every_view(cols: u16, rows: u16) {
    let mut model = planted();
    press(&mut model, ".....");
    for view in View::ALL {
        update(&mut model, Message::Pressed(Key::Char(digit(view))));
        insta::assert_snapshot!(format!("{}_{cols}x{rows}", view.word()), screen(&mut model, cols, rows));
    }
}

fn digit(view: View) -> char {
    let n = View::ALL.iter().position(|v| *v == view).unwrap();
    char::from_digit(u32::try_from(n + 1).unwrap(), 10).unwrap()
}

#[test]
fn every_view_at_80x24() {
    every_view(80, 24);
}

#[test]
fn every_view_at_160x50() {
    every_view(160, 50);
}
