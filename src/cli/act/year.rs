//! `needs` and `close`: what a season asks for, and its end.

use super::{Sight, sight};
use crate::calendar::{Date, Season, days_between};
use crate::check::{self, Context};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::{Close, OfSeason, Record, Seasons};
use crate::cli::here::Here;
use crate::cli::say::Outlook;
use crate::cli::{say, whence};
use crate::paper::Source;
use crate::plan::Plan;
use crate::site::SiteYear;
use crate::store::{self, Over, PlanFile};
use crate::work;
use std::path::Path;

/// The season a year or a day names.
pub(super) fn season(plan: &Plan, year: &SiteYear, of: Option<i32>, day: Date) -> Season {
    let start = plan.settings.season_start.unwrap_or_else(|| year.season_start_or_january());
    of.map_or_else(|| Season::holding(day, start), |y| Season::beginning(y, start))
}

/// Seed, seedlings, mix, supports and water of a season.
pub(super) fn needs(args: &OfSeason, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let season = season(plan, &year, args.season, args.on.unwrap_or(here.today));
    let needs = work::needs(plan, &book, &year, season);
    let text = || format!("{}: what season {season} needs\n\n{}", plan.name, needs.words());
    Ok(Answer::either(args.json, text, || serde_json::to_value(&needs).unwrap_or_default()).saying(said))
}

/// What stood where, and what may return.
pub(super) fn record(args: &Record, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let season = season(plan, &year, args.season, args.on.unwrap_or(here.today));
    let context = Context::whole(plan, &book, &year);
    let stood = Source { plan, book: &book, year: &year, season }.record(args.back);
    let outlook = Outlook {
        plan,
        stood: &stood,
        season,
        open: season.last() >= here.today,
        returns: &check::rotation_outlook(&context, season.first(), args.ahead),
        orders: &check::best_order(&context, season.first(), args.ahead),
        pauses: &check::pauses(&context, season.first()),
    };
    Ok(Answer::either(args.json, || say::record_text(&outlook), || say::record_json(&outlook)).saying(said))
}

/// What comes to the kitchen in a season.
pub(super) fn kitchen(args: &OfSeason, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let season = season(plan, &year, args.season, args.on.unwrap_or(here.today));
    let crops = work::kitchen(plan, &book, &year, season);
    let text = || {
        let words = work::kitchen_words(&crops, plan.settings.measure);
        format!("{}: what season {season} is expected to bring\n\n{words}", plan.name)
    };
    Ok(Answer::either(args.json, text, || serde_json::to_value(&crops).unwrap_or_default()).saying(said))
}

/// Seasons side by side.
pub(super) fn seasons(args: &Seasons, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let last = season(plan, &year, args.season, args.on.unwrap_or(here.today));
    let crops = work::seasons(plan, &book, last, args.back);
    let text = || {
        let words = work::seasons_words(&crops, plan.settings.measure);
        format!("{}: seasons side by side, up to {last}\n\n{words}", plan.name)
    };
    Ok(Answer::either(args.json, text, || serde_json::to_value(&crops).unwrap_or_default()).saying(said))
}

/// Closes a season and says what it leaves behind.
pub(super) fn close(args: &Close, here: &Here) -> Result<Answer, Trouble> {
    let mut said = Vec::new();
    let book = whence::book(Some(&args.plan), here, &mut said);
    let (loaded, mut file) = PlanFile::open(&args.plan, &book)?;
    said.extend(loaded.remarks.iter().map(ToString::to_string));
    said.extend(loaded.said);
    let mut plan = loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let today = args.on.unwrap_or(here.today);
    let now = season(&plan, &year, args.season, today);
    // Without a year, the season that is over or nearly so is meant.
    let nearly = 3 * days_between(today, now.last()) < 365;
    let season = if args.season.is_some() || nearly { now } else { now.plus(-1) };
    if season.first() > today {
        return Err(Trouble::Wrong(format!(
            "season {season} begins on {}: it cannot be closed before it has begun",
            say::full_day(season.first())
        )));
    }
    if args.reopen {
        plan.apply(&work::reopen(&plan, season))?;
        said.extend(file.save(&plan, Over::Never)?.said);
        return Ok(Answer::text(format!("{}: season {season} is open again\n", plan.name)).saying(said));
    }
    let again = plan.closed.contains(&season.year());
    let closing = work::closing(&plan, &book, &year, season);
    plan.apply(&work::close(&plan, season))?;
    said.extend(file.save(&plan, Over::Never)?.said);
    if args.yields {
        said.push(yields(&args.plan, &work::yields_text(&plan, &book))?);
    }
    let mut text = format!(
        "{}: season {season} {}\n",
        plan.name,
        if again { "was closed already" } else { "is closed" }
    );
    text.push_str(&closing.words(plan.settings.measure));
    Ok(Answer::either(args.json, || text, || say::closing_json(&closing)).saying(said))
}

/// Writes the garden's own yields beside it.
fn yields(plan: &Path, text: &str) -> Result<String, Trouble> {
    if text.is_empty() {
        return Ok(String::from("no pickings are written down: the book's yields stay"));
    }
    let path = plan.parent().unwrap_or_else(|| Path::new("")).join("crops").join("yields.ron");
    store::write_beside(&path, text.as_bytes())?;
    Ok(format!("own yields written to {}; delete the file to go back to the book", path.display()))
}
