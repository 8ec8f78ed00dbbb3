//! Diseases and pests that the diary can record and rotation must answer.

use super::CropId;
use serde::{Deserialize, Serialize};

/// What kind of trouble it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum TroubleKind {
    /// Lives in the soil: brings a break.
    SoilDisease,
    /// Comes by air, water or seed: no break, but clear its remains.
    AirDisease,
    /// An animal.
    Pest,
}

/// A disease or pest.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trouble {
    /// Short id, "clubroot".
    pub id: String,
    /// Its name.
    pub name: String,
    /// The organism.
    pub agent: String,
    /// Kind.
    pub kind: TroubleKind,
    /// Crops it really harms: crop ids or family names. The break is for these.
    pub hosts: Vec<String>,
    /// Exceptions among them.
    #[serde(default)]
    pub not_hosts: Vec<CropId>,
    /// Everything else it is known to live on, in words.
    pub also_on: String,
    /// Advised break after it was recorded, years; 0 where a break does not help.
    pub advised: u8,
    /// Least break after it was recorded, years.
    pub least: u8,
    /// How long it survives, in words.
    pub survives: String,
    /// What to do, in a sentence.
    pub remedy: String,
    /// Source codes.
    pub src: Vec<String>,
}
