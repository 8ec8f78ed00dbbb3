//! `fill` from the shell.

use super::Home;
use catchcrop::store;
use serde_json::Value;

/// A box and a pot with three wishes.
const WISHES: &str = r#"(
    schema: 1,
    name: "Small yard",
    settings: (measure: Us, cell: "1 ft"),
    site: (name: "New York", preset: "new-york", lat: 40.78, lon: -73.97),
    places: [
        (id: "box-1", name: "Long box", kind: Box, at: (x: "2 ft", y: "2 ft"), shape: Rect(across: "4 ft", down: "2 ft", depth: "12 in"), since: "2022-03-15", fresh: true, sun_hours: 8),
    ],
    raising: [(name: "windowsill", temperature: "68 F", cells: 24, light: true)],
    wishes: [
        (id: 1, crop: "lettuce", amount: "6 oz", pattern: Even, from: "05-15", to: "06-30", importance: 4),
        (id: 2, crop: "carrot", amount: "3 lb", pattern: Store, from: "07-01", to: "10-31", importance: 3),
        (id: 3, crop: "tomato", amount: "10 lb", pattern: AtOnce, from: "01-05", to: "01-20", importance: 2),
    ],
)
"#;

fn without_time(mut value: Value) -> Value {
    value.as_object_mut().unwrap().remove("milliseconds");
    value
}

#[test]
fn a_fill_says_what_is_met_and_why_not() {
    let home = Home::new();
    home.file("yard.ron", WISHES);
    let run = |more: &[&str]| {
        home.run(&[&["fill", "yard.ron", "--season", "2027", "--effort", "quick"][..], more].concat())
    };
    let text = run(&[]);
    assert_eq!(text.code, 0, "{}", text.said);
    for part in
        ["% of what you asked for", "proved gap", "cell-weeks of the growing season", "Long box", "ms."]
    {
        assert!(text.out.contains(part), "{part} in {}", text.out);
    }
    let json = run(&["--json"]).json();
    for field in [
        "value",
        "bound",
        "gap",
        "wishes",
        "idle_cell_weeks",
        "growing_cell_weeks",
        "asked_cell_weeks",
        "plantings",
        "iterations",
        "milliseconds",
        "seed",
    ] {
        assert!(!json[field].is_null(), "{field}");
    }
    assert!(json["value"].as_f64().unwrap() <= json["bound"].as_f64().unwrap(), "{json}");
    let wishes = json["wishes"].as_array().unwrap();
    assert_eq!(wishes.len(), 3);
    for wish in wishes {
        let (met, wanted) = (wish["met"].as_f64().unwrap(), wish["wanted"].as_f64().unwrap());
        let unmet = met < wanted * 0.99;
        assert_eq!(unmet, !wish["reasons"].as_array().unwrap().is_empty(), "{wish}");
    }
    let tomato = wishes.iter().find(|w| w["crop"] == "tomato").unwrap();
    assert_eq!(tomato["met"], 0.0, "no tomato is ripe in January: {tomato}");
    for planting in json["plantings"].as_array().unwrap() {
        for field in ["crop", "place", "cells", "start", "method", "cleared", "plants", "why"] {
            assert!(!planting[field].is_null(), "{field} in {planting}");
        }
    }
    assert_eq!(without_time(run(&["--json"]).json()), without_time(json), "the same seed, the same answer");
}

#[test]
fn a_fill_is_written_only_when_asked() {
    let home = Home::new();
    home.file("yard.ron", WISHES);
    let args = ["fill", "yard.ron", "--season", "2027", "--effort", "quick"];
    home.run(&args).done();
    assert_eq!(std::fs::read_to_string(home.path("yard.ron")).unwrap(), WISHES);
    let ran = home.run(&[&args[..], &["--write"]].concat());
    assert_eq!(ran.code, 0, "{}", ran.said);
    assert!(ran.said.contains("written to yard.ron"), "{}", ran.said);
    let plan = store::look(&home.path("yard.ron"), store::book()).unwrap().plan;
    assert!(!plan.plantings.is_empty());
    assert_eq!(std::fs::read_to_string(home.path("yard.ron.before")).unwrap(), WISHES);
    assert!(home.run(&["check", "yard.ron"]).code == 0, "a proposal adds no stop");
    let again =
        home.run(&["fill", "yard.ron", "--from", "2027-06-01", "--again", "--effort", "quick", "--json"]);
    assert_eq!(again.code, 0, "{}", again.said);
    assert_eq!(again.json()["from"], "2027-06-01");
}

#[test]
fn late_in_the_year_the_next_season_is_filled() {
    let home = Home::new();
    home.file("yard.ron", WISHES);
    let ran = home.run(&["fill", "yard.ron", "--on", "2027-11-20", "--effort", "quick", "--json"]).json();
    assert_eq!((&ran["season"], &ran["from"]), (&"2028".into(), &"2028-01-01".into()));
}

