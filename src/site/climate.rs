//! From what the grower gave to daily temperatures, rain and a frost model.

use super::day::{DAYS, Daily, Monthly, apart, shift, warmest};
use super::frost::{
    ANCHOR_LIMIT, CountedHalf, FrostModel, Half, HalfSource, anchor, from_frost_days, from_normals,
    from_zone, smooth,
};
use super::spec::{Normals, SiteError, SiteSpec};
use super::station::{CountedFrost, LEAST_COUNTED};
use super::trust::{Input, Trust};
use super::{degree, normals, presets};
use crate::calendar::{ClimateDay, MonthDay};
use crate::units::{Degrees, Length, Temperature, num};
use std::f64::consts::PI;
use std::fmt;

/// Fall of temperature with height, degrees Celsius a metre: 3.5 F in 1000 ft (common practice).
pub const LAPSE: f64 = 3.5 / 1.8 / 304.8;
/// Mean normal minimum on the average last and first frost dates, degrees Celsius (measured, SD 1.8).
const ON_LAST: f64 = 5.0;
const ON_FIRST: f64 = 4.7;

/// Something the grower should know about the figures.
#[derive(Debug, Clone, PartialEq)]
pub enum Warning {
    /// Dates and normals do not belong together; the dates are used without the normals' spread.
    FarDates {
        /// "last" or "first".
        which: &'static str,
        /// As given.
        date: MonthDay,
    },
    /// The temperatures come from a like place.
    Borrowed(&'static str),
    /// The temperatures were moved by height.
    Moved {
        /// Metres above the place of record.
        rise: f64,
        /// Degrees added.
        degrees: f64,
    },
    /// The normals are recalled, not read.
    FromMemory,
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FarDates { which, date } => write!(
                f,
                "the average {which} frost, {}, would need nights more than {ANCHOR_LIMIT} C away from the normals: \
                 the date is used alone, with the usual spread; choose a climate nearer to yours for the heat",
                date.words()
            ),
            Self::Borrowed(name) => write!(
                f,
                "with frost dates alone, temperatures are borrowed from {name} and moved to fit the dates: days to \
                 maturity are the catalogue's and may be a quarter off either way"
            ),
            Self::Moved { rise, degrees } => {
                let (much, side) = (rise.abs(), if *rise > 0.0 { "above" } else { "below" });
                write!(
                    f,
                    "the garden lies {much:.0} m {side} the place of record: temperatures moved by {degrees:+.1} C"
                )
            }
            Self::FromMemory => f.write_str("the normals are from memory and approximate"),
        }
    }
}

/// Daily temperatures and rain, and the frost model that goes with them.
pub(super) struct Climate {
    pub(super) tmax: Daily,
    pub(super) tmin: Daily,
    pub(super) rain: Daily,
    pub(super) monthly_rain: Monthly,
    pub(super) sd: f64,
    pub(super) frost: FrostModel,
    pub(super) trust: Trust,
    pub(super) alone: bool,
    pub(super) warnings: Vec<Warning>,
}

/// Computes the climate of a site whose preset is resolved and whose figures are verified.
pub(super) fn climate(spec: &SiteSpec) -> Result<Climate, SiteError> {
    match (&spec.normals, spec.last_frost, spec.first_frost) {
        (Some(normals), _, _) => from_record(spec, normals),
        (None, Some(last), Some(first)) => from_dates(spec, last, first),
        _ => Err(SiteError::NoClimate(spec.name.clone())),
    }
}

fn pocket(spec: &SiteSpec) -> f64 {
    spec.cold_pocket.map_or(0.0, Degrees::celsius)
}

