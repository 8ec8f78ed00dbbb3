//! `screenshots/`: pictures that the program draws of its own screens; they must be fresh.
//!
//! `INSTA_UPDATE=always cargo test --test suite pictures` draws them anew; look at them before committing.

use crate::support::{example, opened, press};
use catchcrop::app::Model;
use catchcrop::calendar::{Date, Week};
use catchcrop::fill::{Effort, Request, build, search};
use catchcrop::paper::{Extra, Format, Paper, Sheet, Source, pages, render};
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

/// The first page of every sheet of paper, of the same garden printed on 12 May.
#[test]
fn pictures_of_paper_are_fresh() {
    let plan = courtyard().plan;
    let year = SiteYear::new(&plan.site).unwrap();
    let day = Date::from_ymd_opt(2027, 5, 12).unwrap();
    let season = plan.season(day, year.season_start_or_january());
    let source = Source { plan: &plan, book: catchcrop::store::book(), year: &year, season };
    let imprint = source.imprint(Paper::A4, day);
    let write = std::env::var("INSTA_UPDATE").is_ok_and(|v| v == "always");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("screenshots");
    let mut stale = Vec::new();
    for sheet in Sheet::ALL {
        let mut all =
            pages(&source.leaves(&[sheet], Extra { weeks: Some(5), ..Extra::of(Week::of(day)) }), &imprint);
        all.truncate(1);
        let svg = render(&all, Format::Svg, "").unwrap().remove(0);
        let path = folder.join(format!("paper-{sheet}.svg"));
        if write {
            fs::write(&path, &svg).unwrap();
            fs::write(
                folder.join(format!("paper-{sheet}.png")),
                render(&all, Format::Png(80), "").unwrap().remove(0),
            )
            .unwrap();
        } else if fs::read(&path).ok() != Some(svg) {
            stale.push(sheet.word());
        }
    }
    assert!(stale.is_empty(), "draw these anew with INSTA_UPDATE=always and look at them: {stale:?}");
}
