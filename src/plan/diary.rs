//! What really happened. Entries are only added; a correction is an entry too.

use super::planting::{Planting, PlantingId};
use super::{Edit, Plan};
use crate::calendar::Date;
use crate::crop::CropId;
use crate::garden::PlaceId;
use crate::growth::Stage;
use crate::units::{Amount, Temperature};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// Why something failed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Cause {
    /// Did not sprout.
    NoSprout,
    /// Too dry.
    Drought,
    /// Too wet.
    Wet,
    /// Frost.
    Frost,
    /// Heat.
    Heat,
    /// Slugs, insects, birds, mammals.
    Eaten,
    /// A disease.
    Disease,
    /// Ran to flower.
    Bolted,
    /// Wind, hail, a fall.
    Broken,
    /// Something else.
    Other,
}

/// What happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Event {
    /// A stage was reached or a job done.
    Done(Stage),
    /// Partly.
    Partly(Stage),
    /// Not done, put off.
    NotDone(Stage),
    /// The planting failed.
    Failed(Cause),
    /// Something was picked.
    Picked(Amount),
    /// A frost, with the reading if there was one.
    Frost(Option<Temperature>),
    /// The soil thermometer.
    SoilTemperature(Temperature),
    /// A disease or pest of the book's list.
    Trouble(String),
    /// A volunteer came up by itself.
    Volunteer(CropId),
    /// A job without a stage was done: its word.
    Job(String),
    /// Only words.
    Remark,
}

/// An entry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DiaryEntry {
    /// Its number.
    pub id: u32,
    /// When it happened.
    pub on: Date,
    /// The planting it is about.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planting: Option<PlantingId>,
    /// The place it is about.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    /// What.
    pub what: Event,
    /// The grower's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub words: String,
    /// The entry that this one corrects: that one no longer counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corrects: Option<u32>,
}

impl Event {
    /// The amount, where something was picked.
    pub const fn picked(&self) -> Option<Amount> {
        match self {
            Self::Picked(amount) => Some(*amount),
            Self::Done(_)
            | Self::Partly(_)
            | Self::NotDone(_)
            | Self::Failed(_)
            | Self::Frost(_)
            | Self::SoilTemperature(_)
            | Self::Trouble(_)
            | Self::Volunteer(_)
            | Self::Job(_)
            | Self::Remark => None,
        }
    }
    /// The same event with another amount, where something was picked.
    #[must_use]
    pub fn with_picked(&self, amount: impl FnOnce(Amount) -> Amount) -> Self {
        self.picked().map_or_else(|| self.clone(), |picked| Self::Picked(amount(picked)))
    }
}

impl Plan {
    /// Entries that count: those that no other one corrects.
    pub fn told(&self) -> impl Iterator<Item = &DiaryEntry> {
        let corrected: BTreeSet<u32> = self.diary.iter().filter_map(|e| e.corrects).collect();
        self.diary.iter().filter(move |e| !corrected.contains(&e.id))
    }
    /// The edit that writes an entry: the entry itself, and the real dates of its planting. An entry that corrects
    /// another takes that one's dates back first.
    pub fn noting(&self, entry: DiaryEntry) -> Edit {
        let words = format!("wrote the diary for {}", crate::calendar::day_text(entry.on));
        let wrong = entry.corrects.and_then(|id| self.diary.iter().find(|e| e.id == id));
        let mut edits = Vec::new();
        let mut touched: Vec<Planting> = Vec::new();
        for (old, note) in [(true, wrong), (false, Some(&entry))] {
            let Some(note) = note else { continue };
            let Some(planting) = note.planting.and_then(|id| self.planting(id)) else { continue };
            let known = touched.iter().position(|p| p.id == planting.id);
            let mut now = known.map_or_else(|| planting.clone(), |at| touched.remove(at));
            if old {
                now.forget(note);
                // What other entries say of it counts again.
                let others: Vec<&DiaryEntry> =
                    self.told().filter(|e| e.planting == Some(now.id) && e.id != note.id).collect();
                for e in others {
                    now.learn(e);
                }
            } else {
                now.learn(note);
            }
            touched.push(now);
        }
        for planting in touched {
            if self.planting(planting.id) != Some(&planting) {
                edits.push(Edit::Planting(planting.id, Some(Box::new(planting))));
            }
        }
        edits.insert(0, Edit::Entry(entry.id, Some(Box::new(entry))));
        Edit::Batch(words, edits)
    }
}

impl Planting {
    /// Takes up what an entry says of it.
    fn learn(&mut self, entry: &DiaryEntry) {
        match &entry.what {
            Event::Done(stage) => self.real.put(*stage, Some(entry.on)),
            Event::Failed(_) => {
                self.failed = Some(entry.on);
                self.real.cleared = Some(entry.on);
            }
            Event::Picked(_) => {
                let first = self.real.first_pick.map_or(entry.on, |d| d.min(entry.on));
                self.real.first_pick = Some(first);
            }
            Event::Partly(_)
            | Event::NotDone(_)
            | Event::Frost(_)
            | Event::SoilTemperature(_)
            | Event::Trouble(_)
            | Event::Volunteer(_)
            | Event::Job(_)
            | Event::Remark => {}
        }
    }
    /// Takes back what an entry said of it, where nothing later has changed it.
    fn forget(&mut self, entry: &DiaryEntry) {
        let here = Some(entry.on);
        match &entry.what {
            Event::Done(stage) if self.real.of(*stage) == here => self.real.put(*stage, None),
            Event::Failed(_) if self.failed == here => {
                self.failed = None;
                if self.real.cleared == here {
                    self.real.cleared = None;
                }
            }
            Event::Picked(_) if self.real.first_pick == here => self.real.first_pick = None,
            Event::Done(_)
            | Event::Failed(_)
            | Event::Picked(_)
            | Event::Partly(_)
            | Event::NotDone(_)
            | Event::Frost(_)
            | Event::SoilTemperature(_)
            | Event::Trouble(_)
            | Event::Volunteer(_)
            | Event::Job(_)
            | Event::Remark => {}
        }
    }
}
