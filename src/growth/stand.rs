//! Perennials: a yield that grows with the age of the stand, a rest in winter, a year of renewal.

use super::alive::Alive;
use super::conditions::Conditions;
use super::pace::Pace;
use super::picking::Course;
use super::refusal::Refusal;
use super::schedule::{Ending, Schedule};
use super::season::spread;
use super::stage::Dates;
use super::tick::Tick;
use super::winter::coldest;
use super::youth::{Beginning, Youth, seedling_frost, spread_emergence, youth};
use crate::calendar::{Date, days_between, plus};
use crate::crop::Crop;
use crate::units::num;

/// The schedule of a perennial: its first harvest in `dates`, every year's until renewal in `weeks`.
pub(super) fn perennial(
    crop: &Crop,
    conditions: &Conditions<'_>,
    by_year: &[f32],
    (wakes, renew): (u16, u8),
    beginning: Beginning<'_>,
    against: &mut Vec<Refusal>,
) -> Option<Schedule> {
    let Beginning { start, .. } = beginning;
    let Youth { dates, begins, exposed, .. } = youth(crop, conditions, beginning, against);
    seedling_frost(crop, conditions, exposed, against);
    let pace = Pace::Heat(conditions.curve(crop));
    let days = f64::from(wakes);
    let restart = coldest(conditions.year);
    let begun = Tick::of(begins);
    // The winter before the planting begins its first year, so that a spring planting may bear in that year.
    let first_winter = begun.next(restart).plus(-365);
    let mut weeks = Vec::new();
    let mut first: Option<Date> = None;
    for age in 0..usize::from(renew.max(1)) {
        let share = by_year.get(age).or_else(|| by_year.last()).copied().map_or(0.0, f64::from);
        if share <= 0.0 {
            continue;
        }
        let winter = first_winter.plus(365 * num::signed(age)).date();
        let Some(pick) = pace.after(winter.max(begins), days) else { continue };
        let next_winter = first_winter.plus(365 * (num::signed(age) + 1)).date();
        if pick >= next_winter {
            // Planted too late to bear before the next winter.
            continue;
        }
        let course = Course::new(crop.picking, &pace, pick);
        let harvest = Alive::new(conditions.frost(crop.frost.harvest.celsius()), Tick::of(pick));
        let natural = course.last().min(plus(next_winter, -7));
        let last = harvest.until(0.5, Tick::of(pick)).map_or(natural, |t| natural.min(t.date()));
        for (week, part) in course.weeks(last, |day| harvest.on(Tick::of(day))) {
            match weeks.last_mut() {
                Some((w, sum)) if *w == week => *sum += part * share,
                _ => weeks.push((week, part * share)),
            }
        }
        first.get_or_insert(pick);
    }
    let pick = first?;
    let give = num::round_i(
        spread(conditions, days) * num::real_i(days_between(begins.max(plus(pick, -i64::from(wakes))), pick)),
    );
    let complete = |mut dates: Dates, pick: Date| {
        dates.closed = crop.closes.and_then(|d| pace.after(begins, f64::from(d))).map(|d| d.min(pick));
        dates.first_pick = Some(pick.max(begins));
        dates.put_in_order(&Dates::default());
        dates
    };
    let (mut before, mut after) = (dates, dates);
    spread_emergence(start, &mut before, &mut after);
    let dates = complete(dates, pick);
    Some(Schedule {
        start,
        dates,
        early: complete(before, plus(pick, -give)),
        late: complete(after, plus(pick, give)),
        method: conditions.counts_by(),
        chance: 1.0,
        ended_by: Ending::Grower,
        needs: days * pace.unit(),
        days: days_between(begins, pick),
        weeks,
        lost: 0.0,
        open_until: dates.closed,
        holds_until: None,
        low_light: false,
        notes: Vec::new(),
    })
}
