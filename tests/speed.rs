//! Benchmarks; ratios within one run are what counts.
#[path = "speed/book.rs"]
mod book;
#[path = "speed/fill.rs"]
mod fill;
#[path = "speed/growth.rs"]
mod growth;
#[path = "speed/paper.rs"]
mod paper;
#[path = "speed/screen.rs"]
mod screen;
#[path = "speed/site.rs"]
mod site;
#[path = "speed/years.rs"]
mod years;
#[path = "speed/years_bench.rs"]
mod years_bench;

/// Counts what is alive, so that each benchmark tells its peak memory too.
#[global_allocator]
static COUNTED: divan::AllocProfiler = divan::AllocProfiler::system();

fn main() {
    divan::main();
}
