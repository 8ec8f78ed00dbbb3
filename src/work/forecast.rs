//! Real dates in place of forecasts: later stages move, and what follows in the same cells is pushed.

use super::amounts::inside;
use super::close::frozen;
use crate::calendar::{Date, Week, day_text, days_between, plus};
use crate::crop::{Book, Crop, Start};
use crate::growth::{Conditions, Dates, Stage, age, outlook};
use crate::plan::{Edit, Plan, Planting};
use crate::site::SiteYear;

/// Times the plan is gone through: a push may push in its turn.
const ROUNDS: usize = 12;

/// What follows from the diary.
#[derive(Debug, Clone, PartialEq)]
pub struct Forecast {
    /// The new dates as one edit.
    pub edit: Edit,
    /// What moves, in words.
    pub moved: Vec<String>,
    /// What cannot move and is in the way, in words.
    pub conflicts: Vec<String>,
}

impl Forecast {
    /// Whether nothing moves.
    pub const fn is_still(&self) -> bool {
        self.moved.is_empty()
    }
}

/// New dates of everything that follows from what really happened.
///
/// A real date replaces the forecast, and later stages move by as much as growth from the real start differs from
/// growth from the planned one, so that a margin once planned is kept. A planting that has not begun and would stand
/// in the same cells is pushed to the first garden day on which they are free; one that is fixed, has begun or would
/// not succeed then is a conflict.
pub fn forecast(plan: &Plan, book: &Book, year: &SiteYear) -> Forecast {
    // Without the garden's own days, which would count what is told a second time: see `Plan::choices`.
    let conditions = plan.choices(year);
    let mut now = plan.plantings.clone();
    // The record of a closed season stays as it is.
    let frozen = frozen(plan, year);
    let over = |p: &Planting| p.ends().zip(frozen).is_some_and(|(end, last)| end <= last);
    for planting in now.iter_mut().filter(|p| !over(p)) {
        // From the dates as they were meant, so that a corrected entry moves everything back.
        let dates = redated(planting, book.get(&planting.crop), &conditions);
        planting.move_to(dates);
    }
    let mut conflicts = Vec::new();
    for _ in 0..ROUNDS {
        // What an earlier round could not move may be out of the way by now.
        conflicts.clear();
        if !push_all(plan, book, &conditions, &mut now, &mut conflicts) {
            break;
        }
    }
    let mut edits = Vec::new();
    let mut moved = Vec::new();
    for (old, new) in plan.plantings.iter().zip(&now) {
        if old == new {
            continue;
        }
        moved.push(shift_words(plan, old, new));
        edits.push(Edit::Planting(new.id, Some(Box::new(new.clone()))));
    }
    let words = match moved.len() {
        0 => "nothing moves".to_owned(),
        1 => "moved the dates of 1 planting".to_owned(),
        n => format!("moved the dates of {n} plantings"),
    };
    conflicts.sort();
    conflicts.dedup();
    Forecast { edit: Edit::Batch(words, edits), moved, conflicts }
}

/// Pushes each planting that has not begun out of the way of one that has. Whether anything moved.
fn push_all(
    plan: &Plan,
    book: &Book,
    conditions: &Conditions<'_>,
    now: &mut [Planting],
    conflicts: &mut Vec<String>,
) -> bool {
    let mut order: Vec<usize> = (0..now.len()).collect();
    order.sort_by_key(|n| (now[*n].begins(), now[*n].id));
    let mut changed = false;
    for (at, first) in order.iter().enumerate() {
        for second in order.iter().skip(at + 1) {
            let (a, b) = (&now[*first], &now[*second]);
            // Only what the diary moved pushes: overlaps planned by hand are the check's business.
            let told = |p: &Planting| !p.real.is_empty() || p.shift.is_some();
            if !a.collides(b) || !(told(a) || told(b)) {
                continue;
            }
            let Some(free) = a.ends() else {
                let (one, two) = (inside(&a.name), inside(&b.name));
                conflicts.push(format!(
                    "{two} wants cells of {one} in {} {}, which stands for years",
                    b.place, b.block
                ));
                continue;
            };
            match pushed(plan, book, conditions, (a, b), free) {
                Ok(planting) => {
                    now[*second] = planting;
                    changed = true;
                }
                Err(words) => conflicts.push(words),
            }
        }
    }
    changed
}

