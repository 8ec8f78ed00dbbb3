//! The climate year of 365 days: month lengths and day arithmetic on plain indices.

use crate::units::num;

/// Days in the climate year; 29 February reads as 28 February.
pub const DAYS: usize = 365;
/// One value a day, 1 January first.
pub type Daily = [f64; DAYS];
/// One value a month, January first.
pub type Monthly = [f64; 12];

/// Days in each month.
pub const MONTH_DAYS: [usize; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
/// Index of the first day of each month.
pub const MONTH_START: [usize; 12] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];

/// `base + offset` wrapped into the year.
pub fn shift(base: usize, offset: i64) -> usize {
    num::wrap(num::signed(base).saturating_add(offset), DAYS)
}

/// Signed days from `from` to `to` by the shorter way round the year: -182..=182.
pub fn apart(from: usize, to: usize) -> i64 {
    let forward = num::signed(shift(to, -num::signed(from)));
    if forward > 182 { forward - 365 } else { forward }
}

/// Means of the months of a daily curve.
pub fn month_means(daily: &Daily) -> Monthly {
    let mut out = [0.0; 12];
    for (month, mean) in out.iter_mut().enumerate() {
        let days = &daily[MONTH_START[month]..MONTH_START[month] + MONTH_DAYS[month]];
        *mean = days.iter().sum::<f64>() / num::real(days.len());
    }
    out
}

/// Index of the largest value; the first of equals.
pub fn warmest(daily: &Daily) -> usize {
    let mut best = 0;
    for (day, value) in daily.iter().enumerate() {
        if *value > daily[best] {
            best = day;
        }
    }
    best
}
