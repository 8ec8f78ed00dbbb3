//! The ground plan to scale, for one week or for four weeks of the year side by side.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::ink::{Rgb, Tint};
use super::key::{self, Entry, Families};
use super::page::{Edge, Fill, Outline, Page, Style};
use super::plot::{self, Plot};
use super::table::{self, Cell, Column, Table};
use super::words;
use crate::calendar::Week;
use crate::units::Measure;
use crate::units::num::real;

/// A planting as it stands in a bed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroundBlock {
    /// Its cells as readers name them: "A1-B2".
    pub cells: String,
    /// First row and column, from 0 at the north-west.
    pub at: (u16, u16),
    /// Rows and columns it takes.
    pub size: (u16, u16),
    /// Crop and variety.
    pub name: String,
    /// Two or three letters.
    pub code: String,
    /// How much: "16 plants".
    pub amount: String,
    /// Family.
    pub family: String,
    /// Colour and hatch of the family.
    pub tint: Tint,
    /// Shares the cells of a main planting.
    pub mate: bool,
    /// What it does in this week: "picked".
    pub stage: String,
}

/// A line of trellis, net or stakes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroundSupport {
    /// First row and column of the cells it serves.
    pub at: (u16, u16),
    /// Rows and columns.
    pub size: (u16, u16),
}

/// A bed or pot on the ground. Lengths in millimetres from the north-west corner of the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundBed {
    /// Its name.
    pub name: String,
    /// Left side.
    pub x: f64,
    /// Upper side.
    pub y: f64,
    /// West to east.
    pub across: f64,
    /// North to south.
    pub down: f64,
    /// A round container.
    pub round: bool,
    /// Rows and columns of cells.
    pub grid: (u16, u16),
    /// What stands in it.
    pub blocks: Vec<GroundBlock>,
    /// Supports.
    pub supports: Vec<GroundSupport>,
}

/// The ground in one week.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundView {
    /// The week.
    pub week: Week,
    /// Facts of the week.
    pub note: String,
    /// Beds and pots there then.
    pub beds: Vec<GroundBed>,
}

/// A sheet of ground plans.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundPlan {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// North, in degrees clockwise from the top of the plan.
    pub north: f64,
    /// Units of the scale bar.
    pub measure: Measure,
    /// One week on a page with a list of what stands where, or several, four to a page.
    pub views: Vec<GroundView>,
}

/// Scales a drawing may have, 1 to so many.
const SCALES: [f64; 21] = [
    10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 75.0, 80.0, 90.0, 100.0, 125.0, 150.0,
    200.0, 300.0, 500.0, 1000.0,
];
/// Points in a millimetre.
const MM: f64 = 72.0 / 25.4;
/// Room round the plan for the names of beds at its rim.
const RIM: f64 = 12.0;
const HEAD: Style = Style::bold(9.0);
const NOTE: Style = Style::plain(7.4).soft();
const BAR: f64 = 16.0;

const COLUMNS: [Column<'static>; 5] = [
    table::words("Bed", 24.0),
    table::words("Cells", 12.0),
    table::words("Crop", 30.0),
    table::words("How much", 18.0),
    table::words("This week", 16.0),
];

/// Columns of the ground as records.
const RECORD: [&str; 9] = ["week", "place", "cells", "crop", "code", "family", "amount", "stage", "layer"];

