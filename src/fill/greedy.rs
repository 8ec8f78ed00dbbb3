//! A sound start: the act that adds most for each cell and week first, again and again.

use super::model::Role;
use super::random::Random;
use super::state::State;
use crate::units::num::{index, signed};
use std::collections::BinaryHeap;

impl State<'_> {
    /// What an act adds now for 64 cell-weeks.
    fn dense(&self, a: usize) -> i64 {
        let act = &self.model.acts[a];
        let area = self.model.forms[index(act.form)].area;
        self.gain(act) * 64 / (area * signed(act.end - act.week).max(1))
    }

    /// Adds plantings while one adds value. A stale entry of the heap is put back with its present figure, so that
    /// each act is judged when its turn comes and not for every change.
    pub(crate) fn greedy(&mut self, random: &mut Random) {
        self.add_all(self.model.problem.point / 6, random);
    }
    /// Adds what fits as the plan stands, each at its cheapest site.
    pub(crate) fn top_up(&mut self, random: &mut Random) {
        self.add_all(0, random);
    }

    fn add_all(&mut self, tight: i64, random: &mut Random) {
        let mut heap = BinaryHeap::new();
        for form in self.model.forms.iter().filter(|f| f.role == Role::Wished) {
            heap.extend(form.acts.clone().map(|a| (self.dense(a), a)).filter(|&(d, _)| d > 0));
        }
        while let Some((was, a)) = heap.pop() {
            let now = self.dense(a);
            if now < was {
                if now > 0 {
                    heap.push((now, a));
                }
                continue;
            }
            let act = &self.model.acts[a];
            if self.lack(act).is_some() {
                continue;
            }
            let beds = &self.model.forms[index(act.form)].beds;
            let first = random.below(beds.len());
            for k in 0..beds.len() {
                let Some(site) = self.fit_with(act, beds[(first + k) % beds.len()], tight, random) else {
                    continue;
                };
                let before = self.value;
                let p = self.set(crate::units::num::word(a), site, false);
                if self.value <= before {
                    self.take(p);
                    continue;
                }
                heap.push((self.dense(a), a));
                break;
            }
        }
    }
}
