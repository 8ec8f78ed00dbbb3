//! What the grower wants to eat and cut.

use crate::calendar::MonthDay;
use crate::crop::CropId;
use crate::garden::PlaceId;
use crate::units::Amount;
use serde::{Deserialize, Serialize};

/// Numbers a wish.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct WishId(pub u32);

/// How the amount is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Pattern {
    /// So much every week of the window.
    Even,
    /// So much in all, at one time within the window, for preserving.
    AtOnce,
    /// So much in all, laid down to keep.
    Store,
}

/// A wish.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wish {
    /// Its number.
    pub id: WishId,
    /// A crop (any of its varieties will do) or one variety.
    pub crop: CropId,
    /// How much: a week for `Even`, in all otherwise.
    pub amount: Amount,
    /// How it is meant.
    pub pattern: Pattern,
    /// Harvest window, first day; every season unless `season` says which.
    pub from: MonthDay,
    /// Harvest window, last day; earlier than `from` where it runs over the new year.
    pub to: MonthDay,
    /// Only for the harvest season that begins in this year.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub season: Option<i32>,
    /// 1 (would be nice) to 5 (must).
    pub importance: u8,
    /// Only in these places.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<PlaceId>,
    /// The grower's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
