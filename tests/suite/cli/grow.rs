//! `schedule` and `window`.

use super::{Home, example};
use crate::growth::own::{seasons_of, slow_bean};
use catchcrop::store::plan_text;
use std::fmt::Write as _;

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

/// What the diary has taught of a crop is reckoned with and said, beside the book's figure.
#[test]
fn a_garden_s_own_days_are_reckoned_with_and_shown() {
    let home = Home::new();
    let (bean, slow) = slow_bean();
    let garden = home.file("garden.ron", &plan_text(&seasons_of(&bean, &slow, 3)).unwrap());
    let fresh = home.file("fresh.ron", &plan_text(&seasons_of(&bean, &slow, 0)).unwrap());
    let year = catchcrop::site::SiteYear::preset("new-york").unwrap();
    let own = seasons_of(&bean, &slow, 3).own_days(catchcrop::store::book(), &year)[&bean.id];
    assert!((57.0..61.0).contains(&own.days), "{own:?}");
    let words = format!("in this garden: {:.0} days (3 seasons), book 52", own.days);
    let look =
        |site: &str| home.run(&["schedule", "bean", "--site", site, "--on", "2030-05-20", "--json"]).json();
    let (here, there) = (look(&garden), look(&fresh));
    assert_eq!(here["own_days"]["seasons"], 3);
    assert_eq!(here["own_days"]["book"], 52.5);
    assert!(there["own_days"].is_null());
    let days = |v: &serde_json::Value| v["days"].as_i64().unwrap();
    assert!((4..=10).contains(&(days(&here) - days(&there))), "{here} {there}");
    let ready = ["schedule", "bean", "--site", &garden, "--ready", "2030-08-15"];
    for args in [
        &ready[..],
        &["window", "bean", "--site", &garden],
        &["schedule", "bean", "--site", &garden, "--on", "2030-05-20", "--every", "14"],
        &["book", "bean", "--plan", &garden],
    ] {
        let text = home.run(args).done();
        assert!(text.contains(&words), "{args:?}: {text}");
    }
    let shown = home.run(&["book", "bean", "--plan", &garden, "--json"]).json();
    assert_eq!(shown["own_days"]["plantings"], 3);
    let plain = home.run(&["book", "bean", "--plan", &fresh]).done();
    assert!(!plain.contains("in this garden"), "{plain}");
}

/// Frost-free places, places where frost comes in any month, the far north, the south and the tropics: "none" where
/// there is none, never a wrong date.
#[test]
fn far_places_have_dates_only_where_there_are_any() {
    let home = Home::new();
    let frost = |args: &[&str]| {
        let json = home.run(&[&["site"][..], args, &["--json"]].concat()).json();
        let at = |which: &str, share: &str| json["frost"]["0.0"][which][share].clone();
        (at("last", "5in10"), at("first", "5in10"), json)
    };
    let windows = |args: &[&str]| {
        let json = home.run(&[&["window"][..], args, &["--on", "2027-01-01", "--json"]].concat()).json();
        json.as_array().unwrap().len()
    };
    for tropical in ["miami-fl", "nairobi"] {
        let (last, first, json) = frost(&[tropical]);
        assert!(last.is_null() && first.is_null(), "{tropical}: {last} {first}");
        assert_eq!(json["season_start"].is_null(), tropical == "nairobi");
    }
    assert!(windows(&["bean", "--site", "nairobi"]) >= 1);
    // Garlic waits for a winter that the tropics do not have; lettuce grows in the cool of the highland.
    assert!(windows(&["lettuce", "--site", "nairobi"]) >= 1);
    // A mountain with frost in any month: no safe season, and nothing tender succeeds.
    let alpine = [
        "--lat",
        "39.4",
        "--lon",
        "-106.2",
        "--elevation",
        "3440 m",
        "--tmax",
        "-3,-2,1,5,11,17,20,19,15,9,2,-3",
        "--tmin",
        "-16,-16,-13,-9,-5,-1,0.5,0,-3,-7,-12,-16",
    ];
    let (_, _, json) = frost(&alpine);
    assert!(json["frost"]["0.0"]["last"]["1in10"].is_null(), "{}", json["frost"]);
    assert_eq!(windows(&[&["tomato"][..], &alpine].concat()), 0);
    let text = home.run(&[&["window", "tomato"][..], &alpine].concat()).done();
    assert!(text.contains("No start succeeds here"), "{text}");
    // 65 N: a short season of long days.
    let north = ["--lat", "65", "--lon", "25.5", "--last-frost", "06-05", "--first-frost", "08-28"];
    let (last, first, json) = frost(&north);
    assert_eq!((last.as_str(), first.as_str()), (Some("06-05"), Some("08-28")));
    let hours = json["daylength_hours"].as_array().unwrap();
    assert!(hours[171].as_f64().unwrap() > 21.5 && hours[354].as_f64().unwrap() < 4.0);
    assert!(windows(&[&["radish"][..], &north].concat()) >= 1);
    assert_eq!(windows(&[&["watermelon"][..], &north].concat()), 0);
    // South: last frosts in spring, which is October.
    let south = ["--lat", "-41", "--lon", "172.6", "--last-frost", "10-10", "--first-frost", "05-05"];
    let (last, first, json) = frost(&south);
    assert_eq!((last.as_str(), first.as_str()), (Some("10-10"), Some("05-05")));
    assert_eq!(json["season_start"], "07-01");
    let peas = home.run(&[&["window", "pea"][..], &south, &["--on", "2027-07-01", "--json"]].concat()).json();
    assert!(peas.as_array().unwrap().iter().any(|w| w["last"].as_str().unwrap() >= "2028-01"), "{peas}");
}

/// A daily file that names its station's place needs no other; one that does not asks for it.
#[test]
fn a_daily_file_may_bring_its_place() {
    let home = Home::new();
    let mut rows = (
        String::from("STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,TMAX,TMIN\n"),
        String::from("DATE,TMAX,TMIN\n"),
    );
    let first = catchcrop::calendar::read_date("2001-01-01").unwrap();
    for (n, day) in first.iter_days().take(365 * 4).enumerate() {
        let warm = 12.0 - 14.0 * (f64::from(u32::try_from(n).unwrap()) / 365.0 * std::f64::consts::TAU).cos();
        let (high, low) = (warm + 6.0, warm - 6.0);
        writeln!(rows.0, "XX1,{day},44.5,-72.5,200,{high:.1},{low:.1}").unwrap();
        writeln!(rows.1, "{day},{high:.1},{low:.1}").unwrap();
    }
    let (placed, bare) = (home.file("placed.csv", &rows.0), home.file("bare.csv", &rows.1));
    let json = home.run(&["site", "--daily", &placed, "--json"]).json();
    assert_eq!((json["lat"].as_f64(), json["lon"].as_f64()), (Some(44.5), Some(-72.5)));
    assert!(json["expected_error_days"].as_f64().unwrap() > 0.0);
    let ran = home.run(&["site", "--daily", &bare]);
    assert_eq!(ran.code, 2);
    assert!(ran.said.contains("give --lat and --lon"), "{}", ran.said);
    let json = home.run(&["site", "--daily", &bare, "--lat", "44.5", "--lon", "-72.5", "--json"]).json();
    assert_eq!(json["lat"].as_f64(), Some(44.5));
    // Past years are replayed.
    let seen = home.run(&["schedule", "bean", "--daily", &placed, "--on", "2027-06-01", "--json"]).json();
    assert_eq!(seen["years"]["seen"].as_array().unwrap().len(), 4);
}
