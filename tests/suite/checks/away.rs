//! Jobs in weeks away.

use super::garden::{Plot, Shelf, date, only, tells};
use catchcrop::plan::Away;

const CODE: &str = "away-then";

fn gone(sown: &str) -> Plot {
    let mut plot = Plot::new();
    plot.plan.settings.away = vec![Away { from: date("2027-07-05"), to: date("2027-07-18") }];
    plot.plant("radish", "box-1", (0, 0, 1, 1), sown, "2027-09-01");
    plot
}

#[test]
fn sowing_while_away_is_minded() {
    let found = gone("2027-07-18").says(&Shelf::new(), CODE);
    tells(only(&found), &["Radish in Box 1 (A1) is to be sown on 18 Jul 2027", "5 Jul to 18 Jul 2027"]);
    assert!(gone("2027-07-19").says(&Shelf::new(), CODE).is_empty());
}

/// The plain crop holds a week in the ground after its last picking.
#[test]
fn a_harvest_that_holds_until_the_return_is_not() {
    let mut plot = gone("2027-05-01");
    plot.plan.plantings[0].planned.first_pick = Some(date("2027-07-06"));
    plot.plan.plantings[0].planned.last_pick = Some(date("2027-07-11"));
    tells(only(&plot.says(&Shelf::new(), CODE)), &["is only ripe on 6 Jul 2027"]);
    plot.plan.plantings[0].planned.last_pick = Some(date("2027-07-12"));
    assert!(plot.says(&Shelf::new(), CODE).is_empty(), "it holds until the 19th");
}
