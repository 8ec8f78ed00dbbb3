//! The crop book: its files, its figures against published tables, search and pages.

mod faults;
mod names;
mod pages;
mod search;
mod sites;
mod tables;

use catchcrop::crop::{Book, BookFile, check_book, references};
use catchcrop::store;
use std::collections::BTreeSet;

/// The book from its files, every one of which must read.
fn built() -> Book {
    let mut files =
        vec![(String::new(), BookFile { references: references(store::SOURCES), ..BookFile::default() })];
    for (name, text) in store::FILES {
        let file: BookFile = store::text::read(name, text).unwrap_or_else(|e| panic!("{e}"));
        files.push(((*name).to_owned(), file));
    }
    let (book, faults) = Book::build(files);
    assert!(faults.is_empty(), "{faults:#?}");
    book
}

#[test]
fn every_file_reads_and_every_entry_resolves() {
    let book = built();
    assert_eq!(&book, store::book());
    let varieties = book.crops().filter(|c| c.of.is_some()).count();
    let crops = book.crops().count() - varieties;
    let families: BTreeSet<&str> = book.crops().map(|c| c.family.as_str()).collect();
    println!("{crops} crops and {varieties} varieties of {} families", families.len());
    assert!(crops >= 120 && varieties >= 60 && families.len() >= 20);
}

#[test]
fn the_book_holds_no_fault() {
    let faults = check_book(store::book());
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", said.join("\n"));
}
