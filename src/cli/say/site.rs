//! The climate page.

use super::figure;
use crate::calendar::{ClimateDay, MONTHS};
use crate::cli::table::{Table, wrap};
use crate::growth::Risk;
use crate::site::day::{DAYS, MONTH_DAYS, MONTH_START, month_means};
use crate::site::degree::Response;
use crate::site::{Daily, FrostCurves, Monthly, SHORT_DAY, SiteYear, Span, presets};
use crate::units::{Length, LengthUnit, Measure, TempUnit, Temperature, num};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// Night temperatures whose chances are shown, degrees Celsius: frost, and a killing frost for most crops (28 F).
const SHOWN: [f64; 2] = [0.0, -2.2];

/// The built-in climates as a list.
pub fn climates_text() -> String {
    let mut table = Table::new(&["id", "place", "country", ">latitude", ">height", "source"]);
    for p in presets::all() {
        table.row([
            p.id.to_owned(),
            p.name.to_owned(),
            p.country.to_owned(),
            format!("{:.1}", p.lat),
            format!("{:.0} m", p.elevation),
            if p.from_memory() { String::from("from memory") } else { String::from("read") },
        ]);
    }
    format!(
        "Built-in climates. Choose one like yours and set your own average frost dates over it:\n\
         catchcrop site new-york --last-frost 04-20 --first-frost 10-25\n\n{}",
        table.text("")
    )
}

/// The built-in climates as JSON.
pub fn climates_json() -> Value {
    presets::all()
        .iter()
        .map(|p| {
            json!({
                "id": p.id, "name": p.name, "country": p.country, "lat": p.lat, "lon": p.lon,
                "elevation": p.elevation, "source": p.source,
            })
        })
        .collect()
}

/// A climate for a program.
pub fn site_json(year: &SiteYear) -> Value {
    let mut frost = serde_json::Map::new();
    for threshold in SHOWN {
        let curves = year.frost_plain(threshold);
        frost.insert(
            format!("{threshold:.1}"),
            json!({ "last": dates(&curves, true), "first": dates(&curves, false) }),
        );
    }
    let months =
        |values: &Monthly, decimals| -> Value { values.iter().map(|v| figure(*v, decimals)).collect() };
    let means = |curve: &Daily, decimals| months(&month_means(curve), decimals);
    json!({
        "name": year.name,
        "lat": year.lat,
        "lon": year.lon,
        "elevation": year.elevation.map(|e| figure(e, 1)),
        "source": year.source,
        "frost": frost,
        "monthly": {
            "tmax": means(&year.tmax, 2),
            "tmin": means(&year.tmin, 2),
            "rain": months(year.monthly_rain(), 1),
            "et0": means(&year.et0, 2),
            "soil": means(&year.soil, 2),
        },
        "daylength_hours": year.daylength.iter().map(|h| figure(*h, 3)).collect::<Value>(),
        "expected_error_days": year.trust.error(),
        "season_start": year.season_start.map(|d| d.to_string()),
        "maturity": if year.catalogue { "catalogue" } else { "heat" },
        "remarks": year.warnings.iter().map(ToString::to_string).collect::<Value>(),
    })
}

fn dates(curves: &FrostCurves, last: bool) -> Value {
    let half = if last { curves.last } else { curves.first };
    let day = |d: Option<ClimateDay>| d.map(|d| d.month_day().to_string());
    json!({ "1in10": day(half.one_in_10), "5in10": day(half.five_in_10), "9in10": day(half.nine_in_10) })
}

/// A climate for a person: what it comes from, frost, the months, and the year by weeks.
pub fn site_text(year: &SiteYear, measure: Measure, risk: Risk) -> String {
    let mut out = String::new();
    head(&mut out, year, measure);
    frosts(&mut out, year, measure, risk);
    light(&mut out, year);
    months(&mut out, year, measure);
    weeks(&mut out, year, measure);
    out
}

fn unit(measure: Measure) -> TempUnit {
    TempUnit::for_measure(measure)
}

fn degrees(celsius: f64, measure: Measure) -> f64 {
    Temperature::new(celsius, TempUnit::C).in_unit(unit(measure))
}

