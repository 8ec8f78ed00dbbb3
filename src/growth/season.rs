//! A crop that ripens in the season it is started in.

use super::alive::{Alive, Nights};
use super::conditions::{Conditions, sound};
use super::limits::{self, Light};
use super::need::days_needed;
use super::pace::Pace;
use super::picking::Course;
use super::refusal::Refusal;
use super::schedule::{AUTUMN_DAYS, Ending, Note, PACKET_SPREAD, Schedule, TENDER_DAYS, WEATHER_SPREAD};
use super::stage::Dates;
use super::tick::Tick;
use super::youth::{Beginning, Youth, seedling_frost, spread_emergence, youth};
use crate::calendar::{Date, Week, days_between, plus};
use crate::crop::{Clock, Crop, FrostClass, Season, Use};
use crate::units::{Temperature, num};

/// Spread of the days to maturity where nothing but frost dates is known.
const BLIND_SPREAD: f64 = 0.25;
/// Days of picking that make a start worth while: a week for cool-season crops, three for warm ones. Set together
/// with the even-chance frost date against the USDA fall table of 1919.
const WORTH_COOL: i64 = 7;
const WORTH_WARM: i64 = 21;
/// Share of fruit set below which a start is refused (from memory).
const LEAST_SET: f64 = 0.25;

/// Days of picking that make a start of a crop worth while.
pub(super) fn worth(crop: &Crop) -> i64 {
    let most = match crop.clock {
        Clock::Heat { season: Season::Warm, .. } => WORTH_WARM,
        Clock::Heat { season: Season::Cool, .. } | Clock::Overwintered { .. } | Clock::Perennial { .. } => {
            WORTH_COOL
        }
    };
    i64::from(crop.picking.days).min(most)
}

/// Share by which days to maturity spread, packet and weather together.
pub(super) fn spread(conditions: &Conditions<'_>, days: f64) -> f64 {
    if conditions.year.catalogue { BLIND_SPREAD } else { PACKET_SPREAD.hypot(WEATHER_SPREAD / days.max(1.0)) }
}

/// A crop that ripens in the season it is started in.
pub(super) fn season_crop(
    crop: &Crop,
    conditions: &Conditions<'_>,
    beginning: Beginning<'_>,
    against: &mut Vec<Refusal>,
) -> Option<Schedule> {
    let pace = conditions.pace(crop);
    let start = beginning.start;
    let Youth { dates, begins, exposed, expected_up } = youth(crop, conditions, beginning, against);
    seedling_frost(crop, conditions, exposed, against);

    let ripe = ripening(crop, conditions, &pace, (begins, dates.emerged, expected_up), beginning, against)?;
    let Ripe { bare, days, first, soonest, latest, by_heat } = ripe;
    let begun = Tick::of(begins);
    let up = dates.emerged.unwrap_or(begins);

    let exposure = Tick::of(exposed);
    let nights = Nights {
        foliage: alive(conditions, crop.frost.foliage.celsius(), exposure),
        harvest: alive(conditions, crop.frost.harvest.celsius(), exposure),
    };
    let worth = worth(crop);
    let chance = match &pace {
        Pace::Heat(curve) if by_heat => {
            nights.by_heat(curve, begun, days * pace.unit(), conditions.year.sd, worth)
        }
        Pace::Heat(_) => nights.by_days(Tick::of(first), WEATHER_SPREAD, worth),
        Pace::Days => nights.by_days(Tick::of(first), spread(conditions, days) * days, worth),
    };
    in_time(crop, conditions, &pace, begun, (bare, first, chance), against);

    let harvest =
        harvest(crop, conditions, &pace, &nights, Ripening { days: bare, begins, up, first }, against);
    let cover = crop.is_for(Use::Cover) && !crop.is_food();
    let length = days_between(first, harvest.last);
    let frost_by = |share: f64, from: Date| nights.spoilt(Tick::of(from), share).map(Tick::date);
    let end = |from: Date, share: f64| {
        let natural = plus(from, days_between(first, harvest.natural).max(length));
        frost_by(share, from).map_or(natural, |d| d.min(natural)).max(from)
    };
    let (soonest_end, latest_end) =
        (end(soonest, 0.84).min(harvest.last), end(latest, 0.16).max(harvest.last));

    let closes = crop.closes.and_then(|d| pace.after(begins, f64::from(d)));
    let complete = |mut dates: Dates, first: Date, last: Date| {
        dates.emerged = dates.emerged.map(|up| up.min(first));
        dates.closed = closes.map(|d| d.max(dates.emerged.unwrap_or(d)).min(first));
        dates.first_pick = Some(first);
        dates.last_pick = Some(last);
        dates.cleared = Some(last.max(plus(begins, 1)));
        dates
    };
    let low_light = limits::dim(conditions, up.max(begins), first);
    let (mut before, mut after) = (dates, dates);
    spread_emergence(start, &mut before, &mut after);
    let picked: f64 = harvest.weeks.iter().map(|w| w.1).sum();
    Some(Schedule {
        start,
        dates: complete(dates, first, harvest.last),
        early: complete(before, soonest, soonest_end),
        late: complete(after, latest, latest_end),
        method: conditions.counts_by(),
        chance,
        notes: notes(conditions, &harvest, low_light),
        ended_by: if cover && harvest.ended_by == Ending::Picked { Ending::Grower } else { harvest.ended_by },
        needs: days * pace.unit(),
        days: days_between(begins, first),
        weeks: harvest.weeks,
        lost: (1.0 - picked).clamp(0.0, 1.0),
        open_until: closes.map(|d| d.max(up).min(first)),
        holds_until: harvest.holds_until,
        low_light,
    })
}

