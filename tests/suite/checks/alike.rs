//! What must not be eaten, beside food.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

/// Sweet pea is no pea: its pods are poisonous (poison lists).
fn shelf() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.add(
        "sweet-pea",
        "Sweet pea",
        "Fabaceae",
        r#"(uses: [CutFlower], part: Nothing, cautions: [
            (kind: NotFood, words: "Poisonous: seeds and pods must not be eaten.", src: "L"),
            (kind: LooksLike(["pea"]), words: "The pods look like peas.", src: "L"),
        ])"#,
    );
    shelf
}

fn with(food: &str, cells: (u16, u16, u16, u16)) -> Plot {
    let mut plot = Plot::new();
    plot.plant("sweet-pea", "box-1", (0, 0, 1, 2), "2027-04-01", "2027-08-01");
    plot.plant(food, "box-1", cells, "2027-04-10", "2027-07-01");
    plot
}

#[test]
fn sweet_pea_right_beside_pea_stops() {
    let found = with("pea", (1, 0, 1, 2)).says(&shelf(), "look-alike");
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(only(&found), &["Sweet pea in Box 1 (A1-B1)", "pea in Box 1 (A2-B2)", "10 Apr", "poison control"]);
}

#[test]
fn apart_in_the_same_bed_it_is_a_note_and_in_another_bed_nothing() {
    let plot = with("pea", (3, 0, 1, 2));
    assert_eq!(only(&plot.says(&shelf(), "look-alike")).weight, Weight::Note);
    let mut plot = with("pea", (1, 0, 1, 2));
    plot.plan.plantings[1].place = catchcrop::garden::PlaceId::new("box-2");
    assert!(plot.says(&shelf(), "look-alike").is_empty());
    assert!(plot.says(&shelf(), "not-food").is_empty());
}

#[test]
fn beside_food_it_does_not_look_like_it_is_a_note() {
    let plot = with("kale", (1, 0, 1, 2));
    assert!(plot.says(&shelf(), "look-alike").is_empty());
    let found = plot.says(&shelf(), "not-food");
    assert_eq!(only(&found).weight, Weight::Note);
    tells(only(&found), &["Sweet pea", "must not be eaten", "kale", "Label"]);
    assert!(with("zinnia", (1, 0, 1, 2)).says(&shelf(), "not-food").is_empty(), "flowers among flowers");
}
