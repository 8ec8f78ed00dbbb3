//! Chances said in words: never a bare percentage date.

use super::frost::{FrostCurves, HalfDates};
use super::year::Span;
use crate::calendar::ClimateDay;
use crate::units::num;
use std::fmt::Write as _;

/// "12 May".
pub fn day(day: ClimateDay) -> String {
    day.month_day().words()
}

/// "20 Apr to 29 Oct, 193 days".
pub fn span(span: Span) -> String {
    format!("{} to {}, {} days", day(span.first), day(span.last), span.days)
}

/// "1 year of 10", "3 years of 10", "1 year of 100" for a chance.
pub fn years(chance: f64) -> String {
    let said = |of: usize| {
        let n = num::round_u(chance * num::real(of));
        format!("{n} year{} of {of}", if n == 1 { "" } else { "s" })
    };
    let tenths = chance * 10.0;
    if chance <= 0.0 {
        "no year".to_owned()
    } else if chance >= 1.0 {
        "every year".to_owned()
    } else if chance > 0.995 {
        "nearly every year".to_owned()
    } else if chance < 0.005 {
        "fewer than 1 year of 100".to_owned()
    } else if (tenths - tenths.round()).abs() < 0.25 && (0.75..9.25).contains(&tenths) {
        said(10)
    } else if (0.095..=0.905).contains(&chance) {
        said(20)
    } else {
        said(100)
    }
}

/// "a frost still comes after 12 May in 1 year of 10, after 26 Apr in 5, after 10 Apr in 9".
pub fn last_frost(curves: &FrostCurves) -> String {
    half(
        curves,
        &curves.last,
        curves.share_spring(),
        "a frost still comes after",
        "after",
        "before the warmest day",
    )
}

/// "a frost has come before 29 Sep in 1 year of 10, before 12 Oct in 5, before 25 Oct in 9".
pub fn first_frost(curves: &FrostCurves) -> String {
    half(
        curves,
        &curves.first,
        curves.share_autumn(),
        "a frost has come before",
        "before",
        "after the warmest day",
    )
}

fn half(curves: &FrostCurves, dates: &HalfDates, share: f64, first: &str, next: &str, side: &str) -> String {
    let known: Vec<(ClimateDay, u8)> = [(dates.one_in_10, 1), (dates.five_in_10, 5), (dates.nine_in_10, 9)]
        .into_iter()
        .filter_map(|(day, years)| day.map(|day| (day, years)))
        .collect();
    let Some(((day_1, years_1), rest)) = known.split_first() else {
        return if curves.all_summer() {
            format!("frost comes in any month, {side} too")
        } else {
            format!("frost {side} comes in {}", years(share))
        };
    };
    let plural = if *years_1 == 1 { "year" } else { "years" };
    let mut out = format!("{first} {} in {years_1} {plural} of 10", day(*day_1));
    for (date, years) in rest {
        let _ = write!(out, ", {next} {} in {years}", day(*date));
    }
    if share < 0.895 {
        let none = num::round_u((1.0 - share) * 10.0);
        let (plural, verb) = if none == 1 { ("", "has") } else { ("s", "have") };
        let _ = write!(out, "; about {none} year{plural} of 10 {verb} none {side}");
    }
    out
}
