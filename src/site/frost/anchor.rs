//! Fitting the chain to average frost dates the grower knows.

use super::super::bell;
use super::super::day::{Daily, shift};
use super::chain::{HALF_YEAR, share_by};
use crate::units::num;

/// Degrees Celsius beyond which dates and normals belong to different climates and are not joined.
pub const ANCHOR_LIMIT: f64 = 5.0;

/// The half of the year before the warmest day, or the half after it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Half {
    /// Midwinter to the warmest day: holds the last frost.
    Spring,
    /// The warmest day to midwinter: holds the first frost.
    Autumn,
}

impl Half {
    /// The day at place `j` of the half-year counted from midwinter towards the warmest day.
    pub fn day(self, peak: usize, j: usize) -> usize {
        let inward = num::signed(j) - 182;
        match self {
            Self::Spring => shift(peak, inward),
            Self::Autumn => shift(peak, -inward),
        }
    }
    /// The place of `day` counted from midwinter towards the warmest day, where it lies in this half.
    pub fn place(self, peak: usize, day: usize) -> Option<usize> {
        let after = super::super::day::apart(peak, day);
        let inward = match self {
            Self::Spring => after,
            Self::Autumn => -after,
        };
        (-182..=0).contains(&inward).then(|| num::count(inward + 182))
    }
    /// This half of a daily curve, from midwinter to the warmest day.
    pub fn of(self, peak: usize, daily: &Daily) -> [f64; HALF_YEAR] {
        std::array::from_fn(|j| daily[self.day(peak, j)])
    }
}

/// The number of degrees that, added to every normal minimum, makes `place` the even-chance frost date of the half.
/// None where it would take more than [`ANCHOR_LIMIT`] either way.
pub fn anchor(mu: &[f64; HALF_YEAR], sigma: &[f64; HALF_YEAR], place: usize) -> Option<f64> {
    let place = place.min(HALF_YEAR - 2);
    // In normal deviates the chance is close to a straight line of the offset, so few steps are needed.
    let miss = |offset: f64| bell::quantile(share_by(&mu.map(|m| m + offset), sigma, 0.0, place)[place]);
    let (mut low, mut high) = (-ANCHOR_LIMIT, ANCHOR_LIMIT);
    let (mut at_low, mut at_high) = (miss(low), miss(high));
    if at_low > 0.0 || at_high < 0.0 {
        return None;
    }
    for _ in 0..40 {
        let middle = if at_high - at_low > 1e-12 {
            (high - (high - low) * at_high / (at_high - at_low)).clamp(low, high)
        } else {
            low.midpoint(high)
        };
        let here = miss(middle);
        if here.abs() < 1e-5 || high - low < 1e-6 {
            return Some(middle);
        }
        // Illinois rule: an end kept twice counts half.
        if here > 0.0 {
            (high, at_high) = (middle, here);
            at_low *= 0.5;
        } else {
            (low, at_low) = (middle, here);
            at_high *= 0.5;
        }
    }
    Some(low.midpoint(high))
}
