//! A plan file: opened, looked at, saved.

use super::disk;
use super::error::StoreError;
use super::fault::{Fault, Said, Source, Weight};
use super::journal::{Journal, Recovery};
use super::lock::Lock;
use super::tree::Tree;
use super::{schema, text, verify};
use crate::crop::Book;
use crate::plan::{Edit, Plan, SCHEMA};
use std::fs;
use std::path::{Path, PathBuf};

/// Lines at the head of a plan file.
const HEADER: [&str; 3] = [
    "// A garden of catchcrop. The program writes this file. You may change it by hand while it is not open there;",
    "// comments are lost at the next save, so keep words that should last in a `note`.",
    "// Lengths, weights and temperatures carry their unit: \"10 in\", \"25 cm\", \"2 lb\", \"21 C\".",
];

/// A plan that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Loaded {
    /// The plan.
    pub plan: Plan,
    /// Remarks that point into the file: unknown crops, dates out of order ...
    pub remarks: Vec<Fault>,
    /// Other things the grower should be told.
    pub said: Vec<String>,
    /// Edits of a session that ended without saving.
    pub recovery: Option<Recovery>,
}

/// What a save did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Saved {
    /// The file.
    pub path: PathBuf,
    /// Whether anything had to be written.
    pub written: bool,
    /// Things the grower should be told.
    pub said: Vec<String>,
}

/// Whether a file that another program changed may be saved over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Over {
    /// No.
    #[default]
    Never,
    /// Yes, the grower said so; the other version is kept beside.
    Changed,
}

/// A plan file held by this program, for saving. Dropping it lets others open the garden.
#[derive(Debug)]
pub struct PlanFile {
    path: PathBuf,
    target: PathBuf,
    seen: Option<Seen>,
    keep: Option<Keep>,
    journal: Journal,
    waiting: Option<String>,
    _lock: Option<Lock>,
}

/// The file's content as this program last saw it.
#[derive(Debug, Clone)]
struct Seen {
    content: u64,
    /// Size and time of writing, for a quick look.
    data: Option<fs::Metadata>,
}

/// Why the file as it was must be kept at the first save.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Keep {
    Comments,
    Schema(u32),
}

struct Read {
    loaded: Loaded,
    content: u64,
    keep: Option<Keep>,
}

/// Reads a plan to look at it. Nothing is locked and nothing can be saved.
///
/// # Errors
/// Where the file cannot be read or its content cannot be used.
pub fn look(path: &Path, book: &Book) -> Result<Loaded, StoreError> {
    let read = read(path, book)?;
    let mut loaded = read.loaded;
    loaded.recovery = Journal::beside(&disk::target(path)).waiting(read.content);
    if let Some(recovery) = &loaded.recovery {
        loaded.said.push(format!(
            "{} of an earlier session were not saved and are not shown here: open the garden on the screen to take \
             them up",
            recovery.count_words()
        ));
    }
    Ok(loaded)
}

/// The text of a plan file.
///
/// # Errors
/// Where a value has no form in RON, which no type of this program allows.
pub fn plan_text(plan: &Plan) -> Result<String, ron::Error> {
    Ok(format!("{}\n{}", HEADER.join("\n"), text::pretty(plan)?))
}

/// Reads a plan from a text; `file` is its name as the grower knows it.
///
/// # Errors
/// Where the content cannot be used.
pub fn read_plan(file: &str, text: &str, book: &Book) -> Result<(Plan, Vec<Fault>), StoreError> {
    parse(Path::new(file), text, book).map(|read| (read.loaded.plan, read.loaded.remarks))
}

fn read(path: &Path, book: &Book) -> Result<Read, StoreError> {
    parse(path, &disk::read_text(path)?, book)
}

