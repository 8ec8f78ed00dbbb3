//! The crop book: its files, its figures against published tables, search and pages.

mod faults;
mod fits;
mod names;
mod pages;
mod search;
mod sites;
mod tables;

use catchcrop::crop::{Book, BookFile, Crop, CropId, Use, check_book, references};
use catchcrop::garden::plants_in;
use catchcrop::store;
use catchcrop::units::{Length, LengthUnit};
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

/// Kinds of crops a small garden wants, each counted without its varieties.
#[test]
fn vegetables_herbs_flowers_and_covers_are_all_there() {
    let crops: Vec<_> = store::book().crops().filter(|c| c.of.is_none()).collect();
    let count = |is: &dyn Fn(&Crop) -> bool| crops.iter().filter(|c| is(c)).count();
    let food = count(&|c| c.uses.first() == Some(&Use::Food));
    let herbs = count(&|c| c.is_for(Use::Herb));
    let annual = count(&|c| c.is_for(Use::CutFlower) && !c.is_perennial());
    let covers = count(&|c| c.uses.first() == Some(&Use::Cover));
    let stays = count(&Crop::is_perennial);
    println!(
        "{food} vegetables and fruits, {herbs} herbs, {annual} annual cut flowers, {covers} cover crops; {stays} stay for years"
    );
    assert!(food >= 60 && herbs >= 20 && annual >= 25 && covers >= 8, "{food} {herbs} {annual} {covers}");
    for id in ["strawberry", "rhubarb", "asparagus", "mint", "chives"] {
        let crop = store::book().get(&CropId::new(id)).unwrap();
        assert!(crop.is_perennial(), "{id}");
    }
    // A packet of a type finds its days and habit: early and late, bush and climbing, by daylength, leaf by leaf.
    for id in [
        "carrot-early",
        "cabbage-early",
        "cabbage-storage",
        "corn-late",
        "potato-early",
        "bean",
        "bean-pole",
        "pea-early",
        "tomato",
        "tomato-bush",
        "onion",
        "onion-intermediate",
        "onion-short-day",
        "spinach-baby",
        "lettuce-baby",
        "kale-baby",
        "sunflower",
        "sunflower-branching",
    ] {
        assert!(store::book().get(&CropId::new(id)).is_some(), "{id}");
    }
}

/// Plants in a cell are counted from the distance, never written down: none stands closer than its distance allows.
#[test]
fn plants_in_a_cell_have_their_distance() {
    let foot = Length::new(1.0, LengthUnit::Ft);
    for crop in store::book().crops() {
        let apart = crop.spacing.wide;
        let plants = f64::from(plants_in(apart, 1, 1, foot));
        // A cell of its own grid: a side of 12 in holds whole steps of the distance, 2 % allowed.
        let steps = (foot.m() / apart.m() * 1.02).floor();
        assert!((plants - steps * steps).abs() < 1e-9, "{}: {plants} plants {apart} apart", crop.id);
        let all_round = f64::from(plants_in(apart, 4, 4, foot)) * apart.m().powi(2);
        assert!(all_round <= 16.0 * foot.m().powi(2) * 1.16, "{}: {all_round}", crop.id);
    }
}

#[test]
fn the_book_holds_no_fault() {
    let faults = check_book(store::book());
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", said.join("\n"));
}
