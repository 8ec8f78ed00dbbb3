//! The crop book: reading and resolving it.

use catchcrop::crop::{Book, BookFile};
use catchcrop::store;

fn read() -> Vec<(String, BookFile)> {
    store::FILES
        .iter()
        .map(|(name, text)| ((*name).to_owned(), store::text::read(name, text).unwrap_or_default()))
        .collect()
}

/// Reading every file of the embedded book.
#[divan::bench]
fn parse() -> Vec<(String, BookFile)> {
    read()
}
/// Reading and resolving: what the program does once at the start. Must stay below 5 ms.
#[divan::bench]
fn load() -> Book {
    Book::build(read()).0
}
