//! What a daily station file boils down to, and the reading of such files.

mod count;
mod read;
mod summary;

pub use read::{DailyFile, FileUnits, Layout, StationDay, StationError, read};
pub use summary::StationClimate;

use super::day::Monthly;
use super::spec::{SiteError, range};
use crate::units::num;
use serde::{Deserialize, Serialize};

/// Seasons that must be judged for counted dates to stand by themselves.
pub const LEAST_COUNTED: u32 = 15;

/// Frost dates counted from the years of a station, at one threshold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CountedFrost {
    /// Degrees Celsius.
    pub threshold: f64,
    /// Springs that could be judged.
    pub springs: u32,
    /// Share of them with such a night.
    pub share_spring: f64,
    /// Days from midwinter (182 days before the warmest day) after which a frost still comes in 1, 5, 9 years of 10.
    pub last: [Option<f64>; 3],
    /// Autumns that could be judged.
    pub autumns: u32,
    /// Share of them with such a night.
    pub share_autumn: f64,
    /// Days after the warmest day before which a frost has come in 1, 5, 9 years of 10.
    pub first: [Option<f64>; 3],
}

/// The climate of a station, from its daily file. Normals are kept beside it in the site.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StationSummary {
    /// Name or number of the station.
    pub name: String,
    /// First year used.
    pub first_year: i32,
    /// Last year used.
    pub last_year: i32,
    /// Days with a minimum, as a share of all days of those years.
    pub complete: f64,
    /// Years with enough days to judge the frost season; below 15 the dates are computed, not counted.
    pub years: u32,
    /// The warmest day of the year, 0..=364, that parts last from first frosts.
    pub peak: usize,
    /// Standard deviation of single minima about their normal, by month.
    pub tmin_sd: Monthly,
    /// Standard deviation of daily means about their normal.
    pub mean_sd: f64,
    /// Counted frost dates by rising threshold; empty below 15 years.
    pub counted: Vec<CountedFrost>,
}

impl StationSummary {
    /// Refuses figures that cannot be.
    pub(super) fn verify(&self) -> Result<(), SiteError> {
        let spread = "give a standard deviation in degrees Celsius";
        for sd in self.tmin_sd {
            range("the station's spread of minima", Some(sd), 0.3, 20.0, spread)?;
        }
        range("the station's spread of daily means", Some(self.mean_sd), 0.3, 15.0, spread)?;
        let peak = Some(num::real(self.peak));
        range("the station's warmest day", peak, 0.0, 364.0, "give a day of the year")?;
        let mut below = f64::NEG_INFINITY;
        for counted in &self.counted {
            let rising = "list thresholds once, by rising temperature";
            range("a counted threshold", Some(counted.threshold), below.max(-60.0), 30.0, rising)?;
            below = counted.threshold + 1e-6;
            let share = "give a share of years";
            range("a share of springs with frost", Some(counted.share_spring), 0.0, 1.0, share)?;
            range("a share of autumns with frost", Some(counted.share_autumn), 0.0, 1.0, share)?;
            for place in counted.last.iter().chain(&counted.first) {
                range("a counted frost date", *place, 0.0, 182.0, "give days from midwinter or midsummer")?;
            }
        }
        Ok(())
    }
}
