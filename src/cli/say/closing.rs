//! What a closed season leaves behind, for programs.

use super::figure;
use crate::work::Closing;
use serde_json::{Value, json};

/// What a closed season leaves behind.
pub fn closing_json(closing: &Closing) -> Value {
    json!({
        "season": closing.season,
        "picked": closing.picked.iter().map(|(name, amount)| json!({ "name": name, "amount": amount })).collect::<Value>(),
        "carried": closing.carried,
        "untold": closing.untold,
        "failed": closing.failed,
        "days": closing.days.iter().map(|(name, days)| json!({
            "name": name,
            "catalogue": figure(days.catalogue, 1),
            "seen": figure(days.seen, 1),
            "plantings": days.plantings,
            "seasons": days.seasons,
            "days": figure(days.days, 1),
        })).collect::<Value>(),
    })
}
