//! Dates, ISO 8601 weeks, climate days without a year, season spans and garden days.
//!
//! "Today" is always an argument: nothing here reads a clock.

mod season;
mod week;

pub use chrono::{NaiveDate as Date, Weekday};
pub use season::{Season, SeasonStart};
pub use week::Week;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;
use std::str::FromStr;

use crate::units::num;
use chrono::Datelike;

/// Days before each month in a year of 365 days.
const BEFORE: [u16; 12] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
/// Short names of the months.
pub const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// A date with so many days added (negative: taken away); stops at the ends of the calendar.
pub fn plus(date: Date, days: i64) -> Date {
    date.checked_add_signed(chrono::TimeDelta::days(days.clamp(-4_000_000, 4_000_000))).unwrap_or(date)
}

/// Days from `a` to `b`; negative where `b` is earlier.
pub fn days_between(a: Date, b: Date) -> i64 {
    b.signed_duration_since(a).num_days()
}

/// "4 May", as a reader expects a day without its year.
pub fn day_text(date: Date) -> String {
    format!("{} {}", date.day(), MONTHS[num::index(date.month0())])
}

/// A day of the climate year: 0 = 1 January .. 364 = 31 December; 29 February reads as 28 February.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ClimateDay(u16);

impl ClimateDay {
    /// Any whole number, wrapped into the year.
    pub fn new(day: i64) -> Self {
        Self(num::small(num::wrap(day, 365)))
    }
    /// The day of the year on which `date` falls.
    pub fn of(date: Date) -> Self {
        let month = num::index(date.month0());
        let day = if date.month() == 2 { date.day().min(28) } else { date.day() };
        Self(BEFORE[month] + num::small(num::index(day)) - 1)
    }
    /// 0..=364, to index arrays of 365.
    pub fn index(self) -> usize {
        usize::from(self.0)
    }
    /// So many days on, round the year.
    pub fn plus(self, days: i64) -> Self {
        Self::new(i64::from(self.0) + days)
    }
    /// Month and day.
    pub fn month_day(self) -> MonthDay {
        let month = BEFORE.iter().rposition(|&b| b <= self.0).unwrap_or(0);
        MonthDay { month: narrow(month + 1), day: narrow(usize::from(self.0 - BEFORE[month] + 1)) }
    }
    /// Month index 0..=11.
    pub fn month0(self) -> usize {
        BEFORE.iter().rposition(|&b| b <= self.0).unwrap_or(0)
    }
    /// The date of this day in `year`.
    pub fn in_year(self, year: i32) -> Date {
        self.month_day().in_year(year)
    }
    /// The first date on or after `date` that falls on this day.
    pub fn on_or_after(self, date: Date) -> Date {
        let here = self.in_year(date.year());
        if here >= date { here } else { self.in_year(date.year() + 1) }
    }
}

fn narrow(n: usize) -> u8 {
    u8::try_from(n).unwrap_or(u8::MAX)
}

/// A month and a day without a year, written "05-12".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct MonthDay {
    /// 1..=12.
    pub month: u8,
    /// 1..=31.
    pub day: u8,
}

impl MonthDay {
    /// That month and day, if there is such a day in a leap year.
    pub fn new(month: u8, day: u8) -> Option<Self> {
        Date::from_ymd_opt(2028, u32::from(month), u32::from(day)).map(|_| Self { month, day })
    }
    /// The day and month of a date.
    pub fn of(date: Date) -> Self {
        Self { month: narrow(num::index(date.month())), day: narrow(num::index(date.day())) }
    }
    /// The date in `year`; 29 February reads as 28 February outside leap years.
    pub fn in_year(self, year: i32) -> Date {
        Date::from_ymd_opt(year, u32::from(self.month), u32::from(self.day))
            .or_else(|| Date::from_ymd_opt(year, u32::from(self.month), 28))
            .unwrap_or(Date::MAX)
    }
    /// Its place in the climate year.
    pub fn climate_day(self) -> ClimateDay {
        ClimateDay::of(self.in_year(2027))
    }
    /// "12 May".
    pub fn words(self) -> String {
        format!("{} {}", self.day, MONTHS[usize::from(self.month.clamp(1, 12)) - 1])
    }
}

impl fmt::Display for MonthDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}-{:02}", self.month, self.day)
    }
}

/// Text that is no date of the wanted form.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("'{text}' is not a {kind}: write {example}")]
pub struct DateError {
    text: String,
    kind: &'static str,
    example: &'static str,
}

impl FromStr for MonthDay {
    type Err = DateError;
    fn from_str(text: &str) -> Result<Self, DateError> {
        let error = || DateError {
            text: text.trim().to_owned(),
            kind: "month and day",
            example: "the month and the day, such as 05-12 for 12 May",
        };
        let (month, day) = text.trim().split_once('-').ok_or_else(error)?;
        let (Ok(month), Ok(day)) = (month.parse(), day.parse()) else { return Err(error()) };
        Self::new(month, day).ok_or_else(error)
    }
}

/// Reads "2027-05-12".
///
/// # Errors
/// Where the text is no ISO 8601 calendar date.
pub fn read_date(text: &str) -> Result<Date, DateError> {
    Date::parse_from_str(text.trim(), "%Y-%m-%d").ok().ok_or_else(|| DateError {
        text: text.trim().to_owned(),
        kind: "date",
        example: "year, month and day, such as 2027-05-12",
    })
}

impl Serialize for MonthDay {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}
impl<'de> Deserialize<'de> for MonthDay {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        String::deserialize(d)?.parse().map_err(serde::de::Error::custom)
    }
}
