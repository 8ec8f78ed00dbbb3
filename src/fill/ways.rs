//! Ways of growing a crop in this garden: every start of a season with its weeks, its harvest and what it takes.

use super::problem::{Start as Begin, Use as Takes, Weeks, weeks};
use crate::calendar::{Date, Week, days_between, plus};
use crate::crop::{Crop, Start};
use crate::growth::{Conditions, Dates, Refusal, Schedule, age, set_out_on};
use crate::plan::{POTTED_CELLS, Plan, SPARE, Settings};
use crate::units::{Amount, num};

/// Days seed may lie in cold soil before it comes up: a later sowing catches up with it (common practice).
const LIES: i64 = 28;
/// Weeks between killing a cover crop and the next sowing (2 to 4: common practice).
const WAIT: usize = 2;
/// Hundredths of a tray cell, and tenths of a minute: the units of the supplies.
pub(super) const TRAY_UNIT: f64 = 100.0;
pub(super) const MINUTE_UNIT: f64 = 10.0;

/// Indices of the supplies, where they are counted.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Supplies {
    pub(super) minutes: Option<usize>,
    pub(super) trays: Option<usize>,
}

/// The weeks of the search: from garden day to garden day.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clock {
    pub(super) first: Week,
    pub(super) day: crate::calendar::Weekday,
    /// Nothing may be begun before this date.
    pub(super) from: Date,
    /// Nothing is begun after this date.
    pub(super) last: Date,
    pub(super) weeks: usize,
}

impl Clock {
    /// The garden day of a week.
    pub(super) fn date(&self, week: usize) -> Date {
        self.first.plus(num::signed(week)).day(self.day)
    }
    /// The index of a week, if it lies in the horizon.
    pub(super) fn index(&self, week: Week) -> Option<usize> {
        usize::try_from(self.first.until(week)).ok().filter(|w| *w < self.weeks)
    }
    /// The first week whose garden day is on or after a date; the end of the horizon at most.
    pub(super) fn on_or_after(&self, date: Date) -> usize {
        let guess = num::count(self.first.until(Week::of(date)));
        let guess = guess + usize::from(self.date(guess) < date);
        guess.min(self.weeks)
    }
    /// The weeks in which cells taken from one date to another are not free.
    pub(super) fn taken(&self, begins: Date, ends: Option<Date>) -> Weeks {
        let to = ends.map_or(self.weeks, |e| self.on_or_after(e));
        let from = self.on_or_after(begins);
        // A planting that begins between two garden days takes the week of the earlier one.
        let from = if from > 0 && self.date(from) > begins { from - 1 } else { from };
        weeks(from, to.max(from))
    }
}

/// One start as it will be planted.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sown {
    pub(super) dates: Dates,
    /// Chance that it is ripe before a killing frost.
    pub(super) chance: f64,
}

/// Starts of a crop by one method, and the reasons against the others.
#[derive(Debug, Clone, Default)]
pub(super) struct Starts {
    pub(super) begins: Vec<Begin>,
    pub(super) sown: Vec<Sown>,
    /// (week, why not).
    pub(super) refused: Vec<(usize, Refusal)>,
}

/// How starts are drawn up.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drawing<'a> {
    pub(super) plan: &'a Plan,
    pub(super) clock: &'a Clock,
    pub(super) supplies: Supplies,
    /// Units of harvest in a gram or a piece; 0 where the harvest is not counted.
    pub(super) scale: f64,
    /// Mates may share the cells before the canopy closes.
    pub(super) opens: bool,
    /// Planted cell by cell, so that neighbours share the fixed minutes.
    pub(super) by_cell: bool,
}

