//! How much of a packet still sprouts.

use crate::crop::Crop;
use crate::plan::Packet;
use crate::units::num;

/// Share that sprouts below which seed is bought anew, and below which it is sown thicker (university germination
/// test leaflets: 40 and 50 per cent).
pub const BUY_NEW: f64 = 0.4;
/// See [`BUY_NEW`].
pub const SOW_THICKER: f64 = 0.5;
/// What is left of the share that sprouts with every year beyond the years a seed keeps (from memory).
const AFTER_LIFE: f64 = 0.7;

/// Share of seed that sprouts at an age in years: as fresh for the years it keeps, a third less with each year more.
/// Keeping years: Iowa State University list of vegetable seed, as the crop book gives them.
pub fn sprouts(crop: &Crop, age: i32) -> f64 {
    let fresh = f64::from(crop.seed.sprouts) / 100.0;
    let beyond = (age - i32::from(crop.seed.life)).clamp(0, 40);
    fresh * AFTER_LIFE.powi(beyond)
}

/// Share of a packet that sprouts in a year: by its own test of ten where there is one.
pub fn packet_sprouts(crop: &Crop, packet: &Packet, year: i32) -> f64 {
    packet.tested.map_or_else(|| sprouts(crop, year - packet.packed), |n| f64::from(n.min(10)) / 10.0)
}

/// Seeds in a packet as they are sold, by the size of the seed (from memory).
pub fn in_packet(crop: &Crop) -> f64 {
    match crop.seed.per_gram {
        n if n < 20.0 => 50.0,
        n if n < 200.0 => 100.0,
        _ => 250.0,
    }
}

/// Seeds in so many grams.
pub(super) fn in_grams(crop: &Crop, grams: f64) -> f64 {
    (grams * f64::from(crop.seed.per_gram)).floor().max(0.0)
}

/// Grams of so many seeds.
pub(super) fn grams(crop: &Crop, seeds: usize) -> f64 {
    if crop.seed.per_gram > 0.0 { num::real(seeds) / f64::from(crop.seed.per_gram) } else { 0.0 }
}
