//! Findings are read aloud: plain words, no code, a place, a day, a figure, one thing to do.
//!
//! Gardens full of mishaps trigger every rule with the crop book that comes with the program; what is said is kept
//! as a snapshot to be read by a person.

use super::garden::{Plot, date, length};
use catchcrop::calendar::MonthDay;
use catchcrop::check::{Context, Finding, RULES, check};
use catchcrop::crop::{CropId, Piece, Start};
use catchcrop::garden::{Amendment, AmendmentKind, Block, Kind, Layer, Shape, Support, SupportKind, Tag};
use catchcrop::plan::{Away, Event, Pattern, RaisingPlace, Wish, WishId};
use catchcrop::site::{Obstacle, ObstacleKind, SiteYear};
use catchcrop::store;
use std::sync::LazyLock;

static MIAMI: LazyLock<SiteYear> = LazyLock::new(|| SiteYear::preset("miami-fl").unwrap());

const RAISED: Start = Start::Raised { weeks: (5, 8), per_station: 1, pot_on: true, harden: 10 };

/// Names, families and ways of starting as the crop book has them.
fn finish(mut plot: Plot) -> Plot {
    for planting in &mut plot.plan.plantings {
        if let Some(crop) = store::book().get(&planting.crop) {
            planting.name.clone_from(&crop.name);
            planting.family.clone_from(&crop.family);
        }
    }
    plot
}

fn set_out(plot: &mut Plot, crop: &str, place: &str, cells: (u16, u16, u16, u16), on: &str, end: &str) {
    let planting = plot.plant(crop, place, cells, on, end);
    planting.start = RAISED;
    planting.planned.set_out = Some(date(on));
    planting.planned.sown = Some(catchcrop::calendar::plus(date(on), -45));
}

fn wish(n: u32, crop: &str, amount: &str) -> Wish {
    Wish {
        id: WishId(n),
        crop: CropId::new(crop),
        amount: amount.parse().unwrap(),
        pattern: Pattern::Even,
        from: MonthDay { month: 7, day: 1 },
        to: MonthDay { month: 8, day: 1 },
        season: None,
        importance: 3,
        places: Vec::new(),
        note: String::new(),
    }
}

/// What is wrong with cells, places and pots.
fn room() -> Plot {
    let mut plot = Plot::new();
    plot.plant("kale", "box-1", (3, 0, 2, 1), "2027-04-10", "2027-10-01");
    plot.boxed("old-1", "Old box").since = date("2003-04-01");
    plot.place("old-1").until = Some(date("2027-06-01"));
    plot.plant("chard", "old-1", (0, 0, 1, 1), "2027-04-20", "2027-08-01");
    plot.plant("beet", "box-1", (0, 3, 1, 1), "2027-04-15", "2027-07-01").planned.first_pick =
        Some(date("2027-04-01"));
    plot.plant("lettuce", "box-1", (0, 0, 2, 2), "2027-04-10", "2027-06-10");
    plot.plant("radish", "box-1", (1, 1, 1, 1), "2027-04-20", "2027-05-25");
    set_out(&mut plot, "tomato", "box-2", (0, 0, 2, 2), "2027-05-20", "2027-10-05");
    plot.plant("lettuce", "box-2", (0, 0, 1, 1), "2027-06-01", "2027-07-20").layer = Layer::Mate;
    plot.plant("carrot", "box-2", (3, 0, 1, 1), "2027-04-10", "2027-07-01").plants = 40;
    plot.plant("letuce", "box-2", (3, 1, 1, 1), "2027-04-10", "2027-06-01").family = "Asteraceae".into();
    plot.boxed("border-1", "Flower border").tags = vec![Tag::FlowersOnly];
    plot.plant("spinach", "border-1", (0, 0, 1, 1), "2027-04-01", "2027-05-20");
    plot.pot("pot-1", "Small pot", 8.0, "9 in", "10 in");
    set_out(&mut plot, "eggplant", "pot-1", (0, 0, 1, 1), "2027-06-01", "2027-09-20");
    let paved = plot.boxed("box-4", "Paved box");
    paved.on_paving = true;
    paved.shape = Shape::Rect { across: length("4 ft"), down: length("4 ft"), depth: length("6 in") };
    plot.plant("carrot", "box-4", (0, 0, 1, 1), "2027-04-10", "2027-07-01");
    plot.plant("bean-pole", "box-4", (1, 0, 1, 1), "2027-05-25", "2027-09-10");
    plot.plan.wishes = vec![wish(1, "tomato", "3 stems"), wish(2, "moonfruit", "1 kg")];
    plot
}

