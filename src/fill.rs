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
mod build;
mod cells;
mod file;
mod greedy;
mod idle;
mod model;
mod outcome;
mod past;
mod problem;
mod proposal;
mod random;
mod seat;
mod state;
mod suit;
mod ways;

pub use build::{Built, Dropped, Request, build};
pub use cells::Cells;
pub use file::{FileError, read as read_problem};
pub use outcome::{Effort, Met, Outcome, Progress, Quota, Stage};
pub use problem::{
    Bar, Barred, Bed, Bucket, Fixed, Group, LONGEST, Layer, Near, Place, Placed, Problem, ProblemError,
    Reach, Role, Shape, Side, Start, Supply, Use, Way, Weeks, Wish, weeks,
};

pub use proposal::{Proposal, WishMet};

use anneal::Run;
use model::Model;
use random::{Cooling, Random};
use state::{Planting, State};

/// Gardens with fewer cells are searched by several short chains: one long chain can freeze a large crop in the wrong
/// place for good.
const SMALL: usize = 64;

/// Searches for a plan. `report` is called now and then; `quota` may end the search early, which still gives a
/// valid plan.
pub fn search(problem: &Problem, quota: &dyn Quota, seed: u64, report: &mut dyn FnMut(Progress)) -> Outcome {
    let model = Model::new(problem);
    let cooling = Cooling::new();
    let all = budget(&model, quota.effort());
    let chains: u64 = if model.cells < SMALL { 4 } else { 1 };
    let mut state = State::new(&model);
    let settled = Vec::new();
    let mut best: Option<(i64, Vec<Planting>)> = None;
    let (mut moves, mut stopped) = (0, false);
    report(Progress { stage: Stage::Start, done: 0, all, value: state.value });
    for chain in 0..chains {
        let mut random = Random::new(seed, chain);
        state.restore(&settled);
        for placed in &problem.keep {
            state.place(placed);
        }
        state.greedy(&mut random);
        let mean = state.mean();
        let run = Run { cooling: &cooling, moves: all / chains, hot: mean / 4, cold: mean / 100 };
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
    let value = state.value;
    let plain = state.plan();
    report(Progress { stage: Stage::Idle, done: moves, all, value });
    state.fill_idle();
    Outcome::of(&state, &plain, value, moves, stopped, seed)
}

/// Moves of a search: as many as take about 0.2, 1 and 5 seconds for any size.
fn budget(model: &Model<'_>, effort: Effort) -> u64 {
    let base = if model.cells <= 256 { 128_000 } else { 50_000 };
    match effort {
        Effort::Quick => base,
        Effort::Usual => base * 5,
        Effort::Deep => base * 25,
    }
}
