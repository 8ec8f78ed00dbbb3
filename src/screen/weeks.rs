//! The weeks: plantings or cells down, the weeks of the season across.

use super::cells::{code, family_marks};
use super::hit::Table;
use super::list;
use super::pane::Pane;
use super::scale::Scale;
use super::theme::Role;
use crate::app::{Model, Row, View};
use crate::calendar::Week;
use crate::plan::{Pattern, Planting};
use crate::units::{Amount, num};
use ratatui::style::Style;

/// Rows of the kitchen below the timeline.
const KITCHEN: i32 = 3;

/// Where the rows lie.
pub(super) const fn table(height: i32) -> Table {
    Table { top: 1, rows: height - KITCHEN - 1, wide: i32::MAX }
}

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    let scale = Scale::of(model, width);
    let rows = model.rows();
    let at = model.line(View::Weeks);
    head(pane, model, &scale, at, rows.len());
    if rows.is_empty() {
        pane.say(2, 2, "Nothing is planted in this season.", Role::Plain);
        pane.say(2, 3, "Write wishes and fill, or plant by hand in a bed.", Role::Quiet);
        return;
    }
    kitchen(pane, model, &scale, height - KITCHEN);
    let table = table(height);
    let mut inside = pane.part(0, table.top, width, table.rows);
    let most = inside.height();
    for (y, n, row) in list::shown(&rows, at, most) {
        draw_row(&mut inside, model, &scale, row, y);
        if n == at {
            let name = scale.left - 1;
            list::mark(&mut inside.part(0, y, name, 1), 0);
        }
    }
    // The shown week runs through every row.
    if let Some(n) = scale.number(model.week) {
        let style = Style { fg: None, ..pane.style(Role::Chosen) };
        for y in 0..height {
            pane.restyle(scale.x(n), y, scale.per, style);
        }
    }
}

/// What comes to the kitchen: how many kinds a week, and how much of the crop under the cursor.
fn kitchen(pane: &mut Pane<'_>, model: &Model, scale: &Scale, y: i32) {
    let rows = &model.reckoned.kitchen;
    pane.fit(1, y, "kinds to pick", scale.left - 2, Role::Quiet);
    for (n, week) in scale.weeks.iter().enumerate() {
        let kinds = rows.iter().filter(|r| r.weeks.iter().any(|(w, _)| w == week)).count();
        if kinds > 0 {
            let words = if kinds > 9 && scale.per < 3 { String::from("+") } else { kinds.to_string() };
            pane.say(scale.x(n), y, &words, Role::Plain);
        }
    }
    let name = match model.row() {
        Some(Row::Crop(name)) => Some(name),
        _ => model.row_planting().map(|p| p.name.clone()),
    };
    let Some(row) = rows.iter().find(|r| Some(&r.name) == name.as_ref()) else { return };
    let wished = wished(model, &row.name, scale);
    let peak = row.weeks.iter().map(|(_, a)| *a).max_by(|a, b| a.value().total_cmp(&b.value()));
    let of_wish = wished.iter().map(|(_, a)| a.value()).fold(0.0, f64::max);
    let most = peak.map_or(0.0, Amount::value).max(of_wish).max(1e-9);
    let words = peak.map_or_else(String::new, |a| a.reading(model.plan.settings.measure));
    pane.fit(1, y + 1, &format!("{} up to {words}", row.name), scale.left - 2, Role::Quiet);
    let mut curve = |y: i32, week: Week, amount: Amount, role: Role| {
        let Some(n) = scale.number(week) else { return };
        let level = num::floor_u(amount.value() / most * 7.99).min(7);
        let sign = pane.look.glyphs.levels[level];
        for i in 0..scale.per {
            pane.say(scale.x(n) + i, y, sign, role);
        }
    };
    for (week, amount) in &row.weeks {
        curve(y + 1, *week, *amount, Role::Accent);
    }
    for (week, amount) in &wished {
        curve(y + 2, *week, *amount, Role::Quiet);
    }
    let words = wished.first().map_or_else(
        || String::from("no weekly wish for it"),
        |(_, a)| format!("wished {} a week", a.reading(model.plan.settings.measure)),
    );
    pane.fit(1, y + 2, &words, scale.left - 2, Role::Quiet);
}

/// What is wished for of a crop, week by week.
fn wished(model: &Model, name: &str, scale: &Scale) -> Vec<(Week, Amount)> {
    let season = model.season();
    let mut out: Vec<(Week, Amount)> = Vec::new();
    let crop = model.book.crops().find(|c| c.name == name);
    for wish in &model.plan.wishes {
        let of_it = crop.is_some_and(|c| c.id == wish.crop || *c.base() == wish.crop);
        let now = wish.season.is_none_or(|year| year == season.year());
        if !of_it || !now || wish.pattern != Pattern::Even {
            continue;
        }
        let from = wish.from.climate_day().on_or_after(season.first());
        let to = wish.to.climate_day().on_or_after(from);
        for week in scale.weeks.iter().filter(|w| w.sunday() >= from && w.monday() <= to) {
            match out.iter_mut().find(|(w, _)| w == week) {
                Some((_, amount)) if amount.same_kind(wish.amount) => {
                    *amount = amount.with_value(amount.value() + wish.amount.value());
                }
                Some(_) => {}
                None => out.push((*week, wish.amount)),
            }
        }
    }
    out.sort_by_key(|(week, _)| *week);
    out
}

