//! The year in hand: jobs of a week, the diary, the forecast that follows it, needs, and the close of a season.
//!
//! Everything here is computed from the plan, the crop book and the site's year; what changes the plan is
//! handed back as an edit.

mod amounts;
mod desk;
mod frost;
mod ground;
mod harvest;
mod job;
mod jobs;
mod picking;
mod stages;
mod tending;
mod week;

pub use job::{Job, JobKind};
pub use jobs::{due, jobs, jobs_between};
pub use picking::picking;
pub use week::{CellLine, WeekReport, today, week};
