//! A plan in the making: what stands where, what it yields and uses, and its value, kept up to date by each
//! planting set or taken out.

use super::model::{Act, Model, NONE, Site};
use super::problem::{Placed, Reach, Weeks};
use crate::units::num::{index, real_i, signed, word};
use std::collections::BTreeMap;

/// One planting that stands.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Planting {
    pub(crate) act: u32,
    pub(crate) site: Site,
    /// Not up for change.
    pub(crate) settled: bool,
}

/// A planting as a cell sees it; its weeks stand here too, since most looks at a cell end with them.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stand {
    pub(crate) planting: u32,
    pub(crate) taken: Weeks,
}

/// A plan with its value.
#[derive(Debug)]
pub(crate) struct State<'m> {
    pub(crate) model: &'m Model<'m>,
    pub(crate) value: i64,
    /// Sum of the good terms between neighbours, counted or not.
    good: i64,
    /// Weeks in which the main layer, the mate layer is taken, and those in which no mate may stand, by cell.
    pub(crate) main: Vec<Weeks>,
    pub(crate) mate: Vec<Weeks>,
    shut: Vec<Weeks>,
    /// Plantings by cell.
    at: Vec<Vec<Stand>>,
    plantings: Vec<Planting>,
    vacant: Vec<u32>,
    pub(crate) live: Vec<u32>,
    rank: Vec<u32>,
    pub(crate) harvest: Vec<i64>,
    pub(crate) used: Vec<i64>,
    /// Uses of a cell by a group, for groups that reach over a cell.
    turns: Vec<u8>,
    /// When plantings of a group in a bed begin and end, for groups that reach over a bed and cost a repeat.
    stays: BTreeMap<(usize, u32), Stays>,
    /// Plantings of a group in a bed, for groups that are kept apart in a bed.
    family: BTreeMap<(usize, u32), Vec<u32>>,
    /// What each act's cells, weeks and work are worth elsewhere, by act and class of beds; empty = unknown.
    tolls: Vec<i64>,
    /// Class of each bed, and number of classes.
    class: (Vec<usize>, usize),
    /// Plantings of an act in a bed: in the plan in force, and now.
    keep: BTreeMap<(u32, usize), (u16, u16)>,
}

impl<'m> State<'m> {
    /// The settled plantings alone.
    pub(crate) fn new(model: &'m Model<'m>) -> Self {
        let mut state = Self {
            model,
            value: 0,
            good: 0,
            main: vec![0; model.cells],
            mate: vec![0; model.cells],
            shut: vec![0; model.cells],
            at: vec![Vec::with_capacity(8); model.cells],
            plantings: Vec::new(),
            vacant: Vec::new(),
            live: Vec::new(),
            rank: Vec::new(),
            harvest: vec![0; model.buckets.len()],
            used: vec![0; model.supply.len()],
            turns: vec![0; model.cells * model.problem.groups.len()],
            stays: BTreeMap::new(),
            family: BTreeMap::new(),
            keep: BTreeMap::new(),
            tolls: Vec::new(),
            class: (vec![0; model.problem.beds.len()], 0),
        };
        for placed in model.problem.in_force(true) {
            if let Some(act) = model.act_of(placed) {
                state.keep.entry((act, placed.bed)).or_default().0 += 1;
            }
        }
        for settled in &model.settled {
            state.set(settled.act, settled.site, true);
        }
        state
    }

