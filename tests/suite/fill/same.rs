//! The same problem, effort and seed give the same answer, to the byte: on one thread and on several, in a build for
//! tests and in one for use.

use super::random;
use catchcrop::fill::{Effort, Outcome, Problem, Quota, search};

/// A quick search on so many threads.
struct On(usize);

impl Quota for On {
    fn effort(&self) -> Effort {
        Effort::Quick
    }
    fn threads(&self) -> usize {
        self.0
    }
}

fn run(problem: &Problem, seed: u64, threads: usize) -> Outcome {
    search(problem, &On(threads), seed, &mut |_| {})
}

/// All that an outcome says, as one number (FNV-1a).
fn digest(outcome: &Outcome) -> u64 {
    let words = format!("{outcome:?}");
    words.bytes().fold(0xcbf2_9ce4_8422_2325, |sum, b| (sum ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3))
}

/// A problem of fewer than 64 cells, so that several chains run.
fn small(seed: u64) -> Problem {
    let mut seeds = seed..;
    seeds.find_map(|s| Some(random::problem(s)).filter(|p| (10..32).contains(&p.cells()))).unwrap()
}

#[test]
fn one_thread_and_several_give_the_same_bytes() {
    for seed in [40, 90] {
        let problem = small(seed);
        let one = run(&problem, seed, 1);
        assert!(one.moves > 100_000 && !one.plan.is_empty(), "too little was done to tell: {one:?}");
        for threads in [2, 3, 9] {
            let other = run(&problem, seed, threads);
            assert_eq!(format!("{one:?}"), format!("{other:?}"), "problem {seed} on {threads} threads");
        }
    }
}

/// The figure holds in every profile and on every machine; it changes when the search does.
#[test]
fn every_build_gives_the_same_bytes() {
    let outcome = run(&small(40), 7, 2);
    assert_eq!(digest(&outcome), 4_064_453_772_230_405_478, "{outcome:?}");
}
