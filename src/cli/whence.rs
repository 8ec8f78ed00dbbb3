//! From flags to a climate: a preset or a garden's own, with what the grower knows better laid over it.

use super::answer::Trouble;
use super::args::Whence;
use super::here::Here;
use crate::crop::Book;
use crate::growth::Risk;
use crate::plan::{Plan, Settings};
use crate::site::station::{self, DailyFile, StationError};
use crate::site::{Normals, SiteSpec, SiteYear, Weather, presets};
use crate::store;
use crate::units::Measure;
use std::borrow::Cow;
use std::path::Path;
use std::sync::Arc;

/// A climate, computed, and how it is to be read.
#[derive(Debug, Clone)]
pub(super) struct Climate {
    /// What was given.
    pub(super) spec: SiteSpec,
    /// What comes of it.
    pub(super) year: SiteYear,
    /// Frost risk to take.
    pub(super) risk: Risk,
    /// Units to show.
    pub(super) measure: Measure,
    /// Where it came from: the garden's settings, for commands that want more of them.
    pub(super) plan: Option<Plan>,
    /// Real days of a daily file.
    pub(super) weather: Option<Arc<Weather>>,
    /// Remarks by the way.
    pub(super) said: Vec<String>,
}

/// The climate the flags name.
///
/// # Errors
/// Where they name none, a file cannot be read, or a figure cannot be.
pub(super) fn climate(whence: &Whence, here: &Here) -> Result<Climate, Trouble> {
    let mut said = Vec::new();
    let mut plan = None;
    let daily = whence.daily.as_deref().map(daily).transpose()?;
    let mut spec = match &whence.site {
        Some(of) => named(of, here, &mut plan, &mut said)?,
        None => unnamed(whence, daily.as_ref())?,
    };
    if let (Some(lat), Some(lon)) = (whence.lat, whence.lon) {
        (spec.lat, spec.lon) = (lat, lon);
    }
    spec.elevation = whence.elevation.or(spec.elevation);
    spec.cold_pocket = whence.cold_pocket.or(spec.cold_pocket);
    if let Some(normals) = normals(whence)? {
        // Frosts of another place of record say nothing about these temperatures.
        spec = SiteSpec {
            name: spec.name,
            lat: spec.lat,
            lon: spec.lon,
            elevation: spec.elevation,
            cold_pocket: spec.cold_pocket,
            normals: Some(normals),
            source: String::from("normals given by the grower"),
            ..SiteSpec::default()
        };
    }
    spec.zone_min = whence.zone.or(spec.zone_min);
    spec.frost_days = whence.frost_days.or(spec.frost_days);
    if let (Some(path), Some(file)) = (&whence.daily, &daily) {
        match file.apply(&spec) {
            Ok(of_file) => {
                said.push(format!("{}: {}", path.display(), file.words()));
                spec = of_file;
            }
            // Too short for a climate, it is the weather of those days at a place that is known otherwise.
            Err(_) if spec.normals.is_some() || spec.preset.is_some() => {}
            Err(error) => return Err(unfit(path, &error)),
        }
    }
    spec.last_frost = whence.last_frost.or(spec.last_frost);
    spec.first_frost = whence.first_frost.or(spec.first_frost);
    let settings = plan.as_ref().map(|p: &Plan| &p.settings);
    let home = spec.preset.as_deref().and_then(presets::find).map(|p| p.country);
    let year = SiteYear::new(&spec)?;
    let short = spec.station.is_none();
    let weather = daily.map(|file| Weather::new(&file, &year)).transpose();
    let weather = weather.map_err(|e| Trouble::Wrong(e.to_string()))?.map(Arc::new);
    if let Some(weather) = weather.as_ref().filter(|_| short) {
        said.push(format!("weather {}; expected weather after it", weather.words()));
    }
    Ok(Climate {
        year,
        weather,
        risk: whence.risk.map_or_else(|| settings.map_or(Risk::Usual, |s| s.risk), Risk::from),
        measure: whence.measure.map(Measure::from).or_else(|| settings.map(|s| s.measure)).unwrap_or(
            match home {
                Some("US") => Measure::Us,
                _ => Measure::Metric,
            },
        ),
        spec,
        plan,
        said,
    })
}

