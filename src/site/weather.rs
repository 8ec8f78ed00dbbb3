//! The weather that was: days of a daily file beside a site's normal year.

use super::soil;
use super::station::{DailyFile, FileUnits};
use super::year::SiteYear;
use crate::calendar::{ClimateDay, Date, day_text};
use crate::units::num;
use chrono::Datelike;
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

/// Days that must be there for a file to be used.
const LEAST: usize = 3;
/// Days from which a file has seen a summer, and its warmest days show its units.
const WHOLE: usize = 300;

/// A daily file that tells nothing of the weather.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the file holds {0} days with both TMAX and TMIN: at least {LEAST} are needed")]
pub struct NoWeather(usize);

/// One day as it was, degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RealDay {
    /// Minimum.
    pub tmin: f64,
    /// Maximum.
    pub tmax: f64,
}

/// Real days, from the first to the last of a file; days that are missing count as normal ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Weather {
    days: BTreeMap<Date, RealDay>,
    /// How much warmer the soil at 5 cm was than normal.
    soil: BTreeMap<Date, f64>,
    first: Date,
    last: Date,
    /// The units in which the file agrees best with the site's normals.
    pub units: FileUnits,
}

impl Weather {
    /// Takes the days of a file up.
    ///
    /// A file of a few months does not show its units by its warmest days: they are taken so that the days lie
    /// nearest to the site's normals.
    ///
    /// # Errors
    /// Where it holds fewer than three days with both temperatures.
    pub fn new(file: &DailyFile, year: &SiteYear) -> Result<Self, NoWeather> {
        let raw: BTreeMap<Date, RealDay> = file
            .days
            .iter()
            .filter(|(date, _)| !(date.month() == 2 && date.day() == 29))
            .filter_map(|(date, day)| Some((*date, RealDay { tmin: day.tmin?, tmax: day.tmax? })))
            .collect();
        let (Some(first), Some(last)) = (raw.keys().next().copied(), raw.keys().next_back().copied()) else {
            return Err(NoWeather(raw.len()));
        };
        if raw.len() < LEAST {
            return Err(NoWeather(raw.len()));
        }
        let off = |units: FileUnits| -> f64 {
            raw.iter()
                .map(|(date, day)| {
                    let d = ClimateDay::of(*date).index();
                    (units.again(file.units, day.tmax) - year.tmax[d]).abs()
                        + (units.again(file.units, day.tmin) - year.tmin[d]).abs()
                })
                .sum()
        };
        let kinds = [file.units, FileUnits::Tenths, FileUnits::Metric, FileUnits::Us];
        let units = match kinds.into_iter().min_by(|a, b| off(*a).total_cmp(&off(*b))) {
            Some(nearest) if raw.len() < WHOLE => nearest,
            Some(_) | None => file.units,
        };
        let days: BTreeMap<Date, RealDay> = raw
            .into_iter()
            .map(|(date, day)| {
                let celsius = |t| units.again(file.units, t);
                (date, RealDay { tmin: celsius(day.tmin), tmax: celsius(day.tmax) })
            })
            .collect();
        let soil = soils(&days, year, first, last);
        Ok(Self { days, soil, first, last, units })
    }

    /// The day, where it is there.
    pub fn on(&self, date: Date) -> Option<RealDay> {
        self.days.get(&date).copied()
    }
    /// How much warmer than normal the soil at 5 cm was, degrees; none outside the file.
    pub fn soil_excess(&self, date: Date) -> Option<f64> {
        self.soil.get(&date).copied()
    }
    /// First day.
    pub const fn first(&self) -> Date {
        self.first
    }
    /// Last day.
    pub const fn last(&self) -> Date {
        self.last
    }
    /// Days there are.
    pub fn len(&self) -> usize {
        self.days.len()
    }
    /// Never: at least three days are there.
    pub fn is_empty(&self) -> bool {
        self.days.is_empty()
    }
    /// Days of a stretch that are not there, and not 29 February.
    pub fn missing(&self, stretch: RangeInclusive<Date>) -> usize {
        let there = self.days.range(stretch.clone()).count();
        let span = stretch.start().iter_days().take_while(|d| d <= stretch.end());
        span.filter(|d| !(d.month() == 2 && d.day() == 29)).count().saturating_sub(there)
    }
    /// The first night of a stretch at or below `threshold`.
    pub fn frost(&self, threshold: f64, stretch: RangeInclusive<Date>) -> Option<Date> {
        if stretch.is_empty() {
            return None;
        }
        self.days.range(stretch).find(|(_, day)| day.tmin <= threshold).map(|(date, _)| *date)
    }
    /// Mean departure from the site's normal days, degrees.
    pub fn departure(&self, year: &SiteYear) -> f64 {
        let sum: f64 = self
            .days
            .iter()
            .map(|(date, day)| day.tmin.midpoint(day.tmax) - year.tmean[ClimateDay::of(*date).index()])
            .sum();
        sum / num::real(self.days.len().max(1))
    }
    /// "1 Mar to 10 Jun 2027, 100 days, 2 missing, taken as degrees Celsius and millimetres".
    pub fn words(&self) -> String {
        format!(
            "{} {} to {} {}, {} days, {} missing, taken as {}",
            day_text(self.first),
            self.first.year(),
            day_text(self.last),
            self.last.year(),
            self.days.len(),
            self.missing(self.first..=self.last),
            self.units
        )
    }
}

/// How much warmer the soil was than it would have been under the normal air, day by day.
fn soils(days: &BTreeMap<Date, RealDay>, year: &SiteYear, first: Date, last: Date) -> BTreeMap<Date, f64> {
    let dates: Vec<Date> = first.iter_days().take_while(|d| *d <= last).collect();
    let normal = |date: Date| year.tmean[ClimateDay::of(date).index()];
    let before = year.soil[ClimateDay::of(first).index()];
    let real: Vec<Option<f64>> = dates
        .iter()
        .map(|d| days.get(d).map_or_else(|| Some(normal(*d)), |r| Some(r.tmin.midpoint(r.tmax))))
        .collect();
    let plain: Vec<Option<f64>> = dates.iter().map(|d| Some(normal(*d))).collect();
    let excess = soil::follow(&real, before).into_iter().zip(soil::follow(&plain, before));
    dates.into_iter().zip(excess.map(|(a, b)| a - b)).collect()
}
