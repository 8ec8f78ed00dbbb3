//! `book`: the crop book, a crop of it, what of it fits, and what in it cannot be right.

use super::{find, sight};
use crate::calendar::Season;
use crate::cli::answer::{Answer, Code, Trouble};
use crate::cli::args::{Book as Args, Choice};
use crate::cli::here::Here;
use crate::cli::say;
use crate::cli::whence;
use crate::crop::{self, Book, Crop, Fault, Use, Wanted, check_book};
use crate::garden::{Block, Place};
use crate::growth::{Free, grows};
use crate::plan::Plan;
use crate::site::{SiteYear, presets};
use crate::store::nearest;
use crate::units::Measure;
use crate::work::fitting;
use std::borrow::Cow;

/// The book that is asked, and what goes with it.
struct Desk {
    book: Cow<'static, Book>,
    measure: Measure,
    plan: Option<Plan>,
    said: Vec<String>,
}

fn desk(args: &Args, here: &Here) -> Result<Desk, Trouble> {
    if let Some(path) = &args.plan {
        let sight = sight(path, here)?;
        let plan = sight.loaded.plan;
        let measure = plan.settings.measure;
        return Ok(Desk { book: sight.book, measure, plan: Some(plan), said: sight.said });
    }
    let mut said = Vec::new();
    let book = whence::book(None, here, &mut said);
    let measure = args.measure.map_or(Measure::Us, Measure::from);
    Ok(Desk { book, measure, plan: None, said })
}

/// Answers from the book.
pub(super) fn run(args: &Args, here: &Here) -> Result<Answer, Trouble> {
    let desk = desk(args, here)?;
    let (book, measure) = (&*desk.book, desk.measure);
    if args.check {
        return Ok(check(args, desk));
    }
    let answer = match &args.crop {
        Some(word) => {
            let crop = find(book, word)?;
            let year = desk.plan.as_ref().and_then(|plan| Some((plan, SiteYear::new(&plan.site).ok()?)));
            let own = year.and_then(|(plan, year)| plan.own_days(book, &year).remove(&crop.id));
            let page = || format!("{}{}", crop::page(crop, book, measure), say::own_text(own));
            Answer::either(args.json, page, || say::crop_json(book, crop, own))
        }
        None if args.choice.is_any() => choose(args, &desk, here)?,
        None => Answer::either(args.json, || crop::list(book, measure), || say::book_json(book)),
    };
    Ok(answer.saying(desk.said))
}

/// What in the book and in the grower's own files cannot be right, and what grows nowhere.
fn check(args: &Args, desk: Desk) -> Answer {
    let book = &*desk.book;
    let mut faults = check_book(book);
    let years: Vec<SiteYear> = presets::all().iter().filter_map(|p| SiteYear::preset(p.id).ok()).collect();
    let nowhere = |crop: &&Crop| !years.iter().any(|year| grows(crop, year));
    faults.extend(book.crops().filter(nowhere).map(|crop| Fault {
        file: book.file(&crop.id).to_owned(),
        id: crop.id.0.clone(),
        figure: String::from("clock"),
        words: format!(
            "it succeeds at none of the {} built-in climates: its limits leave it no time",
            years.len()
        ),
    }));
    // What was left out of the grower's own files has been said with file and line.
    let whole = faults.is_empty() && desk.said.is_empty();
    let climates = years.len();
    Answer::either(
        args.json,
        || say::check_book_text(book, &faults, climates),
        || say::check_book_json(book, &faults),
    )
    .saying(desk.said)
    .code(if whole { Code::Done } else { Code::Wrong })
}

/// The family meant by a name.
fn family<'a>(book: &'a Book, word: &str) -> Result<&'a str, Trouble> {
    let wanted = word.trim().to_lowercase();
    let called = |name: &str| {
        let name = name.to_lowercase();
        name == wanted || name.strip_suffix(" family") == Some(&wanted)
    };
    if let Some(found) = book.families().find(|f| called(&f.name) || called(&f.common)) {
        return Ok(&found.name);
    }
    let names: Vec<&str> = book.families().flat_map(|f| [f.name.as_str(), f.common.as_str()]).collect();
    let hint = nearest(word, names.iter().copied())
        .map_or_else(String::new, |near| format!("; did you mean '{near}'?"));
    Err(Trouble::Wrong(format!("the book has no family '{word}'{hint}")))
}

/// A place, and a cell of it.
type Spot<'a> = (&'a Place, Option<(u16, u16)>);

