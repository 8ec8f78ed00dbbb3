//! Plant families: the unit of rotation.

use serde::{Deserialize, Serialize};

/// Years a soil should be kept free, and how strictly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rotation {
    /// Free years below which the grower is warned by `weight`.
    pub least: u8,
    /// Free years advised.
    pub advised: u8,
    /// What a return before `least` weighs unless the grower sets it otherwise.
    pub weight: BreakWeight,
}

/// How strictly a break is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum BreakWeight {
    /// Never planted against.
    Stop,
    /// Avoided where it can be.
    Mind,
    /// Not looked at.
    Off,
}

/// A plant family.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Family {
    /// Botanical name, "Solanaceae".
    pub name: String,
    /// What growers call it: "nightshades".
    pub common: String,
    /// Its break.
    pub rotation: Rotation,
    /// A second planting of the family in one soil within a season is minded.
    pub once_a_season: bool,
    /// Why it is moved round, in a sentence.
    pub why: String,
    /// Source codes for the break.
    pub src: Vec<String>,
    /// Which of the eight colour-blind-safe hues it is drawn in, 0..=7.
    pub hue: u8,
    /// Which of the eight hatch patterns it is printed in, 0..=7.
    pub hatch: u8,
}
