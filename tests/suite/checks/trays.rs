//! Seedlings against the raising place.

use super::garden::{Plot, Shelf, date, only, tells};
use catchcrop::crop::Start;
use catchcrop::plan::RaisingPlace;

const CODE: &str = "trays-short";

/// Ten plants are sown in twelve tray cells on 1 April and potted on, into the room of 48, on 26 April.
fn raised(cells: u16) -> Plot {
    let mut plot = Plot::new();
    plot.plan.raising = vec![RaisingPlace {
        name: "windowsill".into(),
        temperature: "20 C".parse().unwrap(),
        cells,
        light: true,
    }];
    let planting = plot.plant("tomato", "box-1", (0, 0, 4, 4), "2027-04-01", "2027-10-01");
    planting.start = Start::Raised { weeks: (5, 8), per_station: 1, pot_on: true, harden: 10 };
    planting.plants = 10;
    planting.planned.potted = Some(date("2027-04-26"));
    planting.planned.set_out = Some(date("2027-05-17"));
    plot
}

#[test]
fn potted_seedlings_take_four_times_the_room() {
    assert!(raised(48).says(&Shelf::new(), CODE).is_empty());
    let found = raised(47).says(&Shelf::new(), CODE);
    tells(
        only(&found),
        &["From the week of 26 Apr 2027 to that of 10 May 2027", "48 tray cells", "hold 47", "Buy tomato"],
    );
    tells(only(&raised(11).says(&Shelf::new(), CODE)), &["From the week of 29 Mar 2027"]);
}

#[test]
fn several_plants_in_one_station_share_a_cell() {
    let mut plot = raised(12);
    plot.plan.plantings[0].planned.potted = None;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    plot.plan.raising[0].cells = 4;
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
    plot.plan.plantings[0].start = Start::Raised { weeks: (5, 8), per_station: 4, pot_on: false, harden: 10 };
    assert!(plot.says(&Shelf::new(), CODE).is_empty(), "10 plants in fours, a fifth more: 3 cells");
}

#[test]
fn bought_plants_need_no_tray() {
    let mut plot = raised(0);
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
    plot.plan.plantings[0].start = Start::Bought;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}
