//! One garden, one program that writes it.

use super::disk;
use super::error::StoreError;
use std::fs::{self, File, TryLockError};
use std::path::{Path, PathBuf};

/// A garden held by this process until dropped. The lock is the system's, so a crash leaves none behind.
#[derive(Debug)]
pub(super) struct Lock {
    path: PathBuf,
    file: File,
}

impl Lock {
    /// Takes the lock of a plan file; none where the file system knows no locks.
    ///
    /// # Errors
    /// Where another program holds it, or the folder cannot be written.
    pub(super) fn take(plan: &Path) -> Result<Option<Self>, StoreError> {
        let path = disk::beside(plan, "lock");
        // The holder takes its file away when it ends; whoever waited on that file must then look again.
        for _ in 0..8 {
            let file = File::options()
                .create(true)
                .truncate(false)
                .write(true)
                .open(&path)
                .map_err(|e| StoreError::io("write", &path, &e))?;
            match file.try_lock() {
                Ok(()) if is_still(&file, &path) => return Ok(Some(Self { path, file })),
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => {
                    return Err(StoreError::Busy { path: plan.to_owned() });
                }
                Err(TryLockError::Error(_)) => {
                    drop(fs::remove_file(&path));
                    return Ok(None);
                }
            }
        }
        Err(StoreError::Busy { path: plan.to_owned() })
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        drop(fs::remove_file(&self.path));
        drop(self.file.unlock());
    }
}

#[cfg(unix)]
fn is_still(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (file.metadata(), fs::metadata(path)) {
        (Ok(held), Ok(there)) => (held.dev(), held.ino()) == (there.dev(), there.ino()),
        _ => false,
    }
}
#[cfg(not(unix))]
fn is_still(_: &File, path: &Path) -> bool {
    path.exists()
}