fn head(out: &mut String, year: &SiteYear, measure: Measure) {
    let side = |value: f64, plus: &'static str, minus: &'static str| if value < 0.0 { minus } else { plus };
    let height = year.elevation.map_or_else(String::new, |m| {
        let unit = match measure {
            Measure::Us => LengthUnit::Ft,
            Measure::Metric => LengthUnit::M,
        };
        format!(", {} above the sea", Length::new(m, LengthUnit::M).shown_in(unit).rounded(0))
    });
    let _ = writeln!(
        out,
        "{}\n{:.2} {}, {:.2} {}{height}",
        year.name,
        year.lat.abs(),
        side(year.lat, "N", "S"),
        year.lon.abs(),
        side(year.lon, "E", "W"),
    );
    if !year.source.is_empty() {
        let _ = writeln!(out, "Source: {}", year.source);
    }
    out.push_str(&wrap(&sentence(&year.trust.words()), 100, ""));
    if let Some(advice) = year.trust.weaker().advice() {
        out.push_str(&wrap(&sentence(advice), 100, ""));
    }
    for warning in &year.warnings {
        out.push_str(&wrap(&format!("Note: {warning}."), 100, ""));
    }
}

/// With a capital and a full stop.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}.", first.to_uppercase(), letters.as_str()))
}

fn frosts(out: &mut String, year: &SiteYear, measure: Measure, risk: Risk) {
    out.push_str("\nFrost at screen height\n");
    let mut table = Table::new(&["night at or below", "", "1 year in 10", "5 in 10", "9 in 10"]);
    for threshold in SHOWN {
        let curves = year.frost_plain(threshold);
        let label =
            format!("{:.0} {}", degrees(threshold, measure), if measure == Measure::Us { "F" } else { "C" });
        let label =
            if measure == Measure::Metric && threshold != 0.0 { format!("{threshold:.1} C") } else { label };
        for (last, words) in [(true, "still after"), (false, "already before")] {
            let half = if last { curves.last } else { curves.first };
            let day = |d: Option<ClimateDay>| match d {
                Some(d) => d.month_day().words(),
                None if curves.all_summer() => String::from("any day"),
                None => String::from("none"),
            };
            table.row([
                if last { label.clone() } else { String::new() },
                words.to_owned(),
                day(half.one_in_10),
                day(half.five_in_10),
                day(half.nine_in_10),
            ]);
        }
    }
    out.push_str(&table.text("  "));
    let years = match risk {
        Risk::Cautious => "1 year in 10",
        Risk::Usual => "3 years in 10",
        Risk::Bold => "every other year",
    };
    match year.frost_free(0.0, risk.share()) {
        Some(span) if span.days == DAYS => {
            let _ = writeln!(out, "  At a risk of {years} the whole year is free of frost.");
        }
        Some(span) => {
            let _ = writeln!(
                out,
                "  At a risk of {years} at each end: free of frost from {}, {} days (the error of the method allowed for).",
                span_words(span),
                span.days
            );
        }
        None => {
            let _ = writeln!(out, "  At a risk of {years} no stretch of the year is free of frost.");
        }
    }
}

fn span_words(span: Span) -> String {
    format!("{} to {}", span.first.month_day().words(), span.last.month_day().words())
}

fn light(out: &mut String, year: &SiteYear) {
    out.push_str("\nLight and warmth\n");
    let longest = year.daylength.iter().copied().fold(f64::MIN, f64::max);
    let shortest = year.daylength.iter().copied().fold(f64::MAX, f64::min);
    let _ = writeln!(out, "  Days of {shortest:.1} to {longest:.1} hours.");
    match year.days_under(SHORT_DAY) {
        Some(span) => {
            let _ = writeln!(
                out,
                "  Under {SHORT_DAY:.0} hours from {} ({} days): leaves nearly stand still.",
                span_words(span),
                span.days
            );
        }
        None => {
            let _ = writeln!(out, "  Never under {SHORT_DAY:.0} hours.");
        }
    }
    for (name, response) in [("cool", Response::COOL), ("warm", Response::WARM)] {
        let total: f64 = year.rates(response).iter().sum();
        let _ = writeln!(
            out,
            "  {total:.0} degree days (C) a year for {name}-season crops, above {:.0} C.",
            response.base
        );
    }
    if let Some(start) = year.season_start {
        let _ = writeln!(out, "  Seasons begin on {}.", start.words());
    } else {
        out.push_str("  No season is forced between the tropics.\n");
    }
}

