//! Why a file could not be read or written, in words that say what to do.

use super::disk::folder;
use super::fault::Fault;
use std::io;
use std::path::{Path, PathBuf};

/// Why a file could not be read or written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum StoreError {
    /// The system refused.
    #[error("cannot {doing} {}: {reason}", .path.display())]
    Io {
        /// "read", "write", "lock" ...
        doing: &'static str,
        /// The file or folder.
        path: PathBuf,
        /// The system's words.
        reason: String,
    },
    /// There is no such file.
    #[error("there is no file {}{}", .path.display(), near_words(.near.as_ref()))]
    NotThere {
        /// The file asked for.
        path: PathBuf,
        /// One of a like name beside it.
        near: Option<PathBuf>,
    },
    /// Its content cannot be used. The file was not touched.
    #[error("{}", faults_words(.0))]
    Content(Vec<Fault>),
    /// A later version of the program wrote it. The file was not touched.
    #[error(
        "{} has schema {found}, and this program knows schemas up to {known}: open it with a newer catchcrop. \
         The file was not touched", .path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its schema.
        found: u32,
        /// The newest schema this program knows.
        known: u32,
    },
    /// Another program wrote to it since it was read.
    #[error(
        "{} was changed by another program since it was opened, so it was not saved over: save under another name, \
         or open it again", .path.display()
    )]
    Changed {
        /// The file.
        path: PathBuf,
    },
    /// Another catchcrop has it open.
    #[error("{} is open in another catchcrop: close it there first", .path.display())]
    Busy {
        /// The file.
        path: PathBuf,
    },
    /// A file of that name is there already.
    #[error("{} is there already and was not overwritten: choose another name", .path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// The file is write-protected.
    #[error("{} is write-protected: allow writing to it, or save under another name", .path.display())]
    Protected {
        /// The file.
        path: PathBuf,
    },
    /// Edits of a session that ended without saving wait to be taken up or dropped.
    #[error(
        "{edits} from a session of {} that ended without saving still wait: open the garden on the screen to take \
         them up or drop them, or take {} away", .path.display(), .journal.display()
    )]
    Waiting {
        /// The plan file.
        path: PathBuf,
        /// The journal.
        journal: PathBuf,
        /// "3 edits".
        edits: String,
    },
    /// What would be written could not be read back as the same garden.
    #[error("{} was not written: the garden could not be read back from its own text ({reason})", .path.display())]
    Unsound {
        /// The file.
        path: PathBuf,
        /// Why.
        reason: String,
    },
}

impl StoreError {
    /// The system's refusal to do something with a path.
    pub(super) fn io(doing: &'static str, path: &Path, error: &io::Error) -> Self {
        let reason = if doing == "write" { mended(path, error) } else { plain(error) };
        Self::Io { doing, path: path.to_owned(), reason }
    }
    /// Whether the content is at fault, not the disk or another program.
    pub const fn is_content(&self) -> bool {
        matches!(self, Self::Content(_) | Self::Newer { .. })
    }
}

/// The system's words without its number.
fn plain(error: &io::Error) -> String {
    let text = error.to_string();
    text.split(" (os error").next().unwrap_or(&text).to_lowercase()
}

/// Why something could not be written, and what would help.
#[expect(
    clippy::wildcard_enum_match_arm,
    reason = "of the system's many errors only these have a remedy of their own"
)]
fn mended(path: &Path, error: &io::Error) -> String {
    let folder = folder(path);
    match error.kind() {
        io::ErrorKind::NotFound => {
            format!("there is no folder {}: make it, or choose another", folder.display())
        }
        io::ErrorKind::NotADirectory => {
            format!("{} is a file and no folder: choose a folder", folder.display())
        }
        io::ErrorKind::PermissionDenied => {
            format!("the folder {} may not be written to: allow it, or choose another", folder.display())
        }
        io::ErrorKind::ReadOnlyFilesystem => {
            String::from("that disk can only be read: choose a folder on another")
        }
        io::ErrorKind::StorageFull => String::from("the disk is full: make room, or write to another disk"),
        _ => plain(error),
    }
}

fn near_words(near: Option<&PathBuf>) -> String {
    near.map(|n| format!("; did you mean {}?", n.display())).unwrap_or_default()
}

fn faults_words(faults: &[Fault]) -> String {
    faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n\n")
}
