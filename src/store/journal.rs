//! Edits since the last save, line by line beside the plan file, so that a crash loses nothing.
//!
//! The first line names the content the edits belong to. A save first adds a line with the content it is about to
//! write and takes the journal away afterwards: whichever of the two a crash lets happen, the journal is understood.

use super::disk;
use super::error::StoreError;
use super::text;
use crate::plan::{Edit, EditError, Plan};
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};

const BASE: &str = "// Edits made in catchcrop since the last save. Content they belong to: ";
const SAVED: &str = "// Saved: ";

/// Edits of a session that ended without saving.
#[derive(Debug, Clone, PartialEq)]
pub struct Recovery {
    /// What was done, oldest first.
    pub edits: Vec<Edit>,
    /// Whether they were made on the file as it is now.
    pub fits: bool,
    /// Whether the last one was cut off in writing and is lost.
    pub torn: bool,
}

impl Recovery {
    /// Does the edits again on a plan; how many could be done, and why the next could not.
    pub fn replay(&self, plan: &mut Plan) -> (usize, Option<EditError>) {
        for (n, edit) in self.edits.iter().enumerate() {
            if let Err(error) = plan.apply(edit) {
                return (n, Some(error));
            }
        }
        (self.edits.len(), None)
    }
    /// "3 edits".
    pub fn count_words(&self) -> String {
        match self.edits.len() {
            1 => String::from("1 edit"),
            n => format!("{n} edits"),
        }
    }
}

/// The journal beside a plan file.
#[derive(Debug)]
pub(super) struct Journal {
    path: PathBuf,
    file: Option<File>,
}

impl Journal {
    pub(super) fn beside(plan: &Path) -> Self {
        Self { path: disk::beside(plan, "journal"), file: None }
    }
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// What the journal holds for a file whose content has that number; none where there is nothing to take up.
    pub(super) fn waiting(&self, content: u64) -> Option<Recovery> {
        let bytes = fs::read(&self.path).ok()?;
        let whole = String::from_utf8_lossy(&bytes);
        let mut recovery = Recovery { edits: Vec::new(), fits: false, torn: !whole.ends_with('\n') };
        let lines: Vec<&str> = whole.lines().collect();
        for (n, line) in lines.iter().enumerate() {
            let number = |text: &str| u64::from_str_radix(text.trim(), 16).ok();
            if let Some(base) = line.strip_prefix(BASE) {
                recovery.fits = number(base) == Some(content);
            } else if let Some(saved) = line.strip_prefix(SAVED) {
                if number(saved) == Some(content) {
                    recovery.edits.clear();
                    recovery.fits = true;
                }
            } else {
                let Ok(edit) = text::read(&self.path.to_string_lossy(), line) else {
                    // Only the last line can be half written; whatever follows a bad line has lost its ground.
                    recovery.torn = true;
                    recovery.fits &= n + 1 == lines.len();
                    break;
                };
                recovery.edits.push(edit);
            }
        }
        (!recovery.edits.is_empty()).then_some(recovery)
    }

    /// Adds an edit made on a file whose saved content has that number.
    pub(super) fn append(&mut self, edit: &Edit, content: u64) -> Result<(), StoreError> {
        let line = text::line(edit)
            .map_err(|e| StoreError::Unsound { path: self.path.clone(), reason: e.to_string() })?;
        self.write(&line, content)
    }

    /// Notes that the edits so far are about to be saved as a content of that number.
    pub(super) fn note_save(&mut self, content: u64, new: u64) -> Result<(), StoreError> {
        if self.path.exists() { self.write(&format!("{SAVED}{new:016x}"), content) } else { Ok(()) }
    }

    fn write(&mut self, line: &str, content: u64) -> Result<(), StoreError> {
        let fail = |e: &std::io::Error| StoreError::io("write", &self.path, e);
        let mut file = if let Some(file) = self.file.take() {
            file
        } else {
            let opened = File::options().create(true).append(true).open(&self.path);
            let mut file = opened.map_err(|e| fail(&e))?;
            if file.metadata().map_err(|e| fail(&e))?.len() == 0 {
                writeln!(file, "{BASE}{content:016x}").map_err(|e| fail(&e))?;
                disk::sync_folder(disk::folder(&self.path));
            }
            file
        };
        writeln!(file, "{line}").and_then(|()| file.sync_data()).map_err(|e| fail(&e))?;
        self.file = Some(file);
        Ok(())
    }

    /// Takes the journal away: its edits are saved, or there are none.
    pub(super) fn clear(&mut self) {
        self.file = None;
        drop(fs::remove_file(&self.path));
    }

    /// Puts the journal aside under another name.
    pub(super) fn put_aside(&mut self, plan: &Path) -> Result<PathBuf, StoreError> {
        self.file = None;
        let to = disk::free_beside(plan, "journal-dropped");
        fs::rename(&self.path, &to).map_err(|e| StoreError::io("rename", &self.path, &e))?;
        Ok(to)
    }
}