impl GroundPlan {
    /// Draws the plans.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let several = self.views.len() > 1;
        let best = if several { Orientation::Landscape } else { Orientation::Portrait };
        let orientation = imprint.lies(best);
        let frame = Frame { imprint, orientation, title: &self.title, note: &self.note };
        let mut flow = Flow::new(frame);
        if several {
            for (n, four) in self.views.chunks(4).enumerate() {
                if n > 0 {
                    flow.turn();
                }
                self.four(&mut flow, four);
            }
        } else if let Some(view) = self.views.first() {
            self.one(&mut flow, view);
        }
        flow.finish()
    }

    /// How far the beds of all views reach, in millimetres.
    fn extent(&self) -> (f64, f64, f64, f64) {
        let beds = || self.views.iter().flat_map(|v| &v.beds);
        let left = beds().map(|b| b.x).fold(f64::INFINITY, f64::min);
        let top = beds().map(|b| b.y).fold(f64::INFINITY, f64::min);
        let right = beds().map(|b| b.x + b.across).fold(f64::NEG_INFINITY, f64::max);
        let low = beds().map(|b| b.y + b.down).fold(f64::NEG_INFINITY, f64::max);
        if left.is_finite() && right > left && low > top {
            (left, top, right, low)
        } else {
            (0.0, 0.0, 1000.0, 1000.0)
        }
    }

    /// The largest scale, 1 to so many, at which the garden fits the room in points.
    fn scale(&self, width: f64, height: f64) -> f64 {
        let (left, top, right, low) = self.extent();
        let fits = |n: &f64| {
            (right - left) * MM / n + 2.0 * RIM <= width && (low - top) * MM / n + 2.0 * RIM <= height
        };
        let most = ((right - left) * MM / (width - 2.0 * RIM)).max((low - top) * MM / (height - 2.0 * RIM));
        SCALES.into_iter().find(fits).unwrap_or_else(|| (most / 500.0).ceil() * 500.0)
    }

    fn plot(&self, n: f64, left: f64, top: f64, detail: bool) -> Plot {
        let (x, y, ..) = self.extent();
        Plot { left: left + RIM, top: top + RIM, origin: (x, y), point: MM / n, detail }
    }

    fn one(&self, flow: &mut Flow<'_>, view: &GroundView) {
        let (left, right) = flow.sides();
        let width = right - left;
        let start = (left, flow.y);
        flow.y = head(flow.page(), start, width - 30.0, view);
        let entries = entries(&[view]);
        let key = key::height(&entries, width) + 8.0;
        let listed: usize = view.beds.iter().map(|b| b.blocks.len()).sum();
        // A short list shares the page with the plan.
        let list = if listed == 0 { 0.0 } else { (40.0 + 15.0 * real(listed)).min(0.3 * flow.room()) };
        let room = (flow.room() - key - BAR - list).max(0.4 * flow.room());
        let n = self.scale(width, room);
        let (x0, y0, x1, y1) = self.extent();
        let tall = (y1 - y0) * MM / n + 2.0 * RIM;
        // Centred between the borders.
        let indent = (width - (x1 - x0) * MM / n - 2.0 * RIM) / 2.0;
        let plot = self.plot(n, left + indent, flow.y, true);
        let top = flow.y;
        let page = flow.page();
        plot::beds(page, &plot, &view.beds, Outline { left, top, right, bottom: top + tall });
        north(page, right - 9.0, top - 14.0, self.north);
        bar(page, left, top + tall + 4.0, n, self.measure);
        flow.y = top + tall + BAR;
        flow.need(key);
        let y = flow.y;
        key::draw(flow.page(), left, y + 4.0, width, &entries);
        flow.y += key;
        if listed == 0 {
            return;
        }
        let table = Table { columns: &COLUMNS, tick: false, pad: 2.0 };
        flow.y += 6.0;
        if flow.need(60.0) {
            flow.y += 2.0;
        }
        table.head(flow);
        let mut named = String::new();
        for row in rows(view) {
            let [bed, cells, crop, amount, stage] = &row.words;
            // A bed is named once, at its first crop.
            let name = if *bed == named { "" } else { bed.as_str() };
            let crop = Cell::default().tinted(crop, row.tint);
            let cells = [Cell::strong(name), Cell::new(cells), crop, Cell::new(amount), Cell::new(stage)];
            table.row(flow, &cells, &mut |flow| {
                flow.turn();
                table.head(flow);
            });
            named.clone_from(bed);
        }
    }

    fn four(&self, flow: &mut Flow<'_>, views: &[GroundView]) {
        let (left, right) = flow.sides();
        let entries = entries(&views.iter().collect::<Vec<_>>());
        let key = key::height(&entries, right - left) + BAR + 14.0;
        let gap = 18.0;
        let width = (right - left - gap) / 2.0;
        let rows = real(views.len().div_ceil(2));
        let each = ((flow.room() - key) / rows).max(60.0);
        let n = self.scale(width, (each - 30.0).max(40.0));
        let top = flow.y;
        for (k, view) in views.iter().enumerate() {
            let x = left + if k % 2 == 1 { width + gap } else { 0.0 };
            let y = top + each * real(k / 2);
            let low = head(flow.page(), (x, y), width, view);
            let plot = self.plot(n, x, low, false);
            let within = Outline { left: x, top: low, right: x + width, bottom: y + each };
            plot::beds(flow.page(), &plot, &view.beds, within);
        }
        let low = top + each * rows;
        north(flow.page(), right - 9.0, low - 5.0, self.north);
        bar(flow.page(), left, low + 10.0, n, self.measure);
        key::draw(flow.page(), left, low + BAR + 12.0, right - left, &entries);
        flow.y = low + key;
    }

    /// What stands where, in words.
    pub fn grids(&self) -> Vec<Grid> {
        let grid = |view: &GroundView| Grid {
            title: format!("{}: {}", self.title, words::week(view.week)),
            note: view.note.clone(),
            heads: COLUMNS.iter().map(|c| c.head).collect(),
            rows: rows(view).into_iter().map(|r| r.words.to_vec()).collect(),
            drawing: Vec::new(),
        };
        self.views.iter().map(grid).collect()
    }

    /// What stands where, for other programs.
    pub fn records(&self) -> Records {
        let mut rows = Vec::new();
        for view in &self.views {
            for bed in &view.beds {
                rows.extend(bed.blocks.iter().map(|b| {
                    vec![
                        view.week.to_string(),
                        bed.name.clone(),
                        b.cells.clone(),
                        b.name.clone(),
                        b.code.clone(),
                        b.family.clone(),
                        b.amount.clone(),
                        b.stage.clone(),
                        if b.mate { "mate" } else { "main" }.to_owned(),
                    ]
                }));
            }
        }
        Records { columns: &RECORD, rows }
    }
}

