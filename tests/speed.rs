//! Benchmarks; ratios within one run are what counts.
fn main() {
    divan::main();
}
