//! What an effort buys.

use super::model::Model;
use super::outcome::Effort;
use crate::units::num::word;

/// Numbers of moves and rounds, never seconds.
#[derive(Debug)]
pub(crate) struct Budget {
    /// Moves of all chains.
    pub(crate) moves: u64,
    /// Chains, at least one.
    pub(crate) chains: usize,
    /// Rounds of the relaxation before the first plan, and after the last.
    pub(crate) first_rounds: usize,
    pub(crate) last_rounds: usize,
}

impl Budget {
    /// As many moves as take about 0.2, 1 and 5 seconds for any size.
    ///
    /// One long chain can freeze a large crop in the wrong place for good, short ones leave large gardens unfinished:
    /// on the problems measured chains of some 5,000 moves a cell did best.
    pub(crate) fn new(model: &Model<'_>, effort: Effort) -> Self {
        let base = if model.cells <= 256 { 128_000 } else { 50_000 };
        let (times, first_rounds, last_rounds) = match effort {
            Effort::Quick => (1, 500, 500),
            Effort::Usual => (5, 1500, 5000),
            Effort::Deep => (25, 4000, 12_000),
        };
        let moves: u32 = base * times;
        let length = 5000 * word(model.cells).max(1);
        let least = if model.cells < 64 { 4 } else { 1 };
        let chains = crate::units::num::index((moves / length).clamp(least, 8));
        Self { moves: u64::from(moves), chains, first_rounds, last_rounds }
    }
}
