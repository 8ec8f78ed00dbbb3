//! How fast a crop moves through its days: by warmth, or a day a day.

use crate::calendar::{Date, days_between, plus};
use crate::crop::{Clock, Crop, Season};
use crate::site::day::{DAYS, Daily};
use crate::site::degree::{Ceiling, Response};
use crate::site::{SiteYear, Weather};
use crate::units::{Temperature, num};
use std::sync::Arc;

use super::tick::Tick;

/// Mean temperature of a day at which a cool-season crop keeps to its catalogue days, degrees Celsius.
pub const COOL_REFERENCE: f64 = 18.0;
/// The same for a warm-season crop.
pub const WARM_REFERENCE: f64 = 21.0;
/// Years looked ahead.
const REACH: i64 = 2;
/// Rounding room of a sum of daily rates.
const HAIR: f64 = 1e-9;

/// A growth curve at a site: expected degree days of each day and their running sum.
#[derive(Debug, PartialEq)]
pub(super) struct Curve {
    rate: Daily,
    /// Sum of the rates of the days before.
    sums: [f64; DAYS + 1],
    /// Degree days of a day at the reference temperature.
    reference: f64,
    lived: Lived,
}

/// What known weather gave beyond the expected rates.
#[derive(Debug, Default, PartialEq)]
struct Lived {
    /// The first known day.
    first: Option<Tick>,
    /// Sum of the surplus of the days before, from the first known day on.
    sums: Vec<f64>,
}

impl Lived {
    fn new(rate: &Daily, response: Response, warmth: f64, weather: Option<&Weather>) -> Self {
        let Some(weather) = weather else { return Self::default() };
        let (first, last) = (Tick::of(weather.first()), Tick::of(weather.last()));
        let mut sums = vec![0.0];
        let mut sum = 0.0;
        for n in 0..=first.until(last) {
            let day = first.plus(n);
            if let Some(real) = weather.on(day.date()) {
                sum += response.day(real.tmin + warmth, real.tmax + warmth) - rate[day.index()];
            }
            sums.push(sum);
        }
        Self { first: Some(first), sums }
    }
    /// Surplus of the known days before the start of `day`.
    fn before(&self, day: Tick) -> f64 {
        let Some(first) = self.first else { return 0.0 };
        let at = first.until(day);
        if at <= 0 {
            return 0.0;
        }
        self.sums.get(num::count(at)).or_else(|| self.sums.last()).copied().unwrap_or(0.0)
    }
    /// Surplus of one day.
    fn on(&self, day: Tick) -> f64 {
        self.before(day.plus(1)) - self.before(day)
    }
    /// The first day that is not known.
    fn end(&self) -> Option<Tick> {
        self.first.map(|first| first.plus(num::signed(self.sums.len()) - 1))
    }
}

impl Curve {
    /// The curve of a response, with a cover's warmth added to the site's temperatures.
    pub(super) fn new(
        year: &SiteYear,
        response: Response,
        reference: f64,
        warmth: f64,
        weather: Option<&Weather>,
    ) -> Self {
        let rate: Daily = *year.rates_under(response, warmth);
        let mut sums = [0.0; DAYS + 1];
        for day in 0..DAYS {
            sums[day + 1] = sums[day] + rate[day];
        }
        let lived = Lived::new(&rate, response, warmth, weather);
        Self { rate, sums, reference, lived }
    }

    fn total(&self) -> f64 {
        self.sums[DAYS]
    }

    /// Degree days from the start of `a` to the start of `b`.
    fn between(&self, a: Tick, b: Tick) -> f64 {
        let days = a.until(b);
        let within = num::count(days.rem_euclid(365));
        let (i, j) = (a.index(), a.index() + within);
        let part = if j <= DAYS {
            self.sums[j] - self.sums[i]
        } else {
            self.total() - self.sums[i] + self.sums[j - DAYS]
        };
        let expected = part + num::real_i(days.div_euclid(365)) * self.total();
        if self.lived.first.is_none() {
            return expected;
        }
        expected + self.lived.before(b) - self.lived.before(a)
    }

