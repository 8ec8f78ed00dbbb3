//! A terminal screen as a picture.

use std::fmt::Write as _;

use unicode_width::UnicodeWidthStr as _;

use super::font::Face;
use super::ink::Rgb;
use super::press::{self, PaperError};
use super::svg::{escape, num};
use crate::units::num::{narrow, real};

/// One character cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TermCell {
    /// What stands in it; empty in the right half of a wide symbol.
    pub symbol: String,
    /// Colour of the symbol.
    pub fg: Rgb,
    /// Colour behind it.
    pub bg: Rgb,
    /// Bold face.
    pub bold: bool,
    /// Underlined.
    pub underline: bool,
}

/// A screen of character cells, row by row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TermPicture {
    /// Cells in a row.
    pub cols: usize,
    /// Rows.
    pub rows: usize,
    /// `cols * rows` cells, the upper row first.
    pub cells: Vec<TermCell>,
    /// Colour of the border round the screen.
    pub ground: Rgb,
}

/// Width and height of a cell in pixels: whole numbers, else seams show between backgrounds.
const CELL: (f64, f64) = (9.0, 17.0);
/// Baseline below the upper side of a cell.
const BASE: f64 = 14.0;
/// Border round the screen.
const BORDER: f64 = 10.0;
/// The size at which a letter of `DejaVu` Sans Mono, 1233 of 2048 units wide, fills a cell.
const SIZE: f64 = CELL.0 * 2048.0 / 1233.0;

impl TermPicture {
    /// The picture as SVG, a cell 9 x 17 units.
    pub fn svg(&self) -> String {
        let width = num(CELL.0 * real(self.cols) + 2.0 * BORDER);
        let height = num(CELL.1 * real(self.rows) + 2.0 * BORDER);
        let mut o = String::new();
        let head = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" \
             font-family=\"'DejaVu Sans Mono', monospace\" font-size=\"{}\">\n\
             <rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>\n",
            num(SIZE),
            self.ground.hex()
        );
        o.push_str(&head);
        for (row, cells) in self.cells.chunks(self.cols.max(1)).take(self.rows).enumerate() {
            let y = BORDER + CELL.1 * real(row);
            grounds(&mut o, cells, y, self.ground);
            letters(&mut o, cells, y);
        }
        o.push_str("</svg>\n");
        o
    }

    /// The picture as PNG, enlarged `scale` times.
    pub fn png(&self, scale: u8) -> Result<Vec<u8>, PaperError> {
        let tree = press::parse(&self.svg()).map_err(|e| PaperError::Words(format!("the picture: {e}")))?;
        press::bitmap(&tree, narrow(f64::from(scale)))
            .ok_or_else(|| PaperError::Words("the picture: it is empty or too large".to_owned()))
    }
}

fn left(col: usize) -> f64 {
    BORDER + CELL.0 * real(col)
}

fn rect(o: &mut String, at: (f64, f64), size: (f64, f64), fill: Rgb) {
    writeln!(
        o,
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\"/>",
        num(at.0),
        num(at.1),
        num(size.0),
        num(size.1),
        fill.hex()
    )
    .unwrap_or_default();
}

/// Backgrounds: neighbours of one colour in one rectangle.
fn grounds(o: &mut String, cells: &[TermCell], y: f64, ground: Rgb) {
    let mut col = 0;
    for run in cells.chunk_by(|a, b| a.bg == b.bg) {
        if let Some(first) = run.first().filter(|c| c.bg != ground) {
            rect(o, (left(col), y), (CELL.0 * real(run.len()), CELL.1), first.bg);
        }
        col += run.len();
    }
}

/// Symbols: words of one style in one text, blocks as rectangles.
fn letters(o: &mut String, cells: &[TermCell], y: f64) {
    let mut col = 0;
    while let Some(cell) = cells.get(col) {
        let at = col;
        col += cell.symbol.width().max(1);
        if cell.underline {
            rect(o, (left(at), y + BASE + 1.0), (CELL.0 * real(col - at), 1.0), cell.fg);
        }
        if cell.symbol.trim().is_empty() || block(o, cell, left(at), y) {
            continue;
        }
        let mut words = cell.symbol.clone();
        if simple(cell) {
            while let Some(next) =
                cells.get(col).filter(|n| simple(n) && n.fg == cell.fg && n.bold == cell.bold)
            {
                if next.underline != cell.underline {
                    break;
                }
                words.push_str(&next.symbol);
                col += 1;
            }
            if cell.underline {
                rect(o, (left(at), y + BASE + 1.0), (CELL.0 * real(col - at), 1.0), cell.fg);
            }
        }
        let bold = if cell.bold { " font-weight=\"bold\"" } else { "" };
        writeln!(
            o,
            "<text x=\"{}\" y=\"{}\" textLength=\"{}\" fill=\"{}\"{bold}>{}</text>",
            num(left(at)),
            num(y + BASE),
            num(CELL.0 * real(col - at)),
            cell.fg.hex(),
            escape(&words)
        )
        .unwrap_or_default();
    }
}

/// Whether a symbol is one letter of the mono face, so that it can share a text with its neighbours.
fn simple(cell: &TermCell) -> bool {
    let face = if cell.bold { Face::MonoBold } else { Face::Mono };
    let mut letters = cell.symbol.chars();
    letters.next().is_some_and(|c| !c.is_whitespace() && eighths(c).is_none() && face.has(c))
        && letters.next().is_none()
}

/// A Unicode block element: place and size in eighths of a cell, and its share of ink in 255 parts.
struct Block {
    at: (f64, f64),
    size: (f64, f64),
    share: u8,
}

fn eighths(c: char) -> Option<Block> {
    let n = f64::from(u32::from(c).saturating_sub(0x2580));
    let (at, size, share) = match c {
        '\u{2580}' => ((0.0, 0.0), (8.0, 4.0), 255),
        '\u{2581}'..='\u{2588}' => ((0.0, 8.0 - n), (8.0, n), 255),
        '\u{2589}'..='\u{258f}' => ((0.0, 0.0), (16.0 - n, 8.0), 255),
        '\u{2590}' => ((4.0, 0.0), (4.0, 8.0), 255),
        '\u{2591}' => ((0.0, 0.0), (8.0, 8.0), 64),
        '\u{2592}' => ((0.0, 0.0), (8.0, 8.0), 128),
        '\u{2593}' => ((0.0, 0.0), (8.0, 8.0), 191),
        '\u{2594}' => ((0.0, 0.0), (8.0, 1.0), 255),
        '\u{2595}' => ((7.0, 0.0), (1.0, 8.0), 255),
        _ => return None,
    };
    Some(Block { at, size, share })
}

/// Draws a block element to the cell's own borders: the font's would leave gaps between rows.
fn block(o: &mut String, cell: &TermCell, left: f64, top: f64) -> bool {
    let Some(block) = cell.symbol.chars().next().and_then(eighths) else { return false };
    let step = (CELL.0 / 8.0, CELL.1 / 8.0);
    let at = (left + block.at.0 * step.0, top + block.at.1 * step.1);
    rect(o, at, (block.size.0 * step.0, block.size.1 * step.1), cell.fg.over(cell.bg, block.share));
    true
}
