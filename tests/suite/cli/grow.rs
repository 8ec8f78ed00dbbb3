//! `schedule` and `window`.

use super::{Home, example};

#[test]
fn windows_of_peas_in_spring_and_late_summer() {
    let home = Home::new();
    let windows = home.run(&["window", "pea", "--site", "new-york", "--on", "2027-01-01", "--json"]).json();
    let windows = windows.as_array().unwrap();
    let starts: Vec<&str> = windows.iter().map(|w| w["first"].as_str().unwrap()).collect();
    assert!(starts.iter().any(|d| *d < "2027-05"), "{starts:?}");
    assert!(starts.iter().any(|d| ("2027-07".."2027-09").contains(d)), "a late-summer sowing: {starts:?}");
    for window in windows {
        for field in ["method", "first", "last", "ready_first", "ready_last"] {
            assert!(window[field].is_string(), "{field} in {window}");
        }
        assert!(window["chance_at_last"].as_f64().unwrap() >= 0.7, "{window}");
    }
    let text = home.run(&["window", "pea", "--site", "new-york", "--on", "2027-01-01"]).done();
    assert!(text.contains("sown in place"), "{text}");
}

#[test]
fn where_nothing_ripens_the_reason_is_given() {
    let home = Home::new();
    let dates = ["--last-frost", "06-25", "--first-frost", "08-10"];
    let ran =
        home.run(&[&["window", "eggplant", "--site", "edmonton", "--risk", "1in10"][..], &dates].concat());
    assert!(ran.out.contains("No start succeeds here at this risk."), "{}", ran.out);
    assert!(ran.out.contains("Begun on "), "{}", ran.out);
}

#[test]
fn a_schedule_and_its_inverse() {
    let home = Home::new();
    let on = home.run(&["schedule", "carrot", "--site", "london", "--on", "2027-05-01", "--json"]).json();
    let stages = on["stages"].as_array().unwrap();
    let date = |word: &str| {
        let stage = stages.iter().find(|s| s["stage"] == word).unwrap();
        for field in ["date", "early", "late"] {
            assert!(stage[field].is_string(), "{field} in {stage}");
        }
        stage["date"].as_str().unwrap().to_owned()
    };
    assert_eq!(date("sown"), "2027-05-01");
    let ready = date("first picking");
    let back = home.run(&["schedule", "carrot", "--site", "london", "--ready", &ready, "--json"]).json();
    let sown = back["stages"][0]["date"].as_str().unwrap().to_owned();
    assert!(("2027-05-01".."2027-05-04").contains(&sown.as_str()), "{sown}");
    for field in ["chance", "needs_heat", "days"] {
        assert!(on[field].is_number(), "{field}");
    }
    let flat =
        ["schedule", "carrot", "--site", "london", "--on", "2027-05-01", "--method", "catalogue", "--json"];
    assert_eq!(home.run(&flat).json()["method"], "catalogue");
}

#[test]
fn garlic_is_ripe_the_next_summer() {
    let home = Home::new();
    let garlic =
        home.run(&["schedule", "garlic", "--site", "new-york", "--on", "2027-10-20", "--json"]).json();
    let picked = garlic["stages"].as_array().unwrap().iter().find(|s| s["stage"] == "first picking").unwrap();
    let date = picked["date"].as_str().unwrap();
    assert!(("2028-06-15".."2028-08-01").contains(&date), "{date}");
}

#[test]
fn starts_that_follow_each_other() {
    let home = Home::new();
    let all = home
        .run(&[
            "schedule",
            "lettuce",
            "--site",
            "new-york",
            "--start",
            "in-place",
            "--on",
            "2027-04-01",
            "--every",
            "14",
            "--json",
        ])
        .json();
    let firsts: Vec<&str> = all
        .as_array()
        .unwrap()
        .iter()
        .map(|s| {
            s["stages"].as_array().unwrap().iter().find(|s| s["stage"] == "first picking").unwrap()["date"]
                .as_str()
                .unwrap()
        })
        .collect();
    assert!(firsts.len() >= 2 && firsts.is_sorted(), "{firsts:?}");
}

#[test]
fn a_garden_lends_its_site_and_settings() {
    let home = Home::new();
    let ran = home.run(&["schedule", "carrot", "--site", &example("southern.ron"), "--on", "2027-10-01"]);
    assert_eq!(ran.code, 0, "{}", ran.said);
    let wrong = home.run(&["schedule", "carrot", "--site", "london", "--start", "raised"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.said.contains("is not started by 'raised': in-place"), "{}", wrong.said);
}
