//! Tests of: book.

use catchcrop::crop::{Book, BookFile};
use catchcrop::store;
use std::collections::BTreeSet;

#[test]
fn every_file_reads_and_every_entry_resolves() {
    let mut files = Vec::new();
    for (name, text) in store::FILES {
        let file: BookFile = store::text::read(name, text).unwrap_or_else(|e| panic!("{name}: {e}"));
        files.push(((*name).to_owned(), file));
    }
    let (book, faults) = Book::build(files);
    assert!(faults.is_empty(), "{faults:#?}");
    let varieties = book.crops().filter(|c| c.of.is_some()).count();
    let crops = book.crops().count() - varieties;
    let families: BTreeSet<&str> = book.crops().map(|c| c.family.as_str()).collect();
    println!("{crops} crops and {varieties} varieties of {} families", families.len());
    assert!(crops >= 45 && families.len() >= 12);
}
