//! Words for findings: dates with their year, counts with the right ending, chances as years of ten.

use super::Context;
use crate::calendar::{Date, day_text};
use crate::garden::{Block, Place};
use crate::plan::Planting;
use crate::units::{Length, Measure, Volume};
use chrono::Datelike;

/// "4 May 2028".
pub(super) fn day(date: Date) -> String {
    format!("{} {}", day_text(date), date.year())
}

/// "4 May to 9 Jul 2028"; both years where they differ.
pub(super) fn span(from: Date, to: Date) -> String {
    if from.year() == to.year() {
        format!("{} to {}", day_text(from), day(to))
    } else {
        format!("{} to {}", day(from), day(to))
    }
}

pub use crate::crop::inside;
pub use crate::units::capital as cap;

/// The name of a planting inside a sentence.
pub(super) fn name(planting: &Planting) -> String {
    inside(&planting.name)
}

/// Members of a family: "nightshades", "plants of the cabbage family".
pub(super) fn members(common: &str) -> String {
    if common.ends_with("family") { format!("plants of the {common}") } else { common.to_owned() }
}

/// A family by itself: "the nightshades", "the cabbage family".
pub(super) fn kin(common: &str) -> String {
    format!("the {common}")
}

/// "1 plant", "3 plants".
pub(super) fn count(n: impl Into<u64>, one: &str, many: &str) -> String {
    let n = n.into();
    format!("{n} {}", if n == 1 { one } else { many })
}

/// "a, b and c".
pub(super) fn list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// "no free year", "1 free year", "3 free years".
pub(super) fn free_years(n: i32) -> String {
    match n {
        ..=0 => String::from("no free year"),
        1 => String::from("1 free year"),
        _ => format!("{n} free years"),
    }
}

/// A chance as a grower says it: "in 3 years of 10", "nearly every year".
pub(super) fn in_years(chance: f64) -> String {
    if chance > 0.95 {
        String::from("nearly every year")
    } else {
        format!("in {}", crate::growth::years(chance))
    }
}

/// A length in the unit of the garden, to a tenth at most.
pub(super) fn length(length: Length, measure: Measure) -> String {
    length.for_measure(measure).rounded(usize::from(length.cm() < 15.0))
}

/// A volume in the unit of the garden, to a tenth at most.
pub(super) fn volume(volume: Volume, measure: Measure) -> String {
    let shown = volume.for_measure(measure);
    shown.rounded(usize::from(shown.in_unit(shown.unit()) < 20.0))
}

/// "Box 1 (B2-C3)"; only the name for a place of one cell, or for the whole of it.
pub(super) fn spot(context: &Context<'_>, place: &Place, block: Block) -> String {
    if block == place.whole(context.plan.settings.cell) {
        place.name.clone()
    } else {
        format!("{} ({block})", place.name)
    }
}

/// Where a planting and those that are one act with it stand: "Box 1 (A1, C2-D3 and 3 more)".
pub(super) fn stands(context: &Context<'_>, planting: &Planting) -> String {
    const SHOWN: usize = 4;
    let twins = context.twins(planting);
    let Some(place) = context.place(&planting.place).filter(|_| twins.len() > 1) else {
        return stand(context, planting);
    };
    let mut blocks: Vec<String> = twins.iter().take(SHOWN).map(|p| p.block.to_string()).collect();
    if twins.len() > SHOWN {
        blocks.push(format!("{} more", twins.len() - SHOWN));
    }
    format!("{} ({})", place.name, list(&blocks))
}

/// Where a planting stands; the id as it was written for a place that is not there.
pub(super) fn stand(context: &Context<'_>, planting: &Planting) -> String {
    context
        .place(&planting.place)
        .map_or_else(|| planting.place.to_string(), |place| spot(context, place, planting.block))
}
