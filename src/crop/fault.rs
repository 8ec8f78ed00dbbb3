//! The book check: what in a book cannot be right, in words that say how to mend it.
//!
//! Each rule stands alone and looks at one crop, or at the book as a whole; a rule never mends anything.

mod figures;
mod names;
mod ties;
mod whole;

pub(super) use names::near;

use super::book::Book;
use super::entry::Crop;
use std::fmt;

/// A figure or a name that cannot be right.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// File it stands in; empty where it is unknown.
    pub file: String,
    /// Id of the crop, family or trouble.
    pub id: String,
    /// The field, or a part of it.
    pub figure: String,
    /// What is wrong and how to mend it.
    pub words: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}: {}: {}", self.file, self.id, self.figure, self.words)
    }
}

/// Faults found so far, and the crop they are looked for in.
struct Finder<'a> {
    file: &'a str,
    id: &'a str,
    found: Vec<Fault>,
}

impl Finder<'_> {
    fn say(&mut self, figure: &str, words: String) {
        let (file, id) = (self.file.to_owned(), self.id.to_owned());
        self.found.push(Fault { file, id, figure: figure.to_owned(), words });
    }
    /// Says `words` unless `holds`.
    fn must(&mut self, holds: bool, figure: &str, words: impl FnOnce() -> String) {
        if !holds {
            self.say(figure, words());
        }
    }
    /// Says so unless `value` lies from `least` to `most`.
    fn within(&mut self, figure: &str, value: f64, least: f64, most: f64, unit: &str) {
        self.must(value >= least && value <= most, figure, || {
            let text = format!("{value:.3}");
            let text = text.trim_end_matches('0').trim_end_matches('.');
            format!("{text} {unit} cannot be: give {least} to {most}")
        });
    }
    /// Says so unless `low` comes before `high`.
    fn ordered<T: PartialOrd + fmt::Display>(
        &mut self,
        figure: &str,
        low: &T,
        high: &T,
        names: (&str, &str),
    ) {
        self.must(low <= high, figure, || {
            format!("{} is {low} and {} is {high}: put the smaller one first", names.0, names.1)
        });
    }
}

/// Every fault of a book, by file and crop.
pub fn check_book(book: &Book) -> Vec<Fault> {
    let mut found: Vec<Fault> = book.crops().flat_map(|crop| check_crop(crop, book)).collect();
    found.extend(names::twice(book));
    found.extend(whole::families(book));
    found.extend(whole::troubles(book));
    found.sort();
    found
}

/// The faults of one crop, but for clashes of names.
pub fn check_crop(crop: &Crop, book: &Book) -> Vec<Fault> {
    let mut finder = Finder { file: book.file(&crop.id), id: crop.id.as_str(), found: Vec::new() };
    names::rules(crop, book, &mut finder);
    figures::rules(crop, &mut finder);
    ties::rules(crop, book, &mut finder);
    finder.found
}
