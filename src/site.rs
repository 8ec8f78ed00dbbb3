//! The place: sun, temperatures, frost, soil, water, shade.
//!
//! A [`SiteSpec`] is what the grower tells and a plan file keeps; [`SiteYear::new`] makes of it one precomputed
//! year of 365 days that every room below reads. Temperatures are degrees Celsius, water millimetres, lengths of
//! time hours or days, latitudes degrees north.
//!
//! Accuracy and the published source of each method stand beside it; what was measured for this program was
//! measured on 30 daily series between 25 and 63 N and 31 and 34 S.

pub mod bell;
pub mod chance;
mod climate;
pub mod day;
pub mod degree;
pub mod frost;
pub mod normals;
pub mod presets;
pub mod radiation;
pub mod shade;
pub mod soil;
mod spec;
pub mod station;
pub mod sun;
mod trust;
mod weather;
pub mod words;
mod year;
pub mod zone;

pub use climate::{LAPSE, Warning};
pub use day::{Daily, Monthly};
pub use frost::FrostCurves;
pub use shade::{LightClass, Obstacle, ObstacleKind};
pub use spec::{Normals, SiteError, SiteSpec};
pub use station::StationSummary;
pub use trust::{Input, Trust};
pub use weather::{NoWeather, RealDay, Weather};
pub use year::{Hemisphere, SHORT_DAY, SHORTEST_SEASON, SiteYear, Span};
