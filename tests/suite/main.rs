//! The one test binary: behaviour against the outside world first, then properties, then screens.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failing test says why by stopping"
)]
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "tests print the figures they measured")]
#![allow(
    clippy::as_conversions,
    clippy::string_slice,
    clippy::float_cmp,
    clippy::similar_names,
    reason = "test arithmetic on known values"
)]

mod book;
mod checks;
mod cli;
mod fill;
mod garden;
mod growth;
mod keys;
mod layers;
mod paper;
mod pictures;
mod plans;
mod properties;
mod readme;
mod screens;
mod site;
mod store;
mod stories;
mod support;
mod terminal;
mod units;
mod work;
