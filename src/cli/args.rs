//! The command line: every command and option with its help.

use super::measures::{self, Outline};
use crate::calendar::{Date, MonthDay, read_date};
use crate::fill::Dropped;
use crate::growth::{Method, Risk};
use crate::paper::Sheet;
use crate::site::Monthly;
use crate::units::{Amount, Degrees, Length, Measure, Temperature, Volume};
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
    Weeks(Weeks),
    /// What a season needs: seed, seedlings, potting mix, supports, water
    Needs(Needs),
    /// What stood where in past seasons, and when each plant family may return
    Record(Record),
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

/// Flags of `next`.
#[derive(Debug, Args)]
pub(super) struct Next {
    /// The garden
    pub(super) plan: PathBuf,
    /// The bed or pot, by its id or name
    pub(super) place: String,
    /// The cell, such as B2: column letters from the west, row numbers from the north
    pub(super) cell: String,
    /// The day on which something is to go into it; without one, today
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Flags of `week`.
#[derive(Debug, Args)]
pub(super) struct Week {
    /// The garden
    pub(super) plan: PathBuf,
    /// A day of the week
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
    /// The weather so far, from a daily station file: dates of what stands move with the warmth it has had
    #[arg(long, value_name = "FILE")]
    pub(super) daily: Option<PathBuf>,
    /// Keep the dates that the weather moved
    #[arg(long, requires = "daily")]
    pub(super) write: bool,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Flags of `weeks`.
#[derive(Debug, Args)]
pub(super) struct Weeks {
    /// The garden
    pub(super) plan: PathBuf,
    /// The season that begins in this year; without one, that of today
    #[arg(long, value_name = "YEAR")]
    pub(super) season: Option<i32>,
    /// A day of the season
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "season")]
    pub(super) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Flags of `needs`.
#[derive(Debug, Args)]
pub(super) struct Needs {
    /// The garden
    pub(super) plan: PathBuf,
    /// The season that begins in this year; without one, that of today
    #[arg(long, value_name = "YEAR")]
    pub(super) season: Option<i32>,
    /// A day of the season
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "season")]
    pub(super) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Flags of `record`.
#[derive(Debug, Args)]
pub(super) struct Record {
    /// The garden
    pub(super) plan: PathBuf,
    /// The season that begins in this year is the first of those to come; without one, that of today
    #[arg(long, value_name = "YEAR")]
    pub(super) season: Option<i32>,
    /// A day of that season
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "season")]
    pub(super) on: Option<Date>,
    /// Seasons to look back on
    #[arg(long, value_name = "N", default_value_t = 5, value_parser = clap::value_parser!(u16).range(1..=50))]
    pub(super) back: u16,
    /// Seasons to look ahead
    #[arg(long, value_name = "N", default_value_t = 4, value_parser = clap::value_parser!(u8).range(1..=12))]
    pub(super) ahead: u8,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Flags of `close`.
#[derive(Debug, Args)]
pub(super) struct Close {
    /// The garden
    pub(super) plan: PathBuf,
    /// The season that begins in this year; without one, the one that is over or nearly so
    #[arg(long, value_name = "YEAR")]
    pub(super) season: Option<i32>,
    /// Day that counts as today
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Flags of `print`.
#[derive(Debug, Args)]
pub(super) struct Print {
    /// The garden
    pub(super) plan: PathBuf,
    /// File to write; its ending tells the form: pdf, svg, png, ics, csv, json, md or txt
    #[arg(long, value_name = "FILE")]
    pub(super) to: PathBuf,
    /// Sheets, parted by commas: year, weeks, ground, seasons, jobs, kitchen, needs, record, pickings, labels
    #[arg(long, value_name = "SHEETS", value_delimiter = ',')]
    pub(super) what: Vec<Sheet>,
    /// Size of the paper; without one, Letter where the garden is measured in feet, else A4
    #[arg(long)]
    pub(super) paper: Option<PaperWord>,
    /// The season that begins in this year; without one, that of the day
    #[arg(long, value_name = "YEAR")]
    pub(super) season: Option<i32>,
    /// Day of printing, and of the week the ground shows
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
    /// Weeks of jobs from that day on; without a number, 5 on paper and to the end of the season in ics, csv and json
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=104))]
    pub(super) weeks: Option<u16>,
    /// Hour of the day, 0 to 23, at which a calendar reminds of a job
    #[arg(long, value_name = "HOUR", value_parser = clap::value_parser!(u8).range(0..24))]
    pub(super) remind: Option<u8>,
    /// Prints over files that are there
    #[arg(long)]
    pub(super) force: bool,
}

/// Papers by their words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperWord {
    /// 210 x 297 mm
    A4,
    /// 8.5 x 11 in
    Letter,
}

/// Flags of `note`.
#[derive(Debug, Args)]
#[command(subcommand_value_name = "WHAT", subcommand_help_heading = "What")]
pub(super) struct Note {
    /// The garden
    pub(super) plan: PathBuf,
    /// What happened
    #[command(subcommand)]
    pub(super) what: Noted,
    /// Day it happened; without one, today
    #[arg(long, global = true, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
    /// The planting it is about, by its number
    #[arg(long, global = true, value_name = "NUMBER")]
    pub(super) planting: Option<u32>,
    /// The planting it is about, by its crop
    #[arg(long, global = true, value_name = "CROP")]
    pub(super) crop: Option<String>,
    /// The bed or pot it is about
    #[arg(long, global = true, value_name = "PLACE")]
    pub(super) place: Option<String>,
    /// Your own words
    #[arg(long, global = true, value_name = "TEXT")]
    pub(super) words: Option<String>,
    /// The entry it corrects, by its number
    #[arg(long, global = true, value_name = "NUMBER")]
    pub(super) corrects: Option<u32>,
}

