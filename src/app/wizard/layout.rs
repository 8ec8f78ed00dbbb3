//! Puts beds and pots side by side on the site plan, with paths between.

use super::place_ids;
use crate::calendar::Date;
use crate::garden::{Kind, Place, Point, Shape};
use crate::units::{Length, LengthUnit, Measure};

/// The path between beds, metres (common practice: room for a barrow).
const PATH: f64 = 0.6;
/// Width of a row of beds, metres.
const ROW: f64 = 8.0;

/// The places, in rows from the north-west.
pub(super) fn lay_out(beds: &[Shape], pots: &[Shape], measure: Measure, since: Date) -> Vec<Place> {
    let ids = place_ids(beds.len(), pots.len());
    let shapes = beds.iter().map(|s| (*s, Kind::Box)).chain(pots.iter().map(|s| (*s, Kind::Pot)));
    let (mut x, mut y, mut deep) = (PATH, PATH, 0.0_f64);
    let mut kind_before = Kind::Box;
    let mut out = Vec::new();
    for ((id, name), (shape, kind)) in ids.into_iter().zip(shapes) {
        let (across, down) = match shape {
            Shape::Rect { across, down, .. } => (across.m(), down.m()),
            Shape::Round { width, .. } => (width.m(), width.m()),
        };
        if (x > PATH && x + across > ROW) || kind != kind_before {
            (x, y, deep) = (PATH, y + deep + PATH, 0.0);
        }
        kind_before = kind;
        out.push(Place {
            id,
            name,
            kind,
            at: Point { x: stepped(x, measure), y: stepped(y, measure) },
            shape,
            on_paving: kind == Kind::Pot,
            on_deck: false,
            tags: Vec::new(),
            since,
            fresh: kind == Kind::Pot,
            until: None,
            refilled: Vec::new(),
            sun_hours: None,
            supports: Vec::new(),
            covers: Vec::new(),
            amendments: Vec::new(),
            lead: None,
            moves: Vec::new(),
            note: String::new(),
        });
        x = stepped(x + across + PATH, measure).m();
        deep = deep.max(down);
    }
    out
}

/// So many metres, rounded up to whole feet or tens of centimetres.
fn stepped(metres: f64, measure: Measure) -> Length {
    match measure {
        Measure::Us => Length::new((metres / 0.3048 - 1e-6).ceil(), LengthUnit::Ft),
        Measure::Metric => Length::new((metres * 10.0 - 1e-6).ceil() * 10.0, LengthUnit::Cm),
    }
}
