//! Water: what a crop uses less the rain, by FAO Irrigation and Drainage Paper 56 (Allen et al. 1998).

use super::stage::Dates;
use super::tick::Tick;
use crate::calendar::{Date, Week, days_between, plus};
use crate::crop::Water;
use crate::site::SiteYear;
use crate::units::num;

/// The crop coefficient at a part `x` (0 to 1) of the growing time: level in the initial stage, rising straight
/// through development, level in the middle, straight to its end value in the late stage (FAO-56, figure 34 and
/// equation 66).
pub fn coefficient(water: &Water, x: f64) -> f64 {
    let (start, middle, end) = (f64::from(water.kc.0), f64::from(water.kc.1), f64::from(water.kc.2));
    let [initial, development, mid, late] =
        [water.stages.0, water.stages.1, water.stages.2, water.stages.3].map(|s| f64::from(s).max(0.0));
    let total = (initial + development + mid + late).max(1e-9);
    let x = x.clamp(0.0, 1.0) * total;
    if x <= initial {
        start
    } else if x < initial + development {
        start + (middle - start) * (x - initial) / development
    } else if x <= initial + development + mid || late <= 0.0 {
        middle
    } else {
        middle + (end - middle) * ((x - initial - development - mid) / late).min(1.0)
    }
}

/// Water a stand uses in each day it takes its cells, mm: crop coefficient times reference evapotranspiration.
pub fn use_on(water: &Water, year: &SiteYear, (begins, ends): (Date, Date), day: Date) -> f64 {
    if day < begins || day >= ends {
        return 0.0;
    }
    let x = num::real_i(days_between(begins, day)) / num::real_i(days_between(begins, ends).max(1));
    coefficient(water, x) * year.et0[Tick::of(day).index()]
}

/// Water to give in a week to a stand with these dates, mm (litres a square metre): its use less the normal rain,
/// never below zero. A floor: boxes and pots are warmer at the rim and drain.
pub fn water_need(water: &Water, year: &SiteYear, dates: &Dates, week: Week) -> f64 {
    let Some(begins) = [dates.set_out, dates.sown].into_iter().flatten().max() else { return 0.0 };
    let ends = dates.cleared.unwrap_or_else(|| plus(begins, 365));
    let sum: f64 = (0..7)
        .map(|n| plus(week.monday(), n))
        .filter(|day| begins <= *day && *day < ends)
        .map(|day| use_on(water, year, (begins, ends), day) - year.rain[Tick::of(day).index()])
        .sum();
    sum.max(0.0)
}
