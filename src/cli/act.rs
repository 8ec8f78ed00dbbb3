//! From arguments to answers.

mod book;
mod diary;
mod fill;
mod grow;
mod new;
mod next;
mod open;
mod paper;
mod year;

use super::answer::{Answer, Code, Trouble};
use super::args::{self, Cli, Command};
use super::here::Here;
use super::say;
use super::whence::{self, climate};
use crate::calendar::{Date, Week};
use crate::check::{self, Context};
use crate::crop::{Book, Crop};
use crate::plan::Edit;
use crate::site::{SiteYear, Weather, station};
use crate::store::{self, Loaded};
use crate::units::Measure;
use crate::work::{self, WeekReport};
use clap::CommandFactory;
use std::borrow::Cow;
use std::path::Path;
use std::sync::Arc;

/// Does what the arguments ask for.
///
/// # Errors
/// Where it cannot be done: with words that say what to do.
pub(super) fn run(cli: Cli, here: &Here) -> Result<Answer, Trouble> {
    match cli.command {
        None => open::garden(&cli, here),
        Some(Command::New(args)) => new::make(&args, here),
        Some(Command::Fill(args)) => fill::run(&args, here),
        Some(Command::Next(args)) => next::run(&args, here),
        Some(Command::Check(args)) => judge(&args, here),
        Some(Command::Week(args)) => week(&args, here),
        Some(Command::Weeks(args)) => paper::weeks(&args, here),
        Some(Command::Needs(args)) => year::needs(&args, here),
        Some(Command::Record(args)) => year::record(&args, here),
        Some(Command::Kitchen(args)) => year::kitchen(&args, here),
        Some(Command::Seasons(args)) => year::seasons(&args, here),
        Some(Command::Close(args)) => year::close(&args, here),
        Some(Command::Note(args)) => diary::write(&args, here),
        Some(Command::Print(args)) => paper::print(&args, here),
        Some(Command::Schedule(args)) => grow::schedule(&args, here),
        Some(Command::Window(args)) => grow::window(&args, here),
        Some(Command::Site(args)) => site(args, here),
        Some(Command::Book(args)) => book::run(&args, here),
        Some(Command::Completions { shell }) => {
            let mut out = Vec::new();
            clap_complete::generate(shell, &mut Cli::command(), "catchcrop", &mut out);
            Ok(Answer { out, said: Vec::new(), code: Code::Done })
        }
    }
}

/// A garden to look at, with the crop book that goes with it.
struct Sight {
    loaded: Loaded,
    book: Cow<'static, Book>,
    said: Vec<String>,
}

/// Opens a garden to look at.
fn sight(path: &Path, here: &Here) -> Result<Sight, Trouble> {
    let mut said = Vec::new();
    let book = whence::book(Some(path), here, &mut said);
    let mut loaded = store::look(path, &book)?;
    said.extend(loaded.remarks.iter().map(ToString::to_string));
    said.append(&mut loaded.said);
    Ok(Sight { loaded, book, said })
}

/// A crop by its id or any of its names.
fn find<'a>(book: &'a Book, word: &str) -> Result<&'a Crop, Trouble> {
    book.named(word).map_err(|unknown| Trouble::Wrong(unknown.to_string()))
}

fn judge(args: &args::Check, here: &Here) -> Result<Answer, Trouble> {
    if let Some(code) = &args.explain {
        return say::explain_text(code).map(Answer::text).map_err(Trouble::Wrong);
    }
    let Some(path) = &args.plan else { return Err(Trouble::wrong("name a garden to check")) };
    let sight = sight(path, here)?;
    let plan = &sight.loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let season = args.on.map(|day| year::season(plan, &year, None, day).first());
    let (from, to) = (args.from.or(season).unwrap_or(Date::MIN), args.to.unwrap_or(Date::MAX));
    let context = Context::new(plan, &sight.book, &year, from, to);
    let findings = check::check(&context);
    let code = if check::stops(&findings) { Code::Stops } else { Code::Done };
    Ok(Answer::either(args.json, || say::check_text(plan, &findings), || say::check_json(&findings))
        .saying(sight.said)
        .code(code))
}

