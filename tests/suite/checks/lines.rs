//! Buried lines before posts and digging.

use super::garden::{Plot, Shelf, date, length, only, tells};
use catchcrop::garden::{Block, Kind, Support, SupportKind};

const CODE: &str = "buried-lines";

fn with(kind: SupportKind) -> Plot {
    let mut plot = Plot::new();
    plot.place("box-1").supports = vec![Support {
        kind,
        cells: Block::cell(0, 0),
        height: length("5 ft"),
        from: date("2027-04-20"),
        until: None,
    }];
    plot
}

#[test]
fn posts_in_soil_are_noted_with_the_day_to_call() {
    let found = with(SupportKind::Trellis).says(&Shelf::new(), CODE);
    tells(only(&found), &["Box 1", "20 Apr 2027", "811", "by 15 Apr 2027", "2 to 3 business days"]);
    assert!(with(SupportKind::Cage).says(&Shelf::new(), CODE).is_empty(), "a cage has no posts");
    let mut paved = with(SupportKind::Trellis);
    paved.place("box-1").on_paving = true;
    assert!(paved.says(&Shelf::new(), CODE).is_empty(), "nothing is driven into paving");
}

#[test]
fn a_bed_dug_in_the_open_ground_is_noted_and_a_box_is_not() {
    let mut plot = Plot::new();
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    plot.place("box-2").kind = Kind::OpenBed;
    tells(only(&plot.says(&Shelf::new(), CODE)), &["Box 2 is dug on 1 Mar 2020"]);
}
