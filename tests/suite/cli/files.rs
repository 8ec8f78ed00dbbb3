//! Commands that write: new.

use super::Home;
use catchcrop::store;

#[test]
fn a_new_garden_from_flags() {
    let home = Home::new();
    let made = home.run(&[
        "new",
        "back-yard.ron",
        "--site",
        "new-york",
        "--last-frost",
        "04-20",
        "--box",
        "4x4ft",
        "--box",
        "8x4x1ft",
        "--bed",
        "120x60cm",
        "--flower-bed",
        "10x2ft",
        "--pot",
        "10gal",
        "--pot",
        "38l",
        "--hours",
        "5",
        "--on",
        "2027-03-01",
    ]);
    assert_eq!(made.code, 0, "{}", made.said);
    assert!(
        made.out.starts_with("Back yard is in back-yard.ron: 4 beds and 2 pots at New York"),
        "{}",
        made.out
    );
    let plan = store::look(&home.path("back-yard.ron"), store::book()).unwrap().plan;
    let ids: Vec<&str> = plan.places.iter().map(|p| p.id.0.as_str()).collect();
    assert_eq!(ids, ["bed-1", "box-1", "box-2", "flowers-1", "pot-1", "pot-2"]);
    assert_eq!(plan.settings.hours_a_week, Some(5.0));
    assert_eq!(plan.site.last_frost.unwrap().to_string(), "04-20");
    // Nothing lies on anything else.
    for (n, a) in plan.places.iter().enumerate() {
        for b in &plan.places[n + 1..] {
            let apart = |x: f64, w: f64, y: f64, v: f64| x + w <= y || y + v <= x;
            let (wa, da) = a.size();
            let (wb, db) = b.size();
            assert!(
                apart(a.at.x.m(), wa.m(), b.at.x.m(), wb.m())
                    || apart(a.at.y.m(), da.m(), b.at.y.m(), db.m()),
                "{} lies on {}",
                a.name,
                b.name
            );
        }
    }
    let again = home.run(&["new", "back-yard.ron", "--site", "london"]);
    assert_eq!(again.code, 3);
    assert!(again.said.contains("is there already and was not overwritten"), "{}", again.said);
    assert!(home.run(&["check", "back-yard.ron"]).code < 2);
}

#[test]
fn a_new_garden_needs_a_place_and_sizes_that_are_sizes() {
    let home = Home::new();
    for (args, code, words) in [
        (&["new", "a.ron"][..], 2, "no place given"),
        (&["new", "a.ron", "--site", "london", "--box", "4x4"], 2, "'4x4' is not a size"),
        (&["new", "a.ron", "--site", "london", "--box", "0x4ft"], 2, "'0x4ft' is not a size"),
        (&["new", "a.ron", "--site", "london", "--box", "400x4m"], 2, "between 2 cm and 100 m"),
        (&["new", "a.ron", "--site", "london", "--pot", "big"], 2, "is not a volume"),
        (&["new", "a.ron", "--site", "london", "--hours", "900"], 2, "between 0.1 and 168"),
        (&["new", "no/such/folder/a.ron", "--site", "london"], 3, "there is no folder"),
    ] {
        let ran = home.run(args);
        assert_eq!(ran.code, code, "{args:?}: {}", ran.said);
        assert!(ran.said.contains(words), "{args:?}: {}", ran.said);
    }
    assert_eq!(std::fs::read_dir(home.0.path()).unwrap().count(), 0, "nothing was written, no lock is left");
}

#[test]
fn completions_are_written() {
    let home = Home::new();
    let text = home.run(&["completions", "bash"]).done();
    assert!(text.contains("catchcrop"), "{text}");
}

/// A garden with two tomatoes and a row of carrots.
const PLANTED: &str = r#"(
    schema: 1,
    name: "Small yard",
    settings: (measure: Us, cell: "1 ft"),
    site: (name: "New York", preset: "new-york", lat: 40.78, lon: -73.97),
    places: [
        (id: "box-1", name: "Long box", kind: Box, at: (x: "2 ft", y: "2 ft"), shape: Rect(across: "4 ft", down: "4 ft", depth: "12 in"), since: "2022-03-15", supports: [(kind: Stakes, cells: (row: 0, col: 0, rows: 4, cols: 4), height: "5 ft", from: "2022-03-15")]),
    ],
    plantings: [
        (id: 1, crop: "tomato", name: "Tomato", botanical: "Solanum lycopersicum", family: "Solanaceae", place: "box-1", block: (row: 0, col: 0, rows: 2, cols: 2), start: Bought, plants: 1, planned: (set_out: "2027-05-15", first_pick: "2027-07-25", last_pick: "2027-09-20", cleared: "2027-10-01"), why: Hand),
        (id: 2, crop: "tomato", name: "Tomato", botanical: "Solanum lycopersicum", family: "Solanaceae", place: "box-1", block: (row: 0, col: 2, rows: 2, cols: 2), start: Bought, plants: 1, planned: (set_out: "2027-05-15", first_pick: "2027-07-25", last_pick: "2027-09-20", cleared: "2027-10-01"), why: Hand),
        (id: 3, crop: "carrot", name: "Carrot", botanical: "Daucus carota (Sativus)", family: "Apiaceae", place: "box-1", block: (row: 2, col: 0, rows: 1, cols: 4), start: InPlace, plants: 64, planned: (sown: "2027-04-10", first_pick: "2027-07-05", last_pick: "2027-08-01", cleared: "2027-08-01"), why: Hand),
    ],
)
"#;

