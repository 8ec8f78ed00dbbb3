//! Reasons in words: for each kind a small garden that brings it up, and the same garden without what it names.

use super::Asked;
use crate::checks::garden::{Plot, Shelf, date, length};
use catchcrop::calendar::MonthDay;
use catchcrop::crop::{Book, CropId};
use catchcrop::fill::{
    Dropped, Proposal, Request, build, help_words, read_problem, reasons, search, write_problem,
};
use catchcrop::garden::{Block, Support, SupportKind, Tag};
use catchcrop::plan::{Event, Pattern, Wish, WishId};

const TOMATO: &str = r#"(part: Fruit, days: (min: 50, max: 60, from: SettingOut), clock: Heat(season: Warm),
    starts: [Raised(weeks: (5, 8), per_station: 1, pot_on: true, harden: 10)],
    germination: Table([(10, 43), (15, 14), (20, 8), (25, 6), (30, 6), (35, 9)]),
    frost: (class: Tender, foliage: "31 F", harvest: "31 F"), root_depth: "35 cm",
    pot: (volume: "10 gal", depth: "14 in", plants: 1), picking: (shape: Steady, days: 60, holds: 0))"#;

fn shelf() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.change("tomato", TOMATO);
    shelf.change("pea", r#"(height: "5 ft", support: Needs)"#);
    shelf.trouble(
        r#"(id: "clubroot", name: "Clubroot", agent: "Plasmodiophora brassicae", kind: SoilDisease,
            hosts: ["Brassicaceae"], also_on: "", advised: 7, least: 7, survives: "long", remedy: "Lime.", src: [])"#,
    );
    shelf
}

/// One box of 4x4 ft with a windowsill.
fn plot() -> Plot {
    let mut plot = Plot::new();
    plot.plan.places.truncate(1);
    plot.plan.settings.catch_crops = false;
    plot.plan.settings.cover_crops = false;
    plot.plan.raising.push(catchcrop::plan::RaisingPlace {
        name: "windowsill".into(),
        temperature: "68 F".parse().unwrap(),
        cells: 200,
        light: true,
    });
    plot
}

fn wish(plot: &mut Plot, crop: &str, amount: &str, window: ((u8, u8), (u8, u8)), importance: u8) {
    let id = WishId(u32::try_from(plot.plan.wishes.len()).unwrap() + 1);
    let ((m, d), (to_m, to_d)) = window;
    plot.plan.wishes.push(Wish {
        id,
        crop: CropId::new(crop),
        amount: amount.parse().unwrap(),
        pattern: Pattern::AtOnce,
        from: MonthDay { month: m, day: d },
        to: MonthDay { month: to_m, day: to_d },
        season: None,
        importance,
        places: Vec::new(),
        note: String::new(),
    });
}

fn filled(plot: &Plot, book: &Book, drop: Option<Dropped>) -> Proposal {
    let request = Request { drop, ..Request::from(date("2027-03-01")) };
    let built = build(&plot.plan, book, plot.year, request);
    built.proposal(&search(&built.problem, &Asked::times(40), 1, &mut |_| {}))
}

/// The last wish is short for a reason that holds all these words, and without the rule it is met better.
fn told(plot: &Plot, book: &Book, rule: Dropped, words: &[&str]) {
    let now = filled(plot, book, None);
    let then = filled(plot, book, Some(rule));
    let of = |p: &Proposal| p.wishes.last().unwrap().clone();
    let text = of(&now).reasons.join(" | ");
    for part in words {
        assert!(text.contains(part), "'{part}' is not in: {text}");
    }
    assert!(of(&then).share > of(&now).share + 0.01, "{rule:?} changes nothing: {text}");
    println!("{text}");
}

const YEAR: ((u8, u8), (u8, u8)) = ((4, 15), (11, 15));
const SUMMER: ((u8, u8), (u8, u8)) = ((7, 1), (9, 20));

