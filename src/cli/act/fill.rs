//! `fill`: the garden filled from a date on, or a problem file solved.

use super::{Sight, sight};
use crate::calendar::{Date, Season, days_between};
use crate::check::{self, Context};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::{EffortWord, Fill};
use crate::cli::here::Here;
use crate::cli::say::{self, Filled};
use crate::cli::whence;
use crate::crop::Book;
use crate::fill::{Dropped, Effort, Request, build, read_problem, search, write_problem};
use crate::plan::Plan;
use crate::site::SiteYear;
use crate::store::{self, Over, PlanFile};
use crate::units::num;
use std::path::Path;
use std::time::Instant;

/// Fills a garden and prints the proposal; with `--write` it is accepted and saved.
pub(super) fn run(args: &Fill, here: &Here) -> Result<Answer, Trouble> {
    if let Some(path) = &args.problem {
        return solve(path, args);
    }
    let Some(path) = &args.plan else { return Err(Trouble::wrong("name a garden to fill")) };
    if let Some(file) = &args.write_problem {
        let Sight { loaded, book, said } = sight(path, here)?;
        return Ok(write_question(&loaded.plan, &book, (file, args), here)?.saying(said));
    }
    if let Some(rule) = args.without {
        let Sight { loaded, book, said } = sight(path, here)?;
        return Ok(suppose(&loaded.plan, &book, (rule.into(), args), here)?.saying(said));
    }
    if !args.write {
        let Sight { loaded, book, said } = sight(path, here)?;
        let (answer, _) = filled(&loaded.plan, &book, args, here)?;
        return Ok(answer.saying(said));
    }
    let mut said = Vec::new();
    let book = whence::book(Some(path), here, &mut said);
    let (loaded, mut file) = PlanFile::open(path, &book)?;
    said.extend(loaded.remarks.iter().map(ToString::to_string));
    said.extend(loaded.said);
    let (answer, plan) = filled(&loaded.plan, &book, args, here)?;
    let saved = file.save(&plan, Over::Never)?;
    said.extend(saved.said);
    said.push(format!("written to {}", path.display()));
    Ok(answer.saying(said))
}

fn effort(args: &Fill) -> Effort {
    match args.effort {
        EffortWord::Quick => Effort::Quick,
        EffortWord::Usual => Effort::Usual,
        EffortWord::Deep => Effort::Deep,
    }
}

/// The answer, and the plan with the proposal accepted.
fn filled(plan: &Plan, book: &Book, args: &Fill, here: &Here) -> Result<(Answer, Plan), Trouble> {
    let year = SiteYear::new(&plan.site)?;
    let begun = Instant::now();
    let (request, season) = request(plan, &year, args, here);
    let from = request.from;
    let built = build(plan, book, &year, request);
    let outcome = search(&built.problem, &effort(args), args.seed, &mut |_| {});
    let proposal = built.proposal(&outcome);
    let milliseconds = begun.elapsed().as_millis();
    let mut after = plan.clone();
    after.apply(&proposal.edit())?;
    // Judged by someone else: a proposal must not add a stop.
    let stops = |plan: &Plan| {
        let findings = check::check(&Context::new(plan, book, &year, from, Date::MAX));
        findings.into_iter().filter(|f| f.weight == check::Weight::Stop && f.counts()).collect::<Vec<_>>()
    };
    let there = stops(plan);
    let added = stops(&after).into_iter().filter(|f| !there.contains(f)).collect();
    let points = |units: i64| num::real_i(units) / num::real_i(built.problem.point.max(1));
    let filled = Filled {
        before: plan,
        plan: &after,
        proposal: &proposal,
        bound: points(outcome.bound),
        from,
        season,
        milliseconds: u64::try_from(milliseconds).unwrap_or(u64::MAX),
        added,
    };
    Ok((Answer::either(args.json, || say::fill_text(&filled), || say::fill_json(&filled)), after))
}

/// The day to fill from: as it is asked for, else today, or the first day of the next season where less than a third
/// of this one is left.
fn from(plan: &Plan, year: &SiteYear, args: &Fill, today: Date) -> (Date, Season) {
    let start = plan.settings.season_start.unwrap_or_else(|| year.season_start_or_january());
    if let Some(from) = args.from {
        return (from, Season::holding(from, start));
    }
    let now = Season::holding(today, start);
    let season = match args.season {
        Some(y) => Season::beginning(y, start),
        None if 3 * days_between(today, now.last()) < 365 => now.plus(1),
        None => now,
    };
    (season.first().max(today.min(season.last())), season)
}

/// What is asked of the fill.
fn request(plan: &Plan, year: &SiteYear, args: &Fill, here: &Here) -> (Request, Season) {
    let (from, season) = from(plan, year, args, args.on.unwrap_or(here.today));
    (if args.again { Request::again(from) } else { Request::from(from) }, season)
}

/// Writes the question of a garden to a file.
fn write_question(
    plan: &Plan,
    book: &Book,
    (file, args): (&Path, &Fill),
    here: &Here,
) -> Result<Answer, Trouble> {
    let year = SiteYear::new(&plan.site)?;
    let (request, _) = request(plan, &year, args, here);
    let problem = build(plan, book, &year, request).problem;
    let text = write_problem(&problem).map_err(|e| Trouble::Wrong(e.to_string()))?;
    store::write_out(file, text.as_bytes(), args.force)?;
    Ok(Answer::either(
        args.json,
        || say::question_text(&problem, request.from, file),
        || say::question_json(&problem, request.from, file),
    ))
}

/// Fills as it is and without one rule.
fn suppose(plan: &Plan, book: &Book, (rule, args): (Dropped, &Fill), here: &Here) -> Result<Answer, Trouble> {
    let year = SiteYear::new(&plan.site)?;
    let (request, season) = request(plan, &year, args, here);
    let fill = |request: Request| {
        let built = build(plan, book, &year, request);
        built.proposal(&search(&built.problem, &effort(args), args.seed, &mut |_| {}))
    };
    let supposed =
        say::Supposed { plan, season, rule, now: fill(request), then: fill(request.without(rule)) };
    Ok(Answer::either(args.json, || say::supposed_text(&supposed), || say::supposed_json(&supposed)))
}

/// Solves a problem file.
fn solve(path: &Path, args: &Fill) -> Result<Answer, Trouble> {
    let text = store::read_text(path)?;
    let problem =
        read_problem(&text, true).map_err(|e| Trouble::Wrong(format!("{}: {e}", path.display())))?;
    let begun = Instant::now();
    let outcome = search(&problem, &effort(args), args.seed, &mut |_| {});
    let milliseconds = u64::try_from(begun.elapsed().as_millis()).unwrap_or(u64::MAX);
    Ok(Answer::either(
        args.json,
        || say::outcome_text(&problem, &outcome),
        || say::outcome_json(&problem, &outcome, milliseconds),
    ))
}
