//! A list of lines with a cursor that stays in sight.

use super::pane::Pane;
use super::theme::Role;

/// The first line shown of a list of `count` lines on `height` rows, so that line `at` is in sight.
pub(super) fn first(at: usize, count: usize, height: i32) -> usize {
    let height = usize::try_from(height).unwrap_or(0).max(1);
    if count <= height { 0 } else { at.saturating_sub(height / 2).min(count - height) }
}

/// The lines shown of a list: row on the pane, number of the line, the item.
pub(super) fn shown<T>(items: &[T], at: usize, height: i32) -> impl Iterator<Item = (i32, usize, &T)> {
    let first = first(at, items.len(), height);
    let most = usize::try_from(height).unwrap_or(0);
    (0..).zip(items.iter().enumerate().skip(first).take(most)).map(|(row, (n, item))| (row, n, item))
}

/// Marks the line the cursor is on.
pub(super) fn mark(pane: &mut Pane<'_>, row: i32) {
    let style = pane.style(Role::Chosen);
    let width = pane.width();
    for x in 0..width {
        pane.restyle(x, row, 1, ratatui::style::Style { fg: None, ..style });
    }
    let pointer = pane.look.glyphs.pointer;
    let accent = ratatui::style::Style { bg: style.bg, ..pane.style(Role::Accent) };
    pane.text(0, row, pointer, accent);
}

/// Says how much of a list is out of sight, at the right end of a row.
pub(super) fn rest(pane: &mut Pane<'_>, row: i32, at: usize, count: usize) {
    if count > 0 {
        let words = format!("{} of {count}", (at + 1).min(count));
        let width = pane.width();
        pane.right(width - 1, row, &words, Role::Quiet);
    }
}