fn plan(home: &Home) -> catchcrop::plan::Plan {
    store::look(&home.path("yard.ron"), store::book()).unwrap().plan
}

#[test]
fn the_diary_is_written_from_the_shell() {
    let home = Home::new();
    home.file("yard.ron", PLANTED);
    let note = |args: &[&str]| home.run(&[&["note", "yard.ron"][..], args].concat());
    let said =
        note(&["done", "sown", "--crop", "carrot", "--on", "2027-04-12", "--words", "moist soil"]).done();
    assert!(said.starts_with("1: 12 Apr 2027: Carrot in Long box A3-D3 sown - moist soil"), "{said}");
    assert_eq!(plan(&home).plantings[2].real.sown.unwrap().to_string(), "2027-04-12");
    let two = note(&["picked", "2 lb", "--crop", "tomato", "--on", "2027-08-01"]);
    assert_eq!(two.code, 2);
    assert!(two.said.contains("--planting 1: Tomato in box-1 A1-B2"), "{}", two.said);
    note(&["picked", "2 lb", "--planting", "2", "--on", "2027-08-01"]).done();
    note(&["picked", "1 lb", "--planting", "2", "--on", "2027-07-29"]).done();
    let failed = note(&["failed", "disease", "--planting", "1", "--on", "2027-08-10"]).done();
    assert!(failed.contains("Its cells are free. What fits there from 10 Aug 2027"), "{failed}");
    assert!(failed.contains("next yard.ron box-1 A1 --on 2027-08-10"), "{failed}");
    note(&["frost", "-1 C", "--on", "2027-10-20"]).done();
    note(&["soil", "48 F", "--place", "long box", "--on", "2027-04-01"]).done();
    note(&["trouble", "clubroot", "--place", "box-1", "--on", "2027-06-01"]).done();
    note(&["remark", "--words", "rain at last", "--on", "2027-06-02"]).done();
    // A correction takes back what it corrects.
    note(&["done", "sown", "--crop", "carrot", "--on", "2027-04-14", "--corrects", "1"]).done();
    let plan = plan(&home);
    assert_eq!(plan.diary.len(), 9);
    assert_eq!(plan.plantings[2].real.sown.unwrap().to_string(), "2027-04-14");
    assert_eq!(plan.plantings[1].real.first_pick.unwrap().to_string(), "2027-07-29");
    assert_eq!(plan.plantings[0].failed.unwrap().to_string(), "2027-08-10");
    assert_eq!(plan.plantings[0].ends().unwrap().to_string(), "2027-08-10", "its cells are free");
    assert!(home.path("yard.ron.before").exists());
}

#[test]
fn wrong_notes_change_nothing() {
    let home = Home::new();
    home.file("yard.ron", PLANTED);
    let before = std::fs::read_to_string(home.path("yard.ron")).unwrap();
    for (args, words) in [
        (&["done", "sowed", "--crop", "carrot"][..], "possible values"),
        (&["done", "sown", "--crop", "carot", "--on", "2027-04-12"], "did you mean 'carrot'"),
        (&["done", "sown", "--crop", "leek", "--on", "2027-04-12"], "no such planting about 12 Apr"),
        (&["done", "sown", "--crop", "carrot", "--on", "2031-04-12"], "no such planting"),
        (&["picked", "lots", "--planting", "1"], "is not a weight or count"),
        (&["trouble", "clubrot", "--place", "box-1"], "did you mean 'clubroot'?"),
        (&["remark", "--place", "bx-1"], "did you mean 'box-1'?"),
        (&["remark", "--corrects", "7"], "no diary entry 7"),
        (&["failed", "frost", "--planting", "9"], "no planting 9"),
    ] {
        let ran = home.run(&[&["note", "yard.ron"][..], args].concat());
        assert_eq!(ran.code, 2, "{args:?}: {}", ran.said);
        assert!(ran.said.contains(words), "{args:?}: {}", ran.said);
    }
    assert_eq!(std::fs::read_to_string(home.path("yard.ron")).unwrap(), before);
    assert_eq!(std::fs::read_dir(home.0.path()).unwrap().count(), 1);
}

