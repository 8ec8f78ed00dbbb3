//! What a place is kept for.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;
use catchcrop::garden::Tag;
use catchcrop::plan::{Why, WishId};

const CODE: &str = "not-meant-here";

fn tagged(tag: Tag, crop: &str) -> Plot {
    let mut plot = Plot::new();
    plot.place("box-1").tags = vec![tag];
    plot.plant(crop, "box-1", (0, 0, 1, 1), "2027-04-01", "2027-06-01");
    plot
}

#[test]
fn food_among_flowers_stops_and_flowers_do_not() {
    let found = tagged(Tag::FlowersOnly, "kale").says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(only(&found), &["Kale", "Box 1", "kept for flowers", "Move kale"]);
    assert!(tagged(Tag::FlowersOnly, "zinnia").says(&Shelf::new(), CODE).is_empty());
    assert!(tagged(Tag::FlowersOnly, "rye").says(&Shelf::new(), CODE).is_empty(), "cover crops may");
}

#[test]
fn flowers_in_a_food_bed_stop() {
    assert_eq!(tagged(Tag::FoodOnly, "zinnia").says(&Shelf::new(), CODE).len(), 1);
    assert!(tagged(Tag::FoodOnly, "kale").says(&Shelf::new(), CODE).is_empty());
    // Petals of calendula are eaten: it may stand with either.
    for tag in [Tag::FoodOnly, Tag::FlowersOnly] {
        assert!(tagged(tag, "calendula").says(&Shelf::new(), CODE).is_empty());
    }
}

#[test]
fn only_the_families_named() {
    let tag = Tag::Families(vec!["Fabaceae".into(), "Poaceae".into()]);
    tells(only(&tagged(tag.clone(), "kale").says(&Shelf::new(), CODE)), &["Fabaceae and Poaceae"]);
    assert!(tagged(tag, "pea").says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn the_growers_own_hand_is_respected() {
    let mut plot = tagged(Tag::HandOnly, "kale");
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    plot.plan.plantings[0].why = Why::Wish(WishId(1));
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
    plot.plan.plantings[0].fixed = true;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}
