//! Writing into the diary.

use super::{Choice, Reading};
use crate::app::days::{CAUSES, event, event_words};
use crate::app::fuzzy;
use crate::app::model::{Model, Tone};
use crate::plan::Event;

pub(super) fn read(model: &Model, text: &str) -> Reading {
    let about = model
        .diary_planting()
        .and_then(|id| model.plan.planting(id))
        .map_or_else(|| String::from("the garden"), |p| p.name.clone());
    let words = match event(model, text) {
        Ok(Event::Remark) => vec![(Tone::Plain, format!("a remark about {about}"))],
        Ok(what @ (Event::Frost(_) | Event::SoilTemperature(_))) => vec![(Tone::Good, event_words(&what))],
        Ok(what) => vec![(Tone::Good, format!("about {about}: {}", event_words(&what)))],
        Err(_) if text.trim().is_empty() => vec![(Tone::Plain, format!("about {about}"))],
        Err(words) => vec![(Tone::Mind, words)],
    };
    let fixed = ["frost", "soil 12 C"].map(str::to_owned).into_iter();
    let troubles = model.book.troubles().map(|t| t.name.clone());
    let causes = CAUSES.iter().map(|(_, w)| format!("failed: {w}"));
    let choices = if text.trim().is_empty() {
        Vec::new()
    } else {
        fuzzy::ranked(text, fixed.chain(causes).chain(troubles), |w| vec![w.clone()])
            .into_iter()
            .take(6)
            .map(|w| Choice { fills: w.clone(), key: w.clone(), label: w, detail: String::new() })
            .collect()
    };
    Reading { words, choices }
}