    /// The first day by whose start the sum from the start of `from` reaches `need`.
    pub(super) fn reach(&self, from: Tick, need: f64) -> Option<Tick> {
        if need <= HAIR {
            return Some(from);
        }
        if self.lived.end().is_some_and(|end| end > from) {
            return self.reach_lived(from, need - HAIR);
        }
        let start = from.index();
        let mut goal = self.sums[start] + need - HAIR;
        let mut years = 0;
        while goal > self.total() {
            goal -= self.total();
            years += 1;
            if years > REACH {
                return None;
            }
        }
        let at = self.sums.partition_point(|sum| *sum < goal);
        Some(from.plus(years * 365 + num::signed(at) - num::signed(start)))
    }

    /// The same through known weather.
    fn reach_lived(&self, from: Tick, need: f64) -> Option<Tick> {
        let (mut low, mut high) = (0, 365 * (REACH + 1));
        if self.between(from, from.plus(high)) < need {
            return None;
        }
        while high - low > 1 {
            let middle = i64::midpoint(low, high);
            if self.between(from, from.plus(middle)) >= need { high = middle } else { low = middle }
        }
        Some(from.plus(high))
    }

    /// Degree days of each day.
    pub(super) const fn rates(&self) -> &Daily {
        &self.rate
    }

    /// From when on, and how much of `need`, is left to chance: what known weather has given is behind.
    pub(super) fn left(&self, from: Tick, need: f64) -> (Tick, f64) {
        match self.lived.end().filter(|end| *end > from) {
            Some(end) => (end, need - self.between(from, end)),
            None => (from, need),
        }
    }
}

/// What counts the days of a planting.
#[derive(Debug, Clone)]
pub(super) enum Pace {
    /// A day counts as a day.
    Days,
    /// A day counts by its warmth.
    Heat(Arc<Curve>),
}

impl Pace {
    /// What one catalogue day amounts to: degree days, or one day.
    pub(super) fn unit(&self) -> f64 {
        match self {
            Self::Days => 1.0,
            Self::Heat(curve) => curve.reference,
        }
    }
    /// The first date by which a planting that began on `from` has lived through so many catalogue days.
    pub(super) fn after(&self, from: Date, days: f64) -> Option<Date> {
        match self {
            Self::Days => Some(plus(from, num::round_i(days.clamp(0.0, 4000.0)))),
            Self::Heat(curve) => curve.reach(Tick::of(from), days * curve.reference).map(Tick::date),
        }
    }
    /// Catalogue days lived through between two dates.
    pub(super) fn between(&self, from: Date, to: Date) -> f64 {
        match self {
            Self::Days => num::real_i(days_between(from, to)),
            Self::Heat(curve) => curve.between(Tick::of(from), Tick::of(to)) / curve.reference,
        }
    }
    /// Catalogue days lived through on one day.
    pub(super) fn day(&self, day: Tick) -> f64 {
        match self {
            Self::Days => 1.0,
            Self::Heat(curve) => (curve.rate[day.index()] + curve.lived.on(day)).max(0.0) / curve.reference,
        }
    }
}

/// A crop's answer to temperature, and the degree days of a day at its reference temperature.
pub(super) fn response(crop: &Crop) -> (Response, f64) {
    let (plain, reference, base, upper) = match &crop.clock {
        Clock::Heat { season: Season::Warm, base, upper } => (Response::WARM, WARM_REFERENCE, *base, *upper),
        Clock::Heat { season: Season::Cool, base, upper } => (Response::COOL, COOL_REFERENCE, *base, *upper),
        Clock::Overwintered { .. } | Clock::Perennial { .. } => (Response::COOL, COOL_REFERENCE, None, None),
    };
    let base = base.map_or(plain.base, Temperature::celsius);
    let bend = |usual: f64| upper.map_or(usual, Temperature::celsius).max(base + 1.0);
    let ceiling = match plain.ceiling {
        Ceiling::None => Ceiling::None,
        Ceiling::Level(usual) => Ceiling::Level(bend(usual)),
        Ceiling::Fall(usual) => Ceiling::Fall(bend(usual)),
    };
    let response = Response { base, ceiling };
    (response, response.steady(reference).max(1.0))
}
