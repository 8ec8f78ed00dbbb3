//! Plantings that are one act of the grower: one crop, sown or set out on one day in several blocks of a place.

use super::desk::Desk;
use crate::calendar::Date;
use crate::crop::{CropId, Start};
use crate::garden::{Layer, PlaceId};
use crate::growth::Dates;
use crate::plan::{Event, Planting, PlantingId, Why};
use std::collections::BTreeMap;

/// What plantings must share to be one act, with what comes after them and what the diary says of each.
#[derive(Debug, Clone, PartialEq)]
struct Mark {
    place: PlaceId,
    layer: Layer,
    crop: CropId,
    start: Start,
    planned: Dates,
    real: Dates,
    filler: (bool, bool),
    held: bool,
    next: Option<(CropId, Date)>,
    told: Vec<(Date, Event)>,
}

/// Plantings that are one act, by the first of them: the others in the order of their cells.
pub(super) type Alike<'a> = BTreeMap<PlantingId, Vec<&'a Planting>>;

impl<'a> Desk<'a> {
    fn mark(&self, planting: &Planting) -> Mark {
        let own = |e: &&crate::plan::DiaryEntry| e.planting == Some(planting.id);
        Mark {
            place: planting.place.clone(),
            layer: planting.layer,
            crop: planting.crop.clone(),
            start: planting.start,
            planned: planting.planned,
            real: planting.real,
            filler: (planting.why == Why::Catch, planting.why == Why::Cover),
            held: planting.begins().is_some_and(|b| self.held(planting, b)),
            next: self.next(planting).map(|(p, on)| (p.crop.clone(), on)),
            // Pickings of one act are shared out by plants: their amounts differ, the act stays one.
            told: self
                .entries()
                .filter(own)
                .map(|e| (e.on, e.what.with_picked(|amount| amount.with_value(0.0))))
                .collect(),
        }
    }

    /// Gathers plantings into acts; each is stood for by its first planting with the plants of all.
    pub(super) fn gather(&mut self, plantings: impl Iterator<Item = &'a Planting>) -> Vec<Planting> {
        let mut acts: Vec<(Mark, Vec<&'a Planting>)> = Vec::new();
        for planting in plantings {
            let mark = self.mark(planting);
            match acts.iter_mut().find(|(known, _)| *known == mark) {
                Some((_, act)) => act.push(planting),
                None => acts.push((mark, vec![planting])),
            }
        }
        let mut out = Vec::with_capacity(acts.len());
        for (_, mut act) in acts {
            act.sort_by_key(|p| (p.block.row, p.block.col, p.id));
            let Some(first) = act.first() else { continue };
            let mut whole = (*first).clone();
            whole.plants = act.iter().fold(0_u16, |sum, p| sum.saturating_add(p.plants));
            self.alike.insert(whole.id, act);
            out.push(whole);
        }
        out
    }

    /// The plantings of an act.
    pub(super) fn act(&self, planting: &Planting) -> Vec<PlantingId> {
        self.alike.get(&planting.id).map_or_else(|| vec![planting.id], |a| a.iter().map(|p| p.id).collect())
    }
}
