//! What is computed from the plan once after every change, so that drawing stays quick.

use super::errand::Errand;
use super::model::Model;
use super::view::View;
use crate::calendar::{Season, Week, plus};
use crate::check::{Context, Finding, check};
use crate::crop::Book;
use crate::paper::{KitchenRow, Source};
use crate::plan::{Pattern, Plan, Wish, WishId};
use crate::site::SiteYear;
use crate::units::num;
use chrono::Datelike as _;
use std::collections::BTreeMap;
use std::sync::Arc;

/// How far a wish is met by what is planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Met {
    /// 0 to 1.
    pub share: f64,
    /// What is harvested for it in all.
    pub harvest: String,
    /// By month of the season: how far it is met, 0 to 1; none where nothing is wished for.
    pub months: [Option<f64>; 12],
}

/// What follows from the plan as it is shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reckoned {
    /// What the check says of this season and the next, stops first.
    pub findings: Vec<Finding>,
    /// What comes to the kitchen in the season shown, a row a crop.
    pub kitchen: Vec<KitchenRow>,
    /// How far each wish of that season is met.
    pub met: BTreeMap<WishId, Met>,
}

/// One of the things that follow from the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sum {
    /// What the check says.
    Findings,
    /// What comes to the kitchen.
    Kitchen,
    /// How far the wishes are met.
    Met,
}

/// Of which state of the garden something is true.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Stamp {
    /// Changes of the plan, its site and the crop book so far.
    revision: u64,
    /// The season it is about.
    season: Season,
}

/// Of which state each sum is true, and for which it has been asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Stamps {
    done: [Option<Stamp>; 3],
    asked: [Option<Stamp>; 3],
}

/// A sum to be worked out, with all that it follows from.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoning {
    /// Which.
    pub sum: Sum,
    stamp: Stamp,
    plan: Plan,
    book: Arc<Book>,
    year: Arc<SiteYear>,
}

/// A sum worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Sums {
    stamp: Stamp,
    value: Value,
}

#[derive(Debug, Clone, PartialEq)]
enum Value {
    Findings(Vec<Finding>),
    Kitchen(Vec<KitchenRow>),
    Met(BTreeMap<WishId, Met>),
}

impl Reckoning {
    /// Works it out.
    pub fn run(&self) -> Sums {
        let source =
            Source { plan: &self.plan, book: &self.book, year: &self.year, season: self.stamp.season };
        Sums { stamp: self.stamp, value: value(self.sum, &source) }
    }
}

/// A sum of a season: findings are of it and the next.
fn value(sum: Sum, source: &Source<'_>) -> Value {
    let Source { plan, book, year, season } = *source;
    match sum {
        Sum::Findings => {
            let context = Context::new(plan, book, year, season.first(), season.plus(1).last());
            Value::Findings(check(&context))
        }
        Sum::Kitchen => Value::Kitchen(source.kitchen().rows),
        Sum::Met => Value::Met(met(source, plan, season)),
    }
}

