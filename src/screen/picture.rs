//! A screen as a neutral picture, for `screenshots/`, and as plain text for those who don't see it.

use super::frame::view;
use super::pane::Look;
use super::theme::{Role, indexed};
use crate::app::Model;
use crate::paper::{Rgb, TermCell, TermPicture};
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;
use ratatui::style::{Color, Modifier};

/// The screen of a model on a window of that size.
fn drawn(model: &Model, look: Look, cols: u16, rows: u16) -> Buffer {
    let area = Rect::new(0, 0, cols, rows);
    let mut buffer = Buffer::empty(area);
    view(&mut buffer, area, model, look);
    buffer
}

/// The screen as a picture.
pub fn picture(model: &Model, look: Look, cols: u16, rows: u16) -> TermPicture {
    let buffer = drawn(model, look, cols, rows);
    let cells = buffer.content.iter().map(|cell| term_cell(cell, look)).collect();
    TermPicture { cols: usize::from(cols), rows: usize::from(rows), cells, ground: look.theme.ground() }
}

/// The screen as lines of text, without blanks at their ends.
pub fn text(model: &Model, look: Look, cols: u16, rows: u16) -> String {
    let buffer = drawn(model, look, cols, rows);
    let mut out = String::new();
    for row in buffer.content.chunks(usize::from(cols).max(1)) {
        let line: String = row.iter().map(Cell::symbol).collect();
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}

fn term_cell(cell: &Cell, look: Look) -> TermCell {
    let (ink, ground) = look.theme.colours(Role::Plain);
    let (mut fg, mut bg) = (colour(cell.fg, ink), colour(cell.bg, ground));
    if cell.modifier.contains(Modifier::REVERSED) {
        std::mem::swap(&mut fg, &mut bg);
    }
    TermCell {
        symbol: cell.symbol().to_owned(),
        fg,
        bg,
        bold: cell.modifier.contains(Modifier::BOLD),
        underline: cell.modifier.contains(Modifier::UNDERLINED),
    }
}

/// A colour as it is seen; the views use no other kinds than these.
fn colour(colour: Color, plain: Rgb) -> Rgb {
    match colour {
        Color::Rgb(r, g, b) => Rgb(r, g, b),
        Color::Indexed(n) => indexed(n),
        Color::Reset
        | Color::Black
        | Color::Red
        | Color::Green
        | Color::Yellow
        | Color::Blue
        | Color::Magenta
        | Color::Cyan
        | Color::Gray
        | Color::DarkGray
        | Color::LightRed
        | Color::LightGreen
        | Color::LightYellow
        | Color::LightBlue
        | Color::LightMagenta
        | Color::LightCyan
        | Color::White => plain,
    }
}
