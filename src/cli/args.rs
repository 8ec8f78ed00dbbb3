//! The command line: every command and option with its help.

mod book;
mod diary;
mod grow;
mod year;

pub(super) use book::{Book, Choice};
pub(super) use diary::{CauseWord, Note, Noted, StageWord};
pub(super) use grow::{Schedule, Site, Whence, Window};
pub(super) use year::{Close, Next, OfSeason, OrientationWord, PaperWord, Print, Record, Seasons, Week};

use super::measures::{self, Outline};
use crate::calendar::{Date, read_date};
use crate::fill::Dropped;
use crate::growth::{Method, Risk};
use crate::units::{Measure, Volume};
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Plans and runs an intensive small-space garden through the year and across years.
#[derive(Debug, Parser)]
#[command(
    name = "catchcrop",
    version,
    args_conflicts_with_subcommands = true,
    after_help = "Without a command the garden opens on the screen; where there is no terminal, its week is printed. \
                  Every command takes --json where a program is to read its answer."
)]
pub(super) struct Cli {
    /// Garden to open; without one, the example garden
    pub(super) plan: Option<PathBuf>,
    /// Day to look at instead of today, such as 2027-05-12
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
    /// Draws with plain ASCII signs only
    #[arg(long)]
    pub(super) ascii: bool,
    /// Ground of the terminal; without it, as the terminal says
    #[arg(long, value_name = "GROUND")]
    pub(super) ground: Option<GroundWord>,
    /// What to do instead of opening the garden
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Makes a new garden
    New(New),
    /// Fills a garden with plantings for its wishes and its gaps
    Fill(Fill),
    /// What is wrong with a garden; exit code 1 where anything stops
    Check(Check),
    /// What may go into a freed cell now, the best first
    Next(Next),
    /// What stands where in a week, and its light, soil and frost
    Week(Week),
    /// The whole timeline of a season as text
    Weeks(OfSeason),
    /// What a season needs: seed, seedlings, potting mix, supports, water
    Needs(OfSeason),
    /// What stood where in past seasons, and when each plant family may return
    Record(Record),
    /// What is expected in the kitchen, low, usual and high, against the wishes
    Kitchen(OfSeason),
    /// Seasons side by side: planned, real, picked
    Seasons(Seasons),
    /// Closes a season: its record is frozen, and what it taught is said
    Close(Close),
    /// Writes the diary: what was done, picked, seen
    Note(Note),
    /// Prints sheets: pdf, svg, png, ics, csv, md or txt by the ending of the file
    Print(Print),
    /// Stages of a planting from its start, or the start that is ready on a day
    Schedule(Schedule),
    /// When a crop can be started, by each way of starting
    Window(Window),
    /// A climate: temperatures, frost, light, rain by month and week
    Site(Site),
    /// The crop book
    Book(Book),
    /// Writes the completions of a shell
    #[command(hide = true)]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
}

/// Flags of `new`.
#[derive(Debug, Args)]
pub(super) struct New {
    /// File to make
    pub(super) path: PathBuf,
    /// Name of the garden; without one, the file's
    #[arg(long)]
    pub(super) name: Option<String>,
    /// Where it lies
    #[command(flatten)]
    pub(super) whence: Whence,
    /// A raised box, such as 4x4ft, 120x60cm or 4x8x1ft with its depth; may be repeated
    #[arg(long = "box", value_name = "SIZE", value_parser = measures::outline)]
    pub(super) boxes: Vec<Outline>,
    /// A bed in the open ground, across from west to east first; may be repeated
    #[arg(long = "bed", value_name = "SIZE", value_parser = measures::outline)]
    pub(super) beds: Vec<Outline>,
    /// A bed for flowers only; may be repeated
    #[arg(long = "flower-bed", value_name = "SIZE", value_parser = measures::outline)]
    pub(super) flower_beds: Vec<Outline>,
    /// A pot by its volume, such as 38l or 10gal; may be repeated
    #[arg(long = "pot", value_name = "VOLUME", value_parser = measures::volume)]
    pub(super) pots: Vec<Volume>,
    /// All of it is filled with fresh potting mix or clean bought soil
    #[arg(long)]
    pub(super) fresh: bool,
    /// Hours a week there are for it
    #[arg(long, value_name = "HOURS")]
    pub(super) hours: Option<f32>,
    /// Day from which the beds are there
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
}