#[test]
fn a_problem_file_is_solved() {
    let home = Home::new();
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../shared/fill/instances/S1.json");
    if !path.exists() {
        println!("skipped: {} is not here", path.display());
        return;
    }
    let path = path.display().to_string();
    let json = home.run(&["fill", "--problem", &path, "--effort", "quick", "--json"]).json();
    assert!(json["value"].as_f64().unwrap() > 0.0 && !json["plantings"].as_array().unwrap().is_empty());
    let bad = home.file("bad.json", "{\"weeks\": 3");
    let ran = home.run(&["fill", "--problem", &bad]);
    assert_eq!(ran.code, 2);
    assert!(ran.said.contains("bad.json: the problem file cannot be read"), "{}", ran.said);
}

#[test]
fn the_question_of_a_garden_is_written_and_solved_alike() {
    let home = Home::new();
    home.file("yard.ron", WISHES);
    let garden = ["fill", "yard.ron", "--season", "2027", "--effort", "quick"];
    let ran = home.run(&[&garden[..], &["--write-problem", "yard.json"]].concat());
    assert_eq!(ran.code, 0, "{}", ran.said);
    assert!(ran.out.contains("is written to yard.json") && ran.out.contains("3 wishes"), "{}", ran.out);
    let again = home.run(&[&garden[..], &["--write-problem", "yard.json"]].concat());
    assert_eq!(again.code, 3, "a file that is there is not written over: {}", again.said);
    let json =
        home.run(&[&garden[..], &["--write-problem", "yard.json", "--force", "--json"]].concat()).json();
    assert_eq!((&json["written"], &json["wishes"]), (&"yard.json".into(), &3.into()));
    let own = home.run(&[&garden[..], &["--json"]].concat()).json();
    let solved = home.run(&["fill", "--problem", "yard.json", "--effort", "quick", "--json"]).json();
    for field in ["value", "bound", "gap", "idle_cell_weeks", "covered_cell_weeks", "iterations"] {
        assert_eq!(own[field], solved[field], "{field}");
    }
    let reasons = |json: &Value, crop: &str| {
        let wishes = json["wishes"].as_array().unwrap();
        let wish = wishes.iter().find(|w| w["crop"].as_str().unwrap().to_lowercase().contains(crop)).unwrap();
        wish["reasons"].as_array().unwrap().len()
    };
    for crop in ["tomato", "lettuce", "carrot"] {
        assert_eq!(reasons(&own, crop), reasons(&solved, crop), "{crop}");
    }
}

#[test]
fn what_a_rule_costs_is_told_without_writing() {
    let home = Home::new();
    let shady = WISHES.replace("sun_hours: 8", "sun_hours: 1");
    home.file("yard.ron", &shady);
    let args = ["fill", "yard.ron", "--season", "2027", "--effort", "quick", "--without", "light"];
    let ran = home.run(&args);
    assert_eq!(ran.code, 0, "{}", ran.said);
    assert!(ran.out.contains("As it is 0.0 % of what you asked for is met."), "{}", ran.out);
    assert!(ran.out.contains("If every place had sun enough, "), "{}", ran.out);
    let json = home.run(&[&args[..], &["--json"]].concat()).json();
    assert!(json["then"]["share_met"].as_f64() > json["now"]["share_met"].as_f64(), "{json}");
    assert!(json["changed"].as_array().unwrap().iter().any(|w| w["crop"] == "lettuce"), "{json}");
    assert_eq!(std::fs::read_to_string(home.path("yard.ron")).unwrap(), shady);
}

#[test]
fn what_comes_next_in_a_cell_is_ranked() {
    let home = Home::new();
    home.file("yard.ron", WISHES);
    let text = home.run(&["next", "yard.ron", "long box", "b2", "--on", "2027-05-01"]);
    assert_eq!(text.code, 0, "{}", text.said);
    for part in [
        "Long box, cell B2, on ",
        "free; nothing is planned after.",
        "What fits now",
        "towards the wish for lettuce",
    ] {
        assert!(text.out.contains(part), "{part} in {}", text.out);
    }
    let json = home.run(&["next", "yard.ron", "box-1", "B2", "--on", "2027-05-01", "--json"]).json();
    let fits = json["fits"].as_array().unwrap();
    assert!(fits.len() > 5 && json["until"].is_null() && json["cell"] == "B2", "{json}");
    for field in ["crop", "method", "cells", "plants", "cleared", "chance", "points", "weeks"] {
        assert!(!fits[0][field].is_null(), "{field} in {}", fits[0]);
    }
    let wrong = home.run(&["next", "yard.ron", "box-1", "E9"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.said.contains("'E9' is no cell of Long box: its cells are A1 to D2"), "{}", wrong.said);
    let wrong = home.run(&["next", "yard.ron", "box-2", "A1"]);
    assert!(wrong.said.contains("did you mean 'box-1'?"), "{}", wrong.said);
}
