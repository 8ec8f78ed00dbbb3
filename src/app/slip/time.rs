//! Going to a date.

use super::Reading;
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::calendar::{Date, MONTHS, MonthDay, Season, SeasonStart, Week, read_date};
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
