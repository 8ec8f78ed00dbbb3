//! A daily file boiled down to a site.

use super::super::day::{DAYS, MONTH_DAYS, Monthly, warmest};
use super::super::normals;
use super::super::spec::{Normals, SiteSpec};
use super::count::{Years, count};
use super::read::{DailyFile, StationDay, StationError};
use super::{LEAST_COUNTED, StationSummary};
use crate::calendar::ClimateDay;
use crate::units::{Length, LengthUnit, TempUnit, Temperature, num};
use chrono::Datelike;

/// Years used, the most recent ones: dates move with the climate.
const RECENT: i32 = 30;
/// Thresholds counted, degrees Celsius: 16, 20, 24, 28, 32 and 36 F, those of the US freeze probability tables.
const THRESHOLDS: [f64; 6] = [-8.9, -6.7, -4.4, -2.2, 0.0, 2.2];
/// Days of a calendar month that must be there, over all years.
const LEAST_DAYS: usize = 60;
/// Days of a year that must be there for its lowest temperature to count.
const WHOLE_YEAR: usize = 330;

/// The climate computed from a daily file.
#[derive(Debug, Clone, PartialEq)]
pub struct StationClimate {
    /// Monthly means and totals.
    pub normals: Normals,
    /// Mean days a month with a minimum of 0 C or less.
    pub frost_days: Monthly,
    /// Mean of the yearly lowest minimum, degrees Celsius; none where no year is whole.
    pub zone_min: Option<f64>,
    /// What the frost dates need.
    pub summary: StationSummary,
}

impl DailyFile {
    /// Boils the most recent 30 years down.
    ///
    /// # Errors
    /// Where a month has too few days.
    pub fn climate(&self) -> Result<StationClimate, StationError> {
        let short = |what: String| StationError::TooShort { what };
        let with_low = || self.days.iter().filter(|(_, day)| day.tmin.is_some()).map(|(date, _)| date.year());
        let (Some(earliest), Some(last_year)) = (with_low().next(), with_low().next_back()) else {
            return Err(short("the file holds no TMIN".to_owned()));
        };
        let first_year = earliest.max(last_year - RECENT + 1);
        let table = table(self, first_year, last_year);
        let month = |pick: fn(&StationDay) -> Option<f64>| {
            monthly(&table, pick)
                .map_err(|name| short(format!("{name} has fewer than {LEAST_DAYS} days of record")))
        };
        let (tmax, tmin) = (month(|day| day.tmax)?, month(|day| day.tmin)?);
        // Rain may be left out of a file: none is known then.
        let rain = monthly(&table, |day| day.rain).unwrap_or([0.0; 12]);
        let rain = std::array::from_fn(|m| rain[m] * num::real(MONTH_DAYS[m]));
        let frost = month(|day| day.tmin.map(|low| f64::from(u8::from(low <= 0.0))))?;
        let lows: Years = table.iter().map(|year| year.iter().map(|day| day.tmin).collect()).collect();
        let curve = normals::daily(&tmin);
        let peak = warmest(&curve);
        let mean_curve = normals::daily(&std::array::from_fn(|m| tmax[m].midpoint(tmin[m])));
        let counted: Vec<_> = THRESHOLDS.iter().map(|threshold| count(&lows, peak, *threshold)).collect();
        let springs = counted.iter().map(|c| c.springs.min(c.autumns)).max().unwrap_or(0);
        let present = lows.iter().flatten().flatten().count();
        let all = lows.len() * DAYS;
        Ok(StationClimate {
            normals: Normals { tmax, tmin, rain },
            frost_days: std::array::from_fn(|m| frost[m] * num::real(MONTH_DAYS[m])),
            zone_min: zone(&lows),
            summary: StationSummary {
                name: self.station.clone().unwrap_or_else(|| "station".to_owned()),
                first_year,
                last_year,
                complete: num::real(present) / num::real(all.max(1)),
                years: springs,
                peak,
                tmin_sd: spread_by_month(&table, |d, day| day.tmin.map(|low| low - curve[d])),
                mean_sd: spread(&table, |d, day| {
                    day.tmin.zip(day.tmax).map(|(low, high)| low.midpoint(high) - mean_curve[d])
                }),
                counted: counted.into_iter().filter(|c| c.springs.max(c.autumns) >= LEAST_COUNTED).collect(),
            },
        })
    }

