//! The close of a season: it is marked as closed, and what it taught is said.

use super::amounts::inside;
use super::seasons::own_yields;
use crate::calendar::{Date, Season, Week};
use crate::crop::Book;
use crate::growth::OwnDays;
use crate::plan::{Edit, Pattern, Plan, Planting, Why, Wish, WishId};
use crate::site::SiteYear;
use crate::units::Amount;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// The edit that closes a season: its year joins the closed ones, and wishes that were for it alone are copied for the
/// next. The other wishes stay, and what stands is carried over, because plantings run across seasons. Closing what is
/// closed changes nothing; the edit can be taken back.
pub fn close(plan: &Plan, season: Season) -> Edit {
    if plan.closed.contains(&season.year()) {
        return Edit::Batch(format!("closed the season {season}"), Vec::new());
    }
    let mut closed = plan.closed.clone();
    closed.push(season.year());
    closed.sort_unstable();
    let mut edits = vec![Edit::Closed(closed)];
    let next = season.year() + 1;
    let mut id = plan.next_wish();
    for wish in plan.wishes.iter().filter(|w| w.season == Some(season.year())) {
        let copy = Wish { id, season: Some(next), ..wish.clone() };
        let there = |w: &Wish| Wish { id, ..w.clone() } == copy;
        if !plan.wishes.iter().any(there) {
            edits.push(Edit::Wish(id, Some(Box::new(copy))));
            id = WishId(id.0 + 1);
        }
    }
    Edit::Batch(format!("closed the season {season}"), edits)
}

/// The edit that opens a closed season again, so that its diary can be written in.
pub fn reopen(plan: &Plan, season: Season) -> Edit {
    Edit::Closed(plan.closed.iter().copied().filter(|y| *y != season.year()).collect())
}

/// The last day of the seasons that are closed; none where none is.
pub(super) fn frozen(plan: &Plan, year: &SiteYear) -> Option<Date> {
    let start = plan.settings.season_start.unwrap_or_else(|| year.season_start_or_january());
    plan.closed.iter().max().map(|y| Season::beginning(*y, start).last())
}

/// A wish and what was really picked for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept {
    /// The wish.
    pub wish: WishId,
    /// Its crop's name.
    pub name: String,
    /// Wished for in all.
    pub wanted: Amount,
    /// Picked for it in its weeks.
    pub picked: Amount,
    /// Picked as a share of wanted, 0 to 1.
    pub share: f64,
}

/// What came of each wish of a season, by the diary. A picking counts for the wish its planting was made for, else for
/// the first wish of its crop.
fn kept(plan: &Plan, book: &Book, season: Season) -> Vec<Kept> {
    let mut out = Vec::new();
    for wish in plan.wishes.iter().filter(|w| w.season.is_none_or(|y| y == season.year())) {
        let from = wish.from.climate_day().on_or_after(season.first());
        let to = wish.to.climate_day().on_or_after(from);
        let serves = |p: &Planting| match p.why {
            Why::Wish(id) => id == wish.id,
            Why::Hand | Why::Catch => {
                let base = book.get(&p.crop).map(|c| c.base().clone());
                let of = |w: &Wish| w.crop == p.crop || Some(&w.crop) == base.as_ref();
                plan.wishes.iter().find(|w| of(w)).is_some_and(|w| w.id == wish.id)
            }
            Why::Cover => false,
        };
        let picked: f64 = plan
            .told()
            .filter(|e| from <= e.on && e.on <= to)
            .filter(|e| e.planting.and_then(|id| plan.planting(id)).is_some_and(serves))
            .filter_map(|e| e.what.picked().filter(|a| a.same_kind(wish.amount)).map(Amount::value))
            .fold(0.0, |sum, x| sum + x);
        let weeks = crate::units::num::real_i(Week::of(from).until(Week::of(to)) + 1);
        let wanted = match wish.pattern {
            Pattern::Even => wish.amount.value() * weeks,
            Pattern::AtOnce | Pattern::Store => wish.amount.value(),
        };
        out.push(Kept {
            wish: wish.id,
            name: book.get(&wish.crop).map_or_else(|| wish.crop.to_string(), |c| c.name.clone()),
            wanted: wish.amount.with_value(wanted),
            picked: wish.amount.with_value(picked),
            share: if wanted > 0.0 { (picked / wanted).min(1.0) } else { 1.0 },
        });
    }
    out
}

/// A crop file with this garden's own yields, to lie in `crops/` beside the plan: the usual harvest as it was picked here,
/// the poor and the good one as far from it as the book has them. Empty where nothing was picked.
pub fn yields_text(plan: &Plan, book: &Book) -> String {
    let mut out = String::new();
    for (id, (seen, plants)) in own_yields(plan, book) {
        let Some(crop) = book.get(&id) else { continue };
        let usual = crop.harvest.usual.value();
        if usual <= 0.0 {
            continue;
        }
        let of = |book: Amount| seen.with_value(book.value() * seen.value() / usual).to_string();
        let _ = writeln!(
            out,
            "        // {plants} plants here; the book has {} a plant.\n        (id: \"{id}\", harvest: (low: \"{}\", usual: \
             \"{}\", high: \"{}\")),",
            crop.harvest.usual,
            of(crop.harvest.low),
            of(crop.harvest.usual),
            of(crop.harvest.high),
        );
    }
    if out.is_empty() {
        return out;
    }
    format!(
        "// What this garden really gave, a plant: written when a season was closed. Delete a line to go back to the book.\n\
         (\n    crops: [\n{out}    ],\n)\n"
    )
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
    /// Picked a plant of the crops picked in it, so far: crop, here, plants, by the book.
    pub yields: Vec<(String, Amount, u32, Amount)>,
    /// What came of each wish.
    pub kept: Vec<Kept>,
}

/// What a season leaves behind: pickings, what stands on, what failed, this garden's own days.
pub fn closing(plan: &Plan, book: &Book, year: &SiteYear, season: Season) -> Closing {
    let own = plan.own_days(book, year);
    let mut days = BTreeMap::new();
    let mut picked: BTreeMap<String, Vec<Amount>> = BTreeMap::new();
    for entry in plan.told().filter(|e| season.holds(e.on)) {
        let Some(amount) = entry.what.picked() else { continue };
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
    let yields = own_yields(plan, book)
        .into_iter()
        .filter(|(id, _)| days.contains_key(id))
        .filter_map(|(id, (seen, plants))| {
            book.get(&id).map(|c| (c.name.clone(), seen, plants, c.harvest.usual))
        })
        .collect();
    let kept = kept(plan, book, season);
    let days = days.into_values().collect();
    let picked =
        picked.into_iter().flat_map(|(n, sums)| sums.into_iter().map(move |a| (n.clone(), a))).collect();
    Closing { season: season.year(), picked, carried, untold, failed, days, yields, kept }
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
        for (name, seen, plants, usual) in &self.yields {
            let (seen, usual) = (seen.reading(measure), usual.reading(measure));
            let _ = writeln!(out, "  {name}: {seen} a plant here ({plants} plants), {usual} by the book");
        }
        for kept in self.kept.iter().filter(|k| k.picked.value() > 0.0) {
            let (picked, wanted) = (kept.picked.reading(measure), kept.wanted.reading(measure));
            let share = 100.0 * kept.share;
            let _ =
                writeln!(out, "  wish {}: {picked} picked of {wanted} wished for ({share:.0} %)", kept.name);
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
