//! The same sheets as plain text, Markdown and CSV.

use std::fmt::Write as _;

use unicode_width::UnicodeWidthStr as _;

use super::frame::{ADVICE, Imprint};
use super::press::PaperError;

/// A table in words, for reading.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Grid {
    /// Its title.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// Heads of the columns.
    pub heads: Vec<&'static str>,
    /// The rows, as long as the heads.
    pub rows: Vec<Vec<String>>,
    /// Lines drawn with letters, printed as they are.
    pub drawing: Vec<String>,
}

/// A table for other programs: the columns never change their names or their order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Records {
    /// Names of the columns.
    pub columns: &'static [&'static str],
    /// The rows, as long as the columns.
    pub rows: Vec<Vec<String>>,
}

/// Grids as plain text of columns.
pub fn text(grids: &[Grid], imprint: &Imprint) -> String {
    let mut o = String::new();
    line(&mut o, &imprint.garden);
    line(&mut o, &format!("Printed {}", imprint.printed));
    for grid in grids {
        o.push('\n');
        line(&mut o, &grid.title);
        line(&mut o, &"=".repeat(grid.title.width()));
        if !grid.note.is_empty() {
            line(&mut o, &grid.note);
        }
        o.push('\n');
        for drawn in &grid.drawing {
            line(&mut o, drawn);
        }
        if grid.rows.is_empty() {
            continue;
        }
        let widths = widths(grid);
        let heads: Vec<_> = grid.heads.iter().map(|h| (*h).to_owned()).collect();
        line(&mut o, &spread(&heads, &widths));
        line(&mut o, &spread(&widths.iter().map(|w| "-".repeat(*w)).collect::<Vec<_>>(), &widths));
        for row in &grid.rows {
            line(&mut o, &spread(row, &widths));
        }
    }
    o.push('\n');
    line(&mut o, ADVICE);
    o
}

fn line(o: &mut String, words: &str) {
    o.push_str(words.trim_end());
    o.push('\n');
}

/// Words on one line, for cells of text and Markdown.
fn flat(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn widths(grid: &Grid) -> Vec<usize> {
    grid.heads
        .iter()
        .enumerate()
        .map(|(n, head)| {
            let cells = grid.rows.iter().filter_map(|r| r.get(n)).map(|c| flat(c).width());
            cells.max().unwrap_or(0).max(head.width())
        })
        .collect()
}

fn spread(cells: &[String], widths: &[usize]) -> String {
    let mut o = String::new();
    for (cell, width) in cells.iter().zip(widths) {
        let cell = flat(cell);
        let pad = width.saturating_sub(cell.width()) + 2;
        o.push_str(&cell);
        o.push_str(&" ".repeat(pad));
    }
    o
}

/// Grids as Markdown with tables.
pub fn markdown(grids: &[Grid], imprint: &Imprint) -> String {
    let mut o = String::new();
    line(&mut o, &format!("# {}", guard(&imprint.garden)));
    for grid in grids {
        o.push('\n');
        line(&mut o, &format!("## {}", guard(&grid.title)));
        if !grid.note.is_empty() {
            o.push('\n');
            line(&mut o, &guard(&grid.note));
        }
        if !grid.drawing.is_empty() {
            // A fence longer than any run of backticks inside it.
            line(&mut o, "\n````text");
            for drawn in &grid.drawing {
                line(&mut o, &drawn.replace('`', "'"));
            }
            line(&mut o, "````");
        }
        if grid.rows.is_empty() {
            continue;
        }
        o.push('\n');
        line(&mut o, &format!("| {} |", grid.heads.join(" | ")));
        line(&mut o, &format!("|{}", "---|".repeat(grid.heads.len())));
        for row in &grid.rows {
            let cells: Vec<_> = row.iter().map(|c| guard(c)).collect();
            line(&mut o, &format!("| {} |", cells.join(" | ")));
        }
    }
    o.push('\n');
    line(&mut o, &format!("Printed {}. {ADVICE}", guard(&imprint.printed)));
    o
}

/// Words that Markdown does not read as marks.
fn guard(words: &str) -> String {
    let mut o = String::new();
    for c in flat(words).chars() {
        if matches!(c, '|' | '*' | '_' | '`' | '[' | ']' | '<' | '>' | '#' | '\\' | '~') {
            o.push('\\');
        }
        o.push(c);
    }
    o
}

/// Records as CSV (RFC 4180): CRLF, quotes where needed, a head line.
///
/// A cell that a spreadsheet would run as a formula gets an apostrophe before it; numbers stay numbers.
///
/// # Errors
/// Where a row is not as long as the head.
pub fn csv(records: &Records) -> Result<String, PaperError> {
    let fault = |e: &dyn std::fmt::Display| PaperError::Words(format!("CSV: {e}"));
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::<u8>::new());
    writer.write_record(records.columns).map_err(|e| fault(&e))?;
    for row in &records.rows {
        writer.write_record(row.iter().map(|c| tame(c))).map_err(|e| fault(&e))?;
    }
    let bytes = writer.into_inner().map_err(|e| fault(&e))?;
    String::from_utf8(bytes).map_err(|e| fault(&e))
}

/// A cell that no spreadsheet takes for a formula.
fn tame(cell: &str) -> String {
    let mut o = String::new();
    let first = cell.trim_start_matches([' ', '\u{a0}']).chars().next();
    let risky = matches!(
        first,
        Some('=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '\u{ff1d}' | '\u{ff0b}' | '\u{ff0d}' | '\u{ff20}')
    );
    if risky && cell.trim().parse::<f64>().is_err() {
        o.push('\'');
    }
    write!(o, "{cell}").unwrap_or_default();
    o
}
