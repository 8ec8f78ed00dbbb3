//! One bed large: what stands in each cell now, what was before, what comes next.

use super::card;
use super::cells::{Dress, bare, code};
use super::ground::card_width;
use super::pane::{Pane, cut};
use super::theme::Role;
use crate::app::{Model, Story};
use crate::garden::{Block, Place};
use ratatui::style::Style;

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let Some(place) = model.bed.as_ref().and_then(|id| model.plan.place(id)) else {
        pane.say(2, 1, "There is no bed or pot yet: 1 shows the ground, n lays one out.", Role::Quiet);
        return;
    };
    let (width, height) = (pane.width(), pane.height());
    let (wide, high) = grid_size(width, height);
    if width >= 72 {
        let card = card_width(width);
        grid(&mut pane.part(0, 0, wide, high), model, place);
        card::place(&mut pane.part(width - card, 0, card, height), model);
    } else {
        let rows = 4.min(height / 3);
        grid(&mut pane.part(0, 0, wide, high), model, place);
        pane.rule(0, height - rows - 1, width);
        card::place(&mut pane.part(0, height - rows, width, rows), model);
    }
}

/// The size of a cell on the pane, and the first row and column shown.
struct Fit {
    wide: i32,
    high: i32,
    first: (i32, i32),
}

impl Fit {
    fn of(model: &Model, rows: i32, cols: i32, width: i32, height: i32) -> Self {
        let wide = (width / cols.max(1)).clamp(4, 18);
        let high = (height / rows.max(1)).clamp(1, 5);
        let first = |at: i32, size: i32, all: i32| {
            if all <= size { 0 } else { (at - size / 2).clamp(0, all - size) }
        };
        let (row, col) = (i32::from(model.cell.0), i32::from(model.cell.1));
        let first = (first(row, height / high, rows), first(col, width / wide, cols));
        Self { wide, high, first }
    }
}

/// The cell of the bed shown large at a column and row of the view.
pub(super) fn cell_at(model: &Model, width: i32, height: i32, (x, y): (i32, i32)) -> Option<(u16, u16)> {
    let place = model.bed.as_ref().and_then(|id| model.plan.place(id))?;
    let (rows, cols) = place.grid(model.plan.settings.cell);
    let (wide, high) = grid_size(width, height);
    if x < LEFT || x >= wide || y < TOP || y >= high {
        return None;
    }
    let fit = Fit::of(model, i32::from(rows), i32::from(cols), wide - LEFT - 1, high - TOP);
    let row = u16::try_from((y - TOP) / fit.high + fit.first.0).ok().filter(|r| *r < rows)?;
    let col = u16::try_from((x - LEFT) / fit.wide + fit.first.1).ok().filter(|c| *c < cols)?;
    Some((row, col))
}

/// Where the cells begin: the numbers of rows stand on the left, the letters of columns above.
const LEFT: i32 = 4;
/// The row of the first cell.
const TOP: i32 = 2;

/// Columns and rows left for the bed beside its card.
fn grid_size(width: i32, height: i32) -> (i32, i32) {
    if width >= 72 {
        (width - card_width(width) - 1, height)
    } else {
        (width, height - 4.min(height / 3) - 1)
    }
}

fn grid(pane: &mut Pane<'_>, model: &Model, place: &Place) {
    let (rows, cols) = place.grid(model.plan.settings.cell);
    pane.say(1, 0, &place.name, Role::Title);
    let (width, height) = (pane.width(), pane.height());
    let fit = Fit::of(model, i32::from(rows), i32::from(cols), width - LEFT - 1, height - TOP);
    let mut inside = pane.part(LEFT, TOP, width - LEFT, height - TOP);
    for row in 0..rows {
        for col in 0..cols {
            let x = (i32::from(col) - fit.first.1) * fit.wide;
            let y = (i32::from(row) - fit.first.0) * fit.high;
            cell(&mut inside, model, place, (row, col), (x, y), &fit);
        }
    }
    carried(&mut inside, model, place, &fit);
    for col in 0..cols {
        let x = 4 + (i32::from(col) - fit.first.1) * fit.wide;
        let letters = Block::cell(0, col).to_string();
        let role = if col == model.cell.1 { Role::Accent } else { Role::Quiet };
        if x >= 4 {
            pane.say(x, 1, letters.trim_end_matches('1'), role);
        }
    }
    for row in 0..rows {
        let y = 2 + (i32::from(row) - fit.first.0) * fit.high;
        let role = if row == model.cell.0 { Role::Accent } else { Role::Quiet };
        if y >= 2 {
            pane.right(3, y, &(u32::from(row) + 1).to_string(), role);
        }
    }
}

