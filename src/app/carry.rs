//! What is carried about with the cursor until it is put down.

use super::message::Effect;
use super::model::{Model, Tone};
use super::siteplan::{Spot, ways};
use super::size;
use super::sowing::Sowing;
use super::update::commit;
use crate::calendar::plus;
use crate::garden::Place;
use crate::plan::Edit;
use crate::units::{Length, LengthUnit};

/// A way between beds that is narrower than this is said, micrometres (common practice: 30 cm to walk).
const NARROW: i64 = 300_000;

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
    /// A planting.
    Planting(Box<Sowing>),
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

/// Takes up a planting.
pub(super) fn lift_planting(model: &mut Model, sowing: Sowing) {
    if !sowing.new {
        let (place, block) = (sowing.planting.place.clone(), sowing.planting.block);
        model.go_to(&place, (block.row, block.col));
    }
    let from = model.spot;
    model.carry = Some(Carry { load: Load::Planting(Box::new(sowing)), from });
    settle(model);
}

/// Sets what is carried to the cursor.
pub(super) fn settle(model: &mut Model) {
    let Some(mut carry) = model.carry.take() else { return };
    match &mut carry.load {
        Load::Place { place, .. } => {
            let at = model.spot.point(model.plan.settings.cell);
            let date = model.shown_day();
            match place.moves.iter_mut().rev().find(|m| m.from <= date) {
                Some(last) => last.at = at,
                None => place.at = at,
            }
        }
        Load::Planting(sowing) => {
            if let Some((place, cell)) = model.focus().or_else(|| model.bed_cell()) {
                sowing.settle(model, place, cell);
            }
        }
    }
    model.carry = Some(carry);
}

/// Moves the start of a carried planting by whole weeks.
pub(super) fn postpone(model: &mut Model, weeks: i64) {
    let Some(mut carry) = model.carry.take() else { return };
    if let Load::Planting(sowing) = &mut carry.load {
        if sowing.planting.has_begun() {
            model.say(Tone::Mind, format!("{} has begun already: its dates stay.", sowing.planting.name));
        } else {
            sowing.day = plus(sowing.day, 7 * weeks);
            sowing.dated(model);
        }
    }
    model.carry = Some(carry);
    settle(model);
}

/// Turns what is carried, or gives it its next shape.
pub(super) fn turn(model: &mut Model) {
    let Some(mut carry) = model.carry.take() else { return };
    match &mut carry.load {
        Load::Place { place, .. } => **place = place.as_ref().clone().turned(model.plan.settings.cell),
        Load::Planting(sowing) => sowing.reshape(model),
    }
    model.carry = Some(carry);
    settle(model);
}

/// The next way of starting the planting that is carried.
pub(super) fn restart(model: &mut Model) -> Vec<Effect> {
    let Some(mut carry) = model.carry.take() else { return Vec::new() };
    if let Load::Planting(sowing) = &mut carry.load {
        sowing.restart(model);
    }
    model.carry = Some(carry);
    settle(model);
    Vec::new()
}

/// What putting it down here would mean, in words.
pub fn outlook(model: &Model) -> Vec<(Tone, String)> {
    match model.carry.as_ref().map(|c| &c.load) {
        Some(Load::Place { place, .. }) => place_outlook(model, place),
        Some(Load::Planting(sowing)) => sowing.words(model),
        None => Vec::new(),
    }
}

fn place_outlook(model: &Model, place: &Place) -> Vec<(Tone, String)> {
    let mut out = vec![(Tone::Plain, format!("{}, {}", place.name, size::words(&place.shape)))];
    let measure = model.plan.settings.measure;
    let ways = ways(&model.plan, place, model.shown_day());
    for (name, way) in ways.iter().filter(|(_, way)| *way < 0) {
        let deep = Length::from_base(-way, LengthUnit::Cm).for_measure(measure);
        out.push((Tone::Stop, format!("lies on {name} by {}", deep.rounded(0))));
    }
    if let Some((name, way)) = ways.iter().find(|(_, way)| *way >= 0) {
        let wide = Length::from_base(*way, LengthUnit::Cm).for_measure(measure);
        let tone = if *way < NARROW { Tone::Mind } else { Tone::Plain };
        out.push((tone, format!("{} to {name}", wide.rounded(1))));
    }
    out
}

/// Puts it down; where it can't be, it stays in the hand and the reason is said.
pub(super) fn drop(model: &mut Model) -> Vec<Effect> {
    let Some(carry) = model.carry.take() else { return Vec::new() };
    match &carry.load {
        Load::Place { place, .. } => {
            let id = place.id.clone();
            let effects = commit(model, Edit::Place(id.clone(), Some(place.clone())));
            model.go_to(&id, (0, 0));
            effects
        }
        Load::Planting(sowing) => match sowing.edit(model) {
            Ok(edit) => {
                let effects = commit(model, edit);
                if effects.is_empty() {
                    model.carry = Some(carry);
                }
                effects
            }
            Err(words) => {
                model.say(Tone::Stop, words);
                model.carry = Some(carry);
                Vec::new()
            }
        },
    }
}

/// Lets go of it: nothing has changed.
pub(super) fn release(model: &mut Model) {
    if let Some(carry) = model.carry.take() {
        model.spot = carry.from;
        model.say(Tone::Plain, "Let go: nothing was changed.");
    }
}
