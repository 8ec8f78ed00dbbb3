//! A variety is put into the grower's own file, and every other byte of it stays.

use catchcrop::crop::{CountedFrom, CropId, Maturity, Spacing};
use catchcrop::store::{self, PacketEntry};
use std::fs;

fn entry(id: &str, name: &str) -> PacketEntry {
    PacketEntry {
        id: CropId::new(id),
        of: CropId::new("tomato"),
        name: String::from(name),
        days: Some(Maturity { min: 58, max: 64, from: CountedFrom::SettingOut }),
        spacing: Some(Spacing { dense: "15 in".parse().unwrap(), wide: "20 in".parse().unwrap() }),
        depth: None,
        height: Some("4 ft".parse().unwrap()),
    }
}

#[test]
fn varieties_are_added_one_after_the_other() {
    let dir = tempfile::tempdir().unwrap();
    let plan = dir.path().join("garden.ron");
    let (shelf, path) =
        store::add_variety(&plan, &[dir.path()], &entry("tomato-quince", "Tomato, \"Quince\" red")).unwrap();
    let crop = shelf.book.get(&CropId::new("tomato-quince")).unwrap();
    assert_eq!(
        (crop.name.as_str(), crop.days.min, crop.height.to_string().as_str()),
        ("Tomato, \"Quince\" red", 58, "4 ft")
    );
    assert_eq!(crop.family, "Solanaceae");
    let first = fs::read_to_string(&path).unwrap();
    store::add_variety(&plan, &[dir.path()], &entry("tomato-dusk", "Tomato, Dusk")).unwrap();
    let second = fs::read_to_string(&path).unwrap();
    // The first entry and everything round it is as it was.
    assert!(second.starts_with(first.trim_end_matches("    ],\n)\n")), "{second}");
    let read = store::shelf(&[dir.path()]);
    assert_eq!(read.faults, []);
    for id in ["tomato-quince", "tomato-dusk"] {
        assert_eq!(read.book.get(&CropId::new(id)).unwrap().of, Some(CropId::new("tomato")));
    }
}

#[test]
fn what_was_written_by_hand_stays() {
    let dir = tempfile::tempdir().unwrap();
    let plan = dir.path().join("garden.ron");
    fs::create_dir(dir.path().join("crops")).unwrap();
    let hand = "// Mine, and only mine.\n(crops: [(id: \"carrot\", spacing: (dense: \"2 in\", wide: \"4 in\")) // a thought, with a comma\n])";
    fs::write(dir.path().join("crops/own.ron"), hand).unwrap();
    store::add_variety(&plan, &[dir.path()], &entry("tomato-dusk", "Tomato, Dusk")).unwrap();
    let text = fs::read_to_string(dir.path().join("crops/own.ron")).unwrap();
    assert!(text.starts_with("// Mine, and only mine.\n(crops: [(id: \"carrot\", spacing: (dense: \"2 in\", wide: \"4 in\")), // a thought, with a comma\n"), "{text}");
    let read = store::shelf(&[dir.path()]);
    assert_eq!(read.faults, []);
    assert_eq!(read.book.get(&CropId::new("carrot")).unwrap().spacing.wide.to_string(), "4 in");
    assert!(read.book.get(&CropId::new("tomato-dusk")).is_some());
}

#[test]
fn what_cant_be_is_refused_and_nothing_is_written() {
    let dir = tempfile::tempdir().unwrap();
    let plan = dir.path().join("garden.ron");
    let impossible = PacketEntry { of: CropId::new("tomatto"), ..entry("tomato-dusk", "Tomato, Dusk") };
    let error = store::add_variety(&plan, &[dir.path()], &impossible).unwrap_err().to_string();
    assert!(error.contains("tomatto"), "{error}");
    assert!(!dir.path().join("crops").exists());
    fs::create_dir(dir.path().join("crops")).unwrap();
    fs::write(dir.path().join("crops/own.ron"), "(crops: [(id: \"x\"").unwrap();
    let error = store::add_variety(&plan, &[dir.path()], &entry("tomato-dusk", "Tomato, Dusk"))
        .unwrap_err()
        .to_string();
    assert!(error.contains("no list of crops"), "{error}");
    assert_eq!(fs::read_to_string(dir.path().join("crops/own.ron")).unwrap(), "(crops: [(id: \"x\"");
}
