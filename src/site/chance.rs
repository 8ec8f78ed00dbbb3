//! Chances that join heat and frost.

use super::bell;
use super::day::{DAYS, Daily, apart, shift};
use super::frost::{FrostCurves, RHO, SEASON_SHARE};
use crate::calendar::ClimateDay;
use crate::units::num;

/// Days looked ahead for ripeness.
const REACH: usize = 330;
/// Share of the day-to-day spread of temperature that reaches the thermal sum (measured).
const CARRIED: f64 = 0.93;

/// Chance that a planting started on `start` is ripe before a killing frost.
///
/// The thermal sum after `n` days is taken as normal about the sum of the expected daily rates `rate`, with
/// variance `(0.93 sd)^2 [(1-v) n (1+rho)/(1-rho) + v n^2]`; each day's chance to be the day of ripeness is
/// multiplied by the chance `frost` leaves it alive till then. Against 165 cases of real years: bias -0.005,
/// mean error 0.09.
pub fn ripe_before_frost(rate: &Daily, start: ClimateDay, need: f64, frost: &FrostCurves, sd: f64) -> f64 {
    let from_peak = apart(frost.peak().index(), start.index());
    let mut sum = 0.0;
    let mut ripe = 0.0_f64;
    let mut chance = 0.0;
    for n in 0..REACH {
        sum += rate[shift(start.index(), num::signed(n)) % DAYS];
        let days = num::real(n + 1);
        let quick = (1.0 - SEASON_SHARE) * days * (1.0 + RHO) / (1.0 - RHO);
        let spread = CARRIED * sd * (quick + SEASON_SHARE * days * days).sqrt();
        let now = if spread > 1e-9 {
            bell::quick_share((sum - need) / spread)
        } else {
            f64::from(u8::from(sum >= need))
        };
        let gained = (now - ripe).max(0.0);
        ripe = ripe.max(now);
        let after_peak = from_peak + num::signed(n);
        let alive = if after_peak <= 0 { 1.0 } else { frost.survival(num::count(after_peak)) };
        chance += gained * alive;
        if alive < 1e-9 || ripe > 1.0 - 1e-9 {
            break;
        }
    }
    chance.clamp(0.0, 1.0)
}