fn from_record(spec: &SiteSpec, record: &Normals) -> Result<Climate, SiteError> {
    let mut warnings = Vec::new();
    if spec.source.starts_with("from memory") {
        warnings.push(Warning::FromMemory);
    }
    let rise = match (spec.elevation, spec.record_elevation) {
        (Some(garden), Some(record)) => Length::m(garden) - record.m(),
        _ => 0.0,
    };
    let degrees = -LAPSE * rise;
    let here = record.moved(degrees);
    if rise.abs() >= 30.0 {
        warnings.push(Warning::Moved { rise, degrees });
    }
    let tmin = normals::daily(&here.tmin);
    let sigma = smooth(&spread(spec, record));
    let station = spec.station.as_ref();
    let peak = station.map_or_else(|| warmest(&tmin), |s| s.peak % DAYS);
    let plain = match station {
        Some(_) => Input::ShortRecord,
        None if spec.frost_days.is_some() => Input::FrostDays,
        None if spec.zone_min.is_some() => Input::Zone,
        None => Input::NormalsAlone,
    };
    let site = Nights { tmin: &tmin, sigma: &sigma, peak, plain };
    let counted = |half| counted(spec, half, degrees);
    let spring = site.half(
        Half::Spring,
        spec.last_frost,
        spec.record_last_frost,
        counted(Half::Spring),
        &mut warnings,
        degrees,
    )?;
    let autumn = site.half(
        Half::Autumn,
        spec.first_frost,
        spec.record_first_frost,
        counted(Half::Autumn),
        &mut warnings,
        degrees,
    )?;
    let trust = Trust { spring: spring.1, autumn: autumn.1 };
    Ok(Climate {
        tmax: normals::daily(&here.tmax),
        tmin,
        rain: normals::spread(&here.rain),
        monthly_rain: here.rain,
        sd: station.map_or(degree::USUAL_SD, |s| s.mean_sd),
        frost: FrostModel { mu: tmin, sigma, peak, pocket: pocket(spec), spring: spring.0, autumn: autumn.0 },
        trust,
        alone: false,
        warnings,
    })
}

/// Monthly spread of single nights from the best evidence there is, at the place of record.
fn spread(spec: &SiteSpec, record: &Normals) -> Monthly {
    if let Some(station) = &spec.station {
        return station.tmin_sd;
    }
    let formula = spec.zone_min.map_or_else(
        || from_normals(&record.tmin, &record.rain),
        |zone| from_zone(&record.tmin, Temperature::celsius(zone)),
    );
    spec.frost_days.map_or(formula, |days| from_frost_days(&record.tmin, &days, &formula))
}

/// The station's counted dates for one half, with thresholds moved to the garden's height.
fn counted(spec: &SiteSpec, half: Half, degrees: f64) -> Vec<CountedHalf> {
    let Some(station) = &spec.station else { return Vec::new() };
    let at = |c: &CountedFrost| {
        let threshold = c.threshold + degrees;
        let seasons = match half {
            Half::Spring => c.springs,
            Half::Autumn => c.autumns,
        };
        let (share, places) = match half {
            Half::Spring => (c.share_spring, c.last),
            Half::Autumn => (c.share_autumn, c.first.map(|t| t.map(|t| 182.0 - t))),
        };
        (seasons >= LEAST_COUNTED).then_some(CountedHalf { threshold, share, places })
    };
    station.counted.iter().filter_map(at).collect()
}

/// The nights of a place of record.
struct Nights<'a> {
    tmin: &'a Daily,
    sigma: &'a Daily,
    peak: usize,
    /// What the dates come from where no date is known.
    plain: Input,
}

impl Nights<'_> {
    /// What is known of one half: the grower's own date before the record's, the record's before none.
    fn half(
        &self,
        half: Half,
        own: Option<MonthDay>,
        record: Option<MonthDay>,
        counted: Vec<CountedHalf>,
        warnings: &mut Vec<Warning>,
        degrees: f64,
    ) -> Result<(HalfSource, Input), SiteError> {
        let source = |offset, date, counted, input: Input| {
            (HalfSource { offset, date, counted, error: input.error() }, input)
        };
        let which = match half {
            Half::Spring => "last",
            Half::Autumn => "first",
        };
        // A record's date belongs to the height of the record; the offset it asks for holds at any height.
        let (date, moved) = match (own, record) {
            (Some(own), _) => (own, 0.0),
            (None, Some(record)) if counted.is_empty() => (record, degrees),
            _ => {
                let input = if counted.is_empty() { self.plain } else { Input::Counted };
                return Ok(source(0.0, None, counted, input));
            }
        };
        let Some(place) = half.place(self.peak, date.climate_day().index()).filter(|j| (2..=180).contains(j))
        else {
            let side = if half == Half::Spring { "after" } else { "before" };
            let peak = ClimateDay::new(num::signed(self.peak)).month_day().words();
            return Err(SiteError::WrongHalf { which, date, side, peak });
        };
        let mu = half.of(self.peak, self.tmin).map(|m| m - moved);
        if let Some(offset) = anchor(&mu, &half.of(self.peak, self.sigma), place) {
            Ok(source(offset, None, Vec::new(), Input::NormalsAndDates))
        } else {
            warnings.push(Warning::FarDates { which, date });
            Ok(source(0.0, Some(num::real(place)), Vec::new(), Input::DatesAlone))
        }
    }
}

