//! Writing a print to its files.

use super::disk::write_set;
use super::error::StoreError;
use crate::paper::{Going, PaperError, Proof};
use std::path::{Path, PathBuf};

/// Why a print was not written.
#[derive(Debug, thiserror::Error)]
pub enum PrintError {
    /// It could not be drawn in that form.
    #[error(transparent)]
    Paper(#[from] PaperError),
    /// Its files could not be written.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// Prints to a path and says which files were written. A file that is there is known before anything is drawn, and a
/// half-new set of pages is never left. `going` is told how far it is and may stop it.
///
/// # Errors
/// Where a file is there and `over` is not set, it cannot be drawn, it was stopped, or the folder or the disk refuses.
pub fn print_out(proof: &Proof, to: &Path, over: bool, going: Going<'_>) -> Result<Vec<PathBuf>, PrintError> {
    let paths = proof.paths(to);
    if !over && let Some(there) = paths.iter().find(|path| path.exists()) {
        return Err(StoreError::Exists { path: there.clone() }.into());
    }
    let pressed = proof.press(going)?.into_iter().map(|file| file.bytes);
    let files: Vec<(PathBuf, Vec<u8>)> = paths.iter().cloned().zip(pressed).collect();
    write_set(&files, over)?;
    Ok(paths)
}
