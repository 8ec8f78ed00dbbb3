//! Going to a date.

use super::Reading;
use super::matter::is_month;
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::calendar::{Date, MONTHS, MonthDay, Season, SeasonStart, Week, plus, read_date};
use chrono::Datelike as _;

/// Reads "2027-05-12", "05-12", "12 May", "May 12", "May" or "week 20"; days without a year lie in the season that
/// holds `near`.
pub(in crate::app) fn read_day(text: &str, near: Date, start: SeasonStart) -> Option<Date> {
    let text = text.trim().to_lowercase();
    if let Ok(date) = read_date(&text) {
        return Some(date);
    }
    if let Some(number) = text.strip_prefix("week ").or_else(|| text.strip_prefix('w')) {
        let number: i64 = number.trim().parse().ok().filter(|n| (1..=53).contains(n))?;
        let first = Week::of(Date::from_ymd_opt(near.year(), 1, 4)?);
        return Some(first.plus(number - 1).monday());
    }
    if let Some((day, year)) = text.rsplit_once(' ')
        && let Some(year) = year.parse::<i32>().ok().filter(|y| (1900..=2200).contains(y))
        && let Some(day) = read_month_day(day)
    {
        return Some(day.in_year(year));
    }
    let day = read_month_day(&text)?;
    let season = Season::holding(near, start);
    let here = day.in_year(season.year());
    Some(if here < season.first() { day.in_year(season.year() + 1) } else { here })
}

/// Reads "05-12", "12 May", "May 12" or "May" (its first day).
pub(in crate::app) fn read_month_day(text: &str) -> Option<MonthDay> {
    let text = text.trim().to_lowercase();
    if let Ok(day) = text.parse() {
        return Some(day);
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let month = |word: &str| {
        let index = MONTHS.iter().position(|m| word.len() >= 3 && word.starts_with(&m.to_lowercase()))?;
        u8::try_from(index + 1).ok()
    };
    let day = |word: &str| word.trim_end_matches(['.', 's', 't', 'n', 'd', 'r', 'h']).parse::<u8>().ok();
    match words.as_slice() {
        [one] => MonthDay::new(month(one)?, 1),
        [a, b] => match (month(a), month(b)) {
            (Some(m), None) => MonthDay::new(m, day(b)?),
            (None, Some(m)) => MonthDay::new(m, day(a)?),
            _ => None,
        },
        _ => None,
    }
}

/// Reads "3 Jul to 17 Jul", "24 Dec to 2 Jan 2028", "June to August": first and last day, near the shown week.
pub(super) fn read_span(text: &str, model: &Model) -> Result<(Date, Date), String> {
    let text = text.trim();
    let wrong =
        || format!("'{text}' is no stretch of days: write 3 Jul to 17 Jul, or 2027-07-03 to 2027-07-17.");
    let (from, to) = text.split_once(" to ").or_else(|| text.split_once('\u{2013}')).ok_or_else(wrong)?;
    let first = day(model, from).ok_or_else(wrong)?;
    let mut last = day(model, to).ok_or_else(wrong)?;
    // "to August" means to its end.
    if is_month(to.trim()) && !to.contains(|c: char| c.is_ascii_digit()) {
        last = plus(last, 31).with_day(1).map_or(last, |d| plus(d, -1));
    }
    // Both days lie in the season shown unless a year says otherwise; what ends before it begins ends a year later.
    let told = to.split([' ', '-']).any(|w| w.len() == 4 && w.parse::<u16>().is_ok());
    if last < first && !told {
        last = MonthDay::of(last).in_year(last.year() + 1);
    }
    if last < first {
        return Err(format!("'{text}' ends before it begins."));
    }
    Ok((first, last))
}

fn day(model: &Model, text: &str) -> Option<Date> {
    read_day(text, model.shown_day(), model.season_start())
}

pub(super) fn read(model: &Model, text: &str) -> Reading {
    match day(model, text) {
        Some(date) => {
            let week = Week::of(date);
            Reading::say(Tone::Plain, format!("week {}, {} {}", week.number(), week.span_text(), week.year()))
        }
        None if text.trim().is_empty() => Reading::default(),
        None => Reading::say(Tone::Mind, "That is no day yet."),
    }
}

pub(super) fn accept(model: &mut Model, text: &str) -> Result<Vec<Effect>, String> {
    let date = day(model, text)
        .ok_or_else(|| format!("'{}' is no day: write 2027-05-12, 12 May, or week 20.", text.trim()))?;
    model.week = Week::of(date);
    Ok(Vec::new())
}
