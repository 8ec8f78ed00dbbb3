//! How far a plan meets its wishes: the judge's figures, none of its own.

use super::Source;
use crate::calendar::Week;
use crate::check::{Context, Met, share_met};
use crate::paper::summary::SummaryWish;
use crate::paper::words::span;
use crate::plan::{Pattern, Wish};

impl Source<'_> {
    /// Every wish of the season with what the plan brings for it, as the check reckons it.
    pub fn wishes(&self) -> Vec<SummaryWish> {
        let met = self.met();
        self.asked().map(|w| self.wish(w, met.iter().find(|m| m.wish == w.id))).collect()
    }

    /// The same with what is picked for each week by week, in the unit of the wish.
    pub fn by_week(&self) -> Vec<(SummaryWish, Vec<(Week, f64)>)> {
        let met = self.met();
        let of = |w: &Wish| {
            let met = met.iter().find(|m| m.wish == w.id);
            (self.wish(w, met), met.map_or_else(Vec::new, |m| m.picked.clone()))
        };
        self.asked().map(of).collect()
    }

    /// The wishes of the season, in the order of the plan.
    fn asked(&self) -> impl Iterator<Item = &Wish> {
        self.plan.wishes.iter().filter(|w| w.season.is_none_or(|year| year == self.season.year()))
    }

    fn met(&self) -> Vec<Met> {
        let (first, last) = (self.season.first(), self.season.last());
        share_met(&Context::new(self.plan, self.book, self.year, first, last), first).wishes
    }

    fn wish(&self, wish: &Wish, met: Option<&Met>) -> SummaryWish {
        let measure = self.plan.settings.measure;
        let from = wish.from.climate_day().on_or_after(self.season.first());
        let to = wish.to.climate_day().on_or_after(from);
        let how = match wish.pattern {
            Pattern::Even => "a week",
            Pattern::AtOnce => "at once",
            Pattern::Store => "for the store",
        };
        let harvest = met.map(|m| m.harvest).filter(|h| h.value() > 0.0);
        SummaryWish {
            name: self.book.get(&wish.crop).map_or_else(|| wish.crop.0.clone(), |c| c.name.clone()),
            wanted: format!("{} {how}, {}", wish.amount.reading(measure), span(from, to)),
            met: harvest.map_or_else(|| "nothing".to_owned(), |h| h.reading(measure)),
            share: met.map_or(0.0, |m| m.share),
            reason: wish.note.clone(),
        }
    }
}
