//! The diary in words.

use crate::plan::{Cause, DiaryEntry, Event, Plan};
use std::fmt::Write as _;

/// Why something failed, in words.
const fn cause_words(cause: Cause) -> &'static str {
    match cause {
        Cause::NoSprout => "did not sprout",
        Cause::Drought => "too dry",
        Cause::Wet => "too wet",
        Cause::Frost => "frost",
        Cause::Heat => "heat",
        Cause::Eaten => "eaten",
        Cause::Disease => "disease",
        Cause::Bolted => "ran to flower",
        Cause::Broken => "broken",
        Cause::Other => "other",
    }
}

/// An entry in a line: "12 May 2027: tomato in Long box A1-B2 set out".
pub fn entry_text(plan: &Plan, entry: &DiaryEntry) -> String {
    let measure = plan.settings.measure;
    let mut out = super::full_day(entry.on);
    let planting = entry.planting.and_then(|id| plan.planting(id));
    let place = entry.place.as_ref().or_else(|| planting.map(|p| &p.place));
    let place = place.map(|id| plan.place(id).map_or(id.0.as_str(), |p| p.name.as_str()));
    out.push_str(": ");
    if let Some(planting) = planting {
        let _ = write!(out, "{} in {} {} ", planting.name, place.unwrap_or_default(), planting.block);
    } else if let Some(place) = place {
        let _ = write!(out, "{place} ");
    }
    let what = match &entry.what {
        Event::Done(stage) => stage.word().to_owned(),
        Event::Partly(stage) => format!("partly {}", stage.word()),
        Event::NotDone(stage) => format!("not yet {}", stage.word()),
        Event::Failed(cause) => format!("failed: {}", cause_words(*cause)),
        Event::Picked(amount) => format!("picked {}", amount.reading(measure)),
        Event::Frost(Some(t)) => format!("frost, {}", t.reading(measure)),
        Event::Frost(None) => String::from("frost"),
        Event::SoilTemperature(t) => format!("soil at {}", t.reading(measure)),
        Event::Trouble(id) => format!("{id} seen"),
        Event::Volunteer(crop) => format!("{crop} came up by itself"),
        Event::Job(word) => format!("{word} done"),
        Event::Remark => String::from("remark"),
    };
    out.push_str(&what);
    if !entry.words.is_empty() {
        let _ = write!(out, " - {}", entry.words);
    }
    if let Some(id) = entry.corrects {
        let _ = write!(out, " (corrects entry {id})");
    }
    out
}
