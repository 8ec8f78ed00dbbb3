//! What plantings give, week by week, and what becomes of the wishes: recomputed from the plan alone.
//!
//! Nothing here is shared with the search, so that its figures are checked by someone else.
//!
//! *Share met* is the sum over wishes of importance x met / wanted, over the sum of importances. A wish is met by
//! stretches of weeks, none counted beyond what it asks for: for *even* wishes as many weeks as the harvest keeps
//! (one to four), for the others the whole window.
//!
//! The *rolling larder* of an even wish follows what is picked, kept for its storage life and eaten at the wished
//! rate: a week is *short* when less than half of it is there, and a *glut* when more than half of it spoils.

use super::Context;
use crate::calendar::{Date, MonthDay, Season, Week};
use crate::crop::Crop;
use crate::plan::{Pattern, Planting, Why, Wish, WishId};
use crate::units::{Amount, num};
use std::collections::BTreeMap;

/// What becomes of a wish.
#[derive(Debug, Clone, PartialEq)]
pub struct Met {
    /// The wish.
    pub wish: WishId,
    /// Asked for in all.
    pub wanted: Amount,
    /// Harvested for it within its weeks.
    pub harvest: Amount,
    /// Of it counted: nothing beyond what a stretch of weeks asks for.
    pub met: Amount,
    /// Met as a share of wanted, 0 to 1.
    pub share: f64,
    /// Harvested for it by week within its weeks, in the plain unit of the wish (grams or pieces).
    pub picked: Vec<(Week, f64)>,
    /// The larder of an even wish.
    pub larder: Option<Larder>,
}

/// How evenly a wish is served.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Larder {
    /// Weeks of the wish.
    pub weeks: usize,
    /// Weeks with less than half of what is wished for.
    pub short: usize,
    /// Weeks in which more than half as much again spoils.
    pub glut: usize,
}

impl Larder {
    /// Follows what is picked week by week, kept for `life` weeks (the week of picking is the first) and eaten at
    /// `rate` a week, oldest first.
    pub fn follow(life: usize, rate: f64, picked: &[f64]) -> Self {
        let mut out = Self { weeks: picked.len(), short: 0, glut: 0 };
        // Youngest first: what was picked this week, a week ago ...
        let mut stock = vec![0.0; life.max(1)];
        for now in picked {
            stock.rotate_right(1);
            stock[0] = *now;
            let mut hunger = rate;
            for kept in stock.iter_mut().rev() {
                let eaten = hunger.min(*kept);
                *kept -= eaten;
                hunger -= eaten;
            }
            out.short += usize::from(hunger > 0.5 * rate);
            // What is oldest now is spoilt next week.
            if let Some(oldest) = stock.last_mut() {
                out.glut += usize::from(*oldest > 0.5 * rate);
                *oldest = 0.0;
            }
        }
        out
    }
    /// Share of its weeks that are neither short nor a glut.
    pub fn even(self) -> f64 {
        let good = self.weeks.saturating_sub(self.short + self.glut);
        if self.weeks == 0 { 1.0 } else { num::real(good) / num::real(self.weeks) }
    }
}

/// What becomes of all wishes of a season.
#[derive(Debug, Clone, PartialEq)]
pub struct ShareMet {
    /// Each wish that has weeks left.
    pub wishes: Vec<Met>,
    /// Importance-weighted share met, 0 to 1; 1 where nothing is wished for.
    pub share: f64,
}

/// A wish with its weeks.
struct Asked<'a> {
    wish: &'a Wish,
    crop: Option<&'a Crop>,
    first: Week,
    last: Week,
}

/// Share of a plant's usual harvest by week, moved with the real or planned first picking.
pub(super) fn weeks(context: &Context<'_>, planting: &Planting, crop: &Crop) -> Vec<(Week, f64)> {
    planting.harvest(crop, &context.conditions(planting, crop))
}

/// A plant's usual harvest in the plain unit of an amount (grams or pieces); none where the two cannot be compared.
fn usual(crop: &Crop, wanted: Amount) -> Option<f64> {
    let usual = crop.harvest.usual;
    if usual.same_kind(wanted) {
        return Some(usual.value());
    }
    let each = crop.each?.grams();
    match (usual, wanted) {
        (Amount::Count(..), Amount::Weight(_)) => Some(usual.value() * each),
        (Amount::Weight(_), Amount::Count(..)) if each > 0.0 => Some(usual.value() / each),
        (Amount::Weight(_), Amount::Count(..) | Amount::Weight(_))
        | (Amount::Count(..), Amount::Count(..)) => None,
    }
}

