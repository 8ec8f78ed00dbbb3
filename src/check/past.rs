//! Soil whose past is not written down.

use super::words::{day, free_years, list};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{Date, Season};
use crate::crop::BreakWeight;
use crate::garden::Place;
use crate::plan::Stood;
use std::collections::BTreeMap;

pub(super) const RULE: Rule = Rule {
    code: "past-unknown",
    title: "What stood there before is not recorded",
    explain: "A return of a family can only be seen where the past is written down. A season counts as known when \
              the record or a planting says what stood in the place in it, or that nothing did. Soil that came as \
              fresh potting mix has no past. A season that is not recorded is unknown; it is never taken as free.\n\
              Source: common practice.",
    run,
};

/// Seasons within so many years before a day of which nothing is known for the soil a place has then, oldest first.
pub(super) fn unknown(context: &Context<'_>, place: &Place, day: Date, years: u8) -> Vec<Season> {
    let soil = place.soil_on(day);
    let (since, fresh) = place.soil_since(&soil);
    let here = context.season(day);
    let stays = context.stays(&soil);
    (1..=i32::from(years))
        .rev()
        .map(|back| here.plus(-back))
        .filter(|season| !(fresh && season.last() < since))
        .filter(|season| {
            let told =
                stays.iter().any(|s| s.from <= season.last() && s.until.is_none_or(|u| u > season.first()));
            let empty = context.plan.record.iter().any(|past| {
                past.place == place.id
                    && past.stood == Stood::Nothing
                    && past.from <= season.last()
                    && past.to >= season.first()
            });
            // A fresh filling in that season, or a season planned here, is known too.
            !(told || empty || (fresh && season.holds(since)))
        })
        .collect()
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let mut places: BTreeMap<_, (&Place, Date, u8, Option<Date>)> = BTreeMap::new();
    for planting in context.judged() {
        let (Some(place), Some(begin)) = (context.place(&planting.place), planting.begins()) else {
            continue;
        };
        let rotation = context.rotation(planting);
        if rotation.weight == BreakWeight::Off || rotation.least == 0 {
            continue;
        }
        let entry = places.entry(place.soil_on(begin)).or_insert_with(|| (place, begin, 0, planting.ends()));
        if begin < entry.1 {
            entry.1 = begin;
        }
        entry.2 = entry.2.max(rotation.least);
    }
    for (place, begin, years, end) in places.into_values() {
        let missing = unknown(context, place, begin, years);
        if missing.is_empty() {
            continue;
        }
        let seasons: Vec<String> = missing.iter().map(ToString::to_string).collect();
        let words = format!(
            "What stood in {} in {} is unknown: nothing is recorded. Plants that go in from {} on want {} of \
             their own family, and that cannot be judged here.",
            place.name,
            list(&seasons),
            day(begin),
            free_years(i32::from(years)),
        );
        let remedy = format!(
            "Write into the record what you remember of {} in {}; that nothing stood there counts too.",
            place.name,
            list(&seasons),
        );
        out.push(
            Finding::new(RULE.code, Weight::Note, words, remedy, "common practice").on(begin, end).at(place),
        );
    }
}
