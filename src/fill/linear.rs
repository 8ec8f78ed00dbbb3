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

mod layout;

use super::classes::Classes;
use super::prove::{FINE, Prices};
use crate::units::num::{index, real, real_i, round_i};
use layout::{Rows, Units};
use std::collections::BTreeMap;

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

/// A variable in one or two rows: steps of harvest, repeats that are paid for, what good neighbours add.
#[derive(Debug, Clone, Copy)]
struct Slack {
    /// (row, coefficient); a second one of coefficient 0 is none.
    rows: [(u32, f64); 2],
    earns: f64,
    most: f64,
    pace: f64,
}

/// A class of beds in a layer: what is earned there at most, and (first week, week after the last, price) to pay.
type Lane = (f64, Vec<(usize, usize, f64)>);

impl Slack {
    fn surplus(&self, price: &[f64]) -> f64 {
        self.rows.iter().fold(self.earns, |sum, &(row, share)| sum - share * price[index(row)])
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
            bound += slack.surplus(price).max(0.0) * slack.most;
        }
        bound
    }

    /// The prices, raised for the cells of each class and layer where that costs less than what columns earn above
    /// them: just so far that no column earns more than it pays. Far from a solution that tightens the bound much.
    ///
    /// The least prices that pay for a set of intervals of weeks are the steps of the dearest chain of intervals that
    /// do not overlap, from each week on.
    fn raised(&self, price: &[f64], sums: &mut Vec<f64>) -> Vec<f64> {
        Self::sums(price, sums);
        let weeks = self.rows.weeks;
        let mut lanes: BTreeMap<usize, Lane> = BTreeMap::new();
        for column in &self.columns {
            let surplus = self.surplus(column, sums);
            if surplus > 0.0 {
                let cells = self.strips[index(column.strips.0)];
                let (from, to) = (index(cells.from), index(cells.to));
                let lane = from / weeks;
                let (earned, pays) = lanes.entry(lane).or_default();
                *earned += surplus * column.most;
                pays.push((from - lane * weeks, to - lane * weeks, surplus / cells.share));
            }
        }
        let mut out = price.to_vec();
        for (lane, (earned, mut pays)) in lanes {
            pays.sort_by_key(|pay| std::cmp::Reverse(pay.0));
            let mut dearest = vec![0.0_f64; weeks + 1];
            let mut rest = pays.into_iter().peekable();
            for week in (0..weeks).rev() {
                dearest[week] = dearest[week + 1];
                while let Some((_, to, pay)) = rest.next_if(|pay| pay.0 == week) {
                    dearest[week] = dearest[week].max(pay + dearest[to]);
                }
            }
            let step = |week: usize| dearest[week] - dearest[week + 1];
            let first = lane * weeks;
            let cost: f64 = (0..weeks).map(|week| step(week) * self.there[first + week].max(0.0)).sum();
            if cost < earned {
                for week in 0..weeks {
                    out[first + week] += step(week);
                }
            }
        }
        out
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
            for (row, share) in s.rows {
                out[index(row)] += share * n;
            }
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
                for price in [step.price.clone(), self.raised(&step.price, &mut work.sums)] {
                    let bound = self.dual(&price, &mut work.sums);
                    if bound < self.best.0 {
                        self.best = (bound, price);
                    }
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
            let next = (x + s.pace / balance * s.surplus(&now.price)).max(0.0).min(s.most);
            work.ahead_slack.push(2.0 * next - x);
            step.slack[k] = next;
            moved += (next - x) * (next - x) / s.pace;
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
        let slacks = a.slack.iter().zip(&b.slack).map(square).zip(&self.slacks);
        let slack: f64 = slacks.map(|(d, slack)| d / slack.pace).sum();
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
        let whole_fine = |row: Option<usize>, unit: f64| {
            row.map_or(0, |row| round_i(self.best.1[row] / unit * real_i(FINE)).max(0))
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
            lump: rows.lump.iter().zip(&self.unit.lump).map(|(&row, &unit)| whole_fine(row, unit)).collect(),
            good: whole_fine(rows.good, self.unit.good),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fill::prove::prove;
    use crate::fill::{Bed, Bucket, Cells, Place, Problem, Shape, Start, Supply, Use, Way, Wish, weeks};

    /// Three crops in a bed of 3 x 4 cells through 30 weeks, one of them large, with work to share. Amounts are counted
    /// in `grain`-ths of a piece and work in `tick`-ths of a minute.
    fn garden(grain: i64, tick: i64) -> Problem {
        let crop = |k: usize, size: (usize, usize), long: usize, gives: i64, minutes: i64| Way {
            name: format!("crop {k}"),
            wish: Some(k),
            shapes: vec![Shape { sizes: vec![size], plants: 1 }],
            starts: (0..30 - long)
                .map(|week| Start {
                    week,
                    taken: weeks(week, week + long),
                    harvest: (0..3).map(|n| (week + long - 3 + n, gives * grain)).collect(),
                    uses: vec![Use { supply: 0, week, planting: minutes * tick, plant: 0 }],
                    ..Start::default()
                })
                .collect(),
            places: vec![Place { bed: 0, to: 30, cells: Cells::first(12), ..Place::default() }],
            ..Way::default()
        };
        let wish = |k: i64, long: usize| Wish {
            name: format!("wish {k}"),
            importance: 1 + k,
            buckets: (6..28)
                .step_by(long)
                .map(|from| Bucket {
                    from,
                    to: (from + long).min(30),
                    want: 9 * grain,
                    extra: 4 * grain,
                    value: (1 + k) * 1_000_000_000 / grain,
                    beyond: (1 + k) * 200_000_000 / grain,
                })
                .collect(),
        };
        Problem {
            weeks: 30,
            point: 1_000_000,
            beds: vec![Bed { height: 3, width: 4, ..Bed::default() }],
            supplies: vec![Supply { name: "work".into(), there: vec![11 * tick; 30] }],
            ways: vec![crop(0, (1, 1), 5, 2, 3), crop(1, (1, 2), 8, 3, 4), crop(2, (2, 2), 14, 7, 9)],
            wishes: vec![wish(0, 1), wish(1, 3), wish(2, 22)],
            ..Problem::default()
        }
    }

    fn bound(problem: &Problem, rounds: usize) -> f64 {
        let model = crate::fill::model::Model::new(problem);
        let mut linear = Linear::new(&model);
        linear.solve(rounds, &mut || true);
        real_i(prove(&model, &linear.prices()))
    }

    /// Counting in grams or in thousandths of them, in minutes or in seconds, changes nothing.
    #[test]
    fn the_units_of_the_problem_do_not_matter() {
        let best = bound(&garden(1, 1), 20_000);
        for (grain, tick) in [(1, 1), (1000, 1), (1_000_000, 600), (10, 100_000)] {
            let after = bound(&garden(grain, tick), 1500);
            assert!(
                after > best * 0.9999 && after < best * 1.002,
                "in {grain} and {tick}: {after}, not {best}"
            );
        }
    }
}
