//! The plantings of a season for programs, and the sky of a week in words.

use super::schedule::start_id;
use super::site::week_climate;
use crate::calendar::{Season, Week};
use crate::plan::{Plan, Planting};
use crate::site::SiteYear;
use crate::units::{TempUnit, Temperature};
use serde_json::{Value, json};

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

/// Light, soil, air and frost of a week in a line.
pub fn sky_words(plan: &Plan, year: &SiteYear, week: Week) -> String {
    let climate = week_climate(year, week);
    let read = |celsius: f64| Temperature::new(celsius, TempUnit::C).reading(plan.settings.measure);
    let frost = if climate.frost < 0.005 {
        String::from("no frost to expect")
    } else {
        format!("frost in {:.0} nights of 100", (climate.frost * 100.0).max(1.0))
    };
    format!(
        "daylight {:.1} h, soil {}, air {} to {}, {frost}",
        climate.light,
        read(climate.soil),
        read(climate.air.1),
        read(climate.air.0)
    )
}
