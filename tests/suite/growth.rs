//! Growth: schedules, windows and their published checks.
#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::format_push_string,
    clippy::similar_names,
    reason = "small whole numbers, and first and last of things"
)]

mod behaviour;
mod golden;
mod laws;
pub(crate) mod own;
mod published;
mod weather;
mod zones;

use catchcrop::calendar::{Date, plus};
use catchcrop::crop::{Crop, CropId};
use catchcrop::site::SiteYear;

fn crop(id: &str) -> Crop {
    catchcrop::store::book().get(&CropId::new(id)).unwrap_or_else(|| panic!("no crop {id}")).clone()
}

fn site_of(preset: &str) -> SiteYear {
    SiteYear::preset(preset).unwrap()
}

/// Day `index` (0 = 1 January) of a year, which may run beyond its end.
fn date(year: i32, index: i64) -> Date {
    plus(Date::from_ymd_opt(year, 1, 1).unwrap(), index)
}