/// Every start of a crop by one method.
pub(super) fn starts(crop: &Crop, open: &Conditions<'_>, start: Start, drawing: &Drawing<'_>) -> Starts {
    let conditions = drawing.plan.raised_for(open, crop);
    let clock = drawing.clock;
    let mut out = Starts::default();
    for week in 0..clock.weeks {
        let day = clock.date(week);
        if day > clock.last {
            break;
        }
        let sown = plus(day, -age(start));
        if sown < clock.from || drawing.plan.settings.is_away(day) || drawing.plan.settings.is_away(sown) {
            continue;
        }
        match set_out_on(crop, &conditions, start, day) {
            Ok(schedule) => {
                let taken = clock.taken(day, schedule.dates.cleared) & !weeks(0, week);
                let lies =
                    schedule.dates.sown.zip(schedule.dates.emerged).map_or(0, |(s, e)| days_between(s, e));
                let missed = is_missed(&drawing.plan.settings, crop, &schedule.dates);
                if taken == 0 || missed || (start == Start::InPlace && lies > LIES) {
                    continue;
                }
                out.begins.push(begin(crop, &schedule, (week, taken), drawing));
                out.sown.push(Sown { dates: schedule.dates, chance: schedule.chance });
            }
            Err(refusal) => out.refused.push((week, refusal)),
        }
    }
    out
}

/// Whether the whole of a picking falls into one absence.
fn is_missed(settings: &Settings, crop: &Crop, dates: &Dates) -> bool {
    let Some(first) = dates.first_pick else { return false };
    let until = plus(dates.last_pick.unwrap_or(first), i64::from(crop.picking.holds));
    settings.away.iter().any(|away| away.from <= first && until <= away.to)
}

/// Starts of a cover crop: killed at several ages, with the wait before the next sowing.
pub(super) fn covers(crop: &Crop, open: &Conditions<'_>, start: Start, drawing: &Drawing<'_>) -> Starts {
    let whole = starts(crop, open, start, drawing);
    let clock = drawing.clock;
    let mut out = Starts::default();
    for (begin, sown) in whole.begins.iter().zip(&whole.sown) {
        let full = num::index(begin.taken.count_ones());
        let ages = [5, 7, 9, 12, 16, 20, 26].into_iter().filter(|n| *n < full).chain([full]);
        for age in ages.filter(|n| *n >= 4) {
            let killed = begin.week + age;
            let end = (killed + WAIT).min(clock.weeks);
            let mut dates = sown.dates;
            dates.cleared = Some(clock.date(killed));
            dates.closed = dates.closed.filter(|c| dates.cleared.is_none_or(|end| *c <= end));
            dates.first_pick = None;
            dates.last_pick = None;
            let mut next = begin.clone();
            next.taken = weeks(begin.week, end);
            next.wait = weeks(killed.min(end), end);
            next.open = 0;
            next.harvest.clear();
            out.begins.push(next);
            out.sown.push(Sown { dates, chance: sown.chance });
        }
    }
    out
}

fn begin(crop: &Crop, schedule: &Schedule, (week, taken): (usize, Weeks), drawing: &Drawing<'_>) -> Begin {
    let clock = drawing.clock;
    let settings = &drawing.plan.settings;
    let mut harvest = Vec::new();
    if drawing.scale > 0.0 {
        let each = crop.harvest.usual.value() * drawing.scale;
        for (at, share) in &schedule.weeks {
            let Some(at) = clock.index(*at) else { continue };
            let amount = num::round_i(each * share);
            if amount > 0 && !settings.is_away(clock.date(at)) {
                harvest.push((at, amount));
            }
        }
        harvest.sort_unstable();
    }
    let open = match (drawing.opens, schedule.dates.closed) {
        (true, Some(closed)) => {
            let mut to = week;
            while to < clock.weeks && clock.date(to + 1) <= closed {
                to += 1;
            }
            weeks(week, to) & taken
        }
        (true, None) | (false, _) => 0,
    };
    Begin { week, taken, open, wait: 0, harvest, uses: uses(schedule.start, &schedule.dates, taken, drawing) }
}

