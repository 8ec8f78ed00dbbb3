//! Laying out places, and what is typed about them.

use super::{About, Choice, Reading, cover, support};
use crate::app::carry::lift;
use crate::app::fuzzy;
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::size;
use crate::app::update::commit;
use crate::garden::{Kind, Place, PlaceId, Point, Shape, Tag, placed};
use crate::plan::Edit;
use crate::units::{Length, LengthUnit, num};

/// What a kind of place is called.
pub(in crate::app) const fn word(kind: Kind) -> &'static str {
    match kind {
        Kind::Box => "box",
        Kind::OpenBed => "open bed",
        Kind::FlowerBed => "flower bed",
        Kind::Pot => "pot",
    }
}

/// A new place with the next free id and name of its kind.
pub(in crate::app) fn fresh(model: &Model, kind: Kind, shape: Shape, at: Point) -> Place {
    let id = model.plan.free_place_id(&word(kind).replace(' ', "-"));
    let mut name = id.0.replace('-', " ");
    if let Some(first) = name.get(..1) {
        name = format!("{}{}", first.to_uppercase(), name.get(1..).unwrap_or_default());
    }
    Place {
        on_paving: matches!(kind, Kind::Pot),
        tags: if kind == Kind::FlowerBed { vec![Tag::FlowersOnly] } else { Vec::new() },
        fresh: matches!(kind, Kind::Pot | Kind::Box),
        ..Place::new(id, name, kind, at, shape, model.week.monday().min(model.today))
    }
}

pub(super) fn lay_out(model: &mut Model, kind: Kind, text: &str) -> Result<Vec<Effect>, String> {
    if text.trim().is_empty() && kind != Kind::Pot {
        return Ok(crate::app::carry::draw(model, kind));
    }
    let shape = size::read(text, kind, model.plan.settings.measure)?;
    let at = model.spot.point(model.plan.settings.cell);
    let place = fresh(model, kind, shape, at);
    lift(model, place, true);
    Ok(Vec::new())
}

/// What a size means: cells, and how many plants fit at two common distances.
pub(super) fn read_size(model: &Model, kind: Kind, text: &str) -> Reading {
    if text.trim().is_empty() {
        let words = "Enter alone draws it: the arrows stretch it from the cursor on, Enter ends it.";
        return if kind == Kind::Pot { Reading::default() } else { Reading::say(Tone::Plain, words) };
    }
    match size::read(text, kind, model.plan.settings.measure) {
        Err(words) => Reading::say(Tone::Mind, words),
        Ok(shape) => {
            let place = fresh(model, kind, shape, model.spot.point(model.plan.settings.cell));
            let (rows, cols) = place.grid(model.plan.settings.cell);
            let mut words =
                vec![(Tone::Plain, format!("{rows} rows of {cols} cells, {:.0} l of soil", place.litres()))];
            if let Shape::Rect { across, down, .. } = shape {
                let spacing = Length::new(30.0, LengthUnit::Cm);
                let count = |l: Length| num::real_i(l.um());
                let plants = placed(count(across), count(down), count(spacing)).len();
                words.push((Tone::Plain, format!("room for {plants} heads of lettuce 30 cm (12 in) apart")));
            }
            Reading { words, choices: Vec::new() }
        }
    }
}

pub(super) fn title(model: &Model, id: &PlaceId, about: About) -> String {
    let name = model.plan.place(id).map_or_else(|| id.to_string(), |p| p.name.clone());
    match about {
        About::Name => format!("What is {name} called?"),
        About::Size => format!("How large is {name}?"),
        About::Depth => format!("How deep is the soil in {name}?"),
        About::Tags => format!("What may grow in {name}? flowers, food, by hand, families; empty: anything"),
        About::Sun => format!("Hours of direct sun {name} gets in summer; empty: not known"),
        About::Supports => format!("Which supports stand in {name}? trellis A1-H1, 6 ft; stakes all, 5 ft"),
        About::Covers => format!("What covers {name}, and when? fleece A1-D2, 1 Mar to 1 May"),
        About::Position => format!("Where is the north-west corner of {name}? east, south"),
    }
}

/// What stands in the line at first.
pub(in crate::app) fn now(model: &Model, id: &PlaceId, about: About) -> String {
    let Some(place) = model.plan.place(id) else { return String::new() };
    match about {
        About::Name => place.name.clone(),
        About::Size => size::words(&place.shape),
        About::Depth => place.depth().to_string(),
        About::Tags => tag_words(&place.tags),
        About::Sun => place.sun_hours.map(|h| h.to_string()).unwrap_or_default(),
        About::Supports => support::words(&place.supports),
        About::Covers => cover::words(&place.covers),
        About::Position => {
            let at = place.at_on(model.shown_day());
            format!("{}, {}", at.x, at.y)
        }
    }
}

/// Tags as they may be typed again.
pub fn tag_words(tags: &[Tag]) -> String {
    let words: Vec<String> = tags
        .iter()
        .map(|tag| match tag {
            Tag::FlowersOnly => String::from("flowers"),
            Tag::FoodOnly => String::from("food"),
            Tag::HandOnly => String::from("by hand"),
            Tag::Families(names) => names.join(", "),
        })
        .collect();
    words.join(", ")
}

