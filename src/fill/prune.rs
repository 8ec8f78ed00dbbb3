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
            let here: Vec<u32> = loose(self)
                .into_iter()
                .filter(|&p| bed(self, p) == at && model.groups(self.act(p)).contains(&group))
                .collect();
            self.take_if_dear(&here);
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
