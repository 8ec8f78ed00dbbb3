//! What is carried about with the cursor until it is put down.

use super::errand::Errand;
use super::message::Effect;
use super::model::{Model, Tone};
use super::reckon::Sum;
use super::siteplan::{Spot, ways};
use super::size;
use super::slip::fresh;
use super::sowing::{Sowing, Weighed};
use super::update::commit;
use crate::calendar::plus;
use crate::garden::{Kind, Place, Shape};
use crate::plan::Edit;
use crate::units::{Length, LengthUnit};

/// A way between beds that is narrower than this is said, micrometres (common practice: 30 cm to walk).
const NARROW: i64 = 300_000;
/// The most cells a side that is drawn may have.
const MOST_CELLS: i64 = 150;

/// What is carried.
#[derive(Debug, Clone, PartialEq)]
pub enum Load {
    /// A bed or pot: a new one, or one that is moved.
    Place {
        /// As it will stand.
        place: Box<Place>,
        /// Whether it is not in the garden yet.
        new: bool,
        /// The corner from which the cursor stretches it; none where it is only moved.
        corner: Option<Spot>,
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
    model.carry = Some(Carry { load: Load::Place { place: Box::new(place), new, corner: None }, from });
    settle(model);
}

/// Begins to draw a new bed at the cursor.
pub(super) fn draw(model: &mut Model, kind: Kind) -> Vec<Effect> {
    let cell = model.plan.settings.cell;
    let at = model.spot.point(cell);
    let depth = size::deep(kind, model.plan.settings.measure);
    let place = fresh(model, kind, Shape::Rect { across: cell, down: cell, depth }, at);
    let corner = Some(model.spot);
    let load = Load::Place { place: Box::new(place), new: true, corner };
    model.carry = Some(Carry { load, from: model.spot });
    settle(model);
    Vec::new()
}

/// Takes up the bed at the cursor to draw it larger or smaller from its north-west corner.
pub(super) fn stretch(model: &mut Model) -> Vec<Effect> {
    let Some(place) = model.focus_place().cloned() else { return Vec::new() };
    if place.is_pot() {
        model.say(Tone::Mind, "A pot is not stretched: e s takes its size in words.");
        return Vec::new();
    }
    let (from, foot) = (model.spot, model.footprint(&place));
    model.spot = foot.at.plus(i64::from(foot.cols) - 1, i64::from(foot.rows) - 1);
    let load = Load::Place { place: Box::new(place), new: false, corner: Some(foot.at.plus(0, 0)) };
    model.carry = Some(Carry { load, from });
    settle(model);
    Vec::new()
}

/// Takes up a planting.
pub(super) fn lift_planting(model: &mut Model, sowing: Sowing) {
    // What it would change is told by comparing with what holds now.
    model.want(Sum::Findings);
    model.want(Sum::Met);
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
        Load::Place { place, corner, .. } => {
            let cell = model.plan.settings.cell;
            let spot =
                corner.map_or(model.spot, |c| Spot { x: c.x.min(model.spot.x), y: c.y.min(model.spot.y) });
            if let (Some(corner), Shape::Rect { across, down, .. }) = (*corner, &mut place.shape) {
                let side = |a: i64, b: i64| {
                    let cells = ((a - b).abs() + 1).min(MOST_CELLS);
                    Length::from_base(cells.saturating_mul(cell.um()), cell.unit())
                };
                (*across, *down) = (side(corner.x, model.spot.x), side(corner.y, model.spot.y));
            }
            let at = spot.point(cell);
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

/// Has a carried planting weighed beside the screen where it is not known what it would bring.
pub(super) fn weigh(model: &mut Model) {
    let Some(Load::Planting(sowing)) = model.carry.as_ref().map(|c| &c.load) else { return };
    if sowing.weighed != Weighed::Not {
        return;
    }
    model.want(Sum::Findings);
    model.want(Sum::Met);
    // It is compared with what holds now: that comes first.
    if model.is_behind(Sum::Findings) || model.is_behind(Sum::Met) {
        return;
    }
    let weighing = match model.carry.as_ref().map(|c| &c.load) {
        Some(Load::Planting(sowing)) => sowing.weighing(model),
        Some(Load::Place { .. }) | None => None,
    };
    if let (Some(weighing), Some(Carry { load: Load::Planting(sowing), .. })) = (weighing, &mut model.carry) {
        sowing.weighed = Weighed::Asked;
        model.errands.push(Errand::Weigh(Box::new(weighing)));
    }
}

/// A carried planting has been weighed; one that was moved since is let go.
pub(super) fn weighed(model: &mut Model, known: Sowing) {
    if let Some(Carry { load: Load::Planting(sowing), .. }) = &mut model.carry
        && sowing.planting == known.planting
        && sowing.weighed == Weighed::Asked
    {
        **sowing = known;
    }
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
        Load::Planting(sowing) => match sowing.edit(&model.plan) {
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
