//! The week ruler that stands above every view: the season as a measuring stick, and the shown week in figures.

use super::pane::{Pane, columns, cut};
use super::theme::Role;
use crate::app::{Model, View};
use crate::calendar::{ClimateDay, MONTHS, Week, day_text};
use crate::units::num;
use chrono::Datelike as _;
use ratatui::style::Modifier;

/// Rows it takes.
pub(super) const HEIGHT: i32 = 3;

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let weeks: Vec<Week> = model.season().weeks().collect();
    let count = i32::try_from(weeks.len()).unwrap_or(53);
    let per = ((pane.width() - 22) / count.max(1)).clamp(1, 3);
    let left = pane.width() - count * per - 1;
    name(pane, model, left - 1);
    stick(pane, model, &weeks, left, per);
    figures(pane, model);
}

fn name(pane: &mut Pane<'_>, model: &Model, width: i32) {
    let mark = if model.history.is_dirty() { pane.look.glyphs.unsaved } else { " " };
    let at = pane.say(0, 0, mark, Role::Accent);
    pane.fit(at, 0, &model.plan.name, width - at, Role::Title);
    pane.fit(1, 1, &format!("season {}", model.season()), width - 1, Role::Quiet);
}

/// Months, and the warmth of the soil week by week; the shown week is cut out of the stick.
fn stick(pane: &mut Pane<'_>, model: &Model, weeks: &[Week], left: i32, per: i32) {
    let (levels, today) = (pane.look.glyphs.levels, pane.look.glyphs.today);
    let mut free = left;
    for (n, week) in weeks.iter().enumerate() {
        let x = left + per * i32::try_from(n).unwrap_or(0);
        let level = model.year.as_ref().map_or(0, |year| {
            let soil = year.soil[ClimateDay::of(week.day(model.plan.settings.garden_day)).index()];
            num::floor_u(soil.max(0.0) / 3.6).min(levels.len() - 1)
        });
        for i in 0..per {
            pane.say(x + i, 1, levels[level], Role::Quiet);
        }
        let month = week.sunday();
        let word = MONTHS[num::index(month.month0())];
        if (month.day() <= 7 || n == 0) && x >= free && x + columns(word) <= pane.width() {
            free = pane.say(x, 0, word, Role::Quiet) + 1;
        }
    }
    let mark = |pane: &mut Pane<'_>, week: Week, role: Role, sign: Option<&str>| {
        let Some(n) = weeks.iter().position(|w| *w == week) else { return };
        let x = left + per * i32::try_from(n).unwrap_or(0);
        if let Some(sign) = sign {
            pane.say(x, 0, sign, role);
        } else {
            let style = pane.style(role);
            pane.restyle(x, 0, per, style);
            pane.restyle(x, 1, per, style);
        }
    };
    mark(pane, Week::of(model.today), Role::Accent, Some(today));
    mark(pane, model.week, Role::Cursor, None);
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
