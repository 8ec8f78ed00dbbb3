//! The record: what stood in every bed and pot, season by season, and what is planned for the next ones.

use super::cells::family_marks;
use super::hit::Table;
use super::list;
use super::pane::{Pane, columns};
use super::theme::Role;
use crate::app::{Model, Soil, Stay, View};
use crate::calendar::{Season, day_text};
use crate::check::Ground;
use crate::garden::{Block, PlaceId};
use chrono::Datelike as _;

/// Rows kept free in a narrow window for what may return to the soil.
const RETURNS: i32 = 3;

/// Rows about the place under the cursor.
fn below(height: i32) -> i32 {
    (height / 3).clamp(4, 10)
}

/// Where the places lie.
pub(super) fn table_of(height: i32) -> Table {
    Table { top: 1, rows: height - below(height) - 2, wide: i32::MAX }
}

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    let soils = model.record_rows();
    if soils.is_empty() {
        pane.say(2, 1, "There is no bed or pot yet.", Role::Quiet);
        return;
    }
    let rows = below(height);
    table(&mut pane.part(0, 0, width, height - rows - 1), model, &soils);
    pane.rule(0, height - rows - 1, width);
    detail(&mut pane.part(0, height - rows, width, rows), model, &soils);
}

/// The seasons across: the cursor's among them.
fn seasons(model: &Model, count: i32) -> Vec<Season> {
    let first = -(count - 3).clamp(2, 4);
    let first = first.min(model.season_at).max(model.season_at - count + 1);
    (first..first + count).map(|n| model.season().plus(n)).collect()
}

fn table(pane: &mut Pane<'_>, model: &Model, soils: &[Soil]) {
    let width = pane.width();
    let name = 18;
    let each = 15.min((width - name) / 4).max(10);
    let seasons = seasons(model, ((width - name) / each).clamp(1, 8));
    let at = model.line(View::Record);
    if let Some(place) = model.cells_of.as_ref().and_then(|id| model.plan.place(id)) {
        pane.fit(2, 0, &place.name, name - 3, Role::Title);
    }
    for (x, season) in (0..).map(|n| name + n * each).zip(&seasons) {
        let role = if *season == model.record_season() { Role::Accent } else { Role::Quiet };
        pane.fit(x, 0, &season.to_string(), each - 1, role);
    }
    let mut inside = pane.part(0, 1, width, i32::MAX);
    let height = inside.height();
    for (row, n, soil) in list::shown(soils, at, height) {
        let words = match soil.1 {
            Some((row, col)) => format!("cell {}", Block::cell(row, col)),
            None => model.plan.place(&soil.0).map_or_else(|| soil.0.to_string(), |p| p.name.clone()),
        };
        inside.fit(2, row, &words, name - 3, Role::Plain);
        if n == at {
            list::mark(&mut inside.part(0, row, name - 1, 1), 0);
        }
        let all = model.all_stays(&soil.0);
        for (x, season) in (0..).map(|n| name + n * each).zip(&seasons) {
            let stood: Vec<&Stay> = all.iter().filter(|s| s.touches(*season) && s.took(soil.1)).collect();
            let here = n == at && *season == model.record_season();
            stays(&mut inside.part(x, row, each - 1, 1), model, (&soil.0, &stood), *season, here);
        }
    }
}

/// The letters of what stood in a place in a season.
fn stays(pane: &mut Pane<'_>, model: &Model, (id, stays): (&PlaceId, &[&Stay]), season: Season, here: bool) {
    let mut x = 0;
    if stays.is_empty() {
        let past = season.last() < model.today;
        let place = model.plan.place(id);
        let soil = place.map(|p| p.soil_since(&p.soil_on(model.season().last())));
        let words = match (place, soil) {
            _ if !past => "",
            (Some(place), _) if place.since > season.last() => "not there",
            // What stood in a mix that was thrown out is of no account.
            (_, Some((since, true))) if since > season.last() => "old mix",
            _ => "unknown",
        };
        pane.say(0, 0, words, Role::Quiet);
    }
    let mut seen: Vec<String> = Vec::new();
    for stay in stays {
        let text = short(model, stay);
        if seen.contains(&text) {
            continue;
        }
        if x + columns(&text) > pane.width() {
            let more = pane.look.glyphs.more;
            pane.say(pane.width() - 1, 0, more, Role::Quiet);
            break;
        }
        let (hue, _) = family_marks(stay.family.as_ref().and_then(|f| model.book.family(f)));
        let style = pane.look.theme.line(hue);
        x = pane.text(x, 0, &text, style) + 1;
        seen.push(text);
    }
    if here {
        let style = pane.style(Role::Cursor);
        let width = pane.width();
        pane.restyle(0, 0, width, style);
    }
}

