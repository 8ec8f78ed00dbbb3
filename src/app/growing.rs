//! What is done with plantings, wishes, findings and the record at the cursor.

use super::carry::lift_planting;
use super::message::Effect;
use super::model::{Grasp, Model, Tone};
use super::slip::{self, Purpose};
use super::sowing::{Sowing, shifted};
use super::update::commit;
use super::view::View;
use super::wish_text;
use crate::calendar::Week;
use crate::crop::CropId;
use crate::garden::Layer;
use crate::plan::{Edit, Planting, SetAside};

/// Asks for the crop to plant at the cursor.
pub(super) fn plant(model: &mut Model) -> Vec<Effect> {
    slip::open(model, Purpose::Crop, "");
    Vec::new()
}

/// Takes a new planting of a crop into the hand, at the cursor or at the bed shown last.
pub(super) fn take(model: &mut Model, id: &CropId) -> Result<Vec<Effect>, String> {
    let crop = model.book.get(id).ok_or_else(|| format!("'{id}' is not in the crop book."))?.clone();
    if model.focus().is_none() || !matches!(model.view, View::Ground | View::Bed) {
        model.view = View::Bed;
    }
    let (place, _) = model.focus().ok_or("There is no bed or pot yet: lay one out on the ground first.")?;
    let sowing = Sowing::new(model, &crop, place);
    lift_planting(model, sowing);
    Ok(Vec::new())
}

/// Takes up the planting at the cursor, or a copy of it.
pub(super) fn lift(model: &mut Model, copy: bool) -> Vec<Effect> {
    let Some(Grasp::Planting(id)) = model.grasp() else { return Vec::new() };
    let Some(planting) = model.plan.planting(id) else { return Vec::new() };
    let mut sowing = Sowing::lifted(planting);
    if copy {
        sowing.planting.id = model.plan.next_planting();
        sowing.planting.real = crate::growth::Dates::default();
        sowing.new = true;
        sowing.dated(model);
    }
    if model.view == View::Weeks {
        model.view = View::Bed;
    }
    if let Some(begins) = sowing.planting.begins()
        && !sowing.planting.stands_on(model.shown_day())
    {
        model.show_day(begins);
    }
    lift_planting(model, sowing);
    Vec::new()
}

fn changed(model: &mut Model, change: impl FnOnce(&mut Planting)) -> Vec<Effect> {
    let Some(mut planting) = model.focus_planting().cloned() else { return Vec::new() };
    change(&mut planting);
    commit(model, Edit::Planting(planting.id, Some(Box::new(planting))))
}

/// Fixes the planting at the cursor, or frees it.
pub(super) fn fix(model: &mut Model) -> Vec<Effect> {
    changed(model, |p| p.fixed = !p.fixed)
}

/// Moves the planting at the cursor by weeks; its dates are computed anew.
pub(super) fn shift(model: &mut Model, weeks: i64) -> Vec<Effect> {
    let Some(planting) = model.focus_planting().cloned() else { return Vec::new() };
    match shifted(model, &planting, weeks) {
        Ok(edit) => {
            let effects = commit(model, edit);
            // The cursor stays on the planting.
            let after = model.plan.planting(planting.id).and_then(Planting::begins);
            if let (View::Bed | View::Ground, Some(begins)) = (model.view, after)
                && model.focus_planting().is_none_or(|p| p.id != planting.id)
            {
                model.week = Week::of(begins);
            }
            effects
        }
        Err(words) => {
            model.say(Tone::Stop, words);
            Vec::new()
        }
    }
}

/// The other layer.
pub(super) fn layer(model: &mut Model) -> Vec<Effect> {
    model.layer = match model.layer {
        Layer::Main => Layer::Mate,
        Layer::Mate => Layer::Main,
    };
    let words = match model.layer {
        Layer::Main => "Working on main plantings.",
        Layer::Mate => "Working on mates: what shares the cells of a main planting while it leaves room.",
    };
    model.say(Tone::Plain, words);
    Vec::new()
}

/// Orders the rows of the timeline otherwise.
pub(super) fn group(model: &mut Model) -> Vec<Effect> {
    if model.view == View::Record {
        let row = model.record_row();
        let place = row.map(|(id, _)| id);
        model.cells_of = if model.cells_of.is_some() { None } else { place.clone() };
        let rows = model.record_rows();
        let at = rows.iter().position(|(id, _)| Some(id) == place.as_ref()).unwrap_or(0);
        model.lines.insert(View::Record, at);
        return Vec::new();
    }
    model.grouping = model.grouping.next();
    model.lines.insert(View::Weeks, 0);
    model.say(Tone::Plain, format!("The rows are {}.", model.grouping.words()));
    Vec::new()
}

