//! Raw manure before the harvest: 120 and 90 days (7 CFR 205.203(c)).

use super::garden::{Plot, Shelf, date, only, tells};
use catchcrop::check::Weight;
use catchcrop::garden::{Amendment, AmendmentKind};

const CODE: &str = "raw-manure";

/// Manure on 1 April; the crop is picked from `first`.
fn manured(crop: &str, first: &str, kind: AmendmentKind) -> Plot {
    let mut plot = Plot::new();
    plot.place("box-1").amendments = vec![Amendment { on: date("2027-04-01"), kind }];
    let planting = plot.plant(crop, "box-1", (0, 0, 1, 1), "2027-04-10", "2027-10-01");
    planting.planned.first_pick = Some(date(first));
    planting.planned.last_pick = Some(date("2027-09-20"));
    plot
}

fn shelf() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.change("lettuce", "(soil_contact: true)");
    shelf.change("radish", "(part: Root)");
    shelf.change("tomato", "(part: Fruit)");
    shelf
}

/// Applied on 1 April: not before 30 July where the eaten part touches soil.
#[test]
fn parts_that_touch_soil_wait_120_days() {
    for crop in ["lettuce", "radish"] {
        let found = manured(crop, "2027-07-29", AmendmentKind::RawManure).says(&shelf(), CODE);
        assert_eq!(only(&found).weight, Weight::Stop);
        tells(only(&found), &["Box 1", "1 Apr 2027", "29 Jul 2027", "119 days", "120 days", "30 Jul 2027"]);
        assert!(manured(crop, "2027-07-30", AmendmentKind::RawManure).says(&shelf(), CODE).is_empty());
    }
}

/// Not before 30 June where it does not.
#[test]
fn other_parts_wait_90_days() {
    let found = manured("tomato", "2027-06-29", AmendmentKind::RawManure).says(&shelf(), CODE);
    tells(only(&found), &["89 days", "90 days", "30 Jun 2027", "extension office"]);
    assert!(manured("tomato", "2027-06-30", AmendmentKind::RawManure).says(&shelf(), CODE).is_empty());
}

#[test]
fn compost_flowers_and_earlier_harvests_are_free() {
    assert!(manured("lettuce", "2027-05-10", AmendmentKind::Compost).says(&shelf(), CODE).is_empty());
    assert!(manured("zinnia", "2027-05-10", AmendmentKind::RawManure).says(&shelf(), CODE).is_empty());
    let mut plot = manured("lettuce", "2027-05-10", AmendmentKind::RawManure);
    plot.place("box-1").amendments[0].on = date("2027-09-21");
    assert!(plot.says(&shelf(), CODE).is_empty(), "dug in after the last picking");
    plot.place("box-1").amendments[0].on = date("2027-06-01");
    tells(only(&plot.says(&shelf(), CODE)), &["picked from 1 Jun 2027", "0 days later", "29 Sep 2027"]);
}
