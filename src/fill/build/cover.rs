//! Covers: under each a crop has starts of its own, in the cells and weeks it lies over.

use super::Builder;
use crate::fill::cells::Cells;
use crate::garden::{Block, Cover};
use crate::growth::Conditions;
use crate::units::{Degrees, num};

/// Covers alike: degrees warmer by day and milder by night, in hundredths, and which of its place's covers it is, so
/// that no block lies half under one and half under another.
pub(super) type Like = (i64, i64, usize);

/// A cover as one of its kind.
fn like(cover: &Cover, nth: usize) -> Like {
    let hundredths = |d: Degrees| num::round_i(d.celsius() * 100.0);
    (hundredths(cover.warmth), hundredths(cover.frost_gain), nth)
}

/// The cells of a block in a bed so many rows high and columns wide.
pub(in crate::fill) fn cells_of(block: Block, height: usize, width: usize) -> Cells {
    let cells = block.cells().map(|(r, c)| (usize::from(r), usize::from(c)));
    cells.filter(|&(r, c)| r < height && c < width).map(|(r, c)| r * width + c).collect()
}

impl<'a> Builder<'a> {
    /// The kinds of cover that lie over some cell within the horizon.
    pub(super) fn kinds_of_cover(&self) -> Vec<Like> {
        let (from, end) = (self.clock.date(0), self.clock.date(self.clock.weeks));
        let mut out: Vec<Like> = Vec::new();
        for place in &self.places {
            for (nth, cover) in place.covers.iter().enumerate() {
                if cover.from < end && cover.until > from && !out.contains(&like(cover, nth)) {
                    out.push(like(cover, nth));
                }
            }
        }
        out
    }

    /// The conditions under a kind of cover; in the open without one.
    pub(super) fn under(&self, kind: Option<Like>) -> Conditions<'a> {
        let open = self.open.clone();
        match kind {
            Some((warmth, gain, _)) => {
                let gain = (num::real_i(gain) / 100.0).max(open.frost_gain);
                open.under(num::real_i(warmth) / 100.0, gain)
            }
            None => open,
        }
    }

    /// Cells of a bed by start weeks: under the kind of cover, or in the open where no cover lies then.
    pub(super) fn lies(&self, bed: usize, kind: Option<Like>) -> Vec<(usize, usize, Cells)> {
        let (height, width) = (self.problem.beds[bed].height, self.problem.beds[bed].width);
        let all = Cells::first(height * width);
        let covers: Vec<(usize, usize, Cells, Like)> = self.places[bed]
            .covers
            .iter()
            .enumerate()
            .map(|(nth, c)| {
                let weeks = (self.clock.on_or_after(c.from), self.clock.on_or_after(c.until));
                (weeks.0, weeks.1, cells_of(c.cells, height, width), like(c, nth))
            })
            .filter(|(from, to, ..)| from < to)
            .collect();
        if covers.is_empty() {
            return if kind.is_none() { vec![(0, self.clock.weeks, all)] } else { Vec::new() };
        }
        let mut cuts: Vec<usize> = covers.iter().flat_map(|c| [c.0, c.1]).collect();
        cuts.extend([0, self.clock.weeks]);
        cuts.sort_unstable();
        cuts.dedup();
        let mut out = Vec::new();
        for pair in cuts.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            // Of two covers over one cell the first counts.
            let mut free = all;
            let mut own = Cells::NONE;
            for (.., cells, its) in covers.iter().filter(|c| c.0 <= from && to <= c.1) {
                if kind == Some(*its) {
                    own = free.both(cells);
                }
                free = free.less(cells);
            }
            let cells = if kind.is_none() { free } else { own };
            if !cells.is_empty() {
                out.push((from, to, cells));
            }
        }
        out
    }
}
