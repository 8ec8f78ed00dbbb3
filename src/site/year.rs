//! One precomputed year of a site: what every room below reads.

use super::climate::{Climate, Warning, climate};
use super::day::{DAYS, Daily, Monthly, month_means};
use super::degree::Response;
use super::frost::{FrostCurves, FrostModel};
use super::spec::{SiteError, SiteSpec};
use super::trust::Trust;
use super::{radiation, soil, sun};
use crate::calendar::{ClimateDay, Date, MonthDay};
use crate::units::{Degrees, Length, num};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// Latitude of the tropics, degrees.
const TROPIC: f64 = 23.44;
/// Hours of day below which leaf crops nearly stand still (common practice).
pub const SHORT_DAY: f64 = 10.0;

/// Days in which the quickest crops of the trade are ready; a shorter frost-free time is none (common practice).
pub const SHORTEST_SEASON: usize = 21;

/// Side of the equator.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hemisphere {
    /// Latitude 0 and above.
    North,
    /// Latitude below 0.
    South,
}

/// A stretch of the climate year, both ends counted; it may run over the new year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// First day.
    pub first: ClimateDay,
    /// Last day.
    pub last: ClimateDay,
    /// Number of days.
    pub days: usize,
}

/// One year of a site's climate: 365 values a curve, 1 January first, 29 February read as 28 February.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteYear {
    /// Name to read.
    pub name: String,
    /// Degrees, north positive.
    pub lat: f64,
    /// Degrees, east positive.
    pub lon: f64,
    /// Metres above the sea, where known.
    pub elevation: Option<f64>,
    /// Normal daily maximum, degrees Celsius.
    pub tmax: Daily,
    /// Normal daily minimum.
    pub tmin: Daily,
    /// Middle of the two.
    pub tmean: Daily,
    /// Soil at 5 cm, degrees Celsius.
    pub soil: Daily,
    /// Hours from sunrise to sunset.
    pub daylength: Daily,
    /// Radiation at the top of the atmosphere, MJ a square metre a day.
    pub ra: Daily,
    /// Reference evapotranspiration, mm a day.
    pub et0: Daily,
    /// Rain, mm a day: the month's total spread evenly.
    pub rain: Daily,
    /// Standard deviation of the daily mean temperature about its normal, degrees Celsius.
    pub sd: f64,
    /// Where the seasons begin; none forced between the tropics.
    pub season_start: Option<MonthDay>,
    /// Frost dates are all that is known: ripening goes by the catalogue's days.
    pub catalogue: bool,
    /// How far the frost dates can be trusted.
    pub trust: Trust,
    /// What the grower should know about the figures.
    pub warnings: Vec<Warning>,
    /// Where the figures come from.
    pub source: String,
    monthly_rain: Monthly,
    frost: FrostModel,
    /// Frost curves by hundredths of a degree, and whether the method's error is allowed for.
    frosts: Known<(i64, bool), FrostCurves>,
    /// Degree days of each day by response and by how much warmer it is under a cover.
    rates: Known<[i64; 4], Daily>,
}

/// What was computed of a year so far. The same question always has the same answer, so this changes none.
#[derive(Debug)]
struct Known<K, V>(Mutex<BTreeMap<K, Arc<V>>>);

/// Answers kept before a store is emptied.
const KEPT: usize = 256;

