//! The crop book for programs; for people it is [`crate::crop::list`] and [`crate::crop::page`].

use super::schedule::{own_json, start_id};
use crate::crop::{Book, Crop};
use crate::growth::OwnDays;
use serde_json::{Value, json};

/// Every crop for a program.
pub fn book_json(book: &Book) -> Value {
    book.crops().map(|crop| crop_json(book, crop, None)).collect()
}

/// A crop for a program, with what a garden has learnt of its days.
pub fn crop_json(book: &Book, crop: &Crop, own: Option<OwnDays>) -> Value {
    let rotation = book.rotation(crop);
    json!({
        "id": crop.id,
        "of": crop.of,
        "name": crop.name,
        "also": crop.also,
        "botanical": crop.botanical,
        "family": crop.family,
        "code": crop.code,
        "uses": crop.uses,
        "part": crop.part,
        "days": [crop.days.min, crop.days.max],
        "counted_from": crop.days.from,
        "own_days": own.map(own_json),
        "spacing": [crop.spacing.dense, crop.spacing.wide],
        "depth": crop.depth,
        "height": crop.height,
        "methods": crop.starts.iter().map(|s| start_id(*s)).collect::<Value>(),
        "light_hours": [crop.light.least, crop.light.full],
        "frost": { "class": crop.frost.class, "foliage": crop.frost.foliage, "harvest": crop.frost.harvest },
        "harvest": [crop.harvest.low, crop.harvest.usual, crop.harvest.high],
        "free_years": { "least": rotation.least, "advised": rotation.advised, "weight": rotation.weight },
        "catch": crop.catch,
        "sources": crop.src,
    })
}