/// The second of two plantings, begun when the first is cleared; or why not.
fn pushed(
    plan: &Plan,
    book: &Book,
    conditions: &Conditions<'_>,
    (a, b): (&Planting, &Planting),
    free: Date,
) -> Result<Planting, String> {
    let place = plan.place(&b.place).map_or_else(|| b.place.to_string(), |p| p.name.clone());
    let (one, two) = (inside(&a.name), inside(&b.name));
    let clash =
        format!("{two} in {place} {} wants the cells before {one} is cleared ({})", b.block, day_text(free));
    if !b.real.is_empty() || b.failed.is_some() {
        return Err(format!("{clash}, and it has begun"));
    }
    if b.fixed {
        return Err(format!("{clash}, and it is fixed"));
    }
    let mut day = Week::of(free).day(plan.settings.garden_day);
    if day < free {
        day = plus(day, 7);
    }
    let Some(begins) = b.begins() else { return Err(clash) };
    let by = days_between(begins, day);
    let mut out = b.clone();
    let Some(crop) = book.get(&b.crop) else {
        out.move_to(shifted(&b.planned, by));
        return Ok(out);
    };
    let (was, will) = (start_day(b.start, begins), start_day(b.start, day));
    let (old, new) = (outlook(crop, conditions, b.start, was), outlook(crop, conditions, b.start, will));
    // What already spoke against it before is not the push's fault.
    if let Some(refusal) = new.against.last().filter(|_| old.against.is_empty()) {
        return Err(format!("{clash}; pushed to {} {}", day_text(day), refusal.words(plan.settings.measure)));
    }
    let before = old.schedule.map(|s| s.dates).unwrap_or_default();
    let after = new.schedule.map(|s| s.dates).unwrap_or_default();
    let mut dates = b.planned;
    for stage in Stage::ALL {
        let off = before.of(stage).zip(after.of(stage)).map_or(by, |(x, y)| days_between(x, y));
        let off = if stage <= Stage::SetOut { by } else { off };
        dates.put(stage, b.planned.of(stage).map(|d| plus(d, off)));
    }
    out.move_to(in_order(&dates, &out.real));
    Ok(out)
}

/// The day on which dates let a planting take its cells.
fn planned_begin(start: Start, planned: &Dates) -> Option<Date> {
    match start {
        Start::InPlace => planned.sown.or(planned.set_out),
        Start::Raised { .. } | Start::Bought | Start::Piece(_) => planned.set_out.or(planned.sown),
    }
}

fn start_day(start: Start, begins: Date) -> Date {
    plus(begins, -age(start))
}

fn shifted(dates: &Dates, days: i64) -> Dates {
    let mut out = *dates;
    for stage in Stage::ALL {
        out.put(stage, dates.of(stage).map(|d| plus(d, days)));
    }
    out
}

/// Dates of a planting once its real ones are taken up, from those it was meant to have: stage by stage, as they
/// happened, so that what a late beginning did to growth stays when the next stage is told.
pub(super) fn redated(planting: &Planting, crop: Option<&Crop>, conditions: &Conditions<'_>) -> Dates {
    let mut dates = planting.meant();
    let mut known = Dates::default();
    for stage in Stage::ALL {
        if let Some(day) = planting.real.of(stage) {
            known.put(stage, Some(day));
            dates = followed(planting, (&dates, &known, stage), crop, conditions);
        }
    }
    dates
}

