//! Order, setting aside, explanations, and the contract of the JSON text.

use super::garden::{Plot, Shelf, id};
use catchcrop::check::{RULES, STOPS, Weight, explain, stops};
use catchcrop::garden::PlaceId;
use catchcrop::plan::SetAside;

fn two_stops() -> Plot {
    let mut plot = Plot::new();
    for place in ["box-2", "box-1"] {
        plot.plant("tomato", place, (0, 0, 1, 1), "2027-05-20", "2027-10-05");
        plot.plant("tomato", place, (0, 0, 1, 1), "2028-05-20", "2028-10-05").plants = 3;
    }
    plot
}

#[test]
fn stops_first_then_by_date_and_place() {
    let found = two_stops().judge(&Shelf::new());
    let keys: Vec<_> = found.iter().map(|f| (f.weight, f.from)).collect();
    assert!(keys.windows(2).all(|w| w[0] <= w[1]), "{keys:?}");
    let first: Vec<_> = found.iter().take(2).map(|f| f.place.clone().unwrap().0).collect();
    assert_eq!(first, ["box-1", "box-2"]);
}

#[test]
fn what_is_set_aside_stays_listed_with_its_reason_and_no_longer_stops() {
    let mut plot = two_stops();
    let aside = |place: Option<&str>, planting| SetAside {
        code: "family-returns".into(),
        place: place.map(PlaceId::new),
        planting,
        reason: "grafted on resistant roots".into(),
    };
    plot.plan.set_aside = vec![aside(Some("box-1"), None)];
    let found = plot.judge(&Shelf::new());
    let (gone, left): (Vec<_>, Vec<_>) =
        found.iter().filter(|f| f.code == "family-returns").partition(|f| f.set_aside.is_some());
    assert_eq!((gone.len(), left.len()), (1, 1));
    assert_eq!(found.last().unwrap().set_aside.as_deref(), Some("grafted on resistant roots"));
    assert!(stops(&found));
    plot.plan.set_aside = vec![aside(None, None)];
    assert!(!stops(&plot.judge(&Shelf::new())));
    plot.plan.set_aside = vec![aside(None, Some(id(99)))];
    assert!(stops(&plot.judge(&Shelf::new())), "another planting");
}

#[test]
fn the_json_text_keeps_its_names() {
    let found = two_stops().judge(&Shelf::new());
    let json = serde_json::to_value(&found).unwrap();
    let first = json[0].as_object().unwrap();
    for name in ["code", "weight", "place", "from", "to", "words", "remedy", "source", "set_aside"] {
        assert!(first.contains_key(name), "{name}");
    }
    assert_eq!(first["weight"], "stop");
    assert_eq!(first["place"], "box-1");
    assert_eq!(first["cells"], "A1");
    assert_eq!(first["from"], "2028-05-20");
    assert!(first["set_aside"].is_null());
}

#[test]
fn every_rule_explains_itself_with_a_source_and_its_code_is_its_own() {
    for (n, rule) in RULES.iter().enumerate() {
        let text = explain(rule.code).unwrap();
        assert!(text.contains("Source") || text.contains("Figures"), "{}: {text}", rule.code);
        assert!(text.len() > 120, "{} says too little", rule.code);
        assert!(RULES[n + 1..].iter().all(|r| r.code != rule.code), "{} twice", rule.code);
    }
    assert!(explain("no-such-rule").is_none());
}

/// What stops here must be a hard constraint of the fill, and the table must know no rule that is gone.
#[test]
fn stops_are_paired_with_hard_constraints() {
    for (code, hard) in STOPS {
        assert!(RULES.iter().any(|r| r.code == *code), "{code} is no rule");
        assert!(hard.len() > 20, "{code}: say what the fill may not do");
    }
    for finding in two_stops().judge(&Shelf::new()) {
        let paired = STOPS.iter().any(|(code, _)| *code == finding.code);
        assert!(finding.weight != Weight::Stop || paired, "{} stops without a pair", finding.code);
    }
}
