//! The week ruler that stands above every view: the season as a measuring stick, and the shown week in figures.

use super::pane::{Pane, columns, cut};
use super::scale::Scale;
use super::theme::Role;
use crate::app::{Model, View};
use crate::calendar::{ClimateDay, Week, day_text};
use crate::units::num;
use chrono::Datelike as _;
use ratatui::style::Modifier;

/// Rows it takes.
pub(super) const HEIGHT: i32 = 3;

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let scale = Scale::of(model, pane.width());
    name(pane, model, scale.left - 1);
    stick(pane, model, &scale);
    figures(pane, model);
}

fn name(pane: &mut Pane<'_>, model: &Model, width: i32) {
    let mark = if model.is_dirty() { pane.look.glyphs.unsaved } else { " " };
    let at = pane.say(0, 0, mark, Role::Accent);
    pane.fit(at, 0, &model.plan.name, width - at, Role::Title);
    pane.fit(1, 1, &format!("season {}", model.season()), width - 1, Role::Quiet);
}

/// Months, and the warmth of the soil week by week; the shown week is cut out of the stick.
fn stick(pane: &mut Pane<'_>, model: &Model, scale: &Scale) {
    let (levels, today) = (pane.look.glyphs.levels, pane.look.glyphs.today);
    for (n, week) in scale.weeks.iter().enumerate() {
        let level = model.year.as_ref().map_or(0, |year| {
            let soil = year.soil[ClimateDay::of(week.day(model.plan.settings.garden_day)).index()];
            num::floor_u(soil.max(0.0) / 3.6).min(levels.len() - 1)
        });
        for i in 0..scale.per {
            pane.say(scale.x(n) + i, 1, levels[level], Role::Quiet);
        }
    }
    let mut free = scale.left;
    for (x, word) in scale.months() {
        if x >= free && x + columns(word) <= pane.width() {
            free = pane.say(x, 0, word, Role::Quiet) + 1;
        }
    }
    if let Some(n) = scale.number(Week::of(model.today)) {
        pane.say(scale.x(n), 1, today, Role::Accent);
    }
    if let Some(n) = scale.number(model.week) {
        let style = pane.style(Role::Cursor);
        pane.restyle(scale.x(n), 0, scale.per, style);
        pane.restyle(scale.x(n), 1, scale.per, style);
    }
}

/// "17-23 May 2027", "31 May-6 Jun 2027".
fn span(week: Week, to: &str) -> String {
    let (monday, sunday) = (week.monday(), week.sunday());
    let first = if monday.month() == sunday.month() { monday.day().to_string() } else { day_text(monday) };
    format!("{first}{to}{} {}", day_text(sunday), sunday.year())
}

fn figures(pane: &mut Pane<'_>, model: &Model) {
    let glyphs = pane.look.glyphs;
    let accent = pane.style(Role::Accent).remove_modifier(Modifier::UNDERLINED);
    let week = format!("week {}", model.week.number());
    let mut at = pane.text(1, 2, &week, accent);
    at = pane.say(at + 2, 2, &span(model.week, glyphs.to), Role::Plain);
    let mut parts: Vec<(String, Role)> = Vec::new();
    match model.weather() {
        Some(weather) => {
            let trend = if weather.longer { "+" } else { "-" };
            parts.push((format!("day {}{trend}", weather.daylength), Role::Quiet));
            parts.push((format!("soil {}", weather.soil.reading(model.plan.settings.measure)), Role::Quiet));
            parts.push((weather.frost, Role::Quiet));
        }
        None => parts.push((String::from("no climate"), Role::Mind)),
    }
    if model.view == View::Ground && !model.is_this_week() && pane.width() >= 110 {
        parts.push((format!("today is in week {}", Week::of(model.today).number()), Role::Quiet));
    }
    for (words, role) in parts {
        let room = pane.width() - at - 3;
        if columns(&words) > room + 1 {
            break;
        }
        at = pane.say(at + 3, 2, &cut(&words, room + 1, glyphs.more), role);
    }
}
