//! `print` and `weeks`: the sheets of a garden.

use super::year::season;
use super::{Sight, sight};
use crate::calendar::{Date, Week};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::{OfSeason, PaperWord, Print};
use crate::cli::here::Here;
use crate::cli::say;
use crate::paper::{self, Extra, Form, Imprint, Leaf, Paper, Sheet, Source, Stamp};
use crate::site::SiteYear;
use crate::store;
use crate::units::Measure;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Seasons back of the record sheet.
const RECORD_YEARS: u16 = 6;
/// Weeks of jobs on paper, unless more are asked for.
const MONTH_AHEAD: u16 = 5;

fn imprint(source: &Source<'_>, paper: Option<PaperWord>, day: Date) -> Imprint {
    let paper = match (paper, source.plan.settings.measure) {
        (Some(PaperWord::A4), _) | (None, Measure::Metric) => Paper::A4,
        (Some(PaperWord::Letter), _) | (None, Measure::Us) => Paper::Letter,
    };
    source.imprint(paper, day)
}

fn stamp(source: &Source<'_>, day: Date, hour: Option<u8>) -> Stamp {
    source.stamp(day.and_time(chrono::NaiveTime::MIN), hour)
}

/// The whole timeline as text.
pub(super) fn weeks(args: &OfSeason, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let day = args.on.unwrap_or(here.today);
    let source = Source { plan, book: &book, year: &year, season: season(plan, &year, args.season, day) };
    if args.json {
        return Ok(Answer::text(format!("{:#}\n", say::weeks_json(plan, source.season))).saying(said));
    }
    let leaf = Leaf::Weeks(source.timeline());
    let print = paper::print(&[leaf], Form::Text, &imprint(&source, None, day), &stamp(&source, day, None))
        .map_err(|e| Trouble::Wrong(e.to_string()))?;
    let out = print.files.into_iter().flat_map(|f| f.bytes).collect();
    Ok(Answer { out, ..Answer::text("") }.saying(said))
}

/// Prints sheets to files.
pub(super) fn print(args: &Print, here: &Here) -> Result<Answer, Trouble> {
    let ending = args.to.extension().and_then(|e| e.to_str()).unwrap_or_default();
    let form = Form::of(ending).map_err(Trouble::Wrong)?;
    let Sight { loaded, book, mut said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let day = args.on.unwrap_or(here.today);
    let source = Source { plan, book: &book, year: &year, season: season(plan, &year, args.season, day) };
    let wanted: BTreeSet<Sheet> = match (&args.what[..], form) {
        ([], Form::Calendar) => BTreeSet::from([Sheet::Jobs, Sheet::Weeks]),
        ([], _) => Sheet::USUAL.into_iter().collect(),
        (what, _) => what.iter().copied().collect(),
    };
    let week = Week::of(if source.season.holds(day) { day } else { source.season.first() });
    // The wall wants the month ahead; files for other programs want the season.
    let weeks = args.weeks.or(match form {
        Form::Pages(_) | Form::Text | Form::Markdown => Some(MONTH_AHEAD),
        Form::Calendar | Form::Csv | Form::Json => None,
    });
    let extra = Extra { week, years: RECORD_YEARS, weeks };
    let what: Vec<Sheet> = wanted.into_iter().collect();
    let leaves = source.leaves(&what, extra);
    let print =
        paper::print(&leaves, form, &imprint(&source, args.paper, day), &stamp(&source, day, args.remind))
            .map_err(|e| Trouble::Wrong(e.to_string()))?;
    let files: Vec<(PathBuf, &[u8])> =
        print.files.iter().map(|f| (named(&args.to, &f.suffix), f.bytes.as_slice())).collect();
    // All or none: a half-new set of pages would be worse than the old one.
    if !args.force
        && let Some((path, _)) = files.iter().find(|(path, _)| path.exists())
    {
        return Err(Trouble::Io(format!(
            "{} is there already: choose another name, or print over it with --force",
            path.display()
        )));
    }
    let mut out = String::new();
    for (path, bytes) in &files {
        store::write_out(path, bytes, args.force)?;
        out.push_str(&path.display().to_string());
        out.push('\n');
    }
    for m in print.missing {
        said.push(format!(
            "'{}' of \"{}\" is in none of the faces and prints as an empty box",
            m.letter, m.words
        ));
    }
    Ok(Answer::text(out).saying(said))
}

/// `yard.svg` and "-2" give `yard-2.svg`.
fn named(to: &Path, suffix: &str) -> PathBuf {
    if suffix.is_empty() {
        return to.to_owned();
    }
    let stem = to.file_stem().unwrap_or_default().to_string_lossy();
    let ending = to.extension().unwrap_or_default().to_string_lossy();
    to.with_file_name(format!("{stem}{suffix}.{ending}"))
}
