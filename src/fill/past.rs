//! From when a body of soil may take a family again, by what stood in it.

use crate::calendar::{Date, MonthDay, plus};
use crate::crop::{Book, BreakWeight, Crop, Rotation};
use crate::garden::{Block, Place, SoilId};
use crate::plan::{Event, Plan};
use chrono::Datelike;

/// A family (and crop) that stood in a soil until a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stay {
    pub(super) family: String,
    /// Its cells; none: somewhere in the place.
    pub(super) block: Option<Block>,
    /// First day on which the soil is free of it.
    pub(super) until: Date,
}

/// Stays in a body of soil that were over before `day`, from the record, the plantings and what came up by itself.
pub(super) fn stays(plan: &Plan, book: &Book, place: &Place, soil: &SoilId, day: Date) -> Vec<Stay> {
    let mut out = Vec::new();
    for past in plan.record.iter().filter(|p| p.place == place.id && place.soil_on(p.from) == *soil) {
        if let Some(family) = past.family() {
            out.push(Stay { family: family.to_owned(), block: past.block, until: plus(past.to, 1) });
        }
    }
    for planting in plan.plantings.iter().filter(|p| p.place == place.id) {
        let Some(from) = planting.begins() else { continue };
        let until = planting.ends().into_iter().chain(planting.failed).min();
        if let Some(until) = until
            && place.soil_on(from) == *soil
            && until > from
            && until <= day
        {
            let family = book.get(&planting.crop).map_or(&planting.family, |c| &c.family);
            out.push(Stay { family: family.clone(), block: Some(planting.block), until });
        }
    }
    for entry in &plan.diary {
        if let Event::Volunteer(id) = &entry.what
            && entry.place.as_ref() == Some(&place.id)
            && place.soil_on(entry.on) == *soil
            && let Some(crop) = book.get(id)
        {
            out.push(Stay { family: crop.family.clone(), block: None, until: plus(entry.on, 1) });
        }
    }
    out
}

/// A day so many years on.
pub(super) fn years_on(day: Date, years: u8) -> Date {
    MonthDay::of(day).in_year(day.year() + i32::from(years))
}

/// The day from which a soil is free of a crop's family for `years`; none where nothing of it stood there.
pub(super) fn free_from(stays: &[Stay], family: &str, block: Option<Block>, years: u8) -> Option<Date> {
    stays
        .iter()
        .filter(|s| s.family == family)
        .filter(|s| match (block, s.block) {
            (Some(here), Some(there)) => here.overlaps(there),
            (Some(_), None) | (None, _) => true,
        })
        .map(|s| years_on(s.until, years))
        .max()
}

/// The day from which recorded diseases of a soil let a crop in again, and the disease that keeps it out longest.
pub(super) fn sound_from(
    plan: &Plan,
    book: &Book,
    place: &Place,
    crop: &Crop,
    soil: &SoilId,
) -> Option<(Date, String)> {
    let corrected = |id: u32| plan.diary.iter().any(|e| e.corrects == Some(id));
    plan.diary
        .iter()
        .filter(|e| !corrected(e.id))
        .filter_map(|entry| {
            let Event::Trouble(id) = &entry.what else { return None };
            let there = entry
                .place
                .as_ref()
                .or_else(|| entry.planting.and_then(|p| plan.planting(p)).map(|p| &p.place))?;
            if *there != place.id || place.soil_on(entry.on) != *soil {
                return None;
            }
            let trouble = book.trouble(id)?;
            let pause = plan.settings.rotation.get(id).copied().unwrap_or(Rotation {
                least: trouble.least,
                advised: trouble.advised,
                weight: BreakWeight::Stop,
            });
            let bars = pause.least > 0 && pause.weight == BreakWeight::Stop && book.harms(trouble, crop);
            bars.then(|| {
                // A host that stood on after the disease was seen feeds it until it is cleared.
                let last = plan
                    .plantings
                    .iter()
                    .filter(|p| p.place == place.id && p.begins().is_some_and(|b| place.soil_on(b) == *soil))
                    .filter(|p| book.get(&p.crop).is_some_and(|c| book.harms(trouble, c)))
                    .filter_map(crate::plan::Planting::ends)
                    .filter(|end| *end > entry.on)
                    .max();
                (years_on(last.unwrap_or(entry.on), pause.least), trouble.name.clone())
            })
        })
        .max()
}
