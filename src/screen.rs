//! The terminal: the run loop, its threads, the views, colours and signs. Only this room knows a terminal.

mod bed;
mod book;
mod card;
mod cells;
mod findings;
mod foot;
mod frame;
mod glyphs;
mod ground;
mod hit;
mod input;
mod jobs;
mod list;
mod needs;
mod over;
mod pane;
mod picture;
mod press;
mod printing;
mod record;
mod ruler;
mod scale;
mod shell;
mod theme;
mod weeks;
mod wishes;
mod worker;

pub use frame::{LEAST, view};
pub use glyphs::{ASCII, Glyphs, USUAL};
pub use hit::target;
pub use input::{Replies, Sifted, keys, lightness};
pub use pane::Look;
pub use picture::{picture, text};
pub use press::print;
pub use shell::{Options, run};
pub use theme::{Depth, Role, Theme, Tone, contrast, fitted, indexed};
