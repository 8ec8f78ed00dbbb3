//! Puts boxes, beds and pots of given sizes side by side on the site plan, with a path between them.

use super::measures::Outline;
use crate::calendar::Date;
use crate::garden::{Kind, Place, PlaceId, Point, Shape, Tag};
use crate::units::{Length, LengthUnit, Measure, Volume, num};

/// What is to be laid out.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Sizes {
    pub(super) boxes: Vec<Outline>,
    pub(super) beds: Vec<Outline>,
    pub(super) flower_beds: Vec<Outline>,
    pub(super) pots: Vec<Volume>,
}

/// Path between beds, metres (common practice: room for a barrow).
const PATH: f64 = 0.6;
/// Space between pots, metres.
const GAP: f64 = 0.3;
/// Width of a row of beds, metres.
const ROW: f64 = 7.5;

struct Pen {
    measure: Measure,
    since: Date,
    fresh: bool,
    /// East end of the row so far, its north side, and its depth, metres.
    x: f64,
    y: f64,
    deep: f64,
    places: Vec<Place>,
}

/// The places, in rows from the north-west.
pub(super) fn lay_out(sizes: &Sizes, measure: Measure, since: Date, fresh: bool) -> Vec<Place> {
    let mut pen = Pen { measure, since, fresh, x: 0.0, y: 0.0, deep: 0.0, places: Vec::new() };
    for (list, kind, stem, name) in [
        (&sizes.boxes, Kind::Box, "box", "Box"),
        (&sizes.beds, Kind::OpenBed, "bed", "Bed"),
        (&sizes.flower_beds, Kind::FlowerBed, "flowers", "Flower bed"),
    ] {
        for (n, outline) in list.iter().enumerate() {
            let depth = outline.depth.unwrap_or_else(|| pen.depth(kind));
            let shape = Shape::Rect { across: outline.across, down: outline.down, depth };
            let named = if list.len() == 1 { name.to_owned() } else { format!("{name} {}", n + 1) };
            pen.put(kind, &format!("{stem}-{}", n + 1), &named, shape, PATH);
        }
    }
    pen.turn(PATH);
    for (n, volume) in sizes.pots.iter().enumerate() {
        let shape = pot(*volume, measure);
        let named = if sizes.pots.len() == 1 { String::from("Pot") } else { format!("Pot {}", n + 1) };
        pen.put(Kind::Pot, &format!("pot-{}", n + 1), &named, shape, GAP);
    }
    pen.places
}

impl Pen {
    fn depth(&self, kind: Kind) -> Length {
        let deep = match kind {
            Kind::Box | Kind::Pot => 1.0,
            Kind::OpenBed | Kind::FlowerBed => 1.5,
        };
        match self.measure {
            Measure::Us => Length::new(deep * 12.0, LengthUnit::In),
            Measure::Metric => Length::new(deep * 30.0, LengthUnit::Cm),
        }
    }
    /// A length as it would be typed: whole half feet or tens of centimetres.
    fn round(&self, metres: f64) -> Length {
        match self.measure {
            Measure::Us => Length::new((metres / 0.1524).ceil() / 2.0, LengthUnit::Ft),
            Measure::Metric => Length::new((metres * 10.0).ceil() * 10.0, LengthUnit::Cm),
        }
    }
    fn turn(&mut self, space: f64) {
        if self.deep > 0.0 {
            self.y += self.deep + space;
        }
        (self.x, self.deep) = (0.0, 0.0);
    }
    fn put(&mut self, kind: Kind, id: &str, name: &str, shape: Shape, space: f64) {
        let (across, down) = match shape {
            Shape::Rect { across, down, .. } => (across.m(), down.m()),
            Shape::Round { width, .. } => (width.m(), width.m()),
        };
        if self.x > 0.0 && self.x + across > ROW {
            self.turn(space);
        }
        let at = Point { x: self.round(self.x), y: self.round(self.y) };
        self.x = at.x.m() + across + space;
        self.deep = self.deep.max(at.y.m() - self.y + down);
        self.places.push(Place {
            id: PlaceId::new(id),
            name: name.to_owned(),
            kind,
            at,
            shape,
            on_paving: kind == Kind::Pot,
            on_deck: false,
            tags: if kind == Kind::FlowerBed { vec![Tag::FlowersOnly] } else { Vec::new() },
            since: self.since,
            fresh: self.fresh,
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
    }
}

/// A round pot of a volume, a little wider than deep as most are: depth nine tenths of the width.
fn pot(volume: Volume, measure: Measure) -> Shape {
    let cubic = volume.litres() / 1000.0;
    let width = (cubic / (std::f64::consts::FRAC_PI_4 * 0.9)).cbrt();
    let length = |metres: f64| match measure {
        Measure::Us => Length::new((metres / 0.0254).round().max(1.0), LengthUnit::In),
        Measure::Metric => Length::new(num::real_i(num::round_i(metres * 100.0)).max(2.0), LengthUnit::Cm),
    };
    Shape::Round { width: length(width), depth: length(width * 0.9), volume }
}
