//! Commands that look: site, book, check, week.

use super::{Home, example};

const NIGHTSHADES: &str = r#"(
    schema: 1,
    name: "Three years",
    settings: (measure: Us, cell: "1 ft"),
    site: (name: "New York", preset: "new-york", lat: 40.78, lon: -73.97),
    places: [
        (id: "box-1", name: "Long box", kind: Box, at: (x: "2 ft", y: "2 ft"), shape: Rect(across: "4 ft", down: "4 ft", depth: "12 in"), since: "2022-03-15", supports: [(kind: Stakes, cells: (row: 0, col: 0, rows: 4, cols: 4), height: "5 ft", from: "2022-03-15")]),
    ],
    plantings: [
        (id: 1, crop: "tomato", name: "Tomato", botanical: "Solanum lycopersicum", family: "Solanaceae", place: "box-1", block: (row: 0, col: 0, rows: 2, cols: 2), start: Bought, plants: 1, planned: (set_out: "2025-05-15", cleared: "2025-10-01"), why: Hand),
        (id: 2, crop: "potato-early", name: "Potato", botanical: "Solanum tuberosum", family: "Solanaceae", place: "box-1", block: (row: 2, col: 0, rows: 1, cols: 1), start: Piece(Tuber), plants: 1, planned: (set_out: "2027-04-10", cleared: "2027-07-01"), why: Hand),
    ],
)
"#;

