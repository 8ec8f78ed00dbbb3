//! Degree days: how much warmth a day gives a crop.

use super::bell;
use crate::units::num;

/// Standard deviation of the daily mean temperature about its normal, in degrees Celsius, where a site's own is
/// not known: the mean of the series measured for these methods.
pub const USUAL_SD: f64 = 3.7;

/// What happens to the rate of growth above the best temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ceiling {
    /// Warmth counts without limit.
    None,
    /// Warmth above this temperature adds nothing more (horizontal cut-off).
    Level(f64),
    /// Above this temperature the rate falls as fast as it rose; never below zero.
    Fall(f64),
}

/// A crop's answer to temperature: nothing below the base, then rising, up to the ceiling. Degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Response {
    /// Temperature below which nothing grows.
    pub base: f64,
    /// What happens in heat.
    pub ceiling: Ceiling,
}

impl Response {
    /// Cool-season crops: base 2, falling above 22.
    pub const COOL: Self = Self { base: 2.0, ceiling: Ceiling::Fall(22.0) };
    /// Warm-season crops: base 10, level above 30.
    pub const WARM: Self = Self { base: 10.0, ceiling: Ceiling::Level(30.0) };

    /// Degree days of one day by the single sine.
    pub fn day(self, tmin: f64, tmax: f64) -> f64 {
        match self.ceiling {
            Ceiling::None => sine(tmin, tmax, self.base, f64::INFINITY),
            Ceiling::Level(upper) => sine(tmin, tmax, self.base, upper),
            Ceiling::Fall(best) => sine_fall(tmin, tmax, self.base, best),
        }
    }

    /// Degree days of a normal day, averaged over day-to-day weather of standard deviation `sd`.
    pub fn expected(self, tmin: f64, tmax: f64, sd: f64) -> f64 {
        expected(|low, high| self.day(low, high), tmin, tmax, sd)
    }

    /// The same number for the same response where it is so many degrees warmer, to a thousandth of a degree.
    pub(crate) fn key(self, warmth: f64) -> [i64; 4] {
        let milli = |x: f64| num::round_i(x * 1000.0);
        let (kind, bend) = match self.ceiling {
            Ceiling::None => (0, 0),
            Ceiling::Level(t) => (1, milli(t)),
            Ceiling::Fall(t) => (2, milli(t)),
        };
        [milli(self.base), kind, bend, milli(warmth)]
    }

    /// Degree days of a day held at one temperature, as on a heated bench.
    pub fn steady(self, temperature: f64) -> f64 {
        self.day(temperature, temperature)
    }
}

/// Mean warmth above `base` over a day whose temperature is one sine wave between `tmin` and `tmax`
/// (Baskerville & Emin 1969, Ecology 50:514).
pub fn above(tmin: f64, tmax: f64, base: f64) -> f64 {
    let mean = tmin.midpoint(tmax);
    if tmin >= base {
        return mean - base;
    }
    if tmax <= base {
        return 0.0;
    }
    let half = (tmax - tmin) / 2.0;
    let angle = ((base - mean) / half).clamp(-1.0, 1.0).asin();
    ((mean - base) * (std::f64::consts::FRAC_PI_2 - angle) + half * angle.cos()) / std::f64::consts::PI
}

/// Single sine with a horizontal upper cut-off (an infinite `upper` means none).
pub fn sine(tmin: f64, tmax: f64, base: f64, upper: f64) -> f64 {
    above(tmin, tmax, base) - if upper.is_finite() { above(tmin, tmax, upper) } else { 0.0 }
}

/// Single sine whose rate falls above `best` as fast as it rose below it; never negative.
pub fn sine_fall(tmin: f64, tmax: f64, base: f64, best: f64) -> f64 {
    (above(tmin, tmax, base) - 2.0 * above(tmin, tmax, best)).max(0.0)
}

/// Averaging method 1 of `McMaster` & Wilhelm 1997, Agric. For. Meteorol. 87:291: the mean is held to the limits.
pub fn average_held(tmin: f64, tmax: f64, base: f64, upper: f64) -> f64 {
    (tmin.midpoint(tmax).min(upper) - base).max(0.0)
}

/// Averaging method 2 of `McMaster` & Wilhelm 1997: each extreme is held to the limits first.
pub fn extremes_held(tmin: f64, tmax: f64, base: f64, upper: f64) -> f64 {
    let held = |t: f64| t.max(base).min(upper);
    held(tmin).midpoint(held(tmax)) - base
}

/// Mean of `f` over day-to-day weather: both extremes moved by one normal departure of standard deviation `sd`.
///
/// Degree days taken from bare normals are always too few near the base, because cold days cannot subtract
/// what warm days add.
pub fn expected(f: impl Fn(f64, f64) -> f64, tmin: f64, tmax: f64, sd: f64) -> f64 {
    bell::NODES.iter().map(|(x, weight)| weight * f(tmin + x * sd, tmax + x * sd)).sum()
}
