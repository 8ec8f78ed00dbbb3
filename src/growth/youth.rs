//! The young plant: sprouting in place or raised, setting out, and what soil and frost say to it.

use super::conditions::Conditions;
use super::need::{self, age};
use super::refusal::Refusal;
use super::sprout::Sprouting;
use super::stage::Dates;
use super::tick::Tick;
use crate::calendar::{Date, days_between, plus};
use crate::crop::{Clock, Crop, Season, Start};
use crate::units::num;

/// Days until seed in cold soil is given up as rotten. Set against the USDA spring table of 1919.
const PATIENCE: i64 = 18;
/// The same for seed of overwintering crops, which comes up in cooling soil (common practice: before hard winter).
const WINTER_PATIENCE: i64 = 45;
/// Slow seed is given this many times its quickest emergence, where that is longer (from memory).
const SLOW: f64 = 2.0;
/// Degrees of soil above its base temperature that a warm-season plant wants when it is set out: 13 C, 55 F
/// (extension figure for tomato, from memory).
const WARM_SOIL: f64 = 3.0;
/// The same for cool-season plants, sets and tubers: 4 to 7 C, 40 to 45 F (common practice).
const COOL_SOIL: f64 = 2.5;
/// Days from coming up to potting on (common practice: two to four weeks).
const TO_POT: i64 = 21;

/// How and when a planting is begun, and what has already happened to it.
#[derive(Clone, Copy)]
pub(super) struct Beginning<'a> {
    pub(super) start: Start,
    /// Sown, in place or in the raising place, or set out.
    pub(super) on: Date,
    pub(super) known: &'a Dates,
}

/// Dates up to the day a planting takes its cells.
pub(super) struct Youth {
    pub(super) dates: Dates,
    /// Sown in place or set out.
    pub(super) begins: Date,
    /// The first day its leaves are outside.
    pub(super) exposed: Date,
    /// When seed sown in place was to come up, whatever it really did.
    pub(super) expected_up: Option<Date>,
}

/// The young plant: sprouting, raising, setting out, and what soil and frost say to it.
pub(super) fn youth(
    crop: &Crop,
    conditions: &Conditions<'_>,
    beginning: Beginning<'_>,
    against: &mut Vec<Refusal>,
) -> Youth {
    let Beginning { start, on, known } = beginning;
    let mut dates = Dates::default();
    let mut expected_up = None;
    let (begins, exposed) = match start {
        Start::InPlace => {
            dates.sown = Some(on);
            expected_up = sown_in_place(crop, conditions, on, against);
            dates.emerged = known.emerged.map(|up| up.max(on)).or(expected_up);
            (on, dates.emerged.unwrap_or_else(|| plus(on, need::SHOWS)))
        }
        Start::Raised { pot_on, harden, .. } => {
            let out = known.set_out.unwrap_or_else(|| plus(on, age(start))).max(on);
            let hardening = plus(out, -i64::from(harden)).max(on);
            dates.sown = Some(on);
            let up = raised(crop, conditions, on, against);
            dates.emerged = Some(up.min(hardening));
            dates.potted = pot_on.then(|| plus(up, TO_POT).clamp(up.min(hardening), hardening));
            dates.hardened = (harden > 0).then_some(hardening);
            dates.set_out = Some(out);
            cold_to_set_out(crop, conditions, out, against);
            (out, out)
        }
        Start::Bought => {
            dates.set_out = Some(on);
            cold_to_set_out(crop, conditions, on, against);
            (on, on)
        }
        Start::Piece(_) => {
            dates.set_out = Some(on);
            cold_to_set_out(crop, conditions, on, against);
            (on, plus(on, need::SHOWS))
        }
    };
    Youth { dates, begins, exposed, expected_up }
}

/// Refuses where frost still comes over the young plants at more than the grower's risk.
pub(super) fn seedling_frost(
    crop: &Crop,
    conditions: &Conditions<'_>,
    exposed: Date,
    against: &mut Vec<Refusal>,
) {
    let kills = crop.frost.foliage.celsius();
    let chance = conditions.frost(kills).later(conditions.unproven(kills, Tick::of(exposed)).day());
    if chance > conditions.risk.share() {
        against.push(Refusal::SeedlingFrost { chance, on: exposed, kills });
    }
}

