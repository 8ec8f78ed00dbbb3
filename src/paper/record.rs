//! What stood in every soil, year by year.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::ink::Tint;
use super::page::Page;
use super::table::{self, Cell, Column, Table};
use super::words::{iso, span};
use crate::calendar::Date;

/// A stay in a soil.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stay {
    /// What stood there.
    pub name: String,
    /// Its family.
    pub family: String,
    /// Colour and hatch of the family.
    pub tint: Tint,
    /// The cells, where they are known.
    pub cells: String,
    /// First day.
    pub from: Date,
    /// Last day; none: it stands there still.
    pub to: Option<Date>,
}

/// What is known of one soil in one year.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Known {
    /// Nothing was recorded.
    Unknown,
    /// Known to have been without crops, or the soil was not there yet.
    Free(String),
    /// What stood there.
    Stood(Vec<Stay>),
}

/// A body of soil through the years.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Soil {
    /// Bed or pot.
    pub name: String,
    /// Since when it has this soil.
    pub note: String,
    /// One entry a year, as many as the sheet has years.
    pub years: Vec<Known>,
}

/// The record of all soils.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct RecordByYears {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// Names of the years, the oldest first.
    pub years: Vec<String>,
    /// The soils.
    pub soils: Vec<Soil>,
}

/// Years side by side on a page.
const ABREAST: usize = 4;
const RECORD: [&str; 8] = ["soil", "year", "known", "crop", "family", "cells", "from", "to"];

impl RecordByYears {
    /// Draws the record, four years side by side.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame = Frame {
            imprint,
            orientation: imprint.lies(Orientation::Landscape),
            title: &self.title,
            note: &self.note,
        };
        let mut flow = Flow::new(frame);
        for (n, years) in self.years.chunks(ABREAST).enumerate() {
            if n > 0 {
                flow.turn();
            }
            let mut columns = vec![table::words("Soil", 20.0)];
            columns.extend(years.iter().map(|year| Column { head: year, ..table::words("", 20.0) }));
            let table = Table { columns: &columns, tick: false, pad: table::PAD };
            table.head(&mut flow);
            for soil in &self.soils {
                let mut cells = vec![Cell::strong(&soil.name).note(&soil.note)];
                cells.extend((0..years.len()).map(|k| cell(soil.years.get(n * ABREAST + k))));
                table.row(&mut flow, &cells, &mut |flow| {
                    flow.turn();
                    table.head(flow);
                });
            }
        }
        flow.finish()
    }

    fn each(&self) -> impl Iterator<Item = (&Soil, &str, &Known)> {
        self.soils.iter().flat_map(|soil| {
            self.years.iter().zip(&soil.years).map(move |(year, known)| (soil, year.as_str(), known))
        })
    }

    /// The record in words.
    pub fn grids(&self) -> Vec<Grid> {
        let mut rows = Vec::new();
        for (soil, year, known) in self.each() {
            let row = |what: String, when: String| vec![soil.name.clone(), year.to_owned(), what, when];
            match known {
                Known::Unknown => rows.push(row("unknown".to_owned(), String::new())),
                Known::Free(why) => rows.push(row(why.clone(), String::new())),
                Known::Stood(stays) => rows.extend(stays.iter().map(|s| row(named(s), when(s)))),
            }
        }
        vec![Grid {
            title: self.title.clone(),
            note: self.note.clone(),
            heads: vec!["Soil", "Year", "What stood there", "When"],
            rows,
            drawing: Vec::new(),
        }]
    }

    /// The record for other programs.
    pub fn records(&self) -> Records {
        let mut rows = Vec::new();
        for (soil, year, known) in self.each() {
            let bare = |word: &str| {
                let mut row = vec![soil.name.clone(), year.to_owned(), word.to_owned()];
                row.resize(RECORD.len(), String::new());
                row
            };
            match known {
                Known::Unknown => rows.push(bare("unknown")),
                Known::Free(_) => rows.push(bare("free")),
                Known::Stood(stays) => rows.extend(stays.iter().map(|s| {
                    vec![
                        soil.name.clone(),
                        year.to_owned(),
                        "stood".to_owned(),
                        s.name.clone(),
                        s.family.clone(),
                        s.cells.clone(),
                        iso(Some(s.from)),
                        iso(s.to),
                    ]
                })),
            }
        }
        Records { columns: &RECORD, rows }
    }
}

fn named(stay: &Stay) -> String {
    if stay.family.is_empty() { stay.name.clone() } else { format!("{} ({})", stay.name, stay.family) }
}

fn when(stay: &Stay) -> String {
    stay.to.map_or_else(|| format!("from {}", span(stay.from, stay.from)), |to| span(stay.from, to))
}

fn cell(known: Option<&Known>) -> Cell {
    match known {
        None | Some(Known::Unknown) => Cell::default().note("unknown"),
        Some(Known::Free(why)) => Cell::default().note(why),
        Some(Known::Stood(stays)) => families(stays),
    }
}

/// Stays by family, since that is what rotation goes by: its swatch and name, and under it the crops and the days from
/// the first to the last. The records for other programs have every stay by itself.
fn families(stays: &[Stay]) -> Cell {
    let mut order: Vec<&Stay> = Vec::new();
    for stay in stays {
        if !order.iter().any(|s| s.family == stay.family) {
            order.push(stay);
        }
    }
    order.into_iter().fold(Cell::default(), |cell, first| {
        let all = || stays.iter().filter(|s| s.family == first.family);
        let mut crops: Vec<&str> = Vec::new();
        for stay in all() {
            if !crops.contains(&stay.name.as_str()) {
                crops.push(&stay.name);
            }
        }
        let last = all().map(|s| s.to).try_fold(first.from, |last, to| to.map(|to| last.max(to)));
        let from = all().map(|s| s.from).min().unwrap_or(first.from);
        let days = when(&Stay { from, to: last, ..first.clone() });
        cell.tinted(&first.family, first.tint).note(&format!("{}, {days}", crops.join(", ")))
    })
}