/// The planting that is carried, over the cells it would take.
fn carried(pane: &mut Pane<'_>, model: &Model, place: &Place, fit: &Fit) {
    let Some(planting) = model.carried_planting().filter(|p| p.place == place.id) else { return };
    let style = pane.style(Role::Cursor);
    let more = pane.look.glyphs.more;
    for (row, col) in planting.block.cells() {
        let x = (i32::from(col) - fit.first.1) * fit.wide;
        let y = (i32::from(row) - fit.first.0) * fit.high;
        for line in 0..fit.high {
            pane.restyle(x, y + line, fit.wide - 1, style);
        }
        if (row, col) == (planting.block.row, planting.block.col) {
            pane.text(x, y, &cut(&planting.name, fit.wide - 1, more), style);
        }
    }
}

/// One cell: now at the top; where there is room, what comes next below, and what was before.
fn cell(pane: &mut Pane<'_>, model: &Model, place: &Place, at: (u16, u16), (x, y): (i32, i32), fit: &Fit) {
    let glyphs = pane.look.glyphs;
    let story = Story::of(model.shown(), &place.id, at, model.shown_day());
    let inner = fit.wide - 1;
    let style = ground(pane, model, &story, (x, y), (inner, fit.high));
    for (row, sign, planting) in [(1, glyphs.next, story.next), (2, glyphs.before, story.before)] {
        let Some(planting) = planting.filter(|_| row < fit.high) else { continue };
        let words = format!("{sign}{} {}", code(model, planting), planting.name);
        let words = cut(
            &words,
            if inner < 6 { 3.min(inner) } else { inner },
            if inner < 6 { "" } else { glyphs.more },
        );
        let blank = usize::try_from(inner).unwrap_or(0).saturating_sub(words.chars().count());
        pane.text(x, y + row, &format!("{words}{}", " ".repeat(blank)), style);
    }
    if model.cell == at {
        let style = pane.style(Role::Cursor);
        pane.restyle(x, y, inner, style);
    }
}

/// What stands in a cell now, over the whole of it; its style comes back.
fn ground(
    pane: &mut Pane<'_>,
    model: &Model,
    story: &Story<'_>,
    (x, y): (i32, i32),
    (wide, high): (i32, i32),
) -> Style {
    let (glyphs, date) = (pane.look.glyphs, model.shown_day());
    let dress = story.now.first().map(|p| (p, Dress::of(&pane.look, model, p, date)));
    let (pattern, style) =
        dress.as_ref().map_or_else(|| (glyphs.bare, bare(&pane.look)), |(_, d)| (d.pattern, d.style));
    let line: String = pattern.repeat(8).chars().take(usize::try_from(wide).unwrap_or(1)).collect();
    for row in 0..high {
        pane.text(x, y + row, &line, style);
    }
    if let Some((planting, dress)) = dress {
        let name = format!("{} {}", dress.letters, planting.name);
        let name = if wide < 6 { dress.letters } else { cut(&name, wide, glyphs.more) };
        pane.text(x, y, &name, style);
    }
    if let Some(mate) = story.now.get(1) {
        let dress = Dress::of(&pane.look, model, mate, date);
        pane.text(x + wide - 2, y + high - 1, &dress.letters, dress.style);
    }
    style
}
