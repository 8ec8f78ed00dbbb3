//! What the week ruler says of the shown week, in numbers and in words.

use super::model::Model;
use crate::calendar::{ClimateDay, Date, Week, plus};
use crate::growth::{Conditions, years};
use crate::site::SiteYear;
use crate::units::{TempUnit, Temperature, num};

/// Daily mean temperature from which on hardy crops grow, degrees Celsius (common practice).
const GROWS: f64 = 5.0;

/// The sky and the soil on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Weather {
    /// "15 h 04".
    pub daylength: String,
    /// Whether days grow longer.
    pub longer: bool,
    /// Soil at 5 cm.
    pub soil: Temperature,
    /// Chance in words that a frost still comes after the day, in spring, or has come before it, in autumn.
    pub frost: String,
}

/// A chance as years of ten, or that it hardly ever happens.
fn seldom(chance: f64) -> String {
    if chance < 0.01 { String::from("hardly ever") } else { years(chance) }
}

impl Weather {
    /// Of a day at a site.
    pub fn of(year: &SiteYear, date: Date) -> Self {
        let day = ClimateDay::of(date);
        let hours = year.light_on(date);
        let minutes = num::round_i(hours * 60.0);
        let curves = year.frost_plain(0.0);
        let frost = if curves.share_spring() < 0.02 && curves.share_autumn() < 0.02 {
            String::from("no frost here")
        } else if curves.later(day) > 0.0 {
            format!("late frost {}", seldom(curves.later(day)))
        } else {
            format!("early frost {}", seldom(curves.before(day)))
        };
        Self {
            daylength: format!("{} h {:02}", minutes / 60, minutes % 60),
            longer: year.light_on(plus(date, 1)) > hours,
            soil: Temperature::new(year.soil[day.index()], TempUnit::C),
            frost,
        }
    }
}

impl Model {
    /// Conditions under which things grow here; none where the site has no climate.
    pub fn conditions(&self) -> Option<Conditions<'_>> {
        self.year.as_ref().ok().map(|year| self.plan.conditions(&self.book, year))
    }
    /// Whether a week lies in the season in which something can grow: the soil is warm enough for the hardiest seed,
    /// or frosts are rare.
    pub fn is_growing_week(&self, week: Week) -> bool {
        let Ok(year) = &self.year else { return false };
        let day = ClimateDay::of(week.day(self.plan.settings.garden_day)).index();
        year.tmean[day] >= GROWS && year.daylength[day] >= crate::site::SHORT_DAY
    }
    /// The weather of the shown day; none where the site has no climate.
    pub fn weather(&self) -> Option<Weather> {
        self.year.as_ref().ok().map(|year| Weather::of(year, self.shown_day()))
    }
}
