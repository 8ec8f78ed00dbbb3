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
    /// Where: "Long box, A1-B2".
    pub place: String,
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
    /// Whether the diary says that it is done.
    pub done: bool,
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

const COLUMNS: [Column<'static>; 5] = [
    table::words("What", 27.0),
    table::words("Where", 22.0),
    table::words("How much", 29.0),
    table::words("When", 15.0),
    table::figures("Minutes", 7.0),
];
const WEEK: Style = Style::bold(9.6);
const NOTE: Style = Style::plain(7.6).soft();
const TALLY: Style = Style::plain(7.6).soft().end();

impl JobList {
    /// Draws the list; weeks without jobs are left out.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame =
            Frame { imprint, orientation: Orientation::Portrait, title: &self.title, note: &self.note };
        let mut flow = Flow::new(frame);
        let table = Table { columns: &COLUMNS, tick: true, pad: table::PAD };
        table.head(&mut flow);
        for week in self.weeks.iter().filter(|w| !w.jobs.is_empty()) {
            let rows: Vec<_> = week.jobs.iter().map(cells).collect();
            // A head never stands alone at the foot of a page: it keeps its first two jobs.
            let start = 34.0 + rows.iter().take(2).map(|r| table.height(&flow, r)).sum::<f64>();
            if flow.need(start) {
                table.head(&mut flow);
            }
            head(&mut flow, week, false);
            for row in &rows {
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

fn cells(job: &Job) -> [Cell; 5] {
    let minutes = if job.minutes == 0 { String::new() } else { job.minutes.to_string() };
    [
        Cell::strong(&job.what).note(&job.why),
        Cell::new(&job.place),
        Cell::new(&job.amount),
        Cell::new(&span(job.from, job.to)).note(if job.done { "done" } else { "" }),
        Cell::new(&minutes),
    ]
}

/// Columns of the jobs as records.
const RECORD: [&str; 10] = ["id", "week", "what", "place", "amount", "from", "to", "minutes", "why", "done"];

impl JobList {
    fn each(&self) -> impl Iterator<Item = (Week, &Job)> {
        self.weeks.iter().flat_map(|w| w.jobs.iter().map(move |j| (w.week, j)))
    }

    /// The list in words, a table a week.
    pub fn grids(&self) -> Vec<Grid> {
        let week = |w: &JobWeek| {
            let rows = w.jobs.iter().map(|j| {
                let tick = if j.done { "[x]" } else { "[ ]" };
                let minutes = j.minutes.to_string();
                vec![
                    tick.to_owned(),
                    j.what.clone(),
                    j.place.clone(),
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
                j.amount.clone(),
                iso(Some(j.from)),
                iso(Some(j.to)),
                j.minutes.to_string(),
                j.why.clone(),
                if j.done { "yes" } else { "no" }.to_owned(),
            ]
        });
        Records { columns: &RECORD, rows: rows.collect() }
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