fn short(_model: &Model, stay: &Stay) -> String {
    stay.code.clone().unwrap_or_else(|| stay.name.chars().take(9).collect())
}

fn detail(pane: &mut Pane<'_>, model: &Model, soils: &[Soil]) {
    let Some(soil) = soils.get(model.line(View::Record)) else { return };
    let id = &soil.0;
    let season = model.record_season();
    let name = model.plan.place(id).map_or_else(|| id.to_string(), |p| p.name.clone());
    let cell = soil.1.map_or_else(String::new, |(row, col)| format!(" {}", Block::cell(row, col)));
    pane.say(2, 0, &format!("{name}{cell} in {season}"), Role::Title);
    let stays = model.stays_in(soil, season);
    // The second half of a wide window, or what lies below in a narrow one.
    let width = pane.width();
    let half = if width >= 120 { width / 2 } else { width };
    let to_come = season.last() >= model.today;
    let kept = if to_come && half == width { RETURNS } else { 0 };
    let rows = (pane.height() - 1 - kept).max(1);
    let below = stood(&mut pane.part(0, 1, half, rows), model, &stays, season) + 1;
    if to_come {
        let (x, y) = if half < width { (half, 0) } else { (0, below) };
        may_return(&mut pane.part(x, y, width - x, i32::MAX), model, id, season);
    }
}

/// What stood there; returns the row below.
fn stood(pane: &mut Pane<'_>, model: &Model, stays: &[Stay], season: Season) -> i32 {
    if stays.is_empty() {
        let words = if season.last() < model.today {
            "Nobody wrote down what stood here. That is unknown, not free: rotation can't be judged by it."
        } else {
            "Nothing is planned here yet."
        };
        return pane.words(2, 0, words, pane.width() - 4, Role::Quiet);
    }
    let rows = pane.height();
    let all = i32::try_from(stays.len()).unwrap_or(i32::MAX);
    let shown = if all > rows { rows - 1 } else { all };
    for (y, stay) in (0..shown).zip(stays) {
        let common =
            stay.family.as_ref().and_then(|f| model.book.family(f)).map_or("", |f| f.common.as_str());
        let until = stay.to.map_or_else(
            || String::from("stands for years"),
            |to| format!("{} {} to {} {}", day_text(stay.from), stay.from.year(), day_text(to), to.year()),
        );
        let at = pane.fit(2, y, &stay.name, 24, Role::Plain);
        let at = pane.fit(at.max(27), y, common, 16, Role::Quiet);
        pane.fit(at.max(44), y, &until, pane.width() - 44, Role::Quiet);
    }
    if shown < all {
        pane.say(2, shown, &format!("and {} more", all - shown), Role::Quiet);
        return shown + 1;
    }
    all
}

/// Which families the soil of a place is free for in a season.
fn may_return(pane: &mut Pane<'_>, model: &Model, id: &PlaceId, season: Season) {
    let here = || model.returns.iter().filter(|r| r.place == *id);
    let names = |ground: Ground| -> Vec<String> {
        here()
            .filter(|r| r.seasons.first().is_some_and(|s| s.1 == ground))
            .map(|r| r.common.clone())
            .collect()
    };
    let mut parts = Vec::new();
    for (ground, words) in [
        (Ground::Free, format!("In {season} this soil is free for")),
        (Ground::Early, String::from("Allowed, but sooner than advised:")),
        (Ground::Unknown, String::from("Not known, for want of a record:")),
    ] {
        let families = names(ground);
        if !families.is_empty() {
            parts.push(format!("{words} {}.", families.join(", ")));
        }
    }
    let closed: Vec<String> = here()
        .filter(|r| r.seasons.first().is_some_and(|s| s.1 == Ground::Closed))
        .map(|r| {
            let again = r.seasons.iter().find(|s| s.1 != Ground::Closed);
            let again =
                again.map_or_else(|| String::from("later"), |s| season.plus(s.0 - season.year()).to_string());
            format!("{} (again in {again})", r.common)
        })
        .collect();
    if !closed.is_empty() {
        parts.push(format!("Too soon for {}.", closed.join(", ")));
    }
    pane.words(2, 0, &parts.join(" "), pane.width() - 4, Role::Plain);
}
