//! What is computed from the plan once after every change, so that drawing stays quick.

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

/// Of which state of the garden what is reckoned is true.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Stamps {
    findings: Option<u64>,
    kitchen: Option<(Season, u64)>,
    met: Option<(Season, u64)>,
}

impl Model {
    /// Reckons what the view shown needs, where the plan or the season has changed since. What no view shows waits, so
    /// that a key in a large garden is answered at once.
    pub(super) fn reckon(&mut self) {
        match self.view {
            View::Findings => self.judge(),
            View::Weeks => self.cook(),
            View::Wishes => self.weigh(),
            View::Ground | View::Bed | View::Jobs | View::Record | View::Book | View::Needs => {}
        }
    }
    /// What the check says.
    pub(super) fn judge(&mut self) {
        if self.stamps.findings == Some(self.revision) {
            return;
        }
        self.stamps.findings = Some(self.revision);
        let findings = self.year.as_ref().map_or_else(
            |_| Vec::new(),
            |year| {
                let judged = Season::holding(self.today, self.season_start());
                let context =
                    Context::new(self.shown(), &self.book, year, judged.first(), judged.plus(1).last());
                check(&context)
            },
        );
        self.reckoned.findings = findings;
        let last = self.reckoned.findings.len().saturating_sub(1);
        if let Some(line) = self.lines.get_mut(&View::Findings) {
            *line = (*line).min(last);
        }
    }
    /// What comes to the kitchen.
    fn cook(&mut self) {
        let stamp = (self.season(), self.revision);
        if self.stamps.kitchen != Some(stamp) {
            self.stamps.kitchen = Some(stamp);
            self.reckoned.kitchen = self.source(stamp.0).map_or_else(Vec::new, |s| s.kitchen().rows);
        }
    }
    /// How far the wishes are met.
    pub(super) fn weigh(&mut self) {
        let stamp = (self.season(), self.revision);
        if self.stamps.met != Some(stamp) {
            self.stamps.met = Some(stamp);
            let met = self.source(stamp.0).map(|s| met(&s, self.shown(), stamp.0));
            self.reckoned.met = met.unwrap_or_default();
        }
    }
    fn source(&self, season: Season) -> Option<Source<'_>> {
        let year = self.year.as_ref().ok()?;
        Some(Source { plan: self.shown(), book: &self.book, year, season })
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
