//! What comes to the kitchen in poor, usual and good years, week by week, against what was wished for.

use crate::calendar::{Date, Season, Week, plus};
use crate::crop::{Book, Crop, CropId};
use crate::plan::{Pattern, Plan, Why};
use crate::site::SiteYear;
use crate::units::{Amount, Measure};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Days a harvest must keep at least to be laid down as a store.
const WORTH_STORING: u16 = 21;

/// A week of a crop in the kitchen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KitchenWeek {
    /// The week's Monday.
    pub from: Date,
    /// In a poor year.
    pub low: Amount,
    /// In a usual year.
    pub usual: Amount,
    /// In a good year.
    pub high: Amount,
    /// Wished for in it; none where nothing is.
    pub wished: Option<Amount>,
}

/// What is left over and keeps.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Store {
    /// How much, in a usual year: what no week asks for fresh.
    pub amount: Amount,
    /// First day it lies in store.
    pub from: Date,
    /// Last day it is good, by the shorter and by the longer storage life.
    pub until: (Date, Date),
    /// Where it keeps so long.
    pub how: String,
}

/// A crop in the kitchen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KitchenCrop {
    /// The crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// Weeks in which something comes or is wished for.
    pub weeks: Vec<KitchenWeek>,
    /// What is left over and keeps.
    pub store: Option<Store>,
}

/// What is expected of a season's plantings, low, usual and high, frost weighed in. Cover crops are left out.
pub fn kitchen(plan: &Plan, book: &Book, year: &SiteYear, season: Season) -> Vec<KitchenCrop> {
    let open = plan.conditions(book, year);
    let mut sums: BTreeMap<&CropId, BTreeMap<Week, f64>> = BTreeMap::new();
    for planting in plan.plantings.iter().filter(|p| p.why != Why::Cover) {
        let Some(crop) = book.get(&planting.crop) else { continue };
        for (week, share) in planting.harvest(crop, &plan.conditions_of(&open, planting, crop)) {
            if season.holds(week.monday()) {
                *sums.entry(&crop.id).or_default().entry(week).or_default() +=
                    share * f64::from(planting.plants);
            }
        }
    }
    let mut wished = wishes(plan, book, season, &sums);
    let mut out = Vec::new();
    for (id, plants) in sums {
        let Some(crop) = book.get(id) else { continue };
        let asked = wished.remove(id).unwrap_or_default();
        out.push(one(crop, &plants, &asked));
    }
    out
}

/// Wishes by crop and week: those for fresh use as amounts a week, those for the store not. A wish for a crop that
/// grows as one of its varieties is asked of the first of them that comes.
fn wishes<'a>(
    plan: &Plan,
    book: &'a Book,
    season: Season,
    sums: &BTreeMap<&'a CropId, BTreeMap<Week, f64>>,
) -> BTreeMap<&'a CropId, BTreeMap<Week, Amount>> {
    let mut out: BTreeMap<&CropId, BTreeMap<Week, Amount>> = BTreeMap::new();
    let here = |w: &&crate::plan::Wish| w.season.is_none_or(|y| y == season.year());
    for wish in plan.wishes.iter().filter(here).filter(|w| w.pattern != Pattern::Store) {
        let from = wish.from.climate_day().on_or_after(season.first());
        let to = wish.to.climate_day().on_or_after(from);
        let serves = |id: &CropId| *id == wish.crop || book.get(id).is_some_and(|c| *c.base() == wish.crop);
        let comes = |weeks: &BTreeMap<Week, f64>| {
            weeks.keys().filter(|w| w.sunday() >= from && w.monday() <= to).count()
        };
        let most = sums.iter().filter(|(id, _)| serves(id)).max_by_key(|(_, weeks)| comes(weeks));
        let Some((id, _)) = most else { continue };
        let (first, last) = (Week::of(from), Week::of(to));
        let span = first.until(last).max(0);
        let each = match wish.pattern {
            Pattern::Even => wish.amount,
            Pattern::AtOnce | Pattern::Store => {
                wish.amount.with_value(wish.amount.value() / crate::units::num::real_i(span + 1))
            }
        };
        for n in 0..=span {
            out.entry(id)
                .or_default()
                .entry(first.plus(n))
                .and_modify(|a| *a = a.with_value(a.value() + each.value()))
                .or_insert(each);
        }
    }
    out
}

