//! Arguments of the year in hand: week, timeline, needs, record, close, paper.

use crate::calendar::{Date, read_date};
use crate::paper::{Orientation, Paper, Sheet};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Flags of `week`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Week {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// A day of the week
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
    /// The weather so far, from a daily station file: dates of what stands move with the warmth it has had
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) daily: Option<PathBuf>,
    /// Keep the dates that the weather moved
    #[arg(long, requires = "daily")]
    pub(in crate::cli) write: bool,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Flags of what is asked of one season: `weeks`, `needs`, `kitchen`.
#[derive(Debug, Args)]
pub(in crate::cli) struct OfSeason {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// The season that begins in this year; without one, that of today
    #[arg(long, value_name = "YEAR")]
    pub(in crate::cli) season: Option<i32>,
    /// A day of the season
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "season")]
    pub(in crate::cli) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Flags of `record`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Record {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// The season that begins in this year is the first of those to come; without one, that of today
    #[arg(long, value_name = "YEAR")]
    pub(in crate::cli) season: Option<i32>,
    /// A day of that season
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "season")]
    pub(in crate::cli) on: Option<Date>,
    /// Seasons to look back on
    #[arg(long, value_name = "N", default_value_t = 5, value_parser = clap::value_parser!(u16).range(1..=50))]
    pub(in crate::cli) back: u16,
    /// Seasons to look ahead
    #[arg(long, value_name = "N", default_value_t = 4, value_parser = clap::value_parser!(u8).range(1..=12))]
    pub(in crate::cli) ahead: u8,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Flags of `close`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Close {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// The season that begins in this year; without one, the one that is over or nearly so
    #[arg(long, value_name = "YEAR")]
    pub(in crate::cli) season: Option<i32>,
    /// Opens a closed season again, so that its diary can be written in
    #[arg(long, conflicts_with = "yields")]
    pub(in crate::cli) reopen: bool,
    /// Takes what was picked here, a plant, for the garden's own yields: writes crops/yields.ron beside the garden
    #[arg(long)]
    pub(in crate::cli) yields: bool,
    /// Day that counts as today
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Flags of `seasons`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Seasons {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// The last season shown, by the year in which it begins; without one, that of the day
    #[arg(long, value_name = "YEAR")]
    pub(in crate::cli) season: Option<i32>,
    /// Seasons shown
    #[arg(long, value_name = "NUMBER", default_value_t = 3, value_parser = clap::value_parser!(u16).range(1..=50))]
    pub(in crate::cli) back: u16,
    /// Day that counts as today
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Flags of `print`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Print {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// File to write; its ending tells the form: pdf, svg, png, ics, csv, json, md or txt
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) to: PathBuf,
    /// Sheets, parted by commas: year, weeks, ground, seasons, jobs, kitchen, needs, record, pickings, labels
    #[arg(long, value_name = "SHEETS", value_delimiter = ',')]
    pub(in crate::cli) what: Vec<Sheet>,
    /// Size of the paper; without one, Letter where the garden is measured in feet, else A4
    #[arg(long)]
    pub(in crate::cli) paper: Option<PaperWord>,
    /// Which way every page lies; without one, each sheet lies as it reads best
    #[arg(long)]
    pub(in crate::cli) orientation: Option<OrientationWord>,
    /// The season that begins in this year; without one, that of the day
    #[arg(long, value_name = "YEAR")]
    pub(in crate::cli) season: Option<i32>,
    /// Day of printing, and of the week the ground shows
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
    /// Weeks of jobs from that day on; without a number, 5 on paper and to the end of the season in ics, csv and json
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=104))]
    pub(in crate::cli) weeks: Option<u16>,
    /// Hour of the day, 0 to 23, at which a calendar reminds of a job
    #[arg(long, value_name = "HOUR", value_parser = clap::value_parser!(u8).range(0..24))]
    pub(in crate::cli) remind: Option<u8>,
    /// Prints over files that are there
    #[arg(long)]
    pub(in crate::cli) force: bool,
}

/// Papers by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum PaperWord {
    /// 210 x 297 mm
    A4,
    /// 8.5 x 11 in
    Letter,
}

impl PaperWord {
    /// The paper it names.
    pub(in crate::cli) const fn paper(self) -> Paper {
        match self {
            Self::A4 => Paper::A4,
            Self::Letter => Paper::Letter,
        }
    }
}

/// Ways the paper may lie, by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum OrientationWord {
    /// Upright
    Portrait,
    /// On its side
    Landscape,
}

impl OrientationWord {
    /// The way it names.
    pub(in crate::cli) const fn orientation(self) -> Orientation {
        match self {
            Self::Portrait => Orientation::Portrait,
            Self::Landscape => Orientation::Landscape,
        }
    }
}

/// Flags of `next`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Next {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// The bed or pot, by its id or name
    pub(in crate::cli) place: String,
    /// The cell, such as B2: column letters from the west, row numbers from the north
    pub(in crate::cli) cell: String,
    /// The day on which something is to go into it; without one, today
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
