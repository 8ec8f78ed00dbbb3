//! The ground: the site plan to scale, a cell two columns wide and one row high, north at the top.

use super::card;
use super::cells::{Dress, bare};
use super::pane::{Pane, cut};
use super::theme::Role;
use crate::app::{Footprint, Model, Spot, extent, obstacle_spots};
use crate::garden::{Layer, Place};
use crate::plan::Planting;
use ratatui::style::{Modifier, Style};

/// Columns of the card beside the plan.
pub(super) const fn card_width(width: i32) -> i32 {
    if width >= 130 { 40 } else { 27 }
}

/// Columns and rows of a cell.
#[derive(Clone, Copy)]
struct Scale {
    wide: i32,
    high: i32,
    /// Cells in one row of text, where looked at from afar.
    rows: i32,
}

const fn scale(zoom: i8) -> Scale {
    match zoom {
        ..=-1 => Scale { wide: 1, high: 1, rows: 2 },
        0 => Scale { wide: 2, high: 1, rows: 1 },
        1 => Scale { wide: 4, high: 2, rows: 1 },
        _ => Scale { wide: 8, high: 4, rows: 1 },
    }
}

/// The closest look at which the whole plan fits; where none does, that of two columns a cell.
fn closest((x, y): (i64, i64), width: i32, height: i32) -> i8 {
    let fits = |zoom: &i8| {
        let scale = scale(*zoom);
        x * i64::from(scale.wide) + 4 <= i64::from(width)
            && y * i64::from(scale.high) + 3 <= i64::from(height)
    };
    [2, 1].into_iter().find(fits).unwrap_or(0)
}

/// Where the plan lies on the pane.
struct Map {
    scale: Scale,
    left: i32,
    top: i32,
}

impl Map {
    /// So that the cursor is in sight, and the whole plan where it fits.
    fn of(model: &Model, width: i32, height: i32) -> Self {
        let (x, y) = extent(&model.plan, model.shown_day());
        let scale = scale(closest((x, y), width, height) + model.zoom);
        let carried = model.carried_place().map(|p| model.footprint(p));
        let beyond = carried.map_or((1, 1), |f| (i64::from(f.cols), i64::from(f.rows)));
        let (x, y) = (x.max(model.spot.x + beyond.0), y.max(model.spot.y + beyond.1));
        let small = |n: i64| i32::try_from(n).unwrap_or(i32::MAX / 16);
        let wide = small(x) * scale.wide + 4;
        let high = (small(y) * scale.high).div_ceil_by(scale.rows) + 3;
        let shift = |cursor: i32, size: i32, whole: i32| {
            if whole <= size { 0 } else { (cursor - size / 2).clamp(0, whole - size) }
        };
        let cursor = (small(model.spot.x) * scale.wide, small(model.spot.y) * scale.high / scale.rows);
        Self { scale, left: 2 - shift(cursor.0, width, wide), top: 1 - shift(cursor.1, height, high) }
    }
    fn at(&self, spot: Spot) -> (i32, i32) {
        let small = |n: i64| i32::try_from(n).unwrap_or(-1000);
        (
            self.left + small(spot.x) * self.scale.wide,
            self.top + small(spot.y) * self.scale.high / self.scale.rows,
        )
    }
}

trait DivCeil {
    fn div_ceil_by(self, by: i32) -> i32;
}
impl DivCeil for i32 {
    fn div_ceil_by(self, by: i32) -> i32 {
        (self + by - 1) / by.max(1)
    }
}

/// Columns and rows of the plan beside its card.
fn plan_size(width: i32, height: i32) -> (i32, i32) {
    if width >= 72 {
        (width - card_width(width) - 1, height)
    } else {
        (width, height - 4.min(height / 3) - 1)
    }
}

