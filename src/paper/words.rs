//! Small wordings that sheets share.

use chrono::Datelike as _;

use super::axis::month_name;
use crate::calendar::{Date, Week, day_text};

/// A day or a stretch of days: "5 Apr", "5\u{2013}11 Apr", "28 Mar\u{2013}3 Apr".
pub fn span(from: Date, to: Date) -> String {
    if from >= to {
        day_text(from)
    } else if from.year() == to.year() && from.month() == to.month() {
        format!("{}\u{2013}{}", from.day(), day_text(to))
    } else {
        format!("{}\u{2013}{}", day_text(from), day_text(to))
    }
}

/// A day in full: "5 April 2027".
pub fn day(date: Date) -> String {
    format!("{} {} {}", date.day(), month_name(date), date.year())
}

/// A week in full: "Week 14, 5\u{2013}11 Apr 2027".
pub fn week(week: Week) -> String {
    format!("Week {}, {} {}", week.number(), span(week.monday(), week.sunday()), week.sunday().year())
}

/// Hours and minutes: "1 h 20 min".
pub fn minutes(minutes: u32) -> String {
    match (minutes / 60, minutes % 60) {
        (0, m) => format!("{m} min"),
        (h, 0) => format!("{h} h"),
        (h, m) => format!("{h} h {m} min"),
    }
}

/// "1 job", "3 jobs".
pub(super) fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

/// ISO 8601 for files, empty where there is no date.
pub(super) fn iso(date: Option<Date>) -> String {
    date.map_or_else(String::new, |d| d.to_string())
}
