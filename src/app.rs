//! The whole program without a terminal: the model, the messages that change it, the effects it asks for, and the one
//! table of keys. Nothing here draws, waits, reads a clock or touches a file.

mod carry;
mod command;
mod cursor;
mod days;
mod errand;
mod field;
mod filling;
mod fits;
mod fuzzy;
mod growing;
mod handling;
mod key;
pub mod keymap;
mod message;
mod model;
mod pointer;
mod printing;
mod reckon;
mod saving;
mod siteplan;
mod size;
mod slip;
mod sowing;
mod story;
mod swap;
mod timeline;
mod tour;
mod update;
mod view;
mod weather;
mod wish_text;
mod wizard;

pub use carry::{Carry, Load, outlook};
pub use command::{Command, Way};
pub use days::{CAUSES, closing_words, event_words};
pub use errand::Errand;
pub use field::{Line, Stroke};
pub use filling::{FillWay, Gauge, Offer, Run, RunId, Task};
pub use fits::{Fits, FitsTask};
pub use fuzzy::{ranked, score};
pub use key::{Key, names};
pub use keymap::{BINDINGS, Binding, Group, Mode, Resolution, resolve};
pub use message::{Effect, Message};
pub use model::{Grasp, LEAST, Model, Note, Over, Question, Tone, is_too_small};
pub use pointer::{Hold, Target, Touch};
pub use printing::{Doubt, PrintEnd, PrintField, PrintId, PrintState, PrintTask, Printing};
pub use reckon::{Met, Reckoned, Reckoning, Sum, Sums};
pub use siteplan::{Footprint, Spot, extent, obstacle_spots};
pub use size::{deep as usual_depth, pot_of, read as read_size, words as size_words};
pub use slip::{
    About, Ask, Choice, Matter, Narrowed, Purpose, Reading, Slip, cover_words, support_words, tag_words,
};
pub use sowing::{Sowing, Weighed, Weighing, start_words};
pub use story::{Phase, Story};
pub use timeline::{Grouping, Row, Soil, Stay, touches, where_words};
pub use tour::{STOPS, Stop, stop as tour_stop};
pub use update::update;
pub use view::View;
pub use weather::Weather;
pub use wish_text::{
    IMPORTANCE, WishError, amount_words, read as read_wish, window_words, words as wish_words,
};
pub use wizard::{Step, Wizard, lay_out};

use crate::units::num;

/// An index so many steps on, between 0 and `last`.
fn shift(at: usize, steps: i64, last: usize) -> usize {
    num::count(num::signed(at).saturating_add(steps)).min(last)
}
