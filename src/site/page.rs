//! The climate page: a site as 80 columns of plain text.

use super::day::{DAYS, Daily, MONTH_START, Monthly, month_means, shift};
use super::degree::Response;
use super::report::{SHOWN, month_sums};
use super::words;
use super::year::{SHORT_DAY, SiteYear};
use crate::calendar::{ClimateDay, MONTHS};
use crate::units::{Measure, TempUnit, Temperature, num};
use std::fmt::Write as _;

/// Columns of the page.
pub const WIDTH: usize = 80;
/// Columns of the plot: one a week.
const WEEKS: usize = 52;
/// Rows of the plot.
const ROWS: usize = 15;

/// The climate page of a site, in the grower's measure.
pub fn page(year: &SiteYear, measure: Measure) -> String {
    let mut out = String::new();
    head(&mut out, year, measure);
    frost(&mut out, year, measure);
    seasons(&mut out, year);
    plot(&mut out, year, measure);
    table(&mut out, year, measure);
    foot(&mut out, year);
    out
}

/// A line of text, wrapped with a hanging indent.
fn say(out: &mut String, indent: usize, text: &str) {
    let mut line = " ".repeat(indent);
    let mut used = indent;
    for word in text.split_whitespace() {
        let long = word.chars().count();
        if used > indent + 2 && used + 1 + long > WIDTH {
            let _ = writeln!(out, "{line}");
            line = " ".repeat(indent + 2);
            used = indent + 2;
        } else if used > indent && !line.ends_with("  ") {
            line.push(' ');
            used += 1;
        }
        line += word;
        used += long;
    }
    let _ = writeln!(out, "{line}");
}

