//! Chance from whole numbers alone, so that a seed gives the same plan on every machine.

use crate::units::num::{index, word};

/// A small generator (xorshift with a multiplied output), seeded by any number.
#[derive(Debug, Clone)]
pub(crate) struct Random(u64);

impl Random {
    /// A stream for one seed and one chain.
    pub(crate) fn new(seed: u64, chain: usize) -> Self {
        let chain = u64::from(word(chain));
        // Scrambling (splitmix64) keeps neighbouring seeds from giving like streams; 0 would stand still.
        let mut z = seed.wrapping_add((chain + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15));
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        Self((z ^ (z >> 31)) | 1)
    }
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }
    /// A number in `0..n`; 0 for `n` = 0.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        let high = self.next() >> 32;
        let scaled = (high * u64::from(word(n))) >> 32;
        index(u32::try_from(scaled).unwrap_or(0))
    }
    /// A whole number in `0..n`; 0 for `n` below 1.
    pub(crate) fn amount(&mut self, n: i64) -> i64 {
        match u64::try_from(n) {
            Ok(n @ 1..) => i64::try_from((u128::from(self.next()) * u128::from(n)) >> 64).unwrap_or(0),
            Ok(0) | Err(_) => 0,
        }
    }
    /// One of `0..4096`.
    fn slot(&mut self) -> usize {
        index(u32::try_from(self.next() >> 52).unwrap_or(0))
    }
}

/// Number of entries of the table of [`Cooling`].
const SLOTS: u64 = 4096;

/// Decides which losses a search accepts at a temperature, from a fixed-point table of `-ln u`.
#[derive(Debug)]
pub(crate) struct Cooling {
    table: Vec<i64>,
}

impl Cooling {
    pub(crate) fn new() -> Self {
        Self { table: (0..SLOTS).map(|k| minus_ln(2 * k + 1, 2 * SLOTS)).collect() }
    }
    /// Whether a change of `delta` in value is accepted at `heat` (both in value units).
    pub(crate) fn accepts(&self, delta: i64, heat: i64, random: &mut Random) -> bool {
        delta >= 0 || -delta <= (heat * self.table[random.slot()]) >> 16
    }
    /// A temperature between `hot` and `cold` on a falling exponential, after `done` of `all` moves.
    pub(crate) fn heat(hot: i64, cold: i64, done: u64, all: u64) -> i64 {
        let (hot, cold) = (hot.max(1), cold.max(1));
        if cold >= hot || all == 0 {
            return hot;
        }
        // ln(hot / cold) x done / all, in 16.16; then e^-x from its series on a small part, squared up.
        let span = minus_ln(cold.unsigned_abs(), hot.unsigned_abs());
        let part = i128::from(span) * i128::from(done.min(all)) / i128::from(all);
        let small = part >> 6; // e^-(x / 64)
        let one = 1_i128 << 16;
        let mut power = one * one - small * one + small * small / 2 - small * small * small / (6 * one);
        for _ in 0..6 {
            power = (power * power) >> 32;
        }
        i64::try_from((i128::from(hot) * power) >> 32).unwrap_or(hot).max(1)
    }
}

/// `-ln(a / b)` for `0 < a <= b`, in 16.16 fixed point, by repeated squaring of the mantissa.
fn minus_ln(a: u64, b: u64) -> i64 {
    let (mut a, b) = (u128::from(a.max(1)), u128::from(b.max(1)));
    let mut log2: i64 = 0; // -log2, 16.16
    while a * 2 <= b {
        a *= 2;
        log2 += 1 << 16;
    }
    let mut x = (a << 32) / b; // in (1/2, 1]
    for bit in (0..16).rev() {
        x = (x * x) >> 32;
        if x <= 1 << 31 {
            x <<= 1;
            log2 += 1 << bit;
        }
    }
    (log2 * 45_426) >> 16 // ln 2 in 16.16
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn logarithm_is_close() {
        for (a, b) in [(1, 8192), (1, 2), (3, 4), (4095, 4096), (1, 1)] {
            let exact = -(f64::from(u32::try_from(a).unwrap()) / f64::from(u32::try_from(b).unwrap())).ln();
            let got = crate::units::num::real_i(minus_ln(a, b)) / 65536.0;
            assert!((exact - got).abs() < 1e-3, "{a}/{b}: {got} is not {exact}");
        }
    }

    #[test]
    fn heat_falls_from_hot_to_cold() {
        let at = |done| Cooling::heat(40_000, 1_000, done, 1000);
        assert!((39_900..=40_000).contains(&at(0)), "{}", at(0));
        assert!((950..=1_050).contains(&at(1000)), "{}", at(1000));
        let middle = at(500); // the geometric mean, 6,324
        assert!((6_100..=6_500).contains(&middle), "{middle}");
        assert!((0..1000).all(|k| at(k) >= at(k + 1)));
    }

    #[test]
    fn amounts_stay_below() {
        let mut random = Random::new(1, 0);
        assert!((0..1000).all(|_| random.below(7) < 7 && (0..9).contains(&random.amount(9))));
        assert_eq!((random.below(0), random.amount(0), random.amount(-5)), (0, 0, 0));
    }
}