/// Shows the timeline of the bed at the cursor alone, or of the whole garden again.
pub(super) fn alone(model: &mut Model) -> Vec<Effect> {
    if !model.alone
        && let Some(id) = model.focus_place().map(|p| p.id.clone())
    {
        model.bed = Some(id);
    }
    model.alone = !model.alone;
    model.lines.insert(View::Weeks, 0);
    let name = model.bed.as_ref().and_then(|id| model.plan.place(id)).map_or("", |p| p.name.as_str());
    let words = if model.alone {
        format!("Only {name}: b shows the whole garden again.")
    } else {
        String::from("The whole garden.")
    };
    model.say(Tone::Plain, words);
    Vec::new()
}

/// Asks for a wish: a new one, or the one at the cursor.
pub(super) fn wish(model: &mut Model, new: bool) -> Vec<Effect> {
    let (id, text) = match model.focus_wish() {
        Some(wish) if !new => (wish.id, wish_text::words(wish, &model.plan, &model.book)),
        Some(_) | None => (model.plan.next_wish(), String::new()),
    };
    slip::open(model, Purpose::Wish(id), &text);
    Vec::new()
}

/// Makes the wish at the cursor more or less important.
pub(super) fn weigh(model: &mut Model, steps: i8) -> Vec<Effect> {
    let Some(mut wish) = model.focus_wish().cloned() else { return Vec::new() };
    wish.importance = wish.importance.saturating_add_signed(steps).clamp(1, 5);
    commit(model, Edit::Wish(wish.id, Some(Box::new(wish))))
}

/// Takes the wish at the cursor away.
pub(super) fn drop_wish(model: &mut Model) -> Vec<Effect> {
    let Some(id) = model.focus_wish().map(|w| w.id) else { return Vec::new() };
    commit(model, Edit::Wish(id, None))
}

/// Asks why the finding at the cursor is set aside, or takes it up again.
pub(super) fn set_aside(model: &mut Model) -> Vec<Effect> {
    let Some(finding) = model.focus_finding().cloned() else { return Vec::new() };
    if finding.set_aside.is_none() {
        slip::open(model, Purpose::Aside, "");
        return Vec::new();
    }
    let about = |s: &SetAside| {
        s.code == finding.code
            && s.place.as_ref().is_none_or(|p| Some(p) == finding.place.as_ref())
            && s.planting.is_none_or(|p| Some(p) == finding.planting)
    };
    let rest = model.plan.set_aside.iter().filter(|s| !about(s)).cloned().collect();
    commit(model, Edit::SetAside(rest))
}

/// Shows where and when the finding at the cursor is.
pub(super) fn go_to_finding(model: &mut Model) -> Vec<Effect> {
    let Some(finding) = model.focus_finding().cloned() else { return Vec::new() };
    if let Some(from) = finding.from {
        model.show_day(from);
    }
    let planting = finding.planting.and_then(|id| model.plan.planting(id)).cloned();
    if let (None, Some(begins)) = (finding.from, planting.as_ref().and_then(Planting::begins)) {
        model.show_day(begins);
    }
    let place = finding.place.or_else(|| planting.as_ref().map(|p| p.place.clone()));
    let block = finding.cells.or_else(|| planting.map(|p| p.block));
    if let Some(place) = place {
        model.go_to(&place, block.map_or((0, 0), |b| (b.row, b.col)));
        model.view = View::Bed;
    } else {
        model.say(Tone::Plain, "This finding is about no single place.");
    }
    Vec::new()
}

/// Shows the bed of the row of the timeline at the cursor.
pub(super) fn go_to_row(model: &mut Model) -> Vec<Effect> {
    let planting = model.row_planting().cloned();
    let Some((id, cell)) = model.focus().map(|(p, cell)| (p.id.clone(), cell)) else { return Vec::new() };
    if let Some(begins) = planting.filter(|p| !p.stands_on(model.shown_day())).and_then(|p| p.begins()) {
        model.show_day(begins);
    }
    model.go_to(&id, cell);
    model.view = View::Bed;
    Vec::new()
}
