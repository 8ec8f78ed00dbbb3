//! The proof of the bound: no plan can be worth more. It shares nothing with the method that found the prices.
//!
//! Put a price, not negative, on every scarce thing: a cell in a week, a use of a cell by a family, a minute of work,
//! a step of harvest towards a wish. Whatever plan is chosen, its value is at most
//!
//! > what there is of each scarce thing at its price, plus, for every planting that earns more than the prices of what
//! > it takes, the surplus times the number there is room for, plus, for every step of harvest worth more than its
//! > price, the surplus.
//!
//! (Weak duality of linear programmes; any prices prove a bound, good ones a tight one.) All of it in whole numbers.

use super::beside::Beside;
use super::classes::{Classes, settled_value};
use super::harvest::{Tally, useful};
use super::model::{Act, Model, Role};
use super::problem::{Layer, Reach};
use super::scales::PARTS;
use crate::units::num::index;

/// Prices of scarce things in value units, none negative.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Prices {
    /// A cell of the main layer, by class of beds and week.
    pub main: Vec<Vec<i64>>,
    /// A cell with room for a mate, by class of beds and week.
    pub mate: Vec<Vec<i64>>,
    /// A cell kept for a group that must not return soon, by class of beds, group and week.
    pub group: Vec<Vec<Vec<i64>>>,
    /// A bed, as far as shares of it count, by class of beds, scale and week.
    pub bed: Vec<Vec<Vec<i64>>>,
    /// A use of a cell by a group that costs a repeat, by class of beds and group.
    pub turn: Vec<Vec<i64>>,
    /// A unit of a supply, by supply and week.
    pub supply: Vec<Vec<i64>>,
    /// A unit of harvest, by bucket through all wishes, in `FINE` parts of a value unit: a gram is worth so little
    /// that whole value units would be too coarse.
    pub harvest: Vec<i64>,
    /// How much of the value of a bucket is limited by what each planting alone would add, by bucket, in `FINE` parts.
    pub lump: Vec<i64>,
    /// How much of what good neighbours add is limited by the plantings there are, in `FINE` parts.
    pub good: i64,
}

/// Parts of a value unit in which a unit of harvest is priced.
pub(crate) const FINE: i64 = 1 << 20;

/// The bound the prices prove, in value units.
pub(crate) fn prove(model: &Model<'_>, prices: &Prices) -> i64 {
    let problem = model.problem;
    let classes = Classes::new(model);
    let wide = i128::from;
    let product = |there: &[i64], price: &[i64]| -> i128 {
        there.iter().zip(price).map(|(&n, &p)| wide(n.max(0)) * wide(p)).sum()
    };
    let tallies = Tally::all(model);
    let beside = Beside::new(model);
    let mut bound = wide(settled_value(model, &tallies));
    for class in 0..classes.beds.len() {
        bound += product(&classes.main[class], &prices.main[class]);
        bound += product(&classes.mate[class], &prices.mate[class]);
        for (there, price) in classes.scales[class].there.iter().zip(&prices.bed[class]) {
            // Parts left over: rounded up, so that nothing is lost.
            let parts: i128 = there.iter().zip(price).map(|(&n, &p)| wide(n) * wide(p)).sum();
            bound += (parts + wide(PARTS) - 1) / wide(PARTS);
        }
        for (g, group) in problem.groups.iter().enumerate() {
            bound += product(&classes.group[class][g], &prices.group[class][g]);
            // The open cells may fall short of the uses settled plantings make; then the row starts in debt, which
            // the cost of repeats pays.
            bound += wide(classes.turns[class][g]) * wide(prices.turn[class][g].min(group.again));
        }
    }
    for (k, supply) in prices.supply.iter().enumerate() {
        bound += product(&model.supply[k * problem.weeks..(k + 1) * problem.weeks], supply);
    }
    // From here on in fine parts.
    let mut surplus = 0;
    for (b, tally) in tallies.iter().enumerate() {
        for &(n, value) in &tally.pieces {
            let gain = wide(value) * wide(FINE - prices.lump[b]) - wide(tally.step) * wide(prices.harvest[b]);
            surplus += wide(n) * gain.max(0);
        }
    }
    if beside.any() {
        surplus += wide(problem.good_most) * wide((FINE - prices.good).max(0));
        surplus += wide(beside.settled(model)) * wide(prices.good);
    }
    for (f, form) in model.forms.iter().enumerate().filter(|(_, form)| form.role == Role::Wished) {
        for a in form.acts.clone() {
            let act = &model.acts[a];
            for class in 0..classes.beds.len() {
                let room = classes.room(f, act.week, class);
                let credit = beside.credit(model, act, &classes.beds[class]);
                // A planting that harvests nothing may still be a good neighbour.
                let most = if credit > 0 { room.most } else { room.most.min(useful(model, act, &tallies)) };
                if most > 0 {
                    let pays = room.cost + paid(model, &classes, prices, (act, f, class));
                    let fetches = fetched(model, prices, act, &tallies) + wide(credit) * wide(prices.good);
                    surplus += (fetches - wide(pays) * wide(FINE)).max(0) * wide(most);
                }
            }
        }
    }
    bound += (surplus + wide(FINE) - 1) / wide(FINE);
    i64::try_from(bound).unwrap_or(i64::MAX)
}

/// What the harvest of a planting fetches, in fine parts.
fn fetched(model: &Model<'_>, prices: &Prices, act: &Act, tallies: &[Tally]) -> i128 {
    let fetches = |&(b, amount): &(u32, i64)| {
        let tally = &tallies[index(b)];
        i128::from(tally.counted(amount)) * i128::from(prices.harvest[index(b)])
            + i128::from(tally.worth(amount)) * i128::from(prices.lump[index(b)])
    };
    model.gives(act).iter().map(fetches).sum()
}

/// What a planting pays for what it takes.
fn paid(
    model: &Model<'_>,
    classes: &Classes,
    prices: &Prices,
    (act, form, class): (&Act, usize, usize),
) -> i64 {
    let problem = model.problem;
    let area = model.forms[form].area;
    let shares_all_along = problem.pairs.iter().any(|&(main, _)| main == index(act.way));
    let mut sum = 0;
    for week in act.week..act.end {
        if act.mate {
            sum += area * prices.mate[class][week];
        } else {
            sum += area * prices.main[class][week];
            if act.shut >> week & 1 == 1 && !shares_all_along {
                sum += area * prices.mate[class][week];
            }
        }
    }
    if !act.mate {
        let sizes = &problem.ways[index(act.way)].shapes[model.forms[form].shape].sizes;
        for (scale, price) in prices.bed[class].iter().enumerate() {
            let parts =
                classes.scales[class].share(scale, sizes) * price[act.week..act.end].iter().sum::<i64>();
            sum += parts / PARTS;
        }
    }
    for &g in model.groups(act) {
        let g = index(g);
        let group = &problem.groups[g];
        if group.apart > 0 && problem.ways[index(act.way)].layer == Layer::Main {
            let until = (act.end + group.apart).min(problem.weeks);
            sum += area * prices.group[class][g][act.week..until].iter().sum::<i64>();
        }
        if group.again > 0 && group.reach == Reach::Cell {
            sum += area * prices.turn[class][g].min(group.again);
        }
    }
    for &(slot, amount) in model.uses(act) {
        sum += amount * prices.supply[index(slot) / problem.weeks][index(slot) % problem.weeks];
    }
    sum
}
