//! From shares of plantings to whole ones: rounding cumulatively along the starts, so that a wish that wants half a
//! planting a week gets one every other week; then setting them, large blocks first.

use super::linear::Linear;
use super::random::Random;
use super::state::State;
use crate::units::num::{floor_u, index, word};

impl State<'_> {
    /// Sets the rounded solution on top of what stands. The first draw rounds at the half, later ones at a chance.
    pub(crate) fn round(&mut self, linear: &Linear, at_half: bool, random: &mut Random) {
        let model = self.model;
        let mut due: Vec<(i64, usize, u32, u32)> = Vec::new();
        let mut sum = 0.0;
        let mut last = None;
        for (column, amount) in linear.amounts() {
            let act = &model.acts[index(column.act)];
            if last != Some((act.form, column.class)) {
                last = Some((act.form, column.class));
                sum = if at_half { 0.5 } else { f64::from(word(random.below(4096))) / 4096.0 };
            }
            let before = floor_u(sum);
            sum += amount;
            for _ in before..floor_u(sum) {
                due.push((-model.forms[index(act.form)].area, act.week, column.act, column.class));
            }
        }
        due.sort_unstable();
        for (_, _, a, class) in due {
            let act = &model.acts[index(a)];
            if self.gain(act) <= 0 || self.lack(act).is_some() {
                continue;
            }
            let beds = &linear.classes.beds[index(class)];
            let first = random.below(beds.len());
            for k in 0..beds.len() {
                if let Some(site) = self.fit(act, beds[(first + k) % beds.len()], random) {
                    self.set(a, site, false);
                    break;
                }
            }
        }
    }
}
