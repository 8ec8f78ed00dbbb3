//! Arguments of the crop book.

use super::MeasureWord;
use crate::calendar::{Date, read_date};
use crate::crop::Use;
use crate::units::{Length, Volume};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Flags of `book`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Book {
    /// A crop or variety; without one, all of them are listed
    pub(in crate::cli) crop: Option<String>,
    /// A garden, whose own crop files count too
    #[arg(long, value_name = "PLAN")]
    pub(in crate::cli) plan: Option<PathBuf>,
    /// Units to show
    #[arg(long, value_name = "UNITS", conflicts_with = "plan")]
    pub(in crate::cli) measure: Option<MeasureWord>,
    /// Looks for what cannot be right in the book and in your own crop files
    #[arg(long, conflicts_with = "crop")]
    pub(in crate::cli) check: bool,
    /// What is to be chosen
    #[command(flatten)]
    pub(in crate::cli) choice: Choice,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// What a crop has to be, and what there is for it.
#[derive(Debug, Args, Clone, Default)]
#[group(conflicts_with_all = ["crop", "check"], multiple = true)]
pub(in crate::cli) struct Choice {
    /// Words to look for: a common or botanical name, a family, a use; slips of the pen are forgiven
    #[arg(long, value_name = "WORDS")]
    pub(in crate::cli) find: Option<String>,
    /// Only crops grown for this; may be given several times
    #[arg(long = "for", value_name = "USE")]
    pub(in crate::cli) uses: Vec<UseWord>,
    /// Only crops of a family, by its botanical or common name
    #[arg(long, value_name = "FAMILY")]
    pub(in crate::cli) family: Option<String>,
    /// Direct sun there is, hours a day
    #[arg(long, value_name = "HOURS")]
    pub(in crate::cli) sun: Option<f32>,
    /// Depth of soil there is, such as 8in or 20cm
    #[arg(long, value_name = "DEPTH")]
    pub(in crate::cli) depth: Option<Length>,
    /// Shorter side of the room there is
    #[arg(long, value_name = "LENGTH")]
    pub(in crate::cli) room: Option<Length>,
    /// Volume of the pot there is; its depth is that of --depth
    #[arg(long, value_name = "VOLUME", requires = "depth")]
    pub(in crate::cli) pot: Option<Volume>,
    /// There is no support
    #[arg(long)]
    pub(in crate::cli) no_support: bool,
    /// A bed or pot of the garden: its room, depth, supports, light and what it is kept for
    #[arg(long = "in", value_name = "PLACE", requires = "plan")]
    pub(in crate::cli) place: Option<String>,
    /// A cell of it, such as B3, for the light there
    #[arg(long, value_name = "CELL", requires = "place")]
    pub(in crate::cli) cell: Option<String>,
    /// A built-in climate, so that dates can be reckoned; --plan brings its own
    #[arg(long, value_name = "ID", conflicts_with = "plan")]
    pub(in crate::cli) site: Option<String>,
    /// First free day; today if not given
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) from: Option<Date>,
    /// Only crops that are ripe within so many weeks from then, begun in any of them
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=104))]
    pub(in crate::cli) weeks: Option<u16>,
}

impl Choice {
    /// Whether anything is chosen by.
    pub(in crate::cli) const fn is_any(&self) -> bool {
        self.find.is_some()
            || !self.uses.is_empty()
            || self.family.is_some()
            || self.sun.is_some()
            || self.depth.is_some()
            || self.room.is_some()
            || self.no_support
            || self.place.is_some()
            || self.is_dated()
    }
    /// Whether dates are wanted.
    pub(in crate::cli) const fn is_dated(&self) -> bool {
        self.from.is_some() || self.weeks.is_some() || self.site.is_some()
    }
}

/// Uses by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum UseWord {
    /// Vegetables and fruit
    Food,
    /// Kitchen herbs
    Herb,
    /// Flowers for cutting
    Flower,
    /// Grown to cover, feed or mend the soil
    Cover,
}

impl From<UseWord> for Use {
    fn from(word: UseWord) -> Self {
        match word {
            UseWord::Food => Self::Food,
            UseWord::Herb => Self::Herb,
            UseWord::Flower => Self::CutFlower,
            UseWord::Cover => Self::Cover,
        }
    }
}
