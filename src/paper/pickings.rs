//! What was picked, as the diary has it.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::page::Page;
use super::table::{self, Cell, Column, Table};
use super::words;
use crate::calendar::Date;
use crate::units::{Amount, Measure};

/// One picking.
#[derive(Debug, Clone, PartialEq)]
pub struct Picking {
    /// The day.
    pub on: Date,
    /// The crop.
    pub crop: String,
    /// The bed or pot.
    pub place: String,
    /// The cells.
    pub cells: String,
    /// How much.
    pub amount: Amount,
    /// The grower's words.
    pub words: String,
}

/// The pickings of a season.
#[derive(Debug, Clone, PartialEq)]
pub struct Pickings {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// Units amounts are shown in.
    pub measure: Measure,
    /// The pickings, by day.
    pub rows: Vec<Picking>,
}

const COLUMNS: [Column<'static>; 5] = [
    table::words("Day", 14.0),
    table::words("Crop", 26.0),
    table::words("Where", 22.0),
    table::figures("Picked", 14.0),
    table::words("Words", 24.0),
];
/// Columns of the pickings as records.
const RECORD: [&str; 7] = ["date", "crop", "place", "cells", "amount", "unit", "words"];

impl Pickings {
    /// Draws the list; without pickings, one page that says so.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let note = if self.rows.is_empty() { "Nothing is written down yet." } else { &self.note };
        let frame =
            Frame { imprint, orientation: imprint.lies(Orientation::Portrait), title: &self.title, note };
        let mut flow = Flow::new(frame);
        let table = Table { columns: &COLUMNS, tick: false, pad: 2.0 };
        table.head(&mut flow);
        for row in &self.rows {
            let cells = [
                Cell::tight(&words::span(row.on, row.on)),
                Cell::tight_strong(&row.crop),
                Cell::tight(&row.stand()),
                Cell::tight(&row.amount.reading(self.measure)),
                Cell::fine(&row.words),
            ];
            table.row(&mut flow, &cells, &mut |flow| {
                flow.turn();
                table.head(flow);
            });
        }
        flow.finish()
    }

    /// The list in words.
    pub fn grids(&self) -> Vec<Grid> {
        let row = |p: &Picking| {
            let day = words::span(p.on, p.on);
            vec![day, p.crop.clone(), p.stand(), p.amount.reading(self.measure), p.words.clone()]
        };
        vec![Grid {
            title: self.title.clone(),
            note: self.note.clone(),
            heads: COLUMNS.iter().map(|c| c.head).collect(),
            rows: self.rows.iter().map(row).collect(),
            drawing: Vec::new(),
        }]
    }

    /// The list for other programs: grams, or pieces by their word.
    pub fn records(&self) -> Records {
        let row = |p: &Picking| {
            vec![
                p.on.to_string(),
                p.crop.clone(),
                p.place.clone(),
                p.cells.clone(),
                super::svg::num(p.amount.value()),
                super::from_plan::unit(p.amount),
                p.words.clone(),
            ]
        };
        Records { columns: &RECORD, rows: self.rows.iter().map(row).collect() }
    }
}

impl Picking {
    fn stand(&self) -> String {
        if self.cells.is_empty() { self.place.clone() } else { format!("{}, {}", self.place, self.cells) }
    }
}
