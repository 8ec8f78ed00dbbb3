//! Families whose return to the same soil is limited within the horizon.

use super::{Builder, Dropped, POINT};
use crate::crop::{BreakWeight, Crop};
use crate::fill::problem::{Group, Reach};

/// Points lost by a second stay in one soil of a family that should come once a season, and by a second use of a
/// cell by another family.
const TWICE: (i64, i64) = (25 * POINT, POINT / 2);

impl Builder<'_> {
    /// The group of a crop's family.
    pub(super) fn group(&mut self, crop: &Crop) -> usize {
        if let Some(&at) = self.groups.get(&crop.family) {
            return at;
        }
        let rotation = self.plan.settings.rotation_of(crop, self.book);
        let once = self.book.family(&crop.family).is_some_and(|f| f.once_a_season);
        let stop = rotation.weight == BreakWeight::Stop && !self.request.drops(Dropped::Breaks);
        let off = rotation.weight == BreakWeight::Off;
        let whole = (stop || once) && !self.plan.settings.rotation_by_cell;
        let at = self.problem.groups.len();
        self.problem.groups.push(Group {
            name: self.book.family(&crop.family).map_or_else(|| crop.family.clone(), |f| f.common.clone()),
            reach: if whole { Reach::Bed } else { Reach::Cell },
            apart: if stop { usize::from(rotation.least) * 53 } else { 0 },
            again: if off || self.request.drops(Dropped::Breaks) {
                0
            } else if once {
                TWICE.0
            } else {
                TWICE.1
            },
        });
        self.groups.insert(crop.family.clone(), at);
        at
    }
}
