//! Real weather in place of the expected: dates of what stands move with the warmth it has had.

use super::forecast::{Forecast, forecast, shift_words};
use crate::calendar::{days_between, plus};
use crate::crop::{Book, Clock, Crop, Start};
use crate::growth::{Conditions, Dates, Stage, age, following};
use crate::plan::{Edit, Plan, Planting};
use crate::site::{SiteYear, Weather};
use std::sync::Arc;

/// New dates of what has begun and is not yet picked, from the weather that has been and expected weather after it;
/// and of what follows in the same cells.
///
/// Emergence, canopy and first picking are what growth says they are now, and the harvest keeps its length, so that
/// taking the same weather up again moves nothing.
pub fn weathered(plan: &Plan, book: &Book, year: &SiteYear, weather: &Arc<Weather>) -> Forecast {
    let open = plan.conditions(book, year).lived(Arc::clone(weather));
    let mut now = plan.clone();
    let mut moved = Vec::new();
    let mut edits = Vec::new();
    for planting in &plan.plantings {
        let Some(crop) = book.get(&planting.crop) else { continue };
        let Some(planned) = lived(planting, crop, &plan.conditions_of(&open, planting, crop), weather) else {
            continue;
        };
        if planned == planting.planned {
            continue;
        }
        let new = Planting { planned, ..planting.clone() };
        moved.push(shift_words(plan, planting, &new));
        edits.push(Edit::Planting(new.id, Some(Box::new(new))));
    }
    let own = Edit::Batch("took the weather up".to_owned(), edits);
    if now.apply(&own).is_err() {
        return Forecast {
            edit: Edit::Batch("nothing moves".to_owned(), Vec::new()),
            moved: Vec::new(),
            conflicts: Vec::new(),
        };
    }
    let after = forecast(&now, book, year);
    moved.extend(after.moved.iter().cloned());
    let words = match moved.len() {
        0 => "nothing moves".to_owned(),
        1 => "moved the dates of 1 planting by the weather".to_owned(),
        n => format!("moved the dates of {n} plantings by the weather"),
    };
    Forecast { edit: Edit::Batch(words, vec![own, after.edit]), moved, conflicts: after.conflicts }
}

/// The planned dates of a planting as the weather has it; none where it tells nothing of it.
fn lived(planting: &Planting, crop: &Crop, conditions: &Conditions<'_>, weather: &Weather) -> Option<Dates> {
    let begins = planting.begins()?;
    let over =
        planting.real.first_pick.is_some() || planting.real.cleared.is_some() || planting.failed.is_some();
    let grows = matches!(crop.clock, Clock::Heat { .. });
    let known = begins <= weather.last() && planting.planned.first_pick.is_some_and(|d| d >= weather.first());
    if over || !grows || !known {
        return None;
    }
    let start = match planting.start {
        Start::Raised { .. } => plus(begins, -age(planting.start)),
        Start::InPlace | Start::Bought | Start::Piece(_) => begins,
    };
    let mut real = planting.real;
    if matches!(planting.start, Start::Raised { .. }) && real.set_out.is_none() {
        real.set_out = Some(begins);
    }
    let dates = following(crop, conditions, planting.start, start, &real).schedule?.dates;
    let (old, first) = (planting.planned.first_pick?, dates.first_pick?);
    let mut out = planting.planned;
    for stage in [Stage::Emerged, Stage::Closed, Stage::FirstPick] {
        if planting.planned.of(stage).is_some() && planting.real.of(stage).is_none() {
            out.put(stage, dates.of(stage));
        }
    }
    for stage in [Stage::LastPick, Stage::Cleared] {
        out.put(stage, planting.planned.of(stage).map(|d| plus(d, days_between(old, first))));
    }
    Some(out)
}