fn months(out: &mut String, year: &SiteYear, measure: Measure) {
    let (temp, depth, per) = match measure {
        Measure::Us => ("F", "in", 25.4),
        Measure::Metric => ("C", "mm", 1.0),
    };
    let _ = writeln!(out, "\nBy month: temperatures in {temp}, rain and evapotranspiration in {depth}");
    let mut table =
        Table::new(&["", ">max", ">min", ">soil 5 cm", ">day h", ">rain", ">ET0", ">rain less ET0"]);
    let (tmax, tmin) = (month_means(&year.tmax), month_means(&year.tmin));
    let (soil, day, et0) = (month_means(&year.soil), month_means(&year.daylength), month_means(&year.et0));
    let decimals = usize::from(measure == Measure::Us);
    for (month, name) in MONTHS.iter().enumerate() {
        let rain = year.monthly_rain()[month];
        let et0 = et0[month] * num::real(MONTH_DAYS[month]);
        table.row([
            (*name).to_owned(),
            format!("{:.0}", degrees(tmax[month], measure)),
            format!("{:.0}", degrees(tmin[month], measure)),
            format!("{:.0}", degrees(soil[month], measure)),
            format!("{:.1}", day[month]),
            format!("{:.decimals$}", rain / per),
            format!("{:.decimals$}", et0 / per),
            format!("{:+.decimals$}", (rain - et0) / per),
        ]);
    }
    out.push_str(&table.text("  "));
}

/// Rows of the drawing of the weeks.
const ROWS: usize = 12;

fn weeks(out: &mut String, year: &SiteYear, measure: Measure) {
    let by_week = |curve: &Daily| -> Vec<f64> {
        (0..52).map(|w| (0..7).map(|d| curve[(w * 7 + d).min(DAYS - 1)]).sum::<f64>() / 7.0).collect()
    };
    let (high, low, soil) = (by_week(&year.tmax), by_week(&year.tmin), by_week(&year.soil));
    let frost = year.frost_plain(0.0);
    let frosts = by_week(&std::array::from_fn(|d| frost.on(ClimateDay::new(num::signed(d)))));
    let top = high.iter().copied().fold(f64::MIN, f64::max).max(5.0);
    let bottom = low.iter().copied().fold(f64::MAX, f64::min).min(0.0);
    let step = (top - bottom) / num::real(ROWS - 1);
    let row_of = |value: f64| num::round_u((top - value) / step).min(ROWS - 1);
    let _ = writeln!(
        out,
        "\nThe year by weeks: + mean maximum, - mean minimum, s soil at 5 cm ({})",
        if measure == Measure::Us { "F" } else { "C" }
    );
    for row in 0..ROWS {
        let label = degrees(top - step * num::real(row), measure);
        let mut line = String::new();
        for week in 0..52 {
            line.push(if row_of(high[week]) == row {
                '+'
            } else if row_of(low[week]) == row {
                '-'
            } else if row_of(soil[week]) == row {
                's'
            } else if row == row_of(0.0) {
                '.'
            } else {
                ' '
            });
        }
        let _ = writeln!(out, "  {label:>4.0} |{}", line.trim_end());
    }
    let chances: String = frosts
        .iter()
        .map(|p| match num::round_u(p * 10.0) {
            0 => ' ',
            n => char::from_digit(num::word(n.min(9)), 10).unwrap_or('9'),
        })
        .collect();
    let _ = writeln!(out, " frost |{chances}  nights of 10 at or below 0 C");
    let mut axis = [' '; 52];
    for (month, name) in MONTHS.iter().enumerate() {
        for (n, letter) in name.chars().enumerate() {
            if let Some(slot) = axis.get_mut(MONTH_START[month] / 7 + n) {
                *slot = letter;
            }
        }
    }
    let _ = writeln!(out, "       |{}", axis.iter().collect::<String>().trim_end());
}
