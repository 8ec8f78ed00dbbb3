//! What stands already and stays, and the plan in force.

use super::cover::cells_of;
use super::{Builder, POINT, Scope};
use crate::crop::Crop;
use crate::fill::cells::Cells;
use crate::fill::problem::{Fixed, Layer as On, Place as Stand, Placed, Role, Way, weeks};
use crate::fill::ways::{self, Drawing, TRAY_UNIT};
use crate::garden::Layer;
use crate::plan::{Planting, PlantingId, Why, Wish, WishId};
use crate::units::num;
use std::collections::BTreeMap;

/// Points for each planting of the plan in force that is kept when re-planning: about what one is worth, so that a
/// change must bring more than a planting.
const KEEP: i64 = 20;

impl Builder<'_> {
    /// What stays, and the plan in force; returns the plantings that the answer replaces.
    pub(super) fn standing(&mut self, wishes: &[WishId]) -> Vec<PlantingId> {
        let mut replaced = Vec::new();
        let plan = self.plan;
        let end = self.clock.date(self.clock.weeks);
        for planting in &plan.plantings {
            let Some(begins) = planting.begins() else { continue };
            let over = planting
                .ends()
                .into_iter()
                .chain(planting.failed)
                .min()
                .is_some_and(|e| e <= self.clock.from);
            if over || begins >= end {
                continue;
            }
            let first = planting.dates().in_order().into_iter().min().unwrap_or(begins);
            let settled = self.scope == Scope::Today
                || planting.fixed
                || planting.why == Why::Hand
                || planting.has_begun()
                || first < self.request.from;
            if settled {
                self.fix(planting, wishes);
            } else {
                replaced.push(planting.id);
                if self.request.keep {
                    self.keep(planting, wishes);
                }
            }
        }
        if self.request.keep {
            self.problem.keep_bonus = KEEP * POINT;
        }
        replaced
    }

    pub(super) fn fix(&mut self, planting: &Planting, wishes: &[WishId]) {
        let Some(bed) = self.places.iter().position(|p| p.id == planting.place) else { return };
        let Some(begins) = planting.begins() else { return };
        let ends = planting.ends().into_iter().chain(planting.failed).min();
        let cells = cells_of(planting.block, self.problem.beds[bed].height, self.problem.beds[bed].width);
        self.use_up(planting);
        let taken = self.clock.taken(begins.max(self.clock.date(0)), ends);
        if cells.is_empty() || taken == 0 {
            return;
        }
        let crop = self.book.get(&planting.crop);
        let open = match (crop, planting.dates().closed) {
            (Some(_), Some(closed)) if planting.layer == Layer::Main => {
                let to = self.clock.on_or_after(closed);
                taken & weeks(0, if to > 0 && self.clock.date(to) > closed { to - 1 } else { to })
            }
            (Some(_) | None, _) => 0,
        };
        let way = self.grown.iter().position(|g| {
            g.crop == planting.crop
                && g.layer == planting.layer
                && std::mem::discriminant(&g.start) == std::mem::discriminant(&planting.start)
        });
        let groups = match crop {
            Some(crop) => {
                let ills = self.ills(crop, bed);
                let hosts = ills.iter().map(|ill| self.hosts(ill)).collect::<Vec<_>>();
                std::iter::once(self.group(crop)).chain(hosts).collect()
            }
            None => self.groups.get(&planting.family).copied().into_iter().collect(),
        };
        let gives = crop.map_or_else(Vec::new, |crop| self.gives(planting, crop, wishes));
        self.problem.fixed.push(Fixed {
            name: planting.name.clone(),
            way,
            layer: if planting.layer == Layer::Mate { On::Mate } else { On::Main },
            groups,
            bed,
            cells,
            taken,
            open,
            gives,
            cost: 0,
        });
    }

    /// Takes what a settled planting needs of the supplies off what there is for new ones.
    fn use_up(&mut self, planting: &Planting) {
        let by_cell = self.book.get(&planting.crop).is_some_and(|crop| {
            crate::garden::plants_in(crop.spacing.wide, 1, 1, self.plan.settings.cell) > 1
        });
        let taken = planting.begins().map_or(0, |from| self.clock.taken(from, planting.ends()));
        let drawing = Drawing {
            plan: self.plan,
            clock: &self.clock,
            supplies: self.supplies,
            scale: 0.0,
            opens: false,
            by_cell,
        };
        let uses = ways::uses(planting.start, &planting.dates(), taken, &drawing);
        for (week, cells) in planting.tray_cells() {
            if let (Some(trays), Some(week)) = (self.supplies.trays, self.clock.index(week)) {
                self.problem.supplies[trays].there[week] -= num::round_i((cells * TRAY_UNIT).ceil());
            }
        }
        for u in uses.into_iter().filter(|u| Some(u.supply) != self.supplies.trays) {
            let there = &mut self.problem.supplies[u.supply].there[u.week];
            *there -= u.planting + u.plant * i64::from(planting.plants);
        }
    }

    /// What a standing planting will give to the wishes: to its own, or to the first its crop can meet.
    pub(super) fn gives(
        &self,
        planting: &Planting,
        crop: &Crop,
        wishes: &[WishId],
    ) -> Vec<(usize, usize, i64)> {
        let meets = |wish: &Wish| {
            (wish.crop == crop.id || wish.crop == *crop.base()) && ways::scale(crop, wish.amount).is_some()
        };
        let own = match planting.why {
            Why::Wish(id) => wishes.iter().position(|w| *w == id),
            Why::Hand | Why::Catch | Why::Cover => {
                wishes.iter().position(|w| self.plan.wish(*w).is_some_and(&meets))
            }
        };
        let Some(at) = own else { return Vec::new() };
        let Some(scale) = self.plan.wish(wishes[at]).and_then(|w| ways::scale(crop, w.amount)) else {
            return Vec::new();
        };
        if planting.failed.is_some() {
            return Vec::new();
        }
        let conditions = self.plan.conditions_of(&self.open, planting, crop);
        let each = crop.harvest.usual.value() * scale * f64::from(planting.plants);
        let mut out: BTreeMap<usize, f64> = BTreeMap::new();
        for (week, share) in planting.harvest(crop, &conditions) {
            let Some(week) = self.clock.index(week) else { continue };
            // Nobody picks in a week away.
            if self.plan.settings.is_away(self.clock.date(week)) {
                continue;
            }
            let bucket = self.problem.wishes[at].buckets.iter().position(|b| b.from <= week && week < b.to);
            if let Some(bucket) = bucket {
                *out.entry(bucket).or_default() += each * share;
            }
        }
        out.into_iter().map(|(bucket, amount)| (at, bucket, num::round_i(amount))).collect()
    }

    /// A planting of the plan in force as the search would place it, if it would again: on the same cells with the
    /// same dates, plants and purpose. One of many cells may be many plantings there, and fillers of gaps always are.
    fn keep(&mut self, planting: &Planting, wishes: &[WishId]) {
        let Some(bed) = self.places.iter().position(|p| p.id == planting.place) else { return };
        let block = planting.block;
        let serves = |way: &Way| match planting.why {
            Why::Wish(id) => way.wish.is_some_and(|at| wishes.get(at) == Some(&id)),
            Why::Catch => way.wish.is_none() && way.role == Role::Catch,
            Why::Cover => way.wish.is_none() && way.role == Role::Cover,
            // By hand is settled and not up for change.
            Why::Hand => false,
        };
        let (height, width) = (self.problem.beds[bed].height, self.problem.beds[bed].width);
        let cells = cells_of(block, height, width);
        for (w, grown) in self.grown.iter().enumerate() {
            let way = &self.problem.ways[w];
            if grown.crop != planting.crop
                || grown.layer != planting.layer
                || grown.start != planting.start
                || !serves(way)
            {
                continue;
            }
            let Some(start) = grown.sown.iter().position(|sown| sown.dates == planting.planned) else {
                continue;
            };
            // Under a cover and in the open a crop has ways of its own.
            let week = way.starts[start].week;
            let stands = |p: &&Stand| p.bed == bed && p.from <= week && week < p.to;
            let there = way.places.iter().filter(stands).fold(Cells::NONE, |all, p| all.union(&p.cells));
            if !there.covers(&cells) {
                continue;
            }
            let plants = i64::from(planting.plants);
            let shaped = |size: (usize, usize), plants: i64| {
                way.shapes.iter().position(|s| s.sizes.contains(&size) && s.plants == plants)
            };
            let (row, column) = (usize::from(block.row), usize::from(block.col));
            let size = (usize::from(block.rows), usize::from(block.cols));
            let area = num::signed(num::index(u32::from(block.rows)) * usize::from(block.cols));
            let placed = |shape, row, column, (height, width)| Placed {
                way: w,
                start,
                shape,
                bed,
                row,
                column,
                height,
                width,
            };
            let whole = if way.wish.is_some() { shaped(size, plants) } else { None };
            if let Some(shape) = whole {
                self.problem.keep.push(placed(shape, row, column, size));
                return;
            }
            let single = if plants % area == 0 { shaped((1, 1), plants / area) } else { None };
            if let Some(shape) = single {
                let cells = block.cells().map(|(r, c)| placed(shape, usize::from(r), usize::from(c), (1, 1)));
                self.problem.keep.extend(cells);
                return;
            }
        }
    }
}
