//! Rectangles of cells, and the two layers a cell has.

use serde::{Deserialize, Serialize};
use std::fmt;

/// The layer of a cell a planting takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default, Serialize, Deserialize)]
pub enum Layer {
    /// The main planting.
    #[default]
    Main,
    /// A mate in the weeks the main planting leaves room.
    Mate,
}

impl Layer {
    /// Whether it is the main layer.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks by reference whether to leave it out")]
    pub(crate) const fn is_main(&self) -> bool {
        matches!(self, Self::Main)
    }
}

/// A rectangle of cells: its north-west cell and its size in rows (southwards) and columns (eastwards).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Block {
    /// First row, from 0 at the north.
    pub row: u16,
    /// First column, from 0 at the west.
    pub col: u16,
    /// Rows.
    pub rows: u16,
    /// Columns.
    pub cols: u16,
}

impl Block {
    /// One cell.
    pub const fn cell(row: u16, col: u16) -> Self {
        Self { row, col, rows: 1, cols: 1 }
    }
    /// Number of cells.
    pub fn area(self) -> usize {
        usize::from(self.rows) * usize::from(self.cols)
    }
    /// Whether it holds that cell.
    pub fn holds(self, row: u16, col: u16) -> bool {
        row >= self.row && row - self.row < self.rows && col >= self.col && col - self.col < self.cols
    }
    /// Whether the two share a cell.
    pub fn overlaps(self, other: Self) -> bool {
        let apart = |a: u16, len: u16, b: u16, other: u16| {
            u32::from(a) + u32::from(len) <= u32::from(b) || u32::from(b) + u32::from(other) <= u32::from(a)
        };
        !apart(self.row, self.rows, other.row, other.rows)
            && !apart(self.col, self.cols, other.col, other.cols)
    }
    /// Whether it lies within a grid of so many rows and columns.
    pub fn within(self, rows: u16, cols: u16) -> bool {
        self.rows > 0
            && self.cols > 0
            && u32::from(self.row) + u32::from(self.rows) <= u32::from(rows)
            && u32::from(self.col) + u32::from(self.cols) <= u32::from(cols)
    }
    /// Where it lies once its grid of so many rows was turned a quarter, clockwise.
    pub const fn turned(self, rows: u16) -> Self {
        let bottom = self.row.saturating_add(self.rows);
        Self { row: self.col, col: rows.saturating_sub(bottom), rows: self.cols, cols: self.rows }
    }
    /// The block named "B2", "B2-C3" or "all" in a grid of so many rows and columns; none where the text names no cells
    /// of it.
    pub fn named(text: &str, (rows, cols): (u16, u16)) -> Option<Self> {
        let text = text.trim();
        if text.eq_ignore_ascii_case("all") {
            return Some(Self { row: 0, col: 0, rows, cols });
        }
        let (from, to) = text.split_once('-').unwrap_or((text, text));
        let ((top, left), (bottom, right)) = (cell_at(from)?, cell_at(to)?);
        let block = Self {
            row: top,
            col: left,
            rows: bottom.checked_sub(top)?.checked_add(1)?,
            cols: right.checked_sub(left)?.checked_add(1)?,
        };
        block.within(rows, cols).then_some(block)
    }
    /// Its cells, row by row.
    pub fn cells(self) -> impl Iterator<Item = (u16, u16)> {
        (self.row..self.row.saturating_add(self.rows))
            .flat_map(move |r| (self.col..self.col.saturating_add(self.cols)).map(move |c| (r, c)))
    }
}

/// "B2" for one cell, "B2-C3" for more: columns are letters from the west, rows numbers from the north.
impl fmt::Display for Block {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        cell_name(f, self.row, self.col)?;
        if self.area() > 1 {
            f.write_str("-")?;
            cell_name(f, self.row + self.rows.max(1) - 1, self.col + self.cols.max(1) - 1)?;
        }
        Ok(())
    }
}

/// Reads "B2", and "AA10" in very wide beds: row and column from 0.
fn cell_at(text: &str) -> Option<(u16, u16)> {
    let text = text.trim().to_uppercase();
    let letters: String = text.chars().take_while(char::is_ascii_uppercase).collect();
    let row: u16 = text.strip_prefix(letters.as_str())?.parse().ok().filter(|r| *r > 0)?;
    let mut col: u16 = 0;
    for letter in letters.bytes() {
        col = col.checked_mul(26)?.checked_add(u16::from(letter - b'A') + 1)?;
    }
    Some((row - 1, col.checked_sub(1)?))
}

fn cell_name(f: &mut fmt::Formatter<'_>, row: u16, col: u16) -> fmt::Result {
    let letter = |n: u16| char::from(b'A' + u8::try_from(n % 26).unwrap_or(0));
    if col >= 26 {
        write!(f, "{}", letter(col / 26 - 1))?;
    }
    write!(f, "{}{}", letter(col), u32::from(row) + 1)
}