/// What happened.
#[derive(Debug, Subcommand)]
pub(super) enum Noted {
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
pub(super) enum StageWord {
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
pub(super) enum CauseWord {
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

/// Flags of `site`.
#[derive(Debug, Args)]
pub(super) struct Site {
    /// A built-in climate or a garden file; without one and without --lat, the built-in climates are listed
    #[arg(value_name = "ID|PLAN", conflicts_with = "site")]
    pub(super) of: Option<String>,
    /// Where it lies
    #[command(flatten)]
    pub(super) whence: Whence,
    /// Hours of direct sun on every cell of a garden, by month, behind obstacles and tall plantings
    #[arg(long)]
    pub(super) sun: bool,
    /// A day of the season whose tall plantings throw shadows; today if not given
    #[arg(long, value_name = "DATE", value_parser = read_date, requires = "sun")]
    pub(super) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// A crop at a site.
#[derive(Debug, Args)]
pub(super) struct Grow {
    /// A crop or variety of the book
    pub(super) crop: String,
    /// Where it grows
    #[command(flatten)]
    pub(super) whence: Whence,
    /// How it is started: in-place, raised, bought, set, bulb, clove, tuber, slip or crown
    #[arg(long, value_name = "WAY")]
    pub(super) start: Option<String>,
    /// How its days to maturity are reckoned
    #[arg(long)]
    pub(super) method: Option<MethodWord>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Flags of `schedule`.
#[derive(Debug, Args)]
pub(super) struct Schedule {
    /// The crop and the site
    #[command(flatten)]
    pub(super) grow: Grow,
    /// Day it is sown or planted; raised plants are sown on it in their raising place
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
    /// Day raised plants are set out instead
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "on")]
    pub(super) set_out: Option<Date>,
    /// Day it should be ready to pick: gives the latest start
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with_all = ["on", "set_out"])]
    pub(super) ready: Option<Date>,
    /// Further starts, so that a harvest begins every so many days
    #[arg(long, value_name = "DAYS", value_parser = clap::value_parser!(u16).range(1..))]
    pub(super) every: Option<u16>,
    /// Last day a harvest of these may begin
    #[arg(long, value_name = "DATE", value_parser = read_date, requires = "every")]
    pub(super) until: Option<Date>,
}

/// Flags of `window`.
#[derive(Debug, Args)]
pub(super) struct Window {
    /// The crop and the site
    #[command(flatten)]
    pub(super) grow: Grow,
    /// A day of the season that is looked at
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(super) on: Option<Date>,
}

/// Flags of `book`.
#[derive(Debug, Args)]
pub(super) struct Book {
    /// A crop or variety; without one, all of them are listed
    pub(super) crop: Option<String>,
    /// A garden, whose own crop files count too
    #[arg(long, value_name = "PLAN")]
    pub(super) plan: Option<PathBuf>,
    /// Units to show
    #[arg(long, value_name = "UNITS", conflicts_with = "plan")]
    pub(super) measure: Option<MeasureWord>,
    /// Answer for a program
    #[arg(long)]
    pub(super) json: bool,
}

/// Where a climate comes from: a preset or a garden, and what is known better.
#[derive(Debug, Args, Clone, Default)]
pub(super) struct Whence {
    /// A built-in climate (`catchcrop site` lists them) or a garden file
    #[arg(long, value_name = "ID|PLAN")]
    pub(super) site: Option<String>,
    /// Latitude in degrees, north positive
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true, requires = "lon")]
    pub(super) lat: Option<f64>,
    /// Longitude in degrees, east positive
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true, requires = "lat")]
    pub(super) lon: Option<f64>,
    /// Height above the sea, such as 350m or 1200ft
    #[arg(long, value_name = "HEIGHT", allow_hyphen_values = true)]
    pub(super) elevation: Option<Length>,
    /// Your own average last frost in spring, such as 05-12
    #[arg(long, value_name = "MM-DD")]
    pub(super) last_frost: Option<MonthDay>,
    /// Your own average first frost in autumn
    #[arg(long, value_name = "MM-DD")]
    pub(super) first_frost: Option<MonthDay>,
    /// Twelve mean daily maxima, January first, in degrees Celsius: "4.2 5.7 9.9 ..."
    #[arg(long, value_name = "TWELVE", value_parser = measures::monthly, allow_hyphen_values = true)]
    pub(super) tmax: Option<Monthly>,
    /// Twelve mean daily minima, in degrees Celsius
    #[arg(long, value_name = "TWELVE", value_parser = measures::monthly, allow_hyphen_values = true)]
    pub(super) tmin: Option<Monthly>,
    /// Twelve totals of rain, in mm; without them, none
    #[arg(long, value_name = "TWELVE", value_parser = measures::monthly)]
    pub(super) rain: Option<Monthly>,
    /// How much colder clear nights are in the garden than around it, such as 2C or 3F
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub(super) cold_pocket: Option<Degrees>,
    /// A daily station file (layouts of GHCN-Daily, .gz too)
    #[arg(long, value_name = "FILE")]
    pub(super) daily: Option<PathBuf>,
    /// Frost risk to take
    #[arg(long, value_name = "RISK")]
    pub(super) risk: Option<RiskWord>,
    /// Units to show
    #[arg(long, value_name = "UNITS")]
    pub(super) measure: Option<MeasureWord>,
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
