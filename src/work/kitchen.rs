//! What comes to the kitchen in poor, usual and good years, week by week.

use super::picking::picking;
use crate::calendar::{Season, Week};
use crate::crop::{Book, CropId};
use crate::plan::{Plan, Why};
use crate::site::SiteYear;
use crate::units::Amount;
use serde::Serialize;
use std::collections::BTreeMap;

/// A week of a crop in the kitchen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KitchenWeek {
    /// The week's Monday.
    pub from: crate::calendar::Date,
    /// In a poor year.
    pub low: Amount,
    /// In a usual year.
    pub usual: Amount,
    /// In a good year.
    pub high: Amount,
}

/// A crop in the kitchen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KitchenCrop {
    /// The crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// Weeks in which something comes.
    pub weeks: Vec<KitchenWeek>,
}

/// What is expected of a season's plantings, low, usual and high, frost weighed in. Cover crops are left out.
pub fn kitchen(plan: &Plan, book: &Book, year: &SiteYear, season: Season) -> Vec<KitchenCrop> {
    let conditions = plan.conditions(book, year);
    let mut sums: BTreeMap<&CropId, BTreeMap<Week, f64>> = BTreeMap::new();
    for planting in plan.plantings.iter().filter(|p| p.why != Why::Cover) {
        let Some(crop) = book.get(&planting.crop) else { continue };
        for (week, share) in picking(planting, crop, &conditions) {
            if season.holds(week.monday()) {
                *sums.entry(&crop.id).or_default().entry(week).or_default() +=
                    share * f64::from(planting.plants);
            }
        }
    }
    let mut out = Vec::new();
    for (id, weeks) in sums {
        let Some(crop) = book.get(id) else { continue };
        let of = |amount: Amount, plants: f64| amount.with_value(amount.value() * plants);
        let weeks = weeks
            .into_iter()
            .map(|(week, plants)| KitchenWeek {
                from: week.monday(),
                low: of(crop.harvest.low, plants),
                usual: of(crop.harvest.usual, plants),
                high: of(crop.harvest.high, plants),
            })
            .collect();
        out.push(KitchenCrop { crop: id.clone(), name: crop.name.clone(), weeks });
    }
    out
}
