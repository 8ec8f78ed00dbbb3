//! A family comes back to the same body of soil too soon.
//!
//! *Free years* are whole years from the day the last planting of the family was cleared from the soil to the day
//! the next one goes in, counted by anniversaries: tomatoes until October 2027 and again from May 2028 leave none;
//! moved yearly through three boxes they leave two; one more year elsewhere makes three. Dates are compared, not
//! calendar years, so that a southern season is not cut in two on 31 December.

use super::soil::{Stay, whole_years, years_after};
use super::words::{cap, day, free_years, members, name, stands};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{Date, plus};
use crate::crop::{BreakWeight, Rotation};
use crate::garden::Place;
use crate::plan::Planting;

const SOURCE: &str = "years out by the rotation tables of University of Connecticut IPM and University of California \
                      IPM, general advice of NC State Extension; measured need: Penn State/Cornell, Do rotations \
                      matter";

pub(super) const RULE: Rule = Rule {
    code: "family-returns",
    title: "A plant family returns to the same soil too soon",
    explain: "Diseases and pests of a plant family stay in its soil. Each family has a least and an advised number \
              of free years: whole years from the day the last of it was cleared to the day the next goes in. The \
              body of soil is the whole box, bed or pot (or the single cells, where you set it so); fresh potting \
              mix starts anew. Flowers, catch crops, cover crops, plants that came up by themselves and what stands \
              for years all count.\n\
              Below the least number: nightshades stop (3 free years; for eggplant 4 are advised), other families \
              are minded. Between least and advised: a note. You may set both numbers and the weight for each \
              family or crop.\n\
              Figures: eggplant 4 years after Verticillium, cabbage black rot 2 to 3, bean blights 2, lettuce drop \
              3 (University of Connecticut IPM); tomato Verticillium 3, Fusarium 2 (University of California IPM); \
              1 year good, 2 better, 4 best in general (NC State). Tomatoes 1, 2, 3, 4 years running on one field \
              lost 3, 30, 74, 70 % of their leaves to early blight by the first ripe fruit (Penn State/Cornell).",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let by_cell = context.plan.settings.rotation_by_cell;
    for planting in context.judged().filter(|p| by_cell || !context.twins(p).is_empty()) {
        let (Some(place), Some(begin)) = (context.place(&planting.place), planting.begins()) else {
            continue;
        };
        let rotation = context.rotation(planting);
        if rotation.weight == BreakWeight::Off || !context.touches(begin, planting.ends()) {
            continue;
        }
        let Some((stay, free)) = before(context, planting, place, begin) else { continue };
        // Within one season only families kept strictly are looked at; the rule of one legume a season is another.
        if rotation.weight != BreakWeight::Stop && context.season(plus(free, -1)) == context.season(begin) {
            continue;
        }
        let years = whole_years(free, begin);
        let weight = if years < i32::from(rotation.least) {
            if rotation.weight == BreakWeight::Stop { Weight::Stop } else { Weight::Mind }
        } else if years < i32::from(rotation.advised) {
            Weight::Note
        } else {
            continue;
        };
        out.push(finding(context, planting, place, (&stay, free), years, rotation, weight));
    }
}

/// The last stay of a planting's family that was over when it goes in, and the day the soil came free.
pub(super) fn before<'a>(
    context: &Context<'a>,
    planting: &'a Planting,
    place: &'a Place,
    begin: Date,
) -> Option<(Stay<'a>, Date)> {
    let family = context.family(planting);
    let by_cell = context.plan.settings.rotation_by_cell;
    context
        .stays(&place.soil_on(begin))
        .iter()
        .filter(|s| s.family == family && s.planting != Some(planting.id))
        .filter(|s| !by_cell || s.block.is_none_or(|b| b.overlaps(planting.block)))
        .filter_map(|s| s.until.filter(|u| *u <= begin).map(|u| (s, u)))
        .max_by_key(|(s, until)| (*until, s.from, s.planting))
        .map(|(s, until)| (s.clone(), until))
}

fn finding(
    context: &Context<'_>,
    planting: &Planting,
    place: &Place,
    last: (&Stay<'_>, Date),
    years: i32,
    rotation: Rotation,
    weight: Weight,
) -> Finding {
    let (stay, free) = last;
    let begin = planting.begins().unwrap_or(free);
    let family = context.family(planting);
    let common = context.common(family);
    let plants = members(&common);
    let limit = match (weight, rotation.advised > rotation.least) {
        (Weight::Note, _) => format!("{} would be better before {plants} return", rotation.advised),
        (Weight::Stop | Weight::Mind, true) => {
            format!(
                "at least {} before {plants} return, and {} advised",
                needed(rotation.least),
                rotation.advised
            )
        }
        (Weight::Stop | Weight::Mind, false) => {
            format!("at least {} before {plants} return", needed(rotation.least))
        }
    };
    let last = if stay.name == name(planting) {
        String::from("It was last in this soil until")
    } else {
        format!("{}, one of the same family, was in this soil until", cap(&stay.name))
    };
    let words = format!(
        "{} goes into {} on {}. {last} {}. That leaves {}; {limit}.",
        cap(&name(planting)),
        stands(context, planting),
        day(begin),
        day(plus(free, -1)),
        free_years(years),
    );
    let years = if weight == Weight::Note { rotation.advised } else { rotation.least };
    let until = years_after(free, years);
    let remedy = match elsewhere(context, planting, begin, years) {
        Some(other) => {
            format!("Move {} to {}, which has been free of them long enough.", name(planting), other.name)
        }
        None => format!(
            "Grow no {plants} in {} before {}, or fill it with fresh potting mix first.",
            place.name,
            day(until)
        ),
    };
    Finding::new(RULE.code, weight, words, remedy, SOURCE).of_all(context, planting)
}

/// "1 is needed", "3 are needed".
fn needed(years: u8) -> String {
    format!("{years} {} needed", if years == 1 { "is" } else { "are" })
}

/// Another place whose soil is known to have been free of the family for so many years, and where the crop may go.
fn elsewhere<'a>(context: &Context<'a>, planting: &Planting, begin: Date, years: u8) -> Option<&'a Place> {
    let crop = context.crop(planting)?;
    let family = context.family(planting);
    let here = context.place(&planting.place)?;
    context.plan.places_on(begin).find(|place| {
        let soil = place.soil_on(begin);
        let (rows, cols) = place.grid(context.plan.settings.cell);
        place.id != here.id
            && place.is_pot() == here.is_pot()
            && rows >= planting.block.rows
            && cols >= planting.block.cols
            && !place.tags.iter().any(|tag| super::tags::kept_for(tag, crop).is_some())
            && !place.tags.contains(&crate::garden::Tag::HandOnly)
            && (!place.is_pot() || crate::garden::pot_plants(crop, place) >= planting.plants)
            && super::past::unknown(context, place, begin, years).is_empty()
            && context
                .stays(&soil)
                .iter()
                .all(|s| s.family != family || s.until.is_some_and(|u| years_after(u, years) <= begin))
    })
}
