//! What the harvest in one bucket can be worth, as the bound's programme counts it: two upper limits on the value of a
//! bucket, both sums over plantings, that every plan obeys.
//!
//! * **By the step.** The value is concave in the amount. Where every planting gives a multiple of some amount, it is
//!   taken on those multiples alone, joined by straight pieces: that is what makes the bound tight.
//! * **By the planting.** No planting adds more than it would add to an empty bucket, since the value is concave. One
//!   large planting that gives three times what is wanted would otherwise count as three, each meeting the wish with a
//!   third of itself.

use super::model::{Act, Model, NONE, Role};
use super::problem::Bucket;
use crate::units::num::index;

/// One bucket as the programme sees it.
#[derive(Debug, Clone)]
pub(crate) struct Tally {
    bucket: Bucket,
    /// What settled plantings give.
    pub(crate) settled: i64,
    /// The greatest amount of which every act's harvest is a multiple.
    pub(crate) step: i64,
    /// Stretches of equal marginal value: (number of steps, value of a step).
    pub(crate) pieces: Vec<(i64, i64)>,
    /// Most of one planting's harvest that can count.
    pub(crate) most: i64,
    /// Whether some planting is so large that the second limit says more than the first.
    pub(crate) lumpy: bool,
}

impl Tally {
    /// The tallies of all buckets, in order.
    pub(crate) fn all(model: &Model<'_>) -> Vec<Self> {
        let mut settled = vec![0; model.buckets.len()];
        for own in &model.settled {
            for &(bucket, amount) in model.gives(&model.acts[index(own.act)]) {
                settled[index(bucket)] += amount;
            }
        }
        let mut step = vec![0; model.buckets.len()];
        for act in model.acts.iter().filter(|a| a.form != NONE) {
            for &(bucket, amount) in model.gives(act) {
                step[index(bucket)] = divisor(step[index(bucket)], amount);
            }
        }
        let steps = step.into_iter().zip(settled).zip(&model.buckets);
        let mut out: Vec<Self> =
            steps.map(|((step, settled), &bucket)| Self::new(bucket, settled, step.max(1))).collect();
        let wished = |act: &&Act| model.forms.get(index(act.form)).is_some_and(|f| f.role == Role::Wished);
        for act in model.acts.iter().filter(wished) {
            for &(bucket, amount) in model.gives(act) {
                let tally = &mut out[index(bucket)];
                let first = tally.pieces.first().map_or(0, |&(_, value)| value);
                tally.lumpy |= tally.worth(amount) * tally.step < tally.counted(amount) * first;
            }
        }
        out
    }

    fn new(bucket: Bucket, settled: i64, step: i64) -> Self {
        let left = (bucket.want + bucket.extra - settled).max(0);
        let most = (left + step - 1) / step * step;
        Self { bucket, settled, step, pieces: pieces(&bucket, settled, step), most, lumpy: false }
    }

    /// As much of a planting's harvest as can count.
    pub(crate) fn counted(&self, amount: i64) -> i64 {
        amount.min(self.most)
    }
    /// What a planting's harvest adds to the bucket before any other is planted, in value units.
    pub(crate) fn worth(&self, amount: i64) -> i64 {
        self.bucket.worth(self.settled + amount) - self.bucket.worth(self.settled)
    }
    /// What the settled harvest is worth.
    pub(crate) fn settled_worth(&self) -> i64 {
        self.bucket.worth(self.settled)
    }
}

/// Stretches of equal marginal value, from what is settled on in whole steps.
fn pieces(bucket: &Bucket, settled: i64, step: i64) -> Vec<(i64, i64)> {
    let mut out = Vec::new();
    let mut at = settled;
    let top = bucket.want + bucket.extra;
    while at < top {
        let value = bucket.worth(at + step) - bucket.worth(at);
        if value <= 0 {
            break;
        }
        let edge = if at < bucket.want { bucket.want } else { top };
        let n = ((edge - at) / step).max(1);
        out.push((n, value));
        at += n * step;
    }
    out
}

/// Greatest common divisor.
fn divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { divisor(b, a % b) }
}

/// More plantings of an act than this add nothing to any bucket, and some plan with the most harvest value for what it
/// costs has no planting that adds nothing.
pub(crate) fn useful(model: &Model<'_>, act: &Act, tallies: &[Tally]) -> i64 {
    let short = |&(b, amount): &(u32, i64)| {
        let tally = &tallies[index(b)];
        ((tally.bucket.want + tally.bucket.extra - tally.settled).max(0) + amount - 1) / amount
    };
    model.gives(act).iter().map(short).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever the plantings, neither limit is below the value.
    #[test]
    fn both_limits_hold() {
        let bucket = Bucket { want: 12, extra: 6, value: 50, beyond: 10, ..Bucket::default() };
        for (settled, step) in [(0, 1), (5, 1), (0, 4), (3, 4), (13, 2), (20, 1)] {
            let tally = Tally::new(bucket, settled, step);
            for (a, b, c) in (0..9).flat_map(|a| (a..9).flat_map(move |b| (b..9).map(move |c| (a, b, c)))) {
                let gives = [a * step, b * step, c * step];
                let truth = tally.worth(gives.iter().sum());
                let by_planting: i64 = gives.iter().map(|&g| tally.worth(g)).sum();
                let mut steps: i64 = gives.iter().map(|&g| tally.counted(g)).sum::<i64>() / step;
                let mut by_step = 0;
                for &(n, value) in &tally.pieces {
                    by_step += n.min(steps) * value;
                    steps -= n.min(steps);
                }
                assert!(truth <= by_planting && truth <= by_step, "{tally:?} {gives:?}");
            }
        }
    }
}
