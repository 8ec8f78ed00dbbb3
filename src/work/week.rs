//! A week of the garden: what stands where, what there is to do, and the sky.

use super::amounts::count;
use super::job::Job;
use super::jobs::{due, jobs};
use super::sky::Sky;
use crate::calendar::{Date, Week, day_text};
use crate::crop::{Book, CropId};
use crate::garden::{Layer, PlaceId};
use crate::growth::Stage;
use crate::plan::{Plan, PlantingId};
use crate::site::SiteYear;
use crate::units::Measure;
use serde::Serialize;
use std::fmt::Write as _;

/// Columns of the text.
const WIDE: usize = 80;

/// What stands in a block of cells.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CellLine {
    /// The bed or pot.
    pub place: PlaceId,
    /// Its name.
    #[serde(skip)]
    pub place_name: String,
    /// The cells: "A1-B2".
    #[serde(rename = "cells")]
    pub block: String,
    /// The layer.
    pub layer: Layer,
    /// The planting.
    pub planting: PlantingId,
    /// Its crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// Plants in the block.
    pub plants: u16,
    /// The stage reached.
    #[serde(serialize_with = "word")]
    pub stage: Option<Stage>,
    /// When it was reached.
    pub since: Option<Date>,
    /// The next stage.
    #[serde(serialize_with = "word")]
    pub next: Option<Stage>,
    /// When it is expected.
    pub next_on: Option<Date>,
}

#[expect(clippy::ref_option, clippy::trivially_copy_pass_by_ref, reason = "serde hands out references")]
fn word<S: serde::Serializer>(stage: &Option<Stage>, out: S) -> Result<S::Ok, S::Error> {
    stage.map(Stage::word).serialize(out)
}

/// A week of the garden.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeekReport {
    /// "2027-W19".
    pub week: String,
    /// Its Monday.
    pub from: Date,
    /// Its Sunday.
    pub to: Date,
    /// What stands where on the garden day.
    pub cells: Vec<CellLine>,
    /// What there is to do.
    pub jobs: Vec<Job>,
    /// Minutes of all jobs together.
    pub minutes: u32,
    /// Mean daylength, hours.
    pub light_hours: f64,
    /// Mean soil temperature at 5 cm, degrees Celsius.
    pub soil_temperature: f64,
    /// Chance that a night of it is at or below 0 C: the mean of its nights.
    pub frost_chance: f64,
    /// The sky of the week.
    #[serde(skip)]
    pub sky: Sky,
    /// Name of the garden.
    #[serde(skip)]
    pub garden: String,
    /// Units of the text.
    #[serde(skip)]
    pub measure: Measure,
}

/// A week as the plan has it: the jobs of that week, none left from before.
pub fn week(plan: &Plan, book: &Book, year: &SiteYear, week: Week) -> WeekReport {
    report(plan, year, week, jobs(plan, book, year, week))
}

/// The week of a day, with what is late and what was left from earlier weeks first.
pub fn today(plan: &Plan, book: &Book, year: &SiteYear, day: Date) -> WeekReport {
    report(plan, year, Week::of(day), due(plan, book, year, day))
}

fn report(plan: &Plan, year: &SiteYear, week: Week, jobs: Vec<Job>) -> WeekReport {
    let day = week.day(plan.settings.garden_day);
    let mut cells = Vec::new();
    for place in plan.places_on(day) {
        let mut here: Vec<_> = plan.plantings_in(&place.id).filter(|p| p.stands_on(day)).collect();
        here.sort_by_key(|p| (p.block.row, p.block.col, p.layer, p.id));
        for p in here {
            let dates = p.dates();
            let staged = || Stage::ALL.into_iter().filter_map(|s| dates.of(s).map(|d| (s, d)));
            let now = staged().filter(|(_, d)| *d <= day).max_by_key(|(_, d)| *d);
            let next = staged().filter(|(_, d)| *d > day).min_by_key(|(_, d)| *d);
            cells.push(CellLine {
                place: place.id.clone(),
                place_name: place.name.clone(),
                block: p.block.to_string(),
                layer: p.layer,
                planting: p.id,
                crop: p.crop.clone(),
                name: p.name.clone(),
                plants: p.plants,
                stage: now.map(|n| n.0),
                since: now.map(|n| n.1),
                next: next.map(|n| n.0),
                next_on: next.map(|n| n.1),
            });
        }
    }
    let sky = Sky::of(year, week);
    let round = |x: f64, places: f64| (x * places).round() / places;
    WeekReport {
        week: week.to_string(),
        from: week.monday(),
        to: week.sunday(),
        cells,
        minutes: jobs.iter().map(|j| u32::from(j.minutes)).sum(),
        jobs,
        light_hours: round(sky.light, 100.0),
        soil_temperature: round(sky.soil, 10.0),
        frost_chance: round(sky.frost, 1000.0),
        garden: plan.name.clone(),
        sky,
        measure: plan.settings.measure,
    }
}

