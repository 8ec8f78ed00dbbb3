//! Plans: edits that come back, the history tree, soils and seasons.

use catchcrop::calendar::{Date, MonthDay, plus, read_date};
use catchcrop::crop::{CropId, Start};
use catchcrop::garden::{Block, Kind, Layer, Place, PlaceId, Point, Shape};
use catchcrop::growth::Dates;
use catchcrop::plan::{
    Edit, EditError, History, Pattern, Plan, Planting, PlantingId, Settings, Why, Wish, WishId,
};
use catchcrop::site::SiteSpec;
use catchcrop::units::{Length, LengthUnit, Measure};
use proptest::prelude::*;

fn ft(value: f64) -> Length {
    Length::new(value, LengthUnit::Ft)
}
fn day(text: &str) -> Date {
    read_date(text).unwrap()
}

pub(crate) fn bed(id: &str, across: f64, down: f64) -> Place {
    Place {
        fresh: true,
        ..Place::new(
            PlaceId::new(id),
            id,
            Kind::Box,
            Point { x: ft(0.0), y: ft(0.0) },
            Shape::Rect { across: ft(across), down: ft(down), depth: ft(1.0) },
            day("2024-03-01"),
        )
    }
}

fn planting(id: u32, place: &str, block: Block, from: Date, days: i64) -> Planting {
    Planting {
        id: PlantingId(id),
        crop: CropId::new("leek"),
        name: String::from("leek"),
        botanical: String::from("Allium ampeloprasum"),
        family: String::from("Amaryllidaceae"),
        place: PlaceId::new(place),
        block,
        layer: Layer::Main,
        start: Start::InPlace,
        plants: 4,
        planned: Dates { sown: Some(from), cleared: Some(plus(from, days)), ..Dates::default() },
        shift: None,
        real: Dates::default(),
        fixed: false,
        why: Why::Hand,
        failed: None,
        note: String::new(),
    }
}

fn garden() -> Plan {
    let mut plan = Plan::new("test", SiteSpec::default(), Settings::for_measure(Measure::Us));
    plan.places = vec![bed("box-1", 4.0, 4.0), bed("box-2", 4.0, 8.0)];
    plan
}

#[test]
fn undo_says_what_it_took_back() {
    let mut plan = garden();
    let mut history = History::new();
    let start = plan.clone();
    let leek = planting(1, "box-1", Block::cell(0, 0), day("2027-04-01"), 90);
    history.commit(&mut plan, Edit::Planting(leek.id, Some(Box::new(leek.clone())))).unwrap();
    let mut moved = leek.clone();
    moved.place = PlaceId::new("box-2");
    let label = history.commit(&mut plan, Edit::Planting(leek.id, Some(Box::new(moved)))).unwrap();
    assert_eq!(label, "moved leek from box-1 to box-2");
    let mut later = plan.planting(leek.id).unwrap().clone();
    later.planned.sown = Some(day("2027-04-15"));
    let label = history.commit(&mut plan, Edit::Planting(leek.id, Some(Box::new(later)))).unwrap();
    assert_eq!(label, "moved leek in box-2 A1 2 weeks later");
    assert!(history.is_dirty());
    assert_eq!(history.undo(&mut plan).unwrap().as_deref(), Some("moved leek in box-2 A1 2 weeks later"));
    assert_eq!(history.undo(&mut plan).unwrap().as_deref(), Some("moved leek from box-1 to box-2"));
    assert_eq!(history.redo(&mut plan).unwrap().as_deref(), Some("moved leek from box-1 to box-2"));
    while history.undo(&mut plan).unwrap().is_some() {}
    assert_eq!(plan, start);
    assert!(!history.is_dirty());
}

#[test]
fn edits_that_do_not_fit_change_nothing() {
    let mut plan = garden();
    let before = plan.clone();
    let outside = planting(1, "box-1", Block { row: 3, col: 3, rows: 2, cols: 1 }, day("2027-04-01"), 9);
    let error = plan.apply(&Edit::Planting(PlantingId(1), Some(Box::new(outside)))).unwrap_err();
    assert_eq!(error.to_string(), "leek was to take D4-D5 of box-1, which has 4 x 4 cells");
    let nowhere = planting(1, "box-9", Block::cell(0, 0), day("2027-04-01"), 9);
    assert!(matches!(
        plan.apply(&Edit::Planting(PlantingId(1), Some(Box::new(nowhere)))),
        Err(EditError::NoPlace { .. })
    ));
    let back = planting(1, "box-1", Block::cell(0, 0), day("2027-04-01"), -3);
    let good = planting(2, "box-1", Block::cell(1, 0), day("2027-04-01"), 30);
    let batch = Edit::Batch(
        String::from("planted two"),
        vec![
            Edit::Planting(PlantingId(2), Some(Box::new(good))),
            Edit::Planting(PlantingId(1), Some(Box::new(back))),
        ],
    );
    assert!(matches!(plan.apply(&batch), Err(EditError::Dates { .. })));
    assert_eq!(plan, before, "the good half of a bad batch is taken back");
}

