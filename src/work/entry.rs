//! The diary: an entry becomes one edit, with the real date on its planting and the dates that follow.

use super::amounts::inside;
use super::close::frozen;
use super::forecast::redated;
use crate::calendar::{Date, day_text};
use crate::crop::Book;
use crate::growth::{Dates, Stage};
use crate::plan::{DiaryEntry, Edit, Event, Plan, Planting, PlantingId};
use crate::site::SiteYear;

/// Why an entry cannot be written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoteError {
    /// No such planting.
    #[error("there is no planting {0} in this garden")]
    NoPlanting(u32),
    /// No such place.
    #[error("there is no place '{0}' in this garden")]
    NoPlace(String),
    /// What happened needs a planting.
    #[error("say which planting was {0}")]
    Whose(&'static str),
    /// No such entry to correct.
    #[error("there is no diary entry {0} to correct")]
    NoEntry(u32),
    /// The number is taken.
    #[error("the diary has an entry {0} already: entries are only added")]
    Taken(u32),
    /// The entry is corrected already.
    #[error("diary entry {0} is corrected already: correct the entry that corrects it")]
    Corrected(u32),
    /// No such disease or pest.
    #[error("the crop book has no trouble '{0}'")]
    NoTrouble(String),
    /// Its day lies in a season that is closed.
    #[error(
        "{on} lies in a season that is closed (up to {last}): open it again first (`catchcrop close PLAN --reopen`)"
    )]
    Closed {
        /// The day.
        on: String,
        /// The last day of the closed seasons.
        last: String,
    },
    /// Out of order with what is known.
    #[error("{name} cannot be {stage} on {on}: it was {other} on {when}; correct that entry first")]
    Order {
        /// The planting.
        name: String,
        /// The stage of the entry.
        stage: &'static str,
        /// Its day.
        on: String,
        /// The stage in the way.
        other: &'static str,
        /// Its day.
        when: String,
    },
}

/// An entry about a planting on a day, with the next free number.
pub fn entry(plan: &Plan, planting: Option<PlantingId>, on: Date, what: Event) -> DiaryEntry {
    let place = planting.and_then(|id| plan.planting(id)).map(|p| p.place.clone());
    DiaryEntry { id: plan.next_entry(), on, planting, place, what, words: String::new(), corrects: None }
}

/// The edit that writes an entry: the entry itself, the real date of its planting, and that planting's later dates.
/// What stands in the same cells afterwards is moved by [`super::forecast`].
///
/// # Errors
/// Where the entry names what is not there, or contradicts what the diary says already.
pub fn note(plan: &Plan, book: &Book, year: &SiteYear, entry: DiaryEntry) -> Result<Edit, NoteError> {
    verify(plan, book, &entry)?;
    if let Some(last) = frozen(plan, year).filter(|last| entry.on <= *last) {
        return Err(NoteError::Closed { on: day_text(entry.on), last: day_text(last) });
    }
    // Without the garden's own days, which would count what is told a second time: see `Plan::choices`.
    let conditions = plan.choices(year);
    let Edit::Batch(words, edits) = plan.noting(entry) else {
        return Ok(Edit::Batch(String::new(), Vec::new()));
    };
    let mut out = Vec::with_capacity(edits.len());
    for mut edit in edits {
        if let Edit::Planting(_, Some(planting)) = &mut edit {
            if let Some((later, earlier)) = muddled(&planting.real) {
                let when = |stage: Stage| planting.real.of(stage).map_or_else(String::new, day_text);
                return Err(NoteError::Order {
                    name: inside(&planting.name),
                    stage: earlier.word(),
                    on: when(earlier),
                    other: later.word(),
                    when: when(later),
                });
            }
            let dates = redated(planting, book.get(&planting.crop), &conditions);
            planting.move_to(dates);
        }
        out.push(edit);
    }
    Ok(Edit::Batch(words, out))
}

