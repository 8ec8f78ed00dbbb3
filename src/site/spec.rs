//! What a grower tells of the place: the part of a site that is kept in a plan file.

use super::day::{MONTH_DAYS, Monthly};
use super::presets;
use super::shade::Obstacle;
use super::station::StationSummary;
use crate::calendar::{MONTHS, MonthDay};
use crate::units::num;
use crate::units::{Degrees, Length, LengthUnit, TempUnit, Temperature};
use serde::{Deserialize, Serialize};

/// Monthly means of a climate, January first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Normals {
    /// Mean daily maximum, degrees Celsius.
    pub tmax: Monthly,
    /// Mean daily minimum, degrees Celsius.
    pub tmin: Monthly,
    /// Rain and melted snow, mm a month.
    pub rain: Monthly,
}

/// A place as the grower gives it. Every field but the position may be left out; the more there is, the smaller
/// the error of the dates.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SiteSpec {
    /// Name to read.
    pub name: String,
    /// Id of the built-in climate the figures were taken from. Without `normals` they are looked up by it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub preset: Option<String>,
    /// Latitude in degrees, north positive.
    pub lat: f64,
    /// Longitude in degrees, east positive.
    pub lon: f64,
    /// Height of the garden above the sea.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub elevation: Option<Length>,
    /// Normals of the nearest place of record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub normals: Option<Normals>,
    /// Height of the place of record; where the garden's differs, temperatures are moved by the usual lapse.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record_elevation: Option<Length>,
    /// Median last frost at the place of record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record_last_frost: Option<MonthDay>,
    /// Median first frost at the place of record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record_first_frost: Option<MonthDay>,
    /// Days of frost a month at the place of record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frost_days: Option<Monthly>,
    /// Mean of the yearly lowest temperature at the place of record (middle of its hardiness zone).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub zone_min: Option<Temperature>,
    /// The grower's own average last frost in spring (0 C).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last_frost: Option<MonthDay>,
    /// The grower's own average first frost in autumn (0 C).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub first_frost: Option<MonthDay>,
    /// How much colder still nights are in the garden than where the dates come from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cold_pocket: Option<Degrees>,
    /// How much warmer the soil thermometer reads than the computed soil.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soil_offset: Option<Degrees>,
    /// The day seasons begin, where the grower sets it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub season_start: Option<MonthDay>,
    /// What a daily station file boiled down to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub station: Option<StationSummary>,
    /// The way the top of the site plan points, degrees clockwise of true north.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub plan_turn: f64,
    /// What casts shadows on the beds.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub obstacles: Vec<Obstacle>,
    /// Where the figures come from.
    #[serde(default)]
    pub source: String,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands out references")]
fn is_zero(x: &f64) -> bool {
    x.abs() < 1e-9
}

/// Why a site cannot be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SiteError {
    /// Not a latitude.
    #[error("latitude {0} is outside -90..90: give degrees, north positive")]
    Latitude(f64),
    /// Not a longitude.
    #[error("longitude {0} is outside -180..180: give degrees, east positive")]
    Longitude(f64),
    /// No built-in climate of that id.
    #[error("there is no built-in climate '{id}'{}", hint(*.near))]
    UnknownPreset {
        /// What was asked for.
        id: String,
        /// The id most like it.
        near: Option<&'static str>,
    },
    /// Neither normals nor both frost dates.
    #[error(
        "'{0}' has no climate yet: give a preset, or twelve normals, or a daily station file, or both the average \
         last and the average first frost date"
    )]
    NoClimate(String),
    /// A normal that cannot be.
    #[error("{month}: {what} is {value}, which cannot be; {want}")]
    Normal {
        /// Short name of the month.
        month: &'static str,
        /// Which figure.
        what: &'static str,
        /// What was given.
        value: f64,
        /// What is wanted.
        want: &'static str,
    },
    /// A single figure out of range.
    #[error("{what} is {value}, outside {low}..{high}: {want}")]
    Figure {
        /// Which figure.
        what: &'static str,
        /// What was given.
        value: f64,
        /// Least.
        low: f64,
        /// Most.
        high: f64,
        /// What is wanted.
        want: &'static str,
    },
    /// An obstacle that cannot stand.
    #[error("the obstacle '{name}' {trouble}")]
    Obstacle {
        /// The grower's name for it.
        name: String,
        /// What is wrong and what to do.
        trouble: &'static str,
    },
    /// A frost date in the wrong half of the year.
    #[error(
        "the average {which} frost, {date}, lies {side} the warmest day ({peak}) here: are the two dates exchanged, \
         or is the sign of the latitude wrong?"
    )]
    WrongHalf {
        /// "last" or "first".
        which: &'static str,
        /// As given.
        date: MonthDay,
        /// "after" or "before".
        side: &'static str,
        /// The warmest day of the normals.
        peak: String,
    },
}

fn hint(near: Option<&str>) -> String {
    near.map_or_else(|| "; `catchcrop site` lists them".to_owned(), |id| format!("; did you mean '{id}'?"))
}

