//! Crops that the book does not have.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::calendar::MonthDay;
use catchcrop::crop::CropId;
use catchcrop::plan::{Pattern, Wish, WishId};

const CODE: &str = "crop-unknown";

#[test]
fn an_unknown_planting_is_minded_with_the_nearest_name() {
    let mut plot = Plot::new();
    plot.plant("letuce", "box-1", (0, 0, 1, 1), "2027-04-01", "2027-06-01");
    tells(only(&plot.says(&Shelf::new(), CODE)), &["letuce", "Box 1 (A1)", "Write 'lettuce'"]);
    plot.plan.plantings[0].crop = CropId::new("quixotberry");
    tells(only(&plot.says(&Shelf::new(), CODE)), &["your own crop file"]);
    plot.plan.plantings[0].crop = CropId::new("lettuce");
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn its_family_still_counts_for_rotation() {
    let mut plot = Plot::new();
    let old = plot.plant("unheard-of", "box-1", (0, 0, 1, 1), "2027-04-01", "2027-06-01");
    old.family = "Solanaceae".into();
    plot.plant("tomato", "box-1", (0, 0, 1, 1), "2028-04-01", "2028-06-01");
    assert_eq!(plot.says(&Shelf::new(), "family-returns").len(), 1);
}

#[test]
fn an_unknown_wish_is_said_once() {
    let mut plot = Plot::new();
    for n in 1..=2 {
        plot.plan.wishes.push(Wish {
            id: WishId(n),
            crop: CropId::new("moonfruit"),
            amount: "2 kg".parse().unwrap(),
            pattern: Pattern::AtOnce,
            from: MonthDay { month: 7, day: 1 },
            to: MonthDay { month: 8, day: 1 },
            season: None,
            importance: 3,
            places: Vec::new(),
            note: String::new(),
        });
    }
    tells(only(&plot.says(&Shelf::new(), CODE)), &["moonfruit", "2 kg"]);
}
