//! Benchmarks; ratios within one run are what counts.
#[path = "speed/book.rs"]
mod book;
#[path = "speed/growth.rs"]
mod growth;
#[path = "speed/paper.rs"]
mod paper;
#[path = "speed/screen.rs"]
mod screen;
#[path = "speed/site.rs"]
mod site;

fn main() {
    divan::main();
}
