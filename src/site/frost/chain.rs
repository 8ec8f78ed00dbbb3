//! The frost chain: nights as a first-order autoregression with a slow seasonal part.
//!
//! `Tmin(d) = mu(d) + sigma(d) (sqrt(v) S + sqrt(1 - v) Z(d))`: Z a stationary Gaussian AR(1), S one unit normal
//! for the whole half-year. Constants measured over 41 station series: correlations 0.68, 0.43, 0.30 at lags 1
//! to 3 as an AR(1) has them, but 0.12 at lag 10 and 0.08 at lag 20, hence the slow part.
//! The chance that the last frost has come by a day is an exact backward recursion over bins of Z.

use super::super::bell;
use super::super::day::{Daily, shift};
use crate::units::num;
use std::sync::LazyLock;

/// Correlation of one night with the next.
pub const RHO: f64 = 0.66;
/// Share of the variance that lasts the whole half-year.
pub const SEASON_SHARE: f64 = 0.08;
/// Days from the middle of winter to the warmest day, both counted.
pub const HALF_YEAR: usize = 183;

const BINS: usize = 60;
/// Width of the bins between -4.5 and 4.5; the outermost reach to 9.
const BIN: f64 = 9.0 / 60.0;
/// A night this many deviations above the threshold never freezes, for 1e-12 of chance.
const NEVER: f64 = -7.0;
/// Below this the recursion is over: the last frost is later than here in every year.
const NOTHING: f64 = 1e-13;

/// What depends on the correlation alone.
struct Kernel {
    edges: [f64; BINS + 1],
    weights: [f64; BINS],
    /// Mean of Z within each bin.
    centres: [f64; BINS],
    /// Chance to be below edge `j` tomorrow from bin `i` today: `[j][i]`.
    below: [[f64; BINS]; BINS + 1],
    /// Chance to be in bin `j` tomorrow from bin `i` today: `[j][i]`.
    step: [[f64; BINS]; BINS],
}

static KERNEL: LazyLock<Kernel> = LazyLock::new(|| {
    let edges: [f64; BINS + 1] = std::array::from_fn(|j| match j {
        0 => -9.0,
        BINS => 9.0,
        _ => num::real(j) * BIN - 4.5,
    });
    let weights: [f64; BINS] = std::array::from_fn(|i| bell::share(edges[i + 1]) - bell::share(edges[i]));
    let centres: [f64; BINS] =
        std::array::from_fn(|i| (bell::density(edges[i]) - bell::density(edges[i + 1])) / weights[i]);
    let spread = (1.0 - RHO * RHO).sqrt();
    let below: [[f64; BINS]; BINS + 1] =
        std::array::from_fn(|j| std::array::from_fn(|i| bell::share((edges[j] - RHO * centres[i]) / spread)));
    let step: [[f64; BINS]; BINS] =
        std::array::from_fn(|j| std::array::from_fn(|i| below[j + 1][i] - below[j][i]));
    Kernel { edges, weights, centres, below, step }
});

impl Kernel {
    /// The bin that holds `c`.
    fn bin(&self, c: f64) -> usize {
        if c < self.edges[1] {
            return 0;
        }
        num::floor_u((c + 4.5) / BIN + 1e-12).min(BINS - 1)
    }

    /// Chances that no night after `j` is at or below its threshold `c`, for `j` from the last down to `from`;
    /// the days before `from` are left at zero.
    fn recursion(&self, c: &[f64; HALF_YEAR], from: usize) -> [f64; HALF_YEAR] {
        let spread = (1.0 - RHO * RHO).sqrt();
        let mut out = [0.0; HALF_YEAR];
        let mut ahead = [1.0; BINS];
        let mut untouched = true;
        out[HALF_YEAR - 1] = 1.0;
        for j in (from + 1..HALF_YEAR).rev() {
            let c = c[j].clamp(-8.999, 8.999);
            if untouched && c < NEVER {
                out[j - 1] = 1.0;
                continue;
            }
            untouched = false;
            let cut = self.bin(c);
            let upper = &self.below[cut + 1];
            // The bin cut by the threshold counts with the part above it.
            let mut now: [f64; BINS] = std::array::from_fn(|i| {
                (upper[i] - bell::quick_share((c - RHO * self.centres[i]) / spread)) * ahead[cut]
            });
            for (weight, steps) in ahead.iter().zip(&self.step).skip(cut + 1) {
                for (value, step) in now.iter_mut().zip(steps) {
                    *value += step * weight;
                }
            }
            ahead = now;
            let chance: f64 = self.weights.iter().zip(&ahead).map(|(w, u)| w * u).sum();
            out[j - 1] = chance;
            if chance < NOTHING {
                break;
            }
        }
        out
    }
}

/// Share of years in which no night after day `j` of a half-year is at or below `threshold`, for every `j`.
///
/// `mu` and `sigma` run from the middle of winter to the warmest day; the days before `from` are left at zero.
pub fn share_by(
    mu: &[f64; HALF_YEAR],
    sigma: &[f64; HALF_YEAR],
    threshold: f64,
    from: usize,
) -> [f64; HALF_YEAR] {
    let mut out = [0.0; HALF_YEAR];
    let (slow, quick) = (SEASON_SHARE.sqrt(), (1.0 - SEASON_SHARE).sqrt());
    for (x, weight) in bell::NODES {
        let c: [f64; HALF_YEAR] = std::array::from_fn(|j| {
            let spread = sigma[j].max(1e-6);
            ((threshold - mu[j]) / spread - x * slow) / quick
        });
        for (sum, value) in out.iter_mut().zip(KERNEL.recursion(&c, from)) {
            *sum += weight * value;
        }
    }
    // The tabled normal curve is a millionth off, which a very steep threshold could show as a step back.
    for j in (0..HALF_YEAR - 1).rev() {
        out[j] = out[j].clamp(0.0, out[j + 1]);
    }
    out
}

/// The half-year from midwinter to the warmest day `peak`: share of years whose last night at or below
/// `threshold` comes on day `peak - 182 + j` or before.
pub fn spring(mu: &Daily, sigma: &Daily, threshold: f64, peak: usize) -> [f64; HALF_YEAR] {
    let day = |j: usize| shift(peak, num::signed(j) - 182);
    share_by(&std::array::from_fn(|j| mu[day(j)]), &std::array::from_fn(|j| sigma[day(j)]), threshold, 0)
}

/// The half-year after the warmest day: share of years without a night at or below `threshold` on the days
/// `peak + 1 ..= peak + t - 1`, that is with the first frost on day `peak + t` or later.
pub fn autumn(mu: &Daily, sigma: &Daily, threshold: f64, peak: usize) -> [f64; HALF_YEAR] {
    let day = |j: usize| shift(peak, 182 - num::signed(j));
    let mut out =
        share_by(&std::array::from_fn(|j| mu[day(j)]), &std::array::from_fn(|j| sigma[day(j)]), threshold, 0);
    out.reverse();
    out
}

/// The day, counted with fractions along a falling curve of chances, on which the chance comes down to `p`;
/// none where it starts at or below `p`.
pub fn crossing(falling: &[f64; HALF_YEAR], p: f64) -> Option<f64> {
    if falling[0] <= p {
        return None;
    }
    let after = falling.iter().position(|chance| *chance <= p)?;
    let (high, low) = (falling[after - 1], falling[after]);
    Some(num::real(after - 1) + (high - p) / (high - low))
}
