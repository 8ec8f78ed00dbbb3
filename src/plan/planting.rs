//! One crop in one block from sowing or setting out until cleared.

use super::wish::WishId;
use crate::calendar::Date;
use crate::crop::{CropId, Start};
use crate::garden::{Block, Layer, PlaceId};
use crate::growth::Dates;
use serde::{Deserialize, Serialize};

/// Numbers a planting for ever.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PlantingId(pub u32);

/// Why a planting is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Why {
    /// The grower put it there.
    Hand,
    /// For a wish.
    Wish(WishId),
    /// A catch crop in a gap.
    Catch,
    /// A cover crop in a gap.
    Cover,
}

/// A planting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Planting {
    /// Its number.
    pub id: PlantingId,
    /// The crop or variety.
    pub crop: CropId,
    /// Its name when it was planned, kept so that a changed crop book does not rewrite the past.
    pub name: String,
    /// Its botanical name then.
    pub botanical: String,
    /// Its family then.
    pub family: String,
    /// The bed or pot.
    pub place: PlaceId,
    /// The cells.
    pub block: Block,
    /// The layer.
    #[serde(default, skip_serializing_if = "Layer::is_main")]
    pub layer: Layer,
    /// How it is started.
    pub start: Start,
    /// Plants in the block.
    pub plants: u16,
    /// Planned or forecast dates.
    pub planned: Dates,
    /// What the diary made of them, if it moved them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shift: Option<Shift>,
    /// Dates that really happened.
    #[serde(default, skip_serializing_if = "Dates::is_empty")]
    pub real: Dates,
    /// Not moved by the fill.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub fixed: bool,
    /// Why it is there.
    pub why: Why,
    /// It failed on this date (the diary says how).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub failed: Option<Date>,
    /// The grower's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Dates as they were meant, and as the diary moved them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shift {
    /// As they were meant.
    pub was: Dates,
    /// As they were moved. Where the plan says something else by now, the grower has planned anew since.
    pub now: Dates,
}

impl Planting {
    /// The dates as they were meant before the diary moved them.
    pub fn meant(&self) -> Dates {
        self.shift.filter(|s| s.now == self.planned).map_or(self.planned, |s| s.was)
    }
    /// Moves the planned dates for what the diary says; where they are as meant, nothing is kept.
    pub fn move_to(&mut self, dates: Dates) {
        let was = self.meant();
        self.planned = dates;
        self.shift = (dates != was).then_some(Shift { was, now: dates });
    }
    /// Real dates where known, planned ones elsewhere.
    pub fn dates(&self) -> Dates {
        self.planned.with(&self.real)
    }
    /// The day from which it takes its cells: set out, or sown in place.
    pub fn begins(&self) -> Option<Date> {
        let dates = self.dates();
        match self.start {
            Start::InPlace => dates.sown.or(dates.set_out),
            Start::Raised { .. } | Start::Bought | Start::Piece(_) => dates.set_out.or(dates.sown),
        }
    }
    /// The day from which its cells are free again; none while it stands for years.
    pub fn ends(&self) -> Option<Date> {
        self.dates().cleared
    }
    /// Whether it takes its cells on a date.
    pub fn stands_on(&self, date: Date) -> bool {
        self.begins().is_some_and(|b| b <= date) && self.ends().is_none_or(|e| date < e)
    }
    /// Whether the two stand in the same layer and cells of a place at one time.
    pub fn collides(&self, other: &Self) -> bool {
        self.layer == other.layer && self.shares(other)
    }
    /// Whether the two stand in the same cells of a place at one time, in whatever layer.
    pub fn shares(&self, other: &Self) -> bool {
        let (Some(a), Some(b)) = (self.begins(), other.begins()) else { return false };
        self.place == other.place
            && self.block.overlaps(other.block)
            && self.ends().is_none_or(|e| b < e)
            && other.ends().is_none_or(|e| a < e)
    }
    /// Whether it has begun in earnest: something of it really happened.
    pub fn has_begun(&self) -> bool {
        self.real.sown.is_some() || self.real.set_out.is_some()
    }
}
