//! Wishes that nothing can meet as they are written.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::calendar::MonthDay;
use catchcrop::crop::CropId;
use catchcrop::garden::{PlaceId, Tag};
use catchcrop::plan::{Pattern, Wish, WishId};

const CODE: &str = "wish-unclear";

fn wished(amount: &str, places: &[&str]) -> Plot {
    let mut plot = Plot::new();
    plot.plan.wishes.push(Wish {
        id: WishId(1),
        crop: CropId::new("kale"),
        amount: amount.parse().unwrap(),
        pattern: Pattern::Even,
        from: MonthDay { month: 7, day: 1 },
        to: MonthDay { month: 8, day: 1 },
        season: None,
        importance: 3,
        places: places.iter().map(|p| PlaceId::new(p)).collect(),
        note: String::new(),
    });
    plot
}

#[test]
fn units_must_meet() {
    assert!(wished("500 g", &[]).says(&Shelf::new(), CODE).is_empty());
    assert!(wished("1 lb", &[]).says(&Shelf::new(), CODE).is_empty());
    tells(only(&wished("2 heads", &[]).says(&Shelf::new(), CODE)), &["2 heads of kale", "200 g a plant"]);
    let mut shelf = Shelf::new();
    shelf.change("kale", r#"(each: "300 g")"#);
    assert!(wished("2 heads", &[]).says(&shelf, CODE).is_empty(), "a head weighs 300 g");
    tells(only(&wished("0 g", &[]).says(&Shelf::new(), CODE)), &["asks for nothing"]);
}

#[test]
fn places_must_be_there_and_open_to_it() {
    assert!(wished("1 kg", &["box-1"]).says(&Shelf::new(), CODE).is_empty());
    tells(only(&wished("1 kg", &["box-1", "box-7"]).says(&Shelf::new(), CODE)), &["'box-7'"]);
    let mut plot = wished("1 kg", &["box-1"]);
    plot.place("box-1").tags = vec![Tag::FlowersOnly];
    tells(only(&plot.says(&Shelf::new(), CODE)), &["only in Box 1", "kept for"]);
    plot.plan.wishes[0].places.push(PlaceId::new("box-2"));
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}
