//! The crop book: what a crop is, how a variety inherits from it, and how an entry is found.
//!
//! An [`Entry`] is what stands in a file: every field may be left out where a parent gives it. A [`Crop`] is the
//! resolved whole, with every figure the program uses. A variety is a crop whose entry names a parent.

mod book;
pub mod disease;
pub mod entry;
pub mod family;
mod fault;
pub mod figures;
mod naming;
mod page;
mod search;
mod source;

pub use book::{Book, BookFault};
pub use disease::{Trouble, TroubleKind};
pub use entry::{BookFile, Crop, Entry, FIGURES, PARTS, Resolved};
pub use family::{BreakWeight, Family, Rotation};
pub use fault::{Fault, check_book, check_crop};
pub use figures::*;
pub use naming::inside;
pub use page::{lines, list, page, page_in};
pub use search::{By, Hit, Unknown, Wanted};
pub use source::{Sources, references};
