//! The search on nine problem files at each effort, three seeds each: time, moves a second, memory, and under each line
//! the value against the references of `fill.tsv` and against the search's own bound.

use catchcrop::fill::{Effort, Problem, read_problem, search};
use catchcrop::units::num::{real, real_i};
use divan::Bencher;
use divan::counter::ItemsCount;
use std::path::PathBuf;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

const NINE: [&str; 9] = ["S1", "S2", "S3", "M1", "M2", "M3", "L1", "L2", "L3"];

/// A problem file, where it lies beside the project.
fn problem(name: &str) -> Option<Problem> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../shared/fill/instances");
    let text = std::fs::read_to_string(folder.join(format!("{name}.json"))).ok()?;
    read_problem(&text, false).ok()
}

/// The solver's value and the relaxation's optimum of a problem, in points.
fn references(name: &str) -> Option<(f64, f64)> {
    let row = include_str!("fill.tsv").lines().find(|line| line.split('\t').next() == Some(name))?;
    let mut figures = row.split('\t').skip(1).map(str::parse::<f64>);
    Some((figures.next()?.ok()?, figures.next()?.ok()?))
}

fn run(bencher: Bencher<'_, '_>, name: &str, effort: Effort) {
    let Some(problem) = problem(name) else { return };
    let seed = AtomicU64::new(1);
    let found = Mutex::new(Vec::new());
    let once = || search(&problem, &effort, seed.fetch_add(1, Ordering::Relaxed), &mut |_| {});
    let moves = search(&problem, &effort, 1, &mut |_| {}).moves;
    bencher.counter(ItemsCount::new(moves)).bench(|| {
        let outcome = once();
        let points = |units: i64| real_i(units) / real_i(problem.point);
        if let Ok(mut found) = found.lock() {
            found.push((points(outcome.value), points(outcome.bound)));
        }
    });
    let (Ok(found), Some((solver, relaxation))) = (found.into_inner(), references(name)) else { return };
    tell(&found, solver, relaxation);
}

/// The values found, in shares of what they are measured by.
#[expect(clippy::print_stdout, reason = "a benchmark prints what it measured")]
fn tell(found: &[(f64, f64)], solver: f64, relaxation: f64) {
    let mean = |of: fn(&(f64, f64)) -> f64| found.iter().map(of).sum::<f64>() / real(found.len().max(1));
    let (value, bound) = (mean(|f| f.0), mean(|f| f.1));
    let worst = found.iter().map(|f| f.0).fold(f64::INFINITY, f64::min);
    let against = |value: f64| if solver > 0.0 { format!("{:.4}", value / solver) } else { "-".into() };
    println!(
        "      value {value:.1} = {} of the solver's (worst {}), {:.4} of the relaxation; bound {:.4} of it, gap {:.2} %",
        against(value),
        against(worst),
        value / relaxation,
        bound / relaxation,
        100.0 * (bound - value) / bound
    );
}

#[divan::bench(args = NINE, sample_count = 3, sample_size = 1)]
fn quick(bencher: Bencher<'_, '_>, name: &str) {
    run(bencher, name, Effort::Quick);
}
#[divan::bench(args = NINE, sample_count = 3, sample_size = 1)]
fn usual(bencher: Bencher<'_, '_>, name: &str) {
    run(bencher, name, Effort::Usual);
}
#[divan::bench(args = NINE, sample_count = 3, sample_size = 1)]
fn deep(bencher: Bencher<'_, '_>, name: &str) {
    run(bencher, name, Effort::Deep);
}