    /// The site `spec` with this file's climate in place of any other.
    ///
    /// # Errors
    /// Where a month has too few days.
    pub fn apply(&self, spec: &SiteSpec) -> Result<SiteSpec, StationError> {
        let climate = self.climate()?;
        let summary = &climate.summary;
        let of = self.station.as_ref().map_or_else(String::new, |name| format!(" of {name}"));
        let source = format!("daily file{of}, {} to {}", summary.first_year, summary.last_year);
        let height = self.place.and_then(|(_, _, height)| height).filter(|h| (-450.0..6000.0).contains(h));
        Ok(SiteSpec {
            preset: None,
            normals: Some(climate.normals),
            record_elevation: height.map(|h| Length::new(h, LengthUnit::M)),
            record_last_frost: None,
            record_first_frost: None,
            frost_days: Some(climate.frost_days),
            zone_min: climate.zone_min.map(|t| Temperature::new(t, TempUnit::C)),
            station: Some(climate.summary),
            source,
            ..spec.clone()
        })
    }
}

type Table = Vec<Vec<StationDay>>;

/// Whole climate years; 29 February is left out.
fn table(file: &DailyFile, first: i32, last: i32) -> Table {
    let count = num::count(i64::from(last - first)) + 1;
    let mut out = vec![vec![StationDay::default(); DAYS]; count];
    for (date, day) in &file.days {
        let leap_day = date.month() == 2 && date.day() == 29;
        if let Ok(year) = usize::try_from(date.year() - first)
            && !leap_day
            && year < count
        {
            out[year][ClimateDay::of(*date).index()] = *day;
        }
    }
    out
}

/// Month of each day.
fn month_of(day: usize) -> usize {
    ClimateDay::new(num::signed(day)).month0()
}

/// Means by month; the name of a month without enough days.
fn monthly(table: &Table, pick: impl Fn(&StationDay) -> Option<f64>) -> Result<Monthly, &'static str> {
    let (mut sum, mut count) = ([0.0; 12], [0_usize; 12]);
    for year in table {
        for (d, day) in year.iter().enumerate() {
            if let Some(value) = pick(day) {
                sum[month_of(d)] += value;
                count[month_of(d)] += 1;
            }
        }
    }
    match count.iter().position(|days| *days < LEAST_DAYS) {
        Some(month) => Err(crate::calendar::MONTHS[month]),
        None => Ok(std::array::from_fn(|m| sum[m] / num::real(count[m]))),
    }
}

/// Standard deviation of departures, by month.
fn spread_by_month(table: &Table, departure: impl Fn(usize, &StationDay) -> Option<f64>) -> Monthly {
    let (mut square, mut count) = ([0.0; 12], [0_usize; 12]);
    for year in table {
        for (d, day) in year.iter().enumerate() {
            if let Some(value) = departure(d, day) {
                square[month_of(d)] += value * value;
                count[month_of(d)] += 1;
            }
        }
    }
    std::array::from_fn(|m| (square[m] / num::real(count[m].max(1))).sqrt().clamp(0.5, 15.0))
}

/// Standard deviation of departures over the whole year.
fn spread(table: &Table, departure: impl Fn(usize, &StationDay) -> Option<f64>) -> f64 {
    let values: Vec<f64> = table
        .iter()
        .flat_map(|year| year.iter().enumerate())
        .filter_map(|(d, day)| departure(d, day))
        .collect();
    let square: f64 = values.iter().map(|v| v * v).sum();
    (square / num::real(values.len().max(1))).sqrt().clamp(0.5, 12.0)
}

/// Mean of the yearly lowest minimum over whole years.
fn zone(lows: &Years) -> Option<f64> {
    let lowest: Vec<f64> = lows
        .iter()
        .filter(|year| year.iter().flatten().count() >= WHOLE_YEAR)
        .map(|year| year.iter().flatten().copied().fold(f64::INFINITY, f64::min))
        .collect();
    (!lowest.is_empty()).then(|| lowest.iter().sum::<f64>() / num::real(lowest.len()))
}