/// The spot of the plan at a column and row of the view.
pub(super) fn spot_at(model: &Model, width: i32, height: i32, (x, y): (i32, i32)) -> Option<Spot> {
    let (wide, high) = plan_size(width, height);
    if !(0..wide).contains(&x) || !(0..high).contains(&y) {
        return None;
    }
    let map = Map::of(model, wide, high);
    let east = (x - map.left).div_euclid(map.scale.wide);
    let south = ((y - map.top) * map.scale.rows).div_euclid(map.scale.high);
    (east >= 0 && south >= 0).then(|| Spot { x: i64::from(east), y: i64::from(south) })
}

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    let (wide, high) = plan_size(width, height);
    if width >= 72 {
        let card = card_width(width);
        plan(&mut pane.part(0, 0, wide, high), model);
        card::place(&mut pane.part(width - card, 0, card, height), model);
    } else {
        let rows = 4.min(height / 3);
        plan(&mut pane.part(0, 0, wide, high), model);
        pane.rule(0, height - rows - 1, width);
        card::place(&mut pane.part(0, height - rows, width, rows), model);
    }
}

fn plan(pane: &mut Pane<'_>, model: &Model) {
    let map = Map::of(model, pane.width(), pane.height());
    let places = model.places();
    let carried = model.carried_place();
    let here = model.focus_place().map(|p| p.id.clone());
    let others = || places.iter().filter(|p| carried.is_none_or(|c| c.id != p.id));
    obstacles(pane, &map, model);
    for place in others() {
        let focus = here.as_ref() == Some(&place.id);
        frame(pane, &map, place, model.footprint(place), if focus { Role::Accent } else { Role::Frame });
    }
    for place in others() {
        soil(pane, &map, model.footprint(place));
        crops(pane, &map, model, place, model.footprint(place));
    }
    if let Some(place) = carried {
        let foot = model.footprint(place);
        soil(pane, &map, foot);
        frame(pane, &map, place, foot, Role::Accent);
    }
    carried_planting(pane, &map, model);
    cursor(pane, &map, model);
    north(pane);
    if model.plan.places.is_empty() && model.carry.is_none() {
        pane.say(4, 3, "Nothing is laid out yet.", Role::Plain);
        pane.say(4, 4, "Press n for a new bed or pot.", Role::Quiet);
    }
}

/// Walls, hedges, houses and trees.
fn obstacles(pane: &mut Pane<'_>, map: &Map, model: &Model) {
    let style = pane.style(Role::Frame);
    for obstacle in &model.plan.site.obstacles {
        let (from, to) = obstacle_spots(obstacle, model.plan.settings.cell);
        let ((x, y), (end, below)) = (map.at(from), map.at(to));
        let sign = pane.look.glyphs.shading;
        for row in y..below.max(y + 1) {
            for column in x..end {
                pane.text(column, row, sign, style);
            }
        }
        // The corner stays free for the cursor.
        if end - x >= 8 {
            let name = cut(&obstacle.name, end - x - 4, pane.look.glyphs.more);
            pane.say(x + 3, y, &name, Role::Quiet);
        }
    }
}

fn north(pane: &mut Pane<'_>) {
    let sign = pane.look.glyphs.north;
    let x = pane.width() - 2;
    pane.say(x, 0, sign, Role::Quiet);
    pane.say(x, 1, "N", Role::Quiet);
}

/// The outline round a place, in the paths, with its name.
fn frame(pane: &mut Pane<'_>, map: &Map, place: &Place, foot: Footprint, role: Role) {
    let (x, y) = map.at(foot.at);
    let (end, below) =
        map.at(Spot { x: foot.at.x + i64::from(foot.cols), y: foot.at.y + i64::from(foot.rows) });
    let below = if map.scale.rows > 1 && i64::from(foot.rows) % 2 == 1 { below + 1 } else { below };
    let glyphs = pane.look.glyphs;
    if place.is_pot() {
        for row in y..below {
            pane.say(x - 1, row, glyphs.rims[0], role);
            pane.say(end, row, glyphs.rims[1], role);
        }
        return;
    }
    let wide = end - x;
    for (row, corners) in [(y - 1, [0, 1]), (below, [2, 3])] {
        pane.say(x - 1, row, glyphs.corners[corners[0]], role);
        for column in x..end {
            pane.say(column, row, glyphs.sides[0], role);
        }
        pane.say(end, row, glyphs.corners[corners[1]], role);
    }
    for row in y..below {
        pane.say(x - 1, row, glyphs.sides[1], role);
        pane.say(end, row, glyphs.sides[1], role);
    }
    if wide >= 4 {
        let name = cut(&place.name, wide, glyphs.more);
        let role = if role == Role::Frame { Role::Quiet } else { role };
        pane.say(x, y - 1, &name, role);
    }
}