/// Life against nights that kill at a threshold, the known ones lived through.
fn alive(conditions: &Conditions<'_>, kills: f64, exposure: Tick) -> Alive {
    Alive::new(conditions.frost(kills), conditions.unproven(kills, exposure))
}

fn notes(conditions: &Conditions<'_>, harvest: &Harvest, low_light: bool) -> Vec<Note> {
    let mut notes = Vec::new();
    if harvest.set < 0.995 {
        notes.push(Note::PoorSet(1.0 - harvest.set));
    }
    if low_light {
        notes.push(Note::LowLight);
    }
    notes.extend(harvest.holds_until.map(Note::Holds));
    if conditions.year.catalogue {
        notes.push(Note::DatesAlone);
    }
    notes
}

/// When a planting is ripe.
struct Ripe {
    /// Catalogue days, and those with the autumn's added.
    bare: f64,
    days: f64,
    first: Date,
    soonest: Date,
    latest: Date,
    /// Warmth alone sets the day: neither daylength nor anything known has moved it.
    by_heat: bool,
}

/// The first picking and its spread; none, with the reason, where it never ripens. `expected` is when seed sown in
/// place was to come up.
fn ripening(
    crop: &Crop,
    conditions: &Conditions<'_>,
    pace: &Pace,
    (begins, up, expected): (Date, Option<Date>, Option<Date>),
    Beginning { start, known, .. }: Beginning<'_>,
    against: &mut Vec<Refusal>,
) -> Option<Ripe> {
    let bare = days_needed(crop, conditions, start);
    let begun = Tick::of(begins);
    // The autumn's days are added in full after the warmest day, and run out towards midwinter, so that waiting
    // never brings a harvest forward.
    let after = begun.nearest(conditions.year.warmest_day()).until(begun);
    let autumn = match pace {
        Pace::Days if after >= 0 => AUTUMN_DAYS.min(num::real_i(183 - after)),
        Pace::Days | Pace::Heat(_) => 0.0,
    };
    let days = bare + autumn;
    let Some(by_pace) = pace.after(begins, days) else {
        against.push(Refusal::NeverRipe);
        return None;
    };
    let held = match limits::light(crop, conditions, pace, bare, begins) {
        Light::Free => None,
        Light::NotBefore(day) => Some(day),
        Light::Never(hours, longer) => {
            against.push(Refusal::Daylength { hours, longer });
            None
        }
    };
    let ripe = |day: Date| day.max(held.unwrap_or(day)).max(up.unwrap_or(begins)).max(begins);
    // Seed that came up late has that much less behind it.
    let moved = match (known.emerged, expected) {
        (Some(real), Some(expected)) if real != expected => {
            let left = days - pace.between(begins, expected.min(by_pace));
            pace.after(real, left.max(0.0)).unwrap_or(by_pace)
        }
        _ => by_pace,
    };
    let first = known.first_pick.unwrap_or_else(|| ripe(moved)).max(begins);
    let share = spread(conditions, days);
    let at = |factor: f64| pace.after(begins, days * factor).map_or(first, ripe);
    let (soonest, latest) = match known.first_pick {
        Some(_) => (first, first),
        None => (at(1.0 - share).min(first), at(1.0 + share).max(first)),
    };
    Some(Ripe { bare, days, first, soonest, latest, by_heat: first == by_pace })
}

