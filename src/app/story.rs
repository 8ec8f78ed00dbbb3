//! What stands in a cell: before, now and next; and how far a planting has come.

use crate::calendar::Date;
use crate::garden::PlaceId;
use crate::plan::{Plan, Planting};

/// How far a planting has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// Sown in place, not up yet.
    Sown,
    /// Growing.
    Growing,
    /// Being picked.
    Picking,
    /// Picked out, not cleared yet.
    Spent,
}

impl Phase {
    /// Of a planting that stands on a date.
    pub fn of(planting: &Planting, date: Date) -> Self {
        let dates = planting.dates();
        if dates.last_pick.is_some_and(|last| last < date) {
            Self::Spent
        } else if dates.first_pick.is_some_and(|first| first <= date) {
            Self::Picking
        } else if dates.set_out.is_none() && dates.emerged.is_some_and(|up| date < up) {
            Self::Sown
        } else {
            Self::Growing
        }
    }
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Sown => "sown",
            Self::Growing => "growing",
            Self::Picking => "picking",
            Self::Spent => "picked out",
        }
    }
    /// The two letters of a crop as its cells show them: they grow with the crop.
    pub fn letters(self, code: &str) -> String {
        let mut letters = code.chars();
        let (first, second) = (letters.next().unwrap_or('?'), letters.next().unwrap_or(' '));
        match self {
            Self::Sown => format!("{}{}", first.to_lowercase(), second.to_lowercase()),
            Self::Growing => format!("{}{}", first.to_uppercase(), second.to_lowercase()),
            Self::Picking => format!("{}{}", first.to_uppercase(), second.to_uppercase()),
            Self::Spent => format!("{}-", first.to_uppercase()),
        }
    }
}

/// What stands in a cell round a date.
#[derive(Debug, Clone, Default)]
pub struct Story<'a> {
    /// What was cleared last.
    pub before: Option<&'a Planting>,
    /// What stands there, in both layers.
    pub now: Vec<&'a Planting>,
    /// What comes next.
    pub next: Option<&'a Planting>,
}

impl<'a> Story<'a> {
    /// Of a cell of a place.
    pub fn of(plan: &'a Plan, place: &'a PlaceId, cell: (u16, u16), date: Date) -> Self {
        let mut story = Self::default();
        for planting in plan.plantings_in(place).filter(|p| p.block.holds(cell.0, cell.1)) {
            let Some(begins) = planting.begins() else { continue };
            if planting.stands_on(date) {
                story.now.push(planting);
            } else if begins > date {
                if story.next.and_then(Planting::begins).is_none_or(|b| begins < b) {
                    story.next = Some(planting);
                }
            } else if story.before.and_then(Planting::ends) < planting.ends() {
                story.before = Some(planting);
            }
        }
        story.now.sort_by_key(|p| p.layer);
        story
    }
}
