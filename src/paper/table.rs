//! Tables that wrap their cells and repeat their heads.

use super::frame::Flow;
use super::ink::{Rgb, Tint};
use super::page::{Anchor, Edge, Fill, Outline, Style};
use crate::units::num::real;

/// A column: its head, its share of the width, and where its words stand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Column<'c> {
    pub(super) head: &'c str,
    pub(super) share: f64,
    pub(super) anchor: Anchor,
}

/// A column of words.
pub(super) const fn words(head: &str, share: f64) -> Column<'_> {
    Column { head, share, anchor: Anchor::Start }
}

/// A column of figures, set to the right.
pub(super) const fn figures(head: &str, share: f64) -> Column<'_> {
    Column { head, share, anchor: Anchor::End }
}

/// Something in a cell: words, large or small, after a swatch where they have one.
#[derive(Debug, Clone)]
pub(super) struct Part {
    words: String,
    style: Style,
    tint: Option<Tint>,
}

/// A cell: its parts one below the other.
#[derive(Debug, Clone, Default)]
pub(super) struct Cell(Vec<Part>);

impl Cell {
    pub(super) fn new(words: &str) -> Self {
        Self::default().and(words, TEXT, None)
    }
    pub(super) fn strong(words: &str) -> Self {
        Self::default().and(words, Style::bold(TEXT.size), None)
    }
    /// Words for a table of many rows.
    pub(super) fn tight(words: &str) -> Self {
        Self::default().and(words, TIGHT, None)
    }
    /// The same in bold.
    pub(super) fn tight_strong(words: &str) -> Self {
        Self::default().and(words, Style::bold(TIGHT.size), None)
    }
    /// Small soft words alone.
    pub(super) fn fine(words: &str) -> Self {
        Self::default().and(words, NOTE, None)
    }
    /// Adds smaller words below.
    pub(super) fn note(self, words: &str) -> Self {
        self.and(words, NOTE, None)
    }
    /// Adds words after a swatch.
    pub(super) fn tinted(self, words: &str, tint: Tint) -> Self {
        self.and(words, TEXT, Some(tint))
    }
    fn and(mut self, words: &str, style: Style, tint: Option<Tint>) -> Self {
        if !words.trim().is_empty() {
            self.0.push(Part { words: words.to_owned(), style, tint });
        }
        self
    }
}

/// A table being set.
#[derive(Debug)]
pub(super) struct Table<'t> {
    pub(super) columns: &'t [Column<'t>],
    /// A box to tick before each row.
    pub(super) tick: bool,
    /// Room above and below the words of a row, in points.
    pub(super) pad: f64,
}

const TEXT: Style = Style::plain(8.2);
const TIGHT: Style = Style::plain(7.5);
const NOTE: Style = Style::plain(7.0).soft();
const HEAD: Style = Style::plain(6.8).soft();
const TICK: f64 = 15.0;
const GUTTER: f64 = 8.0;
const SWATCH: f64 = 14.0;
/// The usual room above and below the words of a row.
pub(super) const PAD: f64 = 3.4;

/// A line of a cell ready to be set: whether it is indented, and the swatch before it.
#[derive(Debug, Clone)]
struct Set {
    words: String,
    style: Style,
    indent: f64,
    tint: Option<Tint>,
}

