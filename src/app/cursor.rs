//! The cursor: the same keys move it in every view.

use super::carry;
use super::command::Way;
use super::message::Effect;
use super::model::{Model, Over};
use super::slip;
use super::view::View;

/// Cells or lines a page is.
const PAGE: i64 = 8;

/// One step, or several.
pub(super) fn step(model: &mut Model, way: Way, steps: i64) -> Vec<Effect> {
    let (x, y) = match way {
        Way::Up => (0, -steps),
        Way::Down => (0, steps),
        Way::Left => (-steps, 0),
        Way::Right => (steps, 0),
    };
    match &mut model.over {
        Some(Over::Tour(_)) => return super::tour::step(model, way),
        Some(Over::Help(line)) => {
            *line = super::shift(*line, y, 400);
            return Vec::new();
        }
        Some(Over::Slip(_)) => {
            slip::pick(model, y);
            return Vec::new();
        }
        Some(Over::Print(_)) => {
            if x != 0 {
                return super::printing::choose(model, x);
            }
            super::printing::step(model, y);
            return Vec::new();
        }
        Some(Over::Ask(_)) => return Vec::new(),
        None => {}
    }
    match model.view {
        View::Ground | View::Bed => by(model, x, y),
        View::Weeks => {
            down(model, y);
            if x != 0 {
                return super::update::time(model, |week| week.plus(x.clamp(-53, 53)));
            }
        }
        View::Record => {
            down(model, y);
            let to = i64::from(model.season_at) + x;
            model.season_at = i32::try_from(to.clamp(-5, 2)).unwrap_or(0);
        }
        View::Needs => model.scroll = super::shift(model.scroll, y, 400),
        View::Wishes | View::Jobs | View::Findings | View::Book => down(model, y),
    }
    Vec::new()
}

/// So many cells east and south on the ground or in a bed; what is carried comes along.
pub(super) fn by(model: &mut Model, x: i64, y: i64) {
    if model.view == View::Bed {
        in_bed(model, x, y);
        carry::settle(model);
    } else {
        model.spot = model.spot.plus(x, y);
        carry::settle(model);
        follow(model);
    }
}

/// So many lines down the list of the view shown.
fn down(model: &mut Model, lines: i64) {
    let last = model.count(model.view).saturating_sub(1);
    let line = super::shift(model.line(model.view), lines, last);
    model.lines.insert(model.view, line);
    if lines != 0 {
        model.scroll = 0;
    }
}

/// The bed view follows the cursor on the ground.
fn follow(model: &mut Model) {
    if let Some((id, cell)) = model.at_spot(model.spot).map(|(p, cell)| (p.id.clone(), cell)) {
        model.bed = Some(id);
        model.cell = cell;
    }
}

fn in_bed(model: &mut Model, x: i64, y: i64) {
    let Some(place) = model.bed.as_ref().and_then(|id| model.plan.place(id)) else { return };
    let (rows, cols) = place.grid(model.plan.settings.cell);
    let along = |at: u16, step: i64, last: u16| {
        let to = (i64::from(at) + step).clamp(0, i64::from(last.saturating_sub(1)));
        u16::try_from(to).unwrap_or(at)
    };
    let cell = (along(model.cell.0, y, rows), along(model.cell.1, x, cols));
    let id = place.id.clone();
    model.go_to(&id, cell);
}

/// A page.
pub(super) fn page(model: &mut Model, way: Way) -> Vec<Effect> {
    if model.over.is_none() && model.view == View::Book {
        let lines = if way == Way::Up { -PAGE } else { PAGE };
        model.scroll = super::shift(model.scroll, lines, 400);
        return Vec::new();
    }
    step(model, way, PAGE)
}

/// To the first or the last.
pub(super) fn ends(model: &mut Model, way: Way) -> Vec<Effect> {
    match (model.view, way) {
        (View::Ground, Way::Up | Way::Left) => next_of(model, |_| 0),
        (View::Ground, Way::Down | Way::Right) => next_of(model, |n| n.saturating_sub(1)),
        (
            View::Bed
            | View::Weeks
            | View::Wishes
            | View::Jobs
            | View::Findings
            | View::Record
            | View::Book
            | View::Needs,
            _,
        ) => {
            return step(model, way, 10_000);
        }
    }
    Vec::new()
}

fn next_of(model: &mut Model, which: impl Fn(usize) -> usize) {
    let ids: Vec<_> = model.places().iter().map(|p| p.id.clone()).collect();
    if let Some(id) = ids.get(which(ids.len())) {
        model.go_to(id, (0, 0));
    }
}

/// To a bed or pot further on, round about.
pub(super) fn next(model: &mut Model, steps: i64) -> Vec<Effect> {
    let ids: Vec<_> = model.places().iter().map(|p| p.id.clone()).collect();
    if ids.is_empty() {
        return Vec::new();
    }
    let here = match model.view {
        View::Ground => model.focus_place().map(|p| p.id.clone()).or_else(|| model.bed.clone()),
        View::Bed
        | View::Weeks
        | View::Wishes
        | View::Jobs
        | View::Findings
        | View::Record
        | View::Book
        | View::Needs => model.bed.clone(),
    };
    let at = here.and_then(|id| ids.iter().position(|i| *i == id));
    let to = match at {
        Some(at) => crate::units::num::wrap(crate::units::num::signed(at) + steps, ids.len()),
        None => 0,
    };
    let id = ids[to].clone();
    model.go_to(&id, (0, 0));
    carry::settle(model);
    Vec::new()
}
