//! From a crop, a site year and a start to the dated stages of a planting, and back.

mod choice;
mod stage;

pub use choice::{Method, Risk};
pub use stage::{Dates, Stage};
