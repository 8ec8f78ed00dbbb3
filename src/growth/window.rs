//! Backwards: from a day of harvest to the start, and through the year to the stretches in which starts succeed.

use super::conditions::Conditions;
use super::need::age;
use super::schedule::{Schedule, outlook, schedule};
use crate::calendar::{Date, days_between, plus};
use crate::crop::{Crop, Start};

/// Days looked back for a start.
const BACK: i64 = 500;

/// A stretch of the year in which a start succeeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// How it is started.
    pub start: Start,
    /// First day to sow, in place or in the raising place, or to plant.
    pub first: Date,
    /// Last day.
    pub last: Date,
    /// The same for setting out raised plants; equal to `first` elsewhere.
    pub out_first: Date,
    /// Last day of setting out.
    pub out_last: Date,
    /// Chance that the last start ripens before a killing frost.
    pub chance_at_last: f64,
    /// First picking of the first start.
    pub ready_first: Date,
    /// First picking of the last start.
    pub ready_last: Date,
}

/// The stretches in which starts of a crop succeed, each way of starting by itself, in the year from `from` on.
///
/// A stretch that has begun before `from` is given where it begins again, a year later.
pub fn windows(crop: &Crop, conditions: &Conditions<'_>, from: Date) -> Vec<Window> {
    crop.starts.iter().flat_map(|start| windows_of(crop, conditions, *start, from)).collect()
}

/// The stretches of one way of starting.
pub fn windows_of(crop: &Crop, conditions: &Conditions<'_>, start: Start, from: Date) -> Vec<Window> {
    let year: Vec<Option<(f64, Date)>> = (0..365)
        .map(|n| {
            let good = schedule(crop, conditions, start, plus(from, n)).ok()?;
            Some((good.chance, good.dates.first_pick?))
        })
        .collect();
    // Begin behind a day on which nothing succeeds, so that no stretch is cut by the turn of the year.
    let turn = year.iter().position(Option::is_none).unwrap_or(0);
    let mut out = Vec::new();
    let mut run: Option<(usize, usize)> = None;
    for step in 0..=365 {
        let at = turn + step;
        let good = step < 365 && year[at % 365].is_some();
        match (good, run) {
            (true, None) => run = Some((at, at)),
            (true, Some((first, _))) => run = Some((first, at)),
            (false, Some(stretch)) => {
                out.extend(window(&year, start, from, stretch));
                run = None;
            }
            (false, None) => {}
        }
    }
    out.sort_by_key(|w| w.first);
    out
}

fn window(
    year: &[Option<(f64, Date)>],
    start: Start,
    from: Date,
    (first, last): (usize, usize),
) -> Option<Window> {
    let day = |at: usize| plus(from, i64::try_from(at).unwrap_or(0));
    // A day of the next year has this year's schedule, a year later.
    let of = |at: usize| {
        let (chance, pick) = year.get(at % 365).copied().flatten()?;
        Some((chance, if at >= 365 { plus(pick, days_between(day(at - 365), day(at))) } else { pick }))
    };
    let ((_, ready_first), (chance_at_last, ready_last)) = (of(first)?, of(last)?);
    let (first, last, age) = (day(first), day(last), age(start));
    Some(Window {
        start,
        first,
        last,
        out_first: plus(first, age),
        out_last: plus(last, age),
        chance_at_last,
        ready_first,
        ready_last,
    })
}

/// The latest start that is ready to pick on `ready` or before; none where none is.
///
/// Cool days on which nothing grows give the same harvest: the latest of them is returned. The start may still be
/// refused by [`schedule`]: for frost, soil or heat.
pub fn ready(crop: &Crop, conditions: &Conditions<'_>, start: Start, ready: Date) -> Option<Date> {
    let in_time = |on: Date| {
        outlook(crop, conditions, start, on)
            .schedule
            .and_then(|s| s.dates.first_pick)
            .is_some_and(|pick| pick <= ready)
    };
    let (mut good, mut bad) = (-BACK, 1);
    if !in_time(plus(ready, good)) {
        return None;
    }
    while bad - good > 1 {
        let middle = (bad + good).div_euclid(2);
        if in_time(plus(ready, middle)) { good = middle } else { bad = middle }
    }
    Some(plus(ready, good))
}

/// Starts whose first pickings follow each other by `gap` days, from a first start on, until a start is refused or
/// its harvest would begin after `until`.
///
/// In spring the starts come out further apart than `gap`, in autumn closer together.
pub fn succession(
    crop: &Crop,
    conditions: &Conditions<'_>,
    start: Start,
    first: Date,
    gap: u16,
    until: Date,
) -> Vec<Schedule> {
    let mut out: Vec<Schedule> = Vec::new();
    let Ok(begun) = schedule(crop, conditions, start, first) else { return out };
    let Some(mut harvest) = begun.dates.first_pick else { return out };
    out.push(begun);
    let mut last = first;
    loop {
        harvest = plus(harvest, i64::from(gap.max(1)));
        if harvest > until {
            return out;
        }
        let Some(on) = ready(crop, conditions, start, harvest).filter(|on| *on > last) else { return out };
        let Ok(next) = schedule(crop, conditions, start, on) else { return out };
        last = on;
        out.push(next);
    }
}