fn read_tags(model: &Model, text: &str) -> Result<Vec<Tag>, String> {
    let mut tags = Vec::new();
    let mut families: Vec<String> = Vec::new();
    for word in text.split(',').map(str::trim).filter(|w| !w.is_empty()) {
        let lower = word.to_lowercase();
        match lower.as_str() {
            "flowers" | "flower" | "flowers only" => tags.push(Tag::FlowersOnly),
            "food" | "food only" => tags.push(Tag::FoodOnly),
            "by hand" | "hand" => tags.push(Tag::HandOnly),
            _ => {
                let known = |f: &&crate::crop::Family| {
                    f.name.to_lowercase() == lower || f.common.to_lowercase() == lower
                };
                match model.book.families().find(known) {
                    Some(family) => families.push(family.name.clone()),
                    None => {
                        return Err(format!(
                            "'{word}' is neither flowers, food, by hand nor a family of the book."
                        ));
                    }
                }
            }
        }
    }
    if tags.contains(&Tag::FlowersOnly) && tags.contains(&Tag::FoodOnly) {
        return Err(String::from("Flowers and food shut each other out: leave it empty for both."));
    }
    if !families.is_empty() {
        tags.push(Tag::Families(families));
    }
    Ok(tags)
}

/// The place as the line would make it.
fn changed(model: &Model, id: &PlaceId, about: About, text: &str) -> Result<Place, String> {
    let mut place = model.plan.place(id).cloned().ok_or_else(|| format!("'{id}' is not in this garden."))?;
    match about {
        About::Name => {
            let name = text.trim();
            if name.is_empty() {
                return Err(String::from("A name is wanted."));
            }
            if model.plan.places.iter().any(|p| p.id != *id && p.name.eq_ignore_ascii_case(name)) {
                return Err(format!("There is another {name} already."));
            }
            name.clone_into(&mut place.name);
        }
        About::Size => place.shape = size::read(text, place.kind, model.plan.settings.measure)?,
        About::Depth => {
            let new: Length = text
                .trim()
                .trim_end_matches("deep")
                .parse()
                .map_err(|e: crate::units::UnitError| format!("{e}."))?;
            if !(0.02..=3.0).contains(&new.m()) {
                return Err(String::from("A depth between 2 cm and 3 m is wanted."));
            }
            match &mut place.shape {
                Shape::Rect { depth, .. } | Shape::Round { depth, .. } => *depth = new,
            }
        }
        About::Tags => place.tags = read_tags(model, text)?,
        About::Sun => {
            place.sun_hours = match text.trim().trim_end_matches('h').trim() {
                "" => None,
                hours => match hours.parse::<f32>() {
                    Ok(hours) if (0.0..=24.0).contains(&hours) => Some(hours),
                    _ => return Err(format!("'{hours}' is no number of hours between 0 and 24.")),
                },
            };
        }
        About::Supports => place.supports = support::read(model, &place, text)?,
        About::Covers => place.covers = cover::read(model, &place, text)?,
        About::Position => {
            let (x, y) = text
                .split_once(',')
                .ok_or("Two lengths are wanted, such as 1.2 m, 3 m: east, then south.")?;
            let read = |t: &str| t.parse::<Length>().map_err(|e| format!("{e}."));
            let at = Point { x: read(x)?, y: read(y)? };
            if [at.x, at.y].iter().any(|l| !(0.0..=200.0).contains(&l.m())) {
                return Err(String::from("It has to lie within 200 m of the plan's north-west corner."));
            }
            let date = model.shown_day();
            match place.moves.iter_mut().rev().find(|m| m.from <= date) {
                Some(last) => last.at = at,
                None => place.at = at,
            }
        }
    }
    Ok(place)
}

pub(super) fn read(model: &Model, id: &PlaceId, about: About, text: &str) -> Reading {
    let Some(place) = model.plan.place(id) else { return Reading::default() };
    if about == About::Size {
        return read_size(model, place.kind, text);
    }
    let mut reading = match changed(model, id, about, text) {
        Ok(place) if about == About::Covers => cover::meaning(&place.covers)
            .map_or_else(Reading::default, |words| Reading::say(Tone::Plain, words)),
        Ok(_) => Reading::default(),
        Err(words) => Reading::say(Tone::Mind, words),
    };
    if about == About::Tags {
        let last = text.rsplit(',').next().unwrap_or_default().trim();
        let before = text.rsplit_once(',').map(|(b, _)| format!("{b}, ")).unwrap_or_default();
        let words = ["flowers", "food", "by hand"].map(str::to_owned).into_iter();
        let words = words.chain(model.book.families().map(|f| f.common.clone()));
        reading.choices = fuzzy::ranked(last, words, |w| vec![w.clone()])
            .into_iter()
            .map(|w| Choice {
                fills: format!("{before}{w}"),
                key: w.clone(),
                label: w,
                detail: String::new(),
            })
            .collect();
    }
    reading
}

pub(super) fn accept(
    model: &mut Model,
    id: &PlaceId,
    about: About,
    text: &str,
) -> Result<Vec<Effect>, String> {
    let place = changed(model, id, about, text)?;
    let effects = commit(model, Edit::Place(id.clone(), Some(Box::new(place))));
    // The cursor goes with it.
    model.go_to(id, model.cell);
    Ok(effects)
}