/// Flags of `fill`.
#[derive(Debug, Args)]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
pub(super) struct Fill {
    /// The garden
    #[arg(required_unless_present = "problem")]
    pub(super) plan: Option<PathBuf>,
    /// How much is put into the search
    #[arg(long, default_value = "usual")]
    pub(super) effort: EffortWord,
    /// Number that varies the search: the same number, the same answer
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(super) seed: u64,
    /// Day that counts as today
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with_all = ["from", "season"])]
    pub(super) on: Option<Date>,
    /// Nothing is begun before this day, and what stands then stays; without one, today, or the next season where
    /// this one is nearly over
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) from: Option<Date>,
    /// The season that begins in this year
    #[arg(long, value_name = "YEAR", conflicts_with = "from")]
    pub(super) season: Option<i32>,
    /// Keeps the plan in force where it can: a re-plan that disturbs as little as possible
    #[arg(long)]
    pub(super) again: bool,
    /// Accepts the proposal and saves the garden
    #[arg(long)]
    pub(super) write: bool,
    /// Tells what one rule costs: fills as it is and without the rule, and writes nothing
    #[arg(long, value_name = "RULE", conflicts_with_all = ["write", "problem", "write_problem"])]
    pub(super) without: Option<RuleWord>,
    /// Writes the question of the garden as a problem file (JSON) and fills nothing
    #[arg(long, value_name = "FILE", conflicts_with_all = ["problem", "write"])]
    pub(super) write_problem: Option<PathBuf>,
    /// Writes over a problem file that is there
    #[arg(long, requires = "write_problem")]
    pub(super) force: bool,
    /// Solves a problem file (JSON) instead of a garden
    #[arg(long, value_name = "FILE", conflicts_with_all = ["plan", "write", "from", "season", "again"])]
    pub(super) problem: Option<PathBuf>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Rules that may be left out, by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum RuleWord {
    /// Breaks of families and diseases
    Breaks,
    /// Your hours of work
    Hours,
    /// Room for seedlings
    Trays,
    /// What places are kept for
    Tags,
    /// Hours of sun
    Light,
    /// Size and depth of pots
    Pots,
    /// Supports of climbers
    Supports,
    /// Frost, as far as a fleece over every bed keeps it off
    Frost,
}

impl From<RuleWord> for Dropped {
    fn from(word: RuleWord) -> Self {
        match word {
            RuleWord::Breaks => Self::Breaks,
            RuleWord::Hours => Self::Hours,
            RuleWord::Trays => Self::Trays,
            RuleWord::Tags => Self::Tags,
            RuleWord::Light => Self::Light,
            RuleWord::Pots => Self::Pots,
            RuleWord::Supports => Self::Supports,
            RuleWord::Frost => Self::Frost,
        }
    }
}

/// Efforts by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum EffortWord {
    /// For a first look
    Quick,
    /// Good in most cases
    Usual,
    /// When it may take a while
    Deep,
}

/// Flags of `check`.
#[derive(Debug, Args)]
pub(super) struct Check {
    /// The garden
    #[arg(required_unless_present = "explain")]
    pub(super) plan: Option<PathBuf>,
    /// Judges from the first day of this day's season on
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "from")]
    pub(super) on: Option<Date>,
    /// First day judged; without one, everything ever planned
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) from: Option<Date>,
    /// Last day judged
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) to: Option<Date>,
    /// Explains a rule by its code word, with its numbers and sources
    #[arg(long, value_name = "CODE", conflicts_with = "plan")]
    pub(super) explain: Option<String>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Grounds of a terminal by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum GroundWord {
    /// Dark letters on a light ground
    Light,
    /// Light letters on a dark ground
    Dark,
}

/// Risks by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum RiskWord {
    /// 1 year in 10 goes wrong
    #[value(name = "1in10")]
    OneInTen,
    /// 3 years in 10
    #[value(name = "3in10")]
    ThreeInTen,
    /// Every other year
    #[value(name = "1in2")]
    OneInTwo,
}

impl From<RiskWord> for Risk {
    fn from(word: RiskWord) -> Self {
        match word {
            RiskWord::OneInTen => Self::Cautious,
            RiskWord::ThreeInTen => Self::Usual,
            RiskWord::OneInTwo => Self::Bold,
        }
    }
}

/// Units by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum MeasureWord {
    /// Feet, inches, gallons, pounds, degrees Fahrenheit
    Us,
    /// Metres, litres, kilograms, degrees Celsius
    Metric,
}

impl From<MeasureWord> for Measure {
    fn from(word: MeasureWord) -> Self {
        match word {
            MeasureWord::Us => Self::Us,
            MeasureWord::Metric => Self::Metric,
        }
    }
}

/// Ways to compute maturity by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum MethodWord {
    /// From the site's warmth
    Heat,
    /// The extension services' count of days
    Catalogue,
}

impl From<MethodWord> for Method {
    fn from(word: MethodWord) -> Self {
        match word {
            MethodWord::Heat => Self::Heat,
            MethodWord::Catalogue => Self::Catalogue,
        }
    }
}
