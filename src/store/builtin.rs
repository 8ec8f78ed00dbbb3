//! The crop book that comes with the program, embedded file by file.

use super::text;
use crate::crop::{Book, BookFile, references};
use std::sync::LazyLock;

macro_rules! file {
    ($name:literal) => {
        ($name, include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/crops/", $name)))
    };
}

/// Name and text of each file of `crops/`.
pub const FILES: &[(&str, &str)] = &[
    file!("aizoaceae.ron"),
    file!("amaranthaceae.ron"),
    file!("amaryllidaceae.ron"),
    file!("apiaceae.ron"),
    file!("asparagaceae.ron"),
    file!("asteraceae.ron"),
    file!("basellaceae.ron"),
    file!("boraginaceae.ron"),
    file!("brassicaceae.ron"),
    file!("caprifoliaceae.ron"),
    file!("caryophyllaceae.ron"),
    file!("convolvulaceae.ron"),
    file!("cucurbitaceae.ron"),
    file!("fabaceae.ron"),
    file!("gentianaceae.ron"),
    file!("iridaceae.ron"),
    file!("lamiaceae.ron"),
    file!("liliaceae.ron"),
    file!("linaceae.ron"),
    file!("malvaceae.ron"),
    file!("montiaceae.ron"),
    file!("onagraceae.ron"),
    file!("papaveraceae.ron"),
    file!("plantaginaceae.ron"),
    file!("plumbaginaceae.ron"),
    file!("poaceae.ron"),
    file!("polygonaceae.ron"),
    file!("portulacaceae.ron"),
    file!("ranunculaceae.ron"),
    file!("rosaceae.ron"),
    file!("solanaceae.ron"),
    file!("tropaeolaceae.ron"),
    file!("troubles.ron"),
    file!("verbenaceae.ron"),
    file!("violaceae.ron"),
];

static BOOK: LazyLock<Book> = LazyLock::new(|| Book::build(book_files()).0);

/// The crop book that comes with the program. Its files are checked by tests, so that none is left out here.
pub fn book() -> &'static Book {
    &BOOK
}

/// What the source codes stand for.
pub const SOURCES: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/crops/SOURCES.md"));

/// Its files, read: first the list of sources, then each file of crops.
pub fn book_files() -> Vec<(String, BookFile)> {
    let sources = BookFile { references: references(SOURCES), ..BookFile::default() };
    // Without the trail to the place of an error: a test holds that there is none.
    let read = |(name, content): &(&str, &str)| {
        ((*name).to_owned(), text::options().from_str(content).unwrap_or_default())
    };
    std::iter::once((String::from("SOURCES.md"), sources)).chain(FILES.iter().map(read)).collect()
}
