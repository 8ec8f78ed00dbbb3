//! From when a body of soil may take a family again, by what stood in it.

use crate::calendar::{Date, MonthDay, plus};
use crate::crop::{Book, BreakWeight, Crop, CropId, Rotation, Trouble};
use crate::garden::{Block, Place, SoilId};
use crate::plan::{Event, Plan, Stood};
use chrono::Datelike;

/// A family (and crop) that stood in a soil until a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stay {
    pub(super) family: String,
    /// The crop, where it is known.
    pub(super) crop: Option<CropId>,
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
            let crop = match &past.stood {
                Stood::Crop { crop, .. } => Some(crop.clone()),
                Stood::Family(_) | Stood::Nothing => None,
            };
            let until = plus(past.to, 1);
            out.push(Stay { family: family.to_owned(), crop, block: past.block, until });
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
            let (family, crop) = (family.clone(), Some(planting.crop.clone()));
            out.push(Stay { family, crop, block: Some(planting.block), until });
        }
    }
    for entry in plan.told() {
        if let Event::Volunteer(id) = &entry.what
            && entry.place.as_ref() == Some(&place.id)
            && place.soil_on(entry.on) == *soil
            && let Some(crop) = book.get(id)
        {
            let (family, until) = (crop.family.clone(), plus(entry.on, 1));
            out.push(Stay { family, crop: Some(crop.id.clone()), block: None, until });
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

/// A disease recorded in a place, whose hosts are kept out of the soil for so many years, counted from the record or
/// from the last host that stood there.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ill<'a> {
    pub(super) trouble: &'a Trouble,
    /// Day of the record.
    pub(super) on: Date,
    pub(super) years: u8,
}

/// Diseases recorded in a soil that bar their hosts.
pub(super) fn ills<'a>(
    plan: &'a Plan,
    book: &'a Book,
    place: &'a Place,
    soil: &'a SoilId,
) -> impl Iterator<Item = Ill<'a>> {
    plan.told().filter_map(move |entry| {
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
        let bars = pause.least > 0 && pause.weight == BreakWeight::Stop;
        bars.then_some(Ill { trouble, on: entry.on, years: pause.least })
    })
}

/// The day from which recorded diseases of a soil let a crop in again on or after `day`, and the disease that keeps it
/// out longest.
pub(super) fn sound_from(
    plan: &Plan,
    book: &Book,
    place: &Place,
    crop: &Crop,
    (soil, day): (&SoilId, Date),
) -> Option<(Date, String)> {
    let before = stays(plan, book, place, soil, day);
    ills(plan, book, place, soil)
        .filter(|ill| book.harms(ill.trouble, crop))
        .map(|ill| {
            // A host that stood on after the disease was seen feeds it until it is cleared.
            let host = |s: &&Stay| match s.crop.as_ref().and_then(|id| book.get(id)) {
                Some(crop) => book.harms(ill.trouble, crop),
                None => ill.trouble.hosts.contains(&s.family),
            };
            let last = before.iter().filter(host).map(|s| s.until).max();
            let free = last.map_or(ill.on, |until| until.max(ill.on));
            (years_on(free, ill.years), ill.trouble.name.clone())
        })
        .max()
}
