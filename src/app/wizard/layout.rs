//! Puts beds and pots side by side on the site plan, with paths between.

use crate::calendar::Date;
use crate::garden::{Kind, Place, PlaceId, Point, Shape, Tag};
use crate::units::{Length, LengthUnit, Measure};

/// The path between beds, metres (common practice: room for a barrow).
const PATH: f64 = 0.6;
/// Space between pots, metres.
const GAP: f64 = 0.3;
/// Width of a row of beds, metres.
const ROW: f64 = 8.0;

/// The id and the name of the `n`th place of a kind.
pub(super) fn called(kind: Kind, n: usize) -> (PlaceId, String) {
    let (stem, name) = match kind {
        Kind::Box => ("box", "Box"),
        Kind::OpenBed => ("bed", "Bed"),
        Kind::FlowerBed => ("flowers", "Flower bed"),
        Kind::Pot => ("pot", "Pot"),
    };
    (PlaceId(format!("{stem}-{n}")), format!("{name} {n}"))
}

/// The places, in rows from the north-west; pots begin a row of their own. `fresh` tells whether a kind holds new
/// potting mix or clean bought soil.
pub fn lay_out(
    shapes: &[(Kind, Shape)],
    measure: Measure,
    since: Date,
    fresh: impl Fn(Kind) -> bool,
) -> Vec<Place> {
    let (mut x, mut y, mut deep) = (PATH, PATH, 0.0_f64);
    let mut out: Vec<Place> = Vec::new();
    for (kind, shape) in shapes {
        let space = if *kind == Kind::Pot { GAP } else { PATH };
        let (across, down) = match shape {
            Shape::Rect { across, down, .. } => (across.m(), down.m()),
            Shape::Round { width, .. } => (width.m(), width.m()),
        };
        let first_pot = *kind == Kind::Pot && out.last().is_some_and(|p| p.kind != Kind::Pot);
        if (x > PATH && x + across > ROW) || first_pot {
            (x, y, deep) = (PATH, y + deep + if first_pot { PATH } else { space }, 0.0);
        }
        let (id, name) = called(*kind, out.iter().filter(|p| p.kind == *kind).count() + 1);
        let at = Point { x: stepped(x, measure), y: stepped(y, measure) };
        deep = deep.max(at.y.m() - y + down);
        x = at.x.m() + across + space;
        out.push(Place {
            on_paving: *kind == Kind::Pot,
            tags: if *kind == Kind::FlowerBed { vec![Tag::FlowersOnly] } else { Vec::new() },
            fresh: fresh(*kind),
            ..Place::new(id, name, *kind, at, *shape, since)
        });
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
