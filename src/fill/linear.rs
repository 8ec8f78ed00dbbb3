//! The linear relaxation over classes of beds, solved by a first-order method.
//!
//! Variables: how many plantings of each act stand in each class of beds (columns), how many steps of harvest are taken
//! at each value (pieces), and how many repeats of a family a class pays for. Rows: see [`Prices`]. Each column's
//! coefficients are constant over stretches of neighbouring rows (weeks, buckets), so both products with the matrix
//! are done with prefix sums and difference arrays, in time proportional to the stretches.
//!
//! The method is the primal-dual hybrid gradient of Chambolle and Pock (2011) with diagonal steps from row and column
//! sums (Pock and Chambolle 2011), in reflected Halpern form with restarts (Lu and Yang 2024), and with the balance
//! of primal and dual steps set from the distances travelled between restarts (Applegate and others 2021). It needs
//! + - x / and square roots only, which every machine rounds alike.

use super::classes::{Classes, settled_harvest, step_of, steps, useful};
use super::model::{Act, Model, Role};
use super::problem::{Layer, Reach};
use super::prove::{FINE, Prices};
use super::scales::PARTS;
use crate::units::num::{index, real, real_i, round_i, word};

/// Restart when the step has shrunk to this share of the first one since the last restart,
const FELL_FAR: f64 = 0.2;
/// or to this share and grows again,
const FELL: f64 = 0.8;
/// or after this share of all rounds. (Shares of Lu and Yang.)
const LONG: f64 = 0.36;

/// Rows `from..to` with one coefficient.
#[derive(Debug, Clone, Copy)]
struct Strip {
    from: u32,
    to: u32,
    share: f64,
}

/// How many plantings of an act stand in a class.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Column {
    pub(crate) act: u32,
    pub(crate) class: u32,
    earns: f64,
    most: f64,
    pace: f64,
    strips: (u32, u32),
}

/// A variable in one row only: steps of harvest, or repeats that are paid for.
#[derive(Debug, Clone, Copy)]
struct Slack {
    row: u32,
    /// Coefficient in the row.
    sign: f64,
    earns: f64,
    most: f64,
}

/// Where each kind of row begins.
#[derive(Debug, Clone)]
struct Rows {
    weeks: usize,
    classes: usize,
    groups: usize,
    /// Rows of kept-apart groups exist only for groups that are: their place among them, and how many there are.
    apart: (Vec<Option<usize>>, usize),
    mate: usize,
    /// First row of the scales of each class.
    bed: Vec<usize>,
    group: usize,
    turn: usize,
    supply: usize,
    harvest: usize,
    all: usize,
}

impl Rows {
    const fn main(&self, class: usize, week: usize) -> usize {
        class * self.weeks + week
    }
    const fn mate(&self, class: usize, week: usize) -> usize {
        self.mate + class * self.weeks + week
    }
    fn bed(&self, class: usize, scale: usize, week: usize) -> usize {
        self.bed[class] + scale * self.weeks + week
    }
    fn group(&self, class: usize, group: usize, week: usize) -> Option<usize> {
        let place = (*self.apart.0.get(group)?)?;
        Some(self.group + (class * self.apart.1 + place) * self.weeks + week)
    }
    const fn turn(&self, class: usize, group: usize) -> usize {
        self.turn + class * self.groups + group
    }
}

/// The relaxation with its present solution.
#[derive(Debug)]
pub(crate) struct Linear {
    columns: Vec<Column>,
    pub(crate) classes: Classes,
    strips: Vec<Strip>,
    slacks: Vec<Slack>,
    rows: Rows,
    there: Vec<f64>,
    /// What one of a row is counted as, for supplies and harvest; the rows of cells are counted in cells.
    unit: Units,
    pace: Vec<f64>,
    point: Point,
    /// Best bound so far, but for the constant of what is settled, and its prices.
    best: (f64, Vec<f64>),
    /// Size of dual steps against primal ones.
    balance: f64,
    /// Rounds done.
    done: usize,
}

/// Units in which supplies and harvest are counted: the most that one planting takes or gives. The problem counts in
/// tenths of minutes and hundredths of grams, and rows of such different sizes would take the method for ever.
#[derive(Debug)]
struct Units {
    supply: Vec<f64>,
    harvest: Vec<f64>,
}

