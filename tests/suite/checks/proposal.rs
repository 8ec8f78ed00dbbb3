//! The judge and the fill agree though they share no code: over random gardens no proposal adds a stop, and share met
//! and idle ground come out alike.

use super::garden::{Plot, Shelf, date, length};
use catchcrop::calendar::MonthDay;
use catchcrop::check::{Context, Weight, check, ground_use, share_met};
use catchcrop::crop::{Book, BreakWeight, CropId};
use catchcrop::fill::{Effort, Request, build, search};
use catchcrop::garden::{Amendment, AmendmentKind, Block, Place, Support, SupportKind, Tag};
use catchcrop::plan::{Event, Pattern, PlantingId, Wish, WishId};
use proptest::prelude::*;
use std::sync::LazyLock;

/// Crops that exercise every hard rule: climbers, pot crops, roots, look-alikes, mates, catch and cover crops.
static BOOK: LazyLock<Book> = LazyLock::new(|| {
    let mut shelf = Shelf::new();
    shelf.family("Amaryllidaceae", "onion family", (2, 3, BreakWeight::Mind), false);
    shelf.change(
        "tomato",
        r#"(part: Fruit, spacing: (dense: "18 in", wide: "24 in"), days: (min: 70, max: 75, from: SettingOut),
            clock: Heat(season: Warm), light: (least: 6, full: 8), height: "6 ft", support: Needs, closes: 40,
            starts: [Raised(weeks: (5, 8), per_station: 1, pot_on: true, harden: 10)],
            germination: Table([(10, 43), (15, 14), (20, 8), (25, 6), (30, 6), (35, 9)]),
            frost: (class: Tender, foliage: "31 F", harvest: "31 F"), root_depth: "35 cm",
            pot: (volume: "10 gal", depth: "14 in", plants: 1), picking: (shape: Steady, days: 60, holds: 0))"#,
    );
    shelf.change("potato", r#"(part: Root, spacing: (dense: "10 in", wide: "12 in"))"#);
    shelf.change(
        "eggplant",
        r#"(part: Fruit, spacing: (dense: "18 in", wide: "18 in"), clock: Heat(season: Warm))"#,
    );
    shelf.change(
        "pea",
        r#"(part: Pod, spacing: (dense: "2 in", wide: "4 in"), height: "5 ft", support: Needs)"#,
    );
    shelf.change("bean", r#"(part: Pod, spacing: (dense: "4 in", wide: "6 in"), clock: Heat(season: Warm))"#);
    shelf.change(
        "radish",
        r#"(part: Root, spacing: (dense: "2 in", wide: "3 in"), catch: true, soil_contact: true,
        days: (min: 25, max: 30, from: Sowing), picking: (shape: Once, days: 7, holds: 7),
        mates: [(main: "tomato", when: UntilClosed), (main: "kale", when: Always)])"#,
    );
    shelf.change(
        "lettuce",
        r#"(catch: true, soil_contact: true, mates: [(main: "tomato", when: UntilClosed)])"#,
    );
    shelf.change("kale", r#"(spacing: (dense: "15 in", wide: "18 in"), pot: None)"#);
    shelf.entry("corn").pot = Some(None);
    shelf.add("sweet-pea", "Sweet pea", "Fabaceae", r#"(uses: [CutFlower], part: Nothing, cautions: [
        (kind: NotFood, words: "Poisonous.", src: "L"), (kind: LooksLike(["pea"]), words: "Like peas.", src: "L")])"#);
    shelf.add("onion", "Onion", "Amaryllidaceae", "(part: Bulb)");
    shelf.trouble(
        r#"(id: "clubroot", name: "Clubroot", agent: "Plasmodiophora brassicae", kind: SoilDisease,
            hosts: ["Brassicaceae"], also_on: "", advised: 7, least: 7, survives: "long", remedy: "Lime.", src: [])"#,
    );
    shelf.book()
});

const CROPS: [&str; 13] = [
    "tomato",
    "eggplant",
    "potato",
    "petunia",
    "pea",
    "bean",
    "kale",
    "radish",
    "lettuce",
    "zinnia",
    "corn",
    "sweet-pea",
    "onion",
];
const FAMILIES: [&str; 5] = ["Solanaceae", "Fabaceae", "Brassicaceae", "Asteraceae", "Amaryllidaceae"];

/// What a random garden is made of, as plain numbers.
#[derive(Debug, Clone)]
struct Draft {
    places: Vec<(u8, u8, u8, u8, u8)>,
    record: Vec<(u8, u8, u8)>,
    wishes: Vec<(u8, u8, u8, u8)>,
    fixed: Vec<(u8, u8, u8, u8)>,
    by_cell: bool,
}

fn draft() -> impl Strategy<Value = Draft> {
    (
        prop::collection::vec((0_u8..12, 0_u8..4, 0_u8..6, 0_u8..5, 0_u8..4), 1..5),
        prop::collection::vec((0_u8..5, 0_u8..5, 0_u8..3), 0..5),
        prop::collection::vec((0_u8..13, 0_u8..6, 0_u8..3, 1_u8..6), 1..6),
        prop::collection::vec((0_u8..13, 0_u8..5, 0_u8..4, 0_u8..20), 0..3),
        prop::bool::weighted(0.2),
    )
        .prop_map(|(places, record, wishes, fixed, by_cell)| Draft {
            places,
            record,
            wishes,
            fixed,
            by_cell,
        })
}

