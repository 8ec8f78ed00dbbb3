//! The crop book for programs; for people it is [`crate::crop::list`] and [`crate::crop::page`].

use super::figure;
use super::schedule::{full_day, own_json, start_id};
use crate::crop::{Book, Crop, Fault, lines};
use crate::growth::{Free, OwnDays};
use crate::units::Measure;
use crate::work::Fitting;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fmt::Write;

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
        "harvest_kg_m2": crop.grams_a_square_metre().map(|grams| grams.map(|g| figure(g / 1000.0, 2))),
        "free_years": { "least": rotation.least, "advised": rotation.advised, "weight": rotation.weight },
        "catch": crop.catch,
        "sources": crop.src,
    })
}

/// What crops were chosen by, in words.
#[derive(Debug, Clone, Default)]
pub struct Asked {
    /// What there is and what is wanted.
    pub words: String,
    /// Words looked for.
    pub find: Option<String>,
    /// The bed or pot.
    pub place: Option<String>,
    /// The time it is free, where dates were reckoned.
    pub free: Option<Free>,
}

impl Asked {
    /// "12 crops: 'bean', in Long box, 5.2 h of sun, from 22 May 2027, for 8 weeks".
    fn head(&self, found: usize) -> String {
        let mut parts = Vec::new();
        parts.extend(self.find.as_ref().map(|words| format!("'{words}'")));
        parts.extend(self.place.as_ref().map(|place| format!("in {place}")));
        parts.extend(Some(self.words.clone()).filter(|w| !w.is_empty()));
        if let Some(free) = self.free {
            parts.push(format!("from {}", full_day(free.from)));
            parts.extend(free.weeks.map(|n| format!("ripe in {n} week{}", if n == 1 { "" } else { "s" })));
        }
        let crops = if found == 1 { "1 crop" } else { &format!("{found} crops") };
        format!("{crops}: {}\n", parts.join(", "))
    }
}

/// Chosen crops for people.
pub fn chosen_text(crops: &[&Crop], asked: &Asked, measure: Measure) -> String {
    format!("{}{}", asked.head(crops.len()), lines(crops, measure))
}

/// What fits for people: each with its dates.
pub fn fitting_text(fits: &[Fitting<'_>], asked: &Asked, free: Free) -> String {
    let mut out = asked.head(fits.len());
    for fit in fits {
        let words = fit.words(free);
        let _ = writeln!(out, "  {:<26}{:<32}{words}", fit.crop.id, fit.crop.name);
    }
    out
}

/// What fits for a program: the crop and its dates.
pub fn fitting_json(book: &Book, fit: &Fitting<'_>) -> Value {
    let mut value = crop_json(book, fit.crop, None);
    let dates = fit.schedule.dates;
    value["fits"] = json!({
        "method": start_id(fit.schedule.start),
        "sown": dates.sown,
        "begins": fit.schedule.begins(),
        "first_pick": dates.first_pick,
        "last_pick": dates.last_pick,
        "cleared": dates.cleared,
        "chance": figure(fit.schedule.chance, 2),
    });
    value
}

/// What was counted of a book.
fn counts(book: &Book) -> (usize, usize, usize) {
    let varieties = book.crops().filter(|c| c.of.is_some()).count();
    let families: BTreeSet<&str> = book.crops().map(|c| c.family.as_str()).collect();
    (book.crops().count() - varieties, varieties, families.len())
}

/// What the book check found, for people.
pub fn check_book_text(book: &Book, faults: &[Fault], climates: usize) -> String {
    let (crops, varieties, families) = counts(book);
    let troubles = book.troubles().count();
    let mut out =
        format!("{crops} crops and {varieties} varieties of {families} families, {troubles} troubles\n");
    for fault in faults {
        let _ = writeln!(out, "{fault}");
    }
    match faults.len() {
        0 => {
            let _ = writeln!(
                out,
                "No fault: names, ranges, units and order of figures, pots and spacing, families, neighbours, troubles \
                 and a source for every figure; each grows at one of the {climates} built-in climates at least."
            );
        }
        n => {
            let _ = writeln!(out, "{n} fault{}.", if n == 1 { "" } else { "s" });
        }
    }
    out
}

/// What the book check found, for a program.
pub fn check_book_json(book: &Book, faults: &[Fault]) -> Value {
    let (crops, varieties, families) = counts(book);
    let fault = |f: &Fault| json!({ "file": f.file, "id": f.id, "figure": f.figure, "words": f.words });
    json!({
        "crops": crops,
        "varieties": varieties,
        "families": families,
        "faults": faults.iter().map(fault).collect::<Value>(),
    })
}
