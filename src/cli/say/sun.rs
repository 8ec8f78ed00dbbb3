//! Hours of direct sun on the cells of a garden.

use super::figure;
use crate::calendar::{MONTHS, Season};
use crate::cli::table::{Table, wrap};
use crate::garden::Block;
use crate::plan::PlaceLight;
use crate::site::shade::SunPaths;
use crate::site::{Monthly, SiteYear};
use serde_json::{Value, json};
use std::fmt::Write as _;

fn row(table: &mut Table, label: String, hours: &Monthly, season: String) {
    let mut cells: [String; 14] = std::array::from_fn(|n| match n {
        1..13 => format!("{:.1}", hours[n - 1]),
        _ => String::new(),
    });
    cells[0] = label;
    cells[13] = season;
    table.row(cells);
}

/// Every place with its cells, by month, for a person.
pub fn sun_text(light: &[PlaceLight<'_>], year: &SiteYear, season: Season) -> String {
    let mut out = format!("Hours of direct sun a day at {}, season of {}\n\n", year.name, season.year());
    let tall = light.first().map_or(0, |l| l.tall);
    let words = format!(
        "Behind the obstacles of the site and {tall} tall planting{} of the season; under an open sky in the last \
         line. Cells are named by column and row from the north-west corner. Full sun is 6 hours or more in the \
         growing season, part shade 4 to 6, shade less.",
        if tall == 1 { "" } else { "s" }
    );
    out.push_str(&wrap(&words, 96, "  "));
    let head = ["", ">Jan", ">Feb", ">Mar", ">Apr", ">May", ">Jun", ">Jul", ">Aug", ">Sep", ">Oct", ">Nov"];
    let heads: Vec<&'static str> = head.into_iter().chain([">Dec", "growing season"]).collect();
    for place in light {
        let _ = writeln!(out, "\n  {}", place.place.name);
        let mut table = Table::new(&heads);
        for (block, cell) in place.alike() {
            let mean = place.season.get(cell).copied().unwrap_or(0.0);
            let counted = if place.place.sun_hours.is_some() { ", counted by you" } else { "" };
            let words = format!("{mean:.1} h, {}{counted}", place.class(cell).words());
            row(&mut table, label(block, place.grid), &place.cells[cell], words);
        }
        out.push_str(&table.text("    "));
    }
    let mut table = Table::new(&heads);
    row(&mut table, String::from("open sky"), &SunPaths::new(year.lat, 0.0).open(), String::new());
    let _ = write!(out, "\n{}", table.text("    "));
    out
}

fn label(block: Block, grid: (u16, u16)) -> String {
    if (block.rows, block.cols) == grid { String::from("all cells") } else { block.to_string() }
}

/// The same for a program.
pub fn sun_json(light: &[PlaceLight<'_>], year: &SiteYear, season: Season) -> Value {
    let months = |hours: &Monthly| hours.iter().map(|h| figure(*h, 2)).collect::<Value>();
    let places: Value = light
        .iter()
        .map(|place| {
            let cols = usize::from(place.grid.1.max(1));
            let cells: Value = place
                .cells
                .iter()
                .enumerate()
                .map(|(n, hours)| {
                    json!({
                        "row": n / cols,
                        "col": n % cols,
                        "hours": months(hours),
                        "season": place.season.get(n).map(|h| figure(*h, 2)),
                        "class": place.class(n).words(),
                    })
                })
                .collect();
            json!({
                "place": place.place.id,
                "name": place.place.name,
                "rows": place.grid.0,
                "cols": place.grid.1,
                "counted": place.place.sun_hours,
                "cells": cells,
            })
        })
        .collect();
    json!({
        "name": year.name,
        "season": season.year(),
        "tall": light.first().map_or(0, |l| l.tall),
        "months": MONTHS,
        "open_sky": months(&SunPaths::new(year.lat, 0.0).open()),
        "places": places,
    })
}
