//! Mistakes in files, each said with its place, what was expected and how to mend it.

use super::book;
use catchcrop::store;

/// A good crop of a grower's own file; each test spoils one thing.
pub(super) const CROP: &str = r#"// My own crops.
(
    crops: [
        (
            id: "yard-dock", name: "Yard dock", botanical: "Rumex hortensis", code: "YD",
            family: "Polygonaceae", uses: [Food], part: Leaf,
            spacing: (dense: "6 in", wide: "12 in"),
            depth: "1/4 in",
            days: (min: 50, max: 60, from: Sowing),
            clock: Heat(season: Cool),
            starts: [InPlace],
            germination: Limits(least: "5 C", best: "20 C", most: "30 C", days: 8),
            frost: (class: Hardy, foliage: "15 F", harvest: "20 F"),
            picking: (shape: Cut(cuts: 4, regrow: 21), days: 63, holds: 14),
            harvest: (low: "50 g", usual: "100 g", high: "150 g"),
            height: "12 in", habit: Rosette, light: (least: 3, full: 5), root_depth: "12 in",
            water: (kc: (0.7, 1, 0.95), stages: (0.2, 0.3, 0.35, 0.15), p: 0.3),
            feed: Medium, seed: (per_gram: 1000, life: 4, sprouts: 75),
        ),
    ],
)
"#;

fn spoiled(text: &str, from: &str, to: &str) -> String {
    assert_eq!(text.matches(from).count(), 1, "'{from}' stands once in the good file");
    text.replace(from, to)
}

fn faults(text: &str) -> String {
    let (file, faults) = store::salvage("mine.ron", text);
    assert!(file.crops.is_empty() || faults.is_empty(), "a bad crop is left out");
    faults.iter().map(|f| format!("{f}\n")).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_good_file_is_good() {
    assert_eq!(faults(CROP), "");
}

#[test]
fn ten_mistakes_in_a_crop_file() {
    let bad = [
        ("a misspelt field", spoiled(CROP, "height:", "hieght:")),
        ("a misspelt word", spoiled(CROP, "Rosette", "Rossette")),
        ("a number where a length is wanted", spoiled(CROP, "wide: \"12 in\"", "wide: 12")),
        ("a length without its unit", spoiled(CROP, "wide: \"12 in\"", "wide: \"12\"")),
        ("a number in quotes", spoiled(CROP, "min: 50", "min: \"50\"")),
        ("a number too large", spoiled(CROP, "max: 60", "max: 99999")),
        ("a missing comma", spoiled(CROP, "part: Leaf,", "part: Leaf")),
        ("a bracket never closed", spoiled(CROP, "harvest: \"20 F\"),", "harvest: \"20 F\",")),
        ("a missing field", spoiled(CROP, "max: 60, ", "")),
        ("a field given twice", spoiled(CROP, "feed: Medium,", "feed: Medium, feed: Light,")),
        ("a text without its end", spoiled(CROP, "\"Yard dock\"", "\"Yard dock")),
        ("a text without quotes", spoiled(CROP, "\"Yard dock\"", "Yarddock")),
    ];
    let said: Vec<String> = bad.iter().map(|(what, text)| format!("--- {what}\n{}", faults(text))).collect();
    insta::assert_snapshot!("mistakes_in_a_crop_file", said.join("\n"));
}

/// A small garden; each test spoils one thing.
const GARDEN: &str = r#"(
    schema: 1,
    name: "Small yard",
    settings: (measure: Us, cell: "1 ft"),
    site: (name: "New York", preset: "new-york", lat: 40.78, lon: -73.97),
    places: [
        (id: "box-1", name: "Long box", kind: Box, at: (x: "2 ft", y: "2 ft"), shape: Rect(across: "8 ft", down: "4 ft", depth: "12 in"), since: "2022-03-15"),
        (id: "box-2", name: "Square box", kind: Box, at: (x: "12 ft", y: "2 ft"), shape: Rect(across: "4 ft", down: "4 ft", depth: "12 in"), since: "2022-03-15"),
    ],
    wishes: [
        (id: 1, crop: "lettuce", amount: "12 oz", pattern: Even, from: "05-08", to: "07-05", importance: 4),
    ],
    plantings: [
        (id: 1, crop: "lettuce", name: "Lettuce", botanical: "Lactuca sativa", family: "Asteraceae", place: "box-1", block: (row: 0, col: 0, rows: 1, cols: 1), start: InPlace, plants: 9, planned: (sown: "2027-04-10", cleared: "2027-06-12"), why: Wish(1)),
    ],
)
"#;

fn said(text: &str) -> String {
    match store::read_plan("garden.ron", text, book()) {
        Ok((_, remarks)) => remarks.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"),
        Err(error) => format!("{error}\n"),
    }
}

#[test]
fn mistakes_in_a_garden() {
    assert_eq!(said(GARDEN), "");
    let bad = [
        ("a place that is not there", spoiled(GARDEN, "place: \"box-1\"", "place: \"bx-1\"")),
        ("cells outside", spoiled(GARDEN, "(row: 0, col: 0, rows: 1", "(row: 4, col: 0, rows: 1")),
        ("dates the wrong way round", spoiled(GARDEN, "cleared: \"2027-06-12\"", "cleared: \"2026-06-12\"")),
        ("no date at all", spoiled(GARDEN, "\"2027-04-10\"", "\"2027-04-31\"")),
        (
            "an unknown crop",
            spoiled(GARDEN, "(id: 1, crop: \"lettuce\", name", "(id: 1, crop: \"letuce\", name"),
        ),
        ("an id twice", spoiled(GARDEN, "id: \"box-2\"", "id: \"box-1\"")),
        ("an importance too high", spoiled(GARDEN, "importance: 4", "importance: 9")),
        ("a climate that is not there", spoiled(GARDEN, "\"new-york\"", "\"new-yorck\"")),
        ("a box without width", spoiled(GARDEN, "across: \"4 ft\"", "across: \"0 ft\"")),
        ("a wish that is not there", spoiled(GARDEN, "why: Wish(1)", "why: Wish(7)")),
        ("no schema", spoiled(GARDEN, "    schema: 1,\n", "")),
        ("no garden at all", String::from("shopping list: eggs, milk\n")),
        ("an empty file", String::from("\n")),
        ("comments by hand", spoiled(GARDEN, "    plantings: [", "    // salad first\n    plantings: [")),
        (
            "a weekday that is none",
            spoiled(GARDEN, "cell: \"1 ft\"", "cell: \"1 ft\", garden_day: \"Sonntag\""),
        ),
        (
            "a bracket of the wrong kind",
            spoiled(GARDEN, "importance: 4),\n    ],", "importance: 4),\n    ),"),
        ),
    ];
    let said: Vec<String> = bad.iter().map(|(what, text)| format!("--- {what}\n{}", said(text))).collect();
    insta::assert_snapshot!("mistakes_in_a_garden", said.join("\n"));
}

#[test]
fn a_newer_schema_is_refused_by_its_number_alone() {
    let newer = "(schema: 9, gardens: [(unheard: of!)])";
    let error = store::read_plan("garden.ron", newer, book()).unwrap_err();
    assert!(error.is_content());
    assert_eq!(
        error.to_string(),
        "garden.ron has schema 9, and this program knows schemas up to 1: open it with a newer catchcrop. The file \
         was not touched"
    );
}
