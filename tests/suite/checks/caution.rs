//! Cautions of a crop.

use super::garden::{Plot, Shelf, only, tells};

#[test]
fn told_once_for_each_crop_and_only_where_there_is_one() {
    let mut shelf = Shelf::new();
    shelf.change(
        "bean",
        r#"(cautions: [(kind: CookFirst, words: "Boil 30 minutes.", src: "F"), (kind: Allergy, words: "Legume.", src: "F")])"#,
    );
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (0, 0, 1, 1), "2027-05-20", "2027-08-01");
    assert!(plot.says(&shelf, "take-care").is_empty());
    for place in ["box-1", "box-2"] {
        plot.plant("bean", place, (1, 0, 1, 1), "2027-05-20", "2027-08-01");
    }
    tells(
        only(&plot.says(&shelf, "take-care")),
        &["Bush bean", "Box 1", "Only eaten cooked", "30 minutes", "allergen"],
    );
}
