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

/// Normal deviates of chance that one degree of offset is worth, to start the search.
const USUAL_SLOPE: f64 = 0.45;
/// Normal deviates within which the chance counts as even: 0.00001 of it.
const CLOSE: f64 = 3e-5;

/// The number of degrees that, added to every normal minimum, makes `place` the even-chance frost date of the half.
/// None where it would take more than [`ANCHOR_LIMIT`] either way.
pub fn anchor(mu: &[f64; HALF_YEAR], sigma: &[f64; HALF_YEAR], place: usize) -> Option<f64> {
    let place = place.min(HALF_YEAR - 2);
    // In normal deviates the chance is close to a straight line of the offset, so few steps are needed.
    let miss = |offset: f64| bell::quantile(share_by(&mu.map(|m| m + offset), sigma, 0.0, place)[place]);
    let (mut low, mut high) = (-ANCHOR_LIMIT, ANCHOR_LIMIT);
    let (mut before, mut at_before) = (0.0, miss(0.0));
    let mut slope = USUAL_SLOPE;
    for _ in 0..40 {
        if at_before.abs() < CLOSE {
            return Some(before);
        }
        if at_before > 0.0 {
            high = before;
        } else {
            low = before;
        }
        if high <= -ANCHOR_LIMIT || low >= ANCHOR_LIMIT {
            return None;
        }
        // A secant step out of the bracket tries the limit, which shows whether there is an answer at all.
        let step = (before - at_before / slope).clamp(-ANCHOR_LIMIT, ANCHOR_LIMIT);
        let fits = (low..=high).contains(&step) && (step - before).abs() > 0.0;
        let now = if slope > 1e-3 && fits { step } else { low.midpoint(high) };
        let at_now = miss(now);
        slope = (at_now - at_before) / (now - before);
        (before, at_before) = (now, at_now);
    }
    Some(before)
}
