//! Rows and columns of the relaxation, laid out from the model.

use super::{Column, Linear, Point, Slack, Strip};
use crate::fill::beside::Beside;
use crate::fill::classes::Classes;
use crate::fill::harvest::{Tally, useful};
use crate::fill::model::{Act, Model, Role};
use crate::fill::problem::{Group, Layer, Reach};
use crate::fill::scales::PARTS;
use crate::units::num::{index, real_i, word};

/// Repeats of a family in a class that are paid for, at most.
const REPEATS: f64 = 1e4;

/// Where each kind of row begins.
#[derive(Debug, Clone)]
pub(super) struct Rows {
    pub(super) weeks: usize,
    pub(super) classes: usize,
    pub(super) groups: usize,
    /// Rows of kept-apart groups exist only for groups that are: their place among them, and how many there are.
    pub(super) apart: (Vec<Option<usize>>, usize),
    pub(super) mate: usize,
    /// First row of the scales of each class.
    pub(super) bed: Vec<usize>,
    pub(super) group: usize,
    pub(super) turn: usize,
    pub(super) supply: usize,
    pub(super) harvest: usize,
    /// Rows of the second limit on the value of a bucket, for those that have one.
    pub(super) lump: Vec<Option<usize>>,
    /// Row of what good neighbours may add.
    pub(super) good: Option<usize>,
    pub(super) all: usize,
}

impl Rows {
    pub(super) const fn main(&self, class: usize, week: usize) -> usize {
        class * self.weeks + week
    }
    pub(super) const fn mate(&self, class: usize, week: usize) -> usize {
        self.mate + class * self.weeks + week
    }
    pub(super) fn bed(&self, class: usize, scale: usize, week: usize) -> usize {
        self.bed[class] + scale * self.weeks + week
    }
    pub(super) fn group(&self, class: usize, group: usize, week: usize) -> Option<usize> {
        let place = (*self.apart.0.get(group)?)?;
        Some(self.group + (class * self.apart.1 + place) * self.weeks + week)
    }
    pub(super) const fn turn(&self, class: usize, group: usize) -> usize {
        self.turn + class * self.groups + group
    }
}

/// Units in which supplies, harvest and values are counted: the most that one planting takes or gives. The problem
/// counts in tenths of minutes and hundredths of grams, and rows of such different sizes would take the method for ever.
#[derive(Debug)]
pub(super) struct Units {
    pub(super) supply: Vec<f64>,
    pub(super) harvest: Vec<f64>,
    pub(super) lump: Vec<f64>,
    pub(super) good: f64,
}

impl Units {
    fn new(model: &Model<'_>, tallies: &[Tally]) -> Self {
        let mut supply = vec![1; model.supply.len()];
        let mut harvest = vec![1; model.buckets.len()];
        let mut lump = vec![1; model.buckets.len()];
        let raise = |most: &mut i64, amount: i64| *most = amount.max(*most);
        let wished = |act: &&Act| model.forms.get(index(act.form)).is_some_and(|f| f.role == Role::Wished);
        for act in model.acts.iter().filter(wished) {
            for &(slot, amount) in model.uses(act) {
                raise(&mut supply[index(slot)], amount);
            }
            for &(bucket, amount) in model.gives(act) {
                let bucket = index(bucket);
                raise(&mut harvest[bucket], tallies[bucket].counted(amount));
                raise(&mut lump[bucket], tallies[bucket].worth(amount));
            }
        }
        let real = |list: Vec<i64>| list.into_iter().map(real_i).collect();
        let good = real_i(model.problem.good_most.max(1));
        Self { supply: real(supply), harvest: real(harvest), lump: real(lump), good }
    }
}

