//! The same family twice in one season in one soil.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

const CODE: &str = "family-twice";
const WHOLE: (u16, u16, u16, u16) = (0, 0, 4, 4);

/// Pea root rot stays 10 years and more (Pacific Northwest Plant Disease Handbook); peas one year in six
/// (Netherlands Journal of Plant Pathology 99, 1993).
#[test]
fn peas_in_spring_and_again_in_august_in_one_box_are_minded() {
    let mut plot = Plot::new();
    plot.plant("pea", "box-1", WHOLE, "2027-03-20", "2027-06-25");
    plot.plant("pea", "box-1", WHOLE, "2027-08-06", "2027-11-01");
    let found = plot.says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(only(&found), &["Box 1", "6 Aug 2027", "24 Jun 2027", "2 times", "legumes", "another bed"]);
    assert!(plot.says(&Shelf::new(), "family-returns").is_empty(), "said once");
}

#[test]
fn in_two_boxes_they_are_not() {
    let mut plot = Plot::new();
    plot.plant("pea", "box-1", WHOLE, "2027-03-20", "2027-06-25");
    plot.plant("pea", "box-2", WHOLE, "2027-08-06", "2027-11-01");
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn cover_crops_of_the_family_count_and_neighbours_in_time_do_not() {
    let mut plot = Plot::new();
    plot.plant("bean", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-08-01");
    plot.plant("bean", "box-1", (2, 0, 2, 2), "2027-06-10", "2027-08-20");
    assert!(plot.says(&Shelf::new(), CODE).is_empty(), "two sowings side by side are one stay");
    plot.plant("vetch", "box-1", (0, 0, 2, 2), "2027-09-01", "2028-04-01");
    tells(only(&plot.says(&Shelf::new(), CODE)), &["Vetch", "bush bean"]);
}
