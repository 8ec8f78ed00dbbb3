//! The card beside a view: what the cursor is on.

use super::cells::{code, family_marks};
use super::foot::role;
use super::pane::Pane;
use super::theme::Role;
use crate::app::{Model, Phase, Story, View, cover_words, outlook, size_words, support_words, tag_words};
use crate::calendar::{Date, day_text};
use crate::garden::{Block, Layer, Place};
use crate::plan::Planting;
use crate::site::shade::LightClass;
use crate::units::Length;
use chrono::Datelike as _;

/// A card about the place and the cell under the cursor, or about what is carried.
pub(super) fn place(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    pane.edge(0, 0, height);
    let mut inside = pane.part(2, 0, width - 2, height);
    if model.carry.is_some() {
        let mut y = inside.words(0, 0, "Carrying", inside.width(), Role::Accent);
        for (tone, words) in outlook(model) {
            y = inside.words(0, y, &words, inside.width(), role(tone));
        }
        return;
    }
    if let (View::Ground, None, Some(at)) = (model.view, model.focus_place(), model.obstacle_at(model.spot)) {
        if let Some(obstacle) = model.plan.site.obstacles.get(at) {
            let words = format!("{}, {} high: it shades", obstacle.name, obstacle.height);
            inside.words(0, 0, &words, inside.width(), Role::Plain);
        }
    } else if let Some((place, cell)) = model.focus() {
        let y = about_place(&mut inside, place);
        let y = about_cell(&mut inside, model, place, cell, y + 1);
        legend(&mut inside, model, y + 1);
    } else {
        open_ground(&mut inside, model);
    }
}

fn open_ground(pane: &mut Pane<'_>, model: &Model) {
    let settings = &model.plan.settings;
    let at = model.spot.point(settings.cell);
    let far = |length: Length| length.for_measure(settings.measure).rounded(1);
    let words = format!("Open ground, {} east and {} south of the corner.", far(at.x), far(at.y));
    let y = pane.words(0, 0, &words, pane.width(), Role::Quiet);
    let words = format!("A cell is {}: two columns and a row.", settings.cell);
    pane.words(0, y + 1, &words, pane.width(), Role::Quiet);
}

fn about_place(pane: &mut Pane<'_>, place: &Place) -> i32 {
    let width = pane.width();
    let mut y = pane.words(0, 0, &place.name, width, Role::Title);
    y = pane.words(0, y, &size_words(&place.shape), width, Role::Quiet);
    if let Some(hours) = place.sun_hours {
        y = pane.words(0, y, &format!("sun {hours} h"), width, Role::Quiet);
    }
    if !place.tags.is_empty() {
        y = pane.words(0, y, &format!("for {}", tag_words(&place.tags)), width, Role::Quiet);
    }
    let standing: Vec<_> = place.supports.iter().filter(|s| s.until.is_none()).cloned().collect();
    if !standing.is_empty() {
        y = pane.words(0, y, &support_words(&standing), width, Role::Quiet);
    }
    if !place.covers.is_empty() {
        y = pane.words(0, y, &cover_words(&place.covers), width, Role::Quiet);
    }
    y
}

/// The dates of a planting in a line or two.
fn dates(planting: &Planting) -> String {
    let dates = planting.dates();
    let mut parts = Vec::new();
    let mut part = |word: &str, date: Option<Date>| {
        if let Some(date) = date {
            parts.push(format!("{word} {}", day_text(date)));
        }
    };
    part("sown", dates.sown);
    part("out", dates.set_out);
    part("first", dates.first_pick);
    part("last", dates.last_pick);
    part("clear", dates.cleared);
    parts.join(", ")
}

/// How the cells are to be read, at the foot of the card where there is room for all of it; the letters are those of
/// the planting under the cursor, or of a tomato.
fn legend(pane: &mut Pane<'_>, model: &Model, top: i32) {
    let glyphs = pane.look.glyphs;
    let planting = model.focus_planting();
    let code = planting.map_or_else(|| String::from("TO"), |p| code(model, p));
    let hatch = planting.map_or(0, |p| family_marks(model.book.family(&p.family)).1);
    let pattern = glyphs.patterns[usize::from(hatch) % glyphs.patterns.len()];
    let mut lines: Vec<(String, &str)> = [Phase::Sown, Phase::Growing, Phase::Picking, Phase::Spent]
        .into_iter()
        .map(|phase| (phase.letters(&code), phase.words()))
        .collect();
    if !pattern.trim().is_empty() {
        lines.push((pattern.to_owned(), "its other cells"));
    }
    lines.push((glyphs.bare.to_owned(), "bare soil"));
    if model.view == View::Bed {
        lines.push((format!("{} {}", glyphs.next, glyphs.before), "next, before"));
    }
    let rows = i32::try_from(lines.len()).unwrap_or(8);
    let y = pane.height() - rows;
    if y < top {
        return;
    }
    for (y, (sign, words)) in (y..).zip(lines) {
        let at = pane.say(0, y, &sign, Role::Plain);
        pane.fit(at.max(3) + 1, y, words, pane.width() - 5, Role::Quiet);
    }
}

fn about_cell(pane: &mut Pane<'_>, model: &Model, place: &Place, cell: (u16, u16), top: i32) -> i32 {
    let (width, date) = (pane.width(), model.shown_day());
    let glyphs = pane.look.glyphs;
    let story = Story::of(model.shown(), &place.id, cell, date);
    let mut y = pane.words(0, top, &format!("cell {}", Block::cell(cell.0, cell.1)), width, Role::Accent);
    // What the grower counted is told with the place.
    if let Some(hours) = model.light.get(&(place.id.clone(), cell)).filter(|_| place.sun_hours.is_none()) {
        let hours = hours[usize::try_from(date.month0()).unwrap_or(0)];
        let words = format!("{} sun {hours:.1} h: {}", date.format("%b"), LightClass::of(hours).words());
        y = pane.words(0, y, &words, width, Role::Quiet);
    }
    if story.now.is_empty() {
        y = pane.words(0, y, "bare", width, Role::Quiet);
    }
    for planting in &story.now {
        let mate = if planting.layer == Layer::Mate { "mate: " } else { "" };
        let fixed = if planting.fixed { format!(" {}", glyphs.fixed) } else { String::new() };
        let fixed = if model.is_ghost(planting.id) { String::from(" (proposed)") } else { fixed };
        let name = format!("{mate}{} {}{fixed}", code(model, planting), planting.name);
        y = pane.words(0, y, &name, width, Role::Title);
        let plants = format!(
            "{} in {}, {}",
            count(planting.plants, "plant", "plants"),
            planting.block,
            Phase::of(planting, date).words()
        );
        y = pane.words(0, y, &plants, width, Role::Plain);
        y = pane.words(0, y, &dates(planting), width, Role::Quiet);
    }
    if let Some(next) = story.next {
        let when = next.begins().map(day_text).unwrap_or_default();
        y = pane.words(0, y, &format!("{} {} from {when}", glyphs.next, next.name), width, Role::Quiet);
    }
    if let Some(before) = story.before {
        let when = before.ends().map(day_text).unwrap_or_default();
        y = pane.words(0, y, &format!("{} {} until {when}", glyphs.before, before.name), width, Role::Quiet);
    }
    y
}

/// "1 plant", "9 plants".
pub(super) fn count(n: u16, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}
