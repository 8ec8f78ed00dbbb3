//! The cells of one bed sorted into lanes: cells that carry the same plantings all season share a line.

use std::collections::{BTreeMap, BTreeSet};

use super::cells;
use crate::garden::Block;
use crate::plan::Planting;

/// A set of cells.
pub(super) type Cells = BTreeSet<(u16, u16)>;

/// Like plantings in a lane: one crop begun and ended on the same days.
#[derive(Debug)]
pub(super) struct Group<'a> {
    /// One of them.
    pub(super) first: &'a Planting,
    /// Those that are shown here: their north-west cell lies in this lane. None: all are shown in another lane.
    pub(super) own: Vec<&'a Planting>,
}

/// Cells that carry the same one after another.
#[derive(Debug)]
pub(super) struct Run<'a> {
    pub(super) cells: Cells,
    pub(super) groups: Vec<Group<'a>>,
}

impl Group<'_> {
    /// Plants shown here.
    pub(super) fn plants(&self) -> usize {
        self.own.iter().map(|p| usize::from(p.plants)).sum()
    }
    /// All the cells of what is shown here.
    pub(super) fn cells(&self) -> Cells {
        self.own.iter().flat_map(|p| p.block.cells()).collect()
    }
}

/// A set of cells as one rectangle where it is one, else as the rectangles of its rows.
pub(super) fn named(set: &Cells) -> String {
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

/// The lanes of one bed, the north-west cell first. `plantings` come in the order of their beginning.
pub(super) fn lanes<'a>(plantings: &[&'a Planting]) -> Vec<Run<'a>> {
    let kinds = kinds(plantings);
    let mut by_cell: BTreeMap<(u16, u16), Vec<usize>> = BTreeMap::new();
    for (p, kind) in plantings.iter().zip(&kinds) {
        for cell in p.block.cells() {
            by_cell.entry(cell).or_default().push(*kind);
        }
    }
    let mut by_kinds: BTreeMap<Vec<usize>, Cells> = BTreeMap::new();
    for (cell, kinds) in by_cell {
        by_kinds.entry(kinds).or_default().insert(cell);
    }
    let mut runs: Vec<Run<'a>> = by_kinds
        .into_iter()
        .map(|(mut order, set)| {
            order.dedup();
            let groups = order.into_iter().filter_map(|kind| group(plantings, &kinds, kind, &set)).collect();
            Run { cells: set, groups }
        })
        .collect();
    runs.sort_by(|a, b| a.cells.cmp(&b.cells));
    runs
}

fn group<'a>(plantings: &[&'a Planting], kinds: &[usize], kind: usize, set: &Cells) -> Option<Group<'a>> {
    let like = || plantings.iter().zip(kinds).filter(move |(_, k)| **k == kind).map(|(p, _)| *p);
    let own = like().filter(|p| set.contains(&(p.block.row, p.block.col))).collect();
    Some(Group { first: like().next()?, own })
}

/// A number for each planting; like ones share it.
fn kinds(plantings: &[&Planting]) -> Vec<usize> {
    let mut out: Vec<usize> = Vec::with_capacity(plantings.len());
    for (n, p) in plantings.iter().enumerate() {
        let like = |q: &&Planting| {
            q.crop == p.crop
                && q.start == p.start
                && q.why == p.why
                && q.dates() == p.dates()
                && q.failed == p.failed
        };
        let known = plantings.iter().take(n).position(like);
        out.push(known.and_then(|at| out.get(at).copied()).unwrap_or(n));
    }
    out
}
