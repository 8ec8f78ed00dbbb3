//! Under which conditions a planting is looked at: the site's year, the grower's choices, a cover, a raising place.

use super::choice::{Method, Risk};
use super::pace::{Curve, Pace, response};
use super::tick::Tick;
use crate::crop::{Crop, CropId};
use crate::site::{FrostCurves, SiteYear, Weather};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// Temperature of a raising place where the grower names none, degrees Celsius: a warm room (common practice).
pub const ROOM: f64 = 20.0;

/// Growth curves computed so far, by response and warmth. The same question always has the same answer.
type Known = Arc<Mutex<Vec<([i64; 4], Arc<Curve>)>>>;

/// The conditions of a planting. Cheap to copy: copies share the growth curves already computed.
#[derive(Debug, Clone)]
pub struct Conditions<'a> {
    /// The site's year.
    pub year: &'a SiteYear,
    /// How maturity is computed; a site known by its frost dates alone always counts days.
    pub method: Method,
    /// Frost risk the grower takes.
    pub risk: Risk,
    /// Mean temperature of the raising place, degrees Celsius.
    pub raising: f64,
    /// How much warmer it is by day under a cover, degrees.
    pub warmth: f64,
    /// How much milder the night is under a cover, degrees.
    pub frost_gain: f64,
    own: Arc<BTreeMap<CropId, f64>>,
    weather: Option<Arc<Weather>>,
    known: Known,
}

impl<'a> Conditions<'a> {
    /// In the open, with the usual risk, by heat, seedlings raised in a warm room.
    pub fn new(year: &'a SiteYear) -> Self {
        Self {
            year,
            method: Method::default(),
            risk: Risk::default(),
            raising: ROOM,
            warmth: 0.0,
            frost_gain: 0.0,
            own: Arc::default(),
            weather: None,
            known: Arc::default(),
        }
    }
    /// The same by another method.
    pub const fn by(mut self, method: Method) -> Self {
        self.method = method;
        self
    }
    /// The same at another risk.
    pub const fn at(mut self, risk: Risk) -> Self {
        self.risk = risk;
        self
    }
    /// The same under a cover: degrees warmer by day, degrees milder by night.
    pub const fn under(mut self, warmth: f64, frost_gain: f64) -> Self {
        self.warmth = warmth;
        self.frost_gain = frost_gain;
        self
    }
    /// The same with days to maturity learnt in this garden.
    pub fn knowing(mut self, own: BTreeMap<CropId, f64>) -> Self {
        self.own = Arc::new(own);
        self
    }
    /// The same with weather that has been: real temperatures on its days, expected ones on all others.
    pub fn lived(mut self, weather: Arc<Weather>) -> Self {
        self.weather = Some(weather);
        self.known = Arc::default();
        self
    }
    /// The weather that has been, where it is known.
    pub fn weather(&self) -> Option<&Weather> {
        self.weather.as_deref()
    }
    /// The method that is really used: days where the site is known by its frost dates alone.
    pub const fn counts_by(&self) -> Method {
        if self.year.catalogue { Method::Catalogue } else { self.method }
    }
    /// Days to maturity of a crop: this garden's own where known, the book's middle figure elsewhere.
    pub fn maturity(&self, crop: &Crop) -> f64 {
        let own = if self.own.is_empty() { None } else { self.own.get(&crop.id) };
        own.copied().unwrap_or_else(|| crop.days.usual())
    }
    /// What counts the days of a crop.
    pub(super) fn pace(&self, crop: &Crop) -> Pace {
        match self.counts_by() {
            Method::Catalogue => Pace::Days,
            Method::Heat => Pace::Heat(self.curve(crop)),
        }
    }
    /// The growth curve of a crop here.
    pub(super) fn curve(&self, crop: &Crop) -> Arc<Curve> {
        let (response, reference) = response(crop);
        let key = response.key(sound(self.warmth));
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, curve)) = known.iter().find(|(k, _)| *k == key) {
            return Arc::clone(curve);
        }
        let curve = Arc::new(Curve::new(self.year, response, reference, sound(self.warmth), self.weather()));
        known.push((key, Arc::clone(&curve)));
        curve
    }
    /// Chances of nights that kill at a threshold, a cover's gain allowed for.
    pub(super) fn frost(&self, threshold: f64) -> Arc<FrostCurves> {
        self.year.frost(threshold - sound(self.frost_gain))
    }
    /// Soil temperature under the cover, if any.
    pub(super) fn soil(&self, day: Tick) -> f64 {
        let excess = self.weather().and_then(|w| w.soil_excess(day.date())).unwrap_or(0.0);
        self.year.soil[day.index()] + excess + sound(self.warmth)
    }
    /// Mean air temperature under the cover, if any.
    pub(super) fn mean(&self, day: Tick) -> f64 {
        let real = self.weather().and_then(|w| w.on(day.date())).map(|d| d.tmin.midpoint(d.tmax));
        real.unwrap_or_else(|| self.year.tmean[day.index()]) + sound(self.warmth)
    }
    /// The day from which frost is still a matter of chance for what is outside since `exposed`: the day after the
    /// known weather, where that holds no night at or below `threshold`.
    pub(super) fn unproven(&self, threshold: f64, exposed: Tick) -> Tick {
        let Some(weather) = self.weather() else { return exposed };
        let (from, to) = (exposed.date(), weather.last());
        if from < weather.first() || from > to || weather.missing(from..=to) > 0 {
            return exposed;
        }
        match weather.frost(threshold - sound(self.frost_gain), from..=to) {
            Some(_) => exposed,
            None => Tick::of(to).plus(1),
        }
    }
}

/// A finite number of degrees within reason.
pub(super) fn sound(degrees: f64) -> f64 {
    if degrees.is_finite() { degrees.clamp(-60.0, 60.0) } else { 0.0 }
}
