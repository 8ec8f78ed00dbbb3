//! The crop book that comes with the program, embedded file by file.

use super::text;
use crate::crop::{Book, BookFile};
use std::sync::LazyLock;

macro_rules! file {
    ($name:literal) => {
        ($name, include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/crops/", $name)))
    };
}

/// Name and text of each file of `crops/`.
pub const FILES: &[(&str, &str)] = &[
    file!("amaranthaceae.ron"),
    file!("amaryllidaceae.ron"),
    file!("apiaceae.ron"),
    file!("asteraceae.ron"),
    file!("boraginaceae.ron"),
    file!("brassicaceae.ron"),
    file!("caprifoliaceae.ron"),
    file!("cucurbitaceae.ron"),
    file!("fabaceae.ron"),
    file!("lamiaceae.ron"),
    file!("plantaginaceae.ron"),
    file!("poaceae.ron"),
    file!("polygonaceae.ron"),
    file!("rosaceae.ron"),
    file!("solanaceae.ron"),
    file!("tropaeolaceae.ron"),
    file!("troubles.ron"),
];

static BOOK: LazyLock<Book> = LazyLock::new(|| Book::build(files()).0);

/// The crop book that comes with the program. Its files are checked by tests, so that none is left out here.
pub fn book() -> &'static Book {
    &BOOK
}

/// Its files, read.
pub(super) fn files() -> Vec<(String, BookFile)> {
    let read = |(name, content): &(&str, &str)| {
        ((*name).to_owned(), text::read::<BookFile>(name, content).unwrap_or_default())
    };
    FILES.iter().map(read).collect()
}
