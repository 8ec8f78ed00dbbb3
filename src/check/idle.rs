//! Cell-weeks of the growing season in which the ground carries nothing.
//!
//! The season is judged from the site's climate and the crop book alone: the weeks, from garden day to garden day,
//! in which some quick crop of the book that is sown in place could stand and really grows: the mean temperature
//! is at least 5 C (growing season of the WMO climate indices) and days are not under ten hours. Ground is used
//! from sowing or setting out to the last useful picking, on whichever days of a week; ground under a cover crop
//! alone is counted apart.

use super::Context;
use crate::calendar::{ClimateDay, Date, Week, days_between, plus};
use crate::crop::{Start, Use};
use crate::growth::schedule;
use crate::plan::Planting;
use crate::site::SHORT_DAY;
use crate::units::num;

/// Mean temperature from which plants grow, degrees Celsius.
const GROWS: f64 = 5.0;
/// Days seed may lie in the ground before it comes up, for the start to be worth while (common practice).
const LIES: i64 = 28;

/// Cell-weeks of a season.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct GroundUse {
    /// Nothing grows.
    pub idle: usize,
    /// Only a cover crop grows.
    pub covered: usize,
    /// All of them.
    pub growing: usize,
}

impl GroundUse {
    /// Idle cell-weeks as a share of all, 0 to 1.
    pub fn share(self) -> f64 {
        if self.growing == 0 { 0.0 } else { num::real(self.idle) / num::real(self.growing) }
    }
}

/// First days of the garden weeks from a date to the end of its season.
fn garden_weeks(context: &Context<'_>, from: Date) -> Vec<Date> {
    let last = context.season(from).last();
    let first = Week::of(from);
    let day = context.plan.settings.garden_day;
    (0..=first.until(Week::of(last))).map(|n| first.plus(n).day(day)).filter(|d| *d <= last).collect()
}

/// First days of the garden weeks of the growing season, from a date to the end of its season.
pub fn growing_weeks(context: &Context<'_>, from: Date) -> Vec<Date> {
    let year = context.year;
    let weeks = garden_weeks(context, from);
    let settings = &context.plan.settings;
    let mut stands = vec![false; weeks.len()];
    for crop in context.book.crops().filter(|c| c.catch && c.is_food() && c.starts.contains(&Start::InPlace))
    {
        // The season is the climate's: what this garden has learnt of a crop does not stretch it.
        let open = context.open.clone().knowing(std::collections::BTreeMap::new());
        for (n, on) in weeks.iter().enumerate().filter(|(_, on)| !settings.is_away(**on)) {
            let Ok(good) = schedule(crop, &open, Start::InPlace, *on) else { continue };
            let lies = good.dates.emerged.map_or(0, |up| days_between(*on, up));
            let Some(end) = good.dates.cleared.filter(|_| lies <= LIES) else { continue };
            for (week, stands) in weeks.iter().zip(&mut stands).skip(n) {
                *stands |= *week < end;
            }
        }
    }
    let grows = |on: Date| {
        let day = ClimateDay::of(on).index();
        year.tmean[day] >= GROWS && year.daylength[day] >= SHORT_DAY
    };
    weeks.into_iter().zip(stands).filter(|(on, stands)| *stands && grows(*on)).map(|(on, _)| on).collect()
}

/// Whether a planting is there for the soil alone.
fn covers(context: &Context<'_>, planting: &Planting) -> bool {
    context.crop(planting).is_some_and(|c| c.is_for(Use::Cover) && !c.is_food())
}

/// The day after the last on which a planting is of use.
fn useful_until(context: &Context<'_>, planting: &Planting) -> Option<Date> {
    let end = planting.ends().into_iter().chain(planting.failed).min();
    if covers(context, planting) {
        return end;
    }
    let picked = planting.dates().last_pick;
    // A perennial, or what has no picking, is of use until it is cleared.
    match (end, picked) {
        (Some(end), Some(last)) => Some(end.min(plus(last, 1))),
        (end, _) => end,
    }
}

/// Cell-weeks of the growing season from a date to the end of its season, over all beds and pots that stand then.
pub fn ground_use(context: &Context<'_>, from: Date) -> GroundUse {
    let weeks = growing_weeks(context, from);
    let mut out = GroundUse::default();
    for place in &context.plan.places {
        let (rows, cols) = place.grid(context.plan.settings.cell);
        let plantings: Vec<(&Planting, Date, Option<Date>, bool)> = context
            .in_place(&place.id)
            .iter()
            .filter_map(|p| Some((*p, p.begins()?, useful_until(context, p), covers(context, p))))
            .collect();
        for week in weeks.iter().filter(|w| place.stands_on(**w)) {
            let next = plus(*week, 7);
            let there: Vec<_> = plantings
                .iter()
                .filter(|(_, begin, end, _)| *begin < next && end.is_none_or(|e| e > *week))
                .collect();
            for (row, col) in (0..rows).flat_map(|r| (0..cols).map(move |c| (r, c))) {
                out.growing += 1;
                let mut here = there.iter().filter(|(p, ..)| p.block.holds(row, col)).peekable();
                if here.peek().is_none() {
                    out.idle += 1;
                } else if here.all(|(.., cover)| *cover) {
                    out.covered += 1;
                }
            }
        }
    }
    out
}
