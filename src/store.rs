//! Files: the crop book, plans, backups, atomic saving, the lock, and errors that point at the place.
//!
//! A plan file is only ever replaced at one stroke by a text that was read back as the same garden, and never when
//! another program changed it or its content could not be understood. Crop files are read and never rewritten: a variety is added to
//! the grower's own file by putting one entry into its text.

mod builtin;
mod disk;
mod error;
mod fault;
mod journal;
mod layout;
mod lock;
mod near;
mod own;
mod plan_file;
mod prefs;
mod print_out;
mod schema;
mod shelf;
pub mod text;
mod tree;
mod verify;

pub use builtin::{FILES, SOURCES, book, book_files};
pub use disk::{read_bytes, read_text, write_beside, write_out};
pub use error::StoreError;
pub use fault::{Fault, Weight};
pub use journal::Recovery;
pub use near::nearest;
pub use own::{PacketEntry, add_variety};
pub use plan_file::{Loaded, Over, PlanFile, Saved, look, plan_text, read_plan};
pub use prefs::{Ground, Preferences, is_toured, keep_toured, preferences};
pub use print_out::{PrintError, print_out};
pub use shelf::{Shelf, salvage, shelf};
