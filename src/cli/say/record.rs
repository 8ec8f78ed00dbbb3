//! The record, and what may return where, in words and for a program.

use super::full_day;
use crate::calendar::Season;
use crate::check::{Ground, Order, Pause, Return};
use crate::cli::table::{Table, wrap};
use crate::paper::{Known, RecordByYears, Stay};
use crate::plan::Plan;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// What `record` shows: the past, and its meaning for the seasons to come.
pub struct Outlook<'a> {
    /// The garden.
    pub plan: &'a Plan,
    /// What stood where.
    pub stood: &'a RecordByYears,
    /// The last season of it, and the first of those to come.
    pub season: Season,
    /// That season is not over.
    pub open: bool,
    /// When each family may return to each place.
    pub returns: &'a [Return],
    /// The best order of the beds by family.
    pub orders: &'a [Order],
    /// Soils kept free of the hosts of a recorded disease.
    pub pauses: &'a [Pause],
}

/// The record for a program.
pub fn record_json(outlook: &Outlook<'_>) -> Value {
    let years = &outlook.stood.years;
    let season = |(year, known): (&String, &Known)| {
        let crops: Vec<&str> = match known {
            Known::Stood(stays) => names(stays),
            Known::Free(_) | Known::Unknown => Vec::new(),
        };
        json!({ "season": year, "known": !matches!(known, Known::Unknown), "crops": crops })
    };
    json!({
        "stood": outlook.stood.soils.iter().map(|soil| json!({
            "soil": soil.name,
            "seasons": years.iter().zip(&soil.years).map(season).collect::<Value>(),
        })).collect::<Value>(),
        "returns": outlook.returns,
        "orders": outlook.orders,
        "pauses": outlook.pauses,
    })
}

/// The record for a person.
pub fn record_text(outlook: &Outlook<'_>) -> String {
    let mut out = format!("{}: what stood where, and what may return\n", outlook.plan.name);
    stood(&mut out, outlook);
    out.push_str(
        "\nWhen plant families may return, by the free years they need in the same soil\n\
         yes: as many as advised; early: the least, fewer than advised; no: fewer than the least;\n\
         there: it stands there; ?: what stood before is not recorded\n",
    );
    let mut families: BTreeMap<&str, Vec<&Return>> = BTreeMap::new();
    let mut order = Vec::new();
    for place in outlook.returns {
        if !families.contains_key(place.family.as_str()) {
            order.push(place.family.as_str());
        }
        families.entry(&place.family).or_default().push(place);
    }
    for family in order {
        returns(&mut out, outlook, families.get(family).map_or(&[], Vec::as_slice));
    }
    if !outlook.orders.is_empty() {
        out.push_str("\nWhere to grow them, so that their soil rests as long as it can\n");
        for order in outlook.orders {
            out.push_str(&wrap(&format!("{}.", order.words.trim_end_matches('.')), 96, "  "));
        }
    }
    if !outlook.pauses.is_empty() {
        out.push_str("\nRecorded diseases\n");
        for pause in outlook.pauses {
            out.push_str(&wrap(&pause.words, 96, "  "));
        }
    }
    out
}

/// Soils with the same past share a line; seasons that are the same follow each other in one.
fn stood(out: &mut String, outlook: &Outlook<'_>) {
    let record = outlook.stood;
    let last = record.years.len().saturating_sub(1);
    let mut soils: Vec<(Vec<&str>, Vec<String>)> = Vec::new();
    for soil in &record.soils {
        let words: Vec<String> = soil
            .years
            .iter()
            .enumerate()
            .map(|(n, known)| match known {
                Known::Unknown if n == last && outlook.open => String::from("nothing planned yet"),
                Known::Unknown => String::from("unknown"),
                Known::Free(words) => words.clone(),
                Known::Stood(stays) => names(stays).join("; "),
            })
            .collect();
        match soils.iter_mut().find(|(_, of)| *of == words) {
            Some((names, _)) => names.push(&soil.name),
            None => soils.push((vec![&soil.name], words)),
        }
    }
    for (names, words) in soils {
        let _ = write!(out, "\n{}", wrap(&names.join(", "), 96, "  "));
        let mut table = Table::new(&["", ""]);
        let mut n = 0;
        while n < words.len() {
            let same = words[n..].iter().take_while(|w| **w == words[n]).count();
            let mut years = record.years[n].clone();
            if same > 1 {
                let _ = write!(years, " to {}", record.years[n + same - 1]);
            }
            for line in wrap(&words[n], 72, "").lines() {
                table.row([std::mem::take(&mut years), line.to_owned()]);
            }
            n += same;
        }
        out.push_str(&table.text("    "));
    }
}

/// Each name once, in order of time.
fn names(stays: &[Stay]) -> Vec<&str> {
    let mut out: Vec<&str> = Vec::new();
    for stay in stays {
        if !out.contains(&stay.name.as_str()) {
            out.push(&stay.name);
        }
    }
    out
}

/// One family: the places where its break still matters, then the others by name.
fn returns(out: &mut String, outlook: &Outlook<'_>, places: &[&Return]) {
    let Some(first) = places.first() else { return };
    let plan = outlook.plan;
    let season = |year: i32| outlook.season.plus(year - outlook.season.year());
    let name = |r: &Return| plan.place(&r.place).map_or_else(|| r.place.to_string(), |p| p.name.clone());
    let advised = if first.advised > first.least {
        format!(" at least, {} advised", first.advised)
    } else {
        String::new()
    };
    let _ = writeln!(out, "\n  {}: {}{advised}", crate::check::capital(&first.common), years(first.least));
    let all = |r: &Return, ground: Ground| r.seasons.iter().all(|(_, g)| *g == ground);
    let mut rows: Vec<(Vec<String>, String, String)> = Vec::new();
    for place in places.iter().filter(|r| !all(r, Ground::Free) && !all(r, Ground::Unknown)) {
        let seasons: Vec<String> = place
            .seasons
            .iter()
            .map(|(year, ground)| format!("{} {:<5}", season(*year), word(*ground)))
            .collect();
        let last = match (&place.last, place.until, place.least_from) {
            (Some(last), Some(until), Some(free)) => {
                format!("{last} until {}; again from {}", full_day(until), full_day(free))
            }
            (Some(last), _, _) => format!("{last} stands"),
            (None, _, _) => String::new(),
        };
        let seasons = seasons.join("  ");
        match rows.iter_mut().find(|(_, s, l)| *s == seasons && *l == last) {
            Some((names, _, _)) => names.push(name(place)),
            None => rows.push((vec![name(place)], seasons, last)),
        }
    }
    if !rows.is_empty() {
        let mut table = Table::new(&["", "", ""]);
        for (names, seasons, last) in rows {
            table.row([names.join(", "), seasons, last]);
        }
        out.push_str(&table.text("    "));
    }
    for (ground, words) in [(Ground::Free, "yes, every year"), (Ground::Unknown, "not known")] {
        let names: Vec<String> = places.iter().filter(|r| all(r, ground)).map(|r| name(r)).collect();
        if !names.is_empty() {
            out.push_str(&wrap(&format!("{words}: {}", names.join(", ")), 96, "    "));
        }
    }
}

fn years(n: u8) -> String {
    format!("{n} free {}", if n == 1 { "year" } else { "years" })
}

const fn word(ground: Ground) -> &'static str {
    match ground {
        Ground::Stands => "there",
        Ground::Closed => "no",
        Ground::Early => "early",
        Ground::Free => "yes",
        Ground::Unknown => "?",
    }
}