/// Refuses what would be ripe too late: by the chance where warmth counts, by the flat count where days do.
fn in_time(
    crop: &Crop,
    conditions: &Conditions<'_>,
    pace: &Pace,
    begun: Tick,
    (days, ripe, chance): (f64, Date, f64),
    against: &mut Vec<Refusal>,
) {
    let wanted = 1.0 - conditions.risk.share();
    match pace {
        Pace::Heat(_) => {
            if chance < wanted {
                against.push(Refusal::Late { chance, wanted, ripe, latest: None });
            }
        }
        Pace::Days => {
            if let Some(latest) =
                counted_latest(crop, conditions, days, begun.nearest(conditions.year.warmest_day()))
                && begun.date() > latest
            {
                against.push(Refusal::Late { chance, wanted, ripe, latest: Some(latest) });
            }
        }
    }
}

/// The last day by the flat count: back from the average first frost by the days to maturity, the picking, the
/// autumn's fourteen days and, for tender crops, fourteen more. None where no frost comes in most years.
fn counted_latest(crop: &Crop, conditions: &Conditions<'_>, days: f64, warmest: Tick) -> Option<Date> {
    let frost = conditions.year.frost_plain(-sound(conditions.frost_gain)).first.five_in_10?;
    let tender = if crop.frost.class == FrostClass::Tender { TENDER_DAYS } else { 0.0 };
    let back = num::round_i(days + f64::from(crop.picking.days) + AUTUMN_DAYS + tender);
    Some(plus(warmest.next(frost).date(), -back))
}

/// Days a planting lives by.
#[derive(Clone, Copy)]
struct Ripening {
    /// Catalogue days to the first picking.
    days: f64,
    /// Sown in place or set out.
    begins: Date,
    /// Emerged.
    up: Date,
    /// First picking.
    first: Date,
}

struct Harvest {
    /// Last picking.
    last: Date,
    /// Last picking if nothing cut it short.
    natural: Date,
    ended_by: Ending,
    weeks: Vec<(Week, f64)>,
    holds_until: Option<Date>,
    /// Share of the fruit that sets.
    set: f64,
}

/// The harvest from its first day until it is over, or frost, heat or flowering end it.
fn harvest(
    crop: &Crop,
    conditions: &Conditions<'_>,
    pace: &Pace,
    nights: &Nights,
    ripening: Ripening,
    against: &mut Vec<Refusal>,
) -> Harvest {
    let Ripening { days, begins, up, first } = ripening;
    let course = Course::new(crop.picking, pace, first);
    let natural = course.last();
    let held = plus(natural, i64::from(crop.picking.holds));
    let frost = nights.spoilt(Tick::of(first), 0.5).map(Tick::date);
    let half = pace.after(begins, days * limits::HARMS_FROM).unwrap_or(begins).min(first);
    let heat = limits::too_hot(crop, conditions, half, held);
    let bolting = limits::bolts(crop, conditions, pace, days, up.max(begins), held);
    if let Some(on) = heat
        && on <= first
    {
        let most = crop.heat.mean_most.map_or(0.0, Temperature::celsius);
        against.push(Refusal::Heat { on, most });
    }
    if let Some((on, hours)) = bolting
        && on <= first
    {
        against.push(Refusal::Bolts { on, hours });
    }
    let mut end = (natural, Ending::Picked);
    let ends = [(frost, Ending::Frost), (heat, Ending::Heat), (bolting.map(|b| b.0), Ending::Bolting)];
    for (day, ending) in ends {
        if let Some(day) = day
            && day < end.0
        {
            end = (day, ending);
        }
    }
    let last = end.0.max(first);
    let set = limits::set_share(crop, conditions, days, first, last);
    if set < LEAST_SET {
        against.push(Refusal::NoSet { share: set * 0.5 });
    }
    let mut weeks = course.weeks(last, |day| nights.spared(Tick::of(first), Tick::of(day)));
    for (_, share) in &mut weeks {
        *share *= set;
    }
    let limit = ends.iter().filter_map(|e| e.0).min().unwrap_or(held);
    let holds_until =
        (end.1 == Ending::Picked && crop.picking.holds > 0).then(|| held.min(limit)).filter(|d| *d > last);
    Harvest { last, natural, ended_by: end.1, weeks, holds_until, set }
}
