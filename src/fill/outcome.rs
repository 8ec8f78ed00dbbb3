//! What a search hands back.

use super::problem::{Placed, Problem};
use super::prove::Prices;
use super::reason::Lack;
use super::state::State;
use crate::units::num::real_i;
use std::fmt::Write as _;

/// How much is put into a search, as numbers of moves, never as time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Effort {
    /// For a first look.
    Quick,
    /// What the program does unless told otherwise.
    #[default]
    Usual,
    /// When it may take a while.
    Deep,
}

/// What a search may spend, and whether it should end early.
pub trait Quota: Sync {
    /// The budget.
    fn effort(&self) -> Effort;
    /// Whether the grower wants it to end now.
    fn stop(&self) -> bool {
        false
    }
    /// Chains of a small garden run side by side on up to so many threads; the outcome does not depend on it.
    fn threads(&self) -> usize {
        1
    }
}

impl Quota for Effort {
    fn effort(&self) -> Effort {
        *self
    }
}

/// What a search is busy with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// A first plan.
    Start,
    /// Making it better.
    Improve,
    /// Filling idle cells.
    Idle,
    /// Proving how much better a plan could be.
    Bound,
}

/// A report on the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// What it is busy with.
    pub stage: Stage,
    /// Moves made.
    pub done: u64,
    /// Moves of the whole budget.
    pub all: u64,
    /// Best value so far, in value units.
    pub value: i64,
    /// No plan can be worth more than this, in value units; none before that is first proved.
    pub bound: Option<i64>,
}

/// What became of one wish.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Met {
    /// Harvest by bucket.
    pub harvest: Vec<i64>,
    /// Amount asked for over all buckets.
    pub wanted: i64,
    /// Of it met: the sum over buckets, none counted beyond what it asked for.
    pub met: i64,
}

/// A plan with what it achieves.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outcome {
    /// Plantings for wishes, in order.
    pub plan: Vec<Placed>,
    /// Catch crops and cover crops put into gaps, in order.
    pub fillers: Vec<Placed>,
    /// Value in value units.
    pub value: i64,
    /// No plan can be worth more than this, in value units; proved by the prices.
    pub bound: i64,
    /// Prices that prove the bound.
    pub prices: Prices,
    /// Weighted share of the wishes that is met, 0 to 1.
    pub share: f64,
    /// What became of each wish.
    pub wishes: Vec<Met>,
    /// Why stretches of wishes are not met, by wish and week.
    pub lacks: Vec<Lack>,
    /// Cell-weeks of the season that carry nothing.
    pub idle: u64,
    /// Cell-weeks of the season under a cover crop alone.
    pub covered: u64,
    /// All cell-weeks of the season.
    pub season: u64,
    /// Plantings of the plan in force that stay.
    pub kept: usize,
    /// Moves made.
    pub moves: u64,
    /// Whether it was ended early.
    pub stopped: bool,
    /// Seed.
    pub seed: u64,
}

impl Outcome {
    /// Reads the finished plan off a state: `plain` holds the plan before the gaps were filled.
    pub(crate) fn of(
        state: &State<'_>,
        plain: &[Placed],
        value: i64,
        moves: u64,
        stopped: bool,
        seed: u64,
    ) -> Self {
        let all = state.plan();
        let (idle, covered, season) = state.ground_use();
        let mut wishes = Vec::new();
        for range in state.model.wish_buckets.windows(2) {
            let harvest = state.harvest[range[0]..range[1]].to_vec();
            let buckets = &state.model.buckets[range[0]..range[1]];
            let wanted = buckets.iter().map(|b| b.want).sum();
            let met = buckets.iter().zip(&harvest).map(|(b, &h)| h.min(b.want)).sum();
            wishes.push(Met { harvest, wanted, met });
        }
        Self {
            plan: plain.to_vec(),
            fillers: all.into_iter().filter(|p| state.model.problem.ways[p.way].wish.is_none()).collect(),
            value,
            bound: i64::MAX,
            prices: Prices::default(),
            share: state.share(),
            wishes,
            lacks: Vec::new(),
            idle,
            covered,
            season,
            kept: state.kept(),
            moves,
            stopped,
            seed,
        }
    }

    /// Value in points.
    pub fn points(&self, problem: &Problem) -> f64 {
        real_i(self.value) / real_i(problem.point)
    }

    /// The plan as lines of numbers, `way start bed cell cell ...`, as the checker of compact files reads it. Settled
    /// plantings are listed where their start is one of their way's.
    pub fn lines(&self, problem: &Problem) -> String {
        let mut out = String::new();
        let settled = problem.fixed.iter().filter_map(|fixed| {
            let way = fixed.way?;
            let start = problem.ways[way].starts.iter().position(|s| s.taken == fixed.taken)?;
            Some((way, start, fixed.bed, fixed.cells))
        });
        let placed = self.plan.iter().map(|p| (p.way, p.start, p.bed, p.cells(problem)));
        for (way, start, bed, cells) in settled.chain(placed) {
            let cells: Vec<String> = cells.iter().map(|cell| cell.to_string()).collect();
            // Writing to a string cannot fail.
            let _ = writeln!(out, "{way} {start} {bed} {}", cells.join(" "));
        }
        out
    }
}
