//! What is computed from the plan once after every change, so that drawing stays quick.

use super::model::Model;
use crate::calendar::Season;
use crate::check::{Context, Finding, check};
use crate::paper::{KitchenRow, Source};
use crate::plan::{Plan, WishId};
use std::collections::BTreeMap;

/// How far a wish is met by what is planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Met {
    /// 0 to 1.
    pub share: f64,
    /// What is harvested for it in all.
    pub harvest: String,
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

fn met(source: &Source<'_>, plan: &Plan, season: Season) -> BTreeMap<WishId, Met> {
    // The sheet lists the wishes of its season in the order of the plan.
    let ids = plan.wishes.iter().filter(|w| w.season.is_none_or(|y| y == season.year())).map(|w| w.id);
    let rows = source.wishes().into_iter().map(|w| Met { share: w.share, harvest: w.met });
    ids.zip(rows).collect()
}
