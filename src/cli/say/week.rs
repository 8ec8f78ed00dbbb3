//! What stands where in a week, and the week's light, soil and frost.

use super::figure;
use super::schedule::{stage_after, stage_on, start_id};
use super::site::{WeekClimate, week_climate};
use crate::calendar::{Season, Week, day_text};
use crate::cli::table::Table;
use crate::garden::{Layer, Place};
use crate::plan::{Plan, Planting};
use crate::site::SiteYear;
use crate::units::{TempUnit, Temperature};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// Plantings of a place on the week's garden day, north-west first.
fn standing<'a>(plan: &'a Plan, place: &'a Place, week: Week) -> Vec<&'a Planting> {
    let day = week.day(plan.settings.garden_day);
    let mut out: Vec<&Planting> = plan.plantings_in(&place.id).filter(|p| p.stands_on(day)).collect();
    out.sort_by_key(|p| (p.block.row, p.block.col, p.layer, p.id));
    out
}

/// A week for a program.
pub fn week_json(plan: &Plan, year: &SiteYear, week: Week) -> Value {
    let climate = week_climate(year, week);
    let day = week.day(plan.settings.garden_day);
    let cells: Value = plan
        .places_on(day)
        .flat_map(|place| standing(plan, place, week).into_iter().map(move |p| (place, p)))
        .map(|(place, p)| {
            let dates = p.dates();
            json!({
                "place": place.id,
                "cells": p.block.to_string(),
                "layer": p.layer,
                "planting": p.id,
                "crop": p.crop,
                "name": p.name,
                "plants": p.plants,
                "stage": stage_on(&dates, day).map(|(s, _)| s.word()),
                "since": stage_on(&dates, day).map(|(_, d)| d),
                "next": stage_after(&dates, day).map(|(s, _)| s.word()),
                "next_on": stage_after(&dates, day).map(|(_, d)| d),
            })
        })
        .collect();
    json!({
        "week": week.to_string(),
        "from": week.monday(),
        "to": week.sunday(),
        "cells": cells,
        "light_hours": figure(climate.light, 2),
        "soil_temperature": figure(climate.soil, 1),
        "frost_chance": figure(climate.frost, 3),
    })
}

/// Every planting that takes its cells on some day of a season, for a program.
pub fn weeks_json(plan: &Plan, season: Season) -> Value {
    let mut plantings: Vec<&Planting> = plan
        .plantings
        .iter()
        .filter(|p| {
            p.begins().is_some_and(|b| b <= season.last()) && p.ends().is_none_or(|e| e > season.first())
        })
        .collect();
    plantings.sort_by(|a, b| (&a.place, a.begins(), a.id).cmp(&(&b.place, b.begins(), b.id)));
    plantings
        .into_iter()
        .map(|p| {
            json!({
                "planting": p.id,
                "place": p.place,
                "cells": p.block.to_string(),
                "layer": p.layer,
                "crop": p.crop,
                "name": p.name,
                "plants": p.plants,
                "method": start_id(p.start),
                "dates": p.dates(),
                "real": p.real,
                "fixed": p.fixed,
                "why": p.why,
            })
        })
        .collect()
}

/// A week for a person.
pub fn week_text(plan: &Plan, year: &SiteYear, week: Week) -> String {
    let mut out = format!("{}: week {week}, {}\n", plan.name, week.span_text());
    out.push_str(&climate_line(plan, &week_climate(year, week)));
    let day = week.day(plan.settings.garden_day);
    for place in plan.places_on(day) {
        let standing = standing(plan, place, week);
        let _ = writeln!(out, "\n{}", place.name);
        if standing.is_empty() {
            let next = plan
                .plantings_in(&place.id)
                .filter_map(|p| p.begins().filter(|b| *b > day).map(|b| (b, p)))
                .min_by_key(|(b, p)| (*b, p.id));
            let words =
                next.map_or_else(String::new, |(b, p)| format!(" until {} ({})", day_text(b), p.name));
            let _ = writeln!(out, "  nothing stands here{words}");
            continue;
        }
        let mut table = Table::new(&["", "", ">", "", ""]);
        for p in standing {
            let dates = p.dates();
            let now = stage_on(&dates, day)
                .map_or_else(String::new, |(s, d)| format!("{} {}", s.word(), day_text(d)));
            let next = stage_after(&dates, day)
                .map_or_else(String::new, |(s, d)| format!("{} {}", s.word(), day_text(d)));
            let name = if p.layer == Layer::Mate { format!("+ {}", p.name) } else { p.name.clone() };
            table.row([p.block.to_string(), name, p.plants.to_string(), now, format!("then {next}")]);
        }
        out.push_str(&table.text("  "));
    }
    out
}

fn climate_line(plan: &Plan, climate: &WeekClimate) -> String {
    let measure = plan.settings.measure;
    let read = |celsius: f64| Temperature::new(celsius, TempUnit::C).reading(measure);
    let frost = if climate.frost < 0.005 {
        String::from("no frost to expect")
    } else {
        format!("frost in {:.0} nights of 100", climate.frost * 100.0)
    };
    format!(
        "daylight {:.1} h, soil {}, air {} to {}, {frost}\n",
        climate.light,
        read(climate.soil),
        read(climate.air.1),
        read(climate.air.0)
    )
}
