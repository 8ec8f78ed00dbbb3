//! Days to maturity learnt in this garden, drawn towards the catalogue by how few seasons there are.

use super::conditions::Conditions;
use super::need::days_needed;
use super::schedule::{PACKET_SPREAD, WEATHER_SPREAD};
use crate::calendar::Date;
use crate::crop::{Book, Crop, CropId, Start};
use crate::units::num;
use std::collections::BTreeMap;

/// A crop's days to maturity as this garden knows them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnDays {
    /// The catalogue's middle figure.
    pub catalogue: f64,
    /// Plain mean of what was seen.
    pub seen: f64,
    /// Plantings seen.
    pub count: usize,
    /// What is reckoned with.
    pub days: f64,
}

impl OwnDays {
    /// Catalogue days joined with observed ones, each weighed by its certainty: a packet's figure is uncertain by
    /// 12 per cent, a single planting by the weather's 5 days and a tenth of its length for everything else.
    pub fn new(catalogue: f64, seen: &[f64]) -> Option<Self> {
        let good: Vec<f64> =
            seen.iter().copied().filter(|d| d.is_finite() && (*d / catalogue - 1.0).abs() <= 0.6).collect();
        if good.is_empty() || !catalogue.is_finite() || catalogue <= 0.0 {
            return None;
        }
        let count = num::real(good.len());
        let mean = good.iter().sum::<f64>() / count;
        let packet = (PACKET_SPREAD * catalogue).powi(2);
        let single = WEATHER_SPREAD.powi(2) + (0.1 * catalogue).powi(2);
        let weight = count * packet / (count * packet + single);
        Some(Self { catalogue, seen: mean, count: good.len(), days: catalogue + weight * (mean - catalogue) })
    }
    /// "58 days here (3 plantings), 52 by the book".
    pub fn words(&self) -> String {
        let plantings = if self.count == 1 { "planting" } else { "plantings" };
        format!("{:.0} days here ({} {plantings}), {:.0} by the book", self.days, self.count, self.catalogue)
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

/// This garden's days for every crop with observations, as pairs of crop and days in the packet's counting.
pub fn own_days(book: &Book, seen: &[(CropId, f64)]) -> BTreeMap<CropId, OwnDays> {
    let mut by_crop: BTreeMap<&CropId, Vec<f64>> = BTreeMap::new();
    for (crop, days) in seen {
        by_crop.entry(crop).or_default().push(*days);
    }
    by_crop
        .into_iter()
        .filter_map(|(id, days)| {
            let crop = book.get(id)?;
            Some((crop.id.clone(), OwnDays::new(crop.days.usual(), &days)?))
        })
        .collect()
}
