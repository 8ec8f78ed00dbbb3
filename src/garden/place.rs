//! Beds and pots: bodies of soil with lasting ids.

use crate::calendar::Date;
use crate::units::{Degrees, Length, Volume};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Soaked potting mix, kg a litre (University of Arkansas unit 7; University of Florida).
pub const SOAKED_MIX: f64 = 1.0;
/// Soaked mineral soil, kg a litre.
pub const SOAKED_EARTH: f64 = 2.0;

/// Names a bed or pot for ever.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PlaceId(pub String);

impl PlaceId {
    /// The id of that text.
    pub fn new(text: &str) -> Self {
        Self(text.to_owned())
    }
}
impl fmt::Display for PlaceId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// A body of soil: the place, and which filling of it counting from 0. The record belongs to it.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SoilId {
    /// The bed or pot.
    pub place: PlaceId,
    /// How many times it was filled anew before.
    pub filling: usize,
}

/// What a place is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Kind {
    /// A raised box.
    Box,
    /// A bed in the open ground.
    OpenBed,
    /// A flower bed.
    FlowerBed,
    /// A container.
    Pot,
}

/// A point on the site plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// East of the north-west corner.
    pub x: Length,
    /// South of the north-west corner.
    pub y: Length,
}

/// Its outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Shape {
    /// A rectangle along the site's axes.
    Rect {
        /// From west to east.
        across: Length,
        /// From north to south.
        down: Length,
        /// Depth of soil.
        depth: Length,
    },
    /// A round container.
    Round {
        /// Width at the rim.
        width: Length,
        /// Depth of soil.
        depth: Length,
        /// Volume.
        volume: Volume,
    },
}

/// What may grow in a place.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Tag {
    /// Only cut flowers and other plants that are not eaten.
    FlowersOnly,
    /// Only plants that are eaten.
    FoodOnly,
    /// Only these families.
    Families(Vec<String>),
    /// Left alone by the fill.
    HandOnly,
}

/// Kinds of support.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum SupportKind {
    /// Lattice, wires or canes in a line.
    Trellis,
    /// A net on posts.
    Net,
    /// A ring or cage round single plants.
    Cage,
    /// Stakes.
    Stakes,
}

/// A support standing in a bed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Support {
    /// Kind.
    pub kind: SupportKind,
    /// Cells it serves.
    pub cells: super::Block,
    /// Height.
    pub height: Length,
    /// Stands from this date.
    pub from: Date,
    /// Until this date; none: stays.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
}

/// Kinds of cover.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum CoverKind {
    /// Spun fabric.
    Fleece,
    /// Glass or plastic over single rows.
    Cloche,
    /// A box with a glass lid.
    Frame,
    /// Cloth against sun.
    ShadeCloth,
    /// Fine net against insects.
    InsectNet,
}

/// A cover over cells for a time.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cover {
    /// Kind.
    pub kind: CoverKind,
    /// Cells under it.
    pub cells: super::Block,
    /// From this date.
    pub from: Date,
    /// Until this date.
    pub until: Date,
    /// How much milder the night is under it.
    pub frost_gain: Degrees,
    /// How much warmer the day is under it.
    pub warmth: Degrees,
    /// Share of the light it lets through, per cent.
    pub light: u8,
}

/// What was dug in or spread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum AmendmentKind {
    /// Manure that was not composted hot.
    RawManure,
    /// Finished compost.
    Compost,
    /// Lime.
    Lime,
    /// Any fertiliser.
    Fertiliser,
}

/// Something dug in on a date.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Amendment {
    /// When.
    pub on: Date,
    /// What.
    pub kind: AmendmentKind,
}

/// Where a pot stands from a date on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Position {
    /// From this date.
    pub from: Date,
    /// Where: "terrace", "indoors".
    pub name: String,
    /// Its corner on the site plan.
    pub at: Point,
}

