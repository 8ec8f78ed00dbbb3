//! Wishes as the search sees them: stretches of weeks, each with an amount and what it is worth.

use super::{Builder, Left, POINT};
use crate::calendar::{MonthDay, Season, Week};
use crate::crop::{Book, Crop};
use crate::fill::problem::{Bucket, Wish as Ask};
use crate::fill::ways;
use crate::plan::{Pattern, Wish, WishId};
use crate::units::{Amount, num};

impl<'a> Builder<'a> {
    /// The crops that meet a wish: the crop itself and, where the wish names a crop and no variety, its varieties.
    pub(super) fn candidates(&self, wish: &Wish) -> Vec<&'a Crop> {
        let Some(crop) = self.book.get(&wish.crop) else { return Vec::new() };
        let mut out = vec![crop];
        if crop.of.is_none() {
            let book: &'a Book = self.book;
            // A variety picked as something else (pea shoots, green onions) is not what was wished for; nor, for
            // laying down, is one that does not keep.
            let kept = |c: &Crop| c.keeps.as_ref().map_or(0, |k| k.days.0);
            let keeps = |c: &Crop| wish.pattern != Pattern::Store || kept(c) * 2 >= kept(crop);
            let same = |c: &Crop| c.part == crop.part && keeps(c);
            out.extend(book.crops().filter(|c| c.of.as_ref() == Some(&crop.id) && same(c)));
        }
        out
    }

    pub(super) fn wishes(&mut self) -> (Vec<WishId>, Vec<Left>) {
        let (mut ids, mut left) = (Vec::new(), Vec::new());
        let plan = self.plan;
        for wish in &plan.wishes {
            match self.ask(wish) {
                Ok(ask) => {
                    let index = self.problem.wishes.len();
                    self.problem.wishes.push(ask);
                    ids.push(wish.id);
                    for crop in self.candidates(wish) {
                        self.grow(crop, Some((index, wish)));
                    }
                }
                Err(why) => left.push(Left { wish: wish.id, why }),
            }
        }
        (ids, left)
    }

    pub(super) fn ask(&self, wish: &Wish) -> Result<Ask, String> {
        let Some(crop) = self.book.get(&wish.crop) else {
            return Err(format!("'{}' is not in the crop book", wish.crop));
        };
        if !self.candidates(wish).iter().any(|c| ways::scale(c, wish.amount).is_some()) {
            return Err(format!(
                "{} is counted as {}, not as {}",
                crop.name, crop.harvest.usual, wish.amount
            ));
        }
        let season =
            wish.season.map_or(self.season, |y| Season::beginning(y, MonthDay::of(self.season.first())));
        let first = wish.from.climate_day().on_or_after(season.first());
        let last = wish.to.climate_day().on_or_after(first);
        if last < self.clock.from {
            return Err(String::from("its weeks are over"));
        }
        let (from, to) =
            (self.clock.first.until(Week::of(first)), self.clock.first.until(Week::of(last)) + 1);
        let from = num::count(from);
        let to = num::count(to).min(self.clock.weeks);
        if from >= to {
            return Err(String::from("its weeks lie beyond what is planned now"));
        }
        let unit = ways::unit(wish.amount) * wish.amount.value();
        let spans: Vec<(usize, usize)> = match wish.pattern {
            Pattern::Even => {
                let keeps = crop.keeps.as_ref().map_or(7, |k| usize::from(k.days.0));
                let step = (keeps / 7).clamp(1, 4);
                (from..to).step_by(step).map(|a| (a, (a + step).min(to))).collect()
            }
            Pattern::AtOnce | Pattern::Store => vec![(from, to)],
        };
        let amount = |a: usize, b: usize| match wish.pattern {
            Pattern::Even => unit * num::real(b - a),
            Pattern::AtOnce | Pattern::Store => unit,
        };
        let total: f64 = spans.iter().map(|&(a, b)| amount(a, b)).sum();
        if total < 1.0 {
            return Err(String::from("no amount is asked for"));
        }
        let value = num::round_i(100.0 * f64::from(wish.importance) * num::real_i(POINT) / total).max(5);
        let buckets = spans
            .into_iter()
            .map(|(a, b)| {
                let want = num::round_i(amount(a, b)).max(1);
                Bucket { from: a, to: b, want, extra: want / 2, value, beyond: value / 5 }
            })
            .collect();
        Ok(Ask { name: crop.name.clone(), importance: i64::from(wish.importance), buckets })
    }
}

/// An amount of the problem as the grower reads it.
pub(in crate::fill) fn amount(like: Amount, units: i64) -> Amount {
    like.with_value(num::real_i(units) / ways::unit(like))
}