struct Listed {
    words: [String; 5],
    tint: Tint,
}

fn rows(view: &GroundView) -> Vec<Listed> {
    let row = |bed: &GroundBed, b: &GroundBlock| Listed {
        words: [bed.name.clone(), b.cells.clone(), b.name.clone(), b.amount.clone(), b.stage.clone()],
        tint: b.tint,
    };
    view.beds.iter().flat_map(|bed| bed.blocks.iter().map(move |b| row(bed, b))).collect()
}

fn entries(views: &[&GroundView]) -> Vec<Entry> {
    let mut families = Families::default();
    for block in views.iter().flat_map(|v| &v.beds).flat_map(|b| &b.blocks) {
        families.add(&block.family, block.tint, &block.code, &block.name);
    }
    families.entries()
}

/// Week and facts over a plan; the height below them comes back.
fn head(page: &mut Page, at: (f64, f64), width: f64, view: &GroundView) -> f64 {
    let low = page.wrap(at.0, at.1 + 9.0, width, HEAD, &words::week(view.week));
    if view.note.trim().is_empty() {
        low - 6.0
    } else {
        page.wrap(at.0, low - 1.0, width, NOTE, &view.note) - 5.0
    }
}

/// The arrow to the north, its middle 12 points below `y`.
fn north(page: &mut Page, x: f64, y: f64, degrees: f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let turn = |dx: f64, dy: f64| (x + dx * cos - dy * sin, y + 15.0 + dx * sin + dy * cos);
    let (tip, tail) = (turn(0.0, -7.0), turn(0.0, 6.0));
    page.line(tail, tip, Edge::solid(Rgb::INK, 0.7));
    page.shape(vec![tip, turn(-2.6, -1.0), turn(2.6, -1.0)], Fill::Flat(Rgb::INK), Edge::NONE);
    page.write(x + 6.0, y + 8.0, Style::bold(6.4).end().middle(), "N");
}

/// A bar of a round length, and the scale.
fn bar(page: &mut Page, left: f64, top: f64, n: f64, measure: Measure) {
    let lengths: [(f64, &str); 6] = match measure {
        Measure::Metric => [
            (10_000.0, "10 m"),
            (5000.0, "5 m"),
            (2000.0, "2 m"),
            (1000.0, "1 m"),
            (500.0, "50 cm"),
            (200.0, "20 cm"),
        ],
        Measure::Us => [
            (9144.0, "30 ft"),
            (3048.0, "10 ft"),
            (1524.0, "5 ft"),
            (914.4, "3 ft"),
            (304.8, "1 ft"),
            (152.4, "6 in"),
        ],
    };
    let fits = |l: &&(f64, &str)| l.0 * MM / n <= 110.0;
    let Some((length, words)) = lengths.iter().find(fits) else { return };
    let (width, y) = (length * MM / n, top + 5.0);
    let edge = Edge::solid(Rgb::INK, 0.7);
    page.line((left, y), (left + width, y), edge);
    for x in [left, left + width] {
        page.line((x, y - 2.2), (x, y + 2.2), edge);
    }
    let style = Style::plain(6.8).soft();
    page.write(left + width + 5.0, y + 2.4, style, &format!("{words}, scale 1 : {n:.0}"));
}
