//! The sheets of a garden: from its plan, the crop book and the site's year to plain content.

mod ground;
mod jobs;
mod kitchen;
mod lanes;
mod needs;
mod record;
mod summary;
mod timeline;
mod wishes;

pub(super) use record::unit;

use super::book::{Leaf, Sheet};
use super::frame::{Imprint, Paper};
use super::ical::Stamp;
use super::ink::Tint;
use super::words::day;
use crate::calendar::{Date, Season, Week};
use crate::crop::Book;
use crate::garden::Block;
use crate::plan::{Plan, Planting};
use crate::site::SiteYear;

/// What the sheets of one season are made from.
#[derive(Debug, Clone, Copy)]
pub struct Source<'a> {
    /// The garden.
    pub plan: &'a Plan,
    /// The crop book: letter codes, families, spacings.
    pub book: &'a Book,
    /// The site's climate.
    pub year: &'a SiteYear,
    /// The season shown.
    pub season: Season,
}

/// What of the season the sheets show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Extra {
    /// The week of the ground plan, and the first of the jobs.
    pub week: Week,
    /// Seasons of the record, the one shown the last of them.
    pub years: u16,
    /// Weeks of jobs; none: to the end of the season.
    pub weeks: Option<u16>,
}

impl Extra {
    /// The ground of a week, the jobs from it on, and four years of record.
    pub const fn of(week: Week) -> Self {
        Self { week, years: 4, weeks: None }
    }
}

impl<'a> Source<'a> {
    /// The sheets asked for, in the order in which they are bound; each once.
    pub fn leaves(&self, what: &[Sheet], extra: Extra) -> Vec<Leaf> {
        let asked = |sheet: &Sheet| what.contains(sheet);
        Sheet::ALL.into_iter().filter(asked).map(|sheet| self.leaf(sheet, extra)).collect()
    }

    fn leaf(&self, sheet: Sheet, extra: Extra) -> Leaf {
        match sheet {
            Sheet::Weeks => Leaf::Weeks(self.timeline()),
            Sheet::Ground => Leaf::Ground(self.ground(extra.week)),
            Sheet::Seasons => Leaf::Seasons(self.seasons()),
            Sheet::Jobs => Leaf::Jobs(self.jobs(extra.week, extra.weeks)),
            Sheet::Kitchen => Leaf::Kitchen(self.kitchen()),
            Sheet::Needs => Leaf::Needs(self.needs()),
            Sheet::Record => Leaf::Record(self.record(extra.years)),
            Sheet::Pickings => Leaf::Pickings(self.pickings()),
            Sheet::Labels => Leaf::Labels(self.labels()),
            Sheet::Year => Leaf::Year(self.summary()),
        }
    }

    /// What a calendar file needs to know of the garden; `made` is the time of making in UTC.
    pub fn stamp(&self, made: chrono::NaiveDateTime, alarm: Option<u8>) -> Stamp {
        // The name and the place together tell one garden from another and stay when plantings change.
        let key = format!("{}-{:.2}-{:.2}", self.plan.name, self.plan.site.lat, self.plan.site.lon);
        Stamp { garden: self.plan.name.clone(), key, made, alarm }
    }

    /// What is the same on every page.
    pub fn imprint(&self, paper: Paper, printed: Date) -> Imprint {
        Imprint { paper, garden: self.plan.name.clone(), printed: day(printed), lies: None }
    }

    /// Two or three letters for a planting; of a crop the book does not know, the first of its name.
    fn code(&self, planting: &Planting) -> String {
        self.book.get(&planting.crop).map_or_else(
            || {
                planting
                    .name
                    .chars()
                    .filter(|c| c.is_alphanumeric())
                    .take(3)
                    .collect::<String>()
                    .to_uppercase()
            },
            |crop| crop.code.clone(),
        )
    }

    /// Colour and hatch of a family; grey for one the book does not know.
    fn tint(&self, family: &str) -> Tint {
        self.book.family(family).map_or(Tint::NONE, |f| Tint::of(f.hue, f.hatch))
    }

    /// A family as growers call it, with a capital.
    fn family(&self, family: &str) -> String {
        let name = self.book.family(family).map_or(family, |f| f.common.as_str());
        let mut letters = name.chars();
        letters.next().map_or_else(String::new, |c| c.to_uppercase().chain(letters).collect())
    }

    /// The plantings whose cells are taken on some day of the season, in the order of their beginning.
    fn plantings(&self) -> Vec<&'a Planting> {
        let (first, last) = (self.season.first(), self.season.last());
        let mut out: Vec<_> = self
            .plan
            .plantings
            .iter()
            .filter(|p| p.begins().is_some_and(|b| b <= last) && end(p).is_none_or(|e| e > first))
            .collect();
        out.sort_by_key(|p| (p.begins(), p.id));
        out
    }
}

/// When the cells of a planting are free again: cleared, or failed before that.
fn end(planting: &Planting) -> Option<Date> {
    let cleared = planting.ends();
    match (planting.failed, cleared) {
        (Some(failed), Some(cleared)) => Some(failed.min(cleared)),
        (failed, cleared) => failed.or(cleared),
    }
}

/// Cells as readers name them; an en dash between the corners.
fn cells(block: Block) -> String {
    block.to_string().replace('-', "\u{2013}")
}

/// The name of a planting, with what became of it.
fn name(planting: &Planting) -> String {
    if planting.failed.is_some() { format!("{}, failed", planting.name) } else { planting.name.clone() }
}
