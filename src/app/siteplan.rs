//! Where things lie on the site plan, counted in cells from its north-west corner.

use super::model::Model;
use crate::calendar::Date;
use crate::garden::{Place, Point};
use crate::plan::Plan;
use crate::site::Obstacle;
use crate::units::{Length, num};

/// A spot on the site plan: columns east and rows south of its north-west corner, in cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Spot {
    /// Columns to the east.
    pub x: i64,
    /// Rows to the south.
    pub y: i64,
}

/// The farthest spot one may go to, in cells.
pub(super) const FARTHEST: i64 = 500;

impl Spot {
    /// So many cells on, kept on the plan.
    pub fn plus(self, x: i64, y: i64) -> Self {
        Self { x: (self.x + x).clamp(0, FARTHEST), y: (self.y + y).clamp(0, FARTHEST) }
    }
    /// The point of its north-west corner.
    pub fn point(self, cell: Length) -> Point {
        let at = |n: i64| Length::from_base(n.saturating_mul(cell.um()), cell.unit());
        Point { x: at(self.x), y: at(self.y) }
    }
    /// The nearest spot to a point.
    pub fn near(point: Point, cell: Length) -> Self {
        let at = |l: Length| num::round_i(num::real_i(l.um()) / num::real_i(cell.um().max(1)));
        Self { x: at(point.x).clamp(-FARTHEST, FARTHEST), y: at(point.y).clamp(-FARTHEST, FARTHEST) }
    }
}

/// The cells of the site plan a place covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Footprint {
    /// Its north-west corner.
    pub at: Spot,
    /// Rows southwards.
    pub rows: u16,
    /// Columns eastwards.
    pub cols: u16,
}

impl Footprint {
    /// Of a place on a date.
    pub fn of(place: &Place, date: Date, cell: Length) -> Self {
        let (rows, cols) = place.grid(cell);
        Self { at: Spot::near(place.at_on(date), cell), rows, cols }
    }
    /// The row and column of the place at a spot; none outside it.
    pub fn cell_at(self, spot: Spot) -> Option<(u16, u16)> {
        let row = u16::try_from(spot.y - self.at.y).ok().filter(|r| *r < self.rows)?;
        let col = u16::try_from(spot.x - self.at.x).ok().filter(|c| *c < self.cols)?;
        Some((row, col))
    }
    /// The spot of a cell of the place.
    pub fn spot_of(self, row: u16, col: u16) -> Spot {
        Spot { x: self.at.x + i64::from(col), y: self.at.y + i64::from(row) }
    }
}

/// The spots an obstacle covers: from, and up to but not with.
pub fn obstacle_spots(obstacle: &Obstacle, cell: Length) -> (Spot, Spot) {
    let at = |l: i64| num::round_i(num::real_i(l) / num::real_i(cell.um().max(1))).clamp(-FARTHEST, FARTHEST);
    let from = Spot { x: at(obstacle.x.um()), y: at(obstacle.y.um()) };
    let east = at(obstacle.x.um().saturating_add(obstacle.across.um())).max(from.x + 1);
    let south = at(obstacle.y.um().saturating_add(obstacle.down.um())).max(from.y + 1);
    (from, Spot { x: east, y: south })
}

impl Model {
    /// The number of the obstacle at a spot of the site plan.
    pub fn obstacle_at(&self, spot: Spot) -> Option<usize> {
        let cell = self.plan.settings.cell;
        self.plan.site.obstacles.iter().position(|o| {
            let (from, to) = obstacle_spots(o, cell);
            (from.x..to.x).contains(&spot.x) && (from.y..to.y).contains(&spot.y)
        })
    }
}

/// West, north, east and south edge of a place, micrometres.
fn edges(place: &Place, at: Point) -> (i64, i64, i64, i64) {
    let (across, down) = place.size();
    (at.x.um(), at.y.um(), at.x.um() + across.um(), at.y.um() + down.um())
}

/// The way left between two places, micrometres: negative where they overlap.
pub(super) fn way_between(a: &Place, b: &Place, date: Date) -> i64 {
    let (a_west, a_north, a_east, a_south) = edges(a, a.at_on(date));
    let (b_west, b_north, b_east, b_south) = edges(b, b.at_on(date));
    let across = (b_west - a_east).max(a_west - b_east);
    let down = (b_north - a_south).max(a_north - b_south);
    across.max(down)
}

/// The places nearest to one, with the way left between, narrowest first; itself left out.
pub(super) fn ways(plan: &Plan, place: &Place, date: Date) -> Vec<(String, i64)> {
    let mut out: Vec<(String, i64)> = plan
        .places_on(date)
        .filter(|p| p.id != place.id)
        .map(|p| (p.name.clone(), way_between(place, p, date)))
        .collect();
    out.sort_by_key(|(_, way)| *way);
    out
}

/// Columns and rows of the plan that hold every place.
pub fn extent(plan: &Plan, date: Date) -> (i64, i64) {
    plan.places_on(date).fold((1, 1), |(x, y), place| {
        let foot = Footprint::of(place, date, plan.settings.cell);
        (x.max(foot.at.x + i64::from(foot.cols)), y.max(foot.at.y + i64::from(foot.rows)))
    })
}
