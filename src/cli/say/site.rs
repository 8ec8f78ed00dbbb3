//! The climate page.

use super::figure;
use crate::calendar::{ClimateDay, MONTHS};
use crate::cli::table::{Table, wrap};
use crate::growth::Risk;
use crate::site::day::{DAYS, MONTH_DAYS, MONTH_START, month_means};
use crate::site::degree::Response;
use crate::site::{Daily, FrostCurves, Monthly, SHORT_DAY, SiteYear, presets, words};
use crate::units::{Length, LengthUnit, Measure, TempUnit, Temperature, num, sentence};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// Columns of the page.
const WIDTH: usize = 80;
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

/// A climate for a person, in 80 columns: what it comes from, frost in words, seasons, the months, the year by weeks.
pub fn site_text(year: &SiteYear, measure: Measure, risk: Risk) -> String {
    let mut out = String::new();
    head(&mut out, year, measure);
    frosts(&mut out, year, measure);
    seasons(&mut out, year, risk);
    light(&mut out, year, measure);
    months(&mut out, year, measure);
    weeks(&mut out, year, measure);
    foot(&mut out);
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
    let (lat, lon) = (year.lat.abs(), year.lon.abs());
    let place = format!("{lat:.2} {}, {lon:.2} {}", side(year.lat, "N", "S"), side(year.lon, "E", "W"));
    // A place without a name is called by its coordinates.
    if year.name != place {
        let _ = writeln!(out, "{}", year.name);
    }
    let _ = writeln!(out, "{place}{height}");
    let mut say = |text: &str| out.push_str(&wrap(text, WIDTH, ""));
    if !year.source.is_empty() {
        say(&format!("Source: {}", year.source));
    }
    say(&sentence(&year.trust.words()));
    if let Some(advice) = year.trust.weaker().advice() {
        say(&sentence(advice));
    }
    for warning in &year.warnings {
        say(&format!("Note: {warning}."));
    }
}

/// A sentence of a paragraph.
fn line(out: &mut String, words: &str) {
    out.push_str(&wrap(&sentence(words), WIDTH, "  "));
}

/// A temperature as growers write it: "0 C", "-2.2 C", "28 F".
fn threshold_text(celsius: f64, measure: Measure) -> String {
    match measure {
        Measure::Us => format!("{:.0} F", degrees(celsius, measure)),
        Measure::Metric => format!("{celsius} C"),
    }
}

fn frosts(out: &mut String, year: &SiteYear, measure: Measure) {
    for threshold in SHOWN {
        let curves = year.frost_plain(threshold);
        let kind = if threshold < 0.0 { "Hard frost" } else { "Frost" };
        let _ = writeln!(out, "\n{kind}, {} or colder at screen height", threshold_text(threshold, measure));
        let (last, first) = (words::last_frost(&curves), words::first_frost(&curves));
        line(out, &last);
        line(out, &first);
        let wide = year.frost(threshold);
        if let (Some(after), Some(before)) = (wide.last.one_in_10, wide.first.one_in_10) {
            let (after, before) = (after.month_day().words(), before.month_day().words());
            line(
                out,
                &format!(
                    "with the error of these dates allowed for, 1 year of 10 has one after {after}, and one before \
                     {before}"
                ),
            );
        }
    }
}

fn seasons(out: &mut String, year: &SiteYear, risk: Risk) {
    out.push_str("\nGrowing season\n");
    match year.usual_season(0.0) {
        Some(span) => line(out, &format!("free of frost in 5 years of 10 from {}", words::span(span))),
        None if year.frost_plain(0.0).all_summer() => line(out, "never free of frost: it comes in any month"),
        None => line(out, "free of frost all year in most years"),
    }
    let years = match risk {
        Risk::Cautious => "1 year in 10",
        Risk::Usual => "3 years in 10",
        Risk::Bold => "every other year",
    };
    match year.frost_free(0.0, risk.share()) {
        Some(span) if span.days == DAYS => {
            line(out, &format!("at a risk of {years} the whole year is free of frost"));
        }
        Some(span) => line(
            out,
            &format!(
                "at a risk of {years} at each end, the error of the dates allowed for, from {}",
                words::span(span)
            ),
        ),
        None => line(out, &format!("at a risk of {years} no stretch of the year is free of frost")),
    }
    match year.season_start {
        Some(start) => line(out, &format!("seasons begin on {}", start.words())),
        None => line(out, "no season is forced between the tropics"),
    }
}

