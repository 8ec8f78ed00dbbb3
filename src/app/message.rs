//! What comes in, and what is asked of the shell.

use super::key::Key;
use crate::calendar::Date;
use crate::plan::{Edit, Plan};
use std::path::PathBuf;

/// Something that happened outside.
#[derive(Debug, Clone, PartialEq)]
pub enum Message {
    /// A key.
    Pressed(Key),
    /// Text was pasted.
    Pasted(String),
    /// The window has this many columns and rows.
    Resized(u16, u16),
    /// It is this day now.
    Day(Date),
    /// The plan was written, or could not be: then in words.
    Saved(Result<PathBuf, String>),
    /// The journal could not be written: in words.
    JournalFailed(String),
    /// The process is asked to end.
    Stop,
}

/// Something the shell is asked to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Write the plan to that file.
    Save(PathBuf, Box<Plan>),
    /// Keep the edit for the case of a crash.
    Journal(Box<Edit>),
    /// End.
    Quit,
}
