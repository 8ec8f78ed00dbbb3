//! An entry of the diary with everything that follows from it, as one step.

use super::entry::{NoteError, note};
use super::forecast::forecast;
use crate::crop::Book;
use crate::plan::{DiaryEntry, Edit, EditError, Plan, PlantingId};
use crate::site::SiteYear;

/// What an entry changes.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// The entries, the real dates and the dates that follow, as one edit.
    pub edit: Edit,
    /// What moves, in words.
    pub moved: Vec<String>,
    /// What cannot move and is in the way, in words.
    pub conflicts: Vec<String>,
}

/// Why an entry cannot be written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TellError {
    /// The diary refuses it.
    #[error(transparent)]
    Note(#[from] NoteError),
    /// The plan refuses it.
    #[error(transparent)]
    Edit(#[from] EditError),
}

/// Writes an entry, for each of the plantings where it is about one act in several blocks, and moves what follows. A
/// picking is shared out by their plants.
pub fn tell(
    plan: &Plan,
    book: &Book,
    year: &SiteYear,
    entry: &DiaryEntry,
    act: &[PlantingId],
) -> Result<Told, TellError> {
    let mut after = plan.clone();
    let mut edits = Vec::new();
    for said in shared(plan, entry, act) {
        let edit = note(&after, book, year, DiaryEntry { id: after.next_entry().max(entry.id), ..said })?;
        after.apply(&edit)?;
        edits.push(edit);
    }
    let follows = forecast(&after, book, year);
    if !follows.is_still() {
        edits.push(follows.edit);
    }
    let words = format!("wrote the diary for {}", crate::calendar::day_text(entry.on));
    Ok(Told { edit: Edit::Batch(words, edits), moved: follows.moved, conflicts: follows.conflicts })
}

/// The entry for each planting of an act.
fn shared(plan: &Plan, entry: &DiaryEntry, act: &[PlantingId]) -> Vec<DiaryEntry> {
    let single = entry.corrects.is_some() || entry.planting.is_none_or(|id| !act.contains(&id));
    if single || act.len() < 2 {
        return vec![entry.clone()];
    }
    let plants = |id: &PlantingId| plan.planting(*id).map_or(0.0, |p| f64::from(p.plants));
    let all: f64 = act.iter().map(plants).sum();
    act.iter()
        .map(|id| {
            let what = if all > 0.0 {
                entry.what.with_picked(|amount| amount.with_value(amount.value() * plants(id) / all))
            } else {
                entry.what.clone()
            };
            DiaryEntry { planting: Some(*id), what, ..entry.clone() }
        })
        .collect()
}
