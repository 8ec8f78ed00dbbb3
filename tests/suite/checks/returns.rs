//! A family returns to the same body of soil.

use super::garden::{Plot, Shelf, date, id, only, tells};
use catchcrop::check::Weight;
use catchcrop::crop::{BreakWeight, CropId, Rotation};
use catchcrop::garden::Block;
use catchcrop::plan::Event;

const CODE: &str = "family-returns";
const WHOLE: (u16, u16, u16, u16) = (0, 0, 4, 4);

fn once(first: (&str, &str, &str), second: (&str, &str, &str)) -> Plot {
    let mut plot = Plot::new();
    plot.plant(first.0, "box-1", WHOLE, first.1, first.2);
    plot.plant(second.0, "box-1", WHOLE, second.1, second.2);
    plot
}

/// Petunia and nicotiana are nightshades (Clemson radio notes 2019 and 2020).
#[test]
fn tomatoes_petunias_potatoes_each_count_as_a_return() {
    let mut plot = Plot::new();
    for n in 2..=3 {
        let other = format!("box-{n}");
        plot.plant("lettuce", &other, WHOLE, "2026-04-01", "2030-09-01");
        plot.plan.plantings.last_mut().unwrap().id = id(90 + n);
    }
    plot.plant("tomato", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-10-05").id = id(1);
    plot.plant("petunia", "box-1", (2, 2, 1, 1), "2028-05-20", "2028-10-03").id = id(2);
    plot.plant("potato", "box-1", (0, 0, 2, 2), "2029-04-12", "2029-08-10").id = id(3);
    let found = plot.says(&Shelf::new(), CODE);
    assert_eq!(found.len(), 2, "{found:#?}");
    for (finding, planting, cells) in [(&found[0], 2, (2, 2, 1, 1)), (&found[1], 3, (0, 0, 2, 2))] {
        assert_eq!(finding.weight, Weight::Stop);
        assert_eq!(finding.planting, Some(id(planting)));
        let block = Block { row: cells.0, col: cells.1, rows: cells.2, cols: cells.3 };
        assert_eq!(finding.cells, Some(block));
        tells(finding, &["Box 1", "no free year", "at least 3", "nightshades"]);
    }
    tells(&found[0], &["Petunia goes into Box 1 (C3) on 20 May 2028", "Tomato", "4 Oct 2027"]);
    tells(&found[1], &["Potato goes into Box 1 (A1-B2) on 12 Apr 2029", "Petunia", "2 Oct 2028"]);
    assert_eq!(found[1].from, Some(date("2029-04-12")));
}

#[test]
fn three_free_years_are_enough_and_a_day_less_is_not() {
    let enough = once(("tomato", "2024-05-20", "2024-05-30"), ("tomato", "2027-05-30", "2027-10-01"));
    assert!(enough.says(&Shelf::new(), CODE).is_empty());
    let short = once(("tomato", "2024-05-20", "2024-05-30"), ("tomato", "2027-05-29", "2027-10-01"));
    tells(
        only(&short.says(&Shelf::new(), CODE)),
        &["2 free years", "It was last in this soil until 29 May 2024"],
    );
}

/// Computed: moved yearly through three boxes, nightshades leave each box two free years; a year in pots makes three.
#[test]
fn three_boxes_give_two_free_years_and_a_year_in_pots_three() {
    let mut plot = Plot::new();
    for (n, year) in [(1, 2024), (2, 2025), (3, 2026), (1, 2027)] {
        plot.plant("tomato", &format!("box-{n}"), WHOLE, &format!("{year}-05-20"), &format!("{year}-10-05"));
    }
    let finding = plot.says(&Shelf::new(), CODE);
    tells(only(&finding), &["Box 1", "2 free years", "at least 3"]);

    let mut plot = Plot::new();
    plot.pot("pot-1", "Pot 1", 40.0, "14 in", "16 in");
    for (place, year) in [("box-1", 2024), ("box-2", 2025), ("box-3", 2026), ("pot-1", 2027), ("box-1", 2028)]
    {
        let cells = if place == "pot-1" { (0, 0, 1, 1) } else { WHOLE };
        plot.plant("tomato", place, cells, &format!("{year}-05-20"), &format!("{year}-10-05"));
    }
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

/// Eggplant after Verticillium: 4 years (University of Connecticut IPM rotation table).
#[test]
fn eggplant_is_advised_four_years() {
    let plot = once(("tomato", "2024-05-20", "2024-10-05"), ("eggplant", "2028-05-20", "2028-10-01"));
    let finding = plot.says(&Shelf::new(), CODE);
    assert_eq!(only(&finding).weight, Weight::Note);
    tells(only(&finding), &["3 free years", "4 would be better", "before 5 Oct 2028"]);
    let plot = once(("tomato", "2024-05-20", "2024-10-05"), ("eggplant", "2029-05-20", "2029-10-01"));
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn the_same_season_twice_stops_for_nightshades_only() {
    let plot = once(("potato", "2027-04-01", "2027-07-01"), ("tomato", "2027-07-01", "2027-10-05"));
    assert_eq!(only(&plot.says(&Shelf::new(), CODE)).weight, Weight::Stop);
    let plot = once(("lettuce", "2027-04-01", "2027-06-01"), ("lettuce", "2027-08-01", "2027-10-05"));
    assert!(plot.says(&Shelf::new(), CODE).is_empty(), "lettuce after lettuce is usual within a season");
}

#[test]
fn plantings_side_by_side_are_one_stay() {
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-10-05");
    plot.plant("potato", "box-1", (2, 2, 2, 2), "2027-06-10", "2027-09-05");
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn other_families_are_minded_and_sweet_potato_and_grass_are_not() {
    let plot = once(("kale", "2027-04-01", "2027-11-01"), ("radish", "2028-04-01", "2028-05-10"));
    let found = plot.says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(only(&found), &["plants of the cabbage family", "no free year", "at least 2"]);
    let plot = once(("corn", "2027-05-01", "2027-09-01"), ("rye", "2028-04-01", "2028-09-10"));
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    // Computed from the family lists: sweet potato is no nightshade.
    let mut shelf = Shelf::new();
    shelf.add("sweet-potato", "Sweet potato", "Convolvulaceae", "");
    let plot = once(("tomato", "2027-05-20", "2027-10-01"), ("sweet-potato", "2028-06-01", "2028-10-10"));
    assert!(plot.says(&shelf, CODE).is_empty());
}

#[test]
fn fresh_mix_starts_anew() {
    let mut plot = once(("tomato", "2027-05-20", "2027-10-05"), ("tomato", "2028-05-20", "2028-10-05"));
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
    plot.place("box-1").refilled = vec![date("2028-03-01")];
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn the_record_volunteers_and_standing_plants_count() {
    let tomato = ("tomato", "box-1", WHOLE, "2028-05-20", "2028-10-05");
    let mut plot = Plot::new();
    plot.stood("box-1", "", "Solanaceae", "2026-05-01", "2026-10-01");
    plot.plant(tomato.0, tomato.1, tomato.2, tomato.3, tomato.4);
    tells(only(&plot.says(&Shelf::new(), CODE)), &["A plant of the nightshades", "1 free year;"]);

    let mut plot = Plot::new();
    plot.note("box-1", "2027-08-01", Event::Volunteer(CropId::new("potato")));
    plot.plant(tomato.0, tomato.1, tomato.2, tomato.3, tomato.4);
    tells(only(&plot.says(&Shelf::new(), CODE)), &["Potato that came up by itself", "1 Aug 2027"]);

    let mut plot = Plot::new();
    plot.note("box-2", "2027-08-01", Event::Volunteer(CropId::new("potato")));
    plot.plant(tomato.0, tomato.1, tomato.2, tomato.3, tomato.4);
    assert!(plot.says(&Shelf::new(), CODE).is_empty(), "in another box");
}

#[test]
fn a_planting_that_died_indoors_never_was_in_the_soil() {
    let mut plot = once(("tomato", "2027-05-20", "2027-10-05"), ("tomato", "2028-05-20", "2028-10-05"));
    plot.plan.plantings[0].failed = Some(date("2027-05-01"));
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn the_grower_may_set_other_years_or_switch_it_off() {
    let mut plot = once(("tomato", "2027-05-20", "2027-10-05"), ("tomato", "2028-05-20", "2028-10-05"));
    let set = |least, weight| Rotation { least, advised: least, weight };
    plot.plan.settings.rotation.insert("Solanaceae".into(), set(2, BreakWeight::Mind));
    assert_eq!(only(&plot.says(&Shelf::new(), CODE)).weight, Weight::Mind);
    plot.plan.settings.rotation.insert("Solanaceae".into(), set(3, BreakWeight::Off));
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    plot.plan.settings.rotation.insert("tomato".into(), set(1, BreakWeight::Stop));
    assert_eq!(only(&plot.says(&Shelf::new(), CODE)).weight, Weight::Stop);
}

#[test]
fn by_cell_only_where_the_grower_says_so() {
    let mut plot = Plot::new();
    plot.plant("tomato", "box-1", (0, 0, 2, 2), "2027-05-20", "2027-10-05");
    plot.plant("tomato", "box-1", (2, 2, 2, 2), "2028-05-20", "2028-10-05");
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1);
    plot.plan.settings.rotation_by_cell = true;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    plot.plan.plantings[1].block.row = 1;
    plot.plan.plantings[1].block.col = 1;
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1, "one cell shared");
}

/// Computed: a southern season runs over the new year and is not cut there.
#[test]
fn a_southern_season_is_not_cut_at_new_year() {
    let mut plot = once(("kale", "2027-08-01", "2027-12-10"), ("radish", "2028-01-15", "2028-03-01"));
    plot.plan.settings.season_start = catchcrop::calendar::MonthDay::new(7, 1);
    assert!(plot.says(&Shelf::new(), CODE).is_empty(), "one season, 2027/28");
    plot.plan.settings.season_start = catchcrop::calendar::MonthDay::new(1, 1);
    assert_eq!(plot.says(&Shelf::new(), CODE).len(), 1, "two seasons");
}

#[test]
fn it_names_a_place_that_is_free_or_says_until_when_to_wait() {
    let mut plot = once(("tomato", "2027-05-20", "2027-10-05"), ("tomato", "2028-05-20", "2028-10-05"));
    tells(only(&plot.says(&Shelf::new(), CODE)), &["Grow no nightshades in Box 1 before 5 Oct 2030"]);
    plot.stood("box-3", "lettuce", "Asteraceae", "2025-03-01", "2027-11-01");
    tells(only(&plot.says(&Shelf::new(), CODE)), &["Move tomato to Box 3"]);
    let mut plot = once(("tomato", "2027-05-20", "2027-10-05"), ("tomato", "2028-05-20", "2028-10-05"));
    for place in ["box-2", "box-3"] {
        plot.plant("potato", place, WHOLE, "2026-04-01", "2026-08-01");
    }
    tells(only(&plot.says(&Shelf::new(), CODE)), &["Grow no nightshades in Box 1 before 5 Oct 2030"]);
}
