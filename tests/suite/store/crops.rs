//! The grower's own crops laid over the book.

use super::{book, mistakes::CROP};
use catchcrop::crop::CropId;
use catchcrop::store;
use std::fs;
use std::path::Path;

fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir(dir.path().join("crops")).unwrap();
    for (name, text) in files {
        fs::write(dir.path().join("crops").join(name), text).unwrap();
    }
    dir
}

#[test]
fn without_own_files_the_book_is_the_programs() {
    let shelf = store::shelf(&[Path::new("/nowhere/at/all")]);
    assert_eq!(shelf.book.as_ref(), book());
    assert!(shelf.faults.is_empty() && shelf.files.is_empty());
}

#[test]
fn own_crops_are_added_and_single_fields_overridden() {
    let dir = folder(&[
        ("mine.ron", CROP),
        ("tweaks.ron", "(crops: [(id: \"carrot\", spacing: (dense: \"2 in\", wide: \"4 in\"))])"),
        ("notes.txt", "not a crop file"),
    ]);
    let shelf = store::shelf(&[dir.path()]);
    assert_eq!(shelf.faults, []);
    assert_eq!(shelf.files.len(), 2);
    assert_eq!(shelf.book.get(&CropId::new("yard-dock")).unwrap().name, "Yard dock");
    let (theirs, mine) =
        (book().get(&CropId::new("carrot")).unwrap(), shelf.book.get(&CropId::new("carrot")).unwrap());
    assert_eq!(mine.spacing.wide.to_string(), "4 in");
    assert_eq!((&mine.days, &mine.family), (&theirs.days, &theirs.family), "the rest is the book's");
}

#[test]
fn the_nearer_folder_wins() {
    let tweak =
        |wide: &str| format!("(crops: [(id: \"carrot\", spacing: (dense: \"2 in\", wide: \"{wide}\"))])");
    let (config, garden) = (folder(&[("a.ron", &tweak("5 in"))]), folder(&[("a.ron", &tweak("6 in"))]));
    let shelf = store::shelf(&[config.path(), garden.path()]);
    assert_eq!(shelf.book.get(&CropId::new("carrot")).unwrap().spacing.wide.to_string(), "6 in");
}

#[test]
fn a_bad_crop_is_left_out_and_the_others_stay() {
    let two = CROP.replace(
        "    ],\n)",
        "        (id: \"red-dock\", of: \"yard-dock\", name: \"Red dock\", hieght: \"10 in\"),\n        (id: \"wood-dock\", \
         of: \"yard-dok\"),\n        (id: \"big-dock\", of: \"yard-dock\", name: \"Big dock\", botanical: \"Rumex magnus\", code: \"BG\"),\n        (id: \"yard-dock\", \
         name: \"Again\"),\n        (name: \"Nobody\", of: \"yard-dock\"),\n        (id: \"tall-dock\", of: \"yard-dock\", name: \"Tall dock\", code: \"TD\", spacing: (dense: \"6 in\", wide: \"0 in\")),\n    ],\n)",
    );
    let dir =
        folder(&[("mine.ron", &two), ("broken.ron", "(crops: [(id: \"x\""), ("bytes.ron", "caf\u{e9}")]);
    fs::write(dir.path().join("crops/bytes.ron"), [0xff, 0xfe, 0x00]).unwrap();
    let shelf = store::shelf(&[dir.path()]);
    for (id, there) in [
        ("yard-dock", true),
        ("big-dock", true),
        ("red-dock", false),
        ("wood-dock", false),
        ("tall-dock", false),
    ] {
        assert_eq!(shelf.book.get(&CropId::new(id)).is_some(), there, "{id}");
    }
    assert_eq!(
        shelf.book.get(&CropId::new("yard-dock")).unwrap().name,
        "Yard dock",
        "the first of two is used"
    );
    let root = dir.path().display().to_string();
    let said: Vec<String> = shelf.faults.iter().map(|f| f.to_string().replace(&root, "GARDEN")).collect();
    insta::assert_snapshot!("crops_left_out", said.join("\n\n"));
}