impl Model {
    /// Reckons what the view shown needs, where the plan or the season has changed since. What no view shows waits, so
    /// that a key in a large garden is answered at once.
    pub(super) fn reckon(&mut self) {
        match self.view {
            View::Findings => self.want(Sum::Findings),
            View::Weeks => self.want(Sum::Kitchen),
            View::Wishes => self.want(Sum::Met),
            View::Book => self.reckon_narrowed(),
            View::Ground | View::Bed | View::Jobs | View::Record | View::Needs => {}
        }
    }
    /// Whether a sum that is shown is not that of the plan as it is: it is being worked out.
    pub fn is_behind(&self, sum: Sum) -> bool {
        self.stamps.done[place(sum)] != Some(self.stamp(sum))
    }
    fn stamp(&self, sum: Sum) -> Stamp {
        let season = match sum {
            Sum::Findings => Season::holding(self.today, self.season_start()),
            Sum::Kitchen | Sum::Met => self.season(),
        };
        Stamp { revision: self.revision, season }
    }
    /// Sees to it that a sum becomes that of the plan as it is: beside the screen where that is possible.
    pub(super) fn want(&mut self, sum: Sum) {
        if !self.beside {
            self.settle(sum);
            return;
        }
        let stamp = self.stamp(sum);
        if let Ok(year) = &self.year
            && self.is_behind(sum)
            && self.stamps.asked[place(sum)] != Some(stamp)
        {
            let (plan, book, year) = (self.shown().clone(), Arc::clone(&self.book), Arc::clone(year));
            self.stamps.asked[place(sum)] = Some(stamp);
            self.errands.push(Errand::Reckon(Box::new(Reckoning { sum, stamp, plan, book, year })));
        }
    }
    /// Works a sum out at once where it is behind.
    fn settle(&mut self, sum: Sum) {
        if !self.is_behind(sum) {
            return;
        }
        let stamp = self.stamp(sum);
        let source = self.year.as_ref().ok().map(|year| Source {
            plan: self.shown(),
            book: &self.book,
            year,
            season: stamp.season,
        });
        let value = source.map_or_else(
            || match sum {
                Sum::Findings => Value::Findings(Vec::new()),
                Sum::Kitchen => Value::Kitchen(Vec::new()),
                Sum::Met => Value::Met(BTreeMap::new()),
            },
            |source| value(sum, &source),
        );
        self.take(Sums { stamp, value });
    }
    /// Takes in a sum; one that is not of the plan as it is now is let go.
    pub(super) fn take(&mut self, result: Sums) {
        let sum = match result.value {
            Value::Findings(_) => Sum::Findings,
            Value::Kitchen(_) => Sum::Kitchen,
            Value::Met(_) => Sum::Met,
        };
        if result.stamp != self.stamp(sum) {
            return;
        }
        self.stamps.done[place(sum)] = Some(result.stamp);
        match result.value {
            Value::Findings(findings) => {
                let last = findings.len().saturating_sub(1);
                self.reckoned.findings = findings;
                if let Some(line) = self.lines.get_mut(&View::Findings) {
                    *line = (*line).min(last);
                }
            }
            Value::Kitchen(rows) => self.reckoned.kitchen = rows,
            Value::Met(met) => self.reckoned.met = met,
        }
    }
}

/// Where the stamps of a sum stand.
const fn place(sum: Sum) -> usize {
    match sum {
        Sum::Findings => 0,
        Sum::Kitchen => 1,
        Sum::Met => 2,
    }
}

/// How far the wishes of a season are met by a plan.
pub(super) fn met_of(plan: &Plan, book: &Book, year: &SiteYear, season: Season) -> BTreeMap<WishId, Met> {
    met(&Source { plan, book, year, season }, plan, season)
}

fn met(source: &Source<'_>, plan: &Plan, season: Season) -> BTreeMap<WishId, Met> {
    // The sheet lists the wishes of its season in the order of the plan.
    let wishes = plan.wishes.iter().filter(|w| w.season.is_none_or(|y| y == season.year()));
    let rows = source.by_week();
    wishes
        .zip(rows)
        .map(|(wish, (row, picked))| {
            let months = months(wish, &picked, season);
            (wish.id, Met { share: row.share, harvest: row.met, months })
        })
        .collect()
}

/// How far a wish is met by month, the first of the season first: of an even wish each month by itself, of the others
/// what each month brings of the whole.
fn months(wish: &Wish, picked: &[(Week, f64)], season: Season) -> [Option<f64>; 12] {
    let from = wish.from.climate_day().on_or_after(season.first());
    let to = wish.to.climate_day().on_or_after(from);
    let mut wanted = [0.0; 12];
    let mut got = [0.0; 12];
    let month = |week: Week| {
        // A week belongs to the month of its Thursday.
        let day = plus(week.monday(), 3).max(season.first());
        num::index((day.month0() + 12 - season.first().month0()) % 12)
    };
    let mut week = Week::of(from);
    while week.monday() <= to {
        wanted[month(week)] += wish.amount.value();
        got[month(week)] += picked.iter().filter(|(w, _)| *w == week).fold(0.0, |sum, (_, a)| sum + a);
        week = week.plus(1);
    }
    let mut out = [None; 12];
    for ((out, wanted), got) in out.iter_mut().zip(wanted).zip(got) {
        let whole = if wish.pattern == Pattern::Even { wanted } else { wish.amount.value() };
        *out = (wanted > 0.0).then(|| (got / whole.max(1e-9)).min(1.0));
    }
    out
}