/// What a planting takes of the supplies by week, for itself and for each plant.
pub(super) fn uses(start: Start, dates: &Dates, taken: Weeks, drawing: &Drawing<'_>) -> Vec<Takes> {
    let clock = drawing.clock;
    let settings = &drawing.plan.settings;
    let begins = match start {
        Start::InPlace => dates.sown.or(dates.set_out),
        Start::Raised { .. } | Start::Bought | Start::Piece(_) => dates.set_out.or(dates.sown),
    };
    let mut out: Vec<Takes> = Vec::new();
    let mut add = |supply: usize, week: usize, planting: f64, plant: f64| {
        let (planting, plant) = (num::round_i(planting), num::round_i(plant));
        match out.iter_mut().find(|u| u.supply == supply && u.week == week) {
            Some(u) => {
                u.planting += planting;
                u.plant += plant;
            }
            None => out.push(Takes { supply, week, planting, plant }),
        }
    };
    if let Some(supply) = drawing.supplies.minutes {
        let each = &settings.minutes;
        let share = if drawing.by_cell { 0.5 } else { 1.0 };
        let mut task = |date: Option<Date>, task: crate::plan::Task| {
            if let Some(week) = date.and_then(|d| clock.index(Week::of(d)))
                && !settings.is_away(clock.date(week))
            {
                add(
                    supply,
                    week,
                    f64::from(task.planting) * MINUTE_UNIT * share,
                    f64::from(task.plant) * MINUTE_UNIT,
                );
            }
        };
        match start {
            Start::InPlace => task(begins, each.sow),
            Start::Raised { .. } => {
                task(dates.sown, each.raise);
                task(dates.potted, each.pot_on);
                task(dates.set_out, each.set_out);
            }
            Start::Bought | Start::Piece(_) => task(begins, each.set_out),
        }
        task(dates.cleared, each.clear);
        for week in 0..clock.weeks {
            if taken >> week & 1 == 1 {
                task(Some(clock.date(week)), each.care);
            }
        }
        if let (Some(first), Some(last)) = (dates.first_pick, dates.last_pick) {
            let (first, last) = (Week::of(first), Week::of(last));
            for n in 0..=first.until(last).clamp(-1, 110) {
                task(Some(first.plus(n).day(clock.day)), each.pick);
            }
        }
    }
    if let (Some(supply), Start::Raised { per_station, .. }, Some(sown), Some(set_out)) =
        (drawing.supplies.trays, start, dates.sown, dates.set_out)
    {
        let first = Week::of(sown);
        for n in 0..first.until(Week::of(set_out)).clamp(0, 60) {
            let week = first.plus(n);
            let potted = dates.potted.is_some_and(|p| Week::of(p) <= week);
            if let Some(at) = clock.index(week) {
                let cells = SPARE / f64::from(per_station.max(1)) * if potted { POTTED_CELLS } else { 1.0 };
                add(supply, at, 0.0, (cells * TRAY_UNIT).ceil());
            }
        }
    }
    out.sort_unstable_by_key(|u| (u.supply, u.week));
    out
}

/// Units of harvest in a gram or a piece, so that a crop's harvest counts towards an amount; none where the two are
/// counted in different ways and no weight of a piece is known. Weights are counted in hundredths of a gram, pieces
/// in thousandths.
pub(super) fn scale(crop: &Crop, wanted: Amount) -> Option<f64> {
    let usual = crop.harvest.usual;
    if usual.same_kind(wanted) {
        return Some(unit(wanted));
    }
    let each = crop.each?.grams();
    match (usual, wanted) {
        (Amount::Count(..), Amount::Weight(_)) => Some(each * unit(wanted)),
        (Amount::Weight(_), Amount::Count(..)) if each > 0.0 => Some(unit(wanted) / each),
        (Amount::Count(..), Amount::Count(..))
        | (Amount::Weight(_), Amount::Count(..) | Amount::Weight(_)) => None,
    }
}

/// Units in one gram or one piece.
pub(super) const fn unit(wanted: Amount) -> f64 {
    match wanted {
        Amount::Weight(_) => 100.0,
        Amount::Count(..) => 1000.0,
    }
}