/// Bare soil in every cell.
fn soil(pane: &mut Pane<'_>, map: &Map, foot: Footprint) {
    let style = bare(&pane.look);
    let sign = pane.look.glyphs.bare;
    for row in 0..foot.rows {
        for col in 0..foot.cols {
            let (x, y) = map.at(foot.spot_of(row, col));
            fill(pane, map.scale, (x, y), sign, style);
        }
    }
}

/// Fills the text of one cell.
fn fill(pane: &mut Pane<'_>, scale: Scale, (x, y): (i32, i32), sign: &str, style: Style) {
    for row in 0..scale.high {
        let mut at = x;
        while at < x + scale.wide {
            if scale.wide == 1 {
                let first: String = sign.chars().take(1).collect();
                at = pane.text(at, y + row, &first, style);
            } else {
                at = pane.text(at, y + row, sign, style);
            }
            if at == x {
                break;
            }
        }
    }
}

/// What stands there on the shown day: the letters in the first cell of each block, the pattern in the others.
fn crops(pane: &mut Pane<'_>, map: &Map, model: &Model, place: &Place, foot: Footprint) {
    let date = model.shown_day();
    for layer in [Layer::Main, Layer::Mate] {
        for planting in
            model.shown().plantings_in(&place.id).filter(|p| p.layer == layer && p.stands_on(date))
        {
            let mut dress = Dress::of(&pane.look, model, planting, date);
            for (row, col) in planting.block.cells().filter(|(r, c)| *r < foot.rows && *c < foot.cols) {
                let at = map.at(foot.spot_of(row, col));
                if layer == Layer::Mate && model.standing(&place.id, (row, col), Layer::Main).is_some() {
                    dress.beside = true;
                    // A mate shows in the right half of its main crop's cell.
                    let letter: String = dress.letters.chars().take(1).collect();
                    pane.text(at.0 + map.scale.wide - 1, at.1 + map.scale.high - 1, &letter, dress.style);
                    continue;
                }
                let sign = if map.scale.wide == 1 { dress.letters.as_str() } else { dress.pattern };
                fill(pane, map.scale, at, sign, dress.style);
            }
            label(pane, map, foot, planting, &dress);
        }
    }
}

/// The letters of a planting in its first cell, and its name where there is room.
fn label(pane: &mut Pane<'_>, map: &Map, foot: Footprint, planting: &Planting, dress: &Dress) {
    let block = planting.block;
    if map.scale.wide < 2 || block.row >= foot.rows || block.col >= foot.cols || dress.beside {
        return;
    }
    let at = map.at(foot.spot_of(block.row, block.col));
    let room = i32::from(block.cols) * map.scale.wide - 1;
    let named = map.scale.wide > 2 && room >= 9;
    let name = format!("{} {}", dress.letters, planting.name);
    let text = if named { cut(&name, room, pane.look.glyphs.more) } else { dress.letters.clone() };
    pane.text(at.0, at.1, &text, dress.style);
}

/// The planting that is carried, over the cells it would take.
fn carried_planting(pane: &mut Pane<'_>, map: &Map, model: &Model) {
    let Some(planting) = model.carried_planting() else { return };
    let Some(place) = model.plan.place(&planting.place) else { return };
    let foot = model.footprint(place);
    let style = pane.style(Role::Cursor);
    for (row, col) in planting.block.cells() {
        let (x, y) = map.at(foot.spot_of(row, col));
        for line in 0..map.scale.high {
            pane.restyle(x, y + line, map.scale.wide, style);
        }
    }
}

fn cursor(pane: &mut Pane<'_>, map: &Map, model: &Model) {
    let (x, y) = map.at(model.spot);
    let style = pane.style(Role::Cursor);
    if model.at_spot(model.spot).is_some() || model.carry.is_some() {
        for row in 0..map.scale.high {
            pane.restyle(x, y + row, map.scale.wide, style.remove_modifier(Modifier::UNDERLINED));
        }
    } else if map.scale.wide == 1 {
        pane.text(x, y, pane.look.glyphs.spot[0], style);
    } else {
        let spot = pane.look.glyphs.spot;
        pane.text(x, y, spot[0], style);
        pane.text(x + map.scale.wide - 1, y, spot[1], style);
    }
}