/// The week of a day: with what is left from earlier weeks where it is the week of today.
fn report(sight: &Sight, on: Option<Date>, here: &Here) -> Result<WeekReport, Trouble> {
    let plan = &sight.loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let day = on.unwrap_or(here.today);
    Ok(if on.is_none() || Week::of(day).holds(here.today) {
        work::today(plan, &sight.book, &year, day)
    } else {
        work::week(plan, &sight.book, &year, Week::of(day))
    })
}

/// What the weather of a daily file moves: lines that say it, and the edit.
fn weathered(sight: &Sight, path: &Path) -> Result<(Vec<String>, Edit), Trouble> {
    let plan = &sight.loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let wrong = |words: String| Trouble::Wrong(format!("{}: {words}", path.display()));
    let file = station::read(&store::read_bytes(path)?).map_err(|e| wrong(e.to_string()))?;
    let weather = Weather::new(&file, &year).map_err(|e| wrong(e.to_string()))?;
    let celsius = weather.departure(&year);
    let (off, unit) = match plan.settings.measure {
        Measure::Us => (celsius * 1.8, "F"),
        Measure::Metric => (celsius, "C"),
    };
    let side = if off < 0.0 { "colder" } else { "warmer" };
    let mut lines = vec![format!("weather {}: {:.1} {unit} {side} than normal", weather.words(), off.abs())];
    let forecast = work::weathered(plan, &sight.book, &year, &Arc::new(weather));
    if forecast.is_still() {
        lines.push(String::from("no date moves"));
    }
    lines.extend(forecast.moved);
    lines.extend(forecast.conflicts);
    Ok((lines, forecast.edit))
}

fn week(args: &args::Week, here: &Here) -> Result<Answer, Trouble> {
    let mut sight = sight(&args.plan, here)?;
    if let Some(path) = &args.daily {
        let (lines, edit) = weathered(&sight, path)?;
        sight.said.extend(lines);
        sight.loaded.plan.apply(&edit)?;
        if args.write {
            let (_, mut file) = store::PlanFile::open(&args.plan, &sight.book)?;
            sight.said.extend(file.save(&sight.loaded.plan, store::Over::Never)?.said);
        }
    }
    let report = report(&sight, args.on, here)?;
    let json = || serde_json::to_value(&report).unwrap_or_default();
    Ok(Answer::either(args.json, || report.words(), json).saying(sight.said))
}

fn site(mut args: args::Site, here: &Here) -> Result<Answer, Trouble> {
    args.whence.site = args.of.or(args.whence.site);
    let named = args.whence.site.is_some() || args.whence.lat.is_some() || args.whence.daily.is_some();
    if !named {
        return Ok(Answer::either(args.json, say::climates_text, say::climates_json));
    }
    let climate = climate(&args.whence, here)?;
    if args.sun {
        let Some(plan) = &climate.plan else {
            return Err(Trouble::wrong("--sun is about the beds of a garden: catchcrop site PLAN --sun"));
        };
        let mut said = climate.said.clone();
        let book = whence::book(args.whence.site.as_deref().map(Path::new), here, &mut said);
        let start = climate.year.season_start_or_january();
        let season = plan.season(args.on.unwrap_or(here.today), start);
        let light = plan.light(&book, &climate.year, season);
        return Ok(Answer::either(
            args.json,
            || say::sun_text(&light, &climate.year, season),
            || say::sun_json(&light, &climate.year, season),
        )
        .saying(said));
    }
    Ok(Answer::either(
        args.json,
        || say::site_text(&climate.year, climate.measure, climate.risk),
        || say::site_json(&climate.year),
    )
    .saying(climate.said))
}