/// The place and the cell that are meant.
fn spot<'a>(plan: &'a Plan, choice: &Choice) -> Result<Option<Spot<'a>>, Trouble> {
    let Some(word) = &choice.place else { return Ok(None) };
    let place = super::next::place(plan, word)?;
    let cell = choice.cell.as_deref().map(|cell| super::next::cell(plan, place, cell)).transpose()?;
    Ok(Some((place, cell.map(|block: Block| (block.row, block.col)))))
}

/// Mean hours of sun on a cell, or on all cells of a place.
fn sun(plan: &Plan, book: &Book, year: &SiteYear, season: Season, at: Spot<'_>) -> f64 {
    if let Some(cell) = at.1 {
        return plan.sun_on(book, year, season, at.0, cell);
    }
    let light = plan.light(book, year, season);
    let cells = light.iter().find(|l| l.place.id == at.0.id).map_or(&[][..], |l| &l.season);
    cells.iter().sum::<f64>() / crate::units::num::real(cells.len().max(1))
}

/// The crops that are what is wanted.
fn choose(args: &Args, desk: &Desk, here: &Here) -> Result<Answer, Trouble> {
    let (book, choice) = (&*desk.book, &args.choice);
    let year = match (&desk.plan, &choice.site) {
        (Some(plan), _) => Some(SiteYear::new(&plan.site)?),
        (None, Some(id)) => Some(SiteYear::preset(id)?),
        (None, None) => None,
    };
    if choice.is_dated() && year.is_none() {
        return Err(Trouble::wrong(
            "dates want a climate: name a garden with --plan, or a built-in climate with --site ('catchcrop site' lists \
             them)",
        ));
    }
    let from = choice.from.unwrap_or(here.today);
    let spot = desk.plan.as_ref().map(|plan| spot(plan, choice)).transpose()?.flatten();
    let mut wanted = spot.map_or_else(Wanted::default, |(place, cell)| place.offers(cell));
    wanted.uses = choice.uses.iter().map(|u| Use::from(*u)).collect();
    wanted.family = choice.family.as_deref().map(|f| family(book, f).map(str::to_owned)).transpose()?;
    wanted.room = choice.room.or(wanted.room);
    match (choice.pot, choice.depth) {
        (Some(volume), Some(depth)) => wanted.pot = Some((volume, depth)),
        (_, depth) => wanted.depth = depth.or(wanted.depth),
    }
    if choice.no_support {
        wanted.support = Some(false);
    }
    wanted.sun = choice.sun;
    if let (None, Some(plan), Some(year), Some(at)) = (choice.sun, &desk.plan, &year, spot) {
        let season = plan.season(from, year.season_start_or_january());
        wanted.sun = Some(crate::units::num::narrow(sun(plan, book, year, season, at)));
    }
    let found: Option<Vec<&Crop>> =
        choice.find.as_ref().map(|words| book.search(words).into_iter().map(|hit| hit.crop).collect());
    let meant = |crop: &Crop| found.as_ref().is_none_or(|f| f.iter().any(|c| c.id == crop.id));
    let asked = say::Asked {
        words: wanted.words(desk.measure),
        find: choice.find.clone(),
        place: spot.map(|(place, _)| place.name.clone()),
        free: year.as_ref().map(|_| Free { today: here.today, from, weeks: choice.weeks }),
    };
    let Some(year) = year else {
        let mut crops = book.suited(&wanted, meant);
        if let Some(found) = &found {
            crops.sort_by_key(|crop| found.iter().position(|c| c.id == crop.id));
        }
        return Ok(Answer::either(
            args.json,
            || say::chosen_text(&crops, &asked, desk.measure),
            || crops.iter().map(|crop| say::crop_json(book, crop, None)).collect(),
        ));
    };
    let free = Free { today: here.today, from, weeks: choice.weeks };
    let open = super::grow::open(desk.plan.as_ref(), book, &year);
    let conditions =
        |crop: &Crop| desk.plan.as_ref().map_or_else(|| open.clone(), |plan| plan.raised_for(&open, crop));
    let mut fits = fitting(book, &wanted, spot.map(|(place, _)| place), free, conditions);
    fits.retain(|fit| meant(fit.crop));
    Ok(Answer::either(
        args.json,
        || say::fitting_text(&fits, &asked, free),
        || fits.iter().map(|fit| say::fitting_json(book, fit)).collect(),
    ))
}