impl Linear {
    pub(crate) fn new(model: &Model<'_>) -> Self {
        let problem = model.problem;
        let classes = Classes::new(model);
        let (weeks, groups, n) = (problem.weeks, problem.groups.len(), classes.beds.len());
        let mate = n * weeks;
        let mut group = mate + if model.has_mates { n * weeks } else { 0 };
        let mut bed = Vec::new();
        for scales in &classes.scales {
            bed.push(group);
            group += scales.list.len() * weeks;
        }
        let mut hard = 0;
        let place = |g: &Group| {
            (g.apart > 0).then(|| {
                hard += 1;
                hard - 1
            })
        };
        let apart: Vec<Option<usize>> = problem.groups.iter().map(place).collect();
        let turn = group + n * hard * weeks;
        let supply = turn + n * groups;
        let harvest = supply + model.supply.len();
        let tallies = Tally::all(model);
        let mut all = harvest + model.buckets.len();
        let mut next = || {
            all += 1;
            all - 1
        };
        let lump = tallies.iter().map(|tally| tally.lumpy.then(&mut next)).collect();
        let beside = Beside::new(model);
        let good = beside.any().then(&mut next);
        let apart = (apart, hard);
        let rows = Rows {
            weeks,
            classes: n,
            groups,
            apart,
            mate,
            bed,
            group,
            turn,
            supply,
            harvest,
            lump,
            good,
            all,
        };
        let mut out = Self {
            columns: Vec::new(),
            strips: Vec::new(),
            slacks: Vec::new(),
            there: vec![0.0; all],
            unit: Units::new(model, &tallies),
            pace: vec![0.0; all],
            point: Point { price: vec![0.0; all], ..Point::default() },
            best: (f64::INFINITY, vec![0.0; all]),
            balance: 1.0,
            done: 0,
            rows,
            classes,
        };
        out.fill_rows(model);
        for (f, form) in model.forms.iter().enumerate().filter(|(_, form)| form.role == Role::Wished) {
            for class in 0..n {
                for a in form.acts.clone() {
                    let act = &model.acts[a];
                    let room = out.classes.room(f, act.week, class);
                    let credit = beside.credit(model, act, &out.classes.beds[class]);
                    let most =
                        if credit > 0 { room.most } else { room.most.min(useful(model, act, &tallies)) };
                    if most > 0 {
                        let first = word(out.strips.len());
                        out.add_strips(model, act, f, class);
                        out.add_values(model, act, credit, &tallies);
                        out.columns.push(Column {
                            act: word(a),
                            class: word(class),
                            earns: -real_i(room.cost),
                            most: real_i(most),
                            pace: 0.0,
                            strips: (first, word(out.strips.len())),
                        });
                    }
                }
            }
        }
        out.add_slacks(model, &tallies, beside.settled(model));
        out.set_pace();
        out
    }

    fn fill_rows(&mut self, model: &Model<'_>) {
        let rows = self.rows.clone();
        for class in 0..rows.classes {
            for week in 0..rows.weeks {
                self.there[rows.main(class, week)] = real_i(self.classes.main[class][week]);
                if model.has_mates {
                    self.there[rows.mate(class, week)] = real_i(self.classes.mate[class][week]);
                }
                for (scale, there) in self.classes.scales[class].there.iter().enumerate() {
                    self.there[rows.bed(class, scale, week)] = real_i(there[week]) / real_i(PARTS);
                }
                for g in 0..rows.groups {
                    if let Some(row) = rows.group(class, g, week) {
                        self.there[row] = real_i(self.classes.group[class][g][week]);
                    }
                }
            }
            for (g, group) in model.problem.groups.iter().enumerate() {
                let row = rows.turn(class, g);
                self.there[row] = real_i(self.classes.turns[class][g]);
                if group.again > 0 && group.reach == Reach::Cell {
                    let rows = [(word(row), -1.0), (0, 0.0)];
                    let earns = -real_i(group.again);
                    self.slacks.push(Slack { rows, earns, most: REPEATS, pace: 0.0 });
                }
            }
        }
        for (k, &n) in model.supply.iter().enumerate() {
            self.there[rows.supply + k] = real_i(n) / self.unit.supply[k];
        }
    }

    fn add_strips(&mut self, model: &Model<'_>, act: &Act, form: usize, class: usize) {
        let (problem, rows) = (model.problem, &self.rows);
        let area = real_i(model.forms[form].area);
        let strips = &mut self.strips;
        let own = strips.len();
        let mut strip = |from: usize, to: usize, share: f64| {
            let begun = strips.len() > own;
            if let Some(last) = strips.last_mut()
                && begun
                && index(last.to) == from
                && last.share.to_bits() == share.to_bits()
                && from > rows.supply
            {
                last.to = word(to);
            } else {
                strips.push(Strip { from: word(from), to: word(to), share });
            }
        };
        if act.mate {
            strip(rows.mate(class, act.week), rows.mate(class, act.end - 1) + 1, area);
        } else {
            strip(rows.main(class, act.week), rows.main(class, act.end - 1) + 1, area);
            let shares_all_along = problem.pairs.iter().any(|&(main, _)| main == index(act.way));
            if model.has_mates && !shares_all_along {
                for week in (act.week..act.end).filter(|week| act.shut >> week & 1 == 1) {
                    strip(rows.mate(class, week), rows.mate(class, week) + 1, area);
                }
            }
        }
        if !act.mate {
            let sizes = &problem.ways[index(act.way)].shapes[model.forms[form].shape].sizes;
            let scales = &self.classes.scales[class];
            for scale in 0..scales.list.len() {
                let share = scales.share(scale, sizes);
                if share > 0 {
                    let row = rows.bed(class, scale, act.week);
                    strip(row, row + act.end - act.week, real_i(share) / real_i(PARTS));
                }
            }
        }
        for &g in model.groups(act) {
            let g = index(g);
            let group = &problem.groups[g];
            if let (Some(row), Layer::Main) =
                (rows.group(class, g, act.week), problem.ways[index(act.way)].layer)
            {
                let until = (act.end + group.apart).min(problem.weeks);
                strip(row, row + until - act.week, area);
            }
            if group.again > 0 && group.reach == Reach::Cell {
                strip(rows.turn(class, g), rows.turn(class, g) + 1, area);
            }
        }
        for &(slot, amount) in model.uses(act) {
            let row = rows.supply + index(slot);
            strip(row, row + 1, real_i(amount) / self.unit.supply[index(slot)]);
        }
    }

