//! Beds, pots, cells and blocks: the body of the garden and how many plants fit into it.
//!
//! Positions are measured from the north-west corner of the site plan, x to the east, y to the south.

mod block;
mod offer;
mod place;
mod room;

pub use block::{Block, Layer};
pub use place::{
    Amendment, AmendmentKind, Cover, CoverKind, Kind, Place, PlaceId, Point, Position, SOAKED_EARTH,
    SOAKED_MIX, Shape, SoilId, Support, SupportKind, Tag,
};
pub use room::{capacity, placed, plants_in, pot_plants, shapes, shapes_in, span};