#[test]
fn frost_heat_and_the_length_of_days_are_told_with_their_dates() {
    let mut shelf = shelf();
    shelf.change("tomato", r#"(frost: (class: Tender, foliage: "42 F", harvest: "42 F"))"#);
    let book = shelf.book();
    let mut plot = plot();
    wish(&mut plot, "tomato", "2 lb", ((6, 8), (7, 3)), 3);
    told(
        &plot,
        &book,
        Dropped::Frost,
        &[
            "from 7 Jun to 4 Jul",
            "the first that can be ripe is so in the week of ",
            "frost keeps it from starting on",
        ],
    );
    // Spinach of the real book in a hot July and August.
    let mut plot = super::told::plot();
    wish(&mut plot, "spinach", "2 lb", ((7, 20), (8, 20)), 3);
    let text = filled(&plot, catchcrop::store::book(), None).wishes[0].reasons.join(" | ");
    assert!(text.contains("nothing is ripe between") || text.contains("the last that can be ripe"), "{text}");
    assert!(text.contains("heat keeps") || text.contains("light keeps"), "{text}");
    // And what would have to stand already.
    let mut plot = super::told::plot();
    wish(&mut plot, "kale", "2 lb", ((3, 5), (3, 20)), 3);
    let text = filled(&plot, &book, None).wishes[0].reasons.join(" | ");
    assert!(text.contains("before 1 Mar, when this plan begins") || text.contains("cold keeps"), "{text}");
}

#[test]
fn what_keeps_every_place_closed_is_named() {
    let book = shelf().book();
    let mut plot = plot();
    plot.place("box-1").tags = vec![Tag::FlowersOnly];
    wish(&mut plot, "lettuce", "1 lb", YEAR, 3);
    told(&plot, &book, Dropped::Tags, &["no place takes it: Box 1 (only for flowers)"]);

    let mut plot = super::told::plot();
    plot.place("box-1").sun_hours = Some(2.0);
    wish(&mut plot, "lettuce", "1 lb", YEAR, 3);
    told(&plot, &book, Dropped::Light, &["Box 1 (too little sun: 2.0 hours, it needs 3)"]);

    let mut plot = super::told::plot();
    plot.plan.places.clear();
    plot.pot("pot-1", "Pot 1", 2.0, "6 in", "8 in");
    plot.pot("pot-2", "Pot 2", 2.0, "6 in", "8 in");
    wish(&mut plot, "lettuce", "1 lb", YEAR, 3);
    told(&plot, &book, Dropped::Pots, &["Pot 1 and Pot 2 (the pot is too small)"]);

    let mut plot = super::told::plot();
    wish(&mut plot, "pea", "1 lb", YEAR, 3);
    told(&plot, &book, Dropped::Supports, &["Box 1 (no support for a climber)"]);
}

#[test]
fn breaks_name_the_soil_and_the_day_it_is_free() {
    let book = shelf().book();
    let mut plot = plot();
    plot.stood("box-1", "", "Solanaceae", "2026-05-01", "2026-09-20");
    wish(&mut plot, "tomato", "2 lb", SUMMER, 3);
    told(
        &plot,
        &book,
        Dropped::Breaks,
        &["its soil must be kept free: Box 1 (nightshades stood there, free again from 21 Sep 2029)"],
    );
    let mut plot = super::told::plot();
    plot.note("box-1", "2025-06-01", Event::Trouble("clubroot".into()));
    wish(&mut plot, "kale", "2 lb", YEAR, 3);
    told(&plot, &book, Dropped::Breaks, &["Box 1 (Clubroot was seen there, free again from 1 Jun 2032)"]);
    // A planting of the grower's own that stands there first.
    let mut plot = super::told::plot();
    plot.plant("potato", "box-1", (0, 0, 1, 1), "2027-03-06", "2027-04-10").fixed = true;
    wish(&mut plot, "tomato", "2 lb", SUMMER, 3);
    told(&plot, &book, Dropped::Breaks, &["too soon before or after its own family: potato in Box 1"]);
}

#[test]
fn a_block_that_no_place_has_is_told_by_its_size() {
    let mut shelf = shelf();
    shelf.change("pea", r#"(spacing: (dense: "18 in", wide: "18 in"))"#);
    let mut plot = plot();
    plot.place("box-1").supports = vec![Support {
        kind: SupportKind::Trellis,
        cells: Block { row: 0, col: 0, rows: 1, cols: 4 },
        height: length("5 ft"),
        from: date("2026-04-01"),
        until: None,
    }];
    wish(&mut plot, "pea", "1 lb", YEAR, 3);
    told(&plot, &shelf.book(), Dropped::Supports, &["it needs 2 by 2 cells side by side"]);
}

#[test]
fn room_is_told_by_what_would_have_to_go() {
    let book = shelf().book();
    let mut plot = plot();
    wish(&mut plot, "lettuce", "40 lb", YEAR, 5);
    wish(&mut plot, "bean", "100 lb", YEAR, 1);
    let now = filled(&plot, &book, None);
    let text = now.wishes[1].reasons.join(" | ");
    for part in [
        "short of ",
        "the room is taken: a cell of Box 1 from ",
        " would displace lettuce, worth ",
        " points, and bring ",
    ] {
        assert!(text.contains(part), "'{part}' is not in: {text}");
    }
    plot.plan.wishes.remove(0);
    let then = filled(&plot, &book, None);
    assert!(
        then.wishes[0].share > now.wishes[1].share + 0.01,
        "the room it was told to lack changes nothing"
    );
}

#[test]
fn what_would_help_is_told_by_the_prices() {
    let book = shelf().book();
    let mut plot = plot();
    plot.pot("pot-1", "Pot 1", 40.0, "15 in", "16 in");
    plot.plan.settings.hours_a_week = Some(2.0);
    wish(&mut plot, "kale", "4 lb", YEAR, 5);
    let built = build(&plot.plan, &book, plot.year, Request::from(date("2027-03-01")));
    let mut out = search(&built.problem, &Asked::times(2), 1, &mut |_| {});
    let point = built.problem.point;
    let price = |weeks: std::ops::Range<usize>, each: i64| {
        (0..built.problem.weeks).map(|w| if weeks.contains(&w) { each } else { 0 }).collect::<Vec<i64>>()
    };
    out.prices.main = vec![price(10..20, 2 * point), price(12..16, point)];
    // An hour is 600 tenths of a minute.
    out.prices.supply = vec![price(20..22, point / 200), price(0..0, 0)];
    assert_eq!(
        built.proposal(&out).helps,
        [
            "one more cell in Box 1 from 10 May to 18 Jul is worth up to 20 points",
            "an hour more each week from 19 Jul to 1 Aug is worth up to 6.0 points",
            "one more pot like Pot 1 from 24 May to 20 Jun is worth up to 4.0 points",
        ]
    );
    // Where only room for large blocks has a price, a whole bed is what would help.
    out.prices.main = vec![price(0..0, 0); 2];
    out.prices.bed = vec![vec![price(10..20, 5 * point)], Vec::new()];
    let helps = built.proposal(&out).helps;
    assert_eq!(helps[0], "one more bed like Box 1 from 10 May to 18 Jul is worth up to 50 points");
}

#[test]
fn hours_and_trays_are_told_by_the_week() {
    let book = shelf().book();
    let mut plot = plot();
    plot.plan.settings.hours_a_week = Some(0.1);
    wish(&mut plot, "lettuce", "4 lb", YEAR, 3);
    told(&plot, &book, Dropped::Hours, &["your hours in the week of ", " minutes more would be needed"]);

    let mut plot = super::told::plot();
    plot.plan.raising.clear();
    wish(&mut plot, "tomato", "2 lb", SUMMER, 3);
    told(&plot, &book, Dropped::Trays, &["there is no room to raise its seedlings in the week of "]);

    let mut plot = super::told::plot();
    plot.plan.raising[0].cells = 5;
    wish(&mut plot, "tomato", "40 lb", SUMMER, 3);
    told(&plot, &book, Dropped::Trays, &["the room for seedlings is used up in the week of "]);
}

#[test]
fn what_would_cost_more_than_it_brings_is_told_with_both() {
    let mut shelf = shelf();
    shelf.change("pea", "(support: None)");
    shelf.change(
        "bean",
        r#"(clock: Heat(season: Warm), germination: Table([(10, 43), (15, 14), (20, 8), (25, 6), (30, 6), (35, 9)]),
            frost: (class: Tender, foliage: "31 F", harvest: "31 F"))"#,
    );
    let mut plot = plot();
    plot.plan.places.clear();
    plot.pot("pot-1", "Pot 1", 40.0, "15 in", "16 in");
    plot.plant("pea", "pot-1", (0, 0, 1, 1), "2027-03-06", "2027-04-10").fixed = true;
    wish(&mut plot, "bean", "400 lb", SUMMER, 1);
    told(&plot, &shelf.book(), Dropped::Breaks, &["one more planting would cost 100 points", "and bring "]);
}

#[test]
fn a_problem_file_tells_the_same_reasons_in_its_own_weeks() {
    let book = shelf().book();
    let mut plot = plot();
    plot.place("box-1").tags = vec![Tag::FlowersOnly];
    wish(&mut plot, "lettuce", "1 lb", YEAR, 3);
    let built = build(&plot.plan, &book, plot.year, Request::from(date("2027-03-01")));
    let problem = read_problem(&write_problem(&built.problem).unwrap(), true).unwrap();
    assert_eq!(problem, built.problem);
    let out = search(&problem, &Asked::times(40), 1, &mut |_| {});
    let told = reasons(&problem, &out);
    assert!(told[0][0].contains("in weeks 6 to 37: no place takes it: Box 1 (only for flowers)"), "{told:?}");
    assert!(help_words(&problem, &out).is_empty(), "nothing may stand in the box, so no cell of it helps");
}
