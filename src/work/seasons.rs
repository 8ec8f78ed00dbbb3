//! Seasons side by side: what was planned, what really happened, what was picked.

use crate::calendar::{Date, Season, day_text};
use crate::crop::{Book, CropId};
use crate::plan::{Plan, Planting, PlantingId, Why};
use crate::units::{Amount, Measure, num};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// A crop in a season.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CropSeason {
    /// The year in which the season began.
    pub season: i32,
    /// Plantings that took their cells in it.
    pub plantings: usize,
    /// Plants in them.
    pub plants: u32,
    /// First picking as it was planned.
    pub planned_pick: Option<Date>,
    /// First picking as it really was.
    pub real_pick: Option<Date>,
    /// Usual harvest of these plants, by the book.
    pub planned: Option<Amount>,
    /// Picked by the diary.
    pub picked: Option<Amount>,
}

/// A crop through the seasons.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CropSeasons {
    /// The crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// Its seasons, earliest first.
    pub seasons: Vec<CropSeason>,
}

/// The season a planting belongs to: that of its first picking, else of its beginning.
fn season_of(planting: &Planting, like: Season) -> Option<Season> {
    let start = crate::calendar::MonthDay::of(like.first());
    let day = planting.dates().first_pick.or_else(|| planting.begins())?;
    Some(Season::holding(day, start))
}

/// What was planned, what happened and what was picked of every crop in so many seasons up to one.
pub fn seasons(plan: &Plan, book: &Book, last: Season, back: u16) -> Vec<CropSeasons> {
    let first = last.plus(1 - i32::from(back.max(1)));
    let mut out: BTreeMap<&CropId, BTreeMap<i32, CropSeason>> = BTreeMap::new();
    let mut names: BTreeMap<&CropId, String> = BTreeMap::new();
    let pickings = pickings(plan);
    for planting in plan.plantings.iter().filter(|p| p.why != Why::Cover) {
        let Some(season) =
            season_of(planting, last).filter(|s| (first.year()..=last.year()).contains(&s.year()))
        else {
            continue;
        };
        names.entry(&planting.crop).or_insert_with(|| planting.name.clone());
        let slot =
            out.entry(&planting.crop).or_default().entry(season.year()).or_insert_with(|| CropSeason {
                season: season.year(),
                plantings: 0,
                plants: 0,
                planned_pick: None,
                real_pick: None,
                planned: None,
                picked: None,
            });
        slot.plantings += 1;
        slot.plants += u32::from(planting.plants);
        let earlier = |a: Option<Date>, b: Option<Date>| a.into_iter().chain(b).min();
        slot.planned_pick = earlier(slot.planned_pick, planting.meant().first_pick);
        slot.real_pick = earlier(slot.real_pick, planting.real.first_pick);
        let usual = book.get(&planting.crop).map(|c| c.harvest.usual);
        slot.planned = sum(slot.planned, usual.map(|u| u.with_value(u.value() * f64::from(planting.plants))));
        for amount in pickings.get(&planting.id).into_iter().flatten() {
            slot.picked = sum(slot.picked, Some(*amount));
        }
    }
    out.into_iter()
        .map(|(crop, seasons)| CropSeasons {
            crop: crop.clone(),
            name: names.remove(crop).unwrap_or_default(),
            seasons: seasons.into_values().collect(),
        })
        .collect()
}

/// What was picked of each planting, in the order of the diary.
fn pickings(plan: &Plan) -> BTreeMap<PlantingId, Vec<Amount>> {
    let mut out: BTreeMap<PlantingId, Vec<Amount>> = BTreeMap::new();
    for entry in plan.told() {
        if let Some((planting, amount)) = entry.planting.zip(entry.what.picked()) {
            out.entry(planting).or_default().push(amount);
        }
    }
    out
}

/// Amounts of one kind added up; the first kind counts.
fn sum(a: Option<Amount>, b: Option<Amount>) -> Option<Amount> {
    match (a, b) {
        (Some(a), Some(b)) if a.same_kind(b) => Some(a.with_value(a.value() + b.value())),
        (Some(a), _) => Some(a),
        (None, b) => b,
    }
}

/// Picked a plant in this garden, where pickings were written down: by crop, with the plants they came from.
pub fn own_yields(plan: &Plan, book: &Book) -> BTreeMap<CropId, (Amount, u32)> {
    let pickings = pickings(plan);
    let mut sums: BTreeMap<CropId, (Amount, u32)> = BTreeMap::new();
    for planting in &plan.plantings {
        // Only of what is over: the others may still bear.
        let over = planting.real.cleared.is_some() && planting.failed.is_none();
        let Some(crop) = book.get(&planting.crop).filter(|_| over) else { continue };
        let none = crop.harvest.usual.with_value(0.0);
        let amounts = pickings.get(&planting.id).into_iter().flatten();
        let picked = none.with_value(amounts.filter(|a| a.same_kind(none)).map(|a| a.value()).sum());
        if picked.value() > 0.0 {
            let slot = sums.entry(crop.id.clone()).or_insert_with(|| (picked.with_value(0.0), 0));
            slot.0 = slot.0.with_value(slot.0.value() + picked.value());
            slot.1 += u32::from(planting.plants);
        }
    }
    sums.retain(|_, (_, plants)| *plants > 0);
    for (amount, plants) in sums.values_mut() {
        *amount = amount.with_value(amount.value() / num::real(num::index(*plants)));
    }
    sums
}

/// The seasons side by side for a terminal.
pub fn seasons_words(crops: &[CropSeasons], measure: Measure) -> String {
    let mut out = String::new();
    for crop in crops {
        let _ = writeln!(out, "{}", crop.name);
        for s in &crop.seasons {
            let day = |d: Option<Date>| d.map_or_else(|| "-".to_owned(), day_text);
            let amount = |a: Option<Amount>| a.map_or_else(|| "-".to_owned(), |a| a.reading(measure));
            let plants = if s.plants == 1 { "plant" } else { "plants" };
            let _ = writeln!(
                out,
                "  {}  {:>4} {plants}, first picking planned {}, real {}; usual harvest {}, picked {}",
                s.season,
                s.plants,
                day(s.planned_pick),
                day(s.real_pick),
                amount(s.planned),
                amount(s.picked)
            );
        }
    }
    if out.is_empty() { "Nothing stood in these seasons.\n".to_owned() } else { out }
}
