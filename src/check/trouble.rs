//! Hosts of a disease that was recorded in a soil.

use super::soil::{whole_years, years_after};
use super::words::{cap, day, free_years, name, stands};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::Date;
use crate::crop::{BreakWeight, Rotation, Trouble};
use crate::garden::Place;
use crate::plan::{DiaryEntry, Event, Planting};

const SOURCE: &str = "rotation table of University of Connecticut IPM, Pacific Northwest Plant Disease Handbook and \
                      University of California IPM, by disease";

pub(super) const RULE: Rule = Rule {
    code: "trouble-returns",
    title: "A host returns to soil with a recorded disease",
    explain: "A disease of the soil that you wrote into the diary brings its own break for the crops it really \
              harms, whatever their family. Free years count from the day it was recorded, or from the day the \
              last of its hosts that stood there was cleared. Below the least break it is a stop, below the \
              advised one it is minded. How long the disease survives and what else it lives on is told and not \
              enforced. Long breaks (clubroot 7 years; peas after Aphanomyces 6) hold only where the disease was \
              recorded. You may set other years and another weight for each disease.\n\
              Source: University of Connecticut IPM rotation table (clubroot 7, eggplant Verticillium 4 also for \
              tomato, potato, pepper, strawberry); Pacific Northwest Plant Disease Handbook (clubroot lives 10 to \
              15 years and more, half of it gone in 3 to 6); Netherlands Journal of Plant Pathology 99 (1993) 35-44.",
    run,
};

/// A trouble recorded in a soil.
struct Seen<'a> {
    entry: &'a DiaryEntry,
    trouble: &'a Trouble,
    place: &'a Place,
}

fn seen<'a>(context: &Context<'a>) -> Vec<Seen<'a>> {
    let mut out: Vec<Seen<'_>> = context
        .plan
        .told()
        .filter_map(|entry| {
            let Event::Trouble(id) = &entry.what else { return None };
            let trouble = context.book.trouble(id).filter(|t| t.advised > 0)?;
            let place = entry
                .place
                .as_ref()
                .or_else(|| entry.planting.and_then(|p| context.plan.planting(p)).map(|p| &p.place))?;
            Some(Seen { entry, trouble, place: context.place(place)? })
        })
        .collect();
    out.sort_by_key(|s| s.entry.on);
    out
}

/// Every trouble with a break recorded in a soil: where, when, what, and the break that holds here.
pub(super) fn recorded<'a>(context: &Context<'a>) -> Vec<(&'a Place, Date, &'a Trouble, Rotation)> {
    seen(context)
        .into_iter()
        .map(|s| (s.place, s.entry.on, s.trouble, pause(context, s.trouble)))
        .filter(|(.., pause)| pause.weight != BreakWeight::Off)
        .collect()
}

/// The break of a trouble here: the grower's own, else the book's.
fn pause(context: &Context<'_>, trouble: &Trouble) -> Rotation {
    context.plan.settings.rotation.get(&trouble.id).copied().unwrap_or(Rotation {
        least: trouble.least,
        advised: trouble.advised,
        weight: BreakWeight::Stop,
    })
}

/// The day from which free years count: the record, or the clearing of the last host that stood there.
fn counted_from(context: &Context<'_>, seen: &Seen<'_>, planting: &Planting, begin: Date) -> Date {
    let soil = seen.place.soil_on(seen.entry.on);
    context
        .stays(&soil)
        .iter()
        .filter(|s| s.planting != Some(planting.id))
        .filter(|s| {
            s.crop.and_then(|id| context.book.get(id)).map_or_else(
                || seen.trouble.hosts.iter().any(|h| h == s.family),
                |c| context.book.harms(seen.trouble, c),
            )
        })
        .filter_map(|s| s.until)
        .filter(|until| *until <= begin)
        .fold(seen.entry.on, Date::max)
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let seen = seen(context);
    for planting in context.judged_once() {
        let (Some(crop), Some(begin)) = (context.crop(planting), planting.begins()) else { continue };
        // The latest record of each trouble in this soil is the one that counts.
        let mut said: Vec<&str> = Vec::new();
        for seen in seen.iter().rev() {
            let soil = seen.place.soil_on(seen.entry.on);
            let same = seen.place.id == planting.place && seen.place.soil_on(begin) == soil;
            if !same || begin < seen.entry.on || said.contains(&seen.trouble.id.as_str()) {
                continue;
            }
            if !context.book.harms(seen.trouble, crop) {
                continue;
            }
            said.push(&seen.trouble.id);
            let pause = pause(context, seen.trouble);
            let from = counted_from(context, seen, planting, begin);
            let years = whole_years(from, begin);
            let weight = match pause.weight {
                BreakWeight::Stop if years < i32::from(pause.least) => Weight::Stop,
                BreakWeight::Stop | BreakWeight::Mind if years < i32::from(pause.advised) => Weight::Mind,
                BreakWeight::Stop | BreakWeight::Mind | BreakWeight::Off => continue,
            };
            out.push(finding(context, planting, seen, (from, years), pause, weight));
        }
    }
}

fn finding(
    context: &Context<'_>,
    planting: &Planting,
    seen: &Seen<'_>,
    free: (Date, i32),
    pause: Rotation,
    weight: Weight,
) -> Finding {
    let begin = planting.begins().unwrap_or(free.0);
    let trouble = seen.trouble;
    let since = if free.0 == seen.entry.on {
        String::new()
    } else {
        format!(" A plant it harms was cleared from there on {}.", day(free.0))
    };
    let limit = if pause.advised > pause.least {
        format!("at least {} are needed, and {} are advised", pause.least, pause.advised)
    } else {
        format!("at least {} are needed", pause.least)
    };
    let words = format!(
        "{} was recorded in {} on {}, and {} is to go into {} on {}.{since} That leaves {}; {}. It survives {}.",
        cap(&trouble.name),
        seen.place.name,
        day(seen.entry.on),
        name(planting),
        stands(context, planting),
        day(begin),
        free_years(free.1),
        limit,
        trouble.survives.trim_end_matches('.'),
    );
    let until = years_after(free.0, pause.advised);
    let remedy = format!(
        "Grow {} elsewhere until {}. {}.",
        name(planting),
        day(until),
        cap(trouble.remedy.trim().trim_end_matches('.'))
    );
    Finding::new(RULE.code, weight, words, remedy, SOURCE).of_all(context, planting)
}
