//! The jobs, week by week, as a tick list.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::page::{Page, Style};
use super::table::{Cell, Column, Table, figures, words};

/// One thing to do.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Job {
    /// A lasting name, the same in every print of the plan.
    pub id: String,
    /// What: "Sow carrot".
    pub what: String,
    /// Where: "Long box, A1-B2".
    pub place: String,
    /// How much: "32 seeds, 3 in apart, 1/4 in deep".
    pub amount: String,
    /// When, as it should read: "5-11 April".
    pub window: String,
    /// Minutes it takes.
    pub minutes: u32,
    /// Why now.
    pub why: String,
    /// Whether the diary says that it is done.
    pub done: bool,
}

/// The jobs of one week.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct JobWeek {
    /// "Week 14, 5-11 April".
    pub head: String,
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

const COLUMNS: [Column; 5] = [
    words("What", 27.0),
    words("Where", 22.0),
    words("How much", 29.0),
    words("When", 15.0),
    figures("Minutes", 7.0),
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
        let table = Table { columns: &COLUMNS, tick: true };
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
        Cell::noted(&job.what, &job.why).strong(),
        Cell::new(&job.place),
        Cell::new(&job.amount),
        Cell::noted(&job.window, if job.done { "done" } else { "" }),
        Cell::new(&minutes),
    ]
}

/// Hours and minutes in words: "1 h 20 min".
pub(super) fn spell(minutes: u32) -> String {
    match (minutes / 60, minutes % 60) {
        (0, m) => format!("{m} min"),
        (h, 0) => format!("{h} h"),
        (h, m) => format!("{h} h {m} min"),
    }
}

fn head(flow: &mut Flow<'_>, week: &JobWeek, again: bool) {
    let (left, right) = flow.sides();
    let room = right - left;
    let count = week.jobs.len();
    let minutes: u32 = week.jobs.iter().map(|j| j.minutes).sum();
    let jobs = if count == 1 { "1 job".to_owned() } else { format!("{count} jobs") };
    let tally = if minutes == 0 { jobs } else { format!("{jobs}, about {}", spell(minutes)) };
    let words = if again { format!("{}, continued", week.head) } else { week.head.clone() };
    let y = flow.y + 15.0;
    let mut low = flow.page().wrap(left, y, room - TALLY.width(&tally) - 12.0, WEEK, &words);
    flow.page().write(right, y, TALLY, &tally);
    if !again && !week.note.trim().is_empty() {
        low = flow.page().wrap(left, low - 1.0, room, NOTE, &week.note);
    }
    flow.y = low - 6.0;
}
