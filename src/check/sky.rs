//! Hours of direct sun on a planting, behind obstacles and tall plantings.

use super::Context;
use super::ground::{Patch, patch};
use crate::calendar::{ClimateDay, Date, days_between, plus};
use crate::garden::{Kind, Place};
use crate::plan::Planting;
use crate::site::shade::{Block, Obstacle, Spot, season_mean};
use crate::units::num;

/// Height of the soil's surface above the ground, metres: boxes and pots stand on it.
pub(super) fn rim(place: &Place) -> f64 {
    match place.kind {
        Kind::Box | Kind::Pot => place.depth().m(),
        Kind::OpenBed | Kind::FlowerBed => 0.0,
    }
}

/// The middle of a patch at a height.
pub(super) fn middle(patch: Patch, z: f64) -> Spot {
    Spot { x: patch.west.midpoint(patch.east), y: patch.north.midpoint(patch.south), z }
}

/// The obstacles of the site as blocks.
pub(super) fn obstacles(context: &Context<'_>) -> Vec<Block> {
    context.plan.site.obstacles.iter().map(Obstacle::block).collect()
}

/// Mean hours of direct sun a day on a spot over the days from one to another.
pub(super) fn hours(context: &Context<'_>, at: Spot, blocks: &[Block], from: Date, to: Date) -> f64 {
    let by_month = context.sky().hours(at, blocks);
    let days = days_between(from, to).clamp(0, 364);
    let sum: f64 = (0..=days).map(|n| by_month[ClimateDay::of(plus(from, n)).month0()]).sum();
    sum / num::real_i(days + 1)
}

/// Temperature of the soil from which the growing season of a cell is counted, degrees Celsius.
const SEASON: f64 = 8.0;

/// Mean hours of direct sun a day on a spot over the growing season.
pub(super) fn season_hours(context: &Context<'_>, at: Spot, blocks: &[Block]) -> f64 {
    season_mean(&context.sky().hours(at, blocks), &context.year.soil, SEASON)
}

/// The soil of a planting's cells, in their middle.
pub(super) fn floor(context: &Context<'_>, place: &Place, planting: &Planting) -> Spot {
    middle(patch(context, place, planting), rim(place))
}
