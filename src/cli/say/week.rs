//! The plantings of a season for programs.

use super::schedule::start_id;
use crate::calendar::Season;
use crate::plan::{Plan, Planting};
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
