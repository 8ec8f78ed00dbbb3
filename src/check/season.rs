//! What the site's year says to the start of a planting, drawn up once for all rules that ask.

use super::Context;
use super::words::day;
use crate::calendar::{Date, days_between, plus};
use crate::crop::{Crop, Start};
use crate::growth::{Outlook, ROOM, Refusal, Sprouting, age, outlook, windows_of};
use crate::plan::{Planting, PlantingId};
use std::collections::BTreeMap;

/// Outlooks of the plantings that are judged.
pub(super) type Outlooks = BTreeMap<PlantingId, Outlook>;

/// A planting with one thing that speaks against its start.
pub(super) struct Against<'a> {
    pub(super) planting: &'a Planting,
    pub(super) crop: &'a Crop,
    pub(super) refusal: Refusal,
}

/// The day a start is counted from: sown in place or in the raising place, or set out.
pub(super) fn started(planting: &Planting) -> Option<Date> {
    match planting.start {
        Start::InPlace | Start::Bought | Start::Piece(_) => planting.begins(),
        Start::Raised { .. } => planting.begins().map(|out| plus(out, -age(planting.start))),
    }
}

/// Outlooks of every judged planting whose harvest has not begun.
pub(super) fn outlooks(context: &Context<'_>) -> Outlooks {
    context
        .judged()
        .filter(|p| p.real.first_pick.is_none() && p.real.cleared.is_none() && p.failed.is_none())
        .filter_map(|p| {
            let crop = context.crop(p)?;
            Some((p.id, outlook(crop, &context.conditions(p, crop), p.start, started(p)?)))
        })
        .collect()
}

/// Judged plantings with each thing that speaks against their start. What is over once a planting has begun
/// (`past_begin`) is left out for those that have.
pub(super) fn against<'a>(context: &Context<'a>, past_begin: bool) -> Vec<Against<'a>> {
    let all = context.outlooks();
    context
        .judged_once()
        .filter(|p| past_begin || !p.has_begun())
        .filter_map(|p| Some((p, context.crop(p)?, all.get(&p.id)?)))
        .flat_map(|(planting, crop, outlook)| {
            outlook.against.iter().map(move |refusal| Against { planting, crop, refusal: *refusal })
        })
        .collect()
}

/// What to do instead: the nearest stretch of days on which the same start works here.
pub(super) fn instead(context: &Context<'_>, planting: &Planting, crop: &Crop) -> String {
    let mut conditions = context.conditions(planting, crop);
    // A raising place that suits nothing is said by its own rule; the days are for a warm room.
    let unfit = Sprouting::new(&crop.germination).is_some_and(|s| s.tested().0 > conditions.raising);
    if unfit {
        conditions.raising = ROOM;
    }
    let Some(on) = started(planting) else { return String::from("Give it a date.") };
    let name = super::words::name(planting);
    // A stretch that is over costs twice its days: it is easier to wait than to go back.
    let days = |first: Date, last: Date| days_between(on, first).max(2 * days_between(last, on));
    let near = windows_of(crop, &conditions, planting.start, plus(on, -182))
        .into_iter()
        .flat_map(|w| [0, 365].map(|later| (plus(w.first, later), plus(w.last, later))))
        .min_by_key(|(first, last)| days(*first, *last));
    let Some((first, last)) = near else {
        return format!(
            "No day of the year works for {name} started in this way here: choose another crop or variety."
        );
    };
    let (first, last) = (day(plus(first, age(planting.start))), day(plus(last, age(planting.start))));
    match planting.start {
        Start::InPlace => format!("Sow {name} between {first} and {last} instead."),
        Start::Raised { .. } | Start::Bought => format!("Set {name} out between {first} and {last} instead."),
        Start::Piece(_) => format!("Plant {name} between {first} and {last} instead."),
    }
}

/// "is sown in", "is set out in": what happens on the first day.
pub(super) const fn deed(planting: &Planting) -> &'static str {
    match planting.start {
        Start::InPlace => "is sown in",
        Start::Raised { .. } | Start::Bought => "is set out in",
        Start::Piece(_) => "is planted in",
    }
}

/// "Tomato is set out in Box 1 (A1-B2) on 1 May 2027".
pub(super) fn opening(context: &Context<'_>, planting: &Planting) -> String {
    let on = planting.begins().map_or_else(String::new, |d| format!(" on {}", day(d)));
    format!(
        "{} {} {}{on}",
        super::words::cap(&super::words::name(planting)),
        deed(planting),
        super::words::stands(context, planting)
    )
}
