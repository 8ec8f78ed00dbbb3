//! What comes to the kitchen when, as the plan has it.

use std::collections::BTreeMap;

use super::Source;
use crate::calendar::{Date, Week, days_between, plus};
use crate::crop::{Crop, CropId};
use crate::growth::{Conditions, outlook};
use crate::paper::axis::Axis;
use crate::paper::kitchen::{KitchenCalendar, KitchenRow};
use crate::plan::{Pattern, Planting, Why};
use crate::units::Amount;

/// What is expected of one crop.
struct Expected<'a> {
    crop: &'a Crop,
    weeks: Vec<(Week, Amount)>,
    store: Option<(Date, Date)>,
}

impl Source<'_> {
    /// What is expected from the plantings in each week of the season: usual yields, frost weighed in.
    pub fn kitchen(&self) -> KitchenCalendar {
        let axis = Axis::of(self.season);
        let conditions = self.conditions();
        let mut crops: BTreeMap<&CropId, Expected<'_>> = BTreeMap::new();
        for p in self.plantings() {
            if p.why == Why::Cover || p.failed.is_some() {
                continue;
            }
            let Some(crop) = self.book.get(&p.crop) else { continue };
            let row =
                crops.entry(&crop.id).or_insert_with(|| Expected { crop, weeks: Vec::new(), store: None });
            row.weeks.extend(expected(p, crop, &conditions));
            if let Some((from, to)) = self.store(p, crop) {
                let (first, last) = row.store.unwrap_or((from, to));
                row.store = Some((first.min(from), last.max(to)));
            }
        }
        let mut rows: Vec<KitchenRow> = crops
            .into_values()
            .map(|e| KitchenRow {
                name: e.crop.name.clone(),
                tint: self.tint(&e.crop.family),
                weeks: summed(e.weeks, axis),
                store: e.store,
            })
            .filter(|r| !r.weeks.is_empty())
            .collect();
        rows.sort_by(|a, b| {
            let first = |r: &KitchenRow| r.weeks.first().map(|w| w.0);
            (first(a), &a.name).cmp(&(first(b), &b.name))
        });
        KitchenCalendar {
            title: "What comes when".to_owned(),
            note: "What usual yields in a usual year would bring; a cool, dry or late year brings less."
                .to_owned(),
            axis,
            measure: self.plan.settings.measure,
            rows,
        }
    }

    /// The conditions the plan is reckoned under.
    pub(super) fn conditions(&self) -> Conditions<'_> {
        self.plan.conditions(self.book, self.year)
    }

    /// From when to when a harvest lasts that was wished for the store; the shorter storage life counts.
    fn store(&self, p: &Planting, crop: &Crop) -> Option<(Date, Date)> {
        let Why::Wish(id) = p.why else { return None };
        self.plan.wish(id).filter(|w| w.pattern == Pattern::Store)?;
        let last = p.dates().last_pick.or_else(|| p.dates().first_pick)?;
        let keeps = crop.keeps.as_ref()?;
        Some((plus(last, 1), plus(last, i64::from(keeps.days.0))))
    }
}

/// The harvest of a planting by week: its shares of the usual yield, moved to the planting's own dates.
pub(super) fn expected(p: &Planting, crop: &Crop, conditions: &Conditions<'_>) -> Vec<(Week, Amount)> {
    let dates = p.dates();
    let (Some(first), Some(begun)) = (dates.first_pick, dates.sown.or(dates.set_out)) else {
        return Vec::new();
    };
    let whole = crop.harvest.usual.value() * f64::from(p.plants);
    let amount = |share: f64| crop.harvest.usual.with_value(whole * share);
    let Some(schedule) = outlook(crop, conditions, p.start, begun).schedule else {
        return vec![(Week::of(first), amount(1.0))];
    };
    let off = schedule.dates.first_pick.map_or(0, |f| days_between(f, first));
    schedule.weeks.iter().map(|(week, share)| (Week::of(plus(week.monday(), off)), amount(*share))).collect()
}

/// Amounts of the same week added up, the weeks of the axis only.
fn summed(weeks: Vec<(Week, Amount)>, axis: Axis) -> Vec<(Week, Amount)> {
    let mut sums: BTreeMap<Week, Amount> = BTreeMap::new();
    for (week, amount) in weeks {
        if week.monday() < axis.begin() || week.monday() >= axis.end() || amount.value() <= 0.0 {
            continue;
        }
        sums.entry(week)
            .and_modify(|sum| *sum = sum.with_value(sum.value() + amount.value()))
            .or_insert(amount);
    }
    sums.into_iter().collect()
}
