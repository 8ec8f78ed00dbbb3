//! What has to be bought, as a shopping list.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::page::{Page, Style};
use super::table::{self, Cell, Column, Table};
use super::words::{self, iso};
use crate::calendar::Date;

/// One thing to get.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NeedsRow {
    /// What.
    pub what: String,
    /// How much.
    pub amount: String,
    /// Details: packet, sort, germination reckoned with.
    pub detail: String,
    /// When it is needed.
    pub by: Option<Date>,
}

/// Things of one kind: seed, seedlings, potting mix ...
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct NeedsPart {
    /// Its head.
    pub head: String,
    /// A sentence about it.
    pub note: String,
    /// The things.
    pub rows: Vec<NeedsRow>,
}

/// The shopping list.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct NeedsList {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// Its parts.
    pub parts: Vec<NeedsPart>,
}

const COLUMNS: [Column<'static>; 4] = [
    table::words("What", 32.0),
    table::words("How much", 22.0),
    table::words("About it", 34.0),
    table::words("Needed by", 12.0),
];
const RECORD: [&str; 5] = ["part", "what", "amount", "detail", "by"];
const HEAD: Style = Style::bold(9.6);
const NOTE: Style = Style::plain(7.6).soft();

impl NeedsList {
    /// Draws the list.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame = Frame {
            imprint,
            orientation: imprint.lies(Orientation::Portrait),
            title: &self.title,
            note: &self.note,
        };
        let mut flow = Flow::new(frame);
        let table = Table { columns: &COLUMNS, tick: true, pad: table::PAD };
        table.head(&mut flow);
        for part in self.parts.iter().filter(|p| !p.rows.is_empty()) {
            if flow.need(80.0) {
                table.head(&mut flow);
            }
            head(&mut flow, part, false);
            for row in &part.rows {
                let by = row.by.map_or_else(String::new, |d| words::span(d, d));
                let cells =
                    [Cell::strong(&row.what), Cell::new(&row.amount), Cell::new(&row.detail), Cell::new(&by)];
                table.row(&mut flow, &cells, &mut |flow| {
                    flow.turn();
                    table.head(flow);
                    head(flow, part, true);
                });
            }
        }
        flow.finish()
    }

    /// The list in words.
    pub fn grids(&self) -> Vec<Grid> {
        let grid = |part: &NeedsPart| Grid {
            title: format!("{}: {}", self.title, part.head),
            note: part.note.clone(),
            heads: COLUMNS.iter().map(|c| c.head).collect(),
            rows: part
                .rows
                .iter()
                .map(|r| {
                    let by = r.by.map_or_else(String::new, |d| words::span(d, d));
                    vec![r.what.clone(), r.amount.clone(), r.detail.clone(), by]
                })
                .collect(),
            drawing: Vec::new(),
        };
        self.parts.iter().filter(|p| !p.rows.is_empty()).map(grid).collect()
    }

    /// The list for other programs.
    pub fn records(&self) -> Records {
        let mut rows = Vec::new();
        for part in &self.parts {
            rows.extend(part.rows.iter().map(|r| {
                vec![part.head.clone(), r.what.clone(), r.amount.clone(), r.detail.clone(), iso(r.by)]
            }));
        }
        Records { columns: &RECORD, rows }
    }
}

fn head(flow: &mut Flow<'_>, part: &NeedsPart, again: bool) {
    let (left, right) = flow.sides();
    let words = if again { format!("{}, continued", part.head) } else { part.head.clone() };
    let y = flow.y + 15.0;
    let mut low = flow.page().wrap(left, y, right - left, HEAD, &words);
    if !again && !part.note.trim().is_empty() {
        low = flow.page().wrap(left, low - 1.0, right - left, NOTE, &part.note);
    }
    flow.y = low - 6.0;
}