impl SiteSpec {
    /// A garden at the place of a built-in climate, with its figures copied in, so that a plan stands alone.
    pub fn from_preset(id: &str) -> Result<Self, SiteError> {
        let preset = presets::find(id)
            .ok_or_else(|| SiteError::UnknownPreset { id: id.to_owned(), near: presets::nearest(id) })?;
        Ok(Self {
            name: preset.name.to_owned(),
            preset: Some(preset.id.to_owned()),
            lat: preset.lat,
            lon: preset.lon,
            normals: Some(preset.normals.clone()),
            record_elevation: Some(Length::new(preset.elevation, LengthUnit::M)),
            record_last_frost: preset.last_frost,
            record_first_frost: preset.first_frost,
            frost_days: preset.frost_days,
            zone_min: preset.zone_min.map(|t| Temperature::new(t, TempUnit::C)),
            source: preset.source.to_owned(),
            ..Self::default()
        })
    }

    /// A garden of which only position (latitude, longitude) and the average last and first frost are known.
    pub fn from_dates(name: &str, (lat, lon): (f64, f64), spring: MonthDay, autumn: MonthDay) -> Self {
        Self {
            name: name.to_owned(),
            lat,
            lon,
            last_frost: Some(spring),
            first_frost: Some(autumn),
            source: "average frost dates given by the grower".to_owned(),
            ..Self::default()
        }
    }

    /// The same with normals filled in from the preset where it names one and has none.
    pub(super) fn resolved(&self) -> Result<Self, SiteError> {
        match (&self.preset, &self.normals) {
            (Some(id), None) => {
                let base = Self::from_preset(id)?;
                Ok(Self {
                    normals: base.normals,
                    record_elevation: self.record_elevation.or(base.record_elevation),
                    record_last_frost: self.record_last_frost.or(base.record_last_frost),
                    record_first_frost: self.record_first_frost.or(base.record_first_frost),
                    frost_days: self.frost_days.or(base.frost_days),
                    zone_min: self.zone_min.or(base.zone_min),
                    source: if self.source.is_empty() { base.source } else { self.source.clone() },
                    ..self.clone()
                })
            }
            _ => Ok(self.clone()),
        }
    }

    /// Refuses figures that cannot be.
    pub fn verify(&self) -> Result<(), SiteError> {
        if !(-90.0..=90.0).contains(&self.lat) {
            return Err(SiteError::Latitude(self.lat));
        }
        if !(-180.0..=180.0).contains(&self.lon) {
            return Err(SiteError::Longitude(self.lon));
        }
        if let Some(normals) = &self.normals {
            normals.verify()?;
        }
        if let Some(days) = &self.frost_days {
            for (month, &value) in days.iter().enumerate() {
                if !(0.0..=num::real(MONTH_DAYS[month]) + 0.3).contains(&value) {
                    let (month, what) = (MONTHS[month], "the number of frost days");
                    return Err(SiteError::Normal { month, what, value, want: "give days a month" });
                }
            }
        }
        let metres = "give the height above the sea";
        range("the elevation", self.elevation.map(Length::m), -450.0, 6000.0, metres)?;
        range("the elevation of record", self.record_elevation.map(Length::m), -450.0, 6000.0, metres)?;
        let coldest = "give the mean of the yearly lowest temperature";
        range("the zone minimum", self.zone_min.map(Temperature::celsius), -70.0, 25.0, coldest)?;
        let degrees = "give a few degrees, positive where the garden is colder";
        range("the cold pocket", self.cold_pocket.map(Degrees::celsius), -8.0, 10.0, degrees)?;
        let soil = "give a few degrees, positive where the soil is warmer";
        range("the soil offset", self.soil_offset.map(Degrees::celsius), -10.0, 10.0, soil)?;
        range(
            "the turn of the plan",
            Some(self.plan_turn),
            -360.0,
            360.0,
            "give degrees clockwise of north",
        )?;
        for obstacle in &self.obstacles {
            obstacle.verify()?;
        }
        self.station.as_ref().map_or(Ok(()), StationSummary::verify)
    }
}

pub(super) fn range(
    what: &'static str,
    value: Option<f64>,
    low: f64,
    high: f64,
    want: &'static str,
) -> Result<(), SiteError> {
    match value {
        Some(value) if !(low..=high).contains(&value) => {
            Err(SiteError::Figure { what, value, low, high, want })
        }
        _ => Ok(()),
    }
}

impl Normals {
    /// Refuses figures that cannot be.
    pub fn verify(&self) -> Result<(), SiteError> {
        for (month, name) in MONTHS.into_iter().enumerate() {
            let refuse = |what, value, want| Err(SiteError::Normal { month: name, what, value, want });
            let (tmax, tmin, rain) = (self.tmax[month], self.tmin[month], self.rain[month]);
            let celsius = "give degrees Celsius between -70 and 55";
            if !(-70.0..=55.0).contains(&tmax) {
                return refuse("the mean maximum", tmax, celsius);
            }
            if !(-70.0..=55.0).contains(&tmin) {
                return refuse("the mean minimum", tmin, celsius);
            }
            if tmin > tmax {
                return refuse("the mean minimum", tmin, "it may not be above the mean maximum");
            }
            if !(0.0..=3000.0).contains(&rain) {
                return refuse("rain", rain, "give mm a month");
            }
        }
        Ok(())
    }

    /// The same climate on the other side of the equator.
    pub(super) fn turned(&self) -> Self {
        let turn = |m: &Monthly| std::array::from_fn(|i| m[(i + 6) % 12]);
        Self { tmax: turn(&self.tmax), tmin: turn(&self.tmin), rain: turn(&self.rain) }
    }

    /// Every temperature moved by so many degrees.
    pub(super) fn moved(&self, degrees: f64) -> Self {
        Self { tmax: self.tmax.map(|t| t + degrees), tmin: self.tmin.map(|t| t + degrees), rain: self.rain }
    }
}
