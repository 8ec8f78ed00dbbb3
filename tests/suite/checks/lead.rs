//! Lead in the soil against the eaten part.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

const CODE: &str = "soil-lead";

fn leaded(crop: &str, lead: f32) -> Plot {
    let mut plot = Plot::new();
    plot.place("box-1").lead = Some(lead);
    plot.plant(crop, "box-1", (0, 0, 1, 1), "2027-04-10", "2027-10-01");
    plot
}

fn shelf() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.change("radish", "(part: Root)");
    shelf.change("tomato", "(part: Fruit)");
    shelf
}

/// 320 ppm: above EPA's 200 of January 2024, below Maryland's 400: no leaf, root or herb; fruits only.
#[test]
fn at_320_roots_and_leaves_stop_and_fruit_is_noted() {
    for crop in ["radish", "lettuce"] {
        let found = leaded(crop, 320.0).says(&shelf(), CODE);
        assert_eq!(only(&found).weight, Weight::Stop);
        tells(only(&found), &["320 mg/kg", "200", "Box 1", "laboratory", "health office", "clean soil"]);
    }
    assert_eq!(only(&leaded("tomato", 320.0).says(&shelf(), CODE)).weight, Weight::Note);
}

#[test]
fn steps_at_100_200_and_400() {
    for (lead, root, fruit) in [
        (99.0, None, None),
        (100.0, Some(Weight::Mind), None),
        (199.0, Some(Weight::Mind), None),
        (200.0, Some(Weight::Stop), Some(Weight::Note)),
        (400.0, Some(Weight::Stop), Some(Weight::Note)),
        (401.0, Some(Weight::Stop), Some(Weight::Stop)),
    ] {
        let weight = |crop| leaded(crop, lead).says(&shelf(), CODE).first().map(|f| f.weight);
        assert_eq!((weight("radish"), weight("tomato")), (root, fruit), "{lead} mg/kg");
        assert_eq!(weight("zinnia"), None, "flowers are not eaten");
    }
}
