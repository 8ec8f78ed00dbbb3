//! Choosing a crop, with what it would give at the cursor from the shown week on.

use super::{Choice, Reading};
use crate::app::model::{Model, Tone};
use crate::app::sowing::start_words;
use crate::calendar::{day_text, plus};
use crate::crop::{Crop, CropId, Start};
use crate::garden::{Place, shapes_in};
use crate::growth::{Conditions, age, outlook};

/// Crops whose dates are computed at once.
const SHOWN: usize = 40;

/// The crops that answer, best first; those wished for where nothing is typed.
fn answers<'a>(model: &'a Model, text: &str) -> Vec<&'a Crop> {
    if !text.trim().is_empty() {
        return model.book.search(text).into_iter().map(|hit| hit.crop).collect();
    }
    let mut out: Vec<&Crop> = Vec::new();
    for wish in &model.plan.wishes {
        if let Some(crop) = model.book.get(&wish.crop)
            && !out.iter().any(|c| c.id == crop.id)
        {
            out.push(crop);
        }
    }
    let mut rest: Vec<&Crop> = model.book.crops().filter(|c| !out.iter().any(|o| o.id == c.id)).collect();
    rest.sort_by(|a, b| a.name.cmp(&b.name));
    out.extend(rest);
    out
}

/// "9 a cell, sown in place, picked 20 Jun - 3 Jul".
fn prospect(model: &Model, crop: &Crop, place: &Place, conditions: &Conditions<'_>) -> String {
    let shapes = shapes_in(crop, place, model.plan.settings.cell);
    let Some((rows, cols, plants)) = shapes.first() else { return String::from("does not fit here") };
    let room = if place.is_pot() {
        format!("{plants} in the pot")
    } else if (*rows, *cols) == (1, 1) {
        format!("{plants} in a cell")
    } else {
        format!("{plants} in {rows} x {cols} cells")
    };
    let start = crop.starts.first().copied().unwrap_or(Start::InPlace);
    let seen = outlook(crop, conditions, start, plus(model.shown_day(), -age(start)));
    let way = start_words(start);
    match (&seen.schedule, seen.against.last()) {
        (Some(schedule), against) => {
            let dates = schedule.dates;
            let mark = if against.is_some() { " but " } else { "" };
            let why = against.map(|r| r.words(model.plan.settings.measure)).unwrap_or_default();
            match (dates.first_pick, dates.last_pick) {
                (Some(first), Some(last)) => {
                    format!("{room}, {way}, picked {} - {}{mark}{why}", day_text(first), day_text(last))
                }
                _ => format!("{room}, {way}{mark}{why}"),
            }
        }
        (None, Some(refusal)) => refusal.words(model.plan.settings.measure),
        (None, None) => String::from("never ripens"),
    }
}

pub(super) fn read(model: &Model, text: &str) -> Reading {
    let found = answers(model, text);
    if found.is_empty() {
        let words = match model.book.named(text) {
            Ok(_) => String::new(),
            Err(unknown) => crate::app::update::sentence(&unknown.to_string()),
        };
        return Reading::say(Tone::Mind, words);
    }
    let here = model.focus().or_else(|| model.bed_cell());
    let choices = match (&model.year, here) {
        (Ok(year), Some((place, _))) => {
            let conditions = model.plan.conditions(&model.book, year);
            let detail = |(n, crop): (usize, &Crop)| {
                if n < SHOWN { prospect(model, crop, place, &conditions) } else { String::new() }
            };
            found.into_iter().enumerate().map(|(n, crop)| choice(crop, detail((n, crop)))).collect()
        }
        _ => found.into_iter().map(|crop| choice(crop, String::new())).collect(),
    };
    Reading::choose(choices)
}

/// A crop as a choice.
pub(super) fn choice(crop: &Crop, detail: String) -> Choice {
    Choice { label: crop.name.clone(), detail, fills: crop.name.clone(), key: crop.id.0.clone() }
}

pub(super) fn chosen(key: Option<&str>) -> Result<CropId, String> {
    key.map(CropId::new).ok_or_else(|| String::from("No crop of the book is called so."))
}
