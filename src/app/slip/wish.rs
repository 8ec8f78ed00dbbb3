//! Typing a wish.

use super::{Choice, Reading, crop};
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::update::commit;
use crate::app::view::View;
use crate::app::wish_text::{self, IMPORTANCE};
use crate::plan::{Edit, WishId};

/// What may follow after the crop.
const PARTS: [&str; 9] = [
    "3 heads a week",
    "500 g a week",
    "1 lb a week",
    "2 bunches a week",
    "5 kg to store",
    "5 lb at once",
    "May to October",
    "June to August",
    "15 Sep to 15 Nov",
];

pub(super) fn read(model: &Model, id: WishId, text: &str) -> Reading {
    let (before, last) = text.rsplit_once(',').map_or(("", text), |(b, l)| (b, l));
    let choices = if before.is_empty() { crops(model, text) } else { parts(model, before, last.trim()) };
    let words = match wish_text::read(text, id, &model.plan, &model.book) {
        Ok(wish) => vec![(Tone::Good, wish_text::words(&wish, &model.plan, &model.book))],
        Err(_) if text.trim().is_empty() => {
            vec![(Tone::Plain, String::from("Such as: lettuce, 3 heads a week, May to October, must"))]
        }
        Err(error) => vec![(Tone::Mind, error.words)],
    };
    Reading { words, choices }
}

fn crops(model: &Model, text: &str) -> Vec<Choice> {
    let unit = |c: &crate::crop::Crop| {
        format!("harvest: {} a plant", c.harvest.usual.reading(model.plan.settings.measure))
    };
    model.book.search(text).into_iter().take(8).map(|hit| crop::choice(hit.crop, unit(hit.crop))).collect()
}

fn parts(model: &Model, before: &str, last: &str) -> Vec<Choice> {
    let places = model.plan.places.iter().map(|p| format!("in {}", p.name));
    let words = PARTS.iter().chain(&IMPORTANCE).map(|w| (*w).to_owned()).chain(places);
    crate::app::fuzzy::ranked(last, words, |w| vec![w.clone()])
        .into_iter()
        .take(8)
        .map(|w| Choice { fills: format!("{before}, {w}"), key: w.clone(), label: w, detail: String::new() })
        .collect()
}

pub(super) fn accept(model: &mut Model, id: WishId, text: &str) -> Result<Vec<Effect>, String> {
    let mut wish = wish_text::read(text, id, &model.plan, &model.book).map_err(|e| e.words)?;
    if let Some(old) = model.plan.wish(id) {
        wish.note.clone_from(&old.note);
    }
    let effects = commit(model, Edit::Wish(id, Some(Box::new(wish))));
    let at = model.plan.wishes.iter().position(|w| w.id == id).unwrap_or(0);
    model.lines.insert(View::Wishes, at);
    Ok(effects)
}
