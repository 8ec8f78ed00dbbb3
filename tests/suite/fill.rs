//! The optimiser on problems in whole numbers: its plans are judged by [`checker`], which shares no code with it.

mod checker;
mod courtyard;
mod freed;
mod random;
mod reasons;
mod replan;
mod same;
mod told;

use catchcrop::fill::{Effort, Outcome, Problem, Progress, Quota, read_problem, search, write_problem};
use catchcrop::units::num::real_i;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU64, Ordering};

/// The problem files for comparing solvers, where they lie beside the project.
fn instance(name: &str) -> Option<String> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("../shared/fill/instances")
        .join(format!("{name}.json"));
    let text = std::fs::read_to_string(&path).ok();
    if text.is_none() {
        println!("skipped: {} is not here", path.display());
    }
    text
}

/// Ends a search after so many questions.
struct Asked {
    left: AtomicU64,
}

impl Asked {
    fn times(n: u64) -> Self {
        Self { left: AtomicU64::new(n) }
    }
}

impl Quota for Asked {
    fn effort(&self) -> Effort {
        Effort::Quick
    }
    fn stop(&self) -> bool {
        self.left.fetch_update(Ordering::Relaxed, Ordering::Relaxed, |n| n.checked_sub(1)).is_err()
    }
}

fn solve(problem: &Problem, seed: u64) -> Outcome {
    search(problem, &Asked::times(8), seed, &mut |_| {})
}

#[test]
fn plans_of_the_problem_files_are_valid() {
    for name in ["S1", "S2", "S3", "M1", "M2", "M3", "L1"] {
        let Some(text) = instance(name) else { return };
        let problem = read_problem(&text, false).unwrap();
        let outcome = solve(&problem, 1);
        checker::judge(&problem, &outcome).unwrap_or_else(|e| panic!("{name}: {e}"));
        checker::judge_compact(&text, &outcome.lines(&problem), outcome.value)
            .unwrap_or_else(|e| panic!("{name}: {e}"));
    }
}

#[test]
fn neighbours_and_shade_are_counted_right() {
    let Some(text) = instance("S1") else { return };
    let problem = read_problem(&text, true).unwrap();
    let outcome = solve(&problem, 3);
    checker::judge(&problem, &outcome).unwrap();
}

#[test]
fn plans_of_random_problems_are_valid() {
    let mut placed = 0;
    let mut fillers = 0;
    for seed in 0..200 {
        let problem = random::problem(seed);
        problem.validate().unwrap_or_else(|e| panic!("random problem {seed}: {e}"));
        let outcome = solve(&problem, seed);
        checker::judge(&problem, &outcome).unwrap_or_else(|e| panic!("random problem {seed}: {e}"));
        placed += outcome.plan.len();
        fillers += outcome.fillers.len();
    }
    assert!(placed > 800 && fillers > 200, "only {placed} plantings and {fillers} fillers were tried");
}

#[test]
fn no_plan_is_worth_more_than_its_bound() {
    let mut tight = 0;
    for seed in 1000..2500 {
        let problem = random::problem(seed);
        let outcome = search(&problem, &Asked::times(seed % 8), seed, &mut |_| {});
        assert!(
            outcome.value <= outcome.bound,
            "random problem {seed}: {} above {}",
            outcome.value,
            outcome.bound
        );
        tight += usize::from(outcome.bound - outcome.value < outcome.value.abs() / 20);
    }
    println!("{tight} of 1500 plans are within 5 % of their bound");
}

#[test]
fn the_bound_is_close_where_the_relaxation_is_known() {
    // Optimum of the linear relaxation over classes of beds by a simplex solver, in points.
    for (name, optimum) in [("S1", 2599.28), ("S3", 2718.83), ("M1", 7261.84)] {
        let Some(text) = instance(name) else { return };
        let problem = read_problem(&text, false).unwrap();
        let outcome = search(&problem, &Asked::times(200), 1, &mut |_| {});
        let bound = outcome.points(&problem) * real_i(outcome.bound) / real_i(outcome.value);
        println!("{name}: proved {bound:.1}, relaxation {optimum}, ratio {:.4}", bound / optimum);
        assert!(bound <= optimum * 1.004, "{name}: {bound} is far above {optimum}");
    }
}

#[test]
fn same_seed_same_plan_and_another_seed_another() {
    let Some(text) = instance("M1") else { return };
    let problem = read_problem(&text, false).unwrap();
    let run = |seed| search(&problem, &Asked::times(40), seed, &mut |_| {});
    assert_eq!(run(5), run(5));
    assert_ne!(run(5).plan, run(6).plan);
}

#[test]
fn stopping_at_once_still_gives_a_valid_plan() {
    let problem = random::problem(7);
    let mut reports: Vec<Progress> = Vec::new();
    let outcome = search(&problem, &Asked::times(0), 1, &mut |p| reports.push(p));
    assert!(outcome.stopped && outcome.moves == 0);
    assert!(!reports.is_empty() && reports.windows(2).all(|r| r[0].value <= r[1].value));
    checker::judge(&problem, &outcome).unwrap();
}

#[test]
fn improvement_beats_the_first_plan() {
    let Some(text) = instance("M2") else { return };
    let problem = read_problem(&text, false).unwrap();
    let first = search(&problem, &Asked::times(0), 1, &mut |_| {}).value;
    let better = search(&problem, &Asked::times(100), 1, &mut |_| {}).value;
    assert!(better > first + first / 100, "{first} became only {better}");
}

#[test]
fn a_written_problem_reads_back_the_same() {
    for seed in 0..40 {
        let mut problem = random::problem(seed);
        problem.keep = solve(&problem, seed).plan;
        problem.keep_bonus = 5;
        let text = write_problem(&problem).unwrap();
        assert_eq!(read_problem(&text, false).unwrap(), problem, "random problem {seed}");
    }
    let error = read_problem("{\"kind\": \"half\"}", false).unwrap_err().to_string();
    assert!(error.contains("'half'") && error.contains("'full'"), "{error}");
}

#[test]
fn broken_files_and_problems_say_what_is_wrong() {
    let error = read_problem("{\"weeks\": 52}", false).unwrap_err().to_string();
    assert!(error.contains("missing field `season`") && error.contains("line 1"), "{error}");
    let mut problem = random::problem(1);
    problem.weeks = 200;
    assert_eq!(
        problem.validate().unwrap_err().to_string(),
        "the horizon has 200 weeks; between 1 and 127 can be planned"
    );
    let mut problem = random::problem(1);
    problem.ways[0].places[0].bed = 99;
    let error = problem.validate().unwrap_err().to_string();
    assert!(error.contains("way 0") && error.contains("bed 99"), "{error}");
}
