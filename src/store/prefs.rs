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

/// Settings of the program: `(ground: Dark, ascii: true, mouse: true)`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Preferences {
    /// The ground of the terminal.
    pub ground: Ground,
    /// Signs of ASCII alone.
    pub ascii: bool,
    /// The mouse is listened to.
    pub mouse: bool,
}

/// The file that says that the tour was taken.
const TOURED: &str = "toured";

/// Whether the tour was taken, as a config folder says.
pub fn is_toured(folder: &Path) -> bool {
    folder.join(TOURED).exists()
}

/// Keeps in a config folder that the tour was taken.
///
/// # Errors
/// Where the folder can't be written to.
pub fn keep_toured(folder: &Path) -> std::io::Result<()> {
    std::fs::create_dir_all(folder)?;
    std::fs::write(folder.join(TOURED), "The tour was taken.\n")
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
