//! The year on one page.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::ink::{Hue, Rgb, Tint};
use super::page::{Edge, Fill, Outline, Page, Style};
use super::table::{self, Cell, Column, Table};
use crate::units::num::real;

/// A wish and what came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct SummaryWish {
    /// What was wished for.
    pub name: String,
    /// How much, and when.
    pub wanted: String,
    /// How much came, or is to come.
    pub met: String,
    /// Share met, 0 to 1.
    pub share: f64,
    /// Why not more, or the grower's note.
    pub reason: String,
}

/// How much of the year a family took.
#[derive(Debug, Clone, PartialEq)]
pub struct SummaryFamily {
    /// The family.
    pub name: String,
    /// Colour and hatch.
    pub tint: Tint,
    /// Plantings of it.
    pub plantings: usize,
    /// Cell-weeks it took.
    pub cell_weeks: usize,
}

/// The year in figures.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct YearSummary {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// Figures: name and value.
    pub facts: Vec<(String, String)>,
    /// The wishes.
    pub wishes: Vec<SummaryWish>,
    /// The families.
    pub families: Vec<SummaryFamily>,
    /// What to remember, a sentence each.
    pub remarks: Vec<String>,
}

const HEAD: Style = Style::bold(9.6);
const TEXT: Style = Style::plain(8.2);
const SMALL: Style = Style::plain(7.0).soft();
const FIGURE: Style = Style { face: super::font::Face::Title, ..Style::plain(13.0) };
const WISHES: [Column<'static>; 5] = [
    table::words("Wish", 22.0),
    table::words("Wanted", 26.0),
    table::words("Met", 14.0),
    table::figures("Share", 8.0),
    table::words("Note", 30.0),
];
/// More wishes than this stand two in a row.
const LONG: usize = 30;
/// Letters of such a list, points.
const DENSE: f64 = 6.6;
const RECORD: [&str; 5] = ["wish", "wanted", "met", "share", "reason"];

/// Makes a cell of a table from its words.
type MakeCell = fn(&str) -> Cell;