fn light(out: &mut String, year: &SiteYear, measure: Measure) {
    out.push_str("\nLight and warmth\n");
    let longest = year.daylength.iter().copied().fold(f64::MIN, f64::max);
    let shortest = year.daylength.iter().copied().fold(f64::MAX, f64::min);
    line(out, &format!("days of {shortest:.1} to {longest:.1} hours"));
    match year.days_under(SHORT_DAY) {
        Some(span) => {
            let span = words::span(span);
            line(out, &format!("under {SHORT_DAY:.0} hours from {span}: leaves nearly stand still"));
        }
        None => line(out, &format!("never under {SHORT_DAY:.0} hours")),
    }
    for warmth in [5.0, 10.0, 15.0] {
        if let Some(span) = year.soil_above(warmth) {
            let warmth = threshold_text(warmth, measure);
            let when = if span.days == DAYS { String::from("all year") } else { words::span(span) };
            line(out, &format!("soil at 5 cm holds {warmth} or more: {when}"));
        }
    }
    for (name, response) in [("cool", Response::COOL), ("warm", Response::WARM)] {
        let total = year.rates(response).iter().sum::<f64>() * per_degree(measure);
        let base = threshold_text(response.base, measure);
        line(out, &format!("{total:.0} degree days a year above {base} for {name}-season crops"));
    }
}

/// Degrees of the measure in a degree Celsius.
fn per_degree(measure: Measure) -> f64 {
    match measure {
        Measure::Us => 1.8,
        Measure::Metric => 1.0,
    }
}

fn months(out: &mut String, year: &SiteYear, measure: Measure) {
    let (temp, depth, per) = match measure {
        Measure::Us => ("F", "inches", 25.4),
        Measure::Metric => ("C", "mm", 1.0),
    };
    out.push('\n');
    let head = format!(
        "By month: temperatures in {temp}, rain and evapotranspiration in {depth}, degree days for cool-season and \
         warm-season crops in {temp}"
    );
    out.push_str(&wrap(&head, WIDTH, ""));
    let mut table = Table::new(&[
        "",
        ">max",
        ">min",
        ">soil 5 cm",
        ">day h",
        ">rain",
        ">ET0",
        ">rain less ET0",
        ">cool",
        ">warm",
    ]);
    let (tmax, tmin) = (month_means(&year.tmax), month_means(&year.tmin));
    let (soil, day, et0) = (month_means(&year.soil), month_means(&year.daylength), month_means(&year.et0));
    let [cool, warm] = [Response::COOL, Response::WARM].map(|response| month_means(&year.rates(response)));
    let decimals = usize::from(measure == Measure::Us);
    for month in (0..12).map(|n| (first_day(year).month0() + n) % 12) {
        // Adding nothing makes a minus nothing a nothing.
        let whole = |celsius: f64| format!("{:.0}", degrees(celsius, measure).round() + 0.0);
        let sum = |mean: &Monthly| {
            format!("{:.0}", mean[month] * num::real(MONTH_DAYS[month]) * per_degree(measure))
        };
        let rain = year.monthly_rain()[month];
        let et0 = et0[month] * num::real(MONTH_DAYS[month]);
        table.row([
            MONTHS[month].to_owned(),
            whole(tmax[month]),
            whole(tmin[month]),
            whole(soil[month]),
            format!("{:.1}", day[month]),
            format!("{:.decimals$}", rain / per),
            format!("{:.decimals$}", et0 / per),
            format!("{:+.decimals$}", (rain - et0) / per),
            sum(&cool),
            sum(&warm),
        ]);
    }
    out.push_str(&table.text("  "));
}

fn foot(out: &mut String) {
    out.push('\n');
    out.push_str(&wrap(
        "Degree days by single sine, averaged over day-to-day weather; those for cool-season crops fall again above \
         22 C (72 F), those for warm-season crops stay level above 30 C (86 F). ET0 by Hargreaves' equation, within 15 \
         to 20 %; boxes and pots need more. Frost is that of a thermometer at head height: on still clear nights \
         leaves near the ground are 2 to 4 C (4 to 7 F) colder.",
        WIDTH,
        "",
    ));
}

/// The day the tables begin: where seasons begin, so that summer stands in the middle on both sides of the equator.
fn first_day(year: &SiteYear) -> ClimateDay {
    year.season_start_or_january().climate_day()
}

/// Rows of the drawing of the weeks.
const ROWS: usize = 12;

fn weeks(out: &mut String, year: &SiteYear, measure: Measure) {
    let from = first_day(year).index();
    let by_week = |curve: &Daily| -> Vec<f64> {
        (0..52).map(|w| (0..7).map(|d| curve[(from + w * 7 + d) % DAYS]).sum::<f64>() / 7.0).collect()
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
        "\nThe year by weeks: + mean maximum, - mean minimum, s soil at 5 cm ({}),\nfrost: nights of 10 at or below 0 C",
        if measure == Measure::Us { "F" } else { "C" }
    );
    for row in 0..ROWS {
        let label = degrees(top - step * num::real(row), measure).round() + 0.0;
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
    let _ = writeln!(out, " frost |{}", chances.trim_end());
    let mut axis = [' '; 52];
    for (month, name) in MONTHS.iter().enumerate() {
        for (n, letter) in name.chars().enumerate() {
            let week = (MONTH_START[month] + DAYS - from) % DAYS / 7;
            if let Some(slot) = axis.get_mut(week + n) {
                *slot = letter;
            }
        }
    }
    let _ = writeln!(out, "       |{}", axis.iter().collect::<String>().trim_end());
}
