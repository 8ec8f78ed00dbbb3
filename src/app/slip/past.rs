//! What stood in a place in a past season, and why a finding is set aside.

use super::support::block;
use super::{Choice, Reading};
use crate::app::fuzzy;
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::timeline::Stay;
use crate::app::update::commit;
use crate::calendar::Season;
use crate::garden::{Block, PlaceId};
use crate::plan::{Edit, Past, SetAside, Stood};

/// What a word means: a crop, a family, nothing, or not known.
fn stood(model: &Model, word: &str) -> Result<Option<Stood>, String> {
    let lower = word.trim().to_lowercase();
    match lower.as_str() {
        "nothing" | "none" | "fallow" => return Ok(Some(Stood::Nothing)),
        "unknown" | "?" => return Ok(None),
        _ => {}
    }
    let family =
        model.book.families().find(|f| f.common.to_lowercase() == lower || f.name.to_lowercase() == lower);
    if let Some(family) = family {
        return Ok(Some(Stood::Family(family.name.clone())));
    }
    match model.book.named(word) {
        Ok(crop) => Ok(Some(Stood::Crop { crop: crop.id.clone(), family: crop.family.clone() })),
        Err(unknown) => Err(crate::app::update::sentence(&unknown.to_string())),
    }
}

/// The record with what stood in a place in a season replaced.
fn record(model: &Model, place: &PlaceId, season: Season, text: &str) -> Result<Vec<Past>, String> {
    let here = |p: &Past| p.place == *place && p.from <= season.last() && p.to >= season.first();
    let mut out: Vec<Past> = model.plan.record.iter().filter(|p| !here(p)).cloned().collect();
    for part in text.split(';').map(str::trim).filter(|w| !w.is_empty()) {
        let (word, block) = parted(model, place, part);
        let Some(stood) = stood(model, &word)? else { continue };
        let old = model.plan.record.iter().find(|p| here(p) && p.stood == stood && p.block == block);
        out.push(old.cloned().unwrap_or_else(|| Past {
            place: place.clone(),
            block,
            stood,
            from: season.first(),
            to: season.last(),
            note: String::new(),
        }));
    }
    out.sort_by(|a, b| (&a.place, a.from, a.to).cmp(&(&b.place, b.from, b.to)));
    Ok(out)
}

pub(super) fn read(model: &Model, place: &PlaceId, season: Season, text: &str) -> Reading {
    let words = match record(model, place, season, text) {
        Ok(_) => Vec::new(),
        Err(words) => vec![(Tone::Mind, words)],
    };
    let (before, last) = text.rsplit_once(';').map_or((String::new(), text), |(b, l)| (format!("{b}; "), l));
    let names = ["nothing", "unknown"].map(str::to_owned).into_iter();
    let names = names
        .chain(model.book.families().map(|f| f.common.clone()))
        .chain(model.book.crops().map(|c| c.name.clone()));
    let choices = fuzzy::ranked(last.trim(), names, |w| vec![w.clone()])
        .into_iter()
        .take(8)
        .map(|w| Choice { fills: format!("{before}{w}"), key: w.clone(), label: w, detail: String::new() })
        .collect();
    Reading { words, choices }
}

pub(super) fn accept(
    model: &mut Model,
    place: &PlaceId,
    season: Season,
    text: &str,
) -> Result<Vec<Effect>, String> {
    let record = record(model, place, season, text)?;
    Ok(commit(model, Edit::Record(record)))
}

/// What stands in the line at first: what is recorded.
pub(in crate::app) fn recorded(model: &Model, place: &PlaceId, season: Season) -> String {
    let cells = |s: &Stay| s.block.map_or_else(String::new, |b| format!(" {b}"));
    let stays = model.stays(place, season).into_iter().filter(|s| s.recorded);
    stays.map(|s| format!("{}{}", s.name, cells(&s))).collect::<Vec<_>>().join("; ")
}

/// The words before a block of cells, and the block where there is one: "Carrot A1-B2".
fn parted(model: &Model, place: &PlaceId, text: &str) -> (String, Option<Block>) {
    let grid = model.plan.place(place).map(|p| p.grid(model.plan.settings.cell));
    if let (Some(grid), Some((word, cells))) = (grid, text.trim().rsplit_once(' '))
        && let Some(block) = block(cells, grid)
    {
        return (word.trim().to_owned(), Some(block));
    }
    (text.trim().to_owned(), None)
}

/// Sets the finding at the cursor aside for a reason.
pub(super) fn aside(model: &mut Model, text: &str) -> Result<Vec<Effect>, String> {
    let reason = text.trim();
    if reason.is_empty() {
        return Err(String::from("A reason is wanted, so that it is understood next year."));
    }
    let Some(finding) = model.focus_finding() else { return Ok(Vec::new()) };
    let mut list = model.plan.set_aside.clone();
    list.push(SetAside {
        code: finding.code.to_owned(),
        place: finding.place.clone(),
        planting: finding.planting,
        reason: reason.to_owned(),
    });
    Ok(commit(model, Edit::SetAside(list)))
}