fn head(pane: &mut Pane<'_>, model: &Model, scale: &Scale, at: usize, count: usize) {
    let name = if model.alone { model.bed.as_ref().and_then(|id| model.plan.place(id)) } else { None };
    let only = name.map_or_else(String::new, |p| format!(", {}", p.name));
    let words = format!("{}{only}  {} of {count}", model.grouping.words(), (at + 1).min(count));
    pane.fit(2, 0, &words, scale.left - 3, Role::Quiet);
    if scale.per >= 4 {
        for (n, week) in scale.weeks.iter().enumerate() {
            let words = if scale.per >= 8 {
                crate::calendar::day_text(week.monday())
            } else {
                week.number().to_string()
            };
            pane.fit(scale.x(n), 0, &words, scale.per, Role::Quiet);
        }
    }
}

fn draw_row(pane: &mut Pane<'_>, model: &Model, scale: &Scale, row: &Row, y: i32) {
    let name = scale.left - 4;
    match row {
        Row::Place(id) => {
            let words = model.plan.place(id).map_or_else(|| id.to_string(), |p| p.name.clone());
            pane.fit(1, y, &words, name + 2, Role::Title);
            let idle = idle_weeks(model, scale, id);
            for (n, share) in idle.into_iter().enumerate() {
                if let Some(level) = share {
                    let sign = pane.look.glyphs.levels[level];
                    for i in 0..scale.per {
                        pane.say(scale.x(n) + i, y, sign, Role::Quiet);
                    }
                }
            }
        }
        Row::Crop(words) => {
            pane.fit(1, y, words, name + 2, Role::Title);
        }
        Row::Planting(id) => {
            let Some(planting) = model.shown().planting(*id) else { return };
            let words = match model.grouping {
                crate::app::Grouping::Crops => {
                    crate::app::where_words(model, &planting.place, planting.block)
                }
                crate::app::Grouping::Places | crate::app::Grouping::Cells => {
                    format!("{} {}", planting.block, planting.name)
                }
            };
            let fixed = if model.is_ghost(*id) {
                "+"
            } else if planting.fixed {
                pane.look.glyphs.fixed
            } else {
                " "
            };
            pane.say(2, y, fixed, Role::Quiet);
            pane.fit(3, y, &words, name, Role::Plain);
            bar(pane, model, scale, planting, y);
        }
        Row::Cell(id, cell) => {
            let words = crate::garden::Block::cell(cell.0, cell.1).to_string();
            pane.fit(3, y, &words, name, Role::Plain);
            gaps(pane, model, scale, y);
            for planting in model.through(id, *cell, model.season()) {
                bar(pane, model, scale, planting, y);
            }
        }
    }
}

/// Marks of ground that lies idle, under the bars.
fn gaps(pane: &mut Pane<'_>, model: &Model, scale: &Scale, y: i32) {
    let sign = pane.look.glyphs.idle;
    for (n, week) in scale.weeks.iter().enumerate() {
        if model.is_growing_week(*week) {
            for i in 0..scale.per {
                pane.say(scale.x(n) + i, y, sign, Role::Quiet);
            }
        }
    }
}

/// By week, how much of a place stands empty in the growing season, as one of four levels; none where nothing does.
fn idle_weeks(model: &Model, scale: &Scale, id: &crate::garden::PlaceId) -> Vec<Option<usize>> {
    let Some(place) = model.plan.place(id) else { return Vec::new() };
    let whole = place.whole(model.plan.settings.cell);
    let plantings: Vec<&Planting> = model.shown().plantings_in(id).collect();
    let all = whole.area().max(1);
    scale
        .weeks
        .iter()
        .map(|week| {
            let day = week.day(model.plan.settings.garden_day);
            let bare = whole
                .cells()
                .filter(|(r, c)| !plantings.iter().any(|p| p.block.holds(*r, *c) && p.stands_on(day)))
                .count();
            let grows = model.is_growing_week(*week) && place.stands_on(day);
            (grows && bare > 0).then(|| (bare * 3 / all).min(3))
        })
        .collect()
}

/// A planting across the weeks: raised, growing, picked; its letters where it takes its cells.
fn bar(pane: &mut Pane<'_>, model: &Model, scale: &Scale, planting: &Planting, y: i32) {
    let glyphs = pane.look.glyphs;
    let dates = planting.dates();
    let Some(begins) = planting.begins() else { return };
    let first = dates.in_order().into_iter().min().unwrap_or(begins);
    let (hue, _) = family_marks(model.book.family(&planting.family));
    let style = pane.look.theme.line(hue);
    let mut letters = None;
    for (n, week) in scale.weeks.iter().enumerate() {
        let (monday, sunday) = (week.monday(), week.sunday());
        if first > sunday || planting.ends().is_some_and(|e| e <= monday) {
            continue;
        }
        let picking =
            dates.first_pick.is_some_and(|f| f <= sunday) && dates.last_pick.is_none_or(|l| l >= monday);
        let sign = if begins > sunday {
            glyphs.raised
        } else if picking {
            glyphs.picking
        } else {
            glyphs.growing
        };
        for i in 0..scale.per {
            pane.text(scale.x(n) + i, y, sign, style);
        }
        if begins <= sunday && letters.is_none() {
            letters = Some(scale.x(n));
        }
    }
    if let Some(x) = letters {
        let style = style.add_modifier(ratatui::style::Modifier::BOLD);
        pane.text(x, y, &code(model, planting), style);
    }
}
