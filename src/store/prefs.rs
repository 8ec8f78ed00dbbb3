//! The grower's settings of the program itself: `settings.ron` in the config folder, written by hand.

use super::disk;
use super::error::StoreError;
use super::fault::Fault;
use super::text;
use serde::Deserialize;
use std::path::Path;

/// A light ground, a dark one, or as the terminal says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
pub enum Ground {
    /// As the terminal says.
    #[default]
    Auto,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

/// Settings of the program: `(ground: Dark, ascii: true)`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Preferences {
    /// The ground of the terminal.
    pub ground: Ground,
    /// Signs of ASCII alone.
    pub ascii: bool,
}

/// Reads the settings of a config folder; the usual ones where there are none. A file that cannot be used is said.
pub fn preferences(folder: &Path) -> (Preferences, Option<String>) {
    let path = folder.join("settings.ron");
    let read = match disk::read_text(&path) {
        Ok(content) => {
            text::read(&path.display().to_string(), &content).map_err(|f: Box<Fault>| f.to_string())
        }
        Err(StoreError::NotThere { .. }) => Ok(Preferences::default()),
        Err(error) => Err(error.to_string()),
    };
    match read {
        Ok(preferences) => (preferences, None),
        Err(words) => (Preferences::default(), Some(words)),
    }
}
