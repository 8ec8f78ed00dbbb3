//! The crop book on the grower's shelf: the program's own, with the grower's crops laid over it.

use super::builtin;
use super::disk;
use super::fault::{Fault, Said, Source, Weight};
use super::text::{self, read_part};
use super::tree::{Node, Step, Tree, bare};
use crate::crop::{self, Book, BookFile, Crop, Entry, FIGURES};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// A crop book, and what could not be used of the grower's own files.
#[derive(Debug, Clone, PartialEq)]
pub struct Shelf {
    /// The book.
    pub book: Cow<'static, Book>,
    /// Entries and files that were left out, and why.
    pub faults: Vec<Fault>,
    /// The grower's files that were read.
    pub files: Vec<PathBuf>,
}

/// The program's crops with those of `crops/*.ron` in each folder laid over, in order: the same id wins and may
/// override single fields. What cannot be used is left out and said; the rest works.
pub fn shelf(folders: &[&Path]) -> Shelf {
    let (texts, faults) = texts(folders);
    laid(texts, faults)
}

/// The texts of the grower's files in those folders, in order, and which can't be read.
pub(super) fn texts(folders: &[&Path]) -> (Vec<(PathBuf, String)>, Vec<Fault>) {
    let mut faults = Vec::new();
    let mut texts = Vec::new();
    for folder in folders {
        for path in crop_files(&folder.join("crops")) {
            match disk::read_text(&path) {
                Ok(text) => texts.push((path, text)),
                Err(error) => {
                    let name = path.display().to_string();
                    faults.push(Fault::whole(Weight::Error, &name, &error.to_string(), None));
                }
            }
        }
    }
    (texts, faults)
}

/// The program's crops with those texts laid over.
pub(super) fn laid(texts: Vec<(PathBuf, String)>, mut faults: Vec<Fault>) -> Shelf {
    if texts.is_empty() {
        return Shelf { book: Cow::Borrowed(builtin::book()), faults, files: Vec::new() };
    }
    let mut files = builtin::book_files();
    for (path, text) in &texts {
        let name = path.display().to_string();
        let (mut file, mut found) = salvage(&name, text);
        if file.sources.is_empty() {
            // What the grower writes without naming a source is the grower's own.
            file.sources.push(String::from("own"));
        }
        faults.append(&mut found);
        files.push((name, file));
    }
    let (mut book, mut left_out) = Book::build(files.clone());
    let by_name: BTreeMap<String, &str> =
        texts.iter().map(|(p, t)| (p.display().to_string(), t.as_str())).collect();
    // A crop whose figures cannot be is left out; the program's own of that id, if there is one, then stands.
    let mine: Vec<&Crop> = book.crops().filter(|c| by_name.contains_key(book.file(&c.id))).collect();
    let is_figure = |f: &crop::Fault| FIGURES.iter().any(|name| f.figure.split('.').next() == Some(name));
    let wrong: Vec<crop::Fault> =
        mine.into_iter().flat_map(|c| crop::check_crop(c, &book)).filter(is_figure).collect();
    if !wrong.is_empty() {
        for (name, file) in &mut files {
            file.crops.retain(|entry| !wrong.iter().any(|w| w.file == *name && w.id == entry.id));
        }
        (book, left_out) = Book::build(files);
    }
    for fault in left_out {
        let Some(text) = by_name.get(&fault.file) else { continue };
        faults.push(pin(Weight::Error, &fault.file, text, (&fault.id, "id"), &fault.words));
    }
    for fault in &wrong {
        let Some(text) = by_name.get(&fault.file) else { continue };
        faults.push(pin(Weight::Error, &fault.file, text, (&fault.id, &fault.figure), &fault.words));
    }
    for fault in crop::check_book(&book) {
        let Some(text) = by_name.get(&fault.file) else { continue };
        faults.push(pin(Weight::Remark, &fault.file, text, (&fault.id, &fault.figure), &fault.words));
    }
    Shelf { book: Cow::Owned(book), faults, files: texts.into_iter().map(|(p, _)| p).collect() }
}

/// `*.ron` of a folder by name; none where there is no such folder.
fn crop_files(folder: &Path) -> Vec<PathBuf> {
    let mut out: Vec<PathBuf> = fs::read_dir(folder)
        .map(|entries| entries.filter_map(|e| e.ok().map(|e| e.path())).collect())
        .unwrap_or_default();
    out.retain(|p| p.extension().is_some_and(|e| e == "ron") && p.is_file());
    out.sort();
    out
}

