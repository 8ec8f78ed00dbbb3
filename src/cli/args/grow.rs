//! Arguments of climate, crops and their windows.

use super::{MeasureWord, MethodWord, RiskWord};
use crate::calendar::{Date, MonthDay, read_date};
use crate::cli::measures;
use crate::site::Monthly;
use crate::units::{Degrees, Length, Temperature};
use clap::Args;
use std::path::PathBuf;

/// Flags of `site`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Site {
    /// A built-in climate or a garden file; without one and without --lat, the built-in climates are listed
    #[arg(value_name = "ID|PLAN", conflicts_with = "site")]
    pub(in crate::cli) of: Option<String>,
    /// Where it lies
    #[command(flatten)]
    pub(in crate::cli) whence: Whence,
    /// Hours of direct sun on every cell of a garden, by month, behind obstacles and tall plantings
    #[arg(long)]
    pub(in crate::cli) sun: bool,
    /// A day of the season whose tall plantings throw shadows; today if not given
    #[arg(long, value_name = "DATE", value_parser = read_date, requires = "sun")]
    pub(in crate::cli) on: Option<Date>,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// A crop at a site.
#[derive(Debug, Args)]
pub(in crate::cli) struct Grow {
    /// A crop or variety of the book
    pub(in crate::cli) crop: String,
    /// Where it grows
    #[command(flatten)]
    pub(in crate::cli) whence: Whence,
    /// How it is started: in-place, raised, bought, set, bulb, clove, tuber, slip or crown
    #[arg(long, value_name = "WAY")]
    pub(in crate::cli) start: Option<String>,
    /// How its days to maturity are reckoned
    #[arg(long)]
    pub(in crate::cli) method: Option<MethodWord>,
    /// Answer for a program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Flags of `schedule`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Schedule {
    /// The crop and the site
    #[command(flatten)]
    pub(in crate::cli) grow: Grow,
    /// Day it is sown or planted; raised plants are sown on it in their raising place
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
    /// Day raised plants are set out instead
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with = "on")]
    pub(in crate::cli) set_out: Option<Date>,
    /// Day it should be ready to pick: gives the latest start
    #[arg(long, value_name = "DATE", value_parser = read_date, conflicts_with_all = ["on", "set_out"])]
    pub(in crate::cli) ready: Option<Date>,
    /// Further starts, so that a harvest begins every so many days
    #[arg(long, value_name = "DAYS", value_parser = clap::value_parser!(u16).range(1..))]
    pub(in crate::cli) every: Option<u16>,
    /// Last day a harvest of these may begin
    #[arg(long, value_name = "DATE", value_parser = read_date, requires = "every")]
    pub(in crate::cli) until: Option<Date>,
}

/// Flags of `window`.
#[derive(Debug, Args)]
pub(in crate::cli) struct Window {
    /// The crop and the site
    #[command(flatten)]
    pub(in crate::cli) grow: Grow,
    /// A day of the season that is looked at
    #[arg(long, value_name = "DATE", value_parser = read_date)]
    pub(in crate::cli) on: Option<Date>,
}

/// Where a climate comes from: a preset or a garden, and what is known better.
#[derive(Debug, Args, Clone, Default)]
pub(in crate::cli) struct Whence {
    /// A built-in climate (`catchcrop site` lists them) or a garden file
    #[arg(long, value_name = "ID|PLAN")]
    pub(in crate::cli) site: Option<String>,
    /// Latitude in degrees, north positive
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true, requires = "lon")]
    pub(in crate::cli) lat: Option<f64>,
    /// Longitude in degrees, east positive
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true, requires = "lat")]
    pub(in crate::cli) lon: Option<f64>,
    /// Height above the sea, such as 350m or 1200ft
    #[arg(long, value_name = "HEIGHT", allow_hyphen_values = true)]
    pub(in crate::cli) elevation: Option<Length>,
    /// Your own average last frost in spring, such as 05-12
    #[arg(long, value_name = "MM-DD")]
    pub(in crate::cli) last_frost: Option<MonthDay>,
    /// Your own average first frost in autumn
    #[arg(long, value_name = "MM-DD")]
    pub(in crate::cli) first_frost: Option<MonthDay>,
    /// Twelve mean daily maxima, January first, in degrees Celsius: "4.2 5.7 9.9 ..."
    #[arg(long, value_name = "TWELVE", value_parser = measures::monthly, allow_hyphen_values = true)]
    pub(in crate::cli) tmax: Option<Monthly>,
    /// Twelve mean daily minima, in degrees Celsius
    #[arg(long, value_name = "TWELVE", value_parser = measures::monthly, allow_hyphen_values = true)]
    pub(in crate::cli) tmin: Option<Monthly>,
    /// Twelve totals of rain, in mm; without them, none
    #[arg(long, value_name = "TWELVE", value_parser = measures::monthly)]
    pub(in crate::cli) rain: Option<Monthly>,
    /// Hardiness zone, such as 6b, or the mean of the yearly lowest temperature, such as -21C
    #[arg(long, value_name = "ZONE", value_parser = measures::zone, allow_hyphen_values = true)]
    pub(in crate::cli) zone: Option<Temperature>,
    /// Twelve mean numbers of days with a night at or below 0 C
    #[arg(long, value_name = "TWELVE", value_parser = measures::monthly)]
    pub(in crate::cli) frost_days: Option<Monthly>,
    /// How much colder clear nights are in the garden than around it, such as 2C or 3F
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub(in crate::cli) cold_pocket: Option<Degrees>,
    /// A daily station file (layouts of GHCN-Daily, .gz too)
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) daily: Option<PathBuf>,
    /// Frost risk to take
    #[arg(long, value_name = "RISK")]
    pub(in crate::cli) risk: Option<RiskWord>,
    /// Units to show
    #[arg(long, value_name = "UNITS")]
    pub(in crate::cli) measure: Option<MeasureWord>,
}
