//! Improvement by annealing with ejection: a planting is set where it costs least, whatever stood there moves.
//!
//! Moves: 45 % set a new planting, 45 % move one (a few starts earlier or later, or to another bed), 10 % put another
//! way in its place. What has to give way is set again where it fits. A move that is not accepted is undone from its
//! journal.

use super::model::{Act, NONE};
use super::random::{Cooling, Random};
use super::state::{Planting, State};
use crate::units::num::{count, index, signed, word};

/// Moves between two readings of the temperature and the quota.
const STRIDE: u64 = 256;

/// A new planting is tried if it earns its toll but for so many times the heat.
const HOPE: i64 = 10;

/// Starts a moved planting may shift.
const MOVED: usize = 5;

/// The journal of one move.
#[derive(Debug, Default)]
struct Journal {
    set: Vec<u32>,
    taken: Vec<Planting>,
}

/// What a run of annealing is given.
#[derive(Debug)]
pub(crate) struct Run<'r> {
    pub(crate) cooling: &'r Cooling,
    pub(crate) moves: u64,
    pub(crate) hot: i64,
    pub(crate) cold: i64,
}

impl State<'_> {
    /// Improves the plan; leaves it at the best found and returns the number of moves made. `go` is asked every
    /// 256 moves with (moves, best value) and ends the run with `false`.
    pub(crate) fn anneal(
        &mut self,
        run: &Run<'_>,
        random: &mut Random,
        go: &mut dyn FnMut(u64, i64) -> bool,
    ) -> u64 {
        let mut best = self.value;
        let mut best_plan = Vec::new();
        self.snapshot(&mut best_plan);
        let mut journal = Journal::default();
        let mut victims = Vec::new();
        let late = Cooling::heat(run.hot, run.cold, 1, 2);
        let mut heat = run.hot;
        let mut done = 0;
        while done < run.moves {
            if done % STRIDE == 0 {
                heat = Cooling::heat(run.hot, run.cold, done, run.moves);
                if !go(done, best) {
                    break;
                }
            }
            done += 1;
            let before = self.value;
            journal.set.clear();
            journal.taken.clear();
            let Some((act, bed)) = self.draw(heat, random, &mut journal) else { continue };
            let settled = self.settle(act, bed, heat, random, &mut journal, &mut victims);
            if settled && run.cooling.accepts(self.value - before, heat, random) {
                // Snapshots cost more than moves, so early bests, soon overtaken, are not written down.
                if self.value > best && (heat <= late || done + STRIDE > run.moves) {
                    best = self.value;
                    self.snapshot(&mut best_plan);
                }
            } else {
                self.undo(&mut journal);
            }
        }
        if self.value < best {
            self.restore(&best_plan);
        }
        done
    }

    fn undo(&mut self, journal: &mut Journal) {
        while let Some(p) = journal.set.pop() {
            self.take(p);
        }
        while let Some(planting) = journal.taken.pop() {
            self.set(planting.act, planting.site, false);
        }
    }

    /// Draws a move: which act to set in which bed. A moved or replaced planting is taken out already.
    ///
    /// Acts are compared by what they add less the toll for what they take: the prices of the relaxation know which
    /// weeks and beds others need more. Chance on top, in proportion to the heat, keeps the choice open.
    fn draw(&mut self, heat: i64, random: &mut Random, journal: &mut Journal) -> Option<(usize, usize)> {
        let model = self.model;
        let kind = random.below(100);
        if kind < 45 || self.live.is_empty() {
            let form = &model.forms[self.draw_form(random)?];
            let bed = form.beds[random.below(form.beds.len())];
            let least = -heat * HOPE;
            let a = if random.below(5) == 0 {
                let first = random.below(form.acts.len());
                let turned =
                    (form.acts.start + first..form.acts.end).chain(form.acts.start..form.acts.start + first);
                self.pick(turned, bed, least, 0, true, random)
            } else {
                self.pick(form.acts.clone(), bed, least, heat * 6, false, random)
            };
            return Some((a?, bed));
        }
        let p = self.live[random.below(self.live.len())];
        if self.planting(p).settled {
            return None;
        }
        let planting = self.take(p);
        journal.taken.push(planting);
        let old = index(planting.act);
        let bed = model.blocks[index(planting.site.block)].bed;
        if kind < 90 {
            let form = &model.forms[index(model.acts[old].form)];
            let bed = if random.below(2) == 0 { bed } else { form.beds[random.below(form.beds.len())] };
            let acts = old.saturating_sub(MOVED).max(form.acts.start)..(old + MOVED + 1).min(form.acts.end);
            let a = self.pick(acts, bed, i64::MIN, heat * 2, false, random).unwrap_or(old);
            return Some((a, bed));
        }
        let drawn = self.draw_form(random).filter(|&f| model.all_sites(f, bed).next().is_some());
        if let Some(form) = drawn.map(|f| &model.forms[f]) {
            let a = form.acts.start + random.below(form.acts.len());
            if self.gain(&model.acts[a]) > 0 {
                return Some((a, bed));
            }
        }
        self.undo(journal);
        None
    }

    /// Of the acts that add something, the one that adds most above its toll and above `least`, with up to `noise`
    /// added by chance; or the `first` that does.
    fn pick(
        &self,
        acts: impl Iterator<Item = usize>,
        bed: usize,
        least: i64,
        noise: i64,
        first: bool,
        random: &mut Random,
    ) -> Option<usize> {
        let (mut most, mut pick) = (least, None);
        for a in acts {
            let gain = self.gain(&self.model.acts[a]);
            if gain <= 0 {
                continue;
            }
            let net = gain - self.toll(a, bed) + random.amount(noise);
            if net > most {
                (most, pick) = (net, Some(a));
                if first {
                    break;
                }
            }
        }
        pick
    }

    fn draw_form(&self, random: &mut Random) -> Option<usize> {
        let wishes = &self.model.by_wish;
        let forms = wishes.get(random.below(wishes.len()))?;
        // A form that can stand in many beds is drawn the more often.
        let beds = |f: usize| self.model.forms[f].beds.len();
        let mut k = random.below(forms.iter().map(|&f| beds(f)).sum());
        forms.iter().copied().find(|&f| {
            let found = k < beds(f);
            k = k.saturating_sub(beds(f));
            found
        })
    }

    /// Sets the act in the bed, moving others out where it must; tells whether it stands.
    fn settle(
        &mut self,
        a: usize,
        bed: usize,
        heat: i64,
        random: &mut Random,
        journal: &mut Journal,
        victims: &mut Vec<u32>,
    ) -> bool {
        let act = &self.model.acts[a];
        if let Some(site) = self.fit(act, bed, random) {
            if !self.relieve(act, heat, random, journal) {
                return false;
            }
            journal.set.push(self.set(word(a), site, false));
            return true;
        }
        let Some(site) = self.force(act, bed, heat * 2, random, victims) else { return false };
        let moved = journal.taken.len();
        for &p in victims.iter() {
            let planting = self.take(p);
            journal.taken.push(planting);
        }
        if !self.relieve(act, heat, random, journal) {
            return false;
        }
        journal.set.push(self.set(word(a), site, false));
        for k in moved..journal.taken.len() {
            let planting = journal.taken[k];
            self.resettle(planting, random, journal);
        }
        true
    }

    /// Sets a planting that gave way again: in its bed at its time, then a little earlier or later, then in two
    /// other beds.
    fn resettle(&mut self, planting: Planting, random: &mut Random, journal: &mut Journal) {
        let model = self.model;
        let old = &model.acts[index(planting.act)];
        let form = &model.forms[index(old.form)];
        for attempt in 0..4 {
            let bed = if attempt == 0 {
                model.blocks[index(planting.site.block)].bed
            } else {
                form.beds[random.below(form.beds.len())]
            };
            let a = if attempt < 2 {
                index(planting.act)
            } else {
                near_act(form, index(planting.act), 2, random)
            };
            let act = &model.acts[a];
            if self.gain(act) > 0
                && self.lack(act).is_none()
                && let Some(site) = self.fit(act, bed, random)
            {
                journal.set.push(self.set(word(a), site, false));
                return;
            }
        }
    }

    /// Makes room in over-full weeks of work or raising: the plantings that cost least for what they use go.
    fn relieve(&mut self, act: &Act, heat: i64, random: &mut Random, journal: &mut Journal) -> bool {
        for _ in 0..6 {
            let Some(slot) = self.lack(act) else { return true };
            if self.live.is_empty() {
                return false;
            }
            let first = random.below(self.live.len());
            let (mut least, mut pick, mut seen) = (i64::MAX, NONE, 0);
            for k in 0..self.live.len() {
                let p = self.live[(first + k) % self.live.len()];
                let other = self.act(p);
                if other.slots >> (slot % 128) & 1 == 0 || self.planting(p).settled {
                    continue;
                }
                let uses = self.model.uses(other);
                let Some(&(_, amount)) = uses.iter().find(|&&(s, _)| index(s) == slot) else { continue };
                let root = count(amount << 8).isqrt(); // 16 times the square root
                let cost = (self.loss(p) + random.amount(heat * 2)) * 16 / signed(root).max(1);
                if cost < least {
                    (least, pick) = (cost, p);
                }
                seen += 1;
                if seen >= 12 {
                    break;
                }
            }
            if pick == NONE {
                return false;
            }
            let planting = self.take(pick);
            journal.taken.push(planting);
        }
        self.lack(act).is_none()
    }
}

/// An act of the same form at most `reach` starts earlier or later.
fn near_act(form: &super::model::Form, act: usize, reach: usize, random: &mut Random) -> usize {
    let shift = act + random.below(2 * reach + 1);
    shift.saturating_sub(reach).clamp(form.acts.start, form.acts.end - 1)
}
