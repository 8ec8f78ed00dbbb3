//! How many catalogue days a planting needs, and from when they count.

use super::conditions::Conditions;
use crate::crop::{CountedFrom, Crop, Start};

/// Days a plant stands still after setting out, measured against one sown in place (from memory).
const CHECK: f64 = 7.0;
/// The least share of the days from sowing that is left after setting out, however old the plant (from memory).
const LEFT: f64 = 0.35;
/// Age of a bought plant where the crop has no age of its own, days (common practice: five weeks).
const BOUGHT: i64 = 35;
/// Days a set, clove or tuber takes to show in spring soil (from memory).
pub(super) const SHOWS: i64 = 14;

/// Days from sowing in the raising place to setting out: the middle of the ages the crop allows.
pub fn age(start: Start) -> i64 {
    match start {
        Start::Raised { weeks: (young, old), .. } => 7 * (i64::from(young) + i64::from(old)) / 2,
        Start::InPlace | Start::Bought | Start::Piece(_) => 0,
    }
}

/// Age at which plants of a crop are usually set out, days.
fn usual_age(crop: &Crop) -> i64 {
    crop.starts.iter().map(|s| age(*s)).find(|a| *a > 0).unwrap_or(BOUGHT)
}

/// Catalogue days from sowing in place, or from setting out, to the first picking.
///
/// Germination is inside the figure and never added again. Days of a packet that count from setting out are
/// lengthened by the usual age of a young plant where it is sown in place; days that count from sowing are
/// shortened by the age of a raised plant less a week for the move.
pub fn days_needed(crop: &Crop, conditions: &Conditions<'_>, start: Start) -> f64 {
    let packet = conditions.maturity(crop).max(1.0);
    let real = |days: i64| f64::from(i32::try_from(days).unwrap_or(i32::MAX));
    match (start, crop.days.from) {
        (Start::InPlace, CountedFrom::Sowing)
        | (Start::Piece(_), _)
        | (Start::Raised { .. } | Start::Bought, CountedFrom::SettingOut) => packet,
        (Start::InPlace, CountedFrom::SettingOut) => packet + real(usual_age(crop)),
        (Start::Raised { .. }, CountedFrom::Sowing) => left(packet, real(age(start))),
        (Start::Bought, CountedFrom::Sowing) => left(packet, real(usual_age(crop))),
    }
}

fn left(packet: f64, age: f64) -> f64 {
    (packet - (age - CHECK).max(0.0)).max(packet * LEFT)
}
