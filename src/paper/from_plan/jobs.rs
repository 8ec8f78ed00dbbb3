//! The jobs of a season as a sheet.

use super::Source;
use crate::calendar::Week;
use crate::paper::jobs::{Job, JobList, JobWeek};
use crate::work::{self, JobKind, Sky};

impl Source<'_> {
    /// The jobs from a week on: of so many weeks, or to the end of the season.
    pub fn jobs(&self, from: Week, weeks: Option<u16>) -> JobList {
        let last = Week::of(self.season.last());
        let last = weeks.map_or(last, |n| from.plus(i64::from(n.max(1)) - 1));
        let jobs = work::jobs_between(self.plan, self.book, self.year, from, last);
        let measure = self.plan.settings.measure;
        let weeks = std::iter::successors(Some(from), |w| Some(w.plus(1)))
            .take_while(|w| *w <= last)
            .map(|week| JobWeek {
                week,
                note: Sky::of(self.year, week).words(measure),
                jobs: jobs.iter().filter(|j| week.holds(j.best)).map(job).collect(),
            })
            .collect();
        JobList {
            title: format!("Jobs of {}", self.season),
            note: format!(
                "From {} to {}. Minutes are estimates; set your own in the garden file.",
                crate::paper::words::day(from.monday()),
                crate::paper::words::day(last.sunday())
            ),
            weeks,
        }
    }
}

fn job(job: &work::Job) -> Job {
    Job {
        id: job.id.clone(),
        what: job.what.clone(),
        place: job.bed.clone(),
        cells: job.cells.replace('-', "\u{2013}"),
        amount: job.amount.clone(),
        from: job.from,
        to: job.to,
        minutes: job.minutes.into(),
        // Pickings come week after week and say the same each time.
        why: if job.kind == JobKind::Pick { String::new() } else { job.why.clone() },
    }
}
