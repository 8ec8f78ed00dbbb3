//! The jobs, week by week, as a tick list.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::page::{Page, Style};
use super::table::{self, Cell, Column, Table};
use super::words::{self, iso, span};
use crate::calendar::{Date, Week};

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// A lasting name, the same in every print of the plan.
    pub id: String,
    /// What: "Sow carrot".
    pub what: String,
    /// Where: "Long box"; jobs of one place stand together.
    pub place: String,
    /// The cells of it, or the pot: "A1-B2".
    pub cells: String,
    /// How much: "32 seeds, 3 in apart, 1/4 in deep".
    pub amount: String,
    /// First day on which it may be done.
    pub from: Date,
    /// Last day.
    pub to: Date,
    /// Minutes it takes.
    pub minutes: u32,
    /// Why now.
    pub why: String,
}

/// The jobs of one week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobWeek {
    /// The week.
    pub week: Week,
    /// Facts of the week: light, frost, soil.
    pub note: String,
    /// The jobs.
    pub jobs: Vec<Job>,
}

/// Weeks of jobs.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct JobList {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// The weeks, in order.
    pub weeks: Vec<JobWeek>,
}

const COLUMNS: [Column<'static>; 6] = [
    table::words("What", 25.0),
    table::words("Cells", 14.0),
    table::words("How much", 27.0),
    table::words("Why now", 22.0),
    table::words("When", 11.0),
    table::figures("Minutes", 6.0),
];
const WEEK: Style = Style::bold(9.6);
const NOTE: Style = Style::plain(7.6).soft();
const TALLY: Style = Style::plain(7.6).soft().end();
const BED: Style = Style::bold(7.4).soft();
/// Room above and below the words of a job: a season has hundreds, and each is a line or two.
const TIGHT: f64 = 1.6;
/// Height of the head of a bed.
const BED_HEAD: f64 = 13.0;

impl JobList {
    /// Draws the list, each week by places; weeks without jobs are left out.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame = Frame {
            imprint,
            orientation: imprint.lies(Orientation::Portrait),
            title: &self.title,
            note: &self.note,
        };
        let mut flow = Flow::new(frame);
        let table = Table { columns: &COLUMNS, tick: true, pad: TIGHT };
        table.head(&mut flow);
        for week in self.weeks.iter().filter(|w| !w.jobs.is_empty()) {
            let rows: Vec<_> = week.jobs.iter().map(cells).collect();
            let tall = |n: usize| rows.get(n).map_or(0.0, |r| table.height(&flow, r));
            // A head never stands alone at the foot of a page: it keeps its first two jobs.
            let start = 34.0 + 2.0 * BED_HEAD + tall(0) + tall(1);
            if flow.need(start) {
                table.head(&mut flow);
            }
            head(&mut flow, week, false);
            let mut at: Option<&str> = None;
            for (job, row) in week.jobs.iter().zip(&rows) {
                let new = at != Some(job.place.as_str());
                let here = if new { bed_height(&flow, &job.place) } else { 0.0 };
                if flow.room() < here + table.height(&flow, row) && !flow.fresh() {
                    flow.turn();
                    table.head(&mut flow);
                    head(&mut flow, week, true);
                    bed(&mut flow, &job.place, !new);
                } else if new {
                    bed(&mut flow, &job.place, false);
                }
                at = Some(&job.place);
                table.row(&mut flow, row, &mut |flow| {
                    flow.turn();
                    table.head(flow);
                    head(flow, week, true);
                });
            }
        }
        flow.finish()
    }
}

/// What stands over the jobs of a place.
fn bed_words(place: &str, again: bool) -> String {
    match (place.trim(), again) {
        ("", _) => String::from("The garden"),
        (place, false) => place.to_owned(),
        (place, true) => format!("{place}, continued"),
    }
}

fn bed_height(flow: &Flow<'_>, place: &str) -> f64 {
    let (left, right) = flow.sides();
    let lines = BED.lines(&bed_words(place, true), right - left).len();
    BED_HEAD - BED.leading() + BED.leading() * crate::units::num::real(lines)
}

fn bed(flow: &mut Flow<'_>, place: &str, again: bool) {
    let (left, right) = flow.sides();
    let tall = bed_height(flow, place);
    let y = flow.y + 9.5;
    flow.page().wrap(left, y, right - left, BED, &bed_words(place, again));
    flow.y += tall;
}

fn cells(job: &Job) -> [Cell; 6] {
    let minutes = if job.minutes == 0 { String::new() } else { job.minutes.to_string() };
    [
        Cell::tight_strong(&job.what),
        Cell::tight(&job.cells),
        Cell::tight(&job.amount),
        Cell::fine(&job.why),
        Cell::tight(&span(job.from, job.to)),
        Cell::tight(&minutes),
    ]
}

/// Columns of the jobs as records.
const RECORD: [&str; 10] = ["id", "week", "what", "place", "cells", "amount", "from", "to", "minutes", "why"];

impl JobList {
    fn each(&self) -> impl Iterator<Item = (Week, &Job)> {
        self.weeks.iter().flat_map(|w| w.jobs.iter().map(move |j| (w.week, j)))
    }

    /// The list in words, a table a week.
    pub fn grids(&self) -> Vec<Grid> {
        let week = |w: &JobWeek| {
            let rows = w.jobs.iter().map(|j| {
                let minutes = j.minutes.to_string();
                vec![
                    "[ ]".to_owned(),
                    j.what.clone(),
                    at(j),
                    j.amount.clone(),
                    span(j.from, j.to),
                    minutes,
                    j.why.clone(),
                ]
            });
            Grid {
                title: words::week(w.week),
                note: w.note.clone(),
                heads: vec!["", "What", "Where", "How much", "When", "Minutes", "Why now"],
                rows: rows.collect(),
                drawing: Vec::new(),
            }
        };
        self.weeks.iter().filter(|w| !w.jobs.is_empty()).map(week).collect()
    }

    /// The jobs for other programs.
    pub fn records(&self) -> Records {
        let rows = self.each().map(|(week, j)| {
            vec![
                j.id.clone(),
                week.to_string(),
                j.what.clone(),
                j.place.clone(),
                j.cells.clone(),
                j.amount.clone(),
                iso(Some(j.from)),
                iso(Some(j.to)),
                j.minutes.to_string(),
                j.why.clone(),
            ]
        });
        Records { columns: &RECORD, rows: rows.collect() }
    }
}

/// "Long box, A1": place and cells in one.
pub(super) fn at(job: &Job) -> String {
    match (job.place.trim(), job.cells.trim()) {
        (place, "") => place.to_owned(),
        ("" | crate::work::POTS, cells) => cells.to_owned(),
        (place, cells) => format!("{place}, {cells}"),
    }
}

fn head(flow: &mut Flow<'_>, week: &JobWeek, again: bool) {
    let (left, right) = flow.sides();
    let room = right - left;
    let count = week.jobs.len();
    let minutes: u32 = week.jobs.iter().map(|j| j.minutes).sum();
    let jobs = words::count(count, "job", "jobs");
    let tally = if minutes == 0 { jobs } else { format!("{jobs}, about {}", words::minutes(minutes)) };
    let title = words::week(week.week);
    let words = if again { format!("{title}, continued") } else { title };
    let y = flow.y + 15.0;
    let mut low = flow.page().wrap(left, y, room - TALLY.width(&tally) - 12.0, WEEK, &words);
    flow.page().write(right, y, TALLY, &tally);
    if !again && !week.note.trim().is_empty() {
        low = flow.page().wrap(left, low - 1.0, room, NOTE, &week.note);
    }
    flow.y = low - 6.0;
}
