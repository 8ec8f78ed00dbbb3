//! What a planting brings to the kitchen, week by week, moved to its own dates.

use crate::calendar::{Week, days_between, plus};
use crate::crop::Crop;
use crate::growth::{Conditions, age, outlook};
use crate::plan::Planting;

/// Share of its usual harvest that a planting brings in each week, frost weighed in.
///
/// The shape is the schedule's; its first picking is moved to the planting's own, real where it is known. A harvest
/// that has no shape (the crop would not be planted so) comes in the week of the first picking.
pub fn picking(planting: &Planting, crop: &Crop, conditions: &Conditions<'_>) -> Vec<(Week, f64)> {
    let dates = planting.dates();
    let (Some(first), Some(begins)) = (dates.first_pick, planting.begins()) else { return Vec::new() };
    if planting.failed.is_some_and(|d| d <= first) {
        return Vec::new();
    }
    let begun = dates.sown.unwrap_or_else(|| plus(begins, -age(planting.start)));
    let Some(schedule) = outlook(crop, conditions, planting.start, begun).schedule else {
        return vec![(Week::of(first), 1.0)];
    };
    let off = schedule.dates.first_pick.map_or(0, |f| days_between(f, first));
    let over = |week: Week| {
        let ended =
            [planting.failed, planting.real.cleared, planting.real.last_pick].into_iter().flatten().min();
        ended.is_some_and(|e| week.monday() > e)
    };
    let moved = schedule.weeks.iter().map(|(week, share)| (Week::of(plus(week.monday(), off)), *share));
    moved.filter(|(week, share)| *share > 0.0 && !over(*week)).collect()
}
