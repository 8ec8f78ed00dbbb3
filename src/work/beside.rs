//! The date by warmth beside the date by the catalogue's count of days, and why the two differ.

use crate::calendar::{ClimateDay, Date, day_text, days_between, plus};
use crate::crop::{Crop, Season, Start};
use crate::growth::{COOL_REFERENCE, Conditions, Method, WARM_REFERENCE, outlook};
use crate::units::{Measure, TempUnit, Temperature, num};

/// First pickings of one start by both ways of reckoning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// The day it is started.
    pub begun: Date,
    /// First picking by warmth.
    pub heat: Date,
    /// First picking by the days on the packet.
    pub catalogue: Date,
    /// Mean air temperature from the start to the picking by warmth, degrees Celsius.
    pub air: f64,
    /// Temperature at which the packet's days are meant, degrees Celsius.
    pub reference: f64,
}

/// Both first pickings of a start; none where a crop has another clock or one of the two never comes.
pub fn beside(crop: &Crop, conditions: &Conditions<'_>, start: Start, begun: Date) -> Option<Beside> {
    let crate::crop::Clock::Heat { season, .. } = crop.clock else { return None };
    let by = |method| {
        let conditions = conditions.clone().by(method);
        outlook(crop, &conditions, start, begun).schedule?.dates.first_pick
    };
    let (heat, catalogue) = (by(Method::Heat)?, by(Method::Catalogue)?);
    let days = days_between(begun, heat).max(1);
    let air = |n: i64| {
        let day = ClimateDay::of(plus(begun, n)).index();
        f64::midpoint(conditions.year.tmax[day], conditions.year.tmin[day])
    };
    let air = (0..days).map(air).sum::<f64>() / num::real_i(days);
    let reference = match season {
        Season::Cool => COOL_REFERENCE,
        Season::Warm => WARM_REFERENCE,
    };
    Some(Beside { begun, heat, catalogue, air, reference })
}

impl Beside {
    /// Days by which warmth makes it later than the catalogue; negative: earlier.
    pub fn days(&self) -> i64 {
        days_between(self.catalogue, self.heat)
    }
    /// "first picking 7 Dec by warmth, 5 Oct by the packet: 63 days later, because the air is 10 C on average until then
    /// and packet days are meant at 18 C".
    pub fn words(&self, measure: Measure) -> String {
        let read = |celsius: f64| Temperature::new(celsius, TempUnit::C).reading(measure);
        let (heat, catalogue) = (day_text(self.heat), day_text(self.catalogue));
        let days = self.days();
        if days == 0 {
            return format!("first picking {heat} by warmth and by the packet alike");
        }
        let unit = if days.abs() == 1 { "day" } else { "days" };
        let way = if days > 0 { "later" } else { "earlier" };
        let meant = read(self.reference);
        let cooler = self.air < self.reference - 0.5;
        let warmer = self.air > self.reference + 0.5;
        let why = match (days > 0, cooler, warmer) {
            (true, true, _) | (false, _, true) => {
                format!(
                    "the air is {} on average until then and packet days are meant at {meant}",
                    read(self.air)
                )
            }
            (true, false, _) => {
                format!("hot hours and slow sprouting cost days; packet days are meant at {meant}")
            }
            (false, _, false) => format!("no hour is too hot for it; packet days are meant at {meant}"),
        };
        format!(
            "first picking {heat} by warmth, {catalogue} by the packet: {} {unit} {way}, because {why}",
            days.abs()
        )
    }
}
