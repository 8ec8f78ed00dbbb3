//! Neighbours by the evidence there is.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

/// Sunflower beside beans (Weed Science 30, 1982), onion beside carrot (Entomologia exp. appl. 1984), basil beside
/// tomato (West Virginia University thesis 2004), and an old list without a trial.
fn shelf() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.change(
        "zinnia",
        r#"(neighbours: [(with: "Fabaceae", helps: false, grade: B, why: "it takes light and water", src: "W")])"#,
    );
    shelf.change(
        "kale",
        r#"(neighbours: [(with: "lettuce", helps: true, grade: A, why: "fewer flies", src: "E")])"#,
    );
    shelf.change(
        "tomato",
        r#"(neighbours: [(with: "corn", helps: true, grade: X, why: "no better flavour", src: "V")])"#,
    );
    shelf.change(
        "radish",
        r#"(neighbours: [(with: "pea", helps: false, grade: D, why: "old lists keep them apart", src: "L")])"#,
    );
    shelf
}

fn beside(a: &str, b: &str) -> Plot {
    let mut plot = Plot::new();
    plot.plant(a, "box-1", (0, 0, 1, 2), "2027-05-01", "2027-08-01");
    plot.plant(b, "box-1", (1, 1, 1, 1), "2027-05-01", "2027-09-01");
    plot
}

#[test]
fn a_trial_of_harm_is_minded() {
    let found = beside("zinnia", "bean").says(&shelf(), "neighbour-harms");
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(
        only(&found),
        &[
            "Zinnia in Box 1 (A1-B1)",
            "bush bean",
            "1 May to 31 Jul 2027",
            "light and water",
            "at least 1 cell",
        ],
    );
    assert!(beside("zinnia", "kale").says(&shelf(), "neighbour-harms").is_empty());
}

#[test]
fn what_does_not_touch_or_is_short_does_not_count() {
    let mut plot = beside("zinnia", "bean");
    plot.plan.plantings[1].block.col = 2;
    assert!(plot.says(&shelf(), "neighbour-harms").is_empty(), "only a corner in common");
    let mut plot = beside("zinnia", "bean");
    plot.plan.plantings[1].planned.sown = Some(super::garden::date("2027-07-20"));
    assert!(plot.says(&shelf(), "neighbour-harms").is_empty(), "12 days side by side");
    plot.plan.plantings[1].planned.sown = Some(super::garden::date("2027-07-18"));
    assert_eq!(plot.says(&shelf(), "neighbour-harms").len(), 1, "14 days");
}

#[test]
fn a_trial_of_help_is_a_note() {
    let found = beside("kale", "lettuce").says(&shelf(), "neighbour-helps");
    assert_eq!(only(&found).weight, Weight::Note);
    tells(only(&found), &["fewer flies", "several field trials agree"]);
    assert!(beside("kale", "bean").says(&shelf(), "neighbour-helps").is_empty());
}

#[test]
fn tradition_is_off_until_it_is_switched_on() {
    let mut plot = beside("radish", "pea");
    assert!(plot.says(&shelf(), "neighbour-lore").is_empty());
    plot.plan.settings.tradition = true;
    tells(only(&plot.says(&shelf(), "neighbour-lore")), &["handed down, no trial is known"]);
    assert!(plot.says(&shelf(), "neighbour-harms").is_empty(), "and never more than a note");
}

#[test]
fn a_myth_is_named() {
    let found = beside("tomato", "corn").says(&shelf(), "neighbour-myth");
    assert_eq!(only(&found).weight, Weight::Note);
    tells(only(&found), &["no better flavour", "trials do not bear it out"]);
    assert!(beside("tomato", "kale").says(&shelf(), "neighbour-myth").is_empty());
}

#[test]
fn a_pair_is_said_once_a_place() {
    let mut plot = beside("zinnia", "bean");
    plot.plant("zinnia", "box-1", (2, 0, 1, 2), "2027-05-01", "2027-08-01");
    assert_eq!(plot.says(&shelf(), "neighbour-harms").len(), 1);
}
