//! What stood in a soil before the program knew the garden. What is not recorded is unknown, never free.

use crate::calendar::Date;
use crate::crop::CropId;
use crate::garden::{Block, PlaceId};
use serde::{Deserialize, Serialize};

/// What stood there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Stood {
    /// A crop of the book, with its family as it was known then.
    Crop {
        /// The crop.
        crop: CropId,
        /// Its family.
        family: String,
    },
    /// Something of a family; which, is forgotten.
    Family(String),
    /// Known to have been without crops.
    Nothing,
}

/// A stay in a soil in the past.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Past {
    /// The bed or pot.
    pub place: PlaceId,
    /// Only these cells; none: somewhere in the place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub block: Option<Block>,
    /// What stood there.
    pub stood: Stood,
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
    /// The grower's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Past {
    /// The family that stood there, if any.
    pub fn family(&self) -> Option<&str> {
        match &self.stood {
            Stood::Crop { family, .. } | Stood::Family(family) => Some(family),
            Stood::Nothing => None,
        }
    }
}
