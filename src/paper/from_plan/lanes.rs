//! Plantings of one bed sorted into lanes: what follows one another in the same cells stands on one line.

use std::collections::BTreeSet;

use super::{cells, end};
use crate::calendar::Date;
use crate::garden::Block;
use crate::plan::Planting;

/// Plantings of one crop with the same dates: one bar.
#[derive(Debug)]
pub(super) struct Group<'a> {
    pub(super) first: &'a Planting,
    pub(super) plants: usize,
    pub(super) blocks: Vec<Block>,
}

/// Groups in the same cells one after another.
#[derive(Debug, Default)]
pub(super) struct Run<'a> {
    pub(super) groups: Vec<Group<'a>>,
    cells: BTreeSet<(u16, u16)>,
    end: Option<Date>,
}

impl Group<'_> {
    fn cells(&self) -> BTreeSet<(u16, u16)> {
        self.blocks.iter().flat_map(|b| b.cells()).collect()
    }
    /// Its cells in words.
    pub(super) fn words(&self) -> String {
        named(&self.cells())
    }
}

impl Run<'_> {
    /// All its cells.
    pub(super) const fn cells(&self) -> &BTreeSet<(u16, u16)> {
        &self.cells
    }
    /// All its cells in words.
    pub(super) fn words(&self) -> String {
        named(&self.cells)
    }
}

/// A set of cells as one rectangle where it is one, else as the rectangles of its rows.
pub(super) fn named(set: &BTreeSet<(u16, u16)>) -> String {
    let rows = || set.iter().map(|c| c.0);
    let cols = || set.iter().map(|c| c.1);
    let (Some(top), Some(low), Some(left), Some(right)) =
        (rows().min(), rows().max(), cols().min(), cols().max())
    else {
        return String::new();
    };
    let whole = Block { row: top, col: left, rows: low - top + 1, cols: right - left + 1 };
    if whole.area() == set.len() {
        return cells(whole);
    }
    let mut parts: Vec<Block> = Vec::new();
    for &(row, col) in set {
        match parts.last_mut() {
            Some(b) if b.row == row && b.col + b.cols == col => b.cols += 1,
            _ => parts.push(Block::cell(row, col)),
        }
    }
    parts.into_iter().map(cells).collect::<Vec<_>>().join(", ")
}

/// The lanes of one bed. `plantings` come in the order of their beginning.
pub(super) fn lanes<'a>(plantings: &[&'a Planting]) -> Vec<Run<'a>> {
    let mut runs: Vec<Run<'a>> = Vec::new();
    for group in groups(plantings) {
        let set = group.cells();
        let begin = group.first.begins();
        let shared = |run: &Run<'_>| run.cells.intersection(&set).count();
        let free = |run: &Run<'_>| run.end.is_some_and(|e| begin.is_some_and(|b| e <= b));
        let at = runs
            .iter()
            .enumerate()
            .filter(|(_, run)| free(run) && shared(run) > 0)
            .max_by_key(|(n, run)| (run.cells == set, shared(run), std::cmp::Reverse(*n)))
            .map(|(n, _)| n);
        let until = end(group.first);
        if let Some(run) = at.and_then(|n| runs.get_mut(n)) {
            run.cells.extend(set);
            run.end = until;
            run.groups.push(group);
        } else {
            runs.push(Run { cells: set, end: until, groups: vec![group] });
        }
    }
    runs
}

/// Like plantings that begin and end together are one group.
fn groups<'a>(plantings: &[&'a Planting]) -> Vec<Group<'a>> {
    let mut out: Vec<Group<'a>> = Vec::new();
    for &p in plantings {
        let like = |g: &&mut Group<'_>| {
            let q = g.first;
            q.crop == p.crop
                && q.start == p.start
                && q.why == p.why
                && q.layer == p.layer
                && q.dates() == p.dates()
                && q.failed == p.failed
        };
        if let Some(group) = out.iter_mut().find(like) {
            group.plants += usize::from(p.plants);
            group.blocks.push(p.block);
        } else {
            out.push(Group { first: p, plants: usize::from(p.plants), blocks: vec![p.block] });
        }
    }
    out
}