/// Wishes with weeks on or after `from` within this season and the next, in the order of the plan.
fn asked<'a>(context: &Context<'a>, from: Date) -> Vec<Asked<'a>> {
    let season = context.season(from);
    let end = Week::of(season.plus(1).last());
    let mut out = Vec::new();
    for wish in &context.plan.wishes {
        let of = wish.season.map_or(season, |y| Season::beginning(y, MonthDay::of(season.first())));
        let first = wish.from.climate_day().on_or_after(of.first());
        let last = wish.to.climate_day().on_or_after(first);
        let (first, last) = (Week::of(first).max(Week::of(from)), Week::of(last).min(end));
        if first <= last {
            out.push(Asked { wish, crop: context.book.get(&wish.crop), first, last });
        }
    }
    out
}

/// The wish a planting serves: its own, or, once it is settled, the first its crop can meet.
fn served(asked: &[Asked<'_>], planting: &Planting, crop: &Crop, from: Date) -> Option<usize> {
    let begun = planting.dates().in_order().into_iter().min().is_some_and(|d| d < from);
    let settled = planting.fixed || planting.has_begun() || begun;
    match planting.why {
        Why::Wish(id) => asked.iter().position(|a| a.wish.id == id),
        Why::Catch | Why::Cover if !settled => None,
        Why::Hand | Why::Catch | Why::Cover => asked.iter().position(|a| {
            (a.wish.crop == crop.id || a.wish.crop == *crop.base()) && usual(crop, a.wish.amount).is_some()
        }),
    }
}

/// What becomes of the wishes from a day on, in the season of that day.
pub fn share_met(context: &Context<'_>, from: Date) -> ShareMet {
    let asked = asked(context, from);
    let settings = &context.plan.settings;
    let mut picked: Vec<BTreeMap<Week, f64>> = vec![BTreeMap::new(); asked.len()];
    for planting in &context.plan.plantings {
        let Some(crop) = context.crop(planting) else { continue };
        let Some(at) = served(&asked, planting, crop, from) else { continue };
        let Some(each) = usual(crop, asked[at].wish.amount) else { continue };
        for (week, share) in weeks(context, planting, crop) {
            if !settings.is_away(week.day(settings.garden_day)) {
                *picked[at].entry(week).or_default() += each * share * f64::from(planting.plants);
            }
        }
    }
    let wishes: Vec<Met> = asked.iter().zip(&picked).map(|(a, picked)| met(a, picked)).collect();
    let (mut sum, mut all) = (0.0, 0.0);
    for (asked, met) in asked.iter().zip(&wishes) {
        sum += f64::from(asked.wish.importance) * met.share;
        all += f64::from(asked.wish.importance);
    }
    ShareMet { wishes, share: if all > 0.0 { sum / all } else { 1.0 } }
}

/// Weeks a harvest keeps, the week of picking included.
fn keeps(crop: Option<&Crop>) -> usize {
    crop.and_then(|c| c.keeps.as_ref()).map_or(1, |k| usize::from(k.days.0) / 7).max(1)
}

fn met(asked: &Asked<'_>, picked: &BTreeMap<Week, f64>) -> Met {
    let wish = asked.wish;
    let count = num::count(asked.first.until(asked.last)) + 1;
    let at = |n: usize| picked.get(&asked.first.plus(num::signed(n))).copied().unwrap_or_default();
    let rate = wish.amount.value();
    let (step, each) = match wish.pattern {
        Pattern::Even => (keeps(asked.crop).clamp(1, 4), rate),
        Pattern::AtOnce | Pattern::Store => (count, rate / num::real(count)),
    };
    let (mut wanted, mut got, mut harvest) = (0.0, 0.0, 0.0);
    for first in (0..count).step_by(step) {
        let weeks = first..(first + step).min(count);
        let want = each * num::real(weeks.len());
        let have: f64 = weeks.map(at).sum();
        wanted += want;
        got += have.min(want);
        harvest += have;
    }
    let larder = (wish.pattern == Pattern::Even)
        .then(|| Larder::follow(keeps(asked.crop), rate, &(0..count).map(at).collect::<Vec<f64>>()));
    Met {
        wish: wish.id,
        wanted: wish.amount.with_value(wanted),
        harvest: wish.amount.with_value(harvest),
        met: wish.amount.with_value(got),
        share: if wanted > 0.0 { (got / wanted).clamp(0.0, 1.0) } else { 1.0 },
        picked: picked
            .iter()
            .filter(|(w, _)| (asked.first..=asked.last).contains(w))
            .map(|(w, x)| (*w, *x))
            .collect(),
        larder,
    }
}
