//! Several runs of annealing from different starts, side by side where there are threads for them. Each run has its own
//! chance and its own plan, and the best plan wins, the first of equals: how many threads took part cannot be told.

use super::anneal::Run;
use super::effort::Budget;
use super::linear::Linear;
use super::model::Model;
use super::outcome::{Progress, Quota, Stage};
use super::random::{Cooling, Random};
use super::state::{Planting, State};
use crate::units::num::word;

/// What is the same for all chains.
#[derive(Clone, Copy)]
pub(crate) struct Chains<'c> {
    pub(crate) model: &'c Model<'c>,
    pub(crate) linear: &'c Linear,
    pub(crate) budget: &'c Budget,
    pub(crate) quota: &'c dyn Quota,
    pub(crate) seed: u64,
}

/// What came of some chains.
#[derive(Debug, Default)]
pub(crate) struct Found {
    pub(crate) best: Option<Best>,
    pub(crate) moves: u64,
    pub(crate) stopped: bool,
}

/// The best plan and the chain it came from.
#[derive(Debug)]
pub(crate) struct Best {
    pub(crate) value: i64,
    /// The number of the chain; none for the plan in force.
    chain: Option<usize>,
    pub(crate) plan: Vec<Planting>,
}

impl Found {
    /// Both together; between equals the plan in force wins, then the lower chain.
    fn join(mut self, other: Self) -> Self {
        self.moves += other.moves;
        self.stopped |= other.stopped;
        let rank = |best: &Best| (best.value, std::cmp::Reverse(best.chain));
        if let Some(best) = other.best
            && self.best.as_ref().is_none_or(|mine| rank(mine) < rank(&best))
        {
            self.best = Some(best);
        }
        self
    }
}

impl Chains<'_> {
    /// The plan in force as it stands, where there is one: planning again is never for the worse, and where nothing
    /// is better nothing moves.
    fn in_force(&self) -> Found {
        let mut state = State::new(self.model);
        let mut any = false;
        for placed in self.model.problem.in_force(true) {
            any |= state.place(placed);
        }
        let mut plan = Vec::new();
        state.snapshot(&mut plan);
        let best = any.then_some(Best { value: state.value, chain: None, plan });
        Found { best, ..Found::default() }
    }

    /// Runs all chains, on as many threads as the quota grants; the calling one takes part and reports.
    pub(crate) fn run(&self, report: &mut dyn FnMut(Progress)) -> Found {
        let threads = self.quota.threads().clamp(1, self.budget.chains);
        std::thread::scope(|scope| {
            let others: Vec<_> = (1..threads)
                .map(|first| scope.spawn(move || self.share(first, threads, &mut |_| {})))
                .collect();
            let mut found = self.share(0, threads, report);
            for other in others {
                match other.join() {
                    Ok(more) => found = found.join(more),
                    Err(panic) => std::panic::resume_unwind(panic),
                }
            }
            found.join(self.in_force())
        })
    }

    /// Every `step`-th chain from `first` on, one after the other.
    fn share(&self, first: usize, step: usize, report: &mut dyn FnMut(Progress)) -> Found {
        let mut found = Found::default();
        for chain in (first..self.budget.chains).step_by(step) {
            if found.stopped {
                break;
            }
            let (before, top) = (found.moves, found.best.as_ref().map_or(i64::MIN, |best| best.value));
            let more = self.chain(chain, &mut |done, value| {
                // The other threads are about as far.
                let done = (before + done) * u64::from(word(step.min(self.budget.chains)));
                let (done, value) = (done.min(self.budget.moves), value.max(top));
                report(Progress { stage: Stage::Improve, done, all: self.budget.moves, value, bound: None });
            });
            found = found.join(more);
        }
        found
    }

    /// One chain; `told` hears of its moves and its best value.
    fn chain(&self, chain: usize, told: &mut dyn FnMut(u64, i64)) -> Found {
        let problem = self.model.problem;
        // A state of its own: what an earlier chain left behind would show in the order of its lists.
        let mut state = State::new(self.model);
        state.learn(self.linear);
        let mut random = Random::new(self.seed, chain);
        let mut again = false;
        for placed in problem.in_force(true) {
            state.place(placed);
            again = true;
        }
        // Every other chain of several starts without the relaxation and hot: it errs differently.
        let hot = chain % 2 == 1;
        if !hot && !again {
            state.round(self.linear, chain == 0, &mut random);
        }
        state.greedy(&mut random);
        let mean = state.mean();
        let run = Run {
            cooling: &Cooling::new(),
            moves: self.budget.moves / u64::from(word(self.budget.chains)),
            hot: if hot { mean / 4 } else { mean / 25 },
            cold: mean / 100,
        };
        let mut stopped = false;
        let moves = state.anneal(&run, &mut random, &mut |done, value| {
            told(done, value);
            stopped |= self.quota.stop();
            !stopped
        });
        let mut plan = Vec::new();
        state.snapshot(&mut plan);
        Found { best: Some(Best { value: state.value, chain: Some(chain), plan }), moves, stopped }
    }
}
