//! The weeks of the season across a screen: the ruler and the timeline share it, so that they stand in line.

use crate::app::{Model, View};
use crate::calendar::{MONTHS, Week};
use crate::units::num;
use chrono::Datelike as _;

/// Columns kept free on the left, for names.
const NAMES: i32 = 22;

/// The weeks across.
pub(super) struct Scale {
    /// The weeks of the season.
    pub(super) weeks: Vec<Week>,
    /// The column of the first.
    pub(super) left: i32,
    /// Columns a week.
    pub(super) per: i32,
}

impl Scale {
    /// On a screen of so many columns: the whole season, or the weeks round the shown one where the timeline is
    /// looked at more closely.
    pub(super) fn of(model: &Model, width: i32) -> Self {
        let mut weeks: Vec<Week> = model.season().weeks().collect();
        let count = i32::try_from(weeks.len()).unwrap_or(53);
        let mut per = ((width - NAMES) / count.max(1)).clamp(1, 3);
        if model.view == View::Weeks && model.closer > 0 {
            per <<= model.closer;
            let fit = usize::try_from((width - NAMES - 1) / per).unwrap_or(1).clamp(1, weeks.len().max(1));
            let at = weeks.iter().position(|w| *w == model.week).unwrap_or(0);
            let first = at.saturating_sub(fit / 2).min(weeks.len() - fit.min(weeks.len()));
            weeks = weeks.into_iter().skip(first).take(fit).collect();
        }
        let count = i32::try_from(weeks.len()).unwrap_or(53);
        Self { left: width - per * count - 1, weeks, per }
    }
    /// The column of the `n`th week.
    pub(super) fn x(&self, n: usize) -> i32 {
        self.left + self.per * i32::try_from(n).unwrap_or(0)
    }
    /// The number of a week; none outside the season.
    pub(super) fn number(&self, week: Week) -> Option<usize> {
        self.weeks.iter().position(|w| *w == week)
    }
    /// Where the names of the months begin.
    pub(super) fn months(&self) -> Vec<(i32, &'static str)> {
        let begins = |(n, week): (usize, &Week)| {
            let sunday = week.sunday();
            (sunday.day() <= 7 || n == 0).then(|| (self.x(n), MONTHS[num::index(sunday.month0())]))
        };
        self.weeks.iter().enumerate().filter_map(begins).collect()
    }
}
