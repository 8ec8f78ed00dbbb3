//! The crop book that comes with the program, embedded file by file.

use super::text;
use crate::crop::{Book, BookFile};
use std::sync::LazyLock;

/// Name and text of each file of `crops/`.
pub const FILES: &[(&str, &str)] = &[];

static BOOK: LazyLock<Book> = LazyLock::new(|| {
    let files = FILES
        .iter()
        .map(|(name, content)| {
            let file: BookFile = text::read(content).unwrap_or_default();
            ((*name).to_owned(), file)
        })
        .collect();
    Book::build(files).0
});

/// The crop book that comes with the program. Its files are checked by tests, so that none is left out here.
pub fn book() -> &'static Book {
    &BOOK
}
