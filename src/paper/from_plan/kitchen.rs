//! What comes to the kitchen when, as the plan has it.

use super::Source;
use crate::calendar::Week;
use crate::crop::Crop;
use crate::paper::axis::Axis;
use crate::paper::kitchen::{KitchenCalendar, KitchenRow};
use crate::plan::{Pattern, Wish};
use crate::units::Amount;
use crate::work::{self, KitchenCrop};

impl Source<'_> {
    /// What is expected from the plantings in each week of the season: usual yields, frost weighed in.
    pub fn kitchen(&self) -> KitchenCalendar {
        let axis = Axis::of(self.season);
        let crops = work::kitchen(self.plan, self.book, self.year, self.season);
        let mut rows: Vec<KitchenRow> = crops.iter().filter_map(|c| self.row(c, axis)).collect();
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

    fn row(&self, kitchen: &KitchenCrop, axis: Axis) -> Option<KitchenRow> {
        let crop = self.book.get(&kitchen.crop)?;
        let shown = |w: Week| w.monday() >= axis.begin() && w.monday() < axis.end();
        let weeks: Vec<(Week, Amount)> = kitchen
            .weeks
            .iter()
            .map(|w| (Week::of(w.from), w.usual))
            .filter(|(w, a)| shown(*w) && a.value() > 0.0)
            .collect();
        let store = kitchen.store.as_ref().filter(|_| self.stored(crop)).map(|s| (s.from, s.until.0));
        let range = kitchen.total().map(|(low, _, high)| (low, high));
        let row = KitchenRow { name: crop.name.clone(), tint: self.tint(&crop.family), weeks, range, store };
        (!row.weeks.is_empty()).then_some(row)
    }

    /// Whether a wish lays some of a crop down to keep.
    fn stored(&self, crop: &Crop) -> bool {
        let of = |w: &&Wish| w.crop == crop.id || w.crop == *crop.base();
        self.plan.wishes.iter().filter(of).any(|w| w.pattern == Pattern::Store)
    }
}
