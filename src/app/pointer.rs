//! The mouse, where the grower has switched it on: pressing moves the cursor, dragging moves what lies under it.

use super::command::{Command, Way};
use super::message::Effect;
use super::model::{Grasp, Model, Over, Tone};
use super::siteplan::Spot;
use super::update::perform;
use super::view::View;
use super::{carry, cursor};
use crate::calendar::Week;

/// What a spot of the screen shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Target {
    /// A spot of the site plan.
    Spot(Spot),
    /// A cell of the bed shown large: row and column.
    Cell((u16, u16)),
    /// A line of the list of the view shown.
    Line(usize),
    /// The peg of a view.
    Peg(View),
    /// A week of the ruler.
    Week(Week),
}

/// What the mouse does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touch {
    /// Its button goes down.
    Press,
    /// It moves with the button down.
    Drag,
    /// The button comes up.
    Release,
    /// The wheel turns: up, or down.
    Wheel(Way),
}

/// What a drag has hold of: how far from the corner of it, in cells to the east and south.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hold {
    /// Where the button went down.
    from: Target,
    /// East of the corner.
    x: i64,
    /// South of it.
    y: i64,
}

/// Switches the mouse on or off.
pub(super) fn switch(model: &mut Model) -> Vec<Effect> {
    model.mouse = !model.mouse;
    model.hold = None;
    let words = if model.mouse {
        "The mouse is on: press to go there, drag to move a bed or a planting."
    } else {
        "The mouse is off: the terminal selects text with it again."
    };
    model.say(Tone::Plain, words);
    vec![Effect::Mouse(model.mouse)]
}

/// Takes in what the mouse does.
pub(super) fn touched(model: &mut Model, touch: Touch, target: Option<Target>) -> Vec<Effect> {
    if matches!(model.over, Some(Over::Slip(_) | Over::Ask(_) | Over::Tour(_))) {
        return Vec::new();
    }
    match (touch, target) {
        (Touch::Wheel(way), _) => cursor::step(model, way, if model.view == View::Bed { 1 } else { 3 }),
        (Touch::Press, Some(target)) => press(model, target),
        (Touch::Drag, Some(target)) => drag(model, target),
        (Touch::Release, _) => release(model),
        (Touch::Press | Touch::Drag, None) => Vec::new(),
    }
}

fn press(model: &mut Model, target: Target) -> Vec<Effect> {
    model.over = None;
    model.pending.clear();
    model.note = None;
    match target {
        Target::Peg(view) => {
            carry::release(model);
            return perform(model, Command::Go(view));
        }
        Target::Week(week) => return super::update::time(model, |_| week),
        Target::Line(line) => {
            model.lines.insert(model.view, line);
            model.scroll = 0;
        }
        Target::Spot(_) | Target::Cell(_) => {
            go(model, target);
            model.hold = Some(Hold { from: target, x: 0, y: 0 });
        }
    }
    Vec::new()
}

/// Puts the cursor there; what is carried comes along.
fn go(model: &mut Model, target: Target) {
    match target {
        Target::Spot(spot) => {
            let way = (spot.x - model.spot.x, spot.y - model.spot.y);
            cursor::by(model, way.0, way.1);
        }
        Target::Cell(cell) => {
            let way =
                (i64::from(cell.1) - i64::from(model.cell.1), i64::from(cell.0) - i64::from(model.cell.0));
            cursor::by(model, way.0, way.1);
        }
        Target::Line(_) | Target::Peg(_) | Target::Week(_) => {}
    }
}

fn drag(model: &mut Model, target: Target) -> Vec<Effect> {
    let Some(mut hold) = model.hold else { return Vec::new() };
    if model.carry.is_none() {
        if target == hold.from || !Command::Carry.is_possible(model) {
            return Vec::new();
        }
        (hold.x, hold.y) = offset(model);
        model.hold = Some(hold);
        drop(perform(model, Command::Carry));
        if model.carry.is_none() {
            model.hold = None;
            return Vec::new();
        }
    }
    let to = match target {
        Target::Spot(spot) => Target::Spot(spot.plus(-hold.x, -hold.y)),
        Target::Cell((row, col)) => {
            let less = |at: u16, by: i64| u16::try_from((i64::from(at) - by).max(0)).unwrap_or(at);
            Target::Cell((less(row, hold.y), less(col, hold.x)))
        }
        Target::Line(_) | Target::Peg(_) | Target::Week(_) => target,
    };
    go(model, to);
    Vec::new()
}

/// How far the cursor is from the corner of what lies under it.
fn offset(model: &Model) -> (i64, i64) {
    match model.grasp() {
        Some(Grasp::Place(id)) => model.plan.place(&id).map_or((0, 0), |p| {
            let at = model.footprint(p).at;
            (model.spot.x - at.x, model.spot.y - at.y)
        }),
        Some(Grasp::Planting(id)) => model.plan.planting(id).map_or((0, 0), |p| {
            (
                i64::from(model.cell.1) - i64::from(p.block.col),
                i64::from(model.cell.0) - i64::from(p.block.row),
            )
        }),
        None => (0, 0),
    }
}

fn release(model: &mut Model) -> Vec<Effect> {
    if model.hold.take().is_some() && model.carry.is_some() { carry::drop(model) } else { Vec::new() }
}