#[test]
fn a_stop_is_an_exit_code() {
    let home = Home::new();
    let plan = home.file("yard.ron", NIGHTSHADES);
    let ran = home.run(&["check", &plan]);
    assert_eq!(ran.code, 1, "{}{}", ran.out, ran.said);
    assert!(ran.out.contains("family-returns"), "{}", ran.out);
    let later = home.run(&["check", &plan, "--on", "2028-03-01"]);
    assert_eq!(later.code, 0, "what is over is not judged: {}", later.out);
    let findings = home.run(&["check", &plan, "--json"]);
    assert_eq!(findings.code, 1);
    let findings = findings.json();
    let stop = findings.as_array().unwrap().iter().find(|f| f["code"] == "family-returns").unwrap();
    for field in ["code", "weight", "place", "from", "to", "words", "remedy", "source", "set_aside"] {
        assert!(stop.get(field).is_some(), "{field} in {stop}");
    }
    assert_eq!((&stop["weight"], &stop["place"]), (&"stop".into(), &"box-1".into()));
    // Set aside with a reason it no longer stops.
    let aside = NIGHTSHADES.replace(
        "    plantings: [",
        "    set_aside: [(code: \"family-returns\", reason: \"fresh soil was dug in\")],\n    plantings: [",
    );
    let ran = home.run(&["check", &home.file("aside.ron", &aside)]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(ran.out.contains("Set aside: fresh soil was dug in"), "{}", ran.out);
}

#[test]
fn a_rule_explains_itself() {
    let home = Home::new();
    let text = home.run(&["check", "--explain", "family-returns"]).done();
    assert!(text.starts_with("family-returns: ") && text.len() > 200, "{text}");
    let ran = home.run(&["check", "--explain", "family-return"]);
    assert_eq!(ran.code, 2);
    assert!(ran.said.contains("did you mean 'family-returns'?"), "{}", ran.said);
}

#[test]
fn a_climate_for_people_and_programs() {
    let home = Home::new();
    let text = home.run(&["site", "new-york"]).done();
    for part in ["Frost, 32 F or colder", "Growing season", "By month", "The year by weeks", "days off ("] {
        assert!(text.contains(part), "{part} in {text}");
    }
    let site = home.run(&["site", "new-york", "--json"]).json();
    for threshold in ["0.0", "-2.2"] {
        for half in ["last", "first"] {
            let dates: Vec<&str> = ["1in10", "5in10", "9in10"]
                .iter()
                .map(|share| site["frost"][threshold][half][share].as_str().unwrap())
                .collect();
            // One year in ten is the latest of the last frosts and the earliest of the first ones.
            assert!(
                if half == "last" { dates.is_sorted_by(|a, b| a > b) } else { dates.is_sorted() },
                "{dates:?}"
            );
        }
    }
    for month in ["tmax", "tmin", "rain", "et0", "soil"] {
        assert_eq!(site["monthly"][month].as_array().unwrap().len(), 12, "{month}");
    }
    assert_eq!(site["daylength_hours"].as_array().unwrap().len(), 365);
    assert_eq!(site["expected_error_days"], 13.0);
    let never = home.run(&["site", "nairobi", "--json"]).json();
    assert!(never["frost"]["0.0"]["last"]["1in10"].is_null(), "{}", never["frost"]);
}

#[test]
fn own_dates_and_normals_are_laid_over() {
    let home = Home::new();
    let site =
        home.run(&["site", "new-york", "--last-frost", "04-15", "--first-frost", "11-01", "--json"]).json();
    assert_eq!(site["frost"]["0.0"]["last"]["5in10"], "04-15");
    assert_eq!(site["frost"]["0.0"]["first"]["5in10"], "11-01");
    assert_eq!(site["expected_error_days"], 4.0);
    let dates = ["--lat", "44.5", "--lon", "-72.5", "--last-frost", "05-20", "--first-frost", "09-25"];
    let site = home.run(&[&["site"][..], &dates, &["--json"]].concat()).json();
    assert_eq!(site["maturity"], "catalogue", "dates alone: the catalogue's days");
    let twelve = "-4 -2 4 12 19 24 27 26 21 14 7 0";
    let low = "-12 -11 -5 1 7 12 15 14 9 3 -2 -8";
    let normals = ["site", "--lat", "44.5", "--lon", "-72.5", "--tmax", twelve, "--tmin", low, "--json"];
    let site = home.run(&normals).json();
    assert_eq!(site["maturity"], "heat");
    assert!((site["monthly"]["tmax"][6].as_f64().unwrap() - 27.0).abs() < 0.3, "{}", site["monthly"]["tmax"]);
    // What more is known of the place narrows the error: nothing, a zone, days of frost, dates.
    let days = "30 27 27 12 1 0 0 0 1 8 18 28";
    let dates = ["--last-frost", "05-14", "--first-frost", "09-28"];
    for (more, error) in [
        (&[][..], 13.0),
        (&["--zone", "5a"], 8.0),
        (&["--zone", "-26C"], 8.0),
        (&["--frost-days", days], 5.0),
        (&["--frost-days", days, "--zone", "5"], 5.0),
        (&[&["--zone", "5a"][..], &dates].concat(), 4.0),
    ] {
        let site = home.run(&[&normals[..], more].concat()).json();
        assert_eq!(site["expected_error_days"], error, "{more:?}");
    }
}

#[test]
fn wrong_places_are_told() {
    let home = Home::new();
    for (args, words) in [
        (&["site", "new-yorck"][..], "did you mean 'new-york'?"),
        (&["site", "--lat", "44.5"], "--lon"),
        (&["site", "--lat", "44.5", "--lon", "-72.5"], "has no climate yet"),
        (
            &["site", "--lat", "144", "--lon", "0", "--last-frost", "05-01", "--first-frost", "10-01"],
            "-90..90",
        ),
        (&["site", "new-york", "--last-frost", "13-01"], "month and day"),
        (&["site", "new-york", "--tmax", "1 2 3"], "3 figures where twelve are wanted"),
        (&["site", "new-york", "--tmax", "1 2 3 4 5 6 7 8 9 10 11 12"], "--tmax and --tmin both"),
        (&["site", "new-york", "--zone", "14a"], "is no hardiness zone: write 1 to 13"),
        (&["site", "new-york", "--frost-days", "40 0 0 0 0 0 0 0 0 0 0 0"], "give days a month"),
        (&["site", "yard.ron"], "there is no file yard.ron"),
        (&["window", "carot", "--site", "london"], "did you mean 'carrot'"),
        (&["window", "pea"], "no place given"),
        (&["bok"], "did you mean 'book'?"),
        (&["book", "tomatoe"], "did you mean 'tomato'"),
        (&["week"], "<PLAN>"),
    ] {
        let ran = home.run(args);
        assert!(
            ran.code == 2 || (ran.code == 3 && words.contains("no file")),
            "{args:?}: {} {}",
            ran.code,
            ran.said
        );
        assert!(ran.said.contains(words), "{args:?}: {}", ran.said);
        assert_eq!(ran.out, "", "{args:?}: words of an error go to the standard error");
    }
}

#[test]
fn the_book_lists_and_tells() {
    let home = Home::new();
    let all = home.run(&["book"]).done();
    assert!(all.contains("Solanaceae") && all.contains("carrot"), "{all}");
    let list = home.run(&["book", "--json"]).json();
    assert!(list.as_array().unwrap().len() >= 50);
    let one = home.run(&["book", "Carrot", "--json"]).json();
    assert_eq!((&one["id"], &one["family"]), (&"carrot".into(), &"Apiaceae".into()));
    // The grower's own crop, beside the garden.
    let own = "(crops: [(id: \"carrot-own\", of: \"carrot\", name: \"Carrot from next door\", code: \"CO\", height: \"9 in\")])";
    home.file("crops/own.ron", own);
    let plan = home.file("yard.ron", NIGHTSHADES);
    let text = home.run(&["book", "carrot-own", "--plan", &plan, "--measure", "metric"]);
    assert_eq!(text.code, 2, "a garden has its own units");
    let text = home.run(&["book", "carrot-own", "--plan", &plan]).done();
    assert!(text.contains("Carrot from next door"), "{text}");
}

#[test]
fn the_book_is_searched_and_narrowed() {
    let home = Home::new();
    let lines = |args: &[&str]| -> Vec<String> {
        let out = home.run(args).done();
        out.lines().map(|l| l.split_whitespace().next().unwrap_or_default().to_owned()).collect()
    };
    assert!(lines(&["book", "--find", "aubergine"])[1] == "eggplant");
    assert!(lines(&["book", "--find", "brocoli"]).contains(&String::from("broccoli")));
    let covers = lines(&["book", "--for", "cover"]);
    assert!(covers.len() > 8 && covers.contains(&String::from("buckwheat")), "{covers:?}");
    let shade = home.run(&["book", "--for", "food", "--sun", "3", "--room", "12in", "--no-support"]).done();
    assert!((10..60).contains(&shade.lines().count()), "{shade}");
    assert!(shade.contains(" crops: food, 3.0 h of sun, 12 in across, no support\n"), "{shade}");
    assert!(shade.contains("  lettuce ") && !shade.contains("  tomato "), "{shade}");
    let onions = home.run(&["book", "--family", "onion family", "--json"]).json();
    assert!(onions.as_array().unwrap().iter().all(|c| c["family"] == "Amaryllidaceae"));
    // Dates want a climate; with one, what is ripe in time comes with them.
    for (args, words) in [
        (&["book", "--weeks", "6"][..], "name a garden with --plan"),
        (&["book", "--family", "Solanacae"], "did you mean 'Solanaceae'"),
        (&["book", "--in", "box-1"], "--plan"),
        (&["book", "carrot", "--sun", "4"], "cannot be used with"),
        (&["book", "--check", "--find", "bean"], "cannot be used with"),
    ] {
        let ran = home.run(args);
        assert_eq!((ran.code, ran.said.contains(words)), (2, true), "{args:?}: {}", ran.said);
    }
    let quick = ["book", "--site", "new-york", "--from", "2027-08-15", "--weeks", "7", "--for", "food"];
    let text = home.run(&quick).done();
    assert!(text.contains(": food, from 15 Aug 2027, ripe in 7 weeks\n"), "{text}");
    assert!(text.contains("  radish ") && !text.contains("  carrot "), "{text}");
    let fits = home.run(&[&quick[..], &["--json"]].concat()).json();
    for fit in fits.as_array().unwrap() {
        let dates = &fit["fits"];
        assert!(dates["begins"].as_str().unwrap() >= "2027-08-15", "{fit}");
        assert!(dates["first_pick"].as_str().unwrap() <= "2027-10-03", "{fit}");
    }
    let yard = example("courtyard.ron");
    let cell = [
        "book",
        "--plan",
        &yard,
        "--in",
        "kitchen box",
        "--cell",
        "B2",
        "--from",
        "2027-06-01",
        "--weeks",
        "5",
    ];
    let text = home.run(&cell).done();
    assert!(text.contains("crops: in Kitchen box, "), "{text}");
    assert!(text.contains(" h of sun, 36 in across, no support, from"), "{text}");
    let wrong = home.run(&["book", "--plan", &yard, "--in", "kitchn box"]);
    assert_eq!(
        (wrong.code, wrong.said.contains("there is no bed or pot 'kitchn box'")),
        (2, true),
        "{}",
        wrong.said
    );
}

#[test]
fn the_book_check_is_clean_and_says_what_is_wrong_of_ones_own() {
    let home = Home::new();
    let clean = home.run(&["book", "--check"]);
    let counts = home.run(&["book", "--check", "--json"]).json();
    println!("{}", clean.out);
    assert_eq!((clean.code, clean.said.as_str()), (0, ""), "{}", clean.out);
    assert!(clean.out.contains("No fault:"), "{}", clean.out);
    assert!(counts["crops"].as_u64().unwrap() >= 120 && counts["varieties"].as_u64().unwrap() >= 60);
    assert!(counts["families"].as_u64().unwrap() >= 20 && counts["faults"].as_array().unwrap().is_empty());
    let own = "(crops: [\n(id: \"red\", of: \"carrot\", name: \"Red\", depth: \"14 in\"),\n\
               (id: \"twin\", of: \"carrot\", name: \"Carrot\"),\n])";
    home.file("crops/own.ron", own);
    let plan = home.file("yard.ron", NIGHTSHADES);
    let wrong = home.run(&["book", "--check", "--plan", &plan]);
    assert_eq!(wrong.code, 2, "{}", wrong.said);
    assert!(
        wrong.said.contains("crops/own.ron:2:") && wrong.said.contains("'red' was left out"),
        "{}",
        wrong.said
    );
    assert!(wrong.out.contains("twin: name: 'carrot' is the name of carrot too"), "{}", wrong.out);
}

#[test]
fn a_week_for_people_and_programs() {
    let home = Home::new();
    let plan = home.file("yard.ron", NIGHTSHADES);
    let text = home.run(&["week", &plan, "--on", "2025-07-09"]).done();
    assert!(text.starts_with("Three years: week 2025-W28, 7 Jul - 13 Jul\n"), "{text}");
    assert!(text.contains("A1-B2   1 x Tomato: set out 15 May, then cleared 1 Oct"), "{text}");
    let week = home.run(&["week", &plan, "--on", "2025-07-09", "--json"]).json();
    assert_eq!(week["week"], "2025-W28");
    assert_eq!(week["cells"][0]["crop"], "tomato");
    assert_eq!(week["cells"][0]["stage"], "set out");
    assert_eq!(week["cells"][0]["cells"], "A1-B2");
    for field in ["light_hours", "soil_temperature", "frost_chance"] {
        assert!(week[field].is_number(), "{field}");
    }
    let sowing = home.run(&["week", &plan, "--on", "2027-04-10", "--json"]).json();
    let job = &sowing["jobs"][0];
    for field in ["what", "where", "amount", "from", "to", "minutes", "why"] {
        assert!(!job[field].is_null(), "{field} in {sowing}");
    }
    let empty = home.run(&["week", &plan, "--on", "2026-07-09"]).done();
    assert!(empty.starts_with("Three years: week 2026-W28"), "{empty}");
}

#[test]
fn without_a_terminal_a_garden_prints_its_week() {
    let home = Home::new();
    let ran = home.run(&[&example("southern.ron"), "--on", "2027-11-03"]);
    assert_eq!(ran.code, 0, "{}", ran.said);
    assert!(ran.out.contains("week 2027-W44"), "{}", ran.out);
    let ran = home.run(&["--on", "2027-05-12"]);
    assert!(ran.out.starts_with("Wrenfold Yard: week 2027-W19"), "{}", ran.out);
    assert_eq!(std::fs::read_dir(home.0.path()).unwrap().count(), 0, "looking writes nothing");
}

#[test]
fn a_bad_garden_is_told_with_its_place_and_code() {
    let home = Home::new();
    let plan = home.file(
        "bad.ron",
        &NIGHTSHADES.replace("place: \"box-1\", block: (row: 2", "place: \"bx-1\", block: (row: 2"),
    );
    let ran = home.run(&["check", &plan]);
    assert_eq!(ran.code, 2);
    assert!(ran.said.starts_with("error: there is no place 'bx-1'"), "{}", ran.said);
    assert!(
        ran.said.contains("--> bad.ron:11:") && ran.said.contains("did you mean 'box-1'?"),
        "{}",
        ran.said
    );
    let ran = home.run(&["check", "nowhere.ron"]);
    assert_eq!((ran.code, ran.said.as_str()), (3, "error: there is no file nowhere.ron\n"));
}

#[test]
fn bad_crops_are_said_and_the_rest_works() {
    let home = Home::new();
    home.file("crops/own.ron", "(crops: [(id: \"carrot\", hieght: \"9 in\")])");
    let plan = home.file("yard.ron", NIGHTSHADES);
    let ran = home.run(&["week", &plan, "--on", "2025-07-09"]);
    assert_eq!(ran.code, 0);
    assert!(
        ran.said.contains("unknown field 'hieght'") && ran.said.contains("crops/own.ron:1:25"),
        "{}",
        ran.said
    );
}

/// Every command is described with its JSON, and nothing is described that is not there.
#[test]
fn the_description_names_every_command() {
    let home = Home::new();
    let help = home.run(&["--help"]).done();
    let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/src/cli/commands.md")).unwrap();
    let commands: Vec<&str> = help
        .lines()
        .skip_while(|l| *l != "Commands:")
        .skip(1)
        .take_while(|l| !l.is_empty())
        .filter_map(|l| l.split_whitespace().next())
        .filter(|c| *c != "help")
        .collect();
    assert!(commands.len() >= 13, "{commands:?}");
    for command in &commands {
        assert!(text.contains(&format!("| `{command}")), "{command} in commands.md");
    }
    let table = text.lines().skip_while(|l| !l.starts_with("| command | does")).skip(2);
    for row in table.take_while(|l| l.starts_with('|')) {
        let name = row.trim_start_matches("| `").split([' ', '`']).next().unwrap();
        assert!(commands.contains(&name), "{name} is described and is no command");
    }
}

#[test]
fn the_record_tells_when_families_may_return() {
    let home = Home::new();
    let plan = concat!(env!("CARGO_MANIFEST_DIR"), "/plans/courtyard.ron");
    let text = home.run(&["record", plan, "--on", "2027-03-01"]).done();
    insta::assert_snapshot!("record_courtyard", text);
    let json = home.run(&["record", plan, "--on", "2027-03-01", "--ahead", "6", "--json"]).json();
    let square = json["returns"]
        .as_array()
        .unwrap()
        .iter()
        .find(|r| r["place"] == "box-2" && r["family"] == "Solanaceae")
        .unwrap();
    assert_eq!(square["least_from"], "2029-10-06");
    assert_eq!(square["seasons"].as_array().unwrap().len(), 6);
    assert_eq!(square["seasons"][3], serde_json::json!([2030, "free"]));
}
