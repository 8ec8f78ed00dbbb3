//! What the jobs of a garden are drawn up from, and how one is written.

use super::alike::Alike;
use super::job::{Job, JobKind};
use crate::calendar::{Date, Week, day_text, plus};
use crate::crop::{Book, Crop};
use crate::growth::{Conditions, Stage};
use crate::plan::{DiaryEntry, Event, Plan, Planting};
use crate::site::SiteYear;
use crate::units::{Measure, num};
use std::fmt::Write as _;

/// Days on either side of its window within which a job named in the diary is taken for this one.
const ABOUT: i64 = 10;

/// The head under which the jobs of all pots stand.
pub const POTS: &str = "Pots";

/// A plan with what belongs to it, and the weeks that are asked for.
#[derive(Debug, Clone)]
pub(super) struct Desk<'a> {
    pub(super) plan: &'a Plan,
    pub(super) book: &'a Book,
    pub(super) year: &'a SiteYear,
    pub(super) conditions: Conditions<'a>,
    /// First and last day asked for.
    pub(super) from: Date,
    pub(super) to: Date,
    /// Entries of the diary that count.
    told: Vec<&'a DiaryEntry>,
    /// Plantings that are one act, by the first of them.
    pub(super) alike: Alike<'a>,
}

/// What a job says of itself; its day and its window are set beside it.
pub(super) struct Draft {
    pub(super) kind: JobKind,
    pub(super) nth: u32,
    pub(super) what: String,
    pub(super) amount: String,
    pub(super) minutes: f64,
    pub(super) why: String,
}

impl<'a> Desk<'a> {
    pub(super) fn new(plan: &'a Plan, book: &'a Book, year: &'a SiteYear, from: Week, to: Week) -> Self {
        let conditions = plan.conditions(book, year);
        let (from, to, told) = (from.monday(), to.sunday(), plan.told().collect());
        Self { plan, book, year, conditions, from, to, told, alike: Alike::new() }
    }
    pub(super) const fn measure(&self) -> Measure {
        self.plan.settings.measure
    }
    pub(super) fn crop(&self, planting: &Planting) -> Option<&'a Crop> {
        self.book.get(&planting.crop)
    }
    /// Whether a day is asked for.
    pub(super) fn asks(&self, day: Date) -> bool {
        self.from <= day && day <= self.to
    }
    /// The weeks asked for.
    pub(super) fn weeks(&self) -> impl Iterator<Item = Week> + use<> {
        let (first, last) = (Week::of(self.from), Week::of(self.to));
        (0..=first.until(last).max(0)).map(move |n| first.plus(n))
    }
    /// "Square box, A1-B2"; of an act, all its blocks: "Square box, A1-B2, D4".
    pub(super) fn stand(&self, planting: &Planting) -> String {
        match self.spot(planting) {
            (bed, cells) if bed == POTS => cells,
            (bed, cells) => format!("{bed}, {cells}"),
        }
    }
    /// The bed and the cells in it; of a pot "Pots" and its name.
    pub(super) fn spot(&self, planting: &Planting) -> (String, String) {
        let name = self.plan.place(&planting.place).map_or(planting.place.0.as_str(), |p| p.name.as_str());
        let pot = self.plan.place(&planting.place).is_some_and(crate::garden::Place::is_pot);
        if pot {
            return (POTS.to_owned(), name.to_owned());
        }
        let blocks = self.alike.get(&planting.id).map_or_else(
            || vec![planting.block.to_string()],
            |act| act.iter().map(|p| p.block.to_string()).collect(),
        );
        (name.to_owned(), blocks.join(", "))
    }
    /// Entries that still count: not corrected by a later one.
    pub(super) fn entries(&self) -> impl Iterator<Item = &'a DiaryEntry> + use<'a, '_> {
        self.told.iter().copied()
    }
    /// Whether the diary says that a job without a stage was done about these days.
    pub(super) fn said_done(
        &self,
        kind: JobKind,
        planting: Option<&Planting>,
        (from, to): (Date, Date),
    ) -> bool {
        self.entries().any(|e| {
            matches!(&e.what, Event::Job(word) if word == kind.word())
                && e.planting.is_none_or(|id| planting.is_some_and(|p| p.id == id))
                && (e.planting.is_some() || planting.is_none_or(|p| e.place.as_ref() == Some(&p.place)))
                && plus(from, -ABOUT) <= e.on
                && e.on <= plus(to, ABOUT)
        })
    }
    /// The last day on which the diary says that a stage was put off.
    pub(super) fn put_off(&self, stage: Stage, planting: &Planting) -> Option<Date> {
        self.entries()
            .filter(|e| e.planting == Some(planting.id))
            .filter(|e| matches!(e.what, Event::NotDone(s) | Event::Partly(s) if s == stage))
            .map(|e| e.on)
            .max()
    }
    /// The day of a window on which to do a job meant for `day`: that day, moved to the garden day of its week where
    /// the window allows, and to the nearest day on which the grower is there. True where there is none.
    pub(super) fn best(&self, day: Date, from: Date, to: Date) -> (Date, bool) {
        let settings = &self.plan.settings;
        let garden_day = Week::of(day).day(settings.garden_day);
        let wanted =
            if (from..=to).contains(&garden_day) { garden_day } else { day.clamp(from, to.max(from)) };
        if !settings.is_away(wanted) {
            return (wanted, false);
        }
        let free = |d: &Date| (from..=to).contains(d) && !settings.is_away(*d);
        let near = (1..=60).flat_map(|n| [plus(wanted, -n), plus(wanted, n)]).find(|d| free(d));
        near.map_or((wanted, true), |d| (d, false))
    }
    /// Writes a job of a planting, or of none.
    pub(super) fn job(
        &self,
        planting: Option<&Planting>,
        draft: Draft,
        day: Date,
        window: (Date, Date),
    ) -> Job {
        let (from, to) = (window.0.min(window.1), window.1.max(window.0));
        let (best, away) = self.best(day, from, to);
        let whose =
            planting.map_or_else(|| format!("{}-", from.format("%Y%m%d")), |p| format!("{}-", p.id.0));
        let nth = if draft.nth == 0 { String::new() } else { format!("-{}", draft.nth) };
        let (bed, cells) = planting.map(|p| self.spot(p)).unwrap_or_default();
        let mut why = draft.why;
        if away {
            let _ = write!(why, "; you are away on {}: ask someone", day_text(best));
        }
        Job {
            id: format!("{whose}{}{nth}", draft.kind.word().replace(' ', "-")),
            kind: draft.kind,
            what: draft.what,
            where_words: planting.map_or_else(String::new, |p| self.stand(p)),
            bed,
            cells,
            amount: draft.amount,
            from,
            to,
            best,
            minutes: num::small(num::round_u(draft.minutes.max(1.0).ceil())),
            why,
            place: planting.map(|p| p.place.clone()),
            planting: planting.map(|p| p.id),
            plantings: planting.map_or_else(Vec::new, |p| self.act(p)),
            away,
            late: false,
        }
    }
}
