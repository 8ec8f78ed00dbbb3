//! ISO 8601 weeks, and the garden day inside a week.

use super::{Date, Weekday, day_text, days_between, plus};
use chrono::Datelike;
use std::fmt;

/// A week from Monday to Sunday, named by its Monday; ISO 8601 numbers are its label.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Week(Date);

impl Week {
    /// The week in which `date` lies.
    pub fn of(date: Date) -> Self {
        Self(plus(date, -i64::from(date.weekday().num_days_from_monday())))
    }
    /// Its Monday.
    pub const fn monday(self) -> Date {
        self.0
    }
    /// Its Sunday.
    pub fn sunday(self) -> Date {
        plus(self.0, 6)
    }
    /// So many weeks on.
    pub fn plus(self, weeks: i64) -> Self {
        Self(plus(self.0, 7 * weeks))
    }
    /// Whole weeks from this one to `other`.
    pub fn until(self, other: Self) -> i64 {
        days_between(self.0, other.0) / 7
    }
    /// ISO week number, 1..=53.
    pub fn number(self) -> u32 {
        self.0.iso_week().week()
    }
    /// ISO week year.
    pub fn year(self) -> i32 {
        self.0.iso_week().year()
    }
    /// The date of a weekday in this week.
    pub fn day(self, weekday: Weekday) -> Date {
        plus(self.0, i64::from(weekday.num_days_from_monday()))
    }
    /// Whether `date` lies in it.
    pub fn holds(self, date: Date) -> bool {
        Self::of(date) == self
    }
    /// "3 May - 9 May".
    pub fn span_text(self) -> String {
        format!("{} - {}", day_text(self.0), day_text(self.sunday()))
    }
}

impl fmt::Display for Week {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-W{:02}", self.year(), self.number())
    }
}
