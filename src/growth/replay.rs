//! Year by year: what a start would have come to in every year of a station's record.

use super::conditions::Conditions;
use super::schedule::outlook;
use super::season::worth;
use crate::calendar::{ClimateDay, Date, plus};
use crate::crop::{Clock, Crop, Start};
use crate::units::num;
use chrono::Datelike;

/// Days that may be missing from a year's stretch for it to be judged.
const MOST_MISSING: usize = 10;
/// Days before the first picking in which what is picked is formed.
const FORMS: i64 = 21;

/// One year of the record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct YearSeen {
    /// The year in which it was begun.
    pub year: i32,
    /// First picking; none where it never ripened.
    pub first_pick: Option<Date>,
    /// The night that killed it before it was picked for a while; none where none did.
    pub killed: Option<Date>,
}

impl YearSeen {
    /// Whether it was ripe and picked for a while before a killing frost.
    pub const fn in_time(&self) -> bool {
        self.first_pick.is_some() && self.killed.is_none()
    }
}

/// What a record says of a start.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Replay {
    /// Its years, the earliest first.
    pub years: Vec<YearSeen>,
}

impl Replay {
    /// Share of years in which it was in time; none without a year.
    pub fn share(&self) -> Option<f64> {
        let good = self.years.iter().filter(|y| y.in_time()).count();
        (!self.years.is_empty()).then(|| num::real(good) / num::real(self.years.len()))
    }
    /// Days from the first day of the year of its start by which the first picking had come in so many years of ten,
    /// a year counted as 365 days, by Hazen's plotting position; years that never ripened count as latest. None where that is so many.
    pub fn picked_by(&self, share: f64) -> Option<i64> {
        let mut days: Vec<i64> = self
            .years
            .iter()
            .filter_map(|y| {
                let pick = y.first_pick?;
                Some(num::signed(ClimateDay::of(pick).index()) + 365 * i64::from(pick.year() - y.year))
            })
            .collect();
        days.sort_unstable();
        let rank = (share * num::real(self.years.len()) - 0.5).max(0.0);
        let below = num::floor_u(rank);
        let here = *days.get(below)?;
        let next = days.get(below + 1).copied().unwrap_or(here);
        Some(num::round_i(num::real_i(here) + num::real_i(next - here) * (rank - num::real(below))))
    }
}

/// A start on the day of `on` in every year of the known weather that holds it to the end of its first pickings.
///
/// Empty where `conditions` know no weather. A year is judged when at most ten days of its stretch are missing.
pub fn replay(crop: &Crop, conditions: &Conditions<'_>, start: Start, on: Date) -> Replay {
    let Some(weather) = conditions.weather() else { return Replay::default() };
    let kills = crop.frost.foliage.celsius() - conditions.frost_gain;
    let spoils = crop.frost.harvest.celsius() - conditions.frost_gain;
    let years = (weather.first().year()..=weather.last().year()).filter_map(|year| {
        let on = on.with_year(year)?;
        let seen = outlook(crop, conditions, start, on).schedule;
        let first_pick = seen.as_ref().and_then(|s| s.dates.first_pick);
        let end = first_pick.map_or_else(|| plus(on, 300), |d| plus(d, worth(crop)));
        if on < weather.first() || end > weather.last() || weather.missing(on..=end) > MOST_MISSING {
            return None;
        }
        let out = seen.as_ref().and_then(|s| s.dates.set_out.or(s.dates.emerged)).unwrap_or(on);
        // A clove or tuber under the ground is not killed by a night.
        let buried = matches!((&crop.clock, start), (Clock::Overwintered { .. }, Start::Piece(_)));
        let killed = match first_pick {
            _ if buried => None,
            Some(first) => {
                let leaves = weather.frost(kills, out..=first);
                leaves.or_else(|| weather.frost(spoils, plus(first, -FORMS).max(out)..=end))
            }
            None => weather.frost(kills, out..=end),
        };
        Some(YearSeen { year, first_pick, killed })
    });
    Replay { years: years.collect() }
}
