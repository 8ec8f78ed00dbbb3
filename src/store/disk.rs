//! Reading and writing whole files so that no crash and no other program can lose one.

use super::error::StoreError;
use super::near::nearest;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Reads a text file.
///
/// # Errors
/// Where there is none, it cannot be read, or it is no UTF-8 text.
pub fn read_text(path: &Path) -> Result<String, StoreError> {
    String::from_utf8(read_bytes(path)?).map_err(|error| StoreError::Io {
        doing: "read",
        path: path.to_owned(),
        reason: format!(
            "it is not a text in UTF-8 (from byte {}): is it another kind of file?",
            error.utf8_error().valid_up_to() + 1
        ),
    })
}

/// Reads a file of any kind.
///
/// # Errors
/// Where there is none, or it cannot be read.
pub fn read_bytes(path: &Path) -> Result<Vec<u8>, StoreError> {
    fs::read(path).map_err(|error| {
        if error.kind() == io::ErrorKind::NotFound {
            StoreError::NotThere { path: path.to_owned(), near: sibling(path) }
        } else {
            StoreError::io("read", path, &error)
        }
    })
}

/// A file of a like name in the same folder.
fn sibling(path: &Path) -> Option<PathBuf> {
    let wanted = path.file_name()?.to_string_lossy().into_owned();
    let names: Vec<String> = fs::read_dir(folder(path))
        .ok()?
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| Path::new(name).extension() == path.extension() || path.extension().is_none())
        .collect();
    nearest(&wanted, names.iter().map(String::as_str)).map(|name| path.with_file_name(name))
}

/// The folder a file stands in.
pub(super) fn folder(path: &Path) -> &Path {
    path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or_else(|| Path::new("."))
}

/// `garden.ron` and "before" give `garden.ron.before`.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".");
    name.push(ending);
    PathBuf::from(name)
}

/// The first of `garden.ron.old`, `garden.ron.old-2`, ... that is not there yet.
pub(super) fn free_beside(path: &Path, ending: &str) -> PathBuf {
    let mut n = 1_u32;
    loop {
        let at = if n == 1 { beside(path, ending) } else { beside(path, &format!("{ending}-{n}")) };
        if !at.exists() {
            return at;
        }
        n += 1;
    }
}

/// The file a path leads to, through symbolic links, so that saving replaces the file and not the link.
pub(super) fn target(path: &Path) -> PathBuf {
    if let Ok(whole) = fs::canonicalize(path) {
        return whole;
    }
    match fs::read_link(path) {
        Ok(to) => folder(path).join(to),
        Err(_) => path.to_owned(),
    }
}

/// Replaces a file's content at one stroke: a file of the same folder is written, brought to the disk, and put in
/// its place; at every moment the old content or the new one is there whole. The file's mode is kept.
///
/// # Errors
/// Where the folder or the disk refuses; the old file is then as it was.
pub(super) fn replace(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    put(path, bytes, mode(path)?, true)
}

/// The mode of a file that is to be replaced; none where there is no such file.
fn mode(path: &Path) -> Result<Option<fs::Permissions>, StoreError> {
    let old = fs::metadata(path).ok().map(|m| m.permissions());
    if old.as_ref().is_some_and(fs::Permissions::readonly) {
        return Err(StoreError::Protected { path: path.to_owned() });
    }
    Ok(old)
}

/// Writes a new file at one stroke.
///
/// # Errors
/// Where a file of that name is there, or the folder or the disk refuses.
pub(super) fn create(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    put(path, bytes, None, false)
}

fn put(path: &Path, bytes: &[u8], mode: Option<fs::Permissions>, replacing: bool) -> Result<(), StoreError> {
    set(staged(path, bytes, mode)?, path, replacing)
}

/// A file of the same folder with the bytes, brought to the disk, that may be put in the place of `path`.
fn staged(
    path: &Path,
    bytes: &[u8],
    mode: Option<fs::Permissions>,
) -> Result<tempfile::NamedTempFile, StoreError> {
    let fail = |error: &io::Error| StoreError::io("write", path, error);
    let dir = folder(path);
    let mut builder = tempfile::Builder::new();
    builder.prefix(".saving-");
    #[cfg(unix)]
    let fresh = {
        use std::os::unix::fs::PermissionsExt;
        fs::Permissions::from_mode(0o666)
    };
    #[cfg(unix)]
    builder.permissions(fresh);
    let mut file = builder.tempfile_in(dir).map_err(|e| fail(&e))?;
    file.write_all(bytes).map_err(|e| fail(&e))?;
    if let Some(mode) = mode {
        file.as_file().set_permissions(mode).map_err(|e| fail(&e))?;
    }
    file.as_file().sync_all().map_err(|e| fail(&e))?;
    Ok(file)
}

/// Puts a staged file in its place.
fn set(file: tempfile::NamedTempFile, path: &Path, replacing: bool) -> Result<(), StoreError> {
    let kept = if replacing { file.persist(path) } else { file.persist_noclobber(path) };
    kept.map_err(|e| {
        if e.error.kind() == io::ErrorKind::AlreadyExists {
            StoreError::Exists { path: path.to_owned() }
        } else {
            StoreError::io("write", path, &e.error)
        }
    })?;
    sync_folder(folder(path));
    Ok(())
}

/// Brings a folder's list of names to the disk. Not every file system can, and the file itself is safe already.
pub(super) fn sync_folder(dir: &Path) {
    #[cfg(unix)]
    if let Ok(dir) = File::open(dir) {
        drop(dir.sync_all());
    }
    #[cfg(not(unix))]
    let _ = dir;
}

/// Writes a file the grower asked for (a page, a table, a plan under a new name).
///
/// # Errors
/// Where a file of that name is there and `over` is not set, or the folder or the disk refuses.
pub fn write_out(path: &Path, bytes: &[u8], over: bool) -> Result<(), StoreError> {
    if over && path.exists() { replace(&target(path), bytes) } else { create(path, bytes) }
}

/// Writes several files the grower asked for, all or none: nothing is put in its place before every one of them is
/// whole on the disk, so that a full disk leaves what was there as it was.
///
/// # Errors
/// Where a file of such a name is there and `over` is not set, or the folder or the disk refuses.
pub(super) fn write_set(files: &[(PathBuf, Vec<u8>)], over: bool) -> Result<(), StoreError> {
    if !over && let Some((path, _)) = files.iter().find(|(path, _)| path.exists()) {
        return Err(StoreError::Exists { path: path.clone() });
    }
    let mut whole = Vec::new();
    for (path, bytes) in files {
        let to = if over { target(path) } else { path.clone() };
        whole.push((staged(&to, bytes, mode(&to)?)?, to));
    }
    whole.into_iter().try_for_each(|(file, to)| set(file, &to, over))
}

/// Writes a file of the program's own in a folder that is made where it is not there, over what it wrote before.
///
/// # Errors
/// Where the folder or the disk refuses.
pub fn write_beside(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    if let Some(folder) = path.parent().filter(|f| !f.as_os_str().is_empty()) {
        fs::create_dir_all(folder).map_err(|e| StoreError::io("write", path, &e))?;
    }
    write_out(path, bytes, true)
}

/// A number for a content: equal contents have equal numbers (FNV-1a, 64 bits).
pub(super) fn print(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}
