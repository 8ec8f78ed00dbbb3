//! The sheets of a garden: from its plan, the crop book and the site's year to plain content.

mod ground;
mod kitchen;
mod lanes;
mod record;
mod summary;
mod timeline;
mod wishes;

pub(super) use record::unit;

use super::ink::Tint;
use crate::calendar::{Date, Season};
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

impl<'a> Source<'a> {
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
