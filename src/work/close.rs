//! The close of a season: it is marked as closed, and what it taught is said.

use super::amounts::inside;
use super::desk::standing;
use crate::calendar::Season;
use crate::crop::Book;
use crate::growth::OwnDays;
use crate::plan::{Edit, Event, Plan};
use crate::site::SiteYear;
use crate::units::Amount;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// The edit that closes a season: its year joins the closed ones. Wishes stay for the next season, and what stands is
/// carried over, because plantings run across seasons. Closing what is closed changes nothing.
pub fn close(plan: &Plan, season: Season) -> Edit {
    let mut closed = plan.closed.clone();
    if !closed.contains(&season.year()) {
        closed.push(season.year());
        closed.sort_unstable();
    }
    Edit::Closed(closed)
}

/// What a season leaves behind.
#[derive(Debug, Clone, PartialEq)]
pub struct Closing {
    /// The year in which it began.
    pub season: i32,
    /// Picked in all, by crop and kind of amount.
    pub picked: Vec<(String, Amount)>,
    /// Plantings that stand on into the next season.
    pub carried: Vec<String>,
    /// Plantings of which nothing was ever written down.
    pub untold: Vec<String>,
    /// Plantings that failed.
    pub failed: Vec<String>,
    /// Days to maturity of the crops picked in it, as this garden has shown them so far.
    pub days: Vec<(String, OwnDays)>,
}

/// What a season leaves behind: pickings, what stands on, what failed, this garden's own days.
pub fn closing(plan: &Plan, book: &Book, year: &SiteYear, season: Season) -> Closing {
    let own = plan.own_days(book, year);
    let mut days = BTreeMap::new();
    let mut picked: BTreeMap<String, Vec<Amount>> = BTreeMap::new();
    for entry in standing(plan).filter(|e| season.holds(e.on)) {
        let Event::Picked(amount) = entry.what else { continue };
        let name = entry.planting.and_then(|id| plan.planting(id)).map_or("something", |p| p.name.as_str());
        let sums = picked.entry(name.to_owned()).or_default();
        match sums.iter_mut().find(|a| a.same_kind(amount)) {
            Some(sum) => *sum = sum.with_value(sum.value() + amount.value()),
            None => sums.push(amount),
        }
    }
    let place = |id| plan.place(id).map_or_else(String::new, |p| p.name.clone());
    let (mut carried, mut untold, mut failed) = (Vec::new(), Vec::new(), Vec::new());
    for planting in &plan.plantings {
        let Some(begins) = planting.begins() else { continue };
        if begins > season.last() || planting.ends().is_some_and(|e| e < season.first()) {
            continue;
        }
        let named = format!("{} in {} {}", inside(&planting.name), place(&planting.place), planting.block);
        if planting.failed.is_some_and(|d| season.holds(d)) {
            failed.push(named);
            continue;
        }
        if planting.ends().is_none_or(|e| e > season.last()) {
            carried.push(named);
        } else if planting.real.is_empty() {
            untold.push(named);
        }
        if planting.real.first_pick.is_some_and(|d| season.holds(d))
            && let Some(crop) = book.get(&planting.crop)
            && let Some(own) = own.get(&crop.id)
        {
            days.insert(crop.id.clone(), (crop.name.clone(), *own));
        }
    }
    let days = days.into_values().collect();
    let picked =
        picked.into_iter().flat_map(|(n, sums)| sums.into_iter().map(move |a| (n.clone(), a))).collect();
    Closing { season: season.year(), picked, carried, untold, failed, days }
}

impl Closing {
    /// In words.
    pub fn words(&self, measure: crate::units::Measure) -> String {
        let mut out = format!("The season that began in {}\n", self.season);
        for (name, amount) in &self.picked {
            let _ = writeln!(out, "  {name}: {} picked", amount.reading(measure));
        }
        for (name, days) in &self.days {
            let _ = writeln!(out, "  {name}: {}", days.words());
        }
        let mut list = |head: &str, names: &[String]| {
            if !names.is_empty() {
                let _ = writeln!(out, "  {head}: {}", names.join("; "));
            }
        };
        list("stands on", &self.carried);
        list("failed", &self.failed);
        list("nothing written of", &self.untold);
        out
    }
}
