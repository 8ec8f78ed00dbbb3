//! An order for the press: which sheets of a garden, on which paper, in which form. The shell and the screen give
//! the same.

use super::book::{Form, Sheet};
use super::frame::{Orientation, Paper};
use super::from_plan::{Extra, Source};
use super::proof::Proof;
use crate::calendar::{Date, Season, Week};
use crate::units::Measure;
use std::collections::BTreeSet;

/// Seasons back of the record sheet.
const RECORD_YEARS: u16 = 6;
/// Weeks of jobs on paper, unless more are asked for.
const MONTH_AHEAD: u16 = 5;

/// What is to be printed, and how.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// The sheets; none: those usual in the form.
    pub sheets: BTreeSet<Sheet>,
    /// The form.
    pub form: Form,
    /// The paper; none: by the measure of the garden.
    pub paper: Option<Paper>,
    /// Which way the paper lies; none: each sheet as it reads best.
    pub lies: Option<Orientation>,
    /// Day of printing.
    pub printed: Date,
    /// The week of the ground plan, and the first of the jobs.
    pub week: Week,
    /// Weeks of jobs; none: a month on paper, to the end of the season in files for other programs.
    pub weeks: Option<u16>,
    /// Hour of the day at which a calendar reminds of a job; none: it does not.
    pub remind: Option<u8>,
}

impl Order {
    /// The usual sheets of a form on a day, and the season they are of.
    pub fn new(form: Form, season: Season, day: Date) -> Self {
        let week = Week::of(if season.holds(day) { day } else { season.first() });
        Self {
            sheets: BTreeSet::new(),
            form,
            paper: None,
            lies: None,
            printed: day,
            week,
            weeks: None,
            remind: None,
        }
    }
    /// The sheets printed in a form unless others are asked for.
    pub fn usual(form: Form) -> BTreeSet<Sheet> {
        match form {
            // Only these have dates to put into a calendar.
            Form::Calendar => BTreeSet::from([Sheet::Jobs, Sheet::Weeks]),
            Form::Pages(_) | Form::Csv | Form::Json | Form::Markdown | Form::Text => {
                Sheet::USUAL.into_iter().collect()
            }
        }
    }
    /// The paper of a garden measured so: Letter where it is measured in feet.
    pub const fn usual_paper(measure: Measure) -> Paper {
        match measure {
            Measure::Metric => Paper::A4,
            Measure::Us => Paper::Letter,
        }
    }
    /// Sets it from a garden.
    pub fn proof(&self, source: &Source<'_>) -> Proof {
        // The wall wants the month ahead; files for other programs want the season.
        let weeks = self.weeks.or(match self.form {
            Form::Pages(_) | Form::Text | Form::Markdown => Some(MONTH_AHEAD),
            Form::Calendar | Form::Csv | Form::Json => None,
        });
        let what = if self.sheets.is_empty() { Self::usual(self.form) } else { self.sheets.clone() };
        let what: Vec<Sheet> = what.into_iter().collect();
        let leaves = source.leaves(&what, Extra { week: self.week, years: RECORD_YEARS, weeks });
        let paper = self.paper.unwrap_or_else(|| Self::usual_paper(source.plan.settings.measure));
        let imprint = super::Imprint { lies: self.lies, ..source.imprint(paper, self.printed) };
        let stamp = source.stamp(self.printed.and_time(chrono::NaiveTime::MIN), self.remind);
        Proof::new(leaves, self.form, imprint, stamp)
    }
}
