//! How far a plan meets its wishes.

use std::collections::BTreeSet;

use super::Source;
use super::kitchen::expected;
use crate::calendar::{Date, Week};
use crate::paper::summary::SummaryWish;
use crate::paper::words::span;
use crate::plan::{Pattern, Planting, PlantingId, Why, Wish};
use crate::units::Amount;

impl Source<'_> {
    /// Every wish of the season with what the plan brings for it.
    ///
    /// A planting made for a wish counts for that wish; one put in by hand counts for the first wish of its crop
    /// that takes some of it. Of an even wish each week counts by itself: a glut does not make up for a week short.
    pub fn wishes(&self) -> Vec<SummaryWish> {
        let mut taken = BTreeSet::new();
        let here = |w: &&Wish| w.season.is_none_or(|year| year == self.season.year());
        self.plan.wishes.iter().filter(here).map(|w| self.wish(w, &mut taken)).collect()
    }

    /// What is picked for each wish of the season, week by week, in the order of [`Self::wishes`]; in the unit of the
    /// wish.
    pub fn by_week(&self) -> Vec<Vec<(Week, f64)>> {
        let mut taken = BTreeSet::new();
        let here = |w: &&Wish| w.season.is_none_or(|year| year == self.season.year());
        self.plan.wishes.iter().filter(here).map(|w| self.picked_for(w, &mut taken)).collect()
    }

    /// First and last day of a wish in the season.
    fn window(&self, wish: &Wish) -> (Date, Date) {
        let from = wish.from.climate_day().on_or_after(self.season.first());
        (from, wish.to.climate_day().on_or_after(from))
    }

    fn picked_for(&self, wish: &Wish, taken: &mut BTreeSet<PlantingId>) -> Vec<(Week, f64)> {
        let (from, to) = self.window(wish);
        let conditions = self.conditions();
        let mut picked: Vec<(Week, f64)> = Vec::new();
        for p in self.plantings() {
            let Some(crop) = self.book.get(&p.crop).filter(|_| self.serves(p, wish, taken)) else { continue };
            let inside = |(week, _): &(Week, Amount)| week.sunday() >= from && week.monday() <= to;
            let mut weeks: Vec<_> = expected(p, crop, &conditions).into_iter().filter(inside).collect();
            weeks.retain(|(_, a)| a.same_kind(wish.amount));
            if !weeks.is_empty() {
                taken.insert(p.id);
            }
            picked.extend(weeks.into_iter().map(|(w, a)| (w, a.value())));
        }
        picked
    }

    fn wish(&self, wish: &Wish, taken: &mut BTreeSet<PlantingId>) -> SummaryWish {
        let measure = self.plan.settings.measure;
        let (from, to) = self.window(wish);
        let picked = self.picked_for(wish, taken);
        // From +0: the sum of nothing would be -0, and print so.
        let total = picked.iter().fold(0.0, |sum, p| sum + p.1);
        let want = wish.amount.value();
        let (share, how) = match wish.pattern {
            Pattern::Even => (even(&picked, want, from, to), "a week"),
            Pattern::AtOnce => (part(total, want), "at once"),
            Pattern::Store => (part(total, want), "for the store"),
        };
        SummaryWish {
            name: self.book.get(&wish.crop).map_or_else(|| wish.crop.0.clone(), |c| c.name.clone()),
            wanted: format!("{} {how}, {}", wish.amount.reading(measure), span(from, to)),
            met: if total > 0.0 {
                wish.amount.with_value(total).reading(measure)
            } else {
                "nothing".to_owned()
            },
            share,
            reason: wish.note.clone(),
        }
    }

    fn serves(&self, p: &Planting, wish: &Wish, taken: &BTreeSet<PlantingId>) -> bool {
        if p.failed.is_some() || taken.contains(&p.id) {
            return false;
        }
        match p.why {
            Why::Wish(id) => id == wish.id,
            Why::Hand | Why::Catch => {
                p.crop == wish.crop || self.book.get(&p.crop).is_some_and(|c| *c.base() == wish.crop)
            }
            Why::Cover => false,
        }
    }
}

fn part(got: f64, wanted: f64) -> f64 {
    if wanted > 0.0 { (got / wanted).min(1.0) } else { 1.0 }
}

/// Share of an even wish: each week of its window by itself.
fn even(picked: &[(Week, f64)], want: f64, from: Date, to: Date) -> f64 {
    let mut week = Week::of(from);
    let (mut met, mut weeks) = (0.0, 0_u32);
    while week.monday() <= to {
        let got: f64 = picked.iter().filter(|(w, _)| *w == week).map(|(_, a)| a).sum();
        met += part(got, want);
        weeks += 1;
        week = week.plus(1);
    }
    met / f64::from(weeks.max(1))
}
