//! From a crop, a site year and a start to the dated stages of a planting, and back.
//!
//! [`schedule`] draws up one planting or says why it fails; [`windows`] lists the stretches of the year in which
//! starts succeed; [`ready`] and [`succession`] work backwards from the harvest. Days to maturity are stretched by
//! warmth ([`Method::Heat`]) or counted as they stand ([`Method::Catalogue`]).

mod alive;
mod choice;
mod conditions;
mod limits;
mod need;
mod own;
mod pace;
mod picking;
mod refusal;
mod schedule;
mod season;
mod sprout;
mod stage;
mod stand;
mod tick;
mod water;
mod window;
mod winter;
mod youth;

pub use choice::{Method, Risk};
pub use conditions::{Conditions, ROOM};
pub use need::{age, days_needed};
pub use own::{OwnDays, days_shown, own_days};
pub use refusal::{Hindrance, Refusal, years};
pub use schedule::{
    AUTUMN_DAYS, Ending, Note, Outlook, PACKET_SPREAD, Schedule, TENDER_DAYS, WEATHER_SPREAD, outlook,
    schedule, set_out_on,
};
pub use sprout::Sprouting;
pub use stage::{Dates, Stage};
pub use water::{coefficient, use_on, water_need};
pub use window::{Window, ready, succession, windows, windows_of};
