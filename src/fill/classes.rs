//! Beds that differ in their past at most, taken together: the size of the bound's programme no longer grows with the
//! number of beds, and the bound hardly loosens.

use super::cells::Cells;
use super::harvest::Tally;
use super::model::{Model, Role};
use super::problem::{Layer, Weeks};
use super::scales::Scales;
use crate::units::num::{index, signed};
use std::collections::BTreeMap;

/// What a column of the programme may be at most, and at the least cost.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Room {
    /// Plantings that find room side by side.
    pub(crate) most: i64,
    /// Least cost of a site.
    pub(crate) cost: i64,
}

/// The classes of beds and what they hold.
#[derive(Debug)]
pub(crate) struct Classes {
    /// Beds of each class.
    pub(crate) beds: Vec<Vec<usize>>,
    /// Cells of a class that some planting may take and no settled one does, by class and week: main layer.
    pub(crate) main: Vec<Vec<i64>>,
    /// The same for mates.
    pub(crate) mate: Vec<Vec<i64>>,
    /// Cells open to a group, less settled stays and the time they must be followed by, by class, group and week.
    pub(crate) group: Vec<Vec<Vec<i64>>>,
    /// Cells open to a group, less the uses settled plantings make of them, by class and group.
    pub(crate) turns: Vec<Vec<i64>>,
    /// Shares of beds that blocks have, by class.
    pub(crate) scales: Vec<Scales>,
    /// Room by form and class, each for start weeks below the first figure.
    rooms: Vec<Vec<Vec<(usize, Room)>>>,
}

impl Classes {
    pub(crate) fn new(model: &Model<'_>) -> Self {
        let problem = model.problem;
        let mut of = BTreeMap::new();
        let mut beds: Vec<Vec<usize>> = Vec::new();
        for (bed, b) in problem.beds.iter().enumerate() {
            let class = *of.entry(b.like).or_insert(beds.len());
            if class == beds.len() {
                beds.push(Vec::new());
            }
            beds[class].push(bed);
        }
        let groups = problem.groups.len();
        let mut classes = Self {
            main: vec![vec![0; problem.weeks]; beds.len()],
            mate: vec![vec![0; problem.weeks]; beds.len()],
            group: vec![vec![vec![0; problem.weeks]; groups]; beds.len()],
            turns: vec![vec![0; groups]; beds.len()],
            scales: beds.iter().map(|list| Scales::new(model, list)).collect(),
            rooms: Vec::new(),
            beds,
        };
        let lists = classes.beds.clone();
        for (class, list) in lists.iter().enumerate() {
            for &bed in list {
                classes.count_bed(model, class, bed);
            }
        }
        for (form, f) in model.forms.iter().enumerate() {
            let wished = f.role == Role::Wished;
            let measured = |list: &Vec<usize>| if wished { rooms(model, form, list) } else { Vec::new() };
            classes.rooms.push(lists.iter().map(measured).collect());
        }
        classes
    }

    fn count_bed(&mut self, model: &Model<'_>, class: usize, bed: usize) {
        let problem = model.problem;
        let mut open = vec![Cells::NONE; problem.groups.len()];
        let mut any = [Cells::NONE; 2];
        for (f, form) in model.forms.iter().enumerate() {
            let way = &problem.ways[form.way];
            if way.wish.is_none() || form.beds.binary_search(&bed).is_err() {
                continue;
            }
            let cells = reach(model, f, bed, None);
            let layer = usize::from(way.layer == Layer::Mate);
            any[layer] = any[layer].union(&cells);
            for &g in &way.groups {
                open[g] = open[g].union(&cells);
            }
        }
        let settled = || problem.fixed.iter().filter(|f| f.bed == bed);
        // A settled planting takes its cells; under one that some way may share all along, mates stay possible.
        let shared = |way: Option<usize>| problem.pairs.iter().any(|&(main, _)| Some(main) == way);
        for week in 0..problem.weeks {
            let at = |weeks: Weeks| weeks >> week & 1 == 1;
            let (mut main, mut mate) = (Cells::NONE, Cells::NONE);
            for fixed in settled().filter(|f| at(f.taken)) {
                match fixed.layer {
                    Layer::Main => {
                        main = main.union(&fixed.cells);
                        if !at(fixed.open) && !shared(fixed.way) {
                            mate = mate.union(&fixed.cells);
                        }
                    }
                    Layer::Mate => mate = mate.union(&fixed.cells),
                }
            }
            self.main[class][week] += free(&any[0], &main);
            // Main plantings count in the mates' rows too, while they are shut.
            self.mate[class][week] += free(&any[0].union(&any[1]), &mate);
        }
        for (g, group) in problem.groups.iter().enumerate() {
            let mut uses = 0;
            for fixed in settled().filter(|f| f.groups.contains(&g)) {
                uses += signed(fixed.cells.iter().filter(|&c| open[g].contains(c)).count());
            }
            self.turns[class][g] += signed(open[g].len()) - uses;
            for week in 0..problem.weeks {
                let mut cells = Cells::NONE;
                for fixed in settled().filter(|f| f.groups.contains(&g) && f.layer == Layer::Main) {
                    let end = 128 - index(fixed.taken.leading_zeros());
                    let start = index(fixed.taken.trailing_zeros());
                    if (start..end + group.apart).contains(&week) {
                        cells = cells.union(&fixed.cells);
                    }
                }
                self.group[class][g][week] += free(&open[g], &cells);
            }
        }
    }

    /// The room for an act of a form in a class.
    pub(crate) fn room(&self, form: usize, week: usize, class: usize) -> Room {
        let rooms = &self.rooms[form][class];
        rooms.iter().find(|(to, _)| week < *to).map_or_else(Room::default, |&(_, room)| room)
    }
}

/// The room for a form in the beds of a class, from cut to cut of its places.
fn rooms(model: &Model<'_>, form: usize, beds: &[usize]) -> Vec<(usize, Room)> {
    let mut cuts: Vec<usize> = beds.iter().flat_map(|&bed| model.cuts(form, bed)).collect();
    cuts.sort_unstable();
    cuts.dedup();
    let mut out = Vec::new();
    let mut week = 0;
    for to in cuts {
        let mut room = Room { cost: i64::MAX, ..Room::default() };
        for &bed in beds {
            room.most += signed(reach(model, form, bed, Some(week)).len()) / model.forms[form].area;
            for site in model.sites(form, bed, week) {
                room.cost = room.cost.min(site.cost);
            }
        }
        out.push((to, room));
        week = to;
    }
    out
}

/// The cells some site of a form reaches in a bed (for one start week, or for any).
fn reach(model: &Model<'_>, form: usize, bed: usize, week: Option<usize>) -> Cells {
    let mut cells = Cells::NONE;
    let mut add = |block: u32| cells = cells.union(&model.blocks[index(block)].cells);
    match week {
        Some(week) => model.sites(form, bed, week).iter().for_each(|site| add(site.block)),
        None => model.all_sites(form, bed).for_each(|site| add(site.block)),
    }
    cells
}

fn free(open: &Cells, taken: &Cells) -> i64 {
    signed(open.iter().filter(|&cell| !taken.contains(cell)).count())
}

/// What any plan is worth at most beside what is yet to be planted: the harvest and cost of what is settled, and the
/// plan in force kept whole.
pub(crate) fn settled_value(model: &Model<'_>, tallies: &[Tally]) -> i64 {
    let harvest: i64 = tallies.iter().map(Tally::settled_worth).sum();
    let cost: i64 = model.settled.iter().map(|settled| settled.site.cost).sum();
    harvest - cost + model.problem.keep_bonus * signed(model.problem.in_force(true).count())
}
