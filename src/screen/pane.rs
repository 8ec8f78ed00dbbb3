//! A part of the screen to write on; what lies outside it is cut off.

use super::glyphs::Glyphs;
use super::theme::{Role, Theme};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use unicode_segmentation::UnicodeSegmentation as _;
use unicode_width::UnicodeWidthStr as _;

/// Colours and signs.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    /// Colours.
    pub theme: Theme,
    /// Signs.
    pub glyphs: &'static Glyphs,
}

impl Look {
    /// The style of a role.
    pub fn style(&self, role: Role) -> Style {
        self.theme.style(role)
    }
}

/// Columns a text takes.
pub(super) fn columns(text: &str) -> i32 {
    i32::try_from(text.width()).unwrap_or(i32::MAX)
}

/// Parts of the screen.
pub(super) struct Pane<'a> {
    buffer: &'a mut Buffer,
    area: Rect,
    /// Colours and signs.
    pub(super) look: Look,
}

impl<'a> Pane<'a> {
    pub(super) fn new(buffer: &'a mut Buffer, area: Rect, look: Look) -> Self {
        let area = area.intersection(buffer.area);
        Pane { buffer, area, look }
    }
    /// A part of this pane, counted from its corner; cut where it goes beyond.
    pub(super) fn part(&mut self, x: i32, y: i32, width: i32, height: i32) -> Pane<'_> {
        let clip = |at: i32, size: i32, most: u16| {
            let (from, to) =
                (at.clamp(0, i32::from(most)), at.saturating_add(size).clamp(0, i32::from(most)));
            (u16::try_from(from).unwrap_or(0), u16::try_from((to - from).max(0)).unwrap_or(0))
        };
        let (left, wide) = clip(x, width, self.area.width);
        let (top, high) = clip(y, height, self.area.height);
        let area = Rect { x: self.area.x + left, y: self.area.y + top, width: wide, height: high };
        Pane { buffer: self.buffer, area, look: self.look }
    }
    pub(super) fn width(&self) -> i32 {
        i32::from(self.area.width)
    }
    pub(super) fn height(&self) -> i32 {
        i32::from(self.area.height)
    }
    pub(super) fn style(&self, role: Role) -> Style {
        self.look.style(role)
    }
    /// Fills it with blanks.
    pub(super) fn clear(&mut self, role: Role) {
        let style = self.style(role);
        for y in 0..self.height() {
            for x in 0..self.width() {
                self.put(x, y, " ", style);
            }
        }
    }
    /// One sign; nothing where it would lie outside.
    fn put(&mut self, x: i32, y: i32, sign: &str, style: Style) {
        let wide = columns(sign).max(1);
        if x < 0 || y < 0 || x + wide > self.width() || y >= self.height() {
            return;
        }
        let (Ok(x), Ok(y)) = (u16::try_from(x), u16::try_from(y)) else { return };
        let at = (self.area.x + x, self.area.y + y);
        if let Some(cell) = self.buffer.cell_mut(at) {
            cell.reset();
            cell.set_symbol(sign).set_style(style);
        }
        for right in 1..u16::try_from(wide).unwrap_or(1) {
            if let Some(cell) = self.buffer.cell_mut((at.0 + right, at.1)) {
                cell.reset();
                cell.set_style(style);
            }
        }
    }
    /// A text from a column on; the column behind it comes back.
    pub(super) fn text(&mut self, x: i32, y: i32, text: &str, style: Style) -> i32 {
        let mut at = x;
        for letter in text.graphemes(true) {
            let wide = columns(letter);
            if wide == 0 {
                continue;
            }
            self.put(at, y, letter, style);
            at += wide;
        }
        at
    }
    /// A text of a role.
    pub(super) fn say(&mut self, x: i32, y: i32, text: &str, role: Role) -> i32 {
        let style = self.style(role);
        self.text(x, y, text, style)
    }
    /// A text cut to so many columns, with a sign where it was cut.
    pub(super) fn fit(&mut self, x: i32, y: i32, text: &str, width: i32, role: Role) -> i32 {
        let text = cut(text, width, self.look.glyphs.more);
        self.say(x, y, &text, role)
    }
    /// A text that ends at a column.
    pub(super) fn right(&mut self, end: i32, y: i32, text: &str, role: Role) {
        self.say(end - columns(text), y, text, role);
    }
    /// Words broken over lines; the line below them comes back.
    pub(super) fn words(&mut self, x: i32, y: i32, text: &str, width: i32, role: Role) -> i32 {
        let mut row = y;
        for line in wrap(text, width) {
            self.say(x, row, &line, role);
            row += 1;
        }
        row
    }
    /// A level line.
    pub(super) fn rule(&mut self, x: i32, y: i32, width: i32) {
        let (sign, style) = (self.look.glyphs.rule, self.style(Role::Frame));
        for i in 0..width {
            self.put(x + i, y, sign, style);
        }
    }
    /// An upright line.
    pub(super) fn edge(&mut self, x: i32, y: i32, height: i32) {
        let (sign, style) = (self.look.glyphs.edge, self.style(Role::Frame));
        for i in 0..height {
            self.put(x, y + i, sign, style);
        }
    }
    /// Lays a style over signs that are there already.
    pub(super) fn restyle(&mut self, x: i32, y: i32, width: i32, style: Style) {
        for i in 0..width {
            if x + i < 0 || y < 0 || x + i >= self.width() || y >= self.height() {
                continue;
            }
            let (Ok(x), Ok(y)) = (u16::try_from(x + i), u16::try_from(y)) else { continue };
            if let Some(cell) = self.buffer.cell_mut((self.area.x + x, self.area.y + y)) {
                cell.set_style(style);
            }
        }
    }
}

/// A text cut to so many columns, ending in `more` where it was cut.
pub(super) fn cut(text: &str, width: i32, more: &str) -> String {
    if columns(text) <= width {
        return text.to_owned();
    }
    let mut out = String::new();
    let mut at = 0;
    for letter in text.graphemes(true) {
        let wide = columns(letter);
        if at + wide > width - columns(more) {
            break;
        }
        at += wide;
        out.push_str(letter);
    }
    if width > 0 && !more.is_empty() {
        out.push_str(more);
    }
    out
}

/// Words broken into lines of so many columns; a word that is longer is cut.
pub(super) fn wrap(text: &str, width: i32) -> Vec<String> {
    let mut out = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        if !line.is_empty() && columns(&line) + 1 + columns(word) > width {
            out.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        for letter in word.graphemes(true) {
            if columns(&line) + columns(letter) > width && !line.is_empty() {
                out.push(std::mem::take(&mut line));
            }
            line.push_str(letter);
        }
    }
    if !line.is_empty() {
        out.push(line);
    }
    out
}
