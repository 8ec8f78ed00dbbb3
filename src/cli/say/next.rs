//! What may go into a freed cell.

use super::fill::unit;
use super::{figure, full_day, start_id};
use crate::calendar::{Date, day_text};
use crate::cli::table::{Table, wrap};
use crate::crop::inside;
use crate::fill::{Fit, Freed, Handover};
use crate::garden::{Block, Layer};
use crate::growth::years;
use crate::plan::Plan;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// Crops shown to a person, at most.
const SHOWN: usize = 12;

/// For a person.
pub fn next_text(plan: &Plan, (place, cell, on): (&str, Block, Date), found: &Handover) -> String {
    let mut out = format!("{place}, cell {cell}, on {}", full_day(on));
    match &found.standing {
        Some((name, Some(until))) => {
            let _ = write!(out, ": {} stands there until {}", inside(name), full_day(*until));
        }
        Some((name, None)) => {
            let _ = write!(out, ": {} stands there", inside(name));
        }
        None => out.push_str(": free"),
    }
    match found.until {
        Some(until) => {
            let _ = writeln!(out, "; taken again from {}.", full_day(until));
        }
        None => out.push_str("; nothing is planned after.\n"),
    }
    if found.fits.is_empty() {
        out.push_str("\nNothing fits now.\n");
    } else {
        out.push_str("\nWhat fits now, the best first\n");
        let measure = plan.settings.measure;
        let mut table = Table::new(&["", "", "", "", ">ripe in time", ">points", ">weeks used", "for"]);
        for fit in found.fits.iter().take(SHOWN) {
            let day = |d: Option<Date>| d.map(day_text).unwrap_or_default();
            let name = if fit.layer == Layer::Mate { format!("+ {}", fit.name) } else { fit.name.clone() };
            let pick = fit.dates.first_pick.map_or_else(String::new, |f| format!("pick {}", day_text(f)));
            let short = fit.wish.and_then(|(id, adds)| {
                let wish = plan.wish(id)?;
                Some(format!("{} towards the wish for {}", adds.reading(measure), wish.crop))
            });
            table.row([
                name,
                format!("{} in {}", fit.plants, fit.block),
                pick,
                format!("clear {}", day(fit.dates.cleared)),
                years(fit.chance),
                format!("{:.1}", fit.points),
                fit.weeks.to_string(),
                short.unwrap_or_default(),
            ]);
        }
        out.push_str(&table.text("  "));
        if found.fits.len() > SHOWN {
            let _ = writeln!(out, "  and {} more (--json lists all)", found.fits.len() - SHOWN);
        }
    }
    if !found.unfit.is_empty() {
        out.push_str("\nWhat does not\n");
        for other in &found.unfit {
            let wished = if other.wished { ", wished for" } else { "" };
            out.push_str(&wrap(&format!("- {}{wished}: {}", inside(&other.name), other.why), 96, "  "));
        }
    }
    out
}

/// For a program.
pub fn next_json(freed: &Freed, found: &Handover) -> Value {
    json!({
        "place": freed.place,
        "cell": Block::cell(freed.row, freed.col).to_string(),
        "on": freed.on,
        "standing": found.standing.as_ref().map(|(name, until)| json!({"name": name, "until": until})),
        "until": found.until,
        "fits": found.fits.iter().map(fit_json).collect::<Value>(),
        "unfit": found.unfit.iter().map(|u| json!({
            "crop": u.crop, "name": u.name, "wished": u.wished, "why": u.why,
        })).collect::<Value>(),
    })
}

fn fit_json(fit: &Fit) -> Value {
    json!({
        "crop": fit.crop,
        "name": fit.name,
        "method": start_id(fit.start),
        "cells": fit.block.to_string(),
        "layer": fit.layer,
        "plants": fit.plants,
        "first_pick": fit.dates.first_pick,
        "last_pick": fit.dates.last_pick,
        "cleared": fit.dates.cleared,
        "chance": figure(fit.chance, 3),
        "points": figure(fit.points, 2),
        "wish": fit.wish.map(|w| w.0),
        "adds": fit.wish.map(|w| figure(w.1.value(), 1)),
        "unit": fit.wish.map(|w| unit(w.1)),
        "weeks": fit.weeks,
    })
}
