//! Hosts of a recorded disease.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;
use catchcrop::crop::{BreakWeight, Rotation};
use catchcrop::plan::Event;

const CODE: &str = "trouble-returns";
const WHOLE: (u16, u16, u16, u16) = (0, 0, 4, 4);

/// Clubroot 7 years, radish and turnip too (University of Connecticut IPM); spores live 10 to 15 years (Pacific
/// Northwest Plant Disease Handbook).
fn clubroot() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.trouble(
        r#"(id: "clubroot", name: "Clubroot", agent: "Plasmodiophora brassicae", kind: SoilDisease,
            hosts: ["Brassicaceae"], also_on: "weeds of the family", advised: 7, least: 7,
            survives: "10-15 years and more", remedy: "Lime the soil and choose resistant varieties afterwards.",
            src: [])"#,
    );
    // Verticillium harms these in their own right; hundreds of others carry it (University of Connecticut).
    shelf.trouble(
        r#"(id: "verticillium", name: "Verticillium wilt", agent: "Verticillium dahliae", kind: SoilDisease,
            hosts: ["tomato", "eggplant", "potato", "strawberry"], also_on: "more than 350 plants", advised: 4,
            least: 3, survives: "4-15 years", remedy: "Grow corn or a cereal there.", src: [])"#,
    );
    shelf
}

fn recorded(trouble: &str, on: &str) -> Plot {
    let mut plot = Plot::new();
    plot.note("box-1", on, Event::Trouble(trouble.into()));
    plot
}

#[test]
fn a_catch_crop_of_radish_in_year_four_after_clubroot_stops() {
    let mut plot = recorded("clubroot", "2024-06-01");
    plot.plant("radish", "box-1", WHOLE, "2028-06-10", "2028-07-20");
    let found = plot.says(&clubroot(), CODE);
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(
        only(&found),
        &["Clubroot", "Box 1", "1 Jun 2024", "10 Jun 2028", "4 free years", "7", "10-15 years", "1 Jun 2031"],
    );
}

#[test]
fn seven_years_later_or_in_another_box_it_does_not() {
    let mut plot = recorded("clubroot", "2024-06-01");
    plot.plant("radish", "box-1", WHOLE, "2031-06-02", "2031-07-20");
    plot.plant("radish", "box-2", WHOLE, "2028-06-10", "2028-07-20");
    plot.plant("lettuce", "box-1", (0, 0, 1, 1), "2028-04-01", "2028-06-01");
    assert!(plot.says(&clubroot(), CODE).is_empty());
}

#[test]
fn years_count_from_the_last_host_that_stood_there() {
    let mut plot = recorded("clubroot", "2020-06-01");
    plot.stood("box-1", "kale", "Brassicaceae", "2024-04-01", "2024-10-31");
    plot.plant("radish", "box-1", WHOLE, "2028-06-10", "2028-07-20");
    tells(only(&plot.says(&clubroot(), CODE)), &["1 Nov 2024", "3 free years"]);
}

#[test]
fn between_least_and_advised_it_is_minded() {
    let mut plot = recorded("verticillium", "2024-08-01");
    plot.plant("eggplant", "box-1", WHOLE, "2027-08-10", "2027-10-20");
    assert_eq!(only(&plot.says(&clubroot(), CODE)).weight, Weight::Mind);
}

/// Cucumber, pumpkin and cabbage carry it but the break is for crops it really harms; the rest is told.
#[test]
fn the_wide_host_list_is_not_enforced() {
    let mut plot = recorded("verticillium", "2026-08-01");
    plot.plant("kale", "box-1", WHOLE, "2027-04-10", "2027-10-20");
    assert!(plot.says(&clubroot(), CODE).is_empty());
}

#[test]
fn without_a_record_long_breaks_do_not_hold_and_corrections_count() {
    let mut plot = Plot::new();
    plot.plant("radish", "box-1", WHOLE, "2028-06-10", "2028-07-20");
    assert!(plot.says(&clubroot(), CODE).is_empty());
    let mut plot = recorded("clubroot", "2024-06-01");
    plot.plant("radish", "box-1", WHOLE, "2028-06-10", "2028-07-20");
    plot.note("box-1", "2024-06-02", Event::Remark);
    plot.plan.diary[1].corrects = Some(plot.plan.diary[0].id);
    assert!(plot.says(&clubroot(), CODE).is_empty());
}

#[test]
fn fresh_mix_and_the_growers_own_years_count() {
    let mut plot = recorded("clubroot", "2024-06-01");
    plot.plant("radish", "box-1", WHOLE, "2028-06-10", "2028-07-20");
    plot.plan
        .settings
        .rotation
        .insert("clubroot".into(), Rotation { least: 2, advised: 3, weight: BreakWeight::Stop });
    assert!(plot.says(&clubroot(), CODE).is_empty());
    plot.plan.settings.rotation.clear();
    plot.place("box-1").refilled = vec![super::garden::date("2028-03-01")];
    assert!(plot.says(&clubroot(), CODE).is_empty());
}
