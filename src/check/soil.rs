//! Stays in a body of soil: what stood in it by dates, from the record, the plantings and the diary.

use super::{Context, words};
use crate::calendar::{Date, plus};
use crate::crop::CropId;
use crate::garden::{Block, Place, SoilId};
use crate::plan::{Event, PlantingId};
use chrono::Datelike;
use std::collections::BTreeMap;

/// A stay of a family in a soil.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stay<'a> {
    /// Family.
    pub family: &'a str,
    /// The crop, where it is known.
    pub crop: Option<&'a CropId>,
    /// What it is called in a sentence.
    pub name: String,
    /// Its cells; none: somewhere in the place.
    pub block: Option<Block>,
    /// First day in the soil.
    pub from: Date,
    /// First day on which the soil is free of it again; none while it stands.
    pub until: Option<Date>,
    /// The planting, where it is one.
    pub planting: Option<PlantingId>,
}

/// Every stay in every body of soil.
pub(super) fn all_stays<'a>(context: &Context<'a>) -> BTreeMap<SoilId, Vec<Stay<'a>>> {
    let soils = |place: &'a Place| {
        (0..=place.refilled.len()).map(move |filling| (place, SoilId { place: place.id.clone(), filling }))
    };
    let of = |(place, soil): (&'a Place, SoilId)| (soil.clone(), stays(context, place, &soil));
    context.plan.places.iter().flat_map(soils).map(of).collect()
}

/// Every stay in a body of soil, by its first day.
fn stays<'a>(context: &Context<'a>, place: &'a Place, soil: &SoilId) -> Vec<Stay<'a>> {
    let mut out = Vec::new();
    for past in context.plan.record.iter().filter(|p| p.place == place.id) {
        let Some(family) = past.family() else { continue };
        if place.soil_on(past.from) == *soil {
            let crop = match &past.stood {
                crate::plan::Stood::Crop { crop, .. } => Some(crop),
                crate::plan::Stood::Family(_) | crate::plan::Stood::Nothing => None,
            };
            let name = crop.map_or_else(
                || format!("a plant of {}", words::kin(&context.common(family))),
                |id| context.book.get(id).map_or_else(|| id.to_string(), |c| words::inside(&c.name)),
            );
            out.push(Stay {
                family,
                crop,
                name,
                block: past.block,
                from: past.from,
                until: Some(plus(past.to, 1)),
                planting: None,
            });
        }
    }
    for planting in context.in_place(&place.id) {
        let Some(from) = planting.begins() else { continue };
        // A planting that failed before it was set out was never in this soil.
        if place.soil_on(from) != *soil || planting.failed.is_some_and(|f| f <= from) {
            continue;
        }
        let until = match (planting.ends(), planting.failed) {
            (Some(end), Some(failed)) => Some(end.min(failed)),
            (end, failed) => end.or(failed),
        };
        out.push(Stay {
            family: context.family(planting),
            crop: Some(&planting.crop),
            name: words::name(planting),
            block: Some(planting.block),
            from,
            until,
            planting: Some(planting.id),
        });
    }
    for entry in context.plan.told() {
        if let Event::Volunteer(id) = &entry.what
            && entry.place.as_ref() == Some(&place.id)
            && place.soil_on(entry.on) == *soil
            && let Some(crop) = context.book.get(id)
        {
            out.push(Stay {
                family: &crop.family,
                crop: Some(&crop.id),
                name: format!("{} that came up by itself", words::inside(&crop.name)),
                block: None,
                from: entry.on,
                until: Some(plus(entry.on, 1)),
                planting: None,
            });
        }
    }
    out.sort_by_key(|s| (s.from, s.until, s.planting));
    out
}

/// Whole years from the day a soil came free to the day the next goes in, counted by anniversaries.
pub(super) fn whole_years(free: Date, next: Date) -> i32 {
    let early = (next.month(), next.day()) < (free.month(), free.day());
    next.year() - free.year() - i32::from(early)
}

/// The day so many years after another.
pub(super) fn years_after(date: Date, years: u8) -> Date {
    crate::calendar::MonthDay::of(date).in_year(date.year() + i32::from(years))
}