    /// What a planting gives, in the rows that limit the value of buckets and of good neighbours.
    fn add_values(&mut self, model: &Model<'_>, act: &Act, credit: i64, tallies: &[Tally]) {
        let (rows, unit, strips) = (&self.rows, &self.unit, &mut self.strips);
        let mut one = |row: usize, share: f64| {
            strips.push(Strip { from: word(row), to: word(row + 1), share: -share });
        };
        for &(bucket, amount) in model.gives(act) {
            let b = index(bucket);
            one(rows.harvest + b, real_i(tallies[b].counted(amount)) / unit.harvest[b]);
            if let Some(row) = rows.lump[b] {
                one(row, real_i(tallies[b].worth(amount)) / unit.lump[b]);
            }
        }
        if let (Some(row), 1..) = (rows.good, credit) {
            one(row, real_i(credit) / unit.good);
        }
    }

    fn add_slacks(&mut self, model: &Model<'_>, tallies: &[Tally], settled_good: i64) {
        for (b, tally) in tallies.iter().enumerate() {
            let step = real_i(tally.step) / self.unit.harvest[b];
            for &(most, earns) in &tally.pieces {
                let (earns, most) = (real_i(earns) / step, real_i(most) * step);
                let lump = self.rows.lump[b].map_or((0, 0.0), |row| (word(row), earns / self.unit.lump[b]));
                let rows = [(word(self.rows.harvest + b), 1.0), lump];
                self.slacks.push(Slack { rows, earns, most, pace: 0.0 });
            }
        }
        if let Some(row) = self.rows.good {
            let (earns, rows) = (self.unit.good, [(word(row), 1.0), (0, 0.0)]);
            let most = real_i(model.problem.good_most) / self.unit.good;
            self.slacks.push(Slack { rows, earns, most, pace: 0.0 });
            self.there[row] = real_i(settled_good) / self.unit.good;
        }
    }

    /// Steps from the sums of each row and column, so that no scale of a row matters.
    fn set_pace(&mut self) {
        let mut sums = vec![0.0; self.rows.all + 1];
        let mut delta = vec![0.0; self.rows.all + 1];
        for column in &mut self.columns {
            let mut own = 0.0;
            for s in &self.strips[index(column.strips.0)..index(column.strips.1)] {
                own += s.share.abs() * f64::from(s.to - s.from);
                delta[index(s.from)] += s.share.abs();
                delta[index(s.to)] -= s.share.abs();
            }
            column.pace = 1.0 / own;
        }
        let mut sum = 0.0;
        for (total, d) in sums.iter_mut().zip(&delta) {
            sum += d;
            *total = sum;
        }
        for slack in &mut self.slacks {
            let mut own = 0.0;
            for (row, share) in slack.rows {
                own += share.abs();
                sums[index(row)] += share.abs();
            }
            slack.pace = 1.0 / own;
        }
        for (pace, sum) in self.pace.iter_mut().zip(&sums) {
            *pace = if *sum > 1e-9 { 1.0 / sum } else { 0.0 };
        }
        self.point.amount = vec![0.0; self.columns.len()];
        self.point.slack = vec![0.0; self.slacks.len()];
        // How large the prices are against the plantings, guessed from what is earned and what there is.
        let columns: f64 = self.columns.iter().map(|c| c.earns * c.earns * c.pace).sum();
        let slacks: f64 = self.slacks.iter().map(|s| s.earns * s.earns * s.pace).sum();
        let rows: f64 = self.there.iter().zip(&self.pace).map(|(n, pace)| n * n * pace).sum();
        self.balance = if rows > 0.0 && slacks > 0.0 { ((columns + slacks) / rows).sqrt() } else { 1.0 };
    }
}