fn parse(path: &Path, text: &str, book: &Book) -> Result<Read, StoreError> {
    let name = path.display().to_string();
    let source = Source { file: &name, text };
    let tree = Tree::of(text);
    let refuse = |fault: Box<Fault>| StoreError::Content(vec![*fault]);
    let found = schema::peek(&source, &tree).map_err(refuse)?;
    if found > SCHEMA {
        return Err(StoreError::Newer { path: path.to_owned(), found, known: SCHEMA });
    }
    let current = found == SCHEMA;
    let plan: Plan = if current {
        text::read(source.file, source.text).map_err(refuse)?
    } else {
        schema::migrate(&source, &tree, found, book).map_err(refuse)?
    };
    let faults = verify::verify(&source, current.then_some(&tree), &plan, book);
    let (errors, mut remarks): (Vec<Fault>, Vec<Fault>) =
        faults.into_iter().partition(|f| f.weight == Weight::Error);
    if !errors.is_empty() {
        return Err(StoreError::Content(errors));
    }
    let by_hand = tree.comments.iter().find(|c| !HEADER.contains(&tree.slice(c).trim()));
    let mut said = Vec::new();
    if !current {
        said.push(format!(
            "{name} is of schema {found}: it will be saved as schema {SCHEMA}, and the file as it is kept beside it"
        ));
    }
    if let Some(comment) = by_hand.filter(|_| current) {
        let said = Said::new("comments written by hand are not kept when the garden is saved")
            .help("the file with its comments will be kept beside it; a 'note' field lasts");
        remarks.push(Fault::at(Weight::Remark, &source, comment, said));
    }
    let keep = if current { by_hand.map(|_| Keep::Comments) } else { Some(Keep::Schema(found)) };
    let loaded = Loaded { plan, remarks, said, recovery: None };
    Ok(Read { loaded, content: disk::print(text.as_bytes()), keep })
}

impl PlanFile {
    /// Opens a plan to work on it: no other catchcrop can until this is dropped.
    ///
    /// # Errors
    /// Where the file cannot be read, its content cannot be used, or another catchcrop has it open.
    pub fn open(path: &Path, book: &Book) -> Result<(Loaded, Self), StoreError> {
        // Read first: a missing or broken file is the better message, and leaves no lock file behind.
        read(path, book)?;
        let target = disk::target(path);
        let lock = Lock::take(&target)?;
        let Read { mut loaded, content, keep } = read(path, book)?;
        let journal = Journal::beside(&target);
        loaded.recovery = journal.waiting(content);
        let waiting = loaded.recovery.as_ref().map(Recovery::count_words);
        let seen = Some(Seen::of(&target, content));
        let mut file = Self { path: path.to_owned(), target, seen, keep, journal, waiting, _lock: lock };
        if file.waiting.is_none() {
            // What may lie there holds nothing that is not in the file.
            file.journal.clear();
        }
        Ok((loaded, file))
    }

    /// A file that is not there yet; the first save makes it.
    ///
    /// # Errors
    /// Where a file of that name is there, or its folder cannot be written.
    pub fn create(path: &Path) -> Result<Self, StoreError> {
        if fs::symlink_metadata(path).is_ok() {
            return Err(StoreError::Exists { path: path.to_owned() });
        }
        let dir = disk::folder(path);
        if !dir.is_dir() {
            return Err(StoreError::Io {
                doing: "write",
                path: path.to_owned(),
                reason: format!("there is no folder {}", dir.display()),
            });
        }
        let lock = Lock::take(path)?;
        Ok(Self {
            path: path.to_owned(),
            target: path.to_owned(),
            seen: None,
            keep: None,
            journal: Journal::beside(path),
            waiting: None,
            _lock: lock,
        })
    }

    /// The path as the grower gave it.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Whether another program changed the file since it was read or saved here.
    pub fn changed_outside(&self) -> bool {
        let Some(seen) = &self.seen else { return self.target.exists() };
        let Ok(now) = fs::metadata(&self.target) else { return false };
        let written = |data: &fs::Metadata| (data.len(), data.modified().ok());
        if seen.data.as_ref().map(written) == Some(written(&now)) {
            return false;
        }
        fs::read(&self.target).is_ok_and(|bytes| disk::print(&bytes) != seen.content)
    }

    /// Writes an edit down, so that a crash does not lose it.
    ///
    /// # Errors
    /// Where the folder or the disk refuses, or edits of an earlier session still wait.
    pub fn journal(&mut self, edit: &Edit) -> Result<(), StoreError> {
        self.refuse_waiting()?;
        self.journal.append(edit, self.seen.as_ref().map_or(0, |s| s.content))
    }