/// Two real stages that run backwards once an entry counts (a correction can bring one back), if there are any.
fn muddled(real: &Dates) -> Option<(Stage, Stage)> {
    let known: Vec<Stage> = Stage::ALL.into_iter().filter(|s| real.of(*s).is_some()).collect();
    known.windows(2).map(|pair| (pair[0], pair[1])).find(|(a, b)| real.of(*a) > real.of(*b))
}

fn verify(plan: &Plan, book: &Book, entry: &DiaryEntry) -> Result<(), NoteError> {
    if plan.diary.iter().any(|e| e.id == entry.id) {
        return Err(NoteError::Taken(entry.id));
    }
    if let Some(id) = entry.corrects {
        if !plan.diary.iter().any(|e| e.id == id) {
            return Err(NoteError::NoEntry(id));
        }
        if plan.diary.iter().any(|e| e.corrects == Some(id)) {
            return Err(NoteError::Corrected(id));
        }
    }
    if let Some(place) = entry.place.as_ref().filter(|p| plan.place(p).is_none()) {
        return Err(NoteError::NoPlace(place.to_string()));
    }
    let planting = match entry.planting {
        Some(id) => Some(plan.planting(id).ok_or(NoteError::NoPlanting(id.0))?),
        None => None,
    };
    match &entry.what {
        Event::Trouble(id) if book.trouble(id).is_none() => Err(NoteError::NoTrouble(id.clone())),
        Event::Done(stage) => in_time(whose(planting, "done")?, *stage, stage.word(), entry, plan),
        Event::Picked(_) => in_time(whose(planting, "picked")?, Stage::FirstPick, "picked", entry, plan),
        Event::Failed(_) => in_time(whose(planting, "failed")?, Stage::Cleared, "failed", entry, plan),
        Event::Partly(_) | Event::NotDone(_) => whose(planting, "done").map(|_| ()),
        Event::Frost(_)
        | Event::SoilTemperature(_)
        | Event::Trouble(_)
        | Event::Volunteer(_)
        | Event::Job(_)
        | Event::Remark => Ok(()),
    }
}

fn whose<'a>(planting: Option<&'a Planting>, what: &'static str) -> Result<&'a Planting, NoteError> {
    planting.ok_or(NoteError::Whose(what))
}

/// Refuses a stage before one that comes earlier, or after one that comes later.
fn in_time(
    planting: &Planting,
    stage: Stage,
    word: &'static str,
    entry: &DiaryEntry,
    plan: &Plan,
) -> Result<(), NoteError> {
    // What the entry corrects no longer counts.
    let wrong = entry.corrects.and_then(|id| plan.diary.iter().find(|e| e.id == id));
    let undone = wrong.filter(|w| w.planting == Some(planting.id)).and_then(|w| match &w.what {
        Event::Done(stage) => Some(*stage),
        Event::Failed(_) => Some(Stage::Cleared),
        Event::Picked(_) => Some(Stage::FirstPick),
        Event::Partly(_)
        | Event::NotDone(_)
        | Event::Frost(_)
        | Event::SoilTemperature(_)
        | Event::Trouble(_)
        | Event::Volunteer(_)
        | Event::Job(_)
        | Event::Remark => None,
    });
    // Pickings go on: only what comes before the first or after the last can be in the way.
    let picked = matches!(entry.what, Event::Picked(_));
    for other in Stage::ALL {
        let Some(when) = planting.real.of(other).filter(|_| Some(other) != undone) else { continue };
        let last = matches!(other, Stage::LastPick | Stage::Cleared);
        let wrong =
            (other < stage && when > entry.on) || (other > stage && when < entry.on && (!picked || last));
        if wrong {
            return Err(NoteError::Order {
                name: inside(&planting.name),
                stage: word,
                on: day_text(entry.on),
                other: other.word(),
                when: day_text(when),
            });
        }
    }
    Ok(())
}
