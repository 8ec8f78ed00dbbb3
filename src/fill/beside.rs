//! What good neighbours can add at most: every edge and week between two plantings that do each other good is shared
//! half and half, so a planting brings no more than half of the best that could stand along all its sides.

use super::model::{Act, Lie, Model};
use super::problem::Layer;
use crate::units::num::{index, signed, word};

/// Half the most that a planting of each way may find along one edge in one week, times two, by way.
#[derive(Debug)]
pub(crate) struct Beside {
    best: Vec<i64>,
}

impl Beside {
    pub(crate) fn new(model: &Model<'_>) -> Self {
        let problem = model.problem;
        let ways = problem.ways.len();
        if !model.has_near() {
            return Self { best: vec![0; ways] };
        }
        let settled = |way: usize| problem.fixed.iter().any(|f| f.way == Some(way));
        let others: Vec<usize> =
            (0..ways).filter(|&way| problem.ways[way].wish.is_some() || settled(way)).collect();
        let best = |way: usize, layer: Layer| {
            let terms =
                others.iter().filter(|&&other| problem.ways[other].layer == layer).flat_map(|&other| {
                    let lies = [Lie::Beside, Lie::Sunward, Lie::Away].into_iter();
                    lies.map(move |lie| model.near(word(way), word(other), lie))
                });
            terms.max().unwrap_or(0).max(0)
        };
        // Across an edge stands one main planting and one mate in any week.
        Self { best: (0..ways).map(|way| best(way, Layer::Main) + best(way, Layer::Mate)).collect() }
    }

    /// Whether any planting can gain from its neighbours.
    pub(crate) fn any(&self) -> bool {
        self.best.iter().any(|&best| best > 0)
    }
    /// The most that an act may bring in beds of the given sizes, in value units.
    pub(crate) fn credit(&self, model: &Model<'_>, act: &Act, beds: &[usize]) -> i64 {
        let best = self.best[index(act.way)];
        if best == 0 {
            return 0;
        }
        let form = &model.forms[index(act.form)];
        let sizes = &model.problem.ways[form.way].shapes[form.shape].sizes;
        let edges = beds.iter().flat_map(|&bed| {
            let (high, wide) = (model.problem.beds[bed].height, model.problem.beds[bed].width);
            // Sides along the edge of the bed have no neighbour.
            let fits = sizes.iter().filter(move |&&(h, w)| h <= high && w <= wide);
            fits.map(move |&(h, w)| w * (high - h).min(2) + h * (wide - w).min(2))
        });
        half(best * signed(edges.max().unwrap_or(0)) * i64::from(act.taken.count_ones()))
    }
    /// The most that settled plantings may bring.
    pub(crate) fn settled(&self, model: &Model<'_>) -> i64 {
        let credit = |settled: &super::model::Settled| {
            let act = &model.acts[index(settled.act)];
            let best = self.best.get(index(act.way)).copied().unwrap_or(0);
            let sides = 4 * model.list(settled.site.block).len();
            half(best * signed(sides) * i64::from(act.taken.count_ones()))
        };
        model.settled.iter().map(credit).sum()
    }
}

/// Half, rounded up.
const fn half(n: i64) -> i64 {
    (n + 1) / 2
}
