//! Chances that join heat and frost.

use super::bell;
use super::day::{DAYS, Daily, apart};
use super::frost::{FrostCurves, RHO, SEASON_SHARE};
use crate::calendar::ClimateDay;
use crate::units::num;

/// Days looked ahead for ripeness.
const REACH: usize = 330;
/// Share of the day-to-day spread of temperature that reaches the thermal sum (measured).
const CARRIED: f64 = 0.93;

/// Deviations beyond which ripeness is certain, one way or the other.
const SURE: f64 = 6.0;

/// Chance that a planting started on `start` is ripe before a killing frost.
pub fn ripe_before_frost(rate: &Daily, start: ClimateDay, need: f64, frost: &FrostCurves, sd: f64) -> f64 {
    let from_peak = apart(frost.peak().index(), start.index());
    ripe_while_alive(rate, start, need, sd, |n| {
        let after_peak = from_peak + n;
        if after_peak <= 0 { 1.0 } else { frost.survival(num::count(after_peak)) }
    })
}

/// Chance that a planting started on `start` is ripe while it is alive, `alive(n)` being the chance that it is so
/// `n` days after its start, and never rising.
///
/// The thermal sum after `n` days is taken as normal about the sum of the expected daily rates `rate`, with
/// variance `(0.93 sd)^2 [(1-v) n (1+rho)/(1-rho) + v n^2]`; each day's chance to be the day of ripeness is
/// multiplied by the chance of being alive till then. Against 165 cases of real years: bias -0.005, mean error
/// 0.09.
pub fn ripe_while_alive(
    rate: &Daily,
    start: ClimateDay,
    need: f64,
    sd: f64,
    alive: impl Fn(i64) -> f64,
) -> f64 {
    let (mut sum, mut ripe, mut chance) = (0.0, 0.0_f64, 0.0);
    let mut day = start.index();
    for n in 0..REACH {
        sum += rate[day];
        day = if day + 1 == DAYS { 0 } else { day + 1 };
        let days = num::real(n + 1);
        let quick = (1.0 - SEASON_SHARE) * days * (1.0 + RHO) / (1.0 - RHO);
        let spread = (CARRIED * sd * (quick + SEASON_SHARE * days * days).sqrt()).max(1e-9);
        let place = (sum - need) / spread;
        if place < -SURE {
            continue;
        }
        let now = if place > SURE { 1.0 } else { bell::quick_share(place) };
        if now <= ripe {
            continue;
        }
        let here = alive(num::signed(n));
        chance += (now - ripe) * here;
        ripe = now;
        if here < 1e-9 || ripe > 1.0 - 1e-9 {
            break;
        }
    }
    chance.clamp(0.0, 1.0)
}
