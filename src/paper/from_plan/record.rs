//! The record of a plan by years, its labels, and what its diary says was picked.

use super::{Source, cells, end, name};
use crate::calendar::{Date, Season, plus};
use crate::garden::{Place, SoilId};
use crate::paper::labels::{Label, Labels};
use crate::paper::pickings::{Picking, Pickings};
use crate::paper::record::{Known, RecordByYears, Soil, Stay};
use crate::paper::words::span;
use crate::plan::{Past, Planting, Stood, Why};
use crate::units::Amount;

impl Source<'_> {
    /// What stood in every soil in the last `years` seasons, the one shown the last of them.
    pub fn record(&self, years: u16) -> RecordByYears {
        let back = |n: u16| self.season.plus(-i32::from(n));
        let seasons: Vec<Season> = (0..years.max(1)).rev().map(back).collect();
        let mut soils = Vec::new();
        for place in self.plan.places.iter().filter(|p| p.until.is_none_or(|u| u > self.season.first())) {
            for filling in 0..=place.refilled.len() {
                let soil = SoilId { place: place.id.clone(), filling };
                let (since, _) = place.soil_since(&soil);
                let until = place.refilled.get(filling).copied();
                let shown = seasons.first().is_none_or(|first| until.is_none_or(|u| u > first.first()));
                if !shown || since > self.season.last() {
                    continue;
                }
                let name =
                    if until.is_some() { format!("{}, old filling", place.name) } else { place.name.clone() };
                let years: Vec<_> = seasons.iter().map(|s| self.known(place, (since, until), *s)).collect();
                // Soil that is gone is of interest only for what is known to have stood in it.
                if until.is_some() && !years.iter().any(|k| matches!(k, Known::Stood(_))) {
                    continue;
                }
                soils.push(Soil {
                    name,
                    note: format!("soil since {}", crate::paper::words::day(since)),
                    years,
                });
            }
        }
        RecordByYears {
            title: "What stood where".to_owned(),
            note: "Unknown is not free: what was not written down may have been anything.".to_owned(),
            years: seasons.iter().map(Season::to_string).collect(),
            soils,
        }
    }

    /// What is known of one filling of a place in a season.
    fn known(&self, place: &Place, life: (Date, Option<Date>), season: Season) -> Known {
        let (since, until) = life;
        let (first, last) =
            (season.first().max(since), season.last().min(until.map_or(Date::MAX, |u| plus(u, -1))));
        if first > last {
            let word = if since > season.last() { "not yet there" } else { "taken out" };
            return Known::Free(word.to_owned());
        }
        let mut stays: Vec<Stay> = Vec::new();
        let mut bare = false;
        for past in self.plan.record.iter().filter(|p| p.place == place.id) {
            if past.from > last || past.to < first {
                continue;
            }
            match self.past(past) {
                Some(stay) => stays.push(stay),
                None => bare = true,
            }
        }
        for p in self.plan.plantings_in(&place.id) {
            let here = p.begins().is_some_and(|b| b <= last) && end(p).is_none_or(|e| e > first);
            if let Some(from) = p.begins().filter(|_| here) {
                stays.push(self.stay(p, from));
            }
        }
        stays.sort_by(|a, b| (a.from, &a.name, &a.cells).cmp(&(b.from, &b.name, &b.cells)));
        match (stays.is_empty(), bare) {
            (false, _) => Known::Stood(stays),
            (true, true) => Known::Free("without crops".to_owned()),
            (true, false) => Known::Unknown,
        }
    }

    fn past(&self, past: &Past) -> Option<Stay> {
        let (name, family) = match &past.stood {
            Stood::Crop { crop, family } => {
                let name = self.book.get(crop).map_or_else(|| crop.0.clone(), |c| c.name.clone());
                (name, family)
            }
            Stood::Family(family) => ("something of this family".to_owned(), family),
            Stood::Nothing => return None,
        };
        Some(Stay {
            name,
            family: self.family(family),
            tint: self.tint(family),
            cells: past.block.map_or_else(String::new, cells),
            from: past.from,
            to: Some(past.to),
        })
    }

    fn stay(&self, p: &Planting, from: Date) -> Stay {
        Stay {
            name: name(p),
            family: self.family(&p.family),
            tint: self.tint(&p.family),
            cells: cells(p.block),
            from,
            to: end(p),
        }
    }

    /// A label for every planting of the season.
    pub fn labels(&self) -> Labels {
        // Nobody labels green manure.
        let here = self.plantings().into_iter().filter(|p| p.why != Why::Cover && p.failed.is_none());
        let labels = here.map(|p| self.label(p)).collect();
        Labels { title: "Labels".to_owned(), note: String::new(), labels }
    }

    fn label(&self, p: &Planting) -> Label {
        let dates = p.dates();
        let mut lines = Vec::new();
        let starts: Vec<_> = [("sown", dates.sown), ("set out", dates.set_out)]
            .into_iter()
            .filter_map(|(word, date)| date.map(|d| format!("{word} {}", span(d, d))))
            .collect();
        lines.push(starts.join(", "));
        if let Some(first) = dates.first_pick {
            lines.push(format!("pick {}", span(first, dates.last_pick.unwrap_or(first))));
        }
        if let Some(crop) = self.book.get(&p.crop) {
            let apart = crop.spacing.wide.for_measure(self.plan.settings.measure);
            lines.push(format!("{} plants, {} apart", p.plants, apart.rounded(0)));
        }
        lines.retain(|l| !l.is_empty());
        let place = self.plan.place(&p.place);
        let single = place.is_some_and(|b| b.grid(self.plan.settings.cell) == (1, 1));
        let bed = place.map_or_else(|| p.place.to_string(), |b| b.name.clone());
        Label {
            name: p.name.clone(),
            botanical: p.botanical.clone(),
            place: if single { bed } else { format!("{bed}, {}", cells(p.block)) },
            lines,
            code: self.code(p),
            tint: self.tint(&p.family),
        }
    }

    /// What the diary says was picked in the season.
    pub fn pickings(&self) -> Pickings {
        let mut rows = Vec::new();
        for entry in self.told() {
            let Some(amount) = entry.what.picked() else { continue };
            let planting = entry.planting.and_then(|id| self.plan.planting(id));
            let place = entry.place.as_ref().or_else(|| planting.map(|p| &p.place));
            rows.push(Picking {
                on: entry.on,
                crop: planting.map_or_else(String::new, |p| p.name.clone()),
                place: place.and_then(|id| self.plan.place(id)).map_or_else(String::new, |b| b.name.clone()),
                cells: planting.map_or_else(String::new, |p| cells(p.block)),
                amount,
                words: entry.words.clone(),
            });
        }
        rows.sort_by(|a, b| (a.on, &a.crop, &a.place, &a.cells).cmp(&(b.on, &b.crop, &b.place, &b.cells)));
        Pickings {
            title: format!("Picked in {}", self.season),
            note: "As the diary has it, corrected entries left out.".to_owned(),
            measure: self.plan.settings.measure,
            rows,
        }
    }
}

/// "g" for weights, the plural word for counts.
pub(in crate::paper) fn unit(amount: Amount) -> String {
    match amount {
        Amount::Weight(_) => "g".to_owned(),
        Amount::Count(..) => {
            let words = amount.with_value(2.0).reading(crate::units::Measure::Metric);
            words.split_whitespace().skip(1).collect::<Vec<_>>().join(" ")
        }
    }
}
