//! Stages of a planting, its inverse, and the windows of a crop.

use super::figure;
use crate::calendar::{Date, day_text, days_between, plus};
use crate::cli::table::{Table, wrap};
use crate::crop::{Crop, Piece, Start};
use crate::growth::{Dates, Method, Outlook, OwnDays, Refusal, Replay, Schedule, Stage, Window, years};
use crate::units::{Measure, sentence};
use crate::work::Beside;
use chrono::Datelike;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A way of starting as JSON names it.
pub fn start_id(start: Start) -> &'static str {
    match start {
        Start::InPlace => "in-place",
        Start::Raised { .. } => "raised",
        Start::Bought => "bought",
        Start::Piece(Piece::Set) => "set",
        Start::Piece(Piece::Bulb) => "bulb",
        Start::Piece(Piece::Clove) => "clove",
        Start::Piece(Piece::Tuber) => "tuber",
        Start::Piece(Piece::Slip) => "slip",
        Start::Piece(Piece::Crown) => "crown",
    }
}

/// A way of starting in words.
pub fn start_words(start: Start) -> &'static str {
    match start {
        Start::InPlace => "sown in place",
        Start::Raised { .. } => "raised",
        Start::Bought => "bought plants",
        Start::Piece(Piece::Set) => "sets",
        Start::Piece(Piece::Bulb) => "bulbs",
        Start::Piece(Piece::Clove) => "cloves",
        Start::Piece(Piece::Tuber) => "tubers",
        Start::Piece(Piece::Slip) => "slips",
        Start::Piece(Piece::Crown) => "crowns",
    }
}

fn stages(dates: &Dates) -> [(Stage, Option<Date>); 9] {
    [
        (Stage::Sown, dates.sown),
        (Stage::Emerged, dates.emerged),
        (Stage::Potted, dates.potted),
        (Stage::Hardened, dates.hardened),
        (Stage::SetOut, dates.set_out),
        (Stage::Closed, dates.closed),
        (Stage::FirstPick, dates.first_pick),
        (Stage::LastPick, dates.last_pick),
        (Stage::Cleared, dates.cleared),
    ]
}

/// The stage a planting with these dates has reached on a day, and since when.
pub fn stage_on(dates: &Dates, day: Date) -> Option<(Stage, Date)> {
    stages(dates)
        .into_iter()
        .filter_map(|(s, d)| d.filter(|d| *d <= day).map(|d| (s, d)))
        .max_by_key(|(_, d)| *d)
}

/// The next stage after a day.
pub fn stage_after(dates: &Dates, day: Date) -> Option<(Stage, Date)> {
    stages(dates)
        .into_iter()
        .filter_map(|(s, d)| d.filter(|d| *d > day).map(|d| (s, d)))
        .min_by_key(|(_, d)| *d)
}

/// "12 May 2027".
pub fn full_day(date: Date) -> String {
    format!("{} {}", day_text(date), date.year())
}

fn method_id(method: Method) -> &'static str {
    match method {
        Method::Heat => "heat",
        Method::Catalogue => "catalogue",
    }
}

/// A schedule for a program.
pub fn schedule_json(crop: &Crop, outlook: &Outlook, own: Option<OwnDays>, measure: Measure) -> Value {
    let own = own.map(own_json);
    let against: Value = outlook.against.iter().map(|r| r.words(measure)).collect();
    let Some(schedule) = &outlook.schedule else {
        return json!({
            "crop": crop.id, "stages": [], "chance": Value::Null, "needs_heat": Value::Null, "days": Value::Null,
            "own_days": own, "against": against,
        });
    };
    let rows: Value = stages(&schedule.dates)
        .into_iter()
        .zip(stages(&schedule.early))
        .zip(stages(&schedule.late))
        .filter_map(|(((stage, date), (_, early)), (_, late))| {
            let date = date?;
            Some(json!({
                "stage": stage.word(), "date": date, "early": early.unwrap_or(date), "late": late.unwrap_or(date),
            }))
        })
        .collect();
    json!({
        "crop": crop.id,
        "start": start_id(schedule.start),
        "method": method_id(schedule.method),
        "stages": rows,
        "chance": figure(schedule.chance, 3),
        "needs_heat": figure(schedule.needs, 1),
        "days": schedule.days,
        "ended_by": schedule.ended_by.words(),
        "open_until": schedule.open_until,
        "holds_until": schedule.holds_until,
        "lost": figure(schedule.lost, 3),
        "own_days": own,
        "notes": schedule.notes.iter().map(|n| n.words()).collect::<Value>(),
        "against": against,
    })
}

