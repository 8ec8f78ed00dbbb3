//! Stages of a planting and their dates.

use crate::calendar::Date;
use serde::{Deserialize, Serialize};

/// Stages of a planting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Stage {
    /// Sown.
    Sown,
    /// Emerged.
    Emerged,
    /// Potted on.
    Potted,
    /// Hardening off begun.
    Hardened,
    /// Set out.
    SetOut,
    /// Canopy closed.
    Closed,
    /// First picking.
    FirstPick,
    /// Last picking.
    LastPick,
    /// Cleared.
    Cleared,
}

impl Stage {
    /// Every stage in order.
    pub const ALL: [Self; 9] = [
        Self::Sown,
        Self::Emerged,
        Self::Potted,
        Self::Hardened,
        Self::SetOut,
        Self::Closed,
        Self::FirstPick,
        Self::LastPick,
        Self::Cleared,
    ];
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Sown => "sown",
            Self::Emerged => "emerged",
            Self::Potted => "potted on",
            Self::Hardened => "hardening off",
            Self::SetOut => "set out",
            Self::Closed => "canopy closed",
            Self::FirstPick => "first picking",
            Self::LastPick => "last picking",
            Self::Cleared => "cleared",
        }
    }
}

/// Dates of the stages; a stage without a date does not apply or is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Dates {
    /// Sown, in place or in the raising place.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sown: Option<Date>,
    /// Emerged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub emerged: Option<Date>,
    /// Potted on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub potted: Option<Date>,
    /// Hardening off begun.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hardened: Option<Date>,
    /// Set out or planted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set_out: Option<Date>,
    /// Canopy closed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub closed: Option<Date>,
    /// First picking.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first_pick: Option<Date>,
    /// Last picking.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub last_pick: Option<Date>,
    /// Cleared: from this day on the cells are free. None: stands for years.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cleared: Option<Date>,
}

impl Dates {
    /// These dates, with the known ones of `real` in place of the forecast.
    pub fn with(self, real: &Self) -> Self {
        Self {
            sown: real.sown.or(self.sown),
            emerged: real.emerged.or(self.emerged),
            potted: real.potted.or(self.potted),
            hardened: real.hardened.or(self.hardened),
            set_out: real.set_out.or(self.set_out),
            closed: real.closed.or(self.closed),
            first_pick: real.first_pick.or(self.first_pick),
            last_pick: real.last_pick.or(self.last_pick),
            cleared: real.cleared.or(self.cleared),
        }
    }
    /// The date of a stage.
    pub const fn of(&self, stage: Stage) -> Option<Date> {
        match stage {
            Stage::Sown => self.sown,
            Stage::Emerged => self.emerged,
            Stage::Potted => self.potted,
            Stage::Hardened => self.hardened,
            Stage::SetOut => self.set_out,
            Stage::Closed => self.closed,
            Stage::FirstPick => self.first_pick,
            Stage::LastPick => self.last_pick,
            Stage::Cleared => self.cleared,
        }
    }
    /// Puts the date of a stage, or takes it away.
    pub const fn put(&mut self, stage: Stage, date: Option<Date>) {
        match stage {
            Stage::Sown => self.sown = date,
            Stage::Emerged => self.emerged = date,
            Stage::Potted => self.potted = date,
            Stage::Hardened => self.hardened = date,
            Stage::SetOut => self.set_out = date,
            Stage::Closed => self.closed = date,
            Stage::FirstPick => self.first_pick = date,
            Stage::LastPick => self.last_pick = date,
            Stage::Cleared => self.cleared = date,
        }
    }
    /// Whether no date is given.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
    /// Brings expected dates into order with the known ones: none later than a known date of a later stage, none
    /// earlier than an earlier stage.
    pub(super) fn put_in_order(&mut self, known: &Self) {
        let mut cap = None;
        for stage in Stage::ALL.into_iter().rev() {
            cap = match (known.of(stage), cap) {
                (Some(date), Some(cap)) => Some(date.min(cap)),
                (date, cap) => date.or(cap),
            };
            self.put(stage, self.of(stage).map(|d| cap.map_or(d, |c: Date| d.min(c))));
        }
        let mut last = None;
        for stage in Stage::ALL {
            let date = self.of(stage).map(|d| last.map_or(d, |l: Date| d.max(l)));
            self.put(stage, date);
            last = date.or(last);
        }
    }
    /// The dates given, in the order of the stages.
    pub fn in_order(&self) -> Vec<Date> {
        [
            self.sown,
            self.emerged,
            self.potted,
            self.hardened,
            self.set_out,
            self.closed,
            self.first_pick,
            self.last_pick,
            self.cleared,
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}