    /// The edits that waited are part of the plan now; they stay written down until the next save.
    pub fn take_up(&mut self) {
        self.waiting = None;
    }

    /// The edits that waited are not wanted: they are put aside in another file, whose path is returned.
    ///
    /// # Errors
    /// Where the folder refuses.
    pub fn put_aside(&mut self) -> Result<PathBuf, StoreError> {
        let to = self.journal.put_aside(&self.target)?;
        self.waiting = None;
        Ok(to)
    }

    fn refuse_waiting(&self) -> Result<(), StoreError> {
        match &self.waiting {
            Some(edits) => Err(StoreError::Waiting {
                path: self.path.clone(),
                journal: self.journal.path().to_owned(),
                edits: edits.clone(),
            }),
            None => Ok(()),
        }
    }

    /// Saves a plan: the version before is kept as `NAME.ron.before`.
    ///
    /// # Errors
    /// Where the disk refuses, another program changed the file, or edits of an earlier session still wait; the
    /// file is then as it was.
    pub fn save(&mut self, plan: &Plan, over: Over) -> Result<Saved, StoreError> {
        self.refuse_waiting()?;
        let text = self.sound_text(plan)?;
        let content = disk::print(text.as_bytes());
        let mut said = Vec::new();
        let there = match fs::read(&self.target) {
            Ok(bytes) => Some(bytes),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => None,
            Err(e) => return Err(StoreError::io("read", &self.target, &e)),
        };
        if let Some(there) = &there {
            let known = self.seen.as_ref().is_some_and(|s| s.content == disk::print(there));
            if !known && over == Over::Never {
                return Err(match self.seen {
                    Some(_) => StoreError::Changed { path: self.path.clone() },
                    None => StoreError::Exists { path: self.path.clone() },
                });
            }
            if !known {
                said.push(self.keep_beside(there, "theirs", "the other program's version")?);
            }
            if *there == text.as_bytes() {
                self.seen = Some(Seen::of(&self.target, content));
                self.journal.clear();
                return Ok(Saved { path: self.path.clone(), written: false, said });
            }
            match self.keep {
                Some(Keep::Comments) => {
                    said.push(self.keep_beside(there, "comments", "the version with comments by hand")?);
                }
                Some(Keep::Schema(n)) => {
                    let name = format!("schema-{n}");
                    said.push(self.keep_beside(there, &name, &format!("the version of schema {n}"))?);
                }
                None => {}
            }
            self.keep = None;
            let before = disk::beside(&self.target, "before");
            if fs::metadata(&self.target).is_ok_and(|m| !m.permissions().readonly()) {
                disk::replace(&before, there)?;
            }
        }
        self.journal.note_save(self.seen.as_ref().map_or(0, |s| s.content), content)?;
        if there.is_some() {
            disk::replace(&self.target, text.as_bytes())?;
        } else {
            disk::create(&self.target, text.as_bytes())?;
        }
        self.seen = Some(Seen::of(&self.target, content));
        self.journal.clear();
        Ok(Saved { path: self.path.clone(), written: true, said })
    }

    /// The text of a plan, once it has been read back as the same plan.
    fn sound_text(&self, plan: &Plan) -> Result<String, StoreError> {
        let unsound = |reason: String| StoreError::Unsound { path: self.path.clone(), reason };
        let text = plan_text(plan).map_err(|e| unsound(e.to_string()))?;
        match text::read::<Plan>(&self.path.to_string_lossy(), &text) {
            Ok(back) if back == *plan => Ok(text),
            Ok(_) => Err(unsound(String::from("a value came back changed"))),
            Err(fault) => Err(unsound(fault.line_text())),
        }
    }

    fn keep_beside(&self, bytes: &[u8], ending: &str, what: &str) -> Result<String, StoreError> {
        let to = disk::free_beside(&self.target, ending);
        disk::create(&to, bytes)?;
        Ok(format!("{what} is kept in {}", to.display()))
    }
}

impl Seen {
    fn of(path: &Path, content: u64) -> Self {
        Self { content, data: fs::metadata(path).ok() }
    }
}