impl WeekReport {
    /// The week for a terminal of 80 columns.
    pub fn words(&self) -> String {
        let span = format!("{} - {}", day_text(self.from), day_text(self.to));
        let mut out =
            format!("{}: week {}, {span}\n{}\n", self.garden, self.week, self.sky.words(self.measure));
        self.write_jobs(&mut out);
        self.write_cells(&mut out);
        out
    }

    fn write_jobs(&self, out: &mut String) {
        if self.jobs.is_empty() {
            out.push_str("\nNothing to do.\n");
            return;
        }
        let (hours, minutes) = (self.minutes / 60, self.minutes % 60);
        let time = match (hours, minutes) {
            (0, m) => format!("{m} min"),
            (h, 0) => format!("{h} h"),
            (h, m) => format!("{h} h {m} min"),
        };
        let _ = writeln!(out, "\n{}, about {time}", count(self.jobs.len(), "job", "jobs"));
        let mut before: Option<(bool, &str)> = None;
        for job in &self.jobs {
            let head = (job.late, job.bed.as_str());
            if before != Some(head) {
                let place = if head.1.is_empty() { "The garden" } else { head.1 };
                let _ = writeln!(out, "\n{place}{}", if job.late { " (late)" } else { "" });
                before = Some(head);
            }
            let cells = if job.cells.is_empty() { String::new() } else { format!(" ({})", job.cells) };
            let line = format!("{}{cells}: {}", job.what, job.amount);
            wrap(out, "  - ", "    ", &line);
            let note = format!("{}, {} min: {}", job.when(), job.minutes, job.why);
            wrap(out, "    ", "    ", &note);
        }
    }

    fn write_cells(&self, out: &mut String) {
        let mut before: Option<&PlaceId> = None;
        if !self.cells.is_empty() {
            out.push_str("\nWhat stands\n");
        }
        for cell in &self.cells {
            if before != Some(&cell.place) {
                let _ = writeln!(out, "\n{}", cell.place_name);
                before = Some(&cell.place);
            }
            let mate = if cell.layer == Layer::Mate { "+ " } else { "" };
            let stage = |s: Option<Stage>, d: Option<Date>| {
                s.zip(d).map(|(s, d)| format!("{} {}", s.word(), day_text(d))).unwrap_or_default()
            };
            let now = stage(cell.stage, cell.since);
            let next = stage(cell.next, cell.next_on);
            let then = if next.is_empty() { String::new() } else { format!(", then {next}") };
            let line = format!("{mate}{} x {}: {now}{then}", cell.plants, cell.name);
            wrap(out, &format!("  {:<7} ", cell.block), "          ", &line);
        }
    }
}

/// Writes words between the margins of a terminal.
fn wrap(out: &mut String, first: &str, rest: &str, words: &str) {
    let mut line = first.to_owned();
    let mut bare = true;
    for word in words.split_whitespace() {
        let wide = line.chars().count() + word.chars().count() + usize::from(!bare);
        if wide > WIDE && !bare {
            out.push_str(line.trim_end());
            out.push('\n');
            rest.clone_into(&mut line);
            bare = true;
        }
        if !bare {
            line.push(' ');
        }
        line.push_str(word);
        bare = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}
