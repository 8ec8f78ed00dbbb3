//! Ways of growing a crop: each method of starting, in the main layer and as a mate.

use super::cover::Like;
use super::{Builder, Grown, Scope};
use crate::crop::{Crop, Start, Use};
use crate::fill::problem::{Layer as On, Role, Way};
use crate::fill::ways::{self, Drawing, Starts};
use crate::garden::{Layer, PlaceId};
use crate::plan::{SPARE, Wish};
use crate::units::{Amount, CountWord, num};

/// What sets beds apart for a crop beyond their light and size: the cover over them, and recorded diseases it is a
/// host of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Kind {
    pub(super) cover: Option<Like>,
    pub(super) ills: Vec<(String, u8)>,
    /// Wished for by the stem: a flower that may be eaten is then grown for cutting.
    pub(super) cut: bool,
}

impl<'a> Builder<'a> {
    /// Adds the ways of a crop: each method of starting, in the main layer and as a mate.
    pub(super) fn grow(&mut self, crop: &'a Crop, wish: Option<(usize, &Wish)>) {
        let scale = match wish {
            Some((_, wish)) => match ways::scale(crop, wish.amount) {
                Some(scale) => scale,
                None => return,
            },
            None => 0.0,
        };
        let role = match wish {
            Some(_) => Role::Wished,
            None if crop.is_for(Use::Cover) && !crop.is_food() => Role::Cover,
            None => Role::Catch,
        };
        let opens = self.mains.contains(&crop.id) || self.mains.contains(crop.base());
        let by_cell = crate::garden::plants_in(crop.spacing.wide, 1, 1, self.plan.settings.cell) > 1;
        let raised = crop.starts.iter().any(|s| !matches!(s, Start::Bought));
        let drawing =
            Drawing { plan: self.plan, clock: &self.clock, supplies: self.supplies, scale, opens, by_cell };
        let only = wish.map(|(_, w)| w.places.as_slice()).unwrap_or_default();
        let index = wish.map(|(i, _)| i);
        let cut = wish.is_some_and(|(_, w)| matches!(w.amount, Amount::Count(_, CountWord::Stem)));
        let kinds = std::iter::once(None).chain(self.kinds.iter().copied().map(Some));
        let mut found: Vec<(Start, Option<Like>, Starts)> = Vec::new();
        for &start in &crop.starts {
            // A bought plant is a way out for a crop that cannot be raised, not a second copy of every start.
            let season = self.scope == Scope::Season;
            let copy = matches!(start, Start::Bought) && raised;
            if season && (copy || (role != Role::Wished && start != Start::InPlace)) {
                continue;
            }
            for kind in kinds.clone() {
                let under = self.under(kind);
                let starts = match role {
                    Role::Cover => ways::covers(crop, &under, start, &drawing),
                    Role::Wished | Role::Catch => ways::starts(crop, &under, start, &drawing),
                };
                found.push((start, kind, starts));
            }
        }
        let mut ills: Vec<Vec<(String, u8)>> =
            (0..self.places.len()).map(|bed| self.ills(crop, bed)).collect();
        ills.sort();
        ills.dedup();
        if ills.is_empty() {
            ills.push(Vec::new());
        }
        for (start, cover, starts) in found {
            let mates = role == Role::Wished && !crop.mates.is_empty();
            for ills in &ills {
                let kind = Kind { cover, ills: ills.clone(), cut };
                for layer in [Layer::Mate, Layer::Main].into_iter().filter(|l| *l == Layer::Main || mates) {
                    self.way(crop, start, (index, role, layer), (starts.clone(), &kind), only);
                }
            }
        }
    }

    pub(super) fn way(
        &mut self,
        crop: &'a Crop,
        start: Start,
        (wish, role, layer): (Option<usize>, Role, Layer),
        (starts, kind): (Starts, &Kind),
        only: &[PlaceId],
    ) {
        let mut groups = vec![self.group(crop)];
        groups.extend(kind.ills.iter().map(|ill| self.hosts(ill)));
        let mut way = Way {
            name: crop.name.clone(),
            wish,
            role,
            layer: if layer == Layer::Mate { On::Mate } else { On::Main },
            groups,
            ..Way::default()
        };
        for bed in 0..self.places.len() {
            self.stand(crop, bed, (&starts, layer, kind), only, &mut way);
        }
        // A cover that no bed with room for it has makes no way.
        if kind.cover.is_some() && way.places.is_empty() {
            return;
        }
        way.starts = starts.begins;
        self.whole_stations(&mut way, start);
        if layer == Layer::Mate {
            for begin in &mut way.starts {
                begin.open = 0;
            }
        }
        self.problem.ways.push(way);
        self.grown.push(Grown {
            crop: crop.id.clone(),
            start,
            layer,
            sown: starts.sown,
            refused: starts.refused,
        });
    }

    /// Raises the tray cells of a way to what its smallest blocks take: each planting is sown in whole stations. Blocks
    /// that end up side by side are one planting, which takes fewer.
    fn whole_stations(&self, way: &mut Way, start: Start) {
        let (Some(trays), Start::Raised { per_station, .. }) = (self.supplies.trays, start) else { return };
        let sown = |plants: i64| num::real_i(plants) / f64::from(per_station.max(1)) * SPARE;
        let more = way.shapes.iter().map(|s| sown(s.plants).ceil() / sown(s.plants)).fold(1.0, f64::max);
        for u in way.starts.iter_mut().flat_map(|s| &mut s.uses).filter(|u| u.supply == trays) {
            u.plant = num::round_i((num::real_i(u.plant) * more).ceil());
        }
    }

    /// Catch crops and cover crops.
    pub(super) fn fillers(&mut self) {
        let book = self.book;
        for crop in book.crops() {
            let catch = self.plan.settings.catch_crops && crop.catch && crop.is_food();
            let cover = self.plan.settings.cover_crops && crop.is_for(Use::Cover) && !crop.is_food();
            // On a single day anything may be begun that no wish brings in already.
            let wished = || self.grown.iter().any(|g| g.crop == crop.id);
            if catch || cover || (self.scope == Scope::Today && !wished()) {
                self.grow(crop, None);
            }
        }
    }
}
