//! Hours of direct sun.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

#[test]
fn below_the_least_it_stops_and_below_the_full_it_is_a_note() {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (0, 0, 1, 1), "2027-04-10", "2027-10-01");
    assert!(plot.says(&Shelf::new(), "too-dark").is_empty(), "not counted");
    for (hours, weight) in [(2.9, Some(Weight::Stop)), (3.0, Some(Weight::Note)), (5.0, None)] {
        plot.place("box-1").sun_hours = Some(hours);
        let found = plot.says(&Shelf::new(), "too-dark");
        assert_eq!(found.first().map(|f| f.weight), weight, "{hours} h");
    }
    plot.place("box-1").sun_hours = Some(2.5);
    tells(only(&plot.says(&Shelf::new(), "too-dark")), &["Box 1 (A1)", "2.5 hours", "at least 3", "sunnier"]);
}

#[test]
fn a_wall_in_the_south_takes_the_sun_and_one_in_the_north_does_not() {
    let mut shelf = Shelf::new();
    shelf.change("kale", "(light: (least: 7, full: 8))");
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (1, 1, 2, 2), "2027-04-10", "2027-10-01");
    assert!(plot.says(&shelf, "too-dark").is_empty(), "an open sky");
    let wall = |y: &str| catchcrop::site::Obstacle {
        name: "Wall".into(),
        kind: catchcrop::site::ObstacleKind::Wall,
        x: super::garden::length("-30 ft"),
        y: super::garden::length(y),
        across: super::garden::length("60 ft"),
        down: super::garden::length("1 ft"),
        height: super::garden::length("12 ft"),
        clear: None,
        bare: None,
    };
    plot.plan.site.obstacles = vec![wall("5 ft")];
    let found = plot.says(&shelf, "too-dark");
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(only(&found), &["Box 1 (B2-C3)", "hours of direct sun", "at least 7"]);
    plot.plan.site.obstacles = vec![wall("-2 ft")];
    assert!(plot.says(&shelf, "too-dark").is_empty());
    // Turned half round, the wall at the top of the plan stands in the south.
    plot.plan.site.plan_turn = 180.0;
    assert_eq!(plot.says(&shelf, "too-dark").len(), 1);
}
