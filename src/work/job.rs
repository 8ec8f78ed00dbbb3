//! A dated thing to do.

use crate::calendar::{Date, day_text};
use crate::garden::PlaceId;
use crate::growth::Stage;
use crate::plan::PlantingId;
use serde::Serialize;

/// Kinds of jobs, in the order in which a year meets them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum JobKind {
    /// Order seed, sets and plants.
    OrderSeed,
    /// Test old seed.
    TestSeed,
    /// Sow in the raising place.
    StartIndoors,
    /// Move into a larger pot.
    PotOn,
    /// Get raised plants used to the open air.
    HardenOff,
    /// Sow in place.
    Sow,
    /// Set out raised or bought plants.
    SetOut,
    /// Plant sets, cloves, bulbs, tubers.
    Plant,
    /// Sow a cover crop.
    CoverCrop,
    /// Put up a support.
    Support,
    /// Cover with a net against insects.
    Net,
    /// Thin to the final distance.
    Thin,
    /// Mulch.
    Mulch,
    /// Feed.
    Feed,
    /// Tie up or prune.
    Tie,
    /// Draw up soil.
    Hill,
    /// Pinch out the tip.
    Pinch,
    /// Take the cover off for the insects.
    Uncover,
    /// Cover against frost.
    Cover,
    /// Look after the water of pots.
    Water,
    /// Pick.
    Pick,
    /// Leave some to ripen for seed.
    SaveSeed,
    /// Clear.
    Clear,
    /// Take a soil sample.
    SoilTest,
}

impl JobKind {
    /// The stage a job brings about; none for jobs without one.
    pub const fn stage(self) -> Option<Stage> {
        match self {
            Self::StartIndoors | Self::Sow | Self::CoverCrop => Some(Stage::Sown),
            Self::PotOn => Some(Stage::Potted),
            Self::HardenOff => Some(Stage::Hardened),
            Self::SetOut | Self::Plant => Some(Stage::SetOut),
            Self::Clear => Some(Stage::Cleared),
            Self::OrderSeed
            | Self::TestSeed
            | Self::Support
            | Self::Net
            | Self::Thin
            | Self::Mulch
            | Self::Feed
            | Self::Tie
            | Self::Hill
            | Self::Pinch
            | Self::Uncover
            | Self::Cover
            | Self::Water
            | Self::Pick
            | Self::SaveSeed
            | Self::SoilTest => None,
        }
    }
    /// Every kind.
    pub const ALL: [Self; 24] = [
        Self::OrderSeed,
        Self::TestSeed,
        Self::StartIndoors,
        Self::PotOn,
        Self::HardenOff,
        Self::Sow,
        Self::SetOut,
        Self::Plant,
        Self::CoverCrop,
        Self::Support,
        Self::Net,
        Self::Thin,
        Self::Mulch,
        Self::Feed,
        Self::Tie,
        Self::Hill,
        Self::Pinch,
        Self::Uncover,
        Self::Cover,
        Self::Water,
        Self::Pick,
        Self::SaveSeed,
        Self::Clear,
        Self::SoilTest,
    ];
    /// Its word, as the diary writes it when the job has no stage.
    pub const fn word(self) -> &'static str {
        match self {
            Self::OrderSeed => "order seed",
            Self::TestSeed => "test seed",
            Self::StartIndoors => "start indoors",
            Self::PotOn => "pot on",
            Self::HardenOff => "harden off",
            Self::Sow => "sow",
            Self::SetOut => "set out",
            Self::Plant => "plant",
            Self::CoverCrop => "sow a cover crop",
            Self::Support => "support",
            Self::Net => "net",
            Self::Thin => "thin",
            Self::Mulch => "mulch",
            Self::Feed => "feed",
            Self::Tie => "tie",
            Self::Hill => "hill",
            Self::Pinch => "pinch",
            Self::Uncover => "uncover",
            Self::Cover => "cover against frost",
            Self::Water => "water",
            Self::Pick => "pick",
            Self::SaveSeed => "save seed",
            Self::Clear => "clear",
            Self::SoilTest => "soil test",
        }
    }
}

/// A dated thing to do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Job {
    /// A lasting name, the same as long as its planting keeps its number: "12-sow", "12-tie-3".
    pub id: String,
    /// Kind, by its word.
    #[serde(serialize_with = "word")]
    pub kind: JobKind,
    /// What: "Sow radish".
    pub what: String,
    /// Where, in words: "Square box, A1-B2"; empty where it is no matter of a place.
    #[serde(rename = "where")]
    pub where_words: String,
    /// The bed; "Pots" for every pot; empty where it is no matter of a place.
    #[serde(skip)]
    pub bed: String,
    /// The cells of the bed, or the pot.
    #[serde(skip)]
    pub cells: String,
    /// How much: "16 seeds, 3 in apart, 1/2 in deep".
    pub amount: String,
    /// First day on which it may be done.
    pub from: Date,
    /// Last day on which nothing is lost yet.
    pub to: Date,
    /// The day to do it on: the garden day where it lies in the window.
    pub best: Date,
    /// Minutes it takes: an estimate.
    pub minutes: u16,
    /// Why now, and for late jobs what slips.
    pub why: String,
    /// The bed or pot, where it is one.
    pub place: Option<PlaceId>,
    /// The planting, where it is one; of several that are one act, the first.
    pub planting: Option<PlantingId>,
    /// All plantings of the act: one crop begun on one day in several blocks of a place.
    pub plantings: Vec<PlantingId>,
    /// The grower is away on every day of its window.
    pub away: bool,
    /// Its window is over and nothing says that it was done.
    pub late: bool,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands out references")]
fn word<S: serde::Serializer>(kind: &JobKind, out: S) -> Result<S::Ok, S::Error> {
    out.serialize_str(kind.word())
}

impl Job {
    /// "15 May - 22 May", or one day.
    pub fn when(&self) -> String {
        if self.from >= self.to {
            day_text(self.best)
        } else {
            format!("{} - {}", day_text(self.from), day_text(self.to))
        }
    }
    /// Late ones first, then by place, day and kind.
    pub(super) fn order(&self) -> impl Ord + use<> {
        (!self.late, self.bed.clone(), self.best, self.kind, self.where_words.clone(), self.id.clone())
    }
}