/// A bed or a pot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// Lasting id.
    pub id: PlaceId,
    /// The grower's name for it.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// North-west corner.
    pub at: Point,
    /// Outline.
    pub shape: Shape,
    /// Stands on paving, a deck or a balcony, so that roots end at its floor.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub on_paving: bool,
    /// Stands on a balcony or deck that bears a load.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub on_deck: bool,
    /// What may grow there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tags: Vec<Tag>,
    /// First filled on this date.
    pub since: Date,
    /// The first filling was fresh potting mix or clean bought soil, free of native soil pathogens.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub fresh: bool,
    /// Retired on this date.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
    /// Filled anew with fresh mix on these dates, ascending: each starts a new body of soil.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub refilled: Vec<Date>,
    /// Hours of direct sun in the growing season as the grower counted them; none: computed from the obstacles.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sun_hours: Option<f32>,
    /// Supports.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub supports: Vec<Support>,
    /// Covers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub covers: Vec<Cover>,
    /// Manure, compost, lime.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub amendments: Vec<Amendment>,
    /// Lead in the soil by a laboratory, mg/kg.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead: Option<f32>,
    /// Later positions of a pot, ascending by date.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub moves: Vec<Position>,
    /// The grower's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Place {
    /// A bed or pot with nothing said of it but what it is, where and since when.
    pub fn new(
        id: PlaceId,
        name: impl Into<String>,
        kind: Kind,
        at: Point,
        shape: Shape,
        since: Date,
    ) -> Self {
        Self {
            id,
            name: name.into(),
            kind,
            at,
            shape,
            on_paving: false,
            on_deck: false,
            tags: Vec::new(),
            since,
            fresh: false,
            until: None,
            refilled: Vec::new(),
            sun_hours: None,
            supports: Vec::new(),
            covers: Vec::new(),
            amendments: Vec::new(),
            lead: None,
            moves: Vec::new(),
            note: String::new(),
        }
    }
    /// The body of soil in it on a date.
    pub fn soil_on(&self, date: Date) -> SoilId {
        let filling = self.refilled.iter().filter(|d| **d <= date).count();
        SoilId { place: self.id.clone(), filling }
    }
    /// When that body of soil came, and whether it came fresh.
    pub fn soil_since(&self, soil: &SoilId) -> (Date, bool) {
        match soil.filling.checked_sub(1).and_then(|i| self.refilled.get(i)) {
            Some(date) => (*date, true),
            None => (self.since, self.fresh),
        }
    }
    /// Whether it is there on a date.
    pub fn stands_on(&self, date: Date) -> bool {
        self.since <= date && self.until.is_none_or(|u| date < u)
    }
    /// Where it stands on a date.
    pub fn at_on(&self, date: Date) -> Point {
        self.moves.iter().rev().find(|m| m.from <= date).map_or(self.at, |m| m.at)
    }
    /// Whether it is a container.
    pub const fn is_pot(&self) -> bool {
        matches!(self.kind, Kind::Pot)
    }
    /// Depth of soil.
    pub const fn depth(&self) -> Length {
        match self.shape {
            Shape::Rect { depth, .. } | Shape::Round { depth, .. } => depth,
        }
    }
    /// Width and height of its outline, west-east and north-south.
    pub const fn size(&self) -> (Length, Length) {
        match self.shape {
            Shape::Rect { across, down, .. } => (across, down),
            Shape::Round { width, .. } => (width, width),
        }
    }
    /// Volume of soil, litres.
    pub fn litres(&self) -> f64 {
        match self.shape {
            Shape::Rect { across, down, depth } => across.m() * down.m() * depth.m() * 1000.0,
            Shape::Round { volume, .. } => volume.litres(),
        }
    }
    /// Rows and columns of cells of side `cell`; a round pot has one cell, a large one (wider than two cells) four.
    pub fn grid(&self, cell: Length) -> (u16, u16) {
        match self.shape {
            Shape::Rect { across, down, .. } => {
                (super::room::cells_along(down, cell), super::room::cells_along(across, cell))
            }
            Shape::Round { width, .. } => {
                let n = super::room::cells_along(width, cell).clamp(1, 2);
                (n, n)
            }
        }
    }
    /// The place turned a quarter, clockwise, with all that stands in it; a round pot stays as it is.
    #[must_use]
    pub fn turned(mut self, cell: Length) -> Self {
        let Shape::Rect { across, down, depth } = self.shape else { return self };
        let (rows, _) = self.grid(cell);
        self.shape = Shape::Rect { across: down, down: across, depth };
        for support in &mut self.supports {
            support.cells = support.cells.turned(rows);
        }
        for cover in &mut self.covers {
            cover.cells = cover.cells.turned(rows);
        }
        self
    }
    /// The whole of it as a block.
    pub fn whole(&self, cell: Length) -> super::Block {
        let (rows, cols) = self.grid(cell);
        super::Block { row: 0, col: 0, rows, cols }
    }
}