/// A schedule for a person.
pub fn schedule_text(
    crop: &Crop,
    outlook: &Outlook,
    own: Option<OwnDays>,
    place: &str,
    measure: Measure,
) -> String {
    let mut out = String::new();
    if let Some(schedule) = &outlook.schedule {
        let _ = writeln!(out, "{}, {}, at {place}\n", crop.name, start_words(schedule.start));
        out.push_str(&stage_table(schedule));
        out.push('\n');
        out.push_str(&summary(schedule));
        out.push_str(&own_text(own));
    } else {
        let _ = writeln!(out, "{} at {place}", crop.name);
    }
    for reason in &outlook.against {
        out.push_str(&wrap(&format!("Against it: {}.", reason.words(measure)), 96, "  "));
    }
    out
}

/// Warmth and packet beside each other.
pub fn beside_text(beside: &Beside, measure: Measure) -> String {
    wrap(&sentence(&beside.words(measure)), 96, "  ")
}

/// What this garden has learnt of a crop's days, a line; empty where it has learnt nothing.
pub fn own_text(own: Option<OwnDays>) -> String {
    own.map_or_else(String::new, |own| format!("  Days to first picking {}.\n", own.words()))
}

/// The same for a program.
pub(super) fn own_json(own: OwnDays) -> Value {
    json!({
        "days": figure(own.days, 1),
        "seen": figure(own.seen, 1),
        "seasons": own.seasons,
        "plantings": own.plantings,
        "book": figure(own.catalogue, 1),
    })
}

/// The day of the year that is so many days after the first of January, in words.
fn in_any_year(days: i64) -> String {
    Date::from_ymd_opt(2025, 1, 1).map_or_else(String::new, |first| day_text(plus(first, days)))
}

/// What the years of a record would have made of a start, a few lines.
pub fn replay_text(seen: &Replay) -> String {
    let good = seen.years.iter().filter(|y| y.in_time()).count();
    let (Some(first), Some(last)) = (seen.years.first(), seen.years.last()) else { return String::new() };
    let mut out = format!(
        "  Year by year from {} to {}: in time in {good} of {} years.\n",
        first.year,
        last.year,
        seen.years.len()
    );
    let by = |share: f64| seen.picked_by(share).map_or_else(|| String::from("never"), in_any_year);
    let _ = writeln!(
        out,
        "  First picking by {} in 1 year of 10, by {} in 5 of 10, by {} in 9 of 10.",
        by(0.1),
        by(0.5),
        by(0.9)
    );
    out
}

/// The same for a program.
pub fn replay_json(seen: &Replay) -> Value {
    let by = |share: f64| {
        let first = Date::from_ymd_opt(2025, 1, 1)?;
        Some(plus(first, seen.picked_by(share)?).format("%m-%d").to_string())
    };
    json!({
        "share": seen.share().map(|s| figure(s, 3)),
        "first_pick": { "1in10": by(0.1), "5in10": by(0.5), "9in10": by(0.9) },
        "seen": seen.years.iter().map(|y| json!({
            "year": y.year, "first_pick": y.first_pick, "killed": y.killed, "in_time": y.in_time(),
        })).collect::<Value>(),
    })
}

