//! Seasons: a view of the years that begins where the site's growing year begins.

use super::{Date, MonthDay, Week, plus};
use chrono::Datelike;
use std::fmt;

/// The day on which a garden's seasons begin.
pub type SeasonStart = MonthDay;

/// One season: from its first day to the day before the next begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Season {
    first: Date,
    start: MonthDay,
}

impl Season {
    /// The season in which `date` lies.
    pub fn holding(date: Date, start: MonthDay) -> Self {
        let here = start.in_year(date.year());
        let first = if here <= date { here } else { start.in_year(date.year() - 1) };
        Self { first, start }
    }
    /// The season that begins in `year`.
    pub fn beginning(year: i32, start: MonthDay) -> Self {
        Self { first: start.in_year(year), start }
    }
    /// Its first day.
    pub const fn first(self) -> Date {
        self.first
    }
    /// Its last day.
    pub fn last(self) -> Date {
        plus(self.start.in_year(self.first.year() + 1), -1)
    }
    /// The year in which it begins.
    pub fn year(self) -> i32 {
        self.first.year()
    }
    /// So many seasons on.
    pub fn plus(self, seasons: i32) -> Self {
        Self::beginning(self.first.year() + seasons, self.start)
    }
    /// Whether `date` lies in it.
    pub fn holds(self, date: Date) -> bool {
        self.first <= date && date <= self.last()
    }
    /// The weeks that touch it, first to last.
    pub fn weeks(self) -> impl Iterator<Item = Week> {
        let last = Week::of(self.last());
        std::iter::successors(Some(Week::of(self.first)), |w| Some(w.plus(1))).take_while(move |w| *w <= last)
    }
}

impl fmt::Display for Season {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let year = self.first.year();
        if self.last().year() == year {
            write!(f, "{year}")
        } else {
            write!(f, "{year}/{:02}", (year + 1).rem_euclid(100))
        }
    }
}