    pub(crate) fn planting(&self, p: u32) -> &Planting {
        &self.plantings[index(p)]
    }
    pub(crate) fn act(&self, p: u32) -> &'m Act {
        &self.model.acts[index(self.planting(p).act)]
    }
    pub(crate) fn at(&self, cell: usize) -> &[Stand] {
        &self.at[cell]
    }

    /// Tells the state what cells, weeks and work are worth, so that moves look for better uses of them.
    pub(crate) fn learn(&mut self, linear: &super::linear::Linear) {
        self.tolls = linear.tolls(self.model.acts.len());
        for (class, beds) in linear.classes.beds.iter().enumerate() {
            for &bed in beds {
                self.class.0[bed] = class;
            }
        }
        self.class.1 = linear.classes.beds.len();
    }
    /// What the act's cells, weeks and work are worth elsewhere.
    pub(crate) fn toll(&self, act: usize, bed: usize) -> i64 {
        self.tolls.get(act * self.class.1 + self.class.0[bed]).copied().unwrap_or(0)
    }

    /// What the harvest of the act adds to the wishes as they stand.
    pub(crate) fn gain(&self, act: &Act) -> i64 {
        let mut sum = 0;
        for &(bucket, amount) in self.model.gives(act) {
            let (bucket, now) = (&self.model.buckets[index(bucket)], self.harvest[index(bucket)]);
            sum += bucket.worth(now + amount) - bucket.worth(now);
        }
        sum
    }
    /// What the wishes lose without the planting.
    pub(crate) fn loss(&self, p: u32) -> i64 {
        let mut sum = 0;
        for &(bucket, amount) in self.model.gives(self.act(p)) {
            let (bucket, now) = (&self.model.buckets[index(bucket)], self.harvest[index(bucket)]);
            sum += bucket.worth(now) - bucket.worth(now - amount);
        }
        sum
    }
    /// The first supply and week the act would overdraw.
    pub(crate) fn lack(&self, act: &Act) -> Option<usize> {
        let uses = self.model.uses(act);
        let over =
            |&&(slot, amount): &&(u32, i64)| self.used[index(slot)] + amount > self.model.supply[index(slot)];
        uses.iter().find(over).map(|&(slot, _)| index(slot))
    }

    /// What neighbours and shade of an act on a block beside what stands would change in the value.
    pub(crate) fn near(&self, act: &Act, block: u32) -> i64 {
        let (good, bad) = self.beside(act, block);
        self.counted(self.good + good) - self.counted(self.good) + bad
    }
    /// Good terms between neighbours as far as they count.
    fn counted(&self, good: i64) -> i64 {
        good.min(self.model.problem.good_most)
    }
    /// Good and bad terms of an act on a block beside what stands.
    fn beside(&self, act: &Act, block: u32) -> (i64, i64) {
        if !self.model.has_near() || act.way == NONE {
            return (0, 0);
        }
        let cells = self.model.list(block);
        let (mut good, mut bad) = (0, 0);
        for &cell in cells {
            for &(beside, lie) in &self.model.edges[index(cell)] {
                if cells.contains(&beside) {
                    continue;
                }
                for stand in &self.at[index(beside)] {
                    let weeks = i64::from((act.taken & stand.taken).count_ones());
                    if weeks == 0 {
                        continue;
                    }
                    let other = self.act(stand.planting);
                    // A mate is no neighbour of the main planting whose cells it shares.
                    let here = |s: &Stand| s.planting == stand.planting;
                    let shared = self.model.has_mates && self.at[index(cell)].iter().any(here);
                    if other.way != NONE && !shared {
                        let term = weeks * self.model.near(act.way, other.way, lie);
                        good += term.max(0);
                        bad += term.min(0);
                    }
                }
            }
        }
        (good, bad)
    }

    /// Cost of repeating the act's groups in the block, as far as it is counted by the cell.
    pub(crate) fn repeats(&self, act: &Act, block: u32) -> i64 {
        let groups = &self.model.problem.groups;
        let mut sum = 0;
        if !act.rules.repeats {
            return 0;
        }
        for &g in self.model.groups(act) {
            let group = &groups[index(g)];
            if group.again > 0 && group.reach == Reach::Cell {
                for &cell in self.model.list(block) {
                    if self.turns[index(cell) * groups.len() + index(g)] > 0 {
                        sum += group.again;
                    }
                }
            }
        }
        sum
    }
    /// Whether the two may not both stand in soil they share: one follows the other too soon.
    pub(crate) fn too_soon(&self, a: &Act, b: &Act, reach: Reach) -> bool {
        let groups = &self.model.problem.groups;
        self.model.groups(a).iter().any(|g| {
            let group = &groups[index(*g)];
            group.apart > 0
                && group.reach == reach
                && self.model.groups(b).contains(g)
                && ((a.end <= b.week && b.week < a.end + group.apart)
                    || (b.end <= a.week && a.week < b.end + group.apart))
        })
    }
    /// Whether the two may not share a cell.
    pub(crate) fn collide(&self, a: &Act, b: &Act) -> bool {
        let common = a.taken & b.taken;
        if common != 0 {
            let (main, mate) = match (a.mate, b.mate) {
                (false, true) => (a, b),
                (true, false) => (b, a),
                (false, false) | (true, true) => return true,
            };
            if common & main.shut != 0 && !self.model.paired(main.way, mate.way) {
                return true;
            }
        }
        (a.rules.apart_cell || b.rules.apart_cell) && self.too_soon(a, b, Reach::Cell)
    }
    /// Whether the cell is closed to the act by something that stands in it.
    pub(crate) fn closed(&self, act: &Act, cell: usize) -> bool {
        let hit = if act.mate {
            act.taken & (self.mate[cell] | self.shut[cell]) != 0
        } else {
            act.taken & self.main[cell] != 0 || act.shut & self.mate[cell] != 0
        };
        if !hit && !act.rules.apart_cell {
            return false;
        }
        if hit && !self.model.has_pairs() {
            return true;
        }
        self.at[cell].iter().any(|stand| self.collide(act, self.act(stand.planting)))
    }
    /// Plantings of the bed that the act would follow or precede too soon, whatever the cells.
    pub(crate) fn rivals(&self, act: &Act, bed: usize, out: &mut Vec<u32>) {
        out.clear();
        if !act.rules.apart_bed {
            return;
        }
        for &g in self.model.groups(act) {
            for &p in self.family.get(&(bed, g)).map_or(&[][..], Vec::as_slice) {
                if !out.contains(&p) && self.too_soon(act, self.act(p), Reach::Bed) {
                    out.push(p);
                }
            }
        }
    }

    /// Whether with the act a group that should come once would return to a bed once more.
    pub(crate) fn comes_again(&self, act: &Act, bed: usize) -> bool {
        self.model.groups(act).iter().any(|&g| {
            let group = &self.model.problem.groups[index(g)];
            let Some(stays) = self.stays.get(&(bed, g)) else { return false };
            if group.again == 0 || group.reach != Reach::Bed {
                return false;
            }
            let mut after = stays.clone();
            after.count(act, true);
            after.returns() > stays.returns()
        })
    }

    /// Sets a planting and returns its number.
    pub(crate) fn set(&mut self, act_index: u32, site: Site, settled: bool) -> u32 {
        let model = self.model;
        let act = &model.acts[index(act_index)];
        let (good, bad) = self.beside(act, site.block);
        self.value +=
            self.gain(act) - site.cost + self.counted(self.good + good) - self.counted(self.good) + bad;
        self.good += good;
        let planting = Planting { act: act_index, site, settled };
        let p = if let Some(p) = self.vacant.pop() {
            self.plantings[index(p)] = planting;
            self.rank[index(p)] = word(self.live.len());
            p
        } else {
            self.plantings.push(planting);
            self.rank.push(word(self.live.len()));
            word(self.plantings.len() - 1)
        };
        self.live.push(p);
        for &(bucket, amount) in model.gives(act) {
            self.harvest[index(bucket)] += amount;
        }
        for &(slot, amount) in model.uses(act) {
            self.used[index(slot)] += amount;
        }
        for &cell in model.list(site.block) {
            let cell = index(cell);
            if act.mate {
                self.mate[cell] |= act.taken;
            } else {
                self.main[cell] |= act.taken;
                self.shut[cell] |= act.shut;
            }
            self.at[cell].push(Stand { planting: p, taken: act.taken });
        }
        self.count_groups(act, site.block, p, true);
        self.count_kept(act_index, site.block, true);
        p
    }

    /// Takes a planting out and returns what it was.
    pub(crate) fn take(&mut self, p: u32) -> Planting {
        let model = self.model;
        let planting = self.plantings[index(p)];
        let act = &model.acts[index(planting.act)];
        self.value += planting.site.cost - self.loss(p);
        for &(bucket, amount) in model.gives(act) {
            self.harvest[index(bucket)] -= amount;
        }
        for &(slot, amount) in model.uses(act) {
            self.used[index(slot)] -= amount;
        }
        for &cell in model.list(planting.site.block) {
            let cell = index(cell);
            let at = &mut self.at[cell];
            if let Some(k) = at.iter().position(|stand| stand.planting == p) {
                at.swap_remove(k);
            }
            if act.mate {
                self.mate[cell] &= !act.taken;
            } else {
                self.main[cell] &= !act.taken;
                self.shut[cell] &= !act.shut;
            }
        }
        self.count_groups(act, planting.site.block, p, false);
        self.count_kept(planting.act, planting.site.block, false);
        let (good, bad) = self.beside(act, planting.site.block);
        self.value -= self.counted(self.good) - self.counted(self.good - good) + bad;
        self.good -= good;
        let k = index(self.rank[index(p)]);
        self.live.swap_remove(k);
        if let Some(&moved) = self.live.get(k) {
            self.rank[index(moved)] = word(k);
        }
        self.vacant.push(p);
        planting
    }

    fn count_groups(&mut self, act: &Act, block: u32, p: u32, set: bool) {
        let model = self.model;
        let groups = &model.problem.groups;
        let bed = model.blocks[index(block)].bed;
        for &g in model.groups(act) {
            let group = &groups[index(g)];
            match group.reach {
                Reach::Cell => {
                    for &cell in model.list(block) {
                        let turns = &mut self.turns[index(cell) * groups.len() + index(g)];
                        let before = *turns;
                        *turns = if set { before.saturating_add(1) } else { before.saturating_sub(1) };
                        if before.max(*turns) > 1 {
                            self.value += if set { -group.again } else { group.again };
                        }
                    }
                }
                Reach::Bed if group.again > 0 => {
                    let stays = self.stays.entry((bed, g)).or_default();
                    let before = stays.returns();
                    stays.count(act, set);
                    self.value -= group.again * (stays.returns() - before);
                }
                Reach::Bed => {}
            }
            if group.apart > 0 && group.reach == Reach::Bed {
                let family = self.family.entry((bed, g)).or_default();
                if set {
                    family.push(p);
                } else {
                    family.retain(|&q| q != p);
                }
            }
        }
    }

    fn count_kept(&mut self, act: u32, block: u32, set: bool) {
        if self.keep.is_empty() {
            return;
        }
        let bed = self.model.blocks[index(block)].bed;
        if let Some((wanted, now)) = self.keep.get_mut(&(act, bed)) {
            let before = (*wanted).min(*now);
            *now = if set { *now + 1 } else { now.saturating_sub(1) };
            let after = (*wanted).min(*now);
            self.value += self.model.problem.keep_bonus * (i64::from(after) - i64::from(before));
        }
    }
    /// Plantings of the plan in force that stand as they stood.
    pub(crate) fn kept(&self) -> usize {
        self.keep.values().map(|&(wanted, now)| usize::from(wanted.min(now))).sum()
    }

    /// The plantings that are not settled.
    pub(crate) fn snapshot(&self, out: &mut Vec<Planting>) {
        out.clear();
        out.extend(self.live.iter().map(|&p| *self.planting(p)).filter(|p| !p.settled));
    }
    /// Puts the plan back to a snapshot.
    pub(crate) fn restore(&mut self, plantings: &[Planting]) {
        let loose: Vec<u32> = self.live.iter().copied().filter(|&p| !self.planting(p).settled).collect();
        for p in loose {
            self.take(p);
        }
        for planting in plantings {
            self.set(planting.act, planting.site, false);
        }
    }
    /// Sets a planting named by the caller if it may stand there; tells whether it could.
    pub(crate) fn place(&mut self, placed: &Placed) -> bool {
        let Some((act_index, site)) = self.model.act_of(placed).zip(self.model.site_of(placed)) else {
            return false;
        };
        let act = &self.model.acts[index(act_index)];
        let mut rivals = Vec::new();
        self.rivals(act, placed.bed, &mut rivals);
        let free = self.model.list(site.block).iter().all(|&cell| !self.closed(act, index(cell)));
        let fits = rivals.is_empty() && free && self.lack(act).is_none();
        if fits {
            self.set(act_index, site, false);
        }
        fits
    }
    /// The plan as the caller names it, in order.
    pub(crate) fn plan(&self) -> Vec<Placed> {
        let named = |&p: &u32| {
            let planting = self.planting(p);
            if planting.settled { None } else { self.model.placed(planting.act, planting.site.block) }
        };
        let mut plan: Vec<Placed> = self.live.iter().filter_map(named).collect();
        plan.sort_unstable();
        plan
    }
    /// Mean value a planting adds, a measure for temperatures; at least 1.
    pub(crate) fn mean(&self) -> i64 {
        (self.value / signed(self.live.len()).max(1)).max(1)
    }
    /// Weighted share of what was asked for, 0 to 1.
    pub(crate) fn share(&self) -> f64 {
        let (mut met, mut all) = (0.0, 0.0);
        for (k, wish) in self.model.problem.wishes.iter().enumerate() {
            let range = self.model.wish_buckets[k]..self.model.wish_buckets[k + 1];
            let want: i64 = range.clone().map(|b| self.model.buckets[b].want).sum();
            let got: i64 = range.map(|b| self.model.buckets[b].want.min(self.harvest[b])).sum();
            if want > 0 {
                all += real_i(wish.importance);
                met += real_i(wish.importance) * real_i(got) / real_i(want);
            }
        }
        if all > 0.0 { met / all } else { 1.0 }
    }
}

/// When plantings of a group in a bed begin and end: how many, by week.
#[derive(Debug, Clone, Default)]
struct Stays {
    begins: BTreeMap<usize, u16>,
    ends: BTreeMap<usize, u16>,
}

impl Stays {
    fn count(&mut self, act: &Act, set: bool) {
        for (weeks, week) in [(&mut self.begins, act.week), (&mut self.ends, act.over)] {
            let n = weeks.entry(week).or_default();
            *n = if set { *n + 1 } else { n.saturating_sub(1) };
            if *n == 0 {
                weeks.remove(&week);
            }
        }
    }
    /// Weeks in which something begins after something was cleared.
    fn returns(&self) -> i64 {
        let first = self.ends.first_key_value();
        first.map_or(0, |(&end, _)| signed(self.begins.range(end..).count()))
    }
}
