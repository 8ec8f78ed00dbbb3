//! Taking out what costs more than it brings: the relaxation may round such a planting in, and annealing moves and
//! replaces plantings but never just takes one out.

use super::problem::Reach;
use super::state::State;
use crate::units::num::index;
use std::collections::BTreeSet;

impl State<'_> {
    /// Takes out plantings, and whole stays of a group in a bed, without which the plan is worth more.
    pub(crate) fn prune(&mut self) {
        let model = self.model;
        let loose = |state: &Self| -> Vec<u32> {
            let mut out: Vec<u32> =
                state.live.iter().copied().filter(|&p| !state.planting(p).settled).collect();
            out.sort_unstable();
            out
        };
        for p in loose(self) {
            self.take_if_dear(&[p]);
        }
        // Plantings that share the cost of a stay may each be worth their place and yet not all together.
        let counted = |&g: &u32| {
            let group = &model.problem.groups[index(g)];
            group.again > 0 && group.reach == Reach::Bed
        };
        let bed = |state: &Self, p: u32| model.blocks[index(state.planting(p).site.block)].bed;
        let keys: BTreeSet<(usize, u32)> = loose(self)
            .into_iter()
            .flat_map(|p| {
                let bed = bed(self, p);
                let groups = model.groups(self.act(p)).iter().copied().filter(counted);
                groups.map(move |g| (bed, g)).collect::<Vec<_>>()
            })
            .collect();
        for (at, group) in keys {
            let here = |state: &Self| -> Vec<u32> {
                let of = |p: &u32| bed(state, *p) == at && model.groups(state.act(*p)).contains(&group);
                loose(state).into_iter().filter(of).collect()
            };
            // Those that end a stay and those that begin one, week by week: the latest first.
            for week in (0..=model.problem.weeks).rev() {
                for ends in [false, true] {
                    let then = |&p: &u32| week == if ends { self.act(p).over } else { self.act(p).week };
                    let these: Vec<u32> = here(self).into_iter().filter(then).collect();
                    if !these.is_empty() {
                        self.take_if_dear(&these);
                    }
                }
            }
            let these = here(self);
            self.take_if_dear(&these);
        }
    }

    /// Takes plantings out if that makes the plan worth more.
    fn take_if_dear(&mut self, these: &[u32]) {
        let before = self.value;
        let taken: Vec<_> = these.iter().map(|&p| self.take(p)).collect();
        if self.value <= before {
            for planting in taken {
                self.set(planting.act, planting.site, false);
            }
        }
    }
}