impl Units {
    fn new(model: &Model<'_>) -> Self {
        let mut units =
            Self { supply: vec![1.0; model.supply.len()], harvest: vec![1.0; model.buckets.len()] };
        let wished = |act: &&Act| model.forms.get(index(act.form)).is_some_and(|f| f.role == Role::Wished);
        for act in model.acts.iter().filter(wished) {
            for &(slot, amount) in model.uses(act) {
                units.supply[index(slot)] = units.supply[index(slot)].max(real_i(amount));
            }
            for &(bucket, amount) in model.gives(act) {
                units.harvest[index(bucket)] = units.harvest[index(bucket)].max(real_i(amount));
            }
        }
        units
    }
}

/// A primal and a dual solution.
#[derive(Debug, Clone, Default)]
struct Point {
    amount: Vec<f64>,
    slack: Vec<f64>,
    price: Vec<f64>,
}

impl Point {
    /// Halpern's iteration: over the step to its reflection, then back by a shrinking part to where it began.
    fn halpern(&mut self, step: &Self, from: &Self, part: f64) {
        let lists = [
            (&mut self.amount, &step.amount, &from.amount),
            (&mut self.slack, &step.slack, &from.slack),
            (&mut self.price, &step.price, &from.price),
        ];
        for (now, step, from) in lists {
            for ((now, step), from) in now.iter_mut().zip(step).zip(from) {
                *now = part * (2.0 * step - *now) + (1.0 - part) * from;
            }
        }
    }
}

