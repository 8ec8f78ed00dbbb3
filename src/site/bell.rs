//! The bell curve: density, cumulative share, its inverse, and the five nodes that average over it.

use crate::units::num;
use std::f64::consts::{PI, SQRT_2};
use std::sync::LazyLock;

/// Nodes in standard deviations and weights of the five-point Gauss-Hermite rule for a normal variable
/// (Abramowitz & Stegun 1964, table 25.10, rescaled to the unit normal).
pub const NODES: [(f64, f64); 5] = [
    (0.0, 0.533_333_333_333_333_3),
    (1.355_626_179_974_266, 0.222_075_922_005_612_6),
    (-1.355_626_179_974_266, 0.222_075_922_005_612_6),
    (2.856_970_013_872_805_6, 0.011_257_411_327_720_682),
    (-2.856_970_013_872_805_6, 0.011_257_411_327_720_682),
];

/// Density of the unit normal at `x`.
pub fn density(x: f64) -> f64 {
    (-0.5 * x * x).exp() / (2.0 * PI).sqrt()
}

/// Share of a unit normal below `x`.
pub fn share(x: f64) -> f64 {
    0.5 * libm::erfc(-x / SQRT_2)
}

/// The `x` below which a share `p` of a unit normal lies; `p` is held to 1e-15 from either end.
///
/// A rational start (Abramowitz & Stegun 1964, 26.2.23) and three Halley steps.
pub fn quantile(p: f64) -> f64 {
    let p = p.clamp(1e-15, 1.0 - 1e-15);
    let tail = p.min(1.0 - p);
    let t = (-2.0 * tail.ln()).sqrt();
    let start = t
        - (2.515_517 + t * (0.802_853 + t * 0.010_328))
            / (1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308)));
    let mut x = -start;
    for _ in 0..3 {
        let step = (share(x) - tail) / density(x);
        x -= step / (1.0 + 0.5 * x * step);
    }
    if p <= 0.5 { x } else { -x }
}

/// Table step of [`quick_share`].
const FINE: f64 = 1.0 / 64.0;
const FINE_COUNT: usize = 18 * 64 + 2;

/// Values and slopes of the normal share between -9 and 9.
static SHARES: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    (0..FINE_COUNT).map(|i| num::real(i) * FINE - 9.0).map(|x| (share(x), density(x))).collect()
});

/// The normal share by cubic Hermite table, within 1e-9 of [`share`]: where it is asked for many
/// thousand times.
pub(super) fn quick_share(value: f64) -> f64 {
    if value <= -9.0 {
        return 0.0;
    }
    if value >= 9.0 {
        return 1.0;
    }
    let at = (value + 9.0) / FINE;
    let left = num::floor_u(at);
    let t = at - num::real(left);
    let ((a, da), (b, db)) = (SHARES[left], SHARES[left + 1]);
    let (da, db) = (da * FINE, db * FINE);
    a + t * (da + t * (3.0 * (b - a) - 2.0 * da - db + t * (2.0 * (a - b) + da + db)))
}
