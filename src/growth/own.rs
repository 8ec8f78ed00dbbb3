//! Days to maturity learnt in this garden, drawn towards the catalogue by how few seasons there are.

use super::conditions::Conditions;
use super::need::days_needed;
use super::schedule::{PACKET_SPREAD, WEATHER_SPREAD};
use crate::calendar::Date;
use crate::crop::{Book, Crop, CropId, Start};
use crate::units::num;
use std::collections::BTreeMap;

/// Share of the days to maturity by which a season differs from the packet for other reasons than weather: soil,
/// variety, when the grower thinks it ripe (from memory).
const REST: f64 = 0.1;
/// Share of the catalogue's days beyond which an observation is taken for a slip of the pen (from memory).
const FAR: f64 = 0.6;

/// A crop's days to maturity as this garden knows them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnDays {
    /// The catalogue's middle figure.
    pub catalogue: f64,
    /// What was seen: the mean of the seasons' means.
    pub seen: f64,
    /// Seasons seen.
    pub seasons: usize,
    /// Plantings seen.
    pub plantings: usize,
    /// What is reckoned with.
    pub days: f64,
}

impl OwnDays {
    /// Catalogue days joined with observed ones, each weighed by its certainty: a packet's figure is uncertain by
    /// 12 per cent, a single season by the weather's 5 days and a tenth of the length for everything else.
    ///
    /// `seen` are pairs of a season and the days a planting took in it. Plantings of one season share its weather,
    /// so that a season counts once, by its mean. Figures further than 60 per cent from the catalogue are slips of
    /// the pen and are left out; none where nothing is left.
    pub fn new(catalogue: f64, seen: &[(i32, f64)]) -> Option<Self> {
        if !catalogue.is_finite() || catalogue <= 0.0 {
            return None;
        }
        let mut by_season: BTreeMap<i32, (f64, f64)> = BTreeMap::new();
        for (season, days) in seen {
            if days.is_finite() && (days / catalogue - 1.0).abs() <= FAR {
                let (sum, count) = by_season.entry(*season).or_default();
                *sum += days;
                *count += 1.0;
            }
        }
        if by_season.is_empty() {
            return None;
        }
        let plantings = by_season.values().map(|(_, count)| num::round_u(*count)).sum();
        let seasons = num::real(by_season.len());
        let mean = by_season.values().map(|(sum, count)| sum / count).sum::<f64>() / seasons;
        let packet = (PACKET_SPREAD * catalogue).powi(2);
        let single = WEATHER_SPREAD.powi(2) + (REST * catalogue).powi(2);
        let weight = seasons * packet / (seasons * packet + single);
        Some(Self {
            catalogue,
            seen: mean,
            seasons: by_season.len(),
            plantings,
            days: catalogue + weight * (mean - catalogue),
        })
    }
    /// "in this garden: 58 days (3 seasons), book 52".
    pub fn words(&self) -> String {
        let seasons = if self.seasons == 1 { "season" } else { "seasons" };
        format!(
            "in this garden: {:.0} days ({} {seasons}), book {:.0}",
            self.days, self.seasons, self.catalogue
        )
    }
}

/// What a planting that began on `from` and was first picked on `picked` says about the days on a packet: the
/// catalogue days it lived through here, turned back into the packet's way of counting.
pub fn days_shown(
    crop: &Crop,
    conditions: &Conditions<'_>,
    start: Start,
    from: Date,
    picked: Date,
) -> Option<f64> {
    if picked <= from {
        return None;
    }
    let lived = conditions.pace(crop).between(from, picked);
    let book = crop.days.usual();
    let plain = Conditions::new(conditions.year).by(conditions.method);
    let needed = days_needed(crop, &plain, start);
    (needed > 0.0).then_some(lived + (book - needed))
}

/// This garden's days for every crop with observations: crop, season and days in the packet's counting.
pub fn own_days(book: &Book, seen: &[(CropId, i32, f64)]) -> BTreeMap<CropId, OwnDays> {
    let mut by_crop: BTreeMap<&CropId, Vec<(i32, f64)>> = BTreeMap::new();
    for (crop, season, days) in seen {
        by_crop.entry(crop).or_default().push((*season, *days));
    }
    by_crop
        .into_iter()
        .filter_map(|(id, days)| {
            let crop = book.get(id)?;
            Some((crop.id.clone(), OwnDays::new(crop.days.usual(), &days)?))
        })
        .collect()
}
