//! Two hosts of one disease side by side.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;

const CODE: &str = "shared-disease";

fn shelf() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.change("tomato", r#"(botanical: "Solanum lycopersicum")"#);
    shelf.change("potato", r#"(botanical: "Solanum tuberosum")"#);
    shelf.trouble(
        r#"(id: "late-blight", name: "Late blight", agent: "Phytophthora infestans", kind: AirDisease,
            hosts: ["tomato", "potato"], also_on: "", advised: 0, least: 0, survives: "in tubers",
            remedy: "Destroy sick plants.", src: [])"#,
    );
    shelf
}

#[test]
fn tomato_beside_potato_is_noted_and_apart_it_is_not() {
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-10-01");
    plot.plant("potato", "box-1", (0, 2, 2, 2), "2027-04-20", "2027-08-10");
    let found = plot.says(&shelf(), CODE);
    assert_eq!(only(&found).weight, Weight::Note);
    tells(only(&found), &["Box 1 (A1-B2)", "20 May to 9 Aug 2027", "late blight", "another bed"]);
    plot.plan.plantings[1].place = catchcrop::garden::PlaceId::new("box-2");
    assert!(plot.says(&shelf(), CODE).is_empty());
}

#[test]
fn one_crop_beside_itself_is_no_news() {
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-10-01");
    plot.plant("tomato", "box-1", (0, 2, 2, 2), "2027-05-20", "2027-10-01");
    assert!(plot.says(&shelf(), CODE).is_empty());
}

/// Rusts and mildews are many species, each with its own hosts: they jump within a family only.
#[test]
fn a_name_for_many_species_jumps_within_a_family_only() {
    let mut shelf = shelf();
    shelf.change("kale", r#"(botanical: "Brassica oleracea")"#);
    shelf.trouble(
        r#"(id: "rust", name: "Rust", agent: "Pucciniales", kind: AirDisease, hosts: ["kale", "tomato", "radish"],
            also_on: "", advised: 0, least: 0, survives: "on leaves", remedy: "Clear sick leaves", src: [])"#,
    );
    let beside = |other: &str| {
        let mut plot = Plot::new();
        plot.plant("kale", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-10-01");
        plot.plant(other, "box-1", (0, 2, 2, 2), "2027-05-20", "2027-08-10");
        plot.says(&shelf, CODE).len()
    };
    assert_eq!((beside("radish"), beside("tomato")), (1, 0));
}
