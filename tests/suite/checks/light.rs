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