impl<K: Ord, V> Known<K, V> {
    const fn new() -> Self {
        Self(Mutex::new(BTreeMap::new()))
    }
    /// The answer to a question, computed where it is asked for the first time.
    fn of(&self, question: K, answer: impl FnOnce() -> V) -> Arc<V> {
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if !known.contains_key(&question) && known.len() >= KEPT {
            known.clear();
        }
        Arc::clone(known.entry(question).or_insert_with(|| Arc::new(answer())))
    }
}
impl<K: Clone + Ord, V> Clone for Known<K, V> {
    fn clone(&self) -> Self {
        Self(Mutex::new(self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()))
    }
}
impl<K, V> PartialEq for Known<K, V> {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl SiteYear {
    /// Computes the year of a site.
    ///
    /// # Errors
    /// Where a figure cannot be, the preset is unknown, or there is no climate at all.
    pub fn new(spec: &SiteSpec) -> Result<Self, SiteError> {
        let spec = spec.resolved()?;
        spec.verify()?;
        let Climate { tmax, tmin, rain, monthly_rain, sd, frost, trust, alone, warnings } = climate(&spec)?;
        let tmean: Daily = std::array::from_fn(|d| tmax[d].midpoint(tmin[d]));
        let ra: Daily = std::array::from_fn(|d| radiation::extraterrestrial(spec.lat, num::real(d + 1)));
        let offset = spec.soil_offset.map_or(0.0, Degrees::celsius);
        Ok(Self {
            et0: std::array::from_fn(|d| radiation::hargreaves(tmin[d], tmax[d], ra[d])),
            soil: soil::wave(&tmean, soil::SOWING_DEPTH, soil::COVER).map(|t| t + offset),
            daylength: sun::daylengths(spec.lat),
            tmax,
            tmin,
            tmean,
            ra,
            rain,
            sd,
            season_start: spec.season_start.or_else(|| usual_start(spec.lat)),
            catalogue: alone,
            trust,
            warnings,
            name: spec.name,
            lat: spec.lat,
            lon: spec.lon,
            elevation: spec.elevation.or(spec.record_elevation).map(Length::m),
            source: spec.source,
            monthly_rain,
            frost,
            frosts: Known::new(),
            rates: Known::new(),
        })
    }

    /// The year of a built-in climate.
    ///
    /// # Errors
    /// Where there is no such preset.
    pub fn preset(id: &str) -> Result<Self, SiteError> {
        Self::new(&SiteSpec::from_preset(id)?)
    }

    /// Side of the equator.
    pub fn hemisphere(&self) -> Hemisphere {
        if self.lat < 0.0 { Hemisphere::South } else { Hemisphere::North }
    }

    /// The day the seasons begin; 1 January where the site forces none.
    pub fn season_start_or_january(&self) -> MonthDay {
        self.season_start.unwrap_or(MonthDay { month: 1, day: 1 })
    }

    /// The day on which nights are warmest: it parts last frosts from first frosts.
    pub fn warmest_day(&self) -> ClimateDay {
        ClimateDay::new(num::signed(self.frost.peak))
    }

    /// Chances of nights at or below `threshold` (degrees Celsius, screen height), with the method's own error
    /// allowed for: for decisions. Cheap when asked again.
    pub fn frost(&self, threshold: f64) -> Arc<FrostCurves> {
        self.curves(threshold, true)
    }

    /// The same chances as the climate has them, the method's error not allowed for: for showing dates.
    pub fn frost_plain(&self, threshold: f64) -> Arc<FrostCurves> {
        self.curves(threshold, false)
    }

    fn curves(&self, threshold: f64, wide: bool) -> Arc<FrostCurves> {
        // Hundredths of a degree, so that one threshold is computed once however it was rounded.
        let hundredths =
            if threshold.is_nan() { 0 } else { num::round_i(threshold.clamp(-90.0, 60.0) * 100.0) };
        let plain = || self.frost.curves(num::real_i(hundredths) / 100.0);
        if !wide {
            return self.frosts.of((hundredths, false), plain);
        }
        let plain = self.frosts.of((hundredths, false), plain);
        let (spring, autumn) = (self.frost.spring.error, self.frost.autumn.error);
        self.frosts.of((hundredths, true), || plain.widened(spring, autumn))
    }

    /// Expected degree days of each day for a crop's response, averaged over day-to-day weather. Cheap when asked
    /// again.
    pub fn rates(&self, response: Response) -> Arc<Daily> {
        self.rates_under(response, 0.0)
    }

