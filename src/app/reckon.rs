//! What is computed from the plan once after every change, so that drawing stays quick.

use super::model::Model;
use crate::calendar::{Season, Week, plus};
use crate::check::{Context, Finding, check};
use crate::crop::Book;
use crate::paper::{KitchenRow, Source};
use crate::plan::{Pattern, Plan, Wish, WishId};
use crate::site::SiteYear;
use crate::units::num;
use chrono::Datelike as _;
use std::collections::BTreeMap;

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

impl Model {
    /// Reckons anew.
    pub(super) fn reckon(&mut self) {
        let season = self.season();
        let plan = self.shown();
        let Ok(year) = &self.year else {
            self.reckoned = Reckoned::default();
            return;
        };
        let judged = Season::holding(self.today, self.season_start());
        let context = Context::new(plan, &self.book, year, judged.first(), judged.plus(1).last());
        let findings = check(&context);
        let source = Source { plan, book: &self.book, year, season };
        let reckoned = Reckoned { findings, kitchen: source.kitchen().rows, met: met(&source, plan, season) };
        self.reckoned = reckoned;
        self.reckoned_for = Some(season);
    }
}

/// How far the wishes of a season are met by a plan.
pub(super) fn met_of(plan: &Plan, book: &Book, year: &SiteYear, season: Season) -> BTreeMap<WishId, Met> {
    met(&Source { plan, book, year, season }, plan, season)
}

fn met(source: &Source<'_>, plan: &Plan, season: Season) -> BTreeMap<WishId, Met> {
    // The sheet lists the wishes of its season in the order of the plan.
    let wishes = plan.wishes.iter().filter(|w| w.season.is_none_or(|y| y == season.year()));
    let rows = source.wishes().into_iter().zip(source.by_week());
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
