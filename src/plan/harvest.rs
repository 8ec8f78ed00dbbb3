//! What a planting brings in, week by week, moved to its own dates.

use super::Planting;
use crate::calendar::{Week, plus};
use crate::crop::Crop;
use crate::growth::{Conditions, age, outlook};

impl Planting {
    /// Share of its usual harvest that it brings in each week, frost weighed in.
    ///
    /// The shape is the schedule's; it is moved by whole weeks so that its first picking falls into the week of the
    /// planting's own, real where it is known. A harvest without a shape (the crop would not be planted so) brings
    /// nothing, unless it was picked all the same: then it comes in that week. What failed, was cleared or was picked
    /// out brings nothing more.
    pub fn harvest(&self, crop: &Crop, conditions: &Conditions<'_>) -> Vec<(Week, f64)> {
        let Some(begins) = self.begins() else { return Vec::new() };
        let schedule = outlook(crop, conditions, self.start, plus(begins, -age(self.start))).schedule;
        let Some(schedule) = schedule else {
            return self.real.first_pick.map(|d| (Week::of(d), 1.0)).into_iter().collect();
        };
        let off = match (schedule.dates.first_pick, self.dates().first_pick) {
            (Some(reckoned), Some(first)) => Week::of(reckoned).until(Week::of(first)),
            (Some(_) | None, _) => 0,
        };
        let ended = [self.failed, self.real.cleared, self.real.last_pick].into_iter().flatten().min();
        let over = |week: Week| ended.is_some_and(|e| week.monday() > e);
        let moved = schedule.weeks.iter().map(|(week, share)| (week.plus(off), *share));
        moved.filter(|(week, share)| *share > 0.0 && !over(*week)).collect()
    }
}