impl YearSummary {
    /// Draws the summary.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame = Frame {
            imprint,
            orientation: imprint.lies(Orientation::Portrait),
            title: &self.title,
            note: &self.note,
        };
        let mut flow = Flow::new(frame);
        self.facts(&mut flow);
        self.families(&mut flow);
        self.wishes(&mut flow);
        self.remarks(&mut flow);
        flow.finish()
    }

    fn facts(&self, flow: &mut Flow<'_>) {
        let (left, right) = flow.sides();
        let across = if self.facts.len() > 4 { 7 } else { 4 };
        let width = (right - left) / real(across);
        for row in self.facts.chunks(across) {
            let room = width - 8.0;
            let value = |words: &str| FIGURE.fitted(words, room, 8.0).unwrap_or(FIGURE.sized(8.0));
            let lines = |f: &(String, String)| (value(&f.1).lines(&f.1, room), SMALL.lines(&f.0, room));
            let set: Vec<_> = row.iter().map(lines).collect();
            let most = set.iter().map(|(v, _)| v.len()).max().unwrap_or(1);
            let notes = set.iter().map(|(_, n)| n.len()).max().unwrap_or(1);
            let tall = FIGURE.leading() * real(most) + SMALL.leading() * real(notes) + 12.0;
            flow.need(tall);
            let y = flow.y;
            for (n, ((values, names), fact)) in set.iter().zip(row).enumerate() {
                let x = left + width * real(n);
                let style = value(&fact.1);
                for (k, words) in values.iter().enumerate() {
                    flow.page().write(x, y + 13.0 + FIGURE.leading() * real(k), style, words);
                }
                let base = y + 10.0 + FIGURE.leading() * real(most);
                for (k, words) in names.iter().enumerate() {
                    flow.page().write(x, base + SMALL.leading() * real(k), SMALL, words);
                }
            }
            flow.y += tall;
        }
    }

    /// One bar a family, as long as its share of the cell-weeks.
    fn families(&self, flow: &mut Flow<'_>) {
        if self.families.is_empty() {
            return;
        }
        title(flow, "Who stood where", 60.0);
        let most = self.families.iter().map(|f| f.cell_weeks).max().unwrap_or(1).max(1);
        // A long list stands in two columns, so that the year keeps to its page.
        let columns = if self.families.len() > 6 { 2 } else { 1 };
        for row in self.families.chunks(columns) {
            let (left, right) = flow.sides();
            let gutter = 18.0 * real(columns - 1);
            let width = (right - left - gutter) / real(columns);
            let name = if columns == 1 { 120.0 } else { 86.0 };
            let lines = |f: &SummaryFamily| TEXT.lines(&f.name, name - 6.0);
            let most_lines = row.iter().map(|f| lines(f).len()).max().unwrap_or(1);
            let tall = (TEXT.leading() * real(most_lines) + 3.0).max(13.0);
            flow.need(tall);
            let y = flow.y;
            for (n, family) in row.iter().enumerate() {
                let from = left + (width + gutter) * real(n);
                for (k, words) in lines(family).iter().enumerate() {
                    flow.page().write(from, y + 8.6 + TEXT.leading() * real(k), TEXT, words);
                }
                let words = format!(
                    "{}, {} cell-weeks",
                    super::words::count(family.plantings, "planting", "plantings"),
                    family.cell_weeks
                );
                let value = if columns == 1 { 120.0 } else { SMALL.width(&words) + 6.0 };
                let long = ((width - name - value) * real(family.cell_weeks) / real(most)).max(1.0);
                let at =
                    Outline { left: from + name, top: y + 1.6, right: from + name + long, bottom: y + 10.0 };
                let edge = Edge::solid(family.tint.hue.line(), 0.6);
                flow.page().pane(at, 1.0, Fill::Hatch(family.tint), edge);
                flow.page().write(from + width, y + 8.6, SMALL.end(), &words);
            }
            flow.y += tall;
        }
    }

    fn wishes(&self, flow: &mut Flow<'_>) {
        if self.wishes.is_empty() {
            return;
        }
        title(flow, "Wishes", 70.0);
        if self.wishes.len() > LONG {
            self.many_wishes(flow);
            return;
        }
        // A long list is set tight, so that the year keeps to its page.
        let tight = self.wishes.len() > 14;
        let table = Table { columns: &WISHES, tick: false, pad: if tight { 0.35 } else { table::PAD } };
        table.head(flow);
        for wish in &self.wishes {
            let share = format!("{:.0} %", 100.0 * wish.share.clamp(0.0, 9.99));
            let before = flow.y;
            let (strong, plain): (MakeCell, MakeCell) =
                if tight { (Cell::tight_strong, Cell::tight) } else { (Cell::strong, Cell::new) };
            let cells = [
                strong(&wish.name),
                plain(&wish.wanted),
                plain(&wish.met),
                plain(&share),
                Cell::fine(&wish.reason),
            ];
            table.row(flow, &cells, &mut |flow| {
                flow.turn();
                table.head(flow);
            });
            // A thin bar under the row says the share at a glance.
            if flow.y > before {
                let (left, right) = flow.sides();
                let to = left + (right - left) * wish.share.clamp(0.0, 1.0);
                let y = flow.y;
                flow.page().line(
                    (left, y),
                    (to, y),
                    Edge::solid(Hue::Green.rgb(), if tight { 0.9 } else { 1.4 }),
                );
            }
        }
    }

    /// A very long list: two wishes side by side, their notes below, so that the year keeps to its page.
    fn many_wishes(&self, flow: &mut Flow<'_>) {
        let half = self.wishes.len().div_ceil(2);
        let (left, right) = flow.sides();
        let gutter = 18.0;
        let width = (right - left - gutter) / 2.0;
        // Name, wanted, met; the share keeps to the end of the line.
        let (wanted, met, share) = (0.27 * width, 0.68 * width, 0.90 * width);
        let (strong, plain) = (Style::bold(DENSE), Style::plain(DENSE));
        for row in 0..half {
            let pair = [self.wishes.get(row), self.wishes.get(row + half)];
            let set = |w: &SummaryWish| {
                [
                    (0.0, strong, strong.lines(&w.name, wanted - 4.0)),
                    (wanted, plain, plain.lines(&w.wanted, met - wanted - 4.0)),
                    (met, plain, plain.lines(&w.met, share - met - 4.0)),
                ]
            };
            let pair: Vec<_> = pair.into_iter().flatten().map(|w| (w, set(w))).collect();
            let most = pair.iter().flat_map(|(_, c)| c.iter().map(|c| c.2.len())).max().unwrap_or(1);
            let tall = plain.leading() * real(most) + 2.4;
            flow.need(tall);
            let y = flow.y;
            for (n, (wish, columns)) in pair.iter().enumerate() {
                let from = left + (width + gutter) * real(n);
                for (x, style, lines) in columns {
                    for (k, words) in lines.iter().enumerate() {
                        flow.page().write(from + x, y + 7.4 + plain.leading() * real(k), *style, words);
                    }
                }
                let got = wish.share.clamp(0.0, 9.99);
                flow.page().write(from + width, y + 7.4, plain.end(), &format!("{:.0} %", 100.0 * got));
                let (base, to) = (y + tall, from + width * got.min(1.0));
                flow.page().line((from, base), (from + width, base), Edge::solid(Rgb::HAIR, 0.3));
                flow.page().line((from, base), (to, base), Edge::solid(Hue::Green.rgb(), 0.9));
            }
            flow.y += tall;
        }
        flow.y += 6.0;
        let told = self.wishes.iter().filter(|w| !w.reason.is_empty());
        let notes: Vec<String> = told.map(|w| format!("{}, {}: {}", w.name, w.wanted, w.reason)).collect();
        for words in SMALL.lines(&notes.join("; "), right - left) {
            flow.need(SMALL.leading());
            let y = flow.y;
            flow.page().write(left, y + 7.0, SMALL, &words);
            flow.y += SMALL.leading();
        }
    }

    fn remarks(&self, flow: &mut Flow<'_>) {
        if self.remarks.is_empty() {
            return;
        }
        title(flow, "To remember", 50.0);
        let (left, right) = flow.sides();
        for remark in &self.remarks {
            for (n, line) in TEXT.lines(remark, right - left - 10.0).iter().enumerate() {
                flow.need(TEXT.leading() + 2.0);
                let y = flow.y + 8.0;
                if n == 0 {
                    let dot = Outline { left: left + 1.0, top: y - 4.0, right: left + 3.4, bottom: y - 1.6 };
                    flow.page().pane(dot, 1.2, Fill::Flat(Rgb::SOFT), Edge::NONE);
                }
                flow.page().write(left + 9.0, y, TEXT, line);
                flow.y += TEXT.leading();
            }
            flow.y += 3.0;
        }
    }

    /// The summary in words.
    pub fn grids(&self) -> Vec<Grid> {
        let grid = |title: &str, heads: Vec<&'static str>, rows: Vec<Vec<String>>| Grid {
            title: format!("{}: {title}", self.title),
            note: String::new(),
            heads,
            rows,
            drawing: Vec::new(),
        };
        let facts = self.facts.iter().map(|(name, value)| vec![name.clone(), value.clone()]).collect();
        let wishes = self.records().rows;
        let families = self
            .families
            .iter()
            .map(|f| vec![f.name.clone(), f.plantings.to_string(), f.cell_weeks.to_string()])
            .collect();
        let remarks = self.remarks.iter().map(|r| vec![r.clone()]).collect();
        [
            grid("figures", vec!["Figure", "Value"], facts),
            grid("families", vec!["Family", "Plantings", "Cell-weeks"], families),
            grid("wishes", vec!["Wish", "Wanted", "Met", "Share", "Note"], wishes),
            grid("to remember", vec!["Remark"], remarks),
        ]
        .into_iter()
        .filter(|g| !g.rows.is_empty())
        .collect()
    }

    /// The wishes for other programs; shares are 0 to 1.
    pub fn records(&self) -> Records {
        let row = |w: &SummaryWish| {
            let share = super::svg::num(w.share);
            vec![w.name.clone(), w.wanted.clone(), w.met.clone(), share, w.reason.clone()]
        };
        Records { columns: &RECORD, rows: self.wishes.iter().map(row).collect() }
    }
}

/// A head that keeps `room` points of what follows on its page.
fn title(flow: &mut Flow<'_>, words: &str, room: f64) {
    flow.need(room);
    let left = flow.sides().0;
    let y = flow.y + 16.0;
    flow.page().write(left, y, HEAD, words);
    flow.y += 23.0;
}