#[test]
fn a_bed_in_use_is_not_taken_away() {
    let mut plan = garden();
    let leek = planting(1, "box-1", Block::cell(0, 0), day("2027-04-01"), 90);
    plan.apply(&Edit::Planting(leek.id, Some(Box::new(leek)))).unwrap();
    assert!(matches!(plan.apply(&Edit::Place(PlaceId::new("box-1"), None)), Err(EditError::InUse { .. })));
    assert!(plan.apply(&Edit::Place(PlaceId::new("box-2"), None)).is_ok());
}

#[test]
fn new_mix_is_another_soil() {
    let mut place = bed("box-1", 4.0, 4.0);
    place.refilled = vec![day("2026-03-01")];
    assert_ne!(place.soil_on(day("2025-07-01")), place.soil_on(day("2027-07-01")));
    assert_eq!(place.soil_since(&place.soil_on(day("2027-07-01"))), (day("2026-03-01"), true));
    assert_eq!(place.soil_since(&place.soil_on(day("2025-07-01"))), (day("2024-03-01"), true));
}

#[derive(Debug, Clone)]
enum Step {
    Plant(u32, bool, u16, u16, i64, i64),
    Remove(u32),
    Wish(u32, u8),
    DropWish(u32),
    Rename(bool, u8),
    Undo,
    Redo,
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        4 => (1_u32..8, any::<bool>(), 0_u16..5, 0_u16..5, -40_i64..300, -20_i64..200)
            .prop_map(|(id, first, row, col, from, days)| Step::Plant(id, first, row, col, from, days)),
        1 => (1_u32..8).prop_map(Step::Remove),
        1 => (1_u32..4, 1_u8..6).prop_map(|(id, importance)| Step::Wish(id, importance)),
        1 => (1_u32..4).prop_map(Step::DropWish),
        1 => (any::<bool>(), 0_u8..3).prop_map(|(first, n)| Step::Rename(first, n)),
        2 => Just(Step::Undo),
        1 => Just(Step::Redo),
    ]
}

fn edit_of(step: &Step, plan: &Plan) -> Option<Edit> {
    let place = |first: &bool| if *first { "box-1" } else { "box-2" };
    Some(match step {
        Step::Plant(id, first, row, col, from, days) => {
            let from = plus(day("2027-01-01"), *from);
            let new = planting(*id, place(first), Block::cell(*row, *col), from, *days);
            Edit::Planting(PlantingId(*id), Some(Box::new(new)))
        }
        Step::Remove(id) => Edit::Planting(PlantingId(*id), None),
        Step::Wish(id, importance) => Edit::Wish(
            WishId(*id),
            Some(Box::new(Wish {
                id: WishId(*id),
                crop: CropId::new("leek"),
                amount: "1 kg".parse().unwrap(),
                pattern: Pattern::Even,
                from: MonthDay::new(5, 1).unwrap(),
                to: MonthDay::new(9, 1).unwrap(),
                season: None,
                importance: *importance,
                places: Vec::new(),
                note: String::new(),
            })),
        ),
        Step::DropWish(id) => Edit::Wish(WishId(*id), None),
        Step::Rename(first, n) => {
            let mut new = plan.place(&PlaceId::new(place(first)))?.clone();
            new.name = format!("name {n}");
            Edit::Place(new.id.clone(), Some(Box::new(new)))
        }
        Step::Undo | Step::Redo => return None,
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn undoing_everything_returns_the_start(steps in proptest::collection::vec(step(), 0..40)) {
        let mut plan = garden();
        let start = plan.clone();
        let mut history = History::new();
        for step in &steps {
            match step {
                Step::Undo => { history.undo(&mut plan).unwrap(); }
                Step::Redo => { history.redo(&mut plan).unwrap(); }
                Step::Plant(..) | Step::Remove(_) | Step::Wish(..) | Step::DropWish(_) | Step::Rename(..) => {
                    let before = plan.clone();
                    let edit = edit_of(step, &plan).unwrap();
                    if history.commit(&mut plan, edit).is_err() {
                        prop_assert_eq!(&plan, &before);
                    }
                }
            }
        }
        let end = plan.clone();
        let mut taken = 0;
        while history.undo(&mut plan).unwrap().is_some() { taken += 1; }
        prop_assert_eq!(&plan, &start);
        for _ in 0..taken { history.redo(&mut plan).unwrap(); }
        prop_assert_eq!(&plan, &end);
    }
}
