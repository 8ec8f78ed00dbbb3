//! The crop book: reading, resolving, searching it.

use catchcrop::crop::{Book, BookFile};
use catchcrop::store;

/// Reading every file of the embedded book.
#[divan::bench]
fn parse() -> Vec<(String, BookFile)> {
    store::book_files()
}
/// Reading and resolving: what the program does once at the start. Must stay below 5 ms.
#[divan::bench]
fn load() -> Book {
    Book::build(store::book_files()).0
}
/// A search with a slip of the pen: what a key press in the search costs.
#[divan::bench]
fn search() -> usize {
    store::book().search("brocoli").len()
}