impl Table<'_> {
    /// Left side and width of every column.
    fn places(&self, sides: (f64, f64)) -> Vec<(f64, f64)> {
        let left = sides.0 + if self.tick { TICK } else { 0.0 };
        let gaps = GUTTER * real(self.columns.len().saturating_sub(1));
        let room = sides.1 - left - gaps;
        let all: f64 = self.columns.iter().map(|c| c.share).sum();
        let mut x = left;
        self.columns
            .iter()
            .map(|c| {
                let w = room * c.share / all;
                let at = (x, w);
                x += w + GUTTER;
                at
            })
            .collect()
    }

    /// Height of the head.
    pub(super) const HEAD: f64 = 14.0;

    /// Writes the column heads.
    pub(super) fn head(&self, flow: &mut Flow<'_>) {
        let sides = flow.sides();
        let y = flow.y;
        for (column, (x, w)) in self.columns.iter().zip(self.places(sides)) {
            let style = HEAD.fitted(column.head, w, 4.0).unwrap_or(HEAD);
            write(flow, column.anchor, (x, w), y + 8.0, style, column.head);
        }
        flow.page().line((sides.0, y + 11.5), (sides.1, y + 11.5), Edge::solid(Rgb::SOFT, 0.5));
        flow.y += Self::HEAD;
    }

    fn set(cell: &Cell, room: f64) -> Vec<Set> {
        let mut out = Vec::new();
        for part in &cell.0 {
            let indent = if part.tint.is_some() { SWATCH } else { 0.0 };
            let mut tint = part.tint;
            for words in part.style.lines(&part.words, room - indent) {
                out.push(Set { words, style: part.style, indent, tint: tint.take() });
            }
        }
        out
    }

    /// Height a row takes.
    pub(super) fn height(&self, flow: &Flow<'_>, cells: &[Cell]) -> f64 {
        let places = self.places(flow.sides());
        let tall = cells.iter().zip(&places).map(|(c, p)| stack(&Self::set(c, p.1))).fold(0.0, f64::max);
        tall.max(TEXT.leading()) + 2.0 * self.pad
    }

    /// Writes a row. Where it does not fit, `turn` starts the next page with its heads; a row taller than a page goes on
    /// over it.
    pub(super) fn row(&self, flow: &mut Flow<'_>, cells: &[Cell], turn: &mut dyn FnMut(&mut Flow<'_>)) {
        // A row too tall for any page is begun where it stands; others go to the next page whole.
        let height = self.height(flow, cells);
        if height > flow.room() && (height < flow.whole() - 60.0 || flow.room() < 60.0) && !flow.fresh() {
            turn(flow);
        }
        let places = self.places(flow.sides());
        let mut sets: Vec<Vec<Set>> = cells.iter().zip(&places).map(|(c, p)| Self::set(c, p.1)).collect();
        let mut first = true;
        loop {
            let room = (flow.room() - 2.0 * self.pad).max(TEXT.leading());
            let mut tall = TEXT.leading();
            let mut here = Vec::new();
            for set in &mut sets {
                let mut kept = set.len();
                while kept > 1 && stack(set.get(..kept).unwrap_or_default()) > room {
                    kept -= 1;
                }
                let rest = set.split_off(kept);
                tall = tall.max(stack(set));
                here.push(std::mem::replace(set, rest));
            }
            self.draw(flow, &places, first, &here, tall);
            first = false;
            if sets.iter().all(Vec::is_empty) {
                return;
            }
            turn(flow);
        }
    }

    fn draw(&self, flow: &mut Flow<'_>, places: &[(f64, f64)], first: bool, sets: &[Vec<Set>], tall: f64) {
        let y = flow.y + self.pad;
        let sides = flow.sides();
        if self.tick && first {
            let at = Outline { left: sides.0 + 1.0, top: y + 0.8, right: sides.0 + 9.0, bottom: y + 8.8 };
            flow.page().pane(at, 0.8, Fill::None, Edge::solid(Rgb::SOFT, 0.6));
        }
        for (column, (set, &(x, w))) in self.columns.iter().zip(sets.iter().zip(places)) {
            let mut base = y;
            for line in set {
                if let Some(tint) = line.tint {
                    let at = Outline { left: x, top: base + 1.4, right: x + 10.0, bottom: base + 8.4 };
                    flow.page().pane(at, 1.0, Fill::Hatch(tint), Edge::solid(tint.hue.line(), 0.6));
                }
                let spot = (x + line.indent, w - line.indent);
                write(flow, column.anchor, spot, base + line.style.size * 0.96, line.style, &line.words);
                base += line.style.leading();
            }
        }
        flow.y = y + tall + self.pad;
        let low = flow.y;
        flow.page().line((sides.0, low), (sides.1, low), Edge::solid(Rgb::HAIR, 0.3));
    }
}

fn stack(set: &[Set]) -> f64 {
    set.iter().map(|s| s.style.leading()).sum()
}

fn write(flow: &mut Flow<'_>, anchor: Anchor, place: (f64, f64), y: f64, style: Style, words: &str) {
    let (x, w) = place;
    let x = match anchor {
        Anchor::Start => x,
        Anchor::Middle => x + w / 2.0,
        Anchor::End => x + w,
    };
    flow.page().write(x, y, Style { anchor, ..style }, words);
}
