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