fn named(
    of: &str,
    here: &Here,
    plan: &mut Option<Plan>,
    said: &mut Vec<String>,
) -> Result<SiteSpec, Trouble> {
    let unknown = match SiteSpec::from_preset(of) {
        Ok(spec) => return Ok(spec),
        Err(error) => error,
    };
    let path = Path::new(of);
    if !path.exists() && path.extension().is_none() {
        return Err(unknown.into());
    }
    let loaded = store::look(path, &book(Some(path), here, said))?;
    said.extend(loaded.said);
    let spec = loaded.plan.site.clone();
    *plan = Some(loaded.plan);
    Ok(spec)
}

/// The daily file at a path.
fn daily(path: &Path) -> Result<DailyFile, Trouble> {
    station::read(&store::read_bytes(path)?).map_err(|error| unfit(path, &error))
}

fn unfit(path: &Path, error: &StationError) -> Trouble {
    Trouble::Wrong(format!("{}: {error}", path.display()))
}

/// A place by its coordinates: those given, or those of the daily file's station.
fn unnamed(whence: &Whence, daily: Option<&DailyFile>) -> Result<SiteSpec, Trouble> {
    let station = daily.and_then(|file| file.place).map(|(lat, lon, _)| (lat, lon));
    let Some((lat, lon)) = whence.lat.zip(whence.lon).or(station) else {
        if daily.is_some() {
            return Err(Trouble::wrong(
                "the daily file does not say where its station lies: give --lat and --lon with it",
            ));
        }
        return Err(Trouble::wrong(
            "no place given: name a built-in climate or a garden ('catchcrop site' lists the climates), or give --lat \
             and --lon with average frost dates, normals or a daily file",
        ));
    };
    let name = format!("{:.2} {}, {:.2} {}", lat.abs(), side(lat, "N", "S"), lon.abs(), side(lon, "E", "W"));
    let source = match (whence.last_frost, whence.first_frost) {
        (Some(_), Some(_)) => String::from("average frost dates given by the grower"),
        _ => String::new(),
    };
    Ok(SiteSpec { name, lat, lon, source, ..SiteSpec::default() })
}

fn side(degrees: f64, positive: &'static str, negative: &'static str) -> &'static str {
    if degrees < 0.0 { negative } else { positive }
}

fn normals(whence: &Whence) -> Result<Option<Normals>, Trouble> {
    match (whence.tmax, whence.tmin) {
        (Some(tmax), Some(tmin)) => Ok(Some(Normals { tmax, tmin, rain: whence.rain.unwrap_or_default() })),
        (None, None) if whence.rain.is_none() => Ok(None),
        _ => Err(Trouble::wrong("normals are twelve maxima and twelve minima: give --tmax and --tmin both")),
    }
}

/// The crop book for a garden: the program's, the config folder's and the garden's own; what is left out is said.
pub(super) fn book(plan: Option<&Path>, here: &Here, said: &mut Vec<String>) -> Cow<'static, Book> {
    let beside = plan.map(|p| p.parent().unwrap_or_else(|| Path::new("")));
    let folders: Vec<&Path> = here.config.as_deref().into_iter().chain(beside).collect();
    let shelf = store::shelf(&folders);
    said.extend(shelf.faults.iter().map(ToString::to_string));
    shelf.book
}

/// Settings of the garden, or the usual ones for a measure.
pub(super) fn settings(climate: &Climate) -> Settings {
    climate.plan.as_ref().map_or_else(|| Settings::for_measure(climate.measure), |p| p.settings.clone())
}
