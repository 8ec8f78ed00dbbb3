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
mod beside;
mod build;
mod cells;
mod chains;
mod classes;
mod effort;
mod file;
mod greedy;
mod handover;
mod harvest;
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
pub use handover::{Fit, Freed, Handover, Unfit, handover};
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

use chains::Chains;
use effort::Budget;
use linear::Linear;
use model::Model;
use prove::prove;
use random::Random;
use state::State;

/// Searches for a plan. `report` is called now and then; `quota` may end the search early, which still gives a
/// valid plan.
pub fn search(problem: &Problem, quota: &dyn Quota, seed: u64, report: &mut dyn FnMut(Progress)) -> Outcome {
    let model = Model::new(problem);
    let budget = Budget::new(&model, quota.effort());
    let all = budget.moves;
    let mut stopped = false;
    let first = State::new(&model).value;
    report(Progress { stage: Stage::Start, done: 0, all, value: first, bound: None });
    let mut linear = Linear::new(&model);
    linear.solve(budget.first_rounds, &mut || {
        stopped |= quota.stop();
        !stopped
    });
    // The prices found so far prove a bound already: how far it is to it can be seen while the search goes on.
    let bound = Some(prove(&model, &linear.prices()));
    let mut report = |progress: Progress| report(Progress { bound, ..progress });
    report(Progress { stage: Stage::Start, done: 0, all, value: first, bound });
    let found = Chains { model: &model, linear: &linear, budget: &budget, quota, seed }.run(&mut report);
    let moves = found.moves;
    stopped |= found.stopped;
    let mut state = State::new(&model);
    state.restore(found.best.as_ref().map_or(&[], |best| &best.plan));
    state.prune();
    // Annealing may leave a gap open that a planting would fit as it stands.
    let mut random = Random::new(seed, budget.chains);
    state.top_up(&mut random);
    // A plan in force stays as it lies.
    let afresh = problem.keep.is_empty();
    if afresh {
        state.tidy();
        state.top_up(&mut random);
    }
    report(Progress { stage: Stage::Idle, done: moves, all, value: state.value, bound });
    state.fill_idle();
    if afresh {
        state.tidy_all();
    }
    let mut full = Vec::new();
    state.snapshot(&mut full);
    let mut value = state.wished(&full);
    // So may the moving together of cells.
    state.top_up(&mut random);
    if state.value > value {
        value = state.value;
        state.fill_idle();
        state.snapshot(&mut full);
        state.wished(&full);
    }
    let plain = state.plan();
    let lacks = reason::lacks(&mut state);
    state.restore(&full);
    let mut outcome = Outcome::of(&state, &plain, value, moves, stopped, seed);
    outcome.lacks = lacks;
    report(Progress { stage: Stage::Bound, done: moves, all, value, bound });
    linear.solve(budget.last_rounds, &mut || {
        stopped |= quota.stop();
        !stopped
    });
    outcome.prices = linear.prices();
    outcome.bound = prove(&model, &outcome.prices);
    outcome
}
