//! Weight on a balcony or deck.

use super::garden::{Plot, Shelf, length, only, tells};
use catchcrop::check::Weight;
use catchcrop::garden::Shape;

const CODE: &str = "deck-load";
/// 40 psf in kg/m2.
const FORTY: f32 = 195.3;

/// A balcony of 1.2 x 3 m with eight pots of 38 L, 38 cm wide.
fn balcony(limit: Option<f32>) -> Plot {
    let mut plot = Plot::new();
    plot.plan.places.clear();
    for n in 1..=8 {
        plot.pot(&format!("pot-{n}"), &format!("Pot {n}"), 38.0, "36 cm", "38 cm").on_deck = true;
    }
    plot.plan.settings.load_limit = limit;
    plot.plan.settings.deck_area = Some(3.6);
    plot
}

/// Computed: 8 pots of 42 kg on 3.6 m2 are 19 psf on average and 76 psf under a pot.
#[test]
fn within_the_figure_on_average_and_above_it_under_the_pot() {
    let found = balcony(Some(FORTY)).says(&Shelf::new(), CODE);
    let (minds, notes): (Vec<_>, Vec<_>) = found.iter().partition(|f| f.weight == Weight::Mind);
    assert_eq!((minds.len(), notes.len()), (1, 1), "{found:#?}");
    tells(
        notes[0],
        &["8 pots", "334 kg", "19 psf", "40 psf", "21 psf", "structural engineer", "building department"],
    );
    // 42 kg on 0.113 m2: 370 kg/m2, 76 psf; 41.8 kg here.
    tells(
        minds[0],
        &["Pot 1, Pot 2", "and Pot 8 each weigh about 42 kg", "369 kg/m2", "40 psf", "boards", "owner"],
    );
}

/// Computed: a 12 in box of soaked potting mix presses with 62 psf; 40 psf are reached at 7.7 in.
#[test]
fn a_foot_of_soaked_mix_is_62_psf() {
    let mut plot = Plot::new();
    plot.plan.settings.load_limit = Some(FORTY);
    plot.plan.settings.deck_area = Some(1.486_45);
    plot.plan.places.truncate(1);
    plot.place("box-1").on_deck = true;
    let found = plot.says(&Shelf::new(), CODE);
    assert_eq!(found[0].weight, Weight::Stop);
    tells(&found[0], &["1 box", "62 psf", "40 psf", "Take some"]);
    for (deep, weight) in [("7.8 in", Weight::Stop), ("7.6 in", Weight::Note)] {
        plot.place("box-1").shape =
            Shape::Rect { across: length("4 ft"), down: length("4 ft"), depth: length(deep) };
        assert_eq!(plot.says(&Shelf::new(), CODE)[0].weight, weight, "{deep}");
    }
}

/// Mineral soil weighs twice as much: 8 pots' worth in a box of soil.
#[test]
fn soil_weighs_twice_as_much_as_mix() {
    let mut plot = Plot::new();
    plot.plan.places.truncate(1);
    plot.place("box-1").on_deck = true;
    tells(only(&plot.says(&Shelf::new(), CODE)), &["453 kg", "not entered"]);
    plot.place("box-1").fresh = false;
    tells(only(&plot.says(&Shelf::new(), CODE)), &["906 kg"]);
}

#[test]
fn without_a_figure_the_sum_is_shown_and_on_the_ground_nothing() {
    let found = balcony(None).says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Note);
    tells(only(&found), &["334 kg", "enter it in the settings", "owner"]);
    let mut plot = balcony(Some(FORTY));
    plot.plan.settings.deck_area = None;
    assert!(plot.says(&Shelf::new(), CODE).iter().any(|f| f.words.contains("area of the floor")));
    assert!(Plot::new().says(&Shelf::new(), CODE).is_empty());
}
