//! A planting stands in a place that is there, inside its grid.

use super::words::{cap, count, day, name};
use super::{Context, Finding, Rule, Weight};

pub(super) const OUTSIDE: Rule = Rule {
    code: "outside-bed",
    title: "Outside its bed",
    explain: "Every planting takes cells inside a bed or pot of this garden. A planting in a place that is not in \
              the garden, or beyond the edge of its grid of cells, cannot be planted.\n\
              Source: the layout itself.",
    run: outside,
};

fn outside(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged() {
        let subject = cap(&name(planting));
        let Some(place) = context.place(&planting.place) else {
            let words = format!(
                "{subject} is to stand in '{}', which is not a bed or pot of this garden.",
                planting.place
            );
            let remedy = format!("Move {} to a place that is there, or take it away.", name(planting));
            out.push(
                Finding::new(OUTSIDE.code, Weight::Stop, words, remedy, "the layout of this garden")
                    .of(planting),
            );
            continue;
        };
        let (rows, cols) = place.grid(context.plan.settings.cell);
        if !planting.block.within(rows, cols) {
            let words = format!(
                "{subject} takes {} of {}, which has {} from north to south and {} from west to east.",
                planting.block,
                place.name,
                count(rows, "cell", "cells"),
                count(cols, "cell", "cells"),
            );
            let remedy = format!("Move {} to cells inside {}.", name(planting), place.name);
            out.push(
                Finding::new(OUTSIDE.code, Weight::Stop, words, remedy, "the layout of this garden")
                    .of(planting),
            );
        }
    }
}

pub(super) const GONE: Rule = Rule {
    code: "place-gone",
    title: "Its place is not there then",
    explain: "A bed or pot has a day on which it was set up and may have a day on which it is retired. Plantings \
              must fall between the two.\n\
              Source: the layout itself.",
    run: gone,
};

fn gone(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged() {
        let (Some(place), Some(begin)) = (context.place(&planting.place), planting.begins()) else {
            continue;
        };
        let subject = cap(&name(planting));
        if begin < place.since {
            let words = format!(
                "{subject} goes into {} on {}, but that place is only set up on {}.",
                place.name,
                day(begin),
                day(place.since)
            );
            let remedy =
                format!("Plant it on {} or later, or set {} up earlier.", day(place.since), place.name);
            out.push(
                Finding::new(GONE.code, Weight::Stop, words, remedy, "the layout of this garden")
                    .of(planting),
            );
        }
        let Some(until) = place.until else { continue };
        if planting.ends().is_none_or(|end| end > until) {
            let end = planting
                .ends()
                .map_or_else(|| String::from("has no end"), |e| format!("is cleared on {}", day(e)));
            let words =
                format!("{subject} in {} {end}, but that place is taken away on {}.", place.name, day(until));
            let remedy =
                format!("Keep {} until then, or move {} to a place that stays.", place.name, name(planting));
            out.push(
                Finding::new(GONE.code, Weight::Stop, words, remedy, "the layout of this garden")
                    .of(planting),
            );
        }
    }
}