/// What is wrong with days, soil and sun.
fn year() -> Plot {
    let mut plot = Plot::new();
    plot.plan.raising = vec![RaisingPlace {
        name: "cellar".into(),
        temperature: "46 F".parse().unwrap(),
        cells: 10,
        light: false,
    }];
    set_out(&mut plot, "tomato", "box-1", (0, 0, 2, 2), "2027-04-05", "2027-10-05");
    plot.plan.plantings[0].plants = 12;
    plot.plant("bean", "box-1", (2, 2, 1, 1), "2027-08-25", "2027-10-25");
    plot.plant("bean", "box-2", (0, 0, 1, 1), "2027-04-05", "2027-07-01");
    plot.plant("spinach", "box-2", (1, 0, 1, 1), "2027-07-20", "2027-09-10");
    plot.plant("lettuce", "box-2", (1, 1, 1, 1), "2027-06-20", "2027-08-01");
    plot.plant("spinach", "box-2", (1, 2, 1, 1), "2027-05-20", "2027-07-10");
    plot.plant("kale-baby", "box-2", (1, 3, 1, 1), "2027-10-10", "2027-12-20");
    plot.plant("bean", "box-2", (2, 0, 1, 1), "2027-06-01", "2027-08-01").start = Start::Piece(Piece::Bulb);
    let garlic = plot.plant("garlic", "box-2", (2, 1, 1, 1), "2027-04-20", "2027-07-20");
    garlic.start = Start::Piece(Piece::Clove);
    garlic.planned.set_out = Some(date("2027-04-20"));
    plot.plant("onion", "box-3", (0, 0, 1, 1), "2027-04-01", "2027-08-10");
    plot.plant("sunflower", "box-3", (3, 0, 1, 4), "2027-05-20", "2027-09-01");
    plot.plant("zinnia", "box-3", (2, 0, 1, 4), "2027-05-25", "2027-09-20");
    plot.boxed("box-5", "Wall box");
    plot.plant("zinnia", "box-5", (1, 1, 1, 1), "2027-05-25", "2027-09-20");
    plot.plan.site.obstacles = vec![Obstacle {
        name: "Wall".into(),
        kind: ObstacleKind::Wall,
        x: length("17 ft"),
        y: length("4.5 ft"),
        across: length("40 ft"),
        down: length("1 ft"),
        height: length("14 ft"),
        clear: None,
        bare: None,
    }];
    plot.boxed("box-6", "Dim box").sun_hours = Some(2.5);
    plot.plant("kale", "box-6", (0, 0, 1, 1), "2027-04-10", "2027-10-01");
    plot.plan.settings.hours_a_week = Some(0.2);
    plot.plan.settings.away = vec![Away { from: date("2027-05-24"), to: date("2027-05-30") }];
    plot
}

