//! The chance that a planting lives to a day, and that it ripens before a killing frost.

use super::pace::Curve;
use super::tick::Tick;
use crate::site::FrostCurves;
use crate::site::bell;
use crate::site::chance::ripe_while_alive;
use crate::units::num;
use std::sync::Arc;

/// Days before the first picking in which what is picked is formed (from memory).
const FORMS: i64 = 21;
/// Half-year, days.
const HALF: i64 = 182;

/// Life of a planting against nights at or below one threshold.
#[derive(Debug, Clone)]
pub(super) struct Alive {
    curves: Arc<FrostCurves>,
    /// The warmest day nearest to the first day outside.
    peak: Tick,
    /// Days from the warmest day to the first day outside; 0 where that is earlier.
    from: i64,
    /// Chance that no frost came before the first day outside.
    start: f64,
}

impl Alive {
    /// A planting that is outside from `exposed` on.
    pub(super) fn new(curves: Arc<FrostCurves>, exposed: Tick) -> Self {
        let peak = exposed.nearest(curves.peak());
        let from = peak.until(exposed).clamp(0, HALF);
        let start = curves.survival(num::count(from)).max(1e-9);
        Self { curves, peak, from, start }
    }

    /// Chance that it is still alive at the start of `day`.
    pub(super) fn on(&self, day: Tick) -> f64 {
        let after = self.peak.until(day);
        if after <= self.from {
            return 1.0;
        }
        let autumn = |t: i64| self.curves.survival(num::count(t.min(HALF)));
        let first = (autumn(after) / self.start).min(1.0);
        if after <= HALF {
            return first;
        }
        // From midwinter on: what has to come later in spring has not come yet.
        let none = 1.0 - self.curves.share_spring();
        let spring = |t: i64| {
            let later = self.curves.later(self.peak.plus(t).day());
            (none / (1.0 - later).max(1e-9)).min(1.0)
        };
        if after < 365 {
            return first * spring(after);
        }
        first * none * autumn(after - 365)
    }

    /// The first day from `from` on by whose start the chance has fallen below `share`; none within two years.
    pub(super) fn until(&self, share: f64, from: Tick) -> Option<Tick> {
        let (mut low, mut high) = (-1, 700);
        if self.on(from.plus(high)) >= share {
            return None;
        }
        while high - low > 1 {
            let middle = i64::midpoint(low, high);
            if self.on(from.plus(middle)) < share { high = middle } else { low = middle }
        }
        Some(from.plus(high))
    }
}

/// The nights that end a planting: those that kill its leaves, and those that spoil what is picked.
pub(super) struct Nights {
    pub(super) foliage: Alive,
    pub(super) harvest: Alive,
}

impl Nights {
    /// Chance that it ripens unharmed by `ripe` and can be picked for so many days more.
    fn finishes(&self, ripe: Tick, picking: i64) -> f64 {
        self.foliage.on(ripe).min(self.spared(ripe, ripe.plus(picking)))
    }

    /// Chance that a harvest ripe on `ripe` is unspoilt on `day`. Frost before blossom, pods or heads are there can
    /// only kill the leaves.
    pub(super) fn spared(&self, ripe: Tick, day: Tick) -> f64 {
        let formed = ripe.plus(-FORMS);
        let before = self.harvest.on(formed);
        if before <= 1e-9 {
            return 0.0;
        }
        self.foliage.on(formed).min(1.0) * (self.harvest.on(day) / before).min(1.0)
    }

    /// The first day from `ripe` on on which a harvest is as likely spoilt as `share` allows; none within a year.
    pub(super) fn spoilt(&self, ripe: Tick, share: f64) -> Option<Tick> {
        let (mut low, mut high) = (-1, 365);
        if self.spared(ripe, ripe.plus(high)) >= share {
            return None;
        }
        while high - low > 1 {
            let middle = i64::midpoint(low, high);
            if self.spared(ripe, ripe.plus(middle)) < share { high = middle } else { low = middle }
        }
        Some(ripe.plus(high))
    }

    /// Chance that a planting begun on `from` is ripe, and picked for `picking` days, before a killing frost.
    pub(super) fn by_heat(&self, curve: &Curve, from: Tick, need: f64, sd: f64, picking: i64) -> f64 {
        let (left, rest) = curve.left(from, need);
        if rest <= 0.0 {
            return self.finishes(curve.reach(from, need).unwrap_or(left), picking);
        }
        ripe_while_alive(curve.rates(), left.day(), rest, sd, |n| self.finishes(left.plus(n), picking))
    }

    /// The same where ripeness comes about `ripe`, give or take `spread` days.
    pub(super) fn by_days(&self, ripe: Tick, spread: f64, picking: i64) -> f64 {
        let sum: f64 = bell::NODES
            .iter()
            .map(|(x, weight)| weight * self.finishes(ripe.plus(num::round_i(x * spread)), picking))
            .sum();
        sum.clamp(0.0, 1.0)
    }
}
