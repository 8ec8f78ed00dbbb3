//! A garden that was kept for ten years: what it costs to open, and to work with.

use catchcrop::calendar::{Date, plus};
use catchcrop::crop::Start;
use catchcrop::garden::{Block, Layer};
use catchcrop::growth::{Dates, Stage};
use catchcrop::plan::{DiaryEntry, Event, Plan, Planting, PlantingId, Why};
use catchcrop::store;
use catchcrop::units::{Amount, Measure, num};

const CROPS: [&str; 8] = ["radish", "lettuce", "bean", "carrot", "beet", "spinach", "pea", "kale"];

/// The courtyard with every cell of its beds planted twice a year for ten years, sown, picked twice and cleared by the
/// diary.
pub(crate) fn ten_years() -> Plan {
    let text = include_str!("../../plans/courtyard.ron");
    let mut plan = store::read_plan("courtyard.ron", text, store::book()).expect("the example opens").0;
    plan.plantings.clear();
    let first = Date::from_ymd_opt(2017, 4, 1).unwrap_or_default();
    for place in &mut plan.places {
        place.since = place.since.min(plus(first, -30));
        place.refilled.clear();
    }
    let places = plan.places.clone();
    let mut count = 0_usize;
    for year in 0..10 {
        for place in places.iter().filter(|p| !p.is_pot()) {
            let (rows, cols) = place.grid(plan.settings.cell);
            for (row, col) in (0..rows).flat_map(|r| (0..cols).map(move |c| (r, c))) {
                for half in 0..2 {
                    let sown = plus(first, 365 * year + 90 * half + i64::from((row + col) % 4) * 7);
                    count += 1;
                    stand(&mut plan, count, (&place.id, Block::cell(row, col)), sown);
                }
            }
        }
    }
    plan.closed = (2017..2026).collect();
    plan
}

fn stand(plan: &mut Plan, n: usize, (place, block): (&catchcrop::garden::PlaceId, Block), sown: Date) {
    let book = store::book();
    let Ok(crop) = book.named(CROPS[n % CROPS.len()]) else { return };
    let id = PlantingId(num::word(n));
    let dates = Dates {
        sown: Some(sown),
        emerged: Some(plus(sown, 9)),
        closed: Some(plus(sown, 35)),
        first_pick: Some(plus(sown, 55)),
        last_pick: Some(plus(sown, 76)),
        cleared: Some(plus(sown, 80)),
        ..Dates::default()
    };
    plan.plantings.push(Planting {
        id,
        crop: crop.id.clone(),
        name: crop.name.clone(),
        botanical: crop.botanical.clone(),
        family: crop.family.clone(),
        place: place.clone(),
        block,
        layer: Layer::Main,
        start: Start::InPlace,
        plants: 9,
        planned: dates,
        shift: None,
        real: Dates {
            sown: dates.sown,
            first_pick: dates.first_pick,
            cleared: dates.cleared,
            ..Dates::default()
        },
        fixed: false,
        why: Why::Hand,
        failed: None,
        note: String::new(),
    });
    let picked = |grams| Event::Picked(Amount::grams(grams, Measure::Metric));
    let told = [
        (sown, Event::Done(Stage::Sown)),
        (plus(sown, 55), picked(250.0)),
        (plus(sown, 66), picked(180.0)),
        (plus(sown, 80), Event::Done(Stage::Cleared)),
    ];
    for (on, what) in told {
        let id = num::word(plan.diary.len()) + 1;
        let place = Some(place.clone());
        let planting = Some(PlantingId(num::word(n)));
        plan.diary.push(DiaryEntry { id, on, planting, place, what, words: String::new(), corrects: None });
    }
}