#[test]
fn the_season_as_text_and_json() {
    let home = Home::new();
    home.file("yard.ron", PLANTED);
    let text = home.run(&["weeks", "yard.ron", "--on", "2027-05-01"]).done();
    assert!(text.contains("Tomato") && text.contains("Carrot") && text.contains("Long box"), "{text}");
    let all = home.run(&["weeks", "yard.ron", "--season", "2027", "--json"]).json();
    assert_eq!(all.as_array().unwrap().len(), 3);
    assert_eq!((&all[0]["crop"], &all[0]["cells"]), (&"carrot".into(), &"A3-D3".into()));
    assert_eq!(all[0]["dates"]["sown"], "2027-04-10");
    let none = home.run(&["weeks", "yard.ron", "--season", "2025", "--json"]).json();
    assert_eq!(none.as_array().unwrap().len(), 0);
}

#[test]
fn sheets_are_printed_and_never_over_a_file() {
    let home = Home::new();
    home.file("yard.ron", PLANTED);
    let print = |args: &[&str]| home.run(&[&["print", "yard.ron", "--on", "2027-06-10"][..], args].concat());
    let said = print(&["--to", "season.pdf"]).done();
    assert_eq!(said, "season.pdf\n");
    let pdf = std::fs::read(home.path("season.pdf")).unwrap();
    assert!(pdf.starts_with(b"%PDF-"), "a PDF");
    let again = print(&["--to", "season.pdf"]);
    assert_eq!(again.code, 3);
    assert!(again.said.contains("print over it with --force"), "{}", again.said);
    print(&["--to", "season.pdf", "--force"]).done();
    assert_eq!(std::fs::read(home.path("season.pdf")).unwrap(), pdf, "the same plan and day, the same bytes");
    print(&["--to", "season.pdf", "--force", "--paper", "a4"]).done();
    assert_ne!(std::fs::read(home.path("season.pdf")).unwrap(), pdf);
    for to in ["weeks.svg", "weeks.png", "weeks.csv", "weeks.md", "weeks.txt"] {
        let files = print(&["--to", to, "--what", "weeks"]).done();
        for file in files.lines() {
            assert!(std::fs::metadata(home.path(file)).unwrap().len() > 100, "{file}");
        }
    }
    for (way, size) in
        [("portrait", "width=\"612\" height=\"792\""), ("landscape", "width=\"792\" height=\"612\"")]
    {
        print(&["--to", "lies.svg", "--what", "needs", "--orientation", way, "--paper", "letter", "--force"])
            .done();
        let svg = std::fs::read_to_string(home.path("lies.svg")).unwrap();
        assert!(svg.contains(size), "{way}: {}", svg.lines().next().unwrap());
    }
    let nowhere = print(&["--to", "attic/x.pdf"]);
    assert_eq!(nowhere.code, 3);
    assert!(
        nowhere.said.contains("there is no folder attic: make it, or choose another"),
        "{}",
        nowhere.said
    );
    let jobs = print(&["--to", "jobs.md", "--what", "jobs"]).done();
    let jobs = std::fs::read_to_string(home.path(jobs.trim())).unwrap();
    assert!(jobs.contains("Tie up tomato") && jobs.contains("Pick"), "{jobs}");
    print(&["--to", "yard.ics", "--remind", "8"]).done();
    let calendar = std::fs::read_to_string(home.path("yard.ics")).unwrap();
    assert!(calendar.contains("BEGIN:VTODO") && calendar.contains("BEGIN:VALARM"), "{calendar}");
    let wrong = print(&["--to", "weeks.doc"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.said.contains("choose pdf, svg, png, ics, csv, json, md or txt"), "{}", wrong.said);
    let wrong = print(&["--to", "x.pdf", "--what", "week"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.said.contains("choose from"), "{}", wrong.said);
}

#[test]
fn needs_and_the_shopping_list() {
    let home = Home::new();
    home.file("yard.ron", PLANTED);
    let needs = home.run(&["needs", "yard.ron", "--season", "2027", "--json"]).json();
    for field in ["seeds", "seedlings", "mix", "supports", "water"] {
        assert!(needs[field].is_array(), "{field} in {needs}");
    }
    let carrot = needs["seeds"].as_array().unwrap().iter().find(|s| s["crop"] == "carrot").unwrap();
    assert!(carrot["seeds"].as_u64().unwrap() >= 64, "spare seed is reckoned with: {carrot}");
    assert!(!needs["water"].as_array().unwrap().is_empty());
    let text = home.run(&["needs", "yard.ron", "--on", "2027-03-01"]).done();
    assert!(text.starts_with("Small yard: what season 2027 needs") && text.contains("Carrot"), "{text}");
    let none = home.run(&["needs", "yard.ron", "--season", "2030"]).done();
    assert_eq!(none, "Small yard: what season 2030 needs\n\nNothing is needed.\n");
    home.run(&["print", "yard.ron", "--on", "2027-03-01", "--what", "needs", "--to", "needs.csv"]).done();
    let csv = std::fs::read_to_string(home.path("needs.csv")).unwrap();
    assert!(csv.contains("Carrot") && csv.contains("Water"), "{csv}");
}

#[test]
fn a_season_is_closed_once_and_says_what_it_leaves() {
    let home = Home::new();
    home.file("yard.ron", PLANTED);
    home.run(&["note", "yard.ron", "picked", "2 lb", "--planting", "2", "--on", "2027-08-01"]).done();
    let early = home.run(&["close", "yard.ron", "--season", "2027", "--on", "2026-12-01"]);
    assert_eq!(early.code, 2);
    assert!(early.said.contains("before it has begun"), "{}", early.said);
    let text = home.run(&["close", "yard.ron", "--on", "2027-12-01"]).done();
    assert!(text.starts_with("Small yard: season 2027 is closed\n"), "{text}");
    assert!(text.contains("Tomato: 2 lb picked"), "{text}");
    assert_eq!(plan(&home).closed, [2027]);
    let again = home.run(&["close", "yard.ron", "--on", "2028-02-01", "--json"]).json();
    assert_eq!(again["season"], 2027);
    assert_eq!(again["picked"][0]["name"], "Tomato");
    assert_eq!(plan(&home).closed, [2027]);
}

#[test]
fn seasons_and_the_kitchen_are_told() {
    let home = Home::new();
    home.file("yard.ron", PLANTED);
    home.run(&["note", "yard.ron", "picked", "2 lb", "--planting", "2", "--on", "2027-08-01"]).done();
    let text = home.run(&["seasons", "yard.ron", "--on", "2027-12-01"]).done();
    assert!(text.starts_with("Small yard: seasons side by side, up to 2027\n"), "{text}");
    assert!(
        text.contains("first picking planned 25 Jul, real 1 Aug") && text.contains("picked 2 lb"),
        "{text}"
    );
    let all = home.run(&["seasons", "yard.ron", "--season", "2027", "--json"]).json();
    let tomato = all.as_array().unwrap().iter().find(|c| c["crop"] == "tomato").unwrap();
    let season = &tomato["seasons"][0];
    assert_eq!((&season["season"], &season["plants"]), (&2027.into(), &2.into()));
    assert_eq!((&season["planned_pick"], &season["real_pick"]), (&"2027-07-25".into(), &"2027-08-01".into()));
    let none = home.run(&["seasons", "yard.ron", "--season", "2020"]).done();
    assert!(none.ends_with("Nothing stood in these seasons.\n"), "{none}");
    let text = home.run(&["kitchen", "yard.ron", "--season", "2027"]).done();
    assert!(text.starts_with("Small yard: what season 2027 is expected to bring\n"), "{text}");
    assert!(text.contains("Tomato") && text.contains("Carrot"), "{text}");
    let all = home.run(&["kitchen", "yard.ron", "--season", "2027", "--json"]).json();
    assert_eq!(all.as_array().unwrap().len(), 2, "{all}");
}

#[test]
fn a_late_sowing_moves_what_follows() {
    let home = Home::new();
    let follows = PLANTED.replace(
        "    ],\n)",
        "        (id: 4, crop: \"lettuce\", name: \"Lettuce\", botanical: \"Lactuca sativa\", family: \"Asteraceae\", place: \
         \"box-1\", block: (row: 2, col: 0, rows: 1, cols: 1), start: InPlace, plants: 4, planned: (sown: \
         \"2027-08-07\", first_pick: \"2027-09-25\", last_pick: \"2027-10-15\", cleared: \"2027-10-16\"), why: \
         Hand),\n    ],\n)",
    );
    home.file("yard.ron", &follows);
    let said =
        home.run(&["note", "yard.ron", "done", "sown", "--crop", "carrot", "--on", "2027-05-08"]).done();
    let plan = plan(&home);
    assert!(plan.plantings[2].planned.first_pick.unwrap().to_string().as_str() > "2027-07-05", "{said}");
    let (carrot, lettuce) = (plan.plantings[2].ends().unwrap(), plan.plantings[3].begins().unwrap());
    assert!(lettuce >= carrot || said.contains("Lettuce"), "moved or told: {said}");
}
