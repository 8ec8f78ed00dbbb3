//! Room for large blocks. A bed of 4 x 8 cells takes two blocks of 3 x 3, not 32 / 9 of them: counting cells alone would
//! promise room that no arrangement has.
//!
//! A *conservative scale* gives every block a share of its bed such that blocks that lie side by side never have
//! shares of more than one bed together. The product of two dual feasible functions, one of the height and one of the
//! width, is one (Fekete and Schepers 2004). Such shares make rows of the relaxation like cells do.

use super::model::Model;
use super::problem::Layer;
use crate::units::num::{index, signed};

/// Parts of a bed in which shares are counted; rounding down keeps them conservative.
pub(crate) const PARTS: i64 = 5040;
/// Rows for large blocks, at most, for one class of beds.
const MOST: usize = 5;

/// A dual feasible function of a length in a bed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Share {
    /// In proportion.
    Even,
    /// Nothing below `e`, all above the length of the bed less `e`, in proportion between.
    Ends(usize),
    /// Rounded down to `k`-ths of `k + 1` times the length, where that is no whole number.
    Steps(usize),
}

impl Share {
    fn all(long: usize) -> Vec<Self> {
        let ends = (2..=long / 2).map(Self::Ends);
        [Self::Even].into_iter().chain(ends).chain((1..4).map(Self::Steps)).collect()
    }
    fn of(self, x: usize, long: usize) -> i64 {
        let even = signed(x) * PARTS / signed(long);
        match self {
            Self::Ends(e) if x > long - e => PARTS,
            Self::Ends(e) if x < e => 0,
            Self::Even | Self::Ends(_) => even,
            Self::Steps(k) if ((k + 1) * x).is_multiple_of(long) => even,
            Self::Steps(k) => signed((k + 1) * x / long) * PARTS / signed(k),
        }
    }
}

/// A function of the height and one of the width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Scale(Share, Share);

impl Scale {
    /// Parts of a bed of `high` x `wide` cells that a block of `rows` x `columns` has.
    fn of(self, (rows, columns): (usize, usize), (high, wide): (usize, usize)) -> i64 {
        self.0.of(rows, high) * self.1.of(columns, wide) / PARTS
    }
}

/// The scales of one class of beds.
#[derive(Debug, Clone, Default)]
pub(crate) struct Scales {
    pub(crate) list: Vec<Scale>,
    size: (usize, usize),
    /// Parts left by settled plantings, by scale and week.
    pub(crate) there: Vec<Vec<i64>>,
}

impl Scales {
    /// The scales that tell most about the forms that may stand in these beds.
    pub(crate) fn new(model: &Model<'_>, beds: &[usize]) -> Self {
        let problem = model.problem;
        let Some(&first) = beds.first() else { return Self::default() };
        let size = (problem.beds[first].height, problem.beds[first].width);
        if beds.iter().any(|&b| (problem.beds[b].height, problem.beds[b].width) != size)
            || size.0 * size.1 < 4
        {
            return Self::default();
        }
        let pairs: Vec<Scale> = Share::all(size.0)
            .iter()
            .flat_map(|&a| Share::all(size.1).into_iter().map(move |b| Scale(a, b)))
            .collect();
        // (how much more than its cells it counts for some form, scale): the best of each form, the strongest first.
        let mut found: Vec<(i64, Scale)> = Vec::new();
        for form in &model.forms {
            let way = &problem.ways[form.way];
            if way.wish.is_none() || way.layer == Layer::Mate || !form.beds.contains(&first) {
                continue;
            }
            let own = |scale: Scale| least(scale, &way.shapes[form.shape].sizes, size);
            let even = form.area * PARTS / signed(size.0 * size.1);
            if let Some(best) = pairs.iter().copied().max_by_key(|&s| (own(s), std::cmp::Reverse(s)))
                && own(best) > even + PARTS / 100
            {
                let more = (own(best) - even) * PARTS / even.max(1);
                match found.iter_mut().find(|(_, s)| *s == best) {
                    Some((sum, _)) => *sum += more,
                    None => found.push((more, best)),
                }
            }
        }
        found.sort_by_key(|&(more, scale)| (std::cmp::Reverse(more), scale));
        found.truncate(MOST);
        let list: Vec<Scale> = found.into_iter().map(|(_, scale)| scale).collect();
        let mut there = vec![vec![PARTS * signed(beds.len()); problem.weeks]; list.len()];
        for fixed in problem.fixed.iter().filter(|f| beds.contains(&f.bed) && f.layer == Layer::Main) {
            let Some(block) = rectangle(fixed.cells.iter(), size.1) else { continue };
            for (scale, there) in list.iter().zip(&mut there) {
                let from = index(fixed.taken.trailing_zeros());
                let to = (128 - index(fixed.taken.leading_zeros())).min(problem.weeks);
                for parts in there.get_mut(from..to).unwrap_or_default() {
                    *parts = (*parts - scale.of(block, size)).max(0);
                }
            }
        }
        Self { list, size, there }
    }

    /// Parts of a bed that any block of a shape has, by scale.
    pub(crate) fn share(&self, scale: usize, sizes: &[(usize, usize)]) -> i64 {
        least(self.list[scale], sizes, self.size)
    }
}

/// The least share of the sizes that fit into the bed at all.
fn least(scale: Scale, sizes: &[(usize, usize)], size: (usize, usize)) -> i64 {
    let fits = sizes.iter().filter(|s| s.0 <= size.0 && s.1 <= size.1);
    fits.map(|&s| scale.of(s, size)).min().unwrap_or(0)
}

/// The size of some cells, if they make a rectangle.
fn rectangle(cells: impl Iterator<Item = usize>, wide: usize) -> Option<(usize, usize)> {
    let places: Vec<(usize, usize)> = cells.map(|c| (c / wide, c % wide)).collect();
    let span = |of: fn(&(usize, usize)) -> usize| {
        let (low, high) = (places.iter().map(of).min()?, places.iter().map(of).max()?);
        Some(high - low + 1)
    };
    let size = (span(|p| p.0)?, span(|p| p.1)?);
    (size.0 * size.1 == places.len()).then_some(size)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every way of cutting a length of `long` into pieces has shares of at most one together.
    #[test]
    fn shares_are_dual_feasible() {
        fn worst(share: Share, left: usize, long: usize, from: usize) -> i64 {
            let more = (from..=left).map(|x| share.of(x, long) + worst(share, left - x, long, x));
            more.max().unwrap_or(0).max(0)
        }
        for long in 1..=12 {
            for share in Share::all(long) {
                assert!(worst(share, long, long, 1) <= PARTS, "{share:?} of {long}");
            }
        }
    }

    #[test]
    fn a_bed_of_four_by_eight_takes_two_blocks_of_three_by_three() {
        let size = (4, 8);
        let best =
            Share::all(4).into_iter().flat_map(|a| Share::all(8).into_iter().map(move |b| Scale(a, b)));
        let most = best.map(|scale| scale.of((3, 3), size)).max().unwrap();
        assert_eq!(most, PARTS / 2);
    }
}
