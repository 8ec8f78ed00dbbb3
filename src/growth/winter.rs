//! Crops planted in autumn that stand still in winter and ripen the next year.

use super::alive::Alive;
use super::conditions::Conditions;
use super::pace::Pace;
use super::picking::Course;
use super::refusal::Refusal;
use super::schedule::{Ending, Note, Schedule, WEATHER_SPREAD};
use super::season::spread;
use super::stage::Dates;
use super::tick::Tick;
use super::youth::{Beginning, Youth, spread_emergence, youth};
use crate::calendar::{ClimateDay, Date, days_between, plus};
use crate::crop::{Crop, Ripening, Start, Use};
use crate::site::SiteYear;
use crate::units::num;

/// Least days between planting and the longest day that ripens it.
const LEAST_STAND: i64 = 90;
/// Days of the coldest quarter.
const QUARTER: usize = 91;

/// The day of the year on which it is coldest: the middle of the coldest quarter.
pub(super) fn coldest(year: &SiteYear) -> ClimateDay {
    let mut sum: f64 = year.tmean[..QUARTER].iter().sum();
    let (mut best, mut least) = (0, sum);
    for start in 1..365 {
        sum += year.tmean[(start + QUARTER - 1) % 365] - year.tmean[start - 1];
        if sum < least - 1e-9 {
            (best, least) = (start, sum);
        }
    }
    ClimateDay::new(num::signed(best + QUARTER / 2))
}

/// The day of the year with the most daylight.
fn longest(year: &SiteYear) -> ClimateDay {
    let mut best = 0;
    for (day, hours) in year.daylength.iter().enumerate() {
        if *hours > year.daylength[best] {
            best = day;
        }
    }
    ClimateDay::new(num::signed(best))
}

/// The first and last day for planting nearest to `on`: so many weeks after the average first frost, or after the
/// start of the coldest quarter where frost comes in fewer than half the years.
pub(super) fn planting_time(year: &SiteYear, weeks: (i8, i8), on: Date) -> (Date, Date) {
    let anchor = year
        .frost_plain(0.0)
        .first
        .five_in_10
        .unwrap_or_else(|| coldest(year).plus(-num::signed(QUARTER / 2)));
    let middle = i64::from(weeks.0) + i64::from(weeks.1);
    let here = Tick::of(on).plus(-middle * 7 / 2).nearest(anchor).date();
    (plus(here, 7 * i64::from(weeks.0)), plus(here, 7 * i64::from(weeks.1)))
}

/// The schedule of an overwintered crop.
pub(super) fn overwintered(
    crop: &Crop,
    conditions: &Conditions<'_>,
    (weeks, ripe): ((i8, i8), Ripening),
    beginning: Beginning<'_>,
    against: &mut Vec<Refusal>,
) -> Option<Schedule> {
    let year = conditions.year;
    let Beginning { start, .. } = beginning;
    let Youth { dates, begins, exposed, .. } = youth(crop, conditions, beginning, against);
    let (first_day, last_day) = planting_time(year, weeks, begins);
    if begins < first_day || begins > last_day {
        against.push(Refusal::Outside { first: first_day, last: last_day });
    }
    let begun = Tick::of(begins);
    let cool = conditions.curve(crop);
    let heat = Pace::Heat(cool);
    let wakes = begun.next(coldest(year)).date();
    let (first, soonest, latest, needs) = match ripe {
        Ripening::AfterLongestDay(early, late) => {
            let longest = begun.plus(LEAST_STAND).next(longest(year)).date();
            let (early, late) = (plus(longest, i64::from(early)), plus(longest, i64::from(late)));
            (
                plus(early, days_between(early, late) / 2),
                early,
                late,
                heat.between(begins, early) * heat.unit(),
            )
        }
        Ripening::HeatFromSpring(days) => {
            let days = f64::from(days);
            let first = heat.after(wakes, days)?;
            let share = spread(conditions, days);
            let at = |factor: f64| heat.after(wakes, days * factor).unwrap_or(first);
            (first, at(1.0 - share), at(1.0 + share), days * heat.unit())
        }
    };
    let underground = matches!(start, Start::Piece(_));
    let foliage = Alive::new(conditions.frost(crop.frost.foliage.celsius()), Tick::of(exposed));
    let chance = if underground { 1.0 } else { foliage.on(Tick::of(first)) };
    if chance < 1.0 - conditions.risk.share() {
        against.push(Refusal::Winter { chance: 1.0 - chance, kills: crop.frost.foliage.celsius() });
    }
    let course = Course::new(crop.picking, &heat, first);
    let held = plus(course.last(), i64::from(crop.picking.holds));
    let heat_end = super::limits::too_hot(crop, conditions, first, held).filter(|d| *d > first);
    let (last, ended_by) = match heat_end {
        Some(day) if day < course.last() => (day, Ending::Heat),
        _ if crop.is_for(Use::Cover) && !crop.is_food() => (course.last(), Ending::Grower),
        _ => (course.last(), Ending::Picked),
    };
    let weeks = course.weeks(last, |_| chance);
    let length = days_between(first, last);
    let complete = |mut dates: Dates, day: Date| {
        // The canopy of an overwintered crop closes in its spring growth, not before winter.
        dates.closed = crop.closes.and_then(|d| heat.after(wakes, f64::from(d))).map(|d| d.min(day));
        dates.first_pick = Some(day);
        dates.last_pick = Some(plus(day, length));
        dates.cleared = Some(plus(day, length));
        dates.put_in_order(&Dates::default());
        dates
    };
    let (mut before, mut after) = (dates, dates);
    spread_emergence(start, &mut before, &mut after);
    let holds_until = (crop.picking.holds > 0 && ended_by == Ending::Picked).then_some(held);
    let mut notes = vec![Note::Winters];
    notes.extend(holds_until.map(Note::Holds));
    let picked: f64 = weeks.iter().map(|w| w.1).sum();
    let give = num::round_i(WEATHER_SPREAD);
    let dates = complete(dates, first);
    Some(Schedule {
        start,
        dates,
        early: complete(before, soonest.min(plus(first, -give))),
        late: complete(after, latest.max(plus(first, give))),
        method: conditions.counts_by(),
        chance,
        ended_by,
        needs,
        days: days_between(begins, first),
        weeks,
        lost: (1.0 - picked).clamp(0.0, 1.0),
        open_until: dates.closed,
        holds_until,
        low_light: true,
        notes,
    })
}
