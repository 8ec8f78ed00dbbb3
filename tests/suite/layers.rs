//! The house: rooms use only rooms above them, and some things are reserved to some rooms.

use std::fs;
use std::path::{Path, PathBuf};

/// The rooms in order: each may use only those before it.
const ROOMS: [&str; 15] = [
    "units", "calendar", "site", "crop", "growth", "garden", "plan", "check", "fill", "work", "paper",
    "store", "app", "screen", "cli",
];

/// What may stand only in some rooms: the text looked for, the rooms, and why.
const RESERVED: [(&str, &[&str], &str); 11] = [
    ("ratatui", &["screen"], "the terminal is drawn in one room"),
    ("crossterm", &["screen"], "the terminal is driven in one room"),
    ("std::fs", &["store", "cli"], "files are read and written in one room (and a thin writer in cli)"),
    ("std::env", &["screen", "cli"], "the environment is read at the edge"),
    ("SystemTime", &["screen", "cli"], "today is an argument"),
    ("Local::now", &["screen", "cli"], "today is an argument"),
    ("Utc::now", &["screen", "cli"], "today is an argument"),
    ("Instant::now", &["screen", "cli"], "budgets count iterations, never the clock"),
    ("thread::", &["screen", "fill"], "threads are input, signals, saver, worker and the fill's chains"),
    ("HashMap", &[], "hash order must not reach a screen or a file"),
    ("HashSet", &[], "hash order must not reach a screen or a file"),
];

fn sources(dir: &Path, out: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push(path);
        }
    }
}

/// The room of a source file, by the first part of its path below `src`.
fn room(path: &Path) -> Option<usize> {
    let below = path.strip_prefix(Path::new(env!("CARGO_MANIFEST_DIR")).join("src")).unwrap();
    let first = below.components().next().unwrap().as_os_str().to_str().unwrap();
    let first = first.strip_suffix(".rs").unwrap_or(first);
    ROOMS.iter().position(|r| *r == first)
}

/// Code lines without comments.
fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().map(|(n, line)| (n + 1, line.split("//").next().unwrap_or("")))
}

fn all() -> Vec<(PathBuf, String)> {
    let mut files = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut files);
    files.sort();
    assert!(files.len() > 30, "the sources are read");
    files.into_iter().map(|p| (p.clone(), fs::read_to_string(&p).unwrap())).collect()
}

/// Names of rooms used by a line: `crate::room`, and the members of `use crate::{...}`.
fn used(line: &str) -> Vec<usize> {
    let mut out = Vec::new();
    for part in line.split("crate::").skip(1) {
        let names = part
            .strip_prefix('{')
            .map_or_else(|| vec![part], |inner| inner.split(',').map(str::trim).collect());
        for name in names {
            let word: String = name.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            out.extend(ROOMS.iter().position(|r| *r == word));
        }
    }
    out
}

#[test]
fn rooms_use_only_rooms_above_them() {
    let mut wrong = Vec::new();
    for (path, text) in all() {
        let Some(here) = room(&path) else { continue };
        for (line, code) in code(&text) {
            for there in used(code) {
                if there > here {
                    wrong.push(format!("{}:{line}: {} uses {}", path.display(), ROOMS[here], ROOMS[there]));
                }
                // The judge shares no code with the search.
                if ROOMS[here] == "fill" && ROOMS[there] == "check" {
                    wrong.push(format!("{}:{line}: fill uses check", path.display()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn reserved_things_stay_in_their_rooms() {
    let mut wrong = Vec::new();
    for (path, text) in all() {
        let Some(here) = room(&path) else { continue };
        for (line, code) in code(&text) {
            for (what, rooms, why) in RESERVED {
                if code.contains(what) && !rooms.contains(&ROOMS[here]) {
                    wrong.push(format!("{}:{line}: {what} in {}: {why}", path.display(), ROOMS[here]));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_room_says_what_it_is_for() {
    for (path, text) in all() {
        assert!(text.starts_with("//!"), "{} begins with a //! line", path.display());
    }
    assert!(used("use crate::{garden::Place, plan::Plan};").len() == 2, "the reader of paths works");
    assert!(used("let x = crate::screen::run();") == [13]);
}
