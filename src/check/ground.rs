//! Where plantings lie on the site plan, in metres: x to the east, y to the south.

use super::Context;
use crate::garden::Place;
use crate::plan::Planting;
use crate::units::num;

/// A rectangle on the site plan, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Patch {
    pub(super) west: f64,
    pub(super) east: f64,
    pub(super) north: f64,
    pub(super) south: f64,
}

impl Patch {
    /// Metres from a point to where a ray along the ground enters this patch; none where it passes by.
    pub(super) fn entered(self, from: (f64, f64), way: (f64, f64)) -> Option<f64> {
        let (mut near, mut far) = (0.0_f64, f64::INFINITY);
        let sides = [(from.0, way.0, self.west, self.east), (from.1, way.1, self.north, self.south)];
        for (at, step, low, high) in sides {
            if step.abs() < 1e-9 {
                if at < low || at > high {
                    return None;
                }
                continue;
            }
            let (a, b) = ((low - at) / step, (high - at) / step);
            near = near.max(a.min(b));
            far = far.min(a.max(b));
        }
        (near < far).then_some(near)
    }
    /// Metres between the two; 0 where they touch.
    pub(super) fn apart(self, other: Self) -> f64 {
        let gap = |low: f64, high: f64, from: f64, to: f64| (from - high).max(low - to).max(0.0);
        gap(self.west, self.east, other.west, other.east).hypot(gap(
            self.north,
            self.south,
            other.north,
            other.south,
        ))
    }
}

/// The ground a planting covers on the day it goes in.
pub(super) fn patch(context: &Context<'_>, place: &Place, planting: &Planting) -> Patch {
    let at = planting.begins().map_or(place.at, |day| place.at_on(day));
    let (across, down) = (place.size().0.m(), place.size().1.m());
    let (rows, cols) = place.grid(context.plan.settings.cell);
    let (wide, tall) = (across / f64::from(cols.max(1)), down / f64::from(rows.max(1)));
    let block = planting.block;
    let edge = |at: f64, step: f64, n: u16| at + step * f64::from(n);
    Patch {
        west: edge(at.x.m(), wide, block.col),
        east: edge(at.x.m(), wide, block.col.saturating_add(block.cols)),
        north: edge(at.y.m(), tall, block.row),
        south: edge(at.y.m(), tall, block.row.saturating_add(block.rows)),
    }
}

/// Whether two plantings of one place touch: they share cells, or an edge of a cell.
pub(super) fn touch(a: &Planting, b: &Planting) -> bool {
    let (a, b, same) = (a.block, b.block, a.place == b.place);
    let gap = |from: u16, len: u16, other: u16, other_len: u16| {
        let (x, y) = (i32::from(from) + i32::from(len), i32::from(other) + i32::from(other_len));
        (i32::from(other) - x).max(i32::from(from) - y)
    };
    let rows = gap(a.row, a.rows, b.row, b.rows);
    let cols = gap(a.col, a.cols, b.col, b.cols);
    same && ((rows < 0 && cols <= 0) || (rows <= 0 && cols < 0))
}

/// Area of the outline of a place, square metres.
pub(super) fn area(place: &Place) -> f64 {
    let (across, down) = (place.size().0.m(), place.size().1.m());
    match place.shape {
        crate::garden::Shape::Rect { .. } => across * down,
        crate::garden::Shape::Round { .. } => across * across * std::f64::consts::FRAC_PI_4,
    }
}

/// A number rounded for reading.
pub(super) fn round(x: f64) -> i64 {
    num::round_i(x)
}
