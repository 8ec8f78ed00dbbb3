//! The year of a plan on one page.

use std::collections::{BTreeMap, BTreeSet};

use super::{Source, end};
use crate::calendar::{Date, days_between, plus};
use crate::paper::summary::{SummaryFamily, YearSummary};
use crate::plan::{Event, Planting, Why};
use crate::units::num::count;
use crate::units::{Amount, Mass, MassUnit};

impl Source<'_> {
    /// The year in figures, with what the plan brings for each wish.
    pub fn summary(&self) -> YearSummary {
        let plantings = self.plantings();
        let crops: BTreeSet<_> = plantings.iter().map(|p| &p.crop).collect();
        let families: BTreeSet<_> = plantings.iter().map(|p| &p.family).collect();
        let fact = |name: &str, value: String| (name.to_owned(), value);
        let cells: usize = self.there().map(|p| p.whole(self.plan.settings.cell).area()).sum();
        let fillers = plantings.iter().filter(|p| matches!(p.why, Why::Catch | Why::Cover)).count();
        let mut facts = vec![
            fact("plantings", plantings.len().to_string()),
            fact("of them catch or cover crops", fillers.to_string()),
            fact("crops", crops.len().to_string()),
            fact("families", families.len().to_string()),
            fact("beds and pots", self.there().count().to_string()),
            fact("cells", cells.to_string()),
        ];
        if let Some(free) = self.year.frost_free(0.0, 0.5) {
            facts.push(fact("days without frost, every other year", free.days.to_string()));
        }
        if let Some(weight) = self.picked() {
            facts.push(fact("picked, by weight", weight.reading(self.plan.settings.measure)));
        }
        YearSummary {
            title: format!("The year {}", self.season),
            note: self.about(),
            facts,
            wishes: self.wishes(),
            families: self.families(&plantings),
            remarks: self.remarks(),
        }
    }

    /// The cell-weeks every family takes in the season, the largest first.
    fn families(&self, plantings: &[&Planting]) -> Vec<SummaryFamily> {
        let mut sums: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
        for p in plantings {
            let from = p.begins().unwrap_or_else(|| self.season.first()).max(self.season.first());
            let after = plus(self.season.last(), 1);
            let to = end(p).unwrap_or(after).min(after);
            let weeks = count(days_between(from, to)).div_ceil(7);
            let slot = sums.entry(p.family.as_str()).or_default();
            slot.0 += 1;
            slot.1 += weeks * p.block.area();
        }
        let mut out: Vec<_> = sums
            .into_iter()
            .map(|(family, (plantings, cell_weeks))| SummaryFamily {
                name: self.family(family),
                tint: self.tint(family),
                plantings,
                cell_weeks,
            })
            .collect();
        out.sort_by(|a, b| b.cell_weeks.cmp(&a.cell_weeks).then_with(|| a.name.cmp(&b.name)));
        out
    }

    /// Diary entries of the season that still count.
    pub(super) fn told(&self) -> impl Iterator<Item = &crate::plan::DiaryEntry> {
        let season = self.season;
        self.plan.told().filter(move |e| season.holds(e.on))
    }

    fn picked(&self) -> Option<Amount> {
        let weights = self.told().filter_map(|e| match e.what.picked() {
            Some(Amount::Weight(mass)) => Some(mass.grams()),
            Some(Amount::Count(..)) | None => None,
        });
        let sum: f64 = weights.sum();
        (sum > 0.0).then(|| Amount::Weight(Mass::new(sum, MassUnit::G)))
    }

    /// Troubles seen, failures and the grower's own remarks.
    fn remarks(&self) -> Vec<String> {
        let told = |on: Date, words: String, more: &str| {
            let day = crate::calendar::day_text(on);
            if more.trim().is_empty() {
                format!("{day}: {words}.")
            } else {
                format!("{day}: {words}. {more}")
            }
        };
        let mut out = Vec::new();
        for e in self.told() {
            let planting = e.planting.and_then(|id| self.plan.planting(id));
            let place = e.place.as_ref().or_else(|| planting.map(|p| &p.place));
            let bed = place
                .and_then(|id| self.plan.place(id))
                .map_or_else(String::new, |b| format!(", {}", b.name));
            match &e.what {
                Event::Trouble(id) => {
                    let name = self.book.trouble(id).map_or(id.as_str(), |t| t.name.as_str());
                    out.push(told(e.on, format!("{name}{bed}"), &e.words));
                }
                Event::Failed(_) => {
                    let name = planting.map_or("a planting", |p| p.name.as_str());
                    out.push(told(e.on, format!("{name} failed{bed}"), &e.words));
                }
                Event::Remark => out.push(format!("{}: {}", crate::calendar::day_text(e.on), e.words)),
                Event::Picked(_)
                | Event::Done(_)
                | Event::Partly(_)
                | Event::NotDone(_)
                | Event::Frost(_)
                | Event::SoilTemperature(_)
                | Event::Volunteer(_)
                | Event::Job(_) => {}
            }
        }
        out
    }
}
