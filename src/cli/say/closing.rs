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
        "yields": closing.yields.iter().map(|(name, seen, plants, usual)| json!({
            "name": name, "seen": seen, "plants": plants, "book": usual,
        })).collect::<Value>(),
        "wishes": closing.kept.iter().map(|k| json!({
            "wish": k.wish, "name": k.name, "wanted": k.wanted, "picked": k.picked, "share": figure(k.share, 4),
        })).collect::<Value>(),
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
