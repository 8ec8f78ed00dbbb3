//! Soil temperature: the yearly wave of the air, damped and delayed with depth.

use super::day::{DAYS, Daily};
use crate::units::num;
use std::f64::consts::PI;

/// Sowing depth in metres to which the site's soil curve belongs.
pub const SOWING_DEPTH: f64 = 0.05;
/// Soil under short grass is this much warmer than the air in the yearly mean, degrees Celsius
/// (fitted to the US Climate Reference Network soil series of Manhattan, Kansas; one region only).
pub const COVER: f64 = 1.1;
/// Thermal diffusivity of moist soil, square metres a second.
const DIFFUSIVITY: f64 = 0.5e-6;
/// Below this the excess is damped: snow and freezing water hold the soil near 0.
const FROST_BOUND: f64 = 1.0;

/// Daily soil temperature at `depth` metres from the daily mean air temperature
/// (van Wijk & de Vries 1963, in Physics of Plant Environment).
///
/// Within 0.7 to 0.9 degrees by month at 5, 10 and 20 cm in the series it was checked on. Boxes and pots are
/// warmer by day and colder by night; nothing was measured for them.
pub fn wave(air: &Daily, depth: f64, cover: f64) -> Daily {
    let damping = (2.0 * DIFFUSIVITY * 365.0 * 86_400.0 / (2.0 * PI)).sqrt();
    let depth = depth.max(0.0);
    let fade = (-depth / damping).exp();
    let lag = depth / damping * 365.0 / (2.0 * PI) + 2.0;
    let mean = air.iter().sum::<f64>() / num::real(DAYS);
    let mut out = [0.0; DAYS];
    for (day, value) in out.iter_mut().enumerate() {
        let at = (num::real(day) - lag).rem_euclid(num::real(DAYS));
        let before = num::floor_u(at) % DAYS;
        let part = at - at.floor();
        let then = air[before] * (1.0 - part) + air[(before + 1) % DAYS] * part;
        *value = damped(mean + fade * (then - mean) + cover);
    }
    out
}

/// Days in which soil at 5 cm takes up most of a change of the air.
const MEMORY: f64 = 4.0;

/// Soil at 5 cm from day to day, where real daily mean air temperatures are known: an exponential filter with a
/// memory of 4 days, [`COVER`] warmer, damped below 1 C as [`wave`] is. `before` is the soil of the day before the
/// first. Days without a reading keep the soil as it is.
///
/// Standard deviation from the soil measured in Manhattan, Kansas: 1.4 C (air of the same day: 3.9); compare Zheng et al. 1993, Clim. Res. 2:183.
pub fn follow(air: &[Option<f64>], before: f64) -> Vec<f64> {
    let step = 1.0 - (-1.0 / MEMORY).exp();
    let mut held = undamped(before) - COVER;
    air.iter()
        .map(|today| {
            if let Some(today) = today {
                held += step * (today - held);
            }
            damped(held + COVER)
        })
        .collect()
}

/// Snow and freezing water hold the soil near 0.
fn damped(soil: f64) -> f64 {
    if soil < FROST_BOUND { FROST_BOUND + 0.3 * (soil - FROST_BOUND) } else { soil }
}

fn undamped(soil: f64) -> f64 {
    if soil < FROST_BOUND { FROST_BOUND + (soil - FROST_BOUND) / 0.3 } else { soil }
}
