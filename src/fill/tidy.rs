//! A tidier plan of the same worth: what is sown together stands together.
//!
//! Cells of a bed are often as good as each other, and a search for worth alone scatters the cells of one sowing
//! over them. Here two cells of a bed exchange all that stands in them for a stretch of weeks wherever more cells
//! of one sowing then touch, every rule is kept, and the plan is worth no less.

use super::model::{Model, NONE, Role, Site};
use super::state::{Planting, State};
use crate::units::num::{index, word};

/// Looks through a bed at most so often.
const ROUNDS: usize = 4;
/// Two cells of one sowing that touch.
const SAME: i32 = 4;
/// Two cells of one way of growing, sown at different times, that touch while both stand.
const ALIKE: i32 = 1;

/// A planting of one cell that may move within its bed.
#[derive(Debug, Clone, Copy)]
struct Single {
    number: u32,
    act: u32,
}

impl State<'_> {
    /// [`State::tidy`] once the gaps are filled: what the plan for wishes alone is worth does not fall either.
    pub(crate) fn tidy_all(&mut self) {
        let mut full = Vec::new();
        self.snapshot(&mut full);
        let before = self.wished(&full);
        self.restore(&full);
        self.tidy();
        let mut tidied = Vec::new();
        self.snapshot(&mut tidied);
        let after = self.wished(&tidied);
        self.restore(if after >= before { &tidied } else { &full });
    }
    /// Leaves of a plan only what serves wishes; returns its worth.
    pub(crate) fn wished(&mut self, plan: &[Planting]) -> i64 {
        let wished = |p: &&Planting| {
            let form = self.model.acts[index(p.act)].form;
            self.model.forms.get(index(form)).is_some_and(|f| f.role == Role::Wished)
        };
        let asked: Vec<Planting> = plan.iter().filter(wished).copied().collect();
        self.restore(&asked);
        self.value
    }

    /// Exchanges cells until nothing more comes together; the value never falls.
    pub(crate) fn tidy(&mut self) {
        for bed in 0..self.model.problem.beds.len() {
            for _ in 0..ROUNDS {
                if !self.tidy_bed(bed) {
                    break;
                }
            }
        }
    }

    fn tidy_bed(&mut self, bed: usize) -> bool {
        let first = self.model.offset[bed];
        let mut better = false;
        for cell in first..first + self.model.problem.beds[bed].cells() {
            for single in self.loose(cell) {
                better |= self.join(bed, cell, single);
            }
        }
        better
    }

    /// Moves one planting to a cell beside another of its sowing, if that is for the better.
    fn join(&mut self, bed: usize, cell: usize, single: Single) -> bool {
        // An exchange before this one may have moved it.
        if !self.holds(cell, single.act) {
            return false;
        }
        let first = self.model.offset[bed];
        let cells = first..first + self.model.problem.beds[bed].cells();
        let others: Vec<usize> = cells.filter(|&c| c != cell && self.holds(c, single.act)).collect();
        for other in others {
            for to in around(self.model, bed, other).into_iter().flatten() {
                if to == cell || self.holds(to, single.act) {
                    continue;
                }
                if self.exchange(bed, cell, to, single) {
                    return true;
                }
            }
        }
        false
    }

    /// Exchanges what stands in two cells, from the narrowest stretch of weeks round the planting to the widest.
    fn exchange(&mut self, bed: usize, a: usize, b: usize, single: Single) -> bool {
        let act = &self.model.acts[index(single.act)];
        let (week, end) = (act.week, act.end);
        let cuts = self.cuts(a, b);
        for &from in cuts.iter().rev().filter(|&&c| c <= week) {
            for &to in cuts.iter().filter(|&&c| c >= end) {
                let (Some(here), Some(there)) = (self.singles(a, from, to), self.singles(b, from, to)) else {
                    continue;
                };
                let gain = self.gained(bed, (a, b), &here) + self.gained(bed, (b, a), &there);
                if gain > 0 && self.swap((a, &here), (b, &there)) {
                    return true;
                }
            }
        }
        false
    }

    /// Weeks at which nothing in either cell goes on: before all, between, after all.
    fn cuts(&self, a: usize, b: usize) -> Vec<usize> {
        let acts = || self.at(a).iter().chain(self.at(b)).map(|s| self.act(s.planting));
        let mut cuts: Vec<usize> = acts().flat_map(|act| [act.week, act.end]).collect();
        cuts.push(0);
        cuts.push(self.model.problem.weeks.max(cuts.iter().copied().max().unwrap_or(0)));
        cuts.sort_unstable();
        cuts.dedup();
        cuts.retain(|&c| acts().all(|act| c <= act.week || c >= act.end));
        cuts
    }

    /// What stands in a cell within a stretch of weeks; none where some of it cannot move.
    fn singles(&self, cell: usize, from: usize, to: usize) -> Option<Vec<Single>> {
        let mut out = Vec::new();
        for stand in self.at(cell) {
            let act = self.act(stand.planting);
            if act.end <= from || act.week >= to {
                continue;
            }
            out.push(self.single(stand.planting)?);
        }
        Some(out)
    }
    /// What stands in a cell and can move.
    fn loose(&self, cell: usize) -> Vec<Single> {
        self.at(cell).iter().filter_map(|s| self.single(s.planting)).collect()
    }
    fn single(&self, number: u32) -> Option<Single> {
        let planting = self.planting(number);
        let alone = self.model.list(planting.site.block).len() == 1;
        (!planting.settled && alone && self.act(number).form != NONE)
            .then_some(Single { number, act: planting.act })
    }

    /// Whether a cell holds a planting of that act alone in its block.
    fn holds(&self, cell: usize, act: u32) -> bool {
        self.at(cell)
            .iter()
            .any(|s| self.planting(s.planting).act == act && self.single(s.planting).is_some())
    }

    /// How much more touches if plantings move from one cell to another.
    fn gained(&self, bed: usize, (from, to): (usize, usize), moved: &[Single]) -> i32 {
        let touching = |at: usize| -> i32 {
            let beside = around(self.model, bed, at).into_iter().flatten().filter(|&c| c != from && c != to);
            let stands = beside.flat_map(|c| self.at(c));
            stands
                .map(|stand| {
                    let other = self.planting(stand.planting).act;
                    moved.iter().map(|single| self.tie(single.act, other)).sum::<i32>()
                })
                .sum()
        };
        touching(to) - touching(from)
    }
    fn tie(&self, one: u32, other: u32) -> i32 {
        let (a, b) = (&self.model.acts[index(one)], &self.model.acts[index(other)]);
        match (one == other, a.way == b.way && a.taken & b.taken != 0) {
            (true, _) => SAME,
            (false, true) => ALIKE,
            (false, false) => 0,
        }
    }

    /// Exchanges the plantings of two cells if every one may stand in the other and the value does not fall.
    fn swap(&mut self, (a, here): (usize, &[Single]), (b, there): (usize, &[Single])) -> bool {
        let mut sites = Vec::new();
        for (to, moved) in [(b, here), (a, there)] {
            for single in moved {
                let Some(site) = site_at(self.model, single.act, to) else { return false };
                sites.push((single.act, site));
            }
        }
        let before = self.value;
        let old: Vec<Planting> = here.iter().chain(there).map(|s| self.take(s.number)).collect();
        let mut new = Vec::new();
        for (act, site) in sites {
            if !self.may_stand(act, site) {
                break;
            }
            new.push(self.set(act, site, false));
        }
        if new.len() == old.len() && self.value >= before {
            return true;
        }
        for number in new {
            self.take(number);
        }
        for planting in old {
            self.set(planting.act, planting.site, planting.settled);
        }
        false
    }

    fn may_stand(&self, act: u32, site: Site) -> bool {
        let (block, act) = (&self.model.blocks[index(site.block)], &self.model.acts[index(act)]);
        let mut rivals = Vec::new();
        self.rivals(act, block.bed, &mut rivals);
        rivals.is_empty()
            && self.lack(act).is_none()
            && self.model.list(site.block).iter().all(|&cell| !self.closed(act, index(cell)))
    }
}

/// The site of an act on one cell.
fn site_at(model: &Model<'_>, act: u32, cell: usize) -> Option<Site> {
    let act = &model.acts[index(act)];
    let bed = model.offset.partition_point(|&first| first <= cell) - 1;
    let sites = model.sites(index(act.form), bed, act.week);
    sites.iter().copied().find(|site| model.list(site.block) == [word(cell)])
}

/// The cells that touch a cell in its bed, numbered through all beds.
fn around(model: &Model<'_>, bed: usize, cell: usize) -> [Option<usize>; 4] {
    let (across, down) = (model.problem.beds[bed].width, model.problem.beds[bed].height);
    let (row, column) = ((cell - model.offset[bed]) / across, (cell - model.offset[bed]) % across);
    [
        (row > 0).then(|| cell - across),
        (row + 1 < down).then(|| cell + across),
        (column > 0).then(|| cell - 1),
        (column + 1 < across).then(|| cell + 1),
    ]
}
