//! What is done with a bed, a pot or what shades at the cursor: taken up, turned, taken away, retired.

use super::carry;
use super::growing;
use super::message::Effect;
use super::model::{Grasp, Model, Over, Question, Tone};
use super::slip;
use super::update::commit;
use super::view::View;
use crate::garden::{Place, PlaceId};
use crate::plan::Edit;

/// Takes up what is at the cursor, or a copy of it.
pub(super) fn lift(model: &mut Model, copy: bool) -> Vec<Effect> {
    match model.grasp() {
        Some(Grasp::Place(id)) => {
            let Some(place) = model.plan.place(&id).cloned() else { return Vec::new() };
            if copy {
                let fresh = slip::fresh(model, place.kind, place.shape, place.at);
                let place = Place { tags: place.tags, sun_hours: place.sun_hours, ..fresh };
                carry::lift(model, place, true);
            } else {
                carry::lift(model, place, false);
            }
        }
        Some(Grasp::Planting(_)) => return growing::lift(model, copy),
        None => {}
    }
    Vec::new()
}

/// Turns what is carried, or the place at the cursor.
pub(super) fn turn(model: &mut Model) -> Vec<Effect> {
    if model.carry.is_some() {
        carry::turn(model);
        return Vec::new();
    }
    let Some(place) = model.focus_place() else { return Vec::new() };
    let place = place.clone().turned(model.plan.settings.cell);
    commit(model, Edit::Place(place.id.clone(), Some(Box::new(place))))
}

/// Takes away what is at the cursor.
pub(super) fn remove(model: &mut Model) -> Vec<Effect> {
    if model.view == View::Wishes {
        return growing::drop_wish(model);
    }
    if model.view == View::Ground
        && model.focus_place().is_none()
        && let Some(at) = model.obstacle_at(model.spot)
    {
        let mut site = model.plan.site.clone();
        let words = format!("took away {}", site.obstacles.remove(at).name);
        return commit(model, Edit::Batch(words, vec![Edit::Site(Box::new(site))]));
    }
    match model.grasp() {
        Some(Grasp::Place(id)) => {
            if model.plan.plantings_in(&id).next().is_some() {
                model.over = Some(Over::Ask(Question::Retire(id)));
                return Vec::new();
            }
            commit(model, Edit::Place(id, None))
        }
        Some(Grasp::Planting(id)) => commit(model, Edit::Planting(id, None)),
        None => Vec::new(),
    }
}

/// Retires a place from the shown week on: it stays in the record.
pub(super) fn retire(model: &mut Model, id: &PlaceId) -> Vec<Effect> {
    let Some(mut place) = model.plan.place(id).cloned() else { return Vec::new() };
    let day = model.week.monday();
    if day <= place.since {
        model.say(Tone::Mind, format!("{} is not there before this week: take it away instead.", place.name));
        return Vec::new();
    }
    let late = model.plan.plantings_in(id).find(|p| p.ends().is_none_or(|e| e > day)).map(|p| p.name.clone());
    if let Some(late) = late {
        let words = format!(
            "{late} still stands in {} then: take it away first, or retire {} later.",
            place.name, place.name
        );
        model.say(Tone::Mind, words);
        return Vec::new();
    }
    place.until = Some(day);
    let words = format!("retired {} from {}", place.name, crate::calendar::day_text(day));
    commit(model, Edit::Batch(words, vec![Edit::Place(id.clone(), Some(Box::new(place)))]))
}
