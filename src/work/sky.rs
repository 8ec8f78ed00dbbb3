//! Light, soil, air and frost of a week.

use crate::calendar::{ClimateDay, Date, Week, plus};
use crate::site::SiteYear;
use crate::site::day::Daily;
use crate::units::{Measure, TempUnit, Temperature, num};

/// What a week brings from above: means of its seven days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sky {
    /// Daylength, hours.
    pub light: f64,
    /// Soil temperature at 5 cm, degrees Celsius.
    pub soil: f64,
    /// Chance that a night is at or below 0 C, 0 to 1.
    pub frost: f64,
    /// Daily highs and lows, degrees Celsius.
    pub air: (f64, f64),
}

impl Sky {
    /// The sky of a week.
    pub fn of(year: &SiteYear, week: Week) -> Self {
        let dates: [Date; 7] = std::array::from_fn(|d| plus(week.monday(), num::signed(d)));
        let days = dates.map(ClimateDay::of);
        let mean = |curve: &Daily| days.iter().map(|d| curve[d.index()]).sum::<f64>() / 7.0;
        let frost = year.frost_plain(0.0);
        Self {
            light: dates.iter().map(|date| year.light_on(*date)).sum::<f64>() / 7.0,
            soil: mean(&year.soil),
            frost: days.iter().map(|d| frost.on(*d)).sum::<f64>() / 7.0,
            air: (mean(&year.tmax), mean(&year.tmin)),
        }
    }
    /// "daylight 14.4 h, soil 63 F, air 52 F to 71 F, frost in 2 nights of 100".
    pub fn words(self, measure: Measure) -> String {
        let read = |celsius: f64| Temperature::new(celsius, TempUnit::C).reading(measure);
        let frost = if self.frost < 0.005 {
            String::from("no frost to expect")
        } else {
            format!("frost in {:.0} nights of 100", (self.frost * 100.0).max(1.0))
        };
        format!(
            "daylight {:.1} h, soil {}, air {} to {}, {frost}",
            self.light,
            read(self.soil),
            read(self.air.1),
            read(self.air.0)
        )
    }
}
