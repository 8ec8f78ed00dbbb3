//! Families whose return to the same soil is limited within the horizon.

use super::{Builder, Dropped, POINT};
use crate::crop::{BreakWeight, Crop, Rotation, Use};
use crate::fill::past;
use crate::fill::problem::{Group, Reach};
use std::collections::BTreeMap;

/// Points lost by each return to one soil of a family that should come once a season, and by a second use of a
/// cell by another family.
const TWICE: (i64, i64) = (100 * POINT, POINT / 2);

impl Builder<'_> {
    /// The strictest break of each family among the crops that may come into play: where the grower set one of them
    /// otherwise, what follows a lenient one must still not be a strict one.
    pub(super) fn strictest(&self) -> BTreeMap<String, Rotation> {
        let fills = |c: &&Crop| c.catch || c.is_for(Use::Cover);
        let wished = self.plan.wishes.iter().flat_map(|w| self.candidates(w));
        let standing = self.plan.plantings.iter().filter_map(|p| self.book.get(&p.crop));
        let mut out: BTreeMap<String, Rotation> = BTreeMap::new();
        for crop in wished.chain(standing).chain(self.book.crops().filter(fills)) {
            let own = self.plan.settings.rotation_of(crop, self.book);
            let strength = |r: &Rotation| match r.weight {
                BreakWeight::Stop => (2, r.least),
                BreakWeight::Mind => (1, r.least),
                BreakWeight::Off => (0, r.least),
            };
            let known = out.entry(crop.family.clone()).or_insert(own);
            if strength(&own) > strength(known) {
                *known = own;
            }
        }
        out
    }

    /// Diseases recorded in a bed of which the crop is a host: their hosts may come back only once in so many years.
    pub(super) fn ills(&self, crop: &Crop, bed: usize) -> Vec<(String, u8)> {
        if self.request.drops(Dropped::Breaks) {
            return Vec::new();
        }
        let place = self.places[bed];
        let soil = place.soil_on(self.clock.date(0));
        let ills = past::ills(self.plan, self.book, place, &soil);
        let of = ills.filter(|ill| self.book.harms(ill.trouble, crop));
        of.map(|ill| (ill.trouble.id.clone(), ill.years)).collect::<BTreeMap<_, _>>().into_iter().collect()
    }

    /// The group of the hosts of a disease.
    pub(super) fn hosts(&mut self, (trouble, years): &(String, u8)) -> usize {
        let key = format!("hosts of {trouble}");
        if let Some(&at) = self.groups.get(&key) {
            return at;
        }
        let at = self.problem.groups.len();
        self.problem.groups.push(Group {
            name: key.clone(),
            reach: Reach::Bed,
            apart: usize::from(*years) * 53,
            again: 0,
        });
        self.groups.insert(key, at);
        at
    }

    /// The group of a crop's family.
    pub(super) fn group(&mut self, crop: &Crop) -> usize {
        if let Some(&at) = self.groups.get(&crop.family) {
            return at;
        }
        let book = self.plan.settings.rotation_of(crop, self.book);
        let rotation = self.strict.get(&crop.family).copied().unwrap_or(book);
        let once = self.book.family(&crop.family).is_some_and(|f| f.once_a_season);
        let stop = rotation.weight == BreakWeight::Stop && !self.request.drops(Dropped::Breaks);
        let off = rotation.weight == BreakWeight::Off;
        let whole = (stop || once) && !self.plan.settings.rotation_by_cell;
        let at = self.problem.groups.len();
        self.problem.groups.push(Group {
            name: self.book.family(&crop.family).map_or_else(|| crop.family.clone(), |f| f.common.clone()),
            reach: if whole { Reach::Bed } else { Reach::Cell },
            apart: if stop { usize::from(rotation.least) * 53 } else { 0 },
            again: if off || self.request.drops(Dropped::Breaks) {
                0
            } else if once {
                TWICE.0
            } else {
                TWICE.1
            },
        });
        self.groups.insert(crop.family.clone(), at);
        at
    }
}
