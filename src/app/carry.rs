//! What is carried about with the cursor until it is put down.

use super::model::{Model, Tone};
use super::siteplan::{Spot, ways};
use super::size;
use super::update::commit;
use crate::garden::Place;
use crate::plan::Edit;
use crate::units::{Length, LengthUnit};

/// What is carried.
#[derive(Debug, Clone, PartialEq)]
pub enum Load {
    /// A bed or pot: a new one, or one that is moved.
    Place {
        /// As it will stand.
        place: Box<Place>,
        /// Whether it is not in the garden yet.
        new: bool,
    },
}

/// Something carried.
#[derive(Debug, Clone, PartialEq)]
pub struct Carry {
    /// What.
    pub load: Load,
    /// Where the cursor was when it was taken up.
    pub from: Spot,
}

/// Takes up a place with its corner at the cursor.
pub(super) fn lift(model: &mut Model, place: Place, new: bool) {
    let from = model.spot;
    if !new {
        model.spot = model.footprint(&place).at.plus(0, 0);
    }
    model.carry = Some(Carry { load: Load::Place { place: Box::new(place), new }, from });
    settle(model);
}

/// Sets what is carried to the cursor.
pub(super) fn settle(model: &mut Model) {
    let (spot, cell) = (model.spot, model.plan.settings.cell);
    let date = model.shown_day();
    let Some(carry) = &mut model.carry else { return };
    match &mut carry.load {
        Load::Place { place, .. } => {
            let at = spot.point(cell);
            match place.moves.iter_mut().rev().find(|m| m.from <= date) {
                Some(last) => last.at = at,
                None => place.at = at,
            }
        }
    }
}

/// What putting it down here would mean, in words.
pub fn outlook(model: &Model) -> Vec<(Tone, String)> {
    let Some(place) = model.carried_place() else { return Vec::new() };
    let mut out = vec![(Tone::Plain, format!("{}, {}", place.name, size::words(&place.shape)))];
    let measure = model.plan.settings.measure;
    let ways = ways(&model.plan, place, model.shown_day());
    for (name, way) in ways.iter().filter(|(_, way)| *way < 0) {
        let deep = Length::from_base(-way, LengthUnit::Cm).for_measure(measure);
        out.push((Tone::Stop, format!("lies on {name} by {}", deep.rounded(0))));
    }
    if let Some((name, way)) = ways.iter().find(|(_, way)| *way >= 0) {
        let wide = Length::from_base(*way, LengthUnit::Cm).for_measure(measure);
        let tone = if *way < 300_000 { Tone::Mind } else { Tone::Plain };
        out.push((tone, format!("{} to {name}", wide.rounded(1))));
    }
    out
}

/// Puts it down.
pub(super) fn drop(model: &mut Model) -> Vec<super::message::Effect> {
    let Some(carry) = model.carry.take() else { return Vec::new() };
    match carry.load {
        Load::Place { place, .. } => {
            let id = place.id.clone();
            let effects = commit(model, Edit::Place(id.clone(), Some(place)));
            model.go_to(&id, (0, 0));
            effects
        }
    }
}

/// Lets go of it: nothing has changed.
pub(super) fn release(model: &mut Model) {
    if let Some(carry) = model.carry.take() {
        model.spot = carry.from;
        model.say(Tone::Plain, "Let go: nothing was changed.");
    }
}