/// Room for the products.
#[derive(Debug, Default)]
struct Work {
    sums: Vec<f64>,
    taken: Vec<f64>,
    ahead: Vec<f64>,
    ahead_slack: Vec<f64>,
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
        let place = |g: &super::problem::Group| {
            (g.apart > 0).then(|| {
                hard += 1;
                hard - 1
            })
        };
        let apart: Vec<Option<usize>> = problem.groups.iter().map(place).collect();
        let turn = group + n * hard * weeks;
        let supply = turn + n * groups;
        let harvest = supply + model.supply.len();
        let all = harvest + model.buckets.len();
        let apart = (apart, hard);
        let rows = Rows { weeks, classes: n, groups, apart, mate, bed, group, turn, supply, harvest, all };
        let mut out = Self {
            columns: Vec::new(),
            strips: Vec::new(),
            slacks: Vec::new(),
            there: vec![0.0; all],
            unit: Units::new(model),
            pace: vec![0.0; all],
            point: Point { price: vec![0.0; all], ..Point::default() },
            best: (f64::INFINITY, vec![0.0; all]),
            balance: 1.0,
            done: 0,
            rows,
            classes,
        };
        out.fill_rows(model);
        let steps_of = step_of(model);
        let settled = settled_harvest(model);
        for (f, form) in model.forms.iter().enumerate().filter(|(_, form)| form.role == Role::Wished) {
            for class in 0..n {
                for a in form.acts.clone() {
                    let act = &model.acts[a];
                    let room = out.classes.room(f, act.week, class);
                    let most = room.most.min(useful(model, act, &settled));
                    if most > 0 {
                        let first = word(out.strips.len());
                        out.add_strips(model, act, f, class);
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
        for (b, bucket) in model.buckets.iter().enumerate() {
            for (most, earns) in steps(bucket, settled[b], steps_of[b]) {
                let step = real_i(steps_of[b]) / out.unit.harvest[b];
                let (row, earns, most) = (word(harvest + b), real_i(earns) / step, real_i(most) * step);
                out.slacks.push(Slack { row, sign: 1.0, earns, most });
            }
        }
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
                    let most = 1e4;
                    self.slacks.push(Slack { row: word(row), sign: -1.0, earns: -real_i(group.again), most });
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
        for &(bucket, amount) in model.gives(act) {
            let row = rows.harvest + index(bucket);
            strip(row, row + 1, -real_i(amount) / self.unit.harvest[index(bucket)]);
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
        for slack in &self.slacks {
            sums[index(slack.row)] += 1.0;
        }
        for (pace, sum) in self.pace.iter_mut().zip(&sums) {
            *pace = if *sum > 1e-9 { 1.0 / sum } else { 0.0 };
        }
        self.point.amount = vec![0.0; self.columns.len()];
        self.point.slack = vec![0.0; self.slacks.len()];
        // How large the prices are against the plantings, guessed from what is earned and what there is.
        let columns: f64 = self.columns.iter().map(|c| c.earns * c.earns * c.pace).sum();
        let slacks: f64 = self.slacks.iter().map(|s| s.earns * s.earns).sum();
        let rows: f64 = self.there.iter().zip(&self.pace).map(|(n, pace)| n * n * pace).sum();
        self.balance = if rows > 0.0 && slacks > 0.0 { ((columns + slacks) / rows).sqrt() } else { 1.0 };
    }

    /// Prefix sums of the prices.
    fn sums(price: &[f64], out: &mut Vec<f64>) {
        out.clear();
        out.push(0.0);
        let mut sum = 0.0;
        for p in price {
            sum += p;
            out.push(sum);
        }
    }

    /// What a column earns above the prices of what it takes.
    fn surplus(&self, column: &Column, sums: &[f64]) -> f64 {
        let mut surplus = column.earns;
        for s in &self.strips[index(column.strips.0)..index(column.strips.1)] {
            surplus -= s.share * (sums[index(s.to)] - sums[index(s.from)]);
        }
        surplus
    }

    /// The bound the prices prove, but for the constant of what is settled.
    fn dual(&self, price: &[f64], sums: &mut Vec<f64>) -> f64 {
        Self::sums(price, sums);
        let mut bound: f64 = price.iter().zip(&self.there).map(|(p, n)| p * n).sum();
        for column in &self.columns {
            bound += self.surplus(column, sums).max(0.0) * column.most;
        }
        for slack in &self.slacks {
            bound += (slack.earns - slack.sign * price[index(slack.row)]).max(0.0) * slack.most;
        }
        bound
    }

    /// What the columns and slacks ahead take of each row.
    fn taken(&self, work: &mut Work) {
        let out = &mut work.taken;
        out.clear();
        out.resize(self.rows.all + 1, 0.0);
        for (column, &n) in self.columns.iter().zip(&work.ahead) {
            if n.abs() > 0.0 {
                for s in &self.strips[index(column.strips.0)..index(column.strips.1)] {
                    out[index(s.from)] += s.share * n;
                    out[index(s.to)] -= s.share * n;
                }
            }
        }
        let mut sum = 0.0;
        for row in out.iter_mut() {
            sum += *row;
            *row = sum;
        }
        for (s, &n) in self.slacks.iter().zip(&work.ahead_slack) {
            out[index(s.row)] += s.sign * n;
        }
    }

    /// Runs the method for a number of rounds; `go` is asked at each restart and ends it with `false`.
    pub(crate) fn solve(&mut self, rounds: usize, go: &mut dyn FnMut() -> bool) {
        let mut now = self.point.clone();
        let mut step = now.clone();
        let mut from = now.clone();
        let mut work = Work::default();
        // Rounds since the restart; the gap then, and in the last round.
        let (mut count, mut first_gap, mut last_gap) = (0.0, 0.0, f64::INFINITY);
        for round in 0..rounds {
            let gap = self.step(&now, &mut step, &mut work);
            if count < 0.5 {
                first_gap = gap;
            }
            let fell = gap <= FELL_FAR * first_gap && count > 0.5;
            let rises = gap <= FELL * first_gap && gap > last_gap;
            let long = count >= LONG * real(self.done + round) && count > 60.0;
            last_gap = gap;
            count += 1.0;
            if fell || rises || long || round + 1 == rounds {
                let bound = self.dual(&step.price, &mut work.sums);
                if bound < self.best.0 {
                    self.best = (bound, step.price.clone());
                }
                let (moved, moved_price) = self.distance(&step, &from);
                if moved > 1e-9 && moved_price > 1e-9 {
                    self.balance = (moved_price / moved * self.balance).sqrt();
                }
                now.clone_from(&step);
                from.clone_from(&step);
                (count, last_gap) = (0.0, f64::INFINITY);
                if !go() {
                    break;
                }
            } else {
                now.halpern(&step, &from, count / (count + 1.0));
            }
        }
        self.done += rounds;
        self.point = step;
    }

    /// One step of the hybrid gradient from `now` to `step`; returns how far it went, which is zero at a solution.
    fn step(&self, now: &Point, step: &mut Point, work: &mut Work) -> f64 {
        let balance = self.balance;
        Self::sums(&now.price, &mut work.sums);
        work.ahead.clear();
        work.ahead_slack.clear();
        let (mut moved, mut moved_price) = (0.0, 0.0);
        for (k, column) in self.columns.iter().enumerate() {
            let x = now.amount[k];
            let next =
                (x + column.pace / balance * self.surplus(column, &work.sums)).max(0.0).min(column.most);
            work.ahead.push(2.0 * next - x);
            step.amount[k] = next;
            moved += (next - x) * (next - x) / column.pace;
        }
        for (k, s) in self.slacks.iter().enumerate() {
            let x = now.slack[k];
            let surplus = s.earns - s.sign * now.price[index(s.row)];
            let next = (x + surplus / balance).max(0.0).min(s.most);
            work.ahead_slack.push(2.0 * next - x);
            step.slack[k] = next;
            moved += (next - x) * (next - x);
        }
        self.taken(work);
        for (k, &pace) in self.pace.iter().enumerate() {
            if pace > 0.0 {
                let y = now.price[k];
                let next = (y + balance * pace * (work.taken[k] - self.there[k])).max(0.0);
                step.price[k] = next;
                moved_price += (next - y) * (next - y) / pace;
            }
        }
        (moved * balance + moved_price / balance).sqrt()
    }

    /// How far apart two points are, in the measures of the steps: plantings and slacks, prices.
    fn distance(&self, a: &Point, b: &Point) -> (f64, f64) {
        let square = |(x, y): (&f64, &f64)| (x - y) * (x - y);
        let columns = a.amount.iter().zip(&b.amount).map(square).zip(&self.columns);
        let amount: f64 = columns.map(|(d, column)| d / column.pace).sum();
        let slack: f64 = a.slack.iter().zip(&b.slack).map(square).sum();
        let rows = a.price.iter().zip(&b.price).map(square).zip(&self.pace).filter(|&(_, &pace)| pace > 0.0);
        let price: f64 = rows.map(|(d, pace)| d / pace).sum();
        ((amount + slack).sqrt(), price.sqrt())
    }

    /// Plantings of each column.
    pub(crate) fn amounts(&self) -> impl Iterator<Item = (&Column, f64)> {
        self.columns.iter().zip(self.point.amount.iter().copied())
    }
    /// What the best prices charge for what each act takes, by act and class of beds (act x classes + class).
    pub(crate) fn tolls(&self, acts: usize) -> Vec<i64> {
        let mut sums = Vec::new();
        Self::sums(&self.best.1, &mut sums);
        let mut out = vec![0; acts * self.rows.classes];
        for column in &self.columns {
            let strips = &self.strips[index(column.strips.0)..index(column.strips.1)];
            let ground = strips.iter().filter(|s| index(s.from) < self.rows.harvest);
            let toll: f64 = ground.map(|s| s.share * (sums[index(s.to)] - sums[index(s.from)])).sum();
            out[index(column.act) * self.rows.classes + index(column.class)] = round_i(toll);
        }
        out
    }

    /// The best prices found, in whole value units.
    pub(crate) fn prices(&self) -> Prices {
        let rows = &self.rows;
        let whole = |from: usize, n: usize| -> Vec<i64> {
            self.best.1[from..from + n].iter().map(|&p| round_i(p).max(0)).collect()
        };
        let fine = |from: usize, units: &[f64], parts: f64| -> Vec<i64> {
            let prices = self.best.1[from..].iter().zip(units);
            prices.map(|(&p, &unit)| round_i(p / unit * parts).max(0)).collect()
        };
        let weeks = |class: usize, first: usize| whole(first + class * rows.weeks, rows.weeks);
        let kept = |row: Option<usize>| row.map_or_else(|| vec![0; rows.weeks], |row| whole(row, rows.weeks));
        let has_mates = rows.bed.first().is_some_and(|&first| first > rows.mate);
        let scales = |c: usize| self.classes.scales[c].list.len();
        Prices {
            main: (0..rows.classes).map(|c| weeks(c, 0)).collect(),
            mate: (0..rows.classes)
                .map(|c| if has_mates { weeks(c, rows.mate) } else { vec![0; rows.weeks] })
                .collect(),
            bed: (0..rows.classes)
                .map(|c| (0..scales(c)).map(|s| whole(rows.bed(c, s, 0), rows.weeks)).collect())
                .collect(),
            group: (0..rows.classes)
                .map(|c| (0..rows.groups).map(|g| kept(rows.group(c, g, 0))).collect())
                .collect(),
            turn: (0..rows.classes).map(|c| whole(rows.turn(c, 0), rows.groups)).collect(),
            supply: fine(rows.supply, &self.unit.supply, 1.0)
                .chunks(rows.weeks)
                .map(<[i64]>::to_vec)
                .collect(),
            harvest: fine(rows.harvest, &self.unit.harvest, real_i(FINE)),
        }
    }
}
