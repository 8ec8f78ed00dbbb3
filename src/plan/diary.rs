//! What really happened. Entries are only added; a correction is an entry too.

use super::planting::PlantingId;
use crate::calendar::Date;
use crate::crop::CropId;
use crate::garden::PlaceId;
use crate::growth::Stage;
use crate::units::{Amount, Temperature};
use serde::{Deserialize, Serialize};

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