fn sown_in_place(
    crop: &Crop,
    conditions: &Conditions<'_>,
    on: Date,
    against: &mut Vec<Refusal>,
) -> Option<Date> {
    let seed = Sprouting::new(&crop.germination)?;
    let day = Tick::of(on);
    let soil = conditions.soil(day);
    let (least, most) = seed.sown_between();
    let up = seed.up(|n| conditions.soil(day.plus(n)));
    let patience = match crop.clock {
        Clock::Overwintered { .. } => WINTER_PATIENCE,
        Clock::Heat { .. } | Clock::Perennial { .. } => PATIENCE.max(num::round_i(SLOW * seed.quickest())),
    };
    let sprouts = |from: Tick| {
        let up = seed.up(|n| conditions.soil(from.plus(n)));
        conditions.soil(from) >= least && up.is_some_and(|days| days <= patience)
    };
    if soil < least || up.is_none_or(|days| days > patience) {
        // Soil that warms up while the seed lies in it may be a little colder than seed wants that lies still.
        let from = (1..365).map(|n| day.plus(n)).find(|d| sprouts(*d));
        let still = least.max(seed.within(num::real_i(patience)));
        let least = from.map_or(still, |d| conditions.soil(d).min(still));
        let from = from.map(Tick::date);
        against.push(Refusal::ColdSoil { soil, least, from });
    }
    if soil > most {
        against.push(Refusal::HotSoil { soil, most, from: soil_day(conditions, day, |t| t <= most) });
    }
    up.map(|days| day.plus(days).date())
}

/// The first day after `day` whose soil is fit.
fn soil_day(conditions: &Conditions<'_>, day: Tick, fit: impl Fn(f64) -> bool) -> Option<Date> {
    (1..365).map(|n| day.plus(n)).find(|d| fit(conditions.soil(*d))).map(Tick::date)
}

fn raised(crop: &Crop, conditions: &Conditions<'_>, on: Date, against: &mut Vec<Refusal>) -> Date {
    let Some(seed) = Sprouting::new(&crop.germination) else { return on };
    let there = conditions.raising;
    let wanted = seed.tested();
    if there < wanted.0 || there > wanted.1 {
        against.push(Refusal::RaisingPlace { there, wanted });
    }
    let days = seed.days(there).map_or(need::SHOWS, |d| num::round_i(d.ceil()));
    plus(on, days)
}

fn cold_to_set_out(crop: &Crop, conditions: &Conditions<'_>, out: Date, against: &mut Vec<Refusal>) {
    let margin = match crop.clock {
        Clock::Heat { season: Season::Warm, .. } => WARM_SOIL,
        Clock::Heat { season: Season::Cool, .. } | Clock::Perennial { .. } => COOL_SOIL,
        Clock::Overwintered { .. } => return,
    };
    let least = super::pace::response(crop).0.base + margin;
    let day = Tick::of(out);
    let soil = conditions.soil(day);
    if soil < least {
        let from = soil_day(conditions, day, |t| t >= least);
        against.push(Refusal::ColdSoil { soil, least, from });
    }
}

/// A fifth earlier or later, at least a day, within the dates around it.
pub(super) fn spread_emergence(start: Start, before: &mut Dates, after: &mut Dates) {
    let (Some(sown), Some(up)) = (before.sown, before.emerged) else { return };
    let give = (days_between(sown, up) / 5).max(1);
    before.emerged = Some(plus(up, -give).max(sown));
    let limit = match start {
        Start::InPlace => Date::MAX,
        Start::Raised { .. } | Start::Bought | Start::Piece(_) => {
            after.potted.or(after.hardened).or(after.set_out).unwrap_or(Date::MAX)
        }
    };
    after.emerged = Some(plus(up, give).min(limit));
}
