//! How much ground the wishes ask for, before anything is arranged.

use super::problem::{Layer, Problem, Shape, Start};
use crate::units::num;

/// One block from one start.
struct Offer {
    /// Cell-weeks of the growing season.
    cost: f64,
    /// Harvest by bucket of the wish.
    gives: Vec<f64>,
}

impl Problem {
    /// Cell-weeks of the growing season that the wishes ask for: what they would take if each were grown by
    /// itself with all the ground and work it needs. What cannot be had at any start asks for nothing.
    pub fn asked(&self) -> usize {
        num::round_u((0..self.wishes.len()).map(|w| self.asked_by(w)).sum())
    }

    /// [`Problem::asked`] for one wish: bucket after bucket, block by block, each time the block whose wanted
    /// harvest takes the fewest cell-weeks, until less than half a block is wanting.
    fn asked_by(&self, wish: usize) -> f64 {
        let buckets = &self.wishes[wish].buckets;
        let mut want: Vec<f64> = buckets.iter().map(|b| num::real_i(b.want)).collect();
        for (_, bucket, amount) in self.fixed.iter().flat_map(|f| &f.gives).filter(|g| g.0 == wish) {
            want[*bucket] -= num::real_i(*amount);
        }
        let asked = want.clone();
        let offers = self.offers(wish);
        let mut spent = 0.0;
        for bucket in 0..want.len() {
            loop {
                // What a block gives to other buckets counts for it too, as far as it is wanted there.
                let useful = |o: &&Offer| {
                    let wanted = o.gives.iter().zip(&want).map(|(gives, want)| gives.min(want.max(0.0)));
                    wanted.sum::<f64>() / o.cost
                };
                let serving = offers.iter().filter(|o| o.gives[bucket] > 0.0);
                let Some(best) = serving.max_by(|a, b| useful(a).total_cmp(&useful(b))) else { break };
                let none_yet = want[bucket] > 0.0 && want[bucket] >= asked[bucket];
                if !none_yet && want[bucket] < best.gives[bucket] / 2.0 {
                    break;
                }
                for (want, gives) in want.iter_mut().zip(&best.gives) {
                    *want -= gives;
                }
                spent += best.cost;
            }
        }
        spent
    }

    fn offers(&self, wish: usize) -> Vec<Offer> {
        let ways = || self.ways.iter().filter(|w| w.wish == Some(wish) && !w.places.is_empty());
        let layer = if ways().any(|w| w.layer == Layer::Main) { Layer::Main } else { Layer::Mate };
        let ways = ways().filter(|w| w.layer == layer);
        let blocks = ways.flat_map(|w| w.starts.iter().flat_map(|s| w.shapes.iter().map(move |b| (s, b))));
        blocks.filter_map(|(start, shape)| self.offer(wish, start, shape)).collect()
    }

    fn offer(&self, wish: usize, start: &Start, shape: &Shape) -> Option<Offer> {
        let (height, width) = *shape.sizes.first()?;
        let cost = f64::from((start.taken & self.season).count_ones()) * num::real(height * width);
        let gives: Vec<f64> = self.wishes[wish]
            .buckets
            .iter()
            .map(|b| {
                let within = start.harvest.iter().filter(|(week, _)| (b.from..b.to).contains(week));
                num::real_i(within.map(|h| h.1 * shape.plants).sum())
            })
            .collect();
        (cost > 0.0 && gives.iter().any(|g| *g > 0.0)).then_some(Offer { cost, gives })
    }
}