    /// The same where it is so many degrees warmer than in the open.
    pub fn rates_under(&self, response: Response, warmth: f64) -> Arc<Daily> {
        let of = |d: usize| response.expected(self.tmin[d] + warmth, self.tmax[d] + warmth, self.sd);
        self.rates.of(response.key(warmth), || std::array::from_fn(of))
    }

    /// The stretch between the day after which a frost comes with at most the chance `risk` and the day before
    /// which one comes with at most that chance; none where that is shorter than [`SHORTEST_SEASON`]. A whole year
    /// where frost is rarer than that.
    pub fn frost_free(&self, threshold: f64, risk: f64) -> Option<Span> {
        let curves = self.frost(threshold);
        let (first, last) = (curves.safe_from(risk)?, curves.safe_until(risk)?);
        if curves.share_spring() <= risk && curves.share_autumn() <= risk {
            return Some(Span { first, last: first.plus(-1), days: DAYS });
        }
        let days = num::wrap(num::signed(last.index()) - num::signed(first.index()), DAYS) + 1;
        let holds_peak =
            num::wrap(num::signed(curves.peak().index()) - num::signed(first.index()), DAYS) < days;
        (holds_peak && days >= SHORTEST_SEASON).then_some(Span { first, last, days })
    }

    /// The days between the even-chance last and first frost at a threshold, as the climate has them; none where
    /// frost comes in fewer than half of the years, or in every month.
    pub fn usual_season(&self, threshold: f64) -> Option<Span> {
        let curves = self.frost_plain(threshold);
        let (first, last) = (curves.last.five_in_10?.plus(1), curves.first.five_in_10?.plus(-1));
        let days = num::wrap(num::signed(last.index()) - num::signed(first.index()) + 1, DAYS);
        Some(Span { first, last, days })
    }

    /// Hours from sunrise to sunset on a date, within a minute to 60 degrees in any year. `daylength` is the mean year's:
    /// good enough for growth, but up to five minutes off where a date is read.
    pub fn light_on(&self, date: Date) -> f64 {
        sun::daylength(self.lat, self.lon, date, sun::RISE)
    }

    /// The longest stretch of days shorter than `hours`; none where every day is longer, or none is.
    pub fn days_under(&self, hours: f64) -> Option<Span> {
        longest(|day| self.daylength[day] < hours)
    }

    /// The longest stretch of days whose soil at 5 cm is at least `celsius` warm.
    pub fn soil_above(&self, celsius: f64) -> Option<Span> {
        longest(|day| self.soil[day] >= celsius)
    }

    /// Monthly means of a daily curve.
    pub fn monthly(daily: &Daily) -> Monthly {
        month_means(daily)
    }

    /// Rain by month, mm.
    pub const fn monthly_rain(&self) -> &Monthly {
        &self.monthly_rain
    }
}

/// The longest run of days of the ring of the year for which `holds`; none where it holds always or never.
fn longest(holds: impl Fn(usize) -> bool) -> Option<Span> {
    let start = (0..DAYS).find(|day| !holds(*day))?;
    let mut best: Option<(usize, usize)> = None;
    let mut run = 0;
    for step in 1..=DAYS {
        if holds((start + step) % DAYS) {
            run += 1;
            if best.is_none_or(|(_, days)| run > days) {
                best = Some((start + step, run));
            }
        } else {
            run = 0;
        }
    }
    best.map(|(end, days)| {
        let last = ClimateDay::new(num::signed(end));
        Span { first: last.plus(1 - num::signed(days)), last, days }
    })
}

/// 1 January, 1 July in the southern temperate zone, none between the tropics.
fn usual_start(lat: f64) -> Option<MonthDay> {
    if lat.abs() <= TROPIC {
        return None;
    }
    MonthDay::new(if lat < 0.0 { 7 } else { 1 }, 1)
}