fn head(out: &mut String, year: &SiteYear, measure: Measure) {
    let side = |value: f64, plus: &str, minus: &str| {
        format!("{:.2} {}", value.abs(), if value < 0.0 { minus } else { plus })
    };
    let height = year.elevation.map_or_else(String::new, |metres| match measure {
        Measure::Metric => format!(", {metres:.0} m"),
        Measure::Us => format!(", {:.0} ft", metres / 0.3048),
    });
    say(
        out,
        0,
        &format!("{}: {}, {}{height}", year.name, side(year.lat, "N", "S"), side(year.lon, "E", "W")),
    );
    say(out, 0, &format!("{}.", capital(&year.trust.words())));
    if let Some(advice) = year.trust.weaker().advice() {
        say(out, 2, &format!("Better: {advice}."));
    }
    for warning in &year.warnings {
        say(out, 2, &format!("Note: {warning}."));
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn frost(out: &mut String, year: &SiteYear, measure: Measure) {
    for threshold in SHOWN {
        let curves = year.frost_plain(threshold);
        let kind = if threshold < 0.0 { "Hard frost" } else { "Frost" };
        let _ = writeln!(out, "\n{kind} ({} or colder)", degrees(threshold, measure));
        let (last, first) = (words::last_frost(&curves), words::first_frost(&curves));
        say(out, 2, &format!("{}.", capital(&last)));
        if last != first {
            say(out, 2, &format!("{}.", capital(&first)));
        }
        let wide = year.frost(threshold);
        if let (Some(after), Some(before)) = (wide.last.one_in_10, wide.first.one_in_10) {
            let (after, before) = (words::day(after), words::day(before));
            say(
                out,
                2,
                &format!(
                    "With the error of these figures allowed for, 1 year of 10 has one after {after}, and one before \
                     {before}."
                ),
            );
        }
    }
}

fn seasons(out: &mut String, year: &SiteYear) {
    let _ = writeln!(out, "\nSeason");
    match year.usual_season(0.0) {
        Some(span) => say(out, 2, &format!("Free of frost in 5 years of 10: {}.", words::span(span))),
        None if year.frost_plain(0.0).all_summer() => {
            say(out, 2, "No season free of frost: it comes in any month.");
        }
        None => say(out, 2, "Free of frost all year in most years."),
    }
    match year.frost_free(0.0, 0.1) {
        Some(span) if span.days < DAYS => {
            say(out, 2, &format!("Safe in 9 years of 10, error allowed for: {}.", words::span(span)));
        }
        Some(_) => say(out, 2, "Safe in 9 years of 10, error allowed for: all year."),
        None => say(out, 2, "Safe in 9 years of 10, error allowed for: no season of use."),
    }
    let longest = year.daylength.iter().copied().fold(0.0, f64::max);
    let shortest = year.daylength.iter().copied().fold(24.0, f64::min);
    let short = year.days_under(SHORT_DAY).map_or_else(
        || format!("no day is shorter than {SHORT_DAY:.0} h"),
        |span| format!("shorter than {SHORT_DAY:.0} h {}", words::span(span)),
    );
    say(out, 2, &format!("Days of {shortest:.1} to {longest:.1} h; {short}."));
    for warmth in [5.0, 10.0, 15.0] {
        if let Some(span) = year.soil_above(warmth) {
            say(out, 2, &format!("Soil at 5 cm holds {warmth:.0} C or more: {}.", words::span(span)));
        }
    }
}

/// A threshold as growers write it: "0 C", "-2.2 C", "28 F".
fn degrees(celsius: f64, measure: Measure) -> String {
    if measure == Measure::Us {
        Temperature::new(celsius, TempUnit::C).reading(measure)
    } else {
        format!("{celsius} C")
    }
}

fn in_measure(celsius: f64, measure: Measure) -> f64 {
    Temperature::new(celsius, TempUnit::C).in_unit(TempUnit::for_measure(measure))
}

/// The day the plot begins: where seasons begin, so that summer stands in the middle on both sides of the equator.
fn first_day(year: &SiteYear) -> usize {
    year.season_start_or_january().climate_day().index()
}

fn weekly(daily: &Daily, from: usize) -> Vec<f64> {
    (0..WEEKS)
        .map(|week| (0..7).map(|d| daily[shift(from, num::signed(week * 7 + d))]).sum::<f64>() / 7.0)
        .collect()
}

fn plot(out: &mut String, year: &SiteYear, measure: Measure) {
    let from = first_day(year);
    let curves =
        [(weekly(&year.soil, from), 's'), (weekly(&year.tmax, from), '^'), (weekly(&year.tmin, from), 'v')];
    let all = || curves.iter().flat_map(|(values, _)| values.iter().copied());
    let (low, high) =
        (all().fold(f64::INFINITY, f64::min).floor(), all().fold(f64::NEG_INFINITY, f64::max).ceil());
    let step = ((high - low) / num::real(ROWS - 1)).max(0.5);
    let row_of = |t: f64| num::round_u((high - t) / step).min(ROWS - 1);
    let unit = if measure == Measure::Us { "F" } else { "C" };
    let _ = writeln!(out, "\nTemperature by week, {unit}: ^ day's high, v night's low, s soil at 5 cm");
    let mut grid = vec![vec![' '; WEEKS]; ROWS];
    for (values, sign) in &curves {
        for (week, value) in values.iter().enumerate() {
            grid[row_of(*value)][week] = *sign;
        }
    }
    for (row, signs) in grid.iter().enumerate() {
        let value = in_measure(high - num::real(row) * step, measure).round() + 0.0;
        let line: String = signs.iter().collect();
        let _ = writeln!(out, "{value:>5.0} |{}", line.trim_end());
    }
    let mut months = vec![' '; WEEKS + 4];
    for (month, name) in MONTHS.into_iter().enumerate() {
        let week = shift(MONTH_START[month], -num::signed(from)) / 7;
        for (i, letter) in name.chars().enumerate() {
            months[week + i] = letter;
        }
    }
    let months: String = months.into_iter().collect();
    let _ = writeln!(out, "      +{}\n       {}", "-".repeat(WEEKS), months.trim_end());
}

fn table(out: &mut String, year: &SiteYear, measure: Measure) {
    let from = ClimateDay::new(num::signed(first_day(year))).month0();
    let order: Vec<usize> = (0..12).map(|i| (from + i) % 12).collect();
    let mut line = format!("\n{:<20}", "By month");
    for month in &order {
        let _ = write!(line, "{:>5}", MONTHS[*month]);
    }
    let _ = writeln!(out, "{line}");
    let mut row = |name: &str, values: &Monthly, decimals: usize| {
        let mut line = format!("{name:<20}");
        for month in &order {
            // Adding nothing turns a rounded -0 into 0.
            let scale = if decimals == 0 { 1.0 } else { 10.0 };
            let value = (values[*month] * scale).round() / scale + 0.0;
            let _ = write!(line, "{value:>5.decimals$}");
        }
        let _ = writeln!(out, "{line}");
    };
    let us = measure == Measure::Us;
    let (unit, water, decimals, per_mm) = if us { ("F", "in", 1, 1.0 / 25.4) } else { ("C", "mm", 0, 1.0) };
    let heat = |daily: &Daily| month_means(daily).map(|t| in_measure(t, measure));
    row(&format!("high, {unit}"), &heat(&year.tmax), 0);
    row(&format!("low, {unit}"), &heat(&year.tmin), 0);
    row(&format!("soil at 5 cm, {unit}"), &heat(&year.soil), 0);
    row(&format!("rain, {water}"), &year.monthly_rain().map(|mm| mm * per_mm), decimals);
    row(&format!("ET0, {water}"), &month_sums(&year.et0).map(|mm| mm * per_mm), decimals);
    row("day, h", &month_means(&year.daylength), 1);
    let per_degree = if us { 1.8 } else { 1.0 };
    let sums = |response| month_sums(&year.rates(response)).map(|sum| sum * per_degree);
    row(&format!("degree days {}", if us { "36-72 F" } else { "2-22 C" }), &sums(Response::COOL), 0);
    row(&format!("degree days {}", if us { "50-86 F" } else { "10-30 C" }), &sums(Response::WARM), 0);
}

fn foot(out: &mut String, year: &SiteYear) {
    let _ = writeln!(out);
    say(
        out,
        0,
        "Degree days by single sine, averaged over day-to-day weather; the first row falls again above its upper \
         temperature (cool-season crops), the second stays level (warm-season crops). ET0 by Hargreaves' equation, \
         within 15 to 20 %; boxes and pots need more. Frost is that of a thermometer at head height: on still clear \
         nights leaves near the ground are 2 to 4 C colder.",
    );
    if year.catalogue {
        say(
            out,
            0,
            "Temperatures are borrowed: crops are timed by the catalogue's days, a quarter either way.",
        );
    }
    say(out, 0, &format!("Source: {}.", year.source));
}

/// Hours of direct sun by month for named places: the lowest and the highest of their cells.
pub fn sun_table(rows: &[(String, Vec<Monthly>)]) -> String {
    let mut out = String::new();
    let mut line = format!("{:<20}", "Hours of direct sun");
    for month in MONTHS {
        let _ = write!(line, "{month:>5}");
    }
    let _ = writeln!(out, "{line}");
    for (name, cells) in rows {
        let extreme = |start: f64, pick: fn(f64, f64) -> f64| -> Monthly {
            std::array::from_fn(|m| cells.iter().map(|hours| hours[m]).fold(start, pick))
        };
        let (low, high) = (extreme(f64::INFINITY, f64::min), extreme(f64::NEG_INFINITY, f64::max));
        let apart = low.iter().zip(high).any(|(a, b)| b - a >= 0.25);
        let mut row = |label: &str, hours: &Monthly| {
            let mut line = format!("{label:<20}");
            for value in hours {
                let _ = write!(line, "{:>5.1}", if value.is_finite() { *value } else { 0.0 });
            }
            let _ = writeln!(out, "{line}");
        };
        let name: String = name.chars().take(if apart { 12 } else { 19 }).collect();
        if apart {
            row(&format!("{name}, best"), &high);
            row(&format!("{name}, worst"), &low);
        } else {
            row(&name, &high);
        }
    }
    out
}