/// What the past, the neighbours and the soil say.
fn soil() -> Plot {
    let mut plot = Plot::new();
    let whole = (0, 0, 2, 2);
    plot.plant("tomato", "box-1", whole, "2025-05-20", "2025-10-05");
    plot.plant("petunia", "box-1", whole, "2026-05-20", "2026-10-03");
    plot.plant("potato", "box-1", whole, "2027-04-12", "2027-08-10");
    plot.plant("pea", "box-2", whole, "2027-03-20", "2027-06-25");
    plot.plant("pea", "box-2", (0, 0, 1, 1), "2027-08-06", "2027-10-20");
    plot.plant("pea", "box-2", (1, 1, 1, 1), "2027-08-06", "2027-10-20");
    plot.place("box-3").fresh = false;
    plot.note("box-3", "2024-06-01", Event::Trouble("clubroot".into()));
    plot.plant("radish", "box-3", (0, 0, 1, 1), "2027-04-10", "2027-05-20");
    plot.boxed("box-4", "Box 4");
    plot.plant("sunflower", "box-4", (0, 0, 1, 1), "2027-05-20", "2027-08-20");
    plot.plant("bean", "box-4", (0, 1, 1, 1), "2027-05-25", "2027-08-01");
    plot.plant("tomato", "box-4", (1, 0, 2, 2), "2027-05-20", "2027-10-05");
    plot.plant("garlic", "box-4", (1, 2, 1, 1), "2026-11-01", "2027-07-10");
    plot.plant("basil", "box-4", (3, 0, 1, 1), "2027-05-25", "2027-09-05");
    plot.plant("potato", "box-4", (2, 2, 2, 2), "2027-04-12", "2027-08-10");
    plot.plant("carrot", "box-4", (1, 3, 1, 1), "2027-04-10", "2027-07-20");
    plot.plant("dill", "box-4", (0, 3, 1, 1), "2027-04-20", "2027-07-01");
    plot.plan.settings.tradition = true;
    plot.boxed("box-5", "Box 5");
    plot.plant("sweet-pea", "box-5", (0, 0, 1, 2), "2027-04-01", "2027-07-20");
    plot.plant("pea", "box-5", (1, 0, 1, 2), "2027-03-25", "2027-07-01");
    plot.plant("lettuce", "box-5", (3, 3, 1, 1), "2027-04-01", "2027-06-01");
    let manured = plot.boxed("box-6", "Box 6");
    manured.amendments = vec![Amendment { on: date("2027-04-01"), kind: AmendmentKind::RawManure }];
    manured.supports = vec![Support {
        kind: SupportKind::Trellis,
        cells: Block { row: 0, col: 0, rows: 1, cols: 4 },
        height: length("5 ft"),
        from: date("2027-05-01"),
        until: None,
    }];
    let lettuce = plot.plant("lettuce", "box-6", (2, 0, 1, 1), "2027-04-05", "2027-06-20");
    lettuce.planned.first_pick = Some(date("2027-05-25"));
    plot.boxed("bed-1", "City bed").lead = Some(320.0);
    plot.place("bed-1").kind = Kind::OpenBed;
    plot.place("bed-1").since = date("2027-03-20");
    plot.plant("carrot", "bed-1", (0, 0, 1, 1), "2027-04-10", "2027-07-20");
    plot.plant("tomato", "bed-1", (2, 0, 2, 2), "2027-05-20", "2027-10-05");
    plot.boxed("old-1", "Old box").since = date("1999-04-01");
    plot.plant("chard", "old-1", (0, 0, 1, 1), "2027-04-20", "2027-08-01");
    for n in 1..=2 {
        plot.pot(&format!("pot-{n}"), &format!("Pot {n}"), 38.0, "36 cm", "38 cm").on_deck = true;
    }
    plot.plan.settings.load_limit = Some(195.3);
    plot.plan.settings.deck_area = Some(3.6);
    plot
}

/// A place without frost and with hot nights.
fn tropics() -> Plot {
    let mut plot = Plot::new();
    plot.year = &MIAMI;
    set_out(&mut plot, "tomato", "box-1", (0, 0, 2, 2), "2027-06-10", "2027-10-05");
    plot.plant("onion", "box-2", (0, 0, 1, 1), "2027-01-20", "2027-06-10");
    plot.plant("chervil", "box-3", (0, 0, 1, 1), "2027-07-20", "2027-09-10");
    plot
}

