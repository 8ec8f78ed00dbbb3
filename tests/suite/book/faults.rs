//! What the book check finds.

use catchcrop::crop::{Book, BookFile, check_book};
use catchcrop::store;
use std::sync::LazyLock;

/// The program's files, read.
static FILES: LazyLock<Vec<(String, BookFile)>> = LazyLock::new(store::book_files);

/// A book of the program's files with one more laid over, and what is said of it.
fn with(text: &str) -> (Book, Vec<String>) {
    let mut files = FILES.clone();
    let mine = store::text::read("mine.ron", text).unwrap_or_else(|e| panic!("{e}"));
    files.push((String::from("mine.ron"), mine));
    let (book, unusable) = Book::build(files);
    let mut said: Vec<String> =
        unusable.iter().map(|f| format!("{}: {}: {}", f.file, f.id, f.words)).collect();
    said.extend(check_book(&book).iter().map(ToString::to_string));
    (book, said)
}

/// The fields of a variety of carrot, spoiled one by one; what is said names the field.
const SPOILED: [(&str, &str); 41] = [
    ("id", "id: \"Red Carrot\", of: \"carrot\", name: \"Red carrot\""),
    ("name", "name: \"Carrot\""),
    ("also", "also: [\"courgette\"]"),
    ("code", "code: \"carr\""),
    ("code", "code: \"TO\""),
    ("botanical", "botanical: \"carrot\""),
    ("family", "family: \"Apiacea\""),
    ("family", "family: \"Rosaceae\""),
    ("uses", "uses: []"),
    ("part", "part: Nothing"),
    ("spacing", "spacing: (dense: \"4 in\", wide: \"2 in\")"),
    ("spacing", "spacing: (dense: \"2 ft\", wide: \"30 ft\")"),
    ("row", "row: \"1 in\""),
    ("depth", "depth: \"14 in\""),
    ("days", "days: (min: 90, max: 60, from: Sowing)"),
    ("days", "days: (min: 20, max: 200, from: Sowing)"),
    ("days", "days: (min: 60, max: 70, from: SettingOut)"),
    ("clock", "clock: Heat(season: Cool, base: \"60 F\", upper: \"62 F\")"),
    ("clock", "clock: Overwintered(plant: (3, -3), ripe: HeatFromSpring(40))"),
    ("clock", "clock: Perennial(by_year: [0.1, 0.2], wakes: 20, renew: 3)"),
    ("starts", "starts: []"),
    ("starts", "starts: [Raised(weeks: (8, 4), per_station: 1, pot_on: false, harden: 7)]"),
    ("germination", "germination: NotSown"),
    ("germination", "germination: Table([(20, 7), (10, 17)])"),
    ("frost", "frost: (class: Tender, foliage: \"10 F\", harvest: \"20 F\")"),
    ("heat", "heat: (set_night_most: \"95 F\", set_day_most: \"75 F\")"),
    ("daylength", "daylength: BoltsAbove(30)"),
    ("picking", "picking: (shape: Cut(cuts: 4, regrow: 20), days: 10, holds: 0)"),
    ("every", "every: (30, 10)"),
    ("harvest", "harvest: (low: \"60 g\", usual: \"1 bunch\", high: \"90 g\")"),
    ("harvest", "harvest: (low: \"0.5 kg\", usual: \"2 kg\", high: \"3 kg\")"),
    ("each", "harvest: (low: \"1 bunch\", usual: \"1 bunch\", high: \"1 bunch\")"),
    ("keeps", "keeps: (days: (90, 30), how: \"cool\")"),
    ("light", "light: (least: 8, full: 4)"),
    ("pot", "pot: (volume: \"1 gal\", depth: \"4 in\", plants: 3)"),
    ("water.stages", "water: (kc: (0.7, 1.05, 0.95), stages: (0.2, 0.2, 0.2, 0.2), p: 0.35)"),
    ("water.kc", "water: (kc: (7, 1.05, 0.95), stages: (0.2, 0.3, 0.3, 0.2), p: 0.35)"),
    ("mates", "mates: [(main: \"tomatoe\", when: Always)]"),
    ("neighbours", "neighbours: [(with: \"onions\", helps: true, grade: B, why: \"\", src: \"own\")]"),
    ("differs", "differs: [(figure: \"dayz\", src: \"own\", says: \"90 days\")]"),
    ("src", "src: {\"dais\": [\"own\"]}"),
];

#[test]
fn each_rule_names_the_field_it_finds_wrong() {
    let mut report = Vec::new();
    for (figure, field) in SPOILED {
        let id = if field.starts_with("id:") { "" } else { "id: \"red-carrot\", of: \"carrot\", " };
        let name = if field.contains("name:") { "" } else { "name: \"Red carrot\", " };
        let (_, said) = with(&format!("(sources: [\"own\"], crops: [({id}{name}{field})])"));
        let right = |s: &&String| s.starts_with("mine.ron: ") && s.contains(&format!(": {figure}: "));
        let found: Vec<&String> = said.iter().filter(right).collect();
        assert!(!found.is_empty(), "{field}: {said:#?}");
        report.push(format!("{field}\n    {}", found[0].trim_start_matches("mine.ron: ")));
    }
    insta::assert_snapshot!("each_rule", report.join("\n"));
}

#[test]
fn a_good_variety_raises_nothing() {
    let (book, said) = with(
        "(sources: [\"own\"], crops: [(id: \"red-carrot\", of: \"carrot\", name: \"Red carrot\", days: (min: 65, max: 75, \
         from: Sowing))])",
    );
    assert!(said.is_empty(), "{said:?}");
    let crop = book.named("red carrot").unwrap();
    assert_eq!(crop.sources("days"), ["own"]);
    assert_eq!(crop.sources("spacing"), book.named("carrot").unwrap().sources("spacing"));
    assert!(
        crop.differs.iter().all(|d| d.figure != "days"),
        "the disagreement about other days is not this one's"
    );
}

