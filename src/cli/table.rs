//! Columns of words for the terminal.

use unicode_width::UnicodeWidthStr;

/// A table: heads, rows, and which columns hold figures and are set to the right.
#[derive(Debug, Clone, Default)]
pub(super) struct Table {
    heads: Vec<&'static str>,
    right: Vec<bool>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// Columns by their heads; a head that begins with '>' is set to the right.
    pub(super) fn new(heads: &[&'static str]) -> Self {
        Self {
            heads: heads.iter().map(|h| h.strip_prefix('>').unwrap_or(h)).collect(),
            right: heads.iter().map(|h| h.starts_with('>')).collect(),
            rows: Vec::new(),
        }
    }
    /// Adds a row.
    pub(super) fn row<const N: usize>(&mut self, cells: [String; N]) {
        self.rows.push(Vec::from(cells));
    }
    /// It as lines, each begun with `margin`.
    pub(super) fn text(&self, margin: &str) -> String {
        let width = |n: usize| {
            let cells = self.rows.iter().filter_map(|r| r.get(n)).map(|c| c.width());
            cells.chain(self.heads.get(n).map(|h| h.width())).max().unwrap_or(0)
        };
        let widths: Vec<usize> = (0..self.heads.len()).map(width).collect();
        let heads: Vec<String> = self.heads.iter().map(|h| (*h).to_owned()).collect();
        let named = heads.iter().any(|h| !h.is_empty());
        let mut out = String::new();
        for row in named.then_some(&heads).into_iter().chain(&self.rows) {
            let mut line = margin.to_owned();
            for (n, cell) in row.iter().enumerate() {
                let pad = " ".repeat(widths.get(n).map_or(0, |w| w.saturating_sub(cell.width())));
                if n > 0 {
                    line.push_str("  ");
                }
                if self.right.get(n) == Some(&true) {
                    line.push_str(&pad);
                    line.push_str(cell);
                } else {
                    line.push_str(cell);
                    line.push_str(&pad);
                }
            }
            out.push_str(line.trim_end());
            out.push('\n');
        }
        out
    }
}

/// A text wrapped to lines of so many letters, each begun with `margin`.
pub(super) fn wrap(text: &str, width: usize, margin: &str) -> String {
    let mut out = String::new();
    for paragraph in text.lines() {
        let mut line = margin.to_owned();
        for word in paragraph.split_whitespace() {
            if line.width() > margin.width() && line.width() + 1 + word.width() > width {
                out.push_str(line.trim_end());
                out.push('\n');
                margin.clone_into(&mut line);
            }
            if line.width() > margin.width() {
                line.push(' ');
            }
            line.push_str(word);
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}
