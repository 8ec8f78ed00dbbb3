//! Chances of frost: how cold nights scatter about their normals, and when the last and the first come.

mod anchor;
mod chain;
mod curves;
mod sigma;

pub use anchor::{ANCHOR_LIMIT, Half, anchor};
pub use chain::{HALF_YEAR, RHO, SEASON_SHARE, autumn, crossing, share_by, spring};
pub use curves::{CountedHalf, FrostCurves, FrostModel, HalfDates, HalfSource, widen};
pub use sigma::{from_frost_days, from_normals, from_zone, smooth};