#[test]
fn one_figure_of_a_crop_can_be_ones_own() {
    let (book, said) =
        with("(sources: [\"own\"], crops: [(id: \"carrot\", spacing: (dense: \"2 in\", wide: \"4 in\"))])");
    assert!(said.is_empty(), "{said:?}");
    let carrot = book.named("carrot").unwrap();
    assert_eq!(carrot.spacing.wide.to_string(), "4 in");
    assert_eq!(carrot.sources("spacing"), ["own"]);
    assert_eq!(carrot.sources("germination"), ["HM54"]);
    assert_eq!(book.file(&carrot.id), "mine.ron");
    let early = book.named("carrot-early").unwrap();
    assert_eq!(early.base(), &carrot.id);
}

#[test]
fn families_and_troubles_are_checked_too() {
    let (_, said) = with(
        "(sources: [\"own\"], family: (name: \"Musaceae\", common: \"\", rotation: (least: 3, advised: 1, weight: Mind), \
         once_a_season: false, why: \"\", src: [], hue: 9, hatch: 9), troubles: [(id: \"wilt\", name: \"Clubroot\", agent: \"\", \
         kind: SoilDisease, hosts: [\"tomatto\"], also_on: \"\", advised: 0, least: 2, survives: \"\", remedy: \"\", \
         src: [\"nobody\"])])",
    );
    for words in [
        "Musaceae: rotation",
        "Musaceae: why",
        "Musaceae: hue",
        "Musaceae: name: no crop",
        "wilt: hosts: 'tomatto' is neither a crop nor a family of the book: did you mean 'tomato'?",
        "wilt: least",
        "wilt: advised",
        "wilt: remedy",
        "wilt: src: the source 'nobody' is unknown",
        "name: ",
    ] {
        assert!(said.iter().any(|s| s.contains(words)), "{words}: {said:#?}");
    }
}

/// Varieties of varieties are of the crop at the root; circles and orphans are left out and said.
#[test]
fn parents_are_followed_to_the_root() {
    let (book, said) = with(
        "(sources: [\"own\"], crops: [(id: \"a\", of: \"b\"), (id: \"b\", of: \"a\"), (id: \"orphan\", of: \"nothing\"), \
         (id: \"stub\", name: \"Stub\"), (id: \"tiny\", of: \"carrot-early\", name: \"Carrot, tiny\")])",
    );
    assert_eq!(book.named("tiny").unwrap().base().as_str(), "carrot");
    for (id, words) in [
        ("a", "circle"),
        ("b", "circle"),
        ("orphan", "'nothing' is not in the book"),
        ("stub", "missing: botanical"),
    ] {
        assert!(
            said.iter().any(|s| s.starts_with(&format!("mine.ron: {id}: ")) && s.contains(words)),
            "{id}: {said:#?}"
        );
    }
    assert_eq!(said.len(), 4, "{said:#?}");
}

/// A grower's file in which ten crops are wrong, each in its own way: each is left out and said with its place, and
/// the good one among them works.
const TEN: &str = r#"// My crops.
(
    sources: ["own"],
    crops: [
        (id: "good-carrot", of: "carrot", name: "Carrot, ours", days: (min: 65, max: 75, from: Sowing)),
        (id: "one", of: "carrot", name: "One", spacing: (dense: "4 in", wide: "2 in")),
        (id: "two", of: "carrot", name: "Two", days: (min: 90, max: 60, from: Sowing)),
        (id: "three", of: "carot", name: "Three"),
        (id: "four", of: "carrot", name: "Four", hieght: "10 in"),
        (id: "five", of: "carrot", name: "Five", depth: "1/4"),
        (id: "six", of: "carrot", name: "Six", water: (kc: (0.7, 1.05, 0.95), stages: (0.2, 0.2, 0.2, 0.2), p: 0.35)),
        (id: "seven", of: "carrot", name: "Seven", frost: (class: Tendr, foliage: "31 F", harvest: "31 F")),
        (id: "eight", of: "carrot", name: "Eight", mates: [(main: "tomatoe", when: Always)]),
        (id: "nine", of: "carrot", name: "Nine", pot: (volume: "1 gal", depth: "4 in", plants: 3)),
        (id: "ten", name: "Ten", botanical: "Daucus carota", family: "Apiaceae", code: "XX"),
    ],
)
"#;

#[test]
fn ten_mistakes_in_a_growers_file_are_said_one_by_one() {
    let dir = tempfile::tempdir().unwrap();
    std::fs::create_dir(dir.path().join("crops")).unwrap();
    std::fs::write(dir.path().join("crops/mine.ron"), TEN).unwrap();
    let shelf = store::shelf(&[dir.path()]);
    assert_eq!(shelf.book.named("Carrot, ours").unwrap().days.min, 65);
    for id in ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"] {
        assert!(shelf.book.crops().all(|c| c.id.as_str() != id), "{id} is left out");
    }
    assert_eq!(shelf.book.crops().count(), store::book().crops().count() + 1);
    let root = dir.path().display().to_string();
    let said: Vec<String> = shelf.faults.iter().map(|f| f.to_string().replace(&root, "GARDEN")).collect();
    assert_eq!(said.len(), 10, "{}", said.join("\n\n"));
    insta::assert_snapshot!("ten_mistakes", said.join("\n\n"));
}
