//! The year in hand: jobs of a week, the diary, the forecast that follows it, needs, and the close of a season.
//!
//! Everything here is computed from the plan, the crop book and the site's year; what changes the plan is
//! handed back as an edit.

mod alike;
mod amounts;
mod beside;
mod close;
mod desk;
mod entry;
mod fitting;
mod forecast;
mod frost;
mod ground;
mod harvest;
mod job;
mod jobs;
mod kitchen;
mod mix;
mod needs;
mod seasons;
mod seed;
mod sky;
mod stages;
mod tending;
mod told;
mod weather;
mod week;

pub use beside::{Beside, beside};
pub use close::{Closing, Kept, close, closing, reopen, yields_text};
pub use desk::POTS;
pub use entry::{NoteError, entry, note};
pub use fitting::{Fitting, fitting};
pub use forecast::{Forecast, forecast};
pub use job::{Job, JobKind};
pub use jobs::{due, jobs, jobs_between};
pub use kitchen::{KitchenCrop, KitchenWeek, Store, kitchen, kitchen_words};
pub use mix::{BAG, CUBIC_FOOT, CUBIC_YARD, Mix, SETTLING};
pub use needs::{
    CompostNeed, MixNeed, Needs, PlantNeed, SeedNeed, SeedlingWeek, SupportWanted, WaterNeed, WaterWeek,
    needs,
};
pub use seasons::{CropSeason, CropSeasons, own_yields, seasons, seasons_words};
pub use seed::{BUY_NEW, SOW_THICKER, in_packet, packet_sprouts, sprouts};
pub use sky::Sky;
pub use told::{TellError, Told, tell};
pub use weather::weathered;
pub use week::{CellLine, WeekReport, today, week};
