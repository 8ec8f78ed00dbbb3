//! Days counted on the climate's endless calendar of 365-day years.

use crate::calendar::{ClimateDay, Date};
use crate::units::num;
use chrono::Datelike;

/// A day of the climate calendar: 29 February is the same day as 28 February, so that a year always has 365.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Tick(i64);

impl Tick {
    /// The day of a date.
    pub(super) fn of(date: Date) -> Self {
        Self(i64::from(date.year()) * 365 + num::signed(ClimateDay::of(date).index()))
    }
    /// The date of the day.
    pub(super) fn date(self) -> Date {
        let year = i32::try_from(self.0.div_euclid(365)).unwrap_or(i32::MAX).clamp(-200_000, 200_000);
        self.day().in_year(year)
    }
    /// Its place in the year.
    pub(super) fn day(self) -> ClimateDay {
        ClimateDay::new(self.0.rem_euclid(365))
    }
    /// 0..=364.
    pub(super) fn index(self) -> usize {
        num::count(self.0.rem_euclid(365))
    }
    /// So many days on.
    pub(super) const fn plus(self, days: i64) -> Self {
        Self(self.0.saturating_add(days))
    }
    /// Days from this one to `other`.
    pub(super) const fn until(self, other: Self) -> i64 {
        other.0.saturating_sub(self.0)
    }
    /// The first day on or after this one that falls on `day`.
    pub(super) fn next(self, day: ClimateDay) -> Self {
        let ahead = num::signed(day.index()) - self.0.rem_euclid(365);
        self.plus(ahead.rem_euclid(365))
    }
    /// The day nearest to this one that falls on `day`.
    pub(super) fn nearest(self, day: ClimateDay) -> Self {
        let next = self.next(day);
        if self.until(next) > 182 { next.plus(-365) } else { next }
    }
}
