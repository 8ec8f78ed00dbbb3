//! What each command says, as pure functions: text for people, JSON for programs.
//!
//! JSON field names are a contract: fields are added, never renamed, and never change their meaning. Dates are
//! ISO 8601; a date of the climate year has no year and reads "05-12". Temperatures are degrees Celsius, rain and
//! evapotranspiration millimetres (rain a month, evapotranspiration a day), whatever the units of the text.

mod book;
mod check;
mod closing;
mod diary;
mod fill;
mod next;
mod record;
mod schedule;
mod site;
mod sun;
mod suppose;
mod week;

pub use book::{
    Asked, book_json, check_book_json, check_book_text, chosen_text, crop_json, fitting_json, fitting_text,
};
pub use check::{check_json, check_text, explain_text};
pub use closing::closing_json;
pub use diary::entry_text;
pub use fill::{Filled, fill_json, fill_text, outcome_json, outcome_text};
pub use next::{next_json, next_text};
pub use record::{Outlook, record_json, record_text};
pub use schedule::{
    beside_text, full_day, own_text, replay_json, replay_text, schedule_json, schedule_text, stage_after,
    stage_on, start_id, start_words, succession_json, succession_text, window_json, window_text,
};
pub use site::{climates_json, climates_text, site_json, site_text};
pub use sun::{sun_json, sun_text};
pub use suppose::{Supposed, question_json, question_text, supposed_json, supposed_text};
pub use week::weeks_json;

use serde_json::Value;

/// A number to so many decimals, as JSON; null where it is none.
fn figure(value: f64, decimals: i32) -> Value {
    let scale = 10_f64.powi(decimals);
    let rounded = (value * scale).round() / scale;
    // Minus nought is nought.
    serde_json::Number::from_f64(rounded + 0.0).map_or(Value::Null, Value::Number)
}
