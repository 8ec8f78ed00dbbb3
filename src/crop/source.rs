//! What source codes stand for: read from the tables of `crops/SOURCES.md`, which people read too.

use std::collections::BTreeMap;

/// The codes of a Markdown text: of every table row, the first cell as code and the second as reference.
pub fn references(markdown: &str) -> BTreeMap<String, String> {
    markdown.lines().filter_map(row).collect()
}

fn row(line: &str) -> Option<(String, String)> {
    let mut cells = line.trim().strip_prefix('|')?.split('|').map(str::trim);
    let (code, reference) = (cells.next()?, cells.next()?);
    let heading = code.is_empty() || code == "code" || code.starts_with("---");
    (!heading).then(|| (code.to_owned(), reference.to_owned()))
}
