//! Ways of growing a crop: each method of starting, in the main layer and as a mate.

use super::{Builder, Grown};
use crate::crop::{Crop, Start, Use};
use crate::fill::problem::{Layer as On, Role, Way};
use crate::fill::ways::{self, Drawing, Starts};
use crate::garden::{Layer, PlaceId};
use crate::plan::Wish;

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
            None if crop.is_food() => Role::Catch,
            None => Role::Cover,
        };
        let opens = self.mains.contains(&crop.id) || self.mains.contains(crop.base());
        let by_cell = crate::garden::plants_in(crop.spacing.wide, 1, 1, self.plan.settings.cell) > 1;
        let raised = crop.starts.iter().any(|s| !matches!(s, Start::Bought));
        for &start in &crop.starts {
            // A bought plant is a way out for a crop that cannot be raised, not a second copy of every start.
            if (matches!(start, Start::Bought) && raised) || (role != Role::Wished && start != Start::InPlace)
            {
                continue;
            }
            let clock = self.clock;
            let drawing =
                Drawing { plan: self.plan, clock: &clock, supplies: self.supplies, scale, opens, by_cell };
            let starts = match role {
                Role::Cover => ways::covers(crop, &self.open, start, &drawing),
                Role::Wished | Role::Catch => ways::starts(crop, &self.open, start, &drawing),
            };
            let places = wish.map(|(_, w)| w.places.as_slice()).unwrap_or_default();
            let index = wish.map(|(i, _)| i);
            if role == Role::Wished && !crop.mates.is_empty() {
                self.way(crop, start, (index, role, Layer::Mate), starts.clone(), places);
            }
            self.way(crop, start, (index, role, Layer::Main), starts, places);
        }
    }

    pub(super) fn way(
        &mut self,
        crop: &'a Crop,
        start: Start,
        (wish, role, layer): (Option<usize>, Role, Layer),
        starts: Starts,
        only: &[PlaceId],
    ) {
        let mut way = Way {
            name: crop.name.clone(),
            wish,
            role,
            layer: if layer == Layer::Mate { On::Mate } else { On::Main },
            groups: vec![self.group(crop)],
            ..Way::default()
        };
        for bed in 0..self.places.len() {
            self.stand(crop, bed, (&starts, layer), only, &mut way);
        }
        way.starts = starts.begins;
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

    /// Catch crops and cover crops.
    pub(super) fn fillers(&mut self) {
        let book = self.book;
        for crop in book.crops() {
            let catch = self.plan.settings.catch_crops && crop.catch && crop.is_food();
            let cover = self.plan.settings.cover_crops && crop.is_for(Use::Cover) && !crop.is_food();
            if catch || cover {
                self.grow(crop, None);
            }
        }
    }
}