/// What of a file of crops can be used, and why the rest cannot: one bad crop does not take the others along.
pub fn salvage(file: &str, text: &str) -> (BookFile, Vec<Fault>) {
    let source = Source { file, text };
    let tree = Tree::of(text);
    let (mut content, mut faults) = match text::read::<BookFile>(file, text) {
        Ok(content) => (content, Vec::new()),
        Err(fault) if tree.trouble.is_some() => (BookFile::default(), vec![*fault]),
        Err(fault) => one_by_one(&source, &tree, *fault),
    };
    let mut seen = BTreeSet::new();
    let mut nameless = false;
    content.crops.retain(|entry| {
        if entry.id.is_empty() {
            nameless = true;
            return false;
        }
        let fresh = seen.insert(entry.id.clone());
        if !fresh {
            let said = Said::new(format!("'{}' stands in this file twice; the first is used", entry.id))
                .help("give the second an id of its own, or put both together");
            let n = nth(&tree, &entry.id, 1);
            faults.push(Fault::on(Weight::Error, &source, &tree, &crop_path(n, "id"), said));
        }
        fresh
    });
    if nameless {
        let crops = tree.root.as_ref().and_then(|root| tree.field(root, "crops"));
        let without =
            |node: &Node| tree.field(node, "id").is_none_or(|id| bare(tree.slice(&id.span)).is_empty());
        for (n, node) in crops.map_or(&[][..], Node::items).iter().enumerate() {
            let known = faults.iter().any(|f| f.path.starts_with(&format!("crops[{n}]")));
            if without(node) && !known {
                let said =
                    Said::new("this crop has no id, so it was left out").help("begin it with 'id: \"...\"'");
                let path = [Step::Key(String::from("crops")), Step::Item(n)];
                faults.push(Fault::on(Weight::Error, &source, &tree, &path, said));
            }
        }
    }
    (content, faults)
}

/// Reads every entry by itself, and the file again without the bad ones.
fn one_by_one(source: &Source<'_>, tree: &Tree<'_>, whole: Fault) -> (BookFile, Vec<Fault>) {
    let crops = tree.root.as_ref().and_then(|root| tree.field(root, "crops"));
    let (mut faults, mut bad) = (Vec::new(), Vec::new());
    let mut rest = source.text.to_owned();
    for (n, item) in crops.map_or(&[][..], Node::items).iter().enumerate() {
        let path = [Step::Key(String::from("crops")), Step::Item(n)];
        let part = tree.slice(&item.span);
        if let Err(fault) = read_part::<Entry>(source, part, item.span.start, &path) {
            faults.push(*fault);
            bad.push(n);
            // Blanks of the same length, and a harmless entry, keep every later position true.
            let blank: String = part.chars().map(|c| if c == '\n' { c } else { ' ' }).collect();
            let blank = blank.replacen("  ", "()", 1) + &" ".repeat(part.len().saturating_sub(blank.len()));
            rest.replace_range(item.span.clone(), &blank);
        }
    }
    match text::read::<BookFile>(source.file, &rest) {
        Ok(mut file) => {
            let mut n = 0..;
            file.crops.retain(|_| n.next().is_some_and(|n| !bad.contains(&n)));
            (file, faults)
        }
        // An error between the entries (an unknown part, a missing comma) belongs to none of them.
        Err(_) if faults.is_empty() => (BookFile::default(), vec![whole]),
        Err(fault) => {
            faults.push(*fault);
            (BookFile::default(), faults)
        }
    }
}

fn crop_path(n: Option<usize>, field: &str) -> Vec<Step> {
    let mut path = vec![Step::Key(String::from("crops"))];
    if let Some(n) = n {
        path.push(Step::Item(n));
        path.push(Step::Key(field.to_owned()));
    }
    path
}

/// Which item of `crops` has that id, after skipping so many.
fn nth(tree: &Tree<'_>, id: &str, skip: usize) -> Option<usize> {
    let crops = tree.field(tree.root.as_ref()?, "crops")?;
    let is = |node| tree.field(node, "id").is_some_and(|i| bare(tree.slice(&i.span)) == id);
    crops.items().iter().enumerate().filter(|(_, node)| is(node)).map(|(n, _)| n).nth(skip)
}

/// A fault of the book, pinned to a figure ("seed.life") of the entry it concerns.
fn pin(weight: Weight, file: &str, text: &str, (id, figure): (&str, &str), words: &str) -> Fault {
    let source = Source { file, text };
    let tree = Tree::of(text);
    let said = match weight {
        Weight::Error => Said::new(format!("'{id}' was left out: {words}")),
        Weight::Remark => Said::new(format!("'{id}': {words}")),
    };
    let mut path = crop_path(nth(&tree, id, 0), "");
    path.pop();
    path.extend(figure.split('.').map(|f| Step::Key(f.to_owned())));
    Fault::on(weight, &source, &tree, &path, said)
}