fn one(crop: &Crop, plants: &BTreeMap<Week, f64>, asked: &BTreeMap<Week, Amount>) -> KitchenCrop {
    let of = |amount: Amount, plants: f64| amount.with_value(amount.value() * plants);
    let mut weeks: Vec<Week> = plants.keys().chain(asked.keys()).copied().collect();
    weeks.sort_unstable();
    weeks.dedup();
    let weeks: Vec<(Week, KitchenWeek)> = weeks
        .into_iter()
        .map(|week| {
            let n = plants.get(&week).copied().unwrap_or_default();
            let week_of = KitchenWeek {
                from: week.monday(),
                low: of(crop.harvest.low, n),
                usual: of(crop.harvest.usual, n),
                high: of(crop.harvest.high, n),
                wished: asked.get(&week).copied().filter(|a| a.same_kind(crop.harvest.usual)),
            };
            (week, week_of)
        })
        .collect();
    let over = |w: &KitchenWeek| (w.usual.value() - w.wished.map_or(0.0, Amount::value)).max(0.0);
    let left: f64 = weeks.iter().map(|(_, w)| over(w)).sum();
    let ends = weeks.iter().filter(|(_, w)| over(w) > 0.0).map(|(week, _)| week.sunday());
    let store =
        crop.keeps.as_ref().filter(|k| k.days.0 >= WORTH_STORING).zip(ends.max()).map(|(keeps, last)| {
            Store {
                amount: crop.harvest.usual.with_value(left),
                from: plus(last, 1),
                until: (plus(last, i64::from(keeps.days.0)), plus(last, i64::from(keeps.days.1))),
                how: keeps.how.clone(),
            }
        });
    KitchenCrop {
        crop: crop.id.clone(),
        name: crop.name.clone(),
        weeks: weeks.into_iter().map(|(_, w)| w).collect(),
        store,
    }
}

impl KitchenCrop {
    /// All of it in a poor, a usual and a good year; none where nothing comes.
    pub fn total(&self) -> Option<(Amount, Amount, Amount)> {
        let first = self.weeks.first()?;
        let sum = |of: fn(&KitchenWeek) -> Amount| {
            of(first).with_value(self.weeks.iter().map(|w| of(w).value()).sum())
        };
        Some((sum(|w| w.low), sum(|w| w.usual), sum(|w| w.high)))
    }
}

/// The kitchen of a season for a terminal: by crop and month, low - usual - high, with what was wished for and what
/// is left to store.
pub fn kitchen_words(crops: &[KitchenCrop], measure: Measure) -> String {
    let mut out = String::new();
    for crop in crops {
        let Some((low, usual, high)) = crop.total() else { continue };
        let read = |a: Amount| a.reading(measure);
        let _ =
            writeln!(out, "{}: {} in a usual year ({} to {})", crop.name, read(usual), read(low), read(high));
        let mut months: Vec<(String, Vec<&KitchenWeek>)> = Vec::new();
        for week in &crop.weeks {
            let name = week.from.format("%b %Y").to_string();
            match months.last_mut() {
                Some((known, weeks)) if *known == name => weeks.push(week),
                _ => months.push((name, vec![week])),
            }
        }
        for (name, weeks) in months {
            let sum = |of: &dyn Fn(&KitchenWeek) -> f64| usual.with_value(weeks.iter().map(|w| of(w)).sum());
            let wished = sum(&|w| w.wished.map_or(0.0, Amount::value));
            let against =
                if wished.value() > 0.0 { format!(", wished {}", read(wished)) } else { String::new() };
            let (l, u, h) = (
                read(sum(&|w| w.low.value())),
                read(sum(&|w| w.usual.value())),
                read(sum(&|w| w.high.value())),
            );
            let _ = writeln!(out, "  {name}: {u} ({l} to {h}){against}");
        }
        if let Some(store) = crop.store.as_ref().filter(|s| s.amount.value() > 0.0) {
            let _ = writeln!(
                out,
                "  to store: {}, good until {} at least and {} at most: {}",
                read(store.amount),
                store.until.0.format("%-d %b %Y"),
                store.until.1.format("%-d %b %Y"),
                store.how
            );
        }
    }
    if out.is_empty() { "Nothing is expected.\n".to_owned() } else { out }
}
