//! `print` and `weeks`: the sheets of a garden.

use super::year::season;
use super::{Sight, sight};
use crate::calendar::{Date, Week, day_text};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::{PaperWord, Print, Weeks};
use crate::cli::here::Here;
use crate::cli::say;
use crate::paper::{
    self, Extra, Form, Imprint, JobList, JobWeek, Leaf, NeedsList, NeedsPart, NeedsRow, Paper, Sheet, Source,
    Stamp,
};
use crate::site::SiteYear;
use crate::store;
use crate::units::{Amount, Length, LengthUnit, Measure, Volume, VolumeUnit};
use crate::work;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Seasons back of the record sheet.
const RECORD_YEARS: u16 = 6;

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
pub(super) fn weeks(args: &Weeks, here: &Here) -> Result<Answer, Trouble> {
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
    let extra = Extra { jobs: job_list(&source, week), needs: shopping(&source), years: RECORD_YEARS, week };
    let what: Vec<Sheet> = wanted.into_iter().collect();
    let leaves = source.leaves(&what, &extra);
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

/// The jobs from a week to the end of the season.
fn job_list(source: &Source<'_>, from: Week) -> JobList {
    let last = Week::of(source.season.last());
    let jobs = work::jobs_between(source.plan, source.book, source.year, from, last);
    let weeks = std::iter::successors(Some(from), |w| Some(w.plus(1)))
        .take_while(|w| *w <= last)
        .map(|week| JobWeek {
            week,
            note: say::sky_words(source.plan, source.year, week),
            jobs: jobs.iter().filter(|j| week.holds(j.best)).map(paper_job).collect(),
        })
        .collect();
    let note = String::from("Minutes are estimates; set your own in the garden file.");
    JobList { title: format!("Jobs of {}", source.season), note, weeks }
}

fn paper_job(job: &work::Job) -> paper::Job {
    paper::Job {
        id: job.id.clone(),
        what: job.what.clone(),
        place: job.where_words.clone(),
        amount: job.amount.clone(),
        from: job.from,
        to: job.to,
        minutes: job.minutes.into(),
        why: job.why.clone(),
        done: false,
    }
}

/// The shopping list of the season.
fn shopping(source: &Source<'_>) -> NeedsList {
    let needs = work::needs(source.plan, source.book, source.year, source.season);
    let measure = source.plan.settings.measure;
    let row = |what: &str, amount: String, detail: String, by: Option<Date>| NeedsRow {
        what: what.to_owned(),
        amount,
        detail,
        by,
    };
    let part = |head: &str, note: &str, rows: Vec<NeedsRow>| NeedsPart {
        head: head.to_owned(),
        note: note.to_owned(),
        rows,
    };
    let weight = |grams: f64| Amount::grams(grams, measure).reading(measure);
    let litres = |l: f64| Volume::new(l, VolumeUnit::L).for_measure(measure).rounded(0);
    let seeds = needs.seeds.iter().map(|s| {
        let buy = if s.to_buy == 0 {
            String::from("the drawer has enough")
        } else {
            format!("{} packet{}", s.packets, if s.packets == 1 { "" } else { "s" })
        };
        row(&s.name, buy, format!("{} seeds in {} sowings. {}", s.seeds, s.sowings, s.about), Some(s.by))
    });
    let plants = needs
        .plants
        .iter()
        .map(|p| row(&p.name, format!("{} {}", p.count, p.what), String::new(), Some(p.by)));
    let mix = needs.mix.iter().map(|m| {
        row(
            &m.name,
            litres(m.mix.order_litres),
            format!("soaked {}", weight(m.mix.soaked_kg * 1000.0)),
            Some(m.on),
        )
    });
    let supports = needs.supports.iter().map(|s| {
        let height = Length::new(s.height_m, LengthUnit::M).for_measure(measure).rounded(1);
        let must = if s.needed { "" } else { "helps" };
        row(&s.name, height, format!("{} {must}", s.where_words), Some(s.by))
    });
    let seedlings = needs
        .seedlings
        .iter()
        .filter(|w| !w.start.is_empty())
        .map(|w| row(&w.week, format!("{} of {} cells", w.cells, w.room), w.start.join(", "), None));
    let water = needs.water.iter().map(|w| {
        let most = w.weeks.iter().max_by(|a, b| a.litres.total_cmp(&b.litres));
        let detail = most.map_or_else(String::new, |m| format!("at most {} in {}", litres(m.litres), m.week));
        row(&w.name, litres(w.litres), detail, None)
    });
    let parts = vec![
        part("Seed", "A fifth more than plants wanted; packets of the usual size.", seeds.collect()),
        part("Sets, tubers, cloves, young plants", "", plants.collect()),
        part("Seedlings by week", "", seedlings.collect()),
        part("Potting mix and soil", "15 % more, because it settles.", mix.collect()),
        part("Supports that are not there yet", "", supports.collect()),
        part("Water", "A floor: boxes and pots dry at the rim and drain.", water.collect()),
    ];
    NeedsList {
        title: format!("Needs of {}", source.season),
        note: format!("From {} on.", day_text(source.season.first())),
        parts: parts.into_iter().filter(|p| !p.rows.is_empty()).collect(),
    }
}