/// Dates after the last stage that really happened, moved by it.
fn followed(
    planting: &Planting,
    (planned, real, last): (&Dates, &Dates, Stage),
    crop: Option<&Crop>,
    conditions: &Conditions<'_>,
) -> Dates {
    let mut out = planned.with(real);
    let delta = real.of(last).zip(planned.of(last)).map_or(0, |(r, p)| days_between(p, r));
    if delta == 0 {
        return in_order(&out, real);
    }
    let (mut was, mut will) = (planned_begin(planting.start, planned), None);
    match planting.start {
        Start::Raised { weeks: (young, _), .. } if last < Stage::SetOut => {
            // A late sowing is set out on its day all the same, as long as the plants are old enough.
            let ripe = out.sown.map(|d| plus(d, 7 * i64::from(young)));
            let set_out = planned.set_out.map(|d| ripe.map_or(d, |r| d.max(r)));
            for stage in [Stage::Emerged, Stage::Potted, Stage::Hardened] {
                if stage > last {
                    out.put(stage, planned.of(stage).map(|d| plus(d, delta)));
                }
            }
            out.set_out = set_out.map(|d| real.of(last).map_or(d, |r| d.max(r)));
            if let Some(out_on) = out.set_out {
                out.hardened =
                    real.hardened.or_else(|| planned.hardened.map(|d| d.max(plus(out_on, -14)).min(out_on)));
            }
            will = out.set_out;
        }
        Start::InPlace | Start::Raised { .. } | Start::Bought | Start::Piece(_) if last <= Stage::SetOut => {
            will = was.map(|d| plus(d, delta));
        }
        Start::InPlace | Start::Raised { .. } | Start::Bought | Start::Piece(_) => was = None,
    }
    let grown = |begins: Option<Date>| {
        let on = start_day(planting.start, begins?);
        outlook(crop?, conditions, planting.start, on).schedule.map(|s| s.dates)
    };
    let (before, after) = (grown(was).unwrap_or_default(), grown(will).unwrap_or_default());
    let plain = was.zip(will).map_or(delta, |(x, y)| days_between(x, y));
    for stage in Stage::ALL.into_iter().filter(|s| *s > last && real.of(*s).is_none()) {
        if stage <= Stage::SetOut && will.is_some() && matches!(planting.start, Start::Raised { .. }) {
            continue;
        }
        let off = before.of(stage).zip(after.of(stage)).map_or(plain, |(x, y)| days_between(x, y));
        out.put(stage, planned.of(stage).map(|d| plus(d, off)));
    }
    in_order(&out, real)
}

/// Dates in the order of the stages: real ones stay, forecasts give way.
fn in_order(dates: &Dates, real: &Dates) -> Dates {
    let mut out = *dates;
    let mut low: Option<Date> = None;
    for stage in Stage::ALL {
        if let (Some(date), None) = (out.of(stage), real.of(stage)) {
            out.put(stage, Some(low.map_or(date, |l| date.max(l))));
        }
        low = out.of(stage).max(low);
    }
    let mut high: Option<Date> = None;
    for stage in Stage::ALL.into_iter().rev() {
        if let (Some(date), None) = (out.of(stage), real.of(stage)) {
            out.put(stage, Some(high.map_or(date, |h| date.min(h))));
        }
        high = match (out.of(stage), high) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        };
    }
    out
}

/// "bean in Long box A1: first picking 6 days later (22 Jul), cleared 9 days later (14 Aug)".
pub(super) fn shift_words(plan: &Plan, old: &Planting, new: &Planting) -> String {
    let place = plan.place(&new.place).map_or_else(|| new.place.to_string(), |p| p.name.clone());
    let mut parts = Vec::new();
    for stage in [Stage::Sown, Stage::SetOut, Stage::FirstPick, Stage::Cleared] {
        let (Some(a), Some(b)) = (old.dates().of(stage), new.dates().of(stage)) else { continue };
        let days = days_between(a, b);
        if days == 0 {
            continue;
        }
        let way = if days > 0 { "later" } else { "earlier" };
        let unit = if days.abs() == 1 { "day" } else { "days" };
        parts.push(format!("{} {} {unit} {way} ({})", stage.word(), days.abs(), day_text(b)));
    }
    if parts.is_empty() {
        parts.push("its dates are taken up".to_owned());
    }
    format!("{} in {place} {}: {}", inside(&new.name), new.block, parts.join(", "))
}
