//! Files: the crop book, plans, backups, atomic saving, the lock, and errors that point at the place.

mod builtin;
pub mod text;

pub use builtin::{FILES, book};