/// Winter kills what is green and not hardy.
fn winter() -> Plot {
    static COLD: LazyLock<SiteYear> = LazyLock::new(|| SiteYear::preset("intl-falls-mn").unwrap());
    let mut plot = Plot::new();
    plot.year = &COLD;
    plot.plant("broad-bean-autumn", "box-1", (0, 0, 1, 1), "2027-10-05", "2028-07-10");
    plot
}

fn judged() -> Vec<Finding> {
    let mut out = Vec::new();
    for plot in [room(), year(), soil(), tropics(), winter()] {
        let plot = finish(plot);
        out.extend(check(&Context::whole(&plot.plan, store::book(), plot.year)));
    }
    out
}

#[test]
fn every_rule_speaks_plainly_and_says_what_to_do() {
    let names: Vec<String> = [room(), year(), soil(), tropics(), winter()]
        .iter()
        .flat_map(|p| p.plan.places.iter().map(|p| p.name.clone()).collect::<Vec<_>>())
        .collect();
    let found = judged();
    let silent: Vec<&str> =
        RULES.iter().map(|r| r.code).filter(|code| found.iter().all(|f| f.code != *code)).collect();
    assert!(silent.is_empty(), "no mishap for {silent:?}");
    let jargon = [
        "canopy",
        "percentile",
        "DTM",
        "GDD",
        "catalogue",
        "aceae",
        "_",
        "::",
        "None",
        "NaN",
        "Some(",
        "cell-week",
        "schedule",
        "  ",
        " ,",
        "..",
        "mulch layer",
        "pathogen",
    ];
    for f in &found {
        let text = format!("{} {}", f.words, f.remedy);
        let fail = |why: &str| panic!("{}: {why}: {text}", f.code);
        let say = |ok: bool, why: &str| {
            if !ok {
                fail(why);
            }
        };
        say(f.words.ends_with('.') && f.remedy.ends_with('.'), "ends with a full stop");
        for part in [&f.words, &f.remedy] {
            say(part.chars().next().is_some_and(char::is_uppercase), "begins with a capital");
        }
        say(f.words.chars().any(|c| c.is_ascii_digit()), "names a figure");
        for word in jargon {
            say(!text.contains(word), word);
        }
        for rule in RULES {
            say(!text.contains(rule.code), "holds a code word");
        }
        say(!f.source.is_empty(), "has a source");
        if let Some(place) = &f.place {
            let known = names.iter().any(|n| f.words.contains(n.as_str())) || f.words.contains(&place.0);
            say(known, "names its place");
        }
        if f.planting.is_some() {
            let dated =
                f.words.contains("202") || ["pot-small", "pot-shallow", "roots-cramped"].contains(&f.code);
            let timeless = [
                "too-many-plants",
                "not-meant-here",
                "outside-bed",
                "crop-unknown",
                "soil-lead",
                "take-care",
            ];
            say(dated || timeless.contains(&f.code), "names a day");
        }
        say(text.split(' ').count() <= 95, "is short enough to be read aloud");
    }
}

#[test]
fn what_is_said_has_been_read_by_a_person() {
    let mut text = String::new();
    let found = judged();
    for rule in RULES {
        let mut seen: Vec<String> = Vec::new();
        for f in found.iter().filter(|f| f.code == rule.code) {
            let line = format!("  [{}] {}\n      > {}\n", f.weight.word(), f.words, f.remedy);
            if seen.len() < 3 && !seen.contains(&line) {
                seen.push(line);
            }
        }
        text.push_str(rule.code);
        text.push_str(": ");
        text.push_str(rule.title);
        text.push('\n');
        text.push_str(&seen.concat());
    }
    insta::assert_snapshot!("findings_read_aloud", text);
}