fn stage_table(schedule: &Schedule) -> String {
    let mut table = Table::new(&["", "expected", "two years in three within"]);
    let rows = stages(&schedule.dates).into_iter().zip(stages(&schedule.early)).zip(stages(&schedule.late));
    for (((stage, date), (_, early)), (_, late)) in rows {
        let Some(date) = date else { continue };
        let (early, late) = (early.unwrap_or(date), late.unwrap_or(date));
        let range =
            if early == late { String::new() } else { format!("{} - {}", day_text(early), day_text(late)) };
        table.row([stage.word().to_owned(), full_day(date), range]);
    }
    table.text("  ")
}

fn summary(schedule: &Schedule) -> String {
    let mut out = String::new();
    let by = match schedule.method {
        Method::Heat => {
            format!("{} days here by warmth, {:.0} degree days (C)", schedule.days, schedule.needs)
        }
        Method::Catalogue => format!("{} days by the catalogue", schedule.days),
    };
    let _ = writeln!(out, "  {by}; {}.", schedule.ended_by.words());
    let _ = writeln!(out, "  In time before a killing frost: {}.", years(schedule.chance));
    for note in &schedule.notes {
        out.push_str(&wrap(&sentence(&note.words()), 96, "  "));
    }
    out
}

/// Starts that follow each other, for a person.
pub fn succession_text(crop: &Crop, starts: &[Schedule], own: Option<OwnDays>) -> String {
    let mut table = Table::new(&[">", "begin", "first picking", ">days", "in time"]);
    for (n, schedule) in starts.iter().enumerate() {
        let day = |d: Option<Date>| d.map(full_day).unwrap_or_default();
        table.row([
            (n + 1).to_string(),
            day(schedule.dates.sown.or(schedule.dates.set_out)),
            day(schedule.dates.first_pick),
            schedule.days.to_string(),
            years(schedule.chance),
        ]);
    }
    format!("{}: starts whose harvests follow each other\n\n{}{}", crop.name, table.text("  "), own_text(own))
}

/// Starts that follow each other, for a program.
pub fn succession_json(crop: &Crop, starts: &[Schedule], own: Option<OwnDays>, measure: Measure) -> Value {
    starts
        .iter()
        .map(|s| {
            schedule_json(crop, &Outlook { schedule: Some(s.clone()), against: Vec::new() }, own, measure)
        })
        .collect()
}

/// Windows for a program.
pub fn window_json(windows: &[Window]) -> Value {
    windows
        .iter()
        .map(|w| {
            json!({
                "method": start_id(w.start),
                "first": w.first,
                "last": w.last,
                "set_out_first": w.out_first,
                "set_out_last": w.out_last,
                "chance_at_last": figure(w.chance_at_last, 3),
                "ready_first": w.ready_first,
                "ready_last": w.ready_last,
            })
        })
        .collect()
}

/// Windows for a person; `why` says what stands against a start in each month where there is no window at all.
pub fn window_text(
    crop: &Crop,
    windows: &[Window],
    why: &[(Date, Refusal)],
    own: Option<OwnDays>,
    place: &str,
    measure: Measure,
) -> String {
    let mut out = format!("{} at {place}\n\n", crop.name);
    if windows.is_empty() {
        out.push_str("  No start succeeds here at this risk.\n");
        let mut said: Vec<String> = Vec::new();
        for (on, refusal) in why {
            let words = refusal.words(measure);
            if !said.contains(&words) {
                out.push_str(&wrap(&format!("Begun on {}: {words}.", day_text(*on)), 96, "  "));
                said.push(words);
            }
        }
        return out;
    }
    let mut table = Table::new(&["", "first", "last", "set out", "ready", "last one in time"]);
    for w in windows {
        let out_days = if w.out_first == w.first {
            String::new()
        } else {
            format!("{} - {}", day_text(w.out_first), day_text(w.out_last))
        };
        let all_year = days_between(w.first, w.last) >= 364;
        table.row([
            start_words(w.start).to_owned(),
            if all_year { String::from("any day") } else { full_day(w.first) },
            if all_year { String::new() } else { full_day(w.last) },
            out_days,
            format!("{} - {}", day_text(w.ready_first), full_day(w.ready_last)),
            years(w.chance_at_last),
        ]);
    }
    out.push_str(&table.text("  "));
    out.push_str(&own_text(own));
    out
}
