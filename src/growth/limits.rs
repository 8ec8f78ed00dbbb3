//! Heat and daylength: what ends a crop that frost does not.

use super::conditions::{Conditions, sound};
use super::pace::Pace;
use super::tick::Tick;
use crate::calendar::Date;
use crate::crop::{Crop, Daylength};
use crate::site::bell;
use crate::units::{Temperature, num};

/// Share of the days to maturity from which heat does harm: young plants stand it (from memory).
pub(super) const HARMS_FROM: f64 = 0.5;
/// Share of the days to maturity between flower and ripe fruit (from memory).
const FLOWER_TO_FRUIT: f64 = 0.5;
/// Share of days fit for setting fruit from which a plant bears its usual harvest (from memory: plants drop part of
/// their flowers in any weather).
const ENOUGH_SET: f64 = 0.5;
/// Share of the days to maturity a plant must live in long days before it runs to flower (from memory).
const TO_BOLT: f64 = 0.8;
/// Share of the days to maturity before a bulb can form, and from its beginning to ripeness (from memory).
const BULB_AFTER: f64 = 0.3;
const BULB_RIPENS: f64 = 0.4;
/// The same for flowers and tubers that wait for short days (from memory).
const SHORT_AFTER: f64 = 0.3;
const SHORT_RIPENS: f64 = 0.4;

/// Days over which warmth is averaged: the figures of the book are means of a month.
const MONTH: i64 = 30;

/// The first day from `from` to `to` by which the days since `from`, the last month of them at most, have been
/// warmer on average than the crop bears.
///
/// The limits are the greatest mean temperatures *of a month* for good growth (Knott's Handbook for Vegetable
/// Growers, 1997), not of a day: peas sown in March at New York are picked in June and into July although the
/// first day above their 75 F comes in June.
pub(super) fn too_hot(crop: &Crop, conditions: &Conditions<'_>, from: Date, to: Date) -> Option<Date> {
    let most = crop.heat.mean_most?.celsius();
    let (start, end) = (Tick::of(from), Tick::of(to));
    let days = start.until(end).min(730);
    let warm = |n: i64| conditions.mean(start.plus(n));
    let mut sum = 0.0;
    for n in 0..days {
        sum += warm(n);
        if n >= MONTH {
            sum -= warm(n - MONTH);
        }
        if sum > most * num::real_i((n + 1).min(MONTH)) {
            return Some(start.plus(n).date());
        }
    }
    None
}

/// Share of the usual fruit set by plants picked from `first` to `last`, 1 where the crop names no limits.
pub(super) fn set_share(crop: &Crop, conditions: &Conditions<'_>, need: f64, first: Date, last: Date) -> f64 {
    let heat = &crop.heat;
    if heat.set_night_most.is_none() && heat.set_day_most.is_none() && heat.set_night_least.is_none() {
        return 1.0;
    }
    let lead = num::round_i(need * FLOWER_TO_FRUIT);
    let year = conditions.year;
    // Nights scatter as the site's frost model has them, days as its daily means.
    let milder = sound(conditions.frost_gain).clamp(0.0, 3.0);
    let nights = |limit: Option<Temperature>| limit.map(|l| year.frost_plain(l.celsius() - milder));
    let (cool_enough, too_cold) = (nights(heat.set_night_most), nights(heat.set_night_least));
    let sd = year.sd.max(0.1);
    let (start, days) = (Tick::of(first).plus(-lead), Tick::of(first).until(Tick::of(last)).clamp(0, 365));
    let steps = days / 7 + 1;
    let sum: f64 = (0..steps)
        .map(|week| {
            let day = start.plus(week * 7);
            let night = cool_enough.as_ref().map_or(1.0, |c| c.on(day.day()));
            let cold = too_cold.as_ref().map_or(0.0, |c| c.on(day.day()));
            let high = year.tmax[day.index()] + sound(conditions.warmth);
            let noon = heat.set_day_most.map_or(1.0, |l| bell::share((l.celsius() - high) / sd));
            (night - cold).max(0.0) * noon
        })
        .sum();
    (sum / num::real_i(steps) / ENOUGH_SET).min(1.0)
}

/// The day by which a plant that came up on `from` has lived long enough in long days to run to flower; none before
/// `to`.
pub(super) fn bolts(
    crop: &Crop,
    conditions: &Conditions<'_>,
    pace: &Pace,
    need: f64,
    from: Date,
    to: Date,
) -> Option<(Date, f64)> {
    let Some(Daylength::BoltsAbove(hours)) = crop.daylength else { return None };
    let hours = f64::from(hours);
    let (start, end) = (Tick::of(from), Tick::of(to));
    let mut lived = 0.0;
    for n in 0..start.until(end).min(730) {
        let day = start.plus(n);
        if conditions.year.daylength[day.index()] > hours {
            lived += pace.day(day);
            if lived >= need * TO_BOLT {
                return Some((day.date(), hours));
            }
        }
    }
    None
}

/// What daylength makes of a day of ripeness.
pub(super) enum Light {
    /// Nothing.
    Free,
    /// It ripens no earlier than this.
    NotBefore(Date),
    /// Days never are so long (true) or so short.
    Never(f64, bool),
}

/// When daylength lets a crop begun on `from` ripen.
pub(super) fn light(crop: &Crop, conditions: &Conditions<'_>, pace: &Pace, need: f64, from: Date) -> Light {
    let (hours, longer, after, ripens) = match crop.daylength {
        Some(Daylength::BulbsAbove(h)) => (f64::from(h), true, BULB_AFTER, BULB_RIPENS),
        Some(Daylength::NeedsBelow(h)) => (f64::from(h), false, SHORT_AFTER, SHORT_RIPENS),
        Some(Daylength::BoltsAbove(_)) | None => return Light::Free,
    };
    let Some(able) = pace.after(from, need * after) else { return Light::Free };
    let fit = |day: Tick| {
        let light = conditions.year.daylength[day.index()];
        if longer { light >= hours } else { light <= hours }
    };
    let first = Tick::of(able);
    let Some(onset) = (0..365).map(|n| first.plus(n)).find(|day| fit(*day)) else {
        return Light::Never(hours, longer);
    };
    pace.after(onset.date(), need * ripens).map_or(Light::Free, Light::NotBefore)
}

/// Whether the plant grows through at least two weeks of days shorter than ten hours before it is picked.
pub(super) fn dim(conditions: &Conditions<'_>, from: Date, to: Date) -> bool {
    let (start, end) = (Tick::of(from), Tick::of(to));
    let days = start.until(end).clamp(0, 400);
    let short = (0..days)
        .filter(|n| conditions.year.daylength[start.plus(*n).index()] < crate::site::SHORT_DAY)
        .count();
    short >= 14
}
