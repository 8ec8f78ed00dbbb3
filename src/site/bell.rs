//! The bell curve: density, cumulative share, its inverse, and the five nodes that average over it.

use std::f64::consts::{PI, SQRT_2};

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