fn dress(place: &mut Place, (_, tag, soil, sun, support): (u8, u8, u8, u8, u8)) {
    match tag {
        1 => place.tags = vec![Tag::FlowersOnly],
        2 => place.tags = vec![Tag::FoodOnly],
        3 => place.tags = vec![Tag::Families(vec!["Brassicaceae".into(), "Fabaceae".into()])],
        _ => {}
    }
    match soil {
        1 => place.amendments = vec![Amendment { on: date("2027-04-01"), kind: AmendmentKind::RawManure }],
        2 => place.lead = Some(250.0),
        3 => place.refilled = vec![date("2027-06-01")],
        4 => place.on_paving = true,
        5 => place.until = Some(date("2027-08-15")),
        _ => {}
    }
    place.sun_hours = [None, None, Some(7.0), Some(5.0), Some(2.5)][usize::from(sun)];
    if support > 1 {
        place.supports = vec![Support {
            kind: SupportKind::Trellis,
            cells: Block { row: 0, col: 0, rows: 2, cols: 4 },
            height: length(if support == 2 { "3 ft" } else { "6 ft" }),
            from: date("2026-04-01"),
            until: None,
        }];
    }
}

fn garden(draft: &Draft) -> Plot {
    let mut plot = Plot::new();
    plot.plan.places.clear();
    for (n, spec) in draft.places.iter().enumerate() {
        let (id, name) = (format!("place-{n}"), format!("Place {n}"));
        let place = match spec.0 {
            0 => plot.pot(&id, &name, 8.0, "9 in", "10 in"),
            1 => plot.pot(&id, &name, 40.0, "15 in", "16 in"),
            2 => plot.pot(&id, &name, 120.0, "18 in", "30 in"),
            _ => plot.boxed(&id, &name),
        };
        dress(place, *spec);
    }
    let at = |n: u8| format!("place-{}", usize::from(n) % draft.places.len());
    for (place, family, year) in &draft.record {
        let year = 2024 + i32::from(*year);
        plot.stood(
            &at(*place),
            "",
            FAMILIES[usize::from(*family)],
            &format!("{year}-05-01"),
            &format!("{year}-09-20"),
        );
    }
    if draft.record.len() > 3 {
        plot.note(&at(1), "2025-06-01", Event::Trouble("clubroot".into()));
    }
    for (n, (crop, month, pattern, importance)) in draft.wishes.iter().enumerate() {
        let first = 5 + *month;
        plot.plan.wishes.push(Wish {
            id: WishId(u32::try_from(n).unwrap() + 1),
            crop: CropId::new(CROPS[usize::from(*crop)]),
            amount: "600 g".parse().unwrap(),
            pattern: [Pattern::Even, Pattern::AtOnce, Pattern::Store][usize::from(*pattern)],
            from: MonthDay { month: first, day: 1 },
            to: MonthDay { month: first + 1, day: 20 },
            season: None,
            importance: *importance,
            places: Vec::new(),
            note: String::new(),
        });
    }
    for (crop, place, cell, week) in &draft.fixed {
        let from = catchcrop::calendar::plus(date("2027-04-03"), 7 * i64::from(*week) + i64::from(*cell));
        let to = catchcrop::calendar::plus(from, 60);
        let place = at(*place);
        let cells = (u16::from(*cell) / 2, u16::from(*cell) % 2, 1, 1);
        let cells =
            if plot.plan.places.iter().any(|p| p.id.0 == place && p.is_pot()) { (0, 0, 1, 1) } else { cells };
        let planting =
            plot.plant(CROPS[usize::from(*crop)], &place, cells, &from.to_string(), &to.to_string());
        planting.fixed = true;
    }
    plot.plan.settings.rotation_by_cell = draft.by_cell;
    plot
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_proposal_adds_a_stop_and_both_count_alike(draft in draft()) {
        let mut plot = garden(&draft);
        let from = date("2027-03-01");
        let old: Vec<PlantingId> = plot.plan.plantings.iter().map(|p| p.id).collect();
        let built = build(&plot.plan, &BOOK, plot.year, Request::from(from));
        let out = search(&built.problem, &Effort::Quick, 7, &mut |_| {});
        let proposal = built.proposal(&out);
        drop(built);
        plot.plan.apply(&proposal.edit()).unwrap();
        let context = Context::whole(&plot.plan, &BOOK, plot.year);
        for f in check(&context).iter().filter(|f| f.weight == Weight::Stop) {
            let new = f.plantings.iter().find(|id| !old.contains(id));
            prop_assert!(new.is_none(), "{}: {}", f.code, f.words);
        }
        let met = share_met(&context, from);
        prop_assert!((met.share - proposal.share).abs() < 0.005, "met {} and {}: {:?} {:?}", met.share, proposal.share, met.wishes, proposal.wishes);
        let ground = ground_use(&context, from);
        let theirs = (proposal.idle, proposal.covered, proposal.growing);
        let ours = (ground.idle as u64, ground.covered as u64, ground.growing as u64);
        // The fill counts the cells of a place that is taken away to the end of the season.
        let stays = plot.plan.places.iter().all(|p| p.until.is_none());
        prop_assert!(!stays || ours == theirs, "ground {ours:?} and {theirs:?}");
    }
}
