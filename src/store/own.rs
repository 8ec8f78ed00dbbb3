//! The grower's own varieties, added to `crops/own.ron` beside a plan: one entry is put into the text, and every other
//! byte of the file stays as it was.

use super::disk;
use super::error::StoreError;
use super::fault::Weight;
use super::shelf::{Shelf, laid, texts};
use super::tree::Tree;
use crate::crop::{CropId, Maturity, Spacing};
use crate::units::Length;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// The file of the grower's own crops in a `crops` folder.
const FILE: &str = "own.ron";
/// What a new file of them begins with.
const HEAD: &str = "// This garden's own varieties. What an entry leaves out is as in the crop it is one of.\n(\n    \
                    sources: [\"own\"],\n    crops: [\n    ],\n)\n";

/// A variety as a packet describes it: what is not given is as in its crop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PacketEntry {
    /// Its id.
    pub id: CropId,
    /// The crop it is a variety of.
    pub of: CropId,
    /// Its name.
    pub name: String,
    /// Days to maturity.
    pub days: Option<Maturity>,
    /// Distance between plants.
    pub spacing: Option<Spacing>,
    /// Depth of sowing.
    pub depth: Option<Length>,
    /// Height of the plants.
    pub height: Option<Length>,
}

impl PacketEntry {
    /// The entry as it stands in the file.
    fn text(&self) -> String {
        let quoted = |text: &str| format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""));
        let mut out = format!(
            "        (\n            id: {}, of: {}, name: {},\n",
            quoted(self.id.as_str()),
            quoted(self.of.as_str()),
            quoted(&self.name)
        );
        let mut line =
            |words: std::fmt::Arguments<'_>| writeln!(out, "            {words}").unwrap_or_default();
        if let Some(s) = &self.spacing {
            line(format_args!("spacing: (dense: \"{}\", wide: \"{}\"),", s.dense, s.wide));
        }
        if let Some(depth) = &self.depth {
            line(format_args!("depth: \"{depth}\","));
        }
        if let Some(days) = &self.days {
            line(format_args!("days: (min: {}, max: {}, from: {:?}),", days.min, days.max, days.from));
        }
        if let Some(height) = &self.height {
            line(format_args!("height: \"{height}\","));
        }
        out.push_str("        ),\n");
        out
    }
}

/// Adds a variety to `crops/own.ron` beside a plan and reads the book anew; `folders` are those of the whole shelf.
///
/// # Errors
/// Where the variety can't be as it is told, the file there can't be added to, or it can't be written; it is then as
/// it was.
pub fn add_variety(
    plan: &Path,
    folders: &[&Path],
    entry: &PacketEntry,
) -> Result<(Shelf, PathBuf), StoreError> {
    let folder = plan.parent().unwrap_or_else(|| Path::new("")).join("crops");
    let path = folder.join(FILE);
    let refuse = |reason: String| StoreError::Io { doing: "add to", path: path.clone(), reason };
    let old = match disk::read_text(&path) {
        Ok(text) => Some(text),
        Err(StoreError::NotThere { .. }) => None,
        Err(error) => return Err(error),
    };
    let new = inserted(old.as_deref().unwrap_or(HEAD), &entry.text())
        .ok_or_else(|| refuse(String::from("it has no list of crops that could be added to")))?;
    let (mut all, faults) = texts(folders);
    match all.iter_mut().find(|(p, _)| *p == path) {
        Some((_, text)) => text.clone_from(&new),
        None => all.push((path.clone(), new.clone())),
    }
    let shelf = laid(all, faults);
    let name = path.display().to_string();
    let wrong = |f: &&super::Fault| {
        f.file == name && (f.weight == Weight::Error || f.words.contains(entry.id.as_str()))
    };
    if let Some(fault) = shelf.faults.iter().find(wrong) {
        return Err(refuse(fault.words.clone()));
    }
    if shelf.book.get(&entry.id).is_none() {
        return Err(refuse(format!("'{}' can't be read from it", entry.id)));
    }
    if old.is_some() {
        disk::replace(&path, new.as_bytes())?;
    } else {
        fs::create_dir_all(&folder).map_err(|e| StoreError::io("make the folder of", &path, &e))?;
        disk::create(&path, new.as_bytes())?;
    }
    Ok((shelf, path))
}

/// The text with an entry put at the end of its list of crops; none where there is no such list.
fn inserted(text: &str, entry: &str) -> Option<String> {
    let tree = Tree::of(text);
    if tree.trouble.is_some() {
        return None;
    }
    let list = tree.field(tree.root.as_ref()?, "crops").filter(|list| list.is_group())?;
    let close = list.span.end.checked_sub(1)?;
    let (before, behind) = (text.get(..close)?, text.get(close..)?);
    // The last entry may lack its comma, and what follows it may be a comment.
    let end = list.items().last().map(|last| last.span.end);
    let comma = end.is_some_and(|end| {
        let bare =
            tree.comments.iter().fold(text.get(end..close).unwrap_or_default().to_owned(), |rest, c| {
                rest.replace(text.get(c.clone()).unwrap_or_default(), "")
            });
        !bare.contains(',')
    });
    let mut out = String::new();
    match end.filter(|_| comma) {
        Some(end) => {
            out.push_str(text.get(..end)?);
            out.push(',');
            out.push_str(text.get(end..close)?);
        }
        None => out.push_str(before),
    }
    let kept = out.trim_end_matches(' ').len();
    let indent = out.split_off(kept);
    if !out.ends_with('\n') {
        out.push('\n');
    }
    out.push_str(entry);
    out.push_str(if indent.is_empty() { "    " } else { &indent });
    out.push_str(behind);
    Some(out)
}
