//! `screenshots/`: pictures that the program draws of its own screens; they must be fresh.
//!
//! `INSTA_UPDATE=always cargo test --test suite pictures` draws them anew; look at them before committing.

use crate::support::{example, opened, press};
use catchcrop::app::Model;
use catchcrop::calendar::{Date, Week};
use catchcrop::fill::{Effort, Request, build, search};
use catchcrop::screen::{Depth, Look, Theme, USUAL, picture};
use catchcrop::site::SiteYear;
use std::fs;
use std::path::Path;

/// The courtyard filled from the new year, in the middle of May.
fn courtyard() -> Model {
    let mut plan = example("courtyard");
    let year = SiteYear::new(&plan.site).unwrap();
    let book = catchcrop::store::book();
    let day = |month, day| Date::from_ymd_opt(2027, month, day).unwrap();
    let base = plan.clone();
    let built = build(&base, book, &year, Request::from(day(1, 2)));
    let outcome = search(&built.problem, &Effort::Quick, 1, &mut |_| ());
    plan.apply(&built.proposal(&outcome).edit()).unwrap();
    let mut model = opened(plan);
    model.week = Week::of(day(5, 12));
    model
}

#[test]
fn screenshots_are_fresh() {
    let mut model = courtyard();
    let look = Look { theme: Theme { depth: Depth::Full, light: true }, glyphs: &USUAL };
    let write = std::env::var("INSTA_UPDATE").is_ok_and(|v| v == "always");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("screenshots");
    let mut stale = Vec::new();
    for (key, name) in [
        ("1", "ground"),
        ("2", "bed"),
        ("3", "weeks"),
        ("4", "wishes"),
        ("5", "jobs"),
        ("6", "findings"),
        ("7<Right><Right>", "record"),
        ("8", "book"),
        ("9", "needs"),
    ] {
        press(&mut model, key);
        let drawn = picture(&model, look, 140, 42);
        let svg = drawn.svg();
        let path = folder.join(format!("{name}.svg"));
        if write {
            fs::create_dir_all(&folder).unwrap();
            fs::write(&path, &svg).unwrap();
            fs::write(folder.join(format!("{name}.png")), drawn.png(1).unwrap()).unwrap();
        } else if fs::read_to_string(&path).ok().as_deref() != Some(&*svg) {
            stale.push(name);
        }
    }
    assert!(stale.is_empty(), "draw these anew with INSTA_UPDATE=always and look at them: {stale:?}");
}
