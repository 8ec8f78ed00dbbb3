//! Room `fill`: the optimiser. It turns wishes, beds and rules into plantings, fills idle cells, says how far the
//! plan is from the best possible and why a wish was not met. It does not judge plans: that is `check`, which shares
//! no code with it.
//!
//! * [`Problem`] is the question in whole numbers; [`file`](read_problem) reads one.
//! * [`search`] answers it: same problem, effort and seed, same answer, on any machine.
//!
//! How it works: a good first plan, then annealing with ejection (a planting is set where it costs least, what stood
//! there moves), then catch crops and cover crops for the gaps. Budgets are numbers of moves, never seconds.

mod anneal;
mod asked;
mod build;
mod cells;
mod classes;
mod file;
mod greedy;
mod idle;
mod linear;
mod model;
mod outcome;
mod past;
mod problem;
mod proposal;
mod prove;
mod prune;
mod random;
mod reason;
mod request;
mod round;
mod scales;
mod seat;
mod state;
mod suit;
mod tell;
mod tidy;
mod ways;

pub use build::{Built, build};
pub use cells::Cells;
pub use file::{FileError, read as read_problem, write as write_problem};
pub use outcome::{Effort, Met, Outcome, Progress, Quota, Stage};
pub use problem::{
    Bar, Barred, Bed, Bucket, Fixed, Group, LONGEST, Layer, Near, Place, Placed, Problem, ProblemError,
    Reach, Role, Shape, Side, Start, Supply, Use, Way, Weeks, Wish, weeks,
};
pub use proposal::{Proposal, WishMet};
pub use prove::Prices;
pub use reason::{Help, Lack, Reason, Scarce, Space, helps};
pub use request::{Dropped, Request};
pub use tell::{help_words, reasons};

use crate::units::num::word;
use anneal::Run;
use linear::Linear;
use model::Model;
use prove::prove;
use random::{Cooling, Random};
use state::{Planting, State};

/// Searches for a plan. `report` is called now and then; `quota` may end the search early, which still gives a
/// valid plan.
pub fn search(problem: &Problem, quota: &dyn Quota, seed: u64, report: &mut dyn FnMut(Progress)) -> Outcome {
    let model = Model::new(problem);
    let cooling = Cooling::new();
    let budget = Budget::new(&model, quota.effort());
    let chains = budget.chains;
    let mut state = State::new(&model);
    let mut best: Option<(i64, Vec<Planting>)> = None;
    let (mut moves, mut stopped) = (0, false);
    let all = budget.moves;
    report(Progress { stage: Stage::Start, done: 0, all, value: state.value });
    let mut linear = Linear::new(&model);
    linear.solve(budget.first_rounds, &mut || {
        stopped |= quota.stop();
        !stopped
    });
    state.learn(&linear);
    for chain in 0..chains {
        let mut random = Random::new(seed, chain);
        state.restore(&[]);
        for placed in &problem.keep {
            state.place(placed);
        }
        // Every other chain of several starts without the relaxation and hot: it errs differently.
        let hot = chain % 2 == 1;
        if !hot && problem.keep.is_empty() {
            state.round(&linear, chain == 0, &mut random);
        }
        state.greedy(&mut random);
        let mean = state.mean();
        let run = Run {
            cooling: &cooling,
            moves: all / chains,
            hot: if hot { mean / 4 } else { mean / 25 },
            cold: mean / 100,
        };
        let before = moves;
        let top = best.as_ref().map_or(i64::MIN, |(value, _)| *value);
        moves += state.anneal(&run, &mut random, &mut |done, value| {
            report(Progress { stage: Stage::Improve, done: before + done, all, value: value.max(top) });
            stopped |= quota.stop();
            !stopped
        });
        if state.value > top {
            let mut plan = Vec::new();
            state.snapshot(&mut plan);
            best = Some((state.value, plan));
        }
        if stopped {
            break;
        }
    }
    if let Some((_, plan)) = &best {
        state.restore(plan);
    }
    state.prune();
    // Annealing may leave a gap open that a planting would fit as it stands.
    state.top_up(&mut Random::new(seed, chains));
    state.tidy();
    report(Progress { stage: Stage::Idle, done: moves, all, value: state.value });
    state.fill_idle();
    state.tidy_all();
    let mut full = Vec::new();
    state.snapshot(&mut full);
    let value = state.wished(&full);
    let plain = state.plan();
    let lacks = reason::lacks(&mut state);
    state.restore(&full);
    let mut outcome = Outcome::of(&state, &plain, value, moves, stopped, seed);
    outcome.lacks = lacks;
    report(Progress { stage: Stage::Bound, done: moves, all, value });
    linear.solve(budget.last_rounds, &mut || {
        stopped |= quota.stop();
        !stopped
    });
    outcome.prices = linear.prices();
    outcome.bound = prove(&model, &outcome.prices);
    outcome
}

/// What an effort buys.
#[derive(Debug)]
struct Budget {
    /// Moves of all chains.
    moves: u64,
    chains: u64,
    /// Rounds of the relaxation before the first plan, and after the last.
    first_rounds: usize,
    last_rounds: usize,
}

impl Budget {
    /// As many moves as take about 0.2, 1 and 5 seconds for any size.
    ///
    /// One long chain can freeze a large crop in the wrong place for good, short ones leave large gardens unfinished:
    /// chains of some 1,400 moves a cell did best on the problems measured.
    fn new(model: &Model<'_>, effort: Effort) -> Self {
        let base = if model.cells <= 256 { 128_000 } else { 50_000 };
        let (times, first_rounds, last_rounds) = match effort {
            Effort::Quick => (1, 500, 500),
            Effort::Usual => (5, 1500, 3000),
            Effort::Deep => (25, 4000, 8000),
        };
        let moves = base * times;
        let length = 1400 * u64::from(word(model.cells)).max(1);
        let least = if model.cells < 64 { 4 } else { 1 };
        Self { moves, chains: (moves / length).clamp(least, 8), first_rounds, last_rounds }
    }
}
