//! Whether a crop begun on a piece of ground that is free from a week on is ripe before the ground is wanted again.

use super::conditions::Conditions;
use super::need::age;
use super::schedule::{Schedule, schedule};
use crate::calendar::{Date, plus};
use crate::crop::Crop;
use crate::site::SiteYear;

/// The time a piece of ground is free.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Free {
    /// Today: nothing can be sown before it, not even in the raising place.
    pub today: Date,
    /// First free day.
    pub from: Date,
    /// Weeks until it is wanted for something else; none: nothing waits for it, and the crop begins at once.
    pub weeks: Option<u16>,
}

impl Free {
    /// The day it is wanted for something else.
    pub fn until(self) -> Option<Date> {
        self.weeks.map(|weeks| plus(self.from, 7 * i64::from(weeks)))
    }
}

/// Whether some start of a crop succeeds at a site on some day of a year, under the open sky: every fifth is tried.
pub fn grows(crop: &Crop, year: &SiteYear) -> bool {
    let conditions = Conditions::new(year);
    let first = Date::from_ymd_opt(2026, 1, 1).unwrap_or_default();
    let days = (0..365).step_by(5).map(|n| plus(first, n));
    crop.starts.iter().any(|s| days.clone().any(|on| schedule(crop, &conditions, *s, on).is_ok()))
}

/// The first start of a crop that takes the ground on its first free day, or some whole weeks later, and is ripe in
/// time: of several on one day the one that is picked first. What is only grown for the soil has to be full-grown in
/// time, and what stands for years never is. None where nothing succeeds.
pub fn in_time(crop: &Crop, conditions: &Conditions<'_>, free: Free) -> Option<Schedule> {
    let until = free.until();
    if until.is_some() && crop.is_perennial() {
        return None;
    }
    let last = i64::from(free.weeks.map_or(0, |weeks| weeks.saturating_sub(1)));
    let ripe = |s: &Schedule| s.dates.first_pick.or_else(|| Some(plus(s.begins()?, s.days)));
    let days = (0..=last).map(|week| plus(free.from, 7 * week));
    days.map(|day| {
        let starts = crop.starts.iter().filter_map(|start| {
            let on = plus(day, -age(*start));
            (on >= free.today).then(|| schedule(crop, conditions, *start, on).ok()).flatten()
        });
        let ready = starts.filter_map(|s| Some((ripe(&s)?, s)));
        ready.filter(|(day, _)| until.is_none_or(|end| *day <= end)).min_by_key(|(day, _)| *day)
    })
    .find_map(|found| found.map(|(_, schedule)| schedule))
}