/// A climate from two dates: a like preset's temperatures, moved to fit.
fn from_dates(spec: &SiteSpec, last: MonthDay, first: MonthDay) -> Result<Climate, SiteError> {
    let (from, to) = (last.climate_day().index(), first.climate_day().index());
    let free = num::real(shift(to, -num::signed(from)));
    let peak = shift(from, num::round_i(free / 2.0));
    let summer = if spec.lat < 0.0 { 17 } else { 199 };
    if spec.lat.abs() > 15.0 && apart(peak, summer).abs() > 110 {
        let peak = ClimateDay::new(num::signed(summer)).month_day().words();
        return Err(SiteError::WrongHalf { which: "last", date: last, side: "after", peak });
    }
    let like = alike(spec, free);
    let (mut low, mut high) = (normals::daily(&like.normals.tmin), normals::daily(&like.normals.tmax));
    let turn = apart(warmest(&low), peak);
    let turned = |daily: &Daily| std::array::from_fn(|d| daily[shift(d, -turn)]);
    (low, high) = (turned(&low), turned(&high));
    if let Some(zone) = spec.zone_min {
        // With the hardiness zone the swing of the year is known: a harmonic through both dates
        // (residual 1.4 C over 30 stations); the daily range stays the like place's.
        let height = spec.elevation.map_or(0.0, |e| Length::m(e) / 1000.0);
        let swing = (-10.1 - 0.494 * zone.celsius() + 0.058 * free + 1.03 * height).clamp(1.0, 30.0);
        let mean = 4.85 - swing * (PI * free / 365.0).cos();
        for day in 0..DAYS {
            let range = high[day] - low[day];
            let phase = 2.0 * PI * num::real_i(apart(peak, day)) / 365.0;
            low[day] = mean + swing * phase.cos();
            high[day] = low[day] + range;
        }
    } else {
        let degrees = (ON_LAST - low[from]).midpoint(ON_FIRST - low[to]);
        low = low.map(|t| t + degrees);
        high = high.map(|t| t + degrees);
    }
    let tmin_months = super::day::month_means(&low);
    let rain = like.normals.rain;
    let sigma = spec
        .zone_min
        .map_or_else(|| from_normals(&tmin_months, &rain), |zone| from_zone(&tmin_months, zone.celsius()));
    // Each date at its own distance from the warmest day, which lies on a whole day between them.
    let half = |away: f64| HalfSource {
        offset: 0.0,
        date: Some(182.0 - away),
        counted: Vec::new(),
        error: Input::DatesAlone.error(),
    };
    Ok(Climate {
        tmax: high,
        tmin: low,
        rain: normals::spread(&rain),
        monthly_rain: rain,
        sd: degree::USUAL_SD,
        frost: FrostModel {
            mu: low,
            sigma: smooth(&sigma),
            peak,
            pocket: pocket(spec),
            spring: half((free / 2.0).round()),
            autumn: half(free - (free / 2.0).round()),
        },
        trust: Trust { spring: Input::DatesAlone, autumn: Input::DatesAlone },
        alone: true,
        warnings: vec![Warning::Borrowed(like.name)],
    })
}

/// A preset's climate, on the garden's side of the equator.
struct Like {
    name: &'static str,
    normals: Normals,
}

/// The preset most like a place in latitude, height and frost-free days.
fn alike(spec: &SiteSpec, free: f64) -> Like {
    let height = spec.elevation.map_or(200.0, Length::m);
    let far = |preset: &presets::Preset| {
        let warm = normals::daily(&preset.normals.tmin).iter().filter(|t| **t >= ON_LAST).count();
        (preset.lat.abs() - spec.lat.abs()).abs() / 5.0
            + (preset.elevation - height).abs() / 300.0
            + (num::real(warm) - free).abs() / 20.0
    };
    let best = presets::all().iter().min_by(|a, b| far(a).total_cmp(&far(b)));
    let Some(best) = best else {
        let flat = |t: f64| [t; 12];
        return Like {
            name: "nowhere",
            normals: Normals { tmax: flat(15.0), tmin: flat(5.0), rain: flat(60.0) },
        };
    };
    let normals =
        if best.lat.signum() == spec.lat.signum() { best.normals.clone() } else { best.normals.turned() };
    Like { name: best.name, normals }
}
