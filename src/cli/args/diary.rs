//! Arguments of the diary.

use crate::calendar::{Date, read_date};
use crate::units::{Amount, Temperature};
use clap::{Args, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Flags of `note`.
#[derive(Debug, Args)]
#[command(subcommand_value_name = "WHAT", subcommand_help_heading = "What")]
pub(in crate::cli) struct Note {
    /// The garden
    pub(in crate::cli) plan: PathBuf,
    /// What happened
    #[command(subcommand)]
    pub(in crate::cli) what: Noted,
    /// Day it happened; without one, today
    #[arg(long, global = true, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
    /// The planting it is about, by its number
    #[arg(long, global = true, value_name = "NUMBER")]
    pub(in crate::cli) planting: Option<u32>,
    /// The planting it is about, by its crop
    #[arg(long, global = true, value_name = "CROP")]
    pub(in crate::cli) crop: Option<String>,
    /// The bed or pot it is about
    #[arg(long, global = true, value_name = "PLACE")]
    pub(in crate::cli) place: Option<String>,
    /// Your own words
    #[arg(long, global = true, value_name = "TEXT")]
    pub(in crate::cli) words: Option<String>,
    /// The entry it corrects, by its number
    #[arg(long, global = true, value_name = "NUMBER")]
    pub(in crate::cli) corrects: Option<u32>,
}

/// What happened.
#[derive(Debug, Subcommand)]
pub(in crate::cli) enum Noted {
    /// A stage was reached
    Done {
        /// The stage
        stage: StageWord,
    },
    /// A stage was reached in part
    Partly {
        /// The stage
        stage: StageWord,
    },
    /// It was put off
    NotDone {
        /// The stage
        stage: StageWord,
    },
    /// The planting failed
    Failed {
        /// Why
        cause: CauseWord,
    },
    /// Something was picked
    Picked {
        /// How much: "500 g", "2 lb", "3 heads"
        amount: Amount,
    },
    /// A frost
    Frost {
        /// The thermometer
        #[arg(allow_hyphen_values = true)]
        temperature: Option<Temperature>,
    },
    /// The soil thermometer
    Soil {
        /// What it showed
        #[arg(allow_hyphen_values = true)]
        temperature: Temperature,
    },
    /// A disease or pest of the crop book
    Trouble {
        /// Its id
        id: String,
    },
    /// A plant that came up by itself
    Volunteer {
        /// The crop
        crop: String,
    },
    /// A job without a stage
    Job {
        /// Its word
        word: String,
    },
    /// Only words: give them with --words
    Remark,
}

/// Stages by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum StageWord {
    /// Sown, in place or in the raising place
    Sown,
    /// Emerged
    Emerged,
    /// Potted on
    Potted,
    /// Hardening off begun
    Hardened,
    /// Set out or planted
    SetOut,
    /// Canopy closed
    Closed,
    /// First picking
    FirstPick,
    /// Last picking
    LastPick,
    /// Cleared
    Cleared,
}

/// Causes of failure by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum CauseWord {
    /// Did not sprout
    NoSprout,
    /// Too dry
    Drought,
    /// Too wet
    Wet,
    /// Frost
    Frost,
    /// Heat
    Heat,
    /// Slugs, insects, birds, mammals
    Eaten,
    /// A disease
    Disease,
    /// Ran to flower
    Bolted,
    /// Wind, hail, a fall
    Broken,
    /// Something else
    Other,
}
