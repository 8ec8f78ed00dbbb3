//! Chances said in words: never a bare percentage date.

use super::frost::{FrostCurves, HalfDates};
use super::year::Span;
use crate::calendar::ClimateDay;
use crate::units::num;
use std::fmt::Write as _;

/// "12 May".
fn day(day: ClimateDay) -> String {
    day.month_day().words()
}

/// "20 Apr to 29 Oct (193 days)".
pub fn span(span: Span) -> String {
    format!("{} to {} ({} days)", day(span.first), day(span.last), span.days)
}

/// A chance as years in ten (or a hundred where it is rarer): "3 years of 10".
pub fn years(chance: f64) -> String {
    let chance = chance.clamp(0.0, 1.0);
    let plain = (0.05..=0.95).contains(&chance) || chance <= 0.0 || chance >= 1.0;
    let of = if plain { 10 } else { 100 };
    let n = num::round_i(chance * num::real_i(of));
    let n = if plain { n } else { n.clamp(1, 99) };
    let word = if n == 1 { "year" } else { "years" };
    format!("{n} {word} of {of}")
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
            format!("it comes in any month, {side} too")
        } else if share < 0.005 {
            format!("none {side}")
        } else {
            format!("one {side} comes in {}", years(share))
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
