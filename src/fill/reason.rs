//! Why part of a wish is not met, and what would help.
//!
//! Asked in this order, the first that holds for every start that would ripen in the weeks in question: nothing ripens
//! then; no bed takes it; a break keeps it out; no block of its shape fits; something else has the room (and what the
//! cheapest of it is worth); work or raising is used up; it would cost more than it brings.

use super::model::{Act, Model, NONE, Site};
use super::problem::{Bar, Placed, Problem};
use super::prove::Prices;
use super::state::State;
use crate::units::num::{index, signed, word};

/// A stretch of a wish that is not met.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lack {
    /// Index of the wish.
    pub wish: usize,
    /// First week.
    pub from: usize,
    /// Week after the last.
    pub to: usize,
    /// Amount missing.
    pub missing: i64,
    /// Why.
    pub reason: Reason,
}

/// Why a stretch of a wish is not met.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// No start of any way ripens in those weeks.
    Unripe,
    /// No bed takes any way: what stands against it, as (way, bed, caller's label).
    NoPlace(Vec<(usize, usize, usize)>),
    /// The soil of every bed that would take it is kept free: (way, bed, first free week, caller's label).
    Break(Vec<(usize, usize, Option<usize>, usize)>),
    /// It would follow or precede a settled planting of its group too soon, whichever bed it took: (bed, index of
    /// the settled planting).
    Settled(Vec<(usize, usize)>),
    /// No bed that would take it has a block of its shape: the smallest block, as (rows, columns).
    NoBlock(usize, usize),
    /// Others have the room.
    Space(Space),
    /// A supply is used up in a week: (supply, week, amount missing).
    Supply(usize, usize, i64),
    /// It would cost more (rotation, neighbours) than it brings: (cost, gain), in value units.
    Dear(i64, i64),
}

/// The cheapest way to make room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Space {
    /// What would be planted.
    pub planting: Placed,
    /// What would have to go; settled plantings never do.
    pub moved: Vec<Placed>,
    /// Value the planting would add, in value units.
    pub gain: i64,
    /// Value lost with what would have to go, in value units.
    pub cost: i64,
}

/// Something more of which would raise the bound, and by how much.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Help {
    /// What.
    pub what: Scarce,
    /// First week.
    pub from: usize,
    /// Week after the last.
    pub to: usize,
    /// Value units.
    pub value: i64,
}

/// What may be scarce.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Scarce {
    /// One more cell in beds like these.
    Cell {
        /// Indices of the beds.
        beds: Vec<usize>,
    },
    /// One more bed like these, where room for large blocks is what is short.
    Bed {
        /// Indices of the beds.
        beds: Vec<usize>,
    },
    /// So much more of a supply in each of the weeks.
    Supply {
        /// Index of the supply.
        supply: usize,
        /// Amount.
        amount: i64,
    },
}

/// A bucket counts as met from this share (per cent) on.
const MET: i64 = 98;
/// Acts looked into for one stretch.
const LOOKED_INTO: usize = 16;

/// Reasons for every stretch of every wish that is not met, at the end of a search.
pub(crate) fn lacks(state: &mut State<'_>) -> Vec<Lack> {
    let model = state.model;
    let mut out: Vec<Lack> = Vec::new();
    for wish in 0..model.problem.wishes.len() {
        for bucket in model.wish_buckets[wish]..model.wish_buckets[wish + 1] {
            let (b, got) = (&model.buckets[bucket], state.harvest[bucket]);
            if got * 100 >= b.want * MET {
                continue;
            }
            let reason = reason(state, wish, bucket);
            let missing = b.want - got;
            // Neighbouring stretches short for the same kind of reason are told as one.
            match out.last_mut() {
                Some(last) if last.wish == wish && last.to == b.from && last.reason.is_like(&reason) => {
                    last.to = b.to;
                    last.missing += missing;
                }
                Some(_) | None => out.push(Lack { wish, from: b.from, to: b.to, missing, reason }),
            }
        }
    }
    out
}

impl Reason {
    /// Whether two stretches short for these reasons make one.
    fn is_like(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Space(_), Self::Space(_)) | (Self::Dear(..), Self::Dear(..)) => true,
            (Self::Supply(a, ..), Self::Supply(b, ..)) => a == b,
            _ => self == other,
        }
    }
}

fn reason(state: &mut State<'_>, wish: usize, bucket: usize) -> Reason {
    let model = state.model;
    let mut acts: Vec<u32> = Vec::new();
    for &form in &model.wish_forms[wish] {
        for a in model.forms[form].acts.clone() {
            if model.gives(&model.acts[a]).iter().any(|&(b, _)| index(b) == bucket) {
                acts.push(word(a));
            }
        }
    }
    // A way that may stand nowhere has no forms, yet it ripens all the same.
    let ways = ripening(model, wish, bucket);
    if ways.is_empty() {
        return Reason::Unripe;
    }
    let act = |a: u32| &model.acts[index(a)];
    let beds = |a: u32| (0..model.problem.beds.len()).filter(move |&bed| !sites(model, a, bed).is_empty());
    let standing: Vec<u32> = acts.iter().copied().filter(|&a| beds(a).next().is_some()).collect();
    if standing.is_empty() {
        return kept_out(model, &ways);
    }
    // Beds in which a settled planting of the group stands in the way of every start.
    let mut settled: Vec<(usize, usize)> = Vec::new();
    let mut open: Vec<(i64, u32, Vec<usize>)> = Vec::new();
    for &a in &standing {
        let mut free = Vec::new();
        for bed in beds(a) {
            match settled_rival(state, a, bed) {
                Some(rival) if !settled.contains(&(bed, rival)) => settled.push((bed, rival)),
                Some(_) => {}
                None => free.push(bed),
            }
        }
        if !free.is_empty() {
            let toll = free.iter().map(|&bed| state.toll(index(a), bed)).min().unwrap_or(0);
            open.push((state.gain(act(a)) - toll, a, free));
        }
    }
    if open.is_empty() {
        return Reason::Settled(settled);
    }
    open.sort_by_key(|&(net, a, _)| (std::cmp::Reverse(net), a));
    open.truncate(LOOKED_INTO);
    room(state, &open)
}

/// What stands in the way of acts for which some bed is open: room, a supply, or their own cost.
fn room(state: &mut State<'_>, open: &[(i64, u32, Vec<usize>)]) -> Reason {
    let model = state.model;
    let mut space: Option<(i64, Space)> = None;
    // Room that the wish has already itself is named only where there is no other.
    let mut own_room: Option<(i64, Space)> = None;
    let mut short: Option<(i64, Reason)> = None;
    let mut dear: Option<(i64, Reason)> = None;
    let better = |best: Option<i64>, net: i64| best.is_none_or(|b| net > b);
    for (_, a, beds) in open {
        let act = &model.acts[index(*a)];
        let gain = state.gain(act);
        for &bed in beds {
            for &site in sites(model, *a, bed) {
                let Some(moved) = state.in_the_way(act, bed, site) else { continue };
                let own = site.cost + state.repeats(act, site.block) - state.near(act, site.block);
                let loss: i64 = moved.iter().map(|&p| state.loss(p)).sum();
                let net = gain - own - loss;
                if !moved.is_empty() {
                    let wish = |a: &Act| model.problem.ways[index(a.way)].wish;
                    let own_only = moved.iter().all(|&p| wish(state.act(p)) == wish(act));
                    let best = if own_only { &mut own_room } else { &mut space };
                    if better(best.as_ref().map(|s| s.0), net)
                        && let Some(planting) = model.placed(*a, site.block)
                    {
                        let named =
                            |&p: &u32| model.placed(state.planting(p).act, state.planting(p).site.block);
                        let moved = moved.iter().filter_map(named).collect();
                        *best = Some((net, Space { planting, moved, gain: gain - own, cost: loss }));
                    }
                } else if let Some(slot) = state.lack(act) {
                    let needs = model.uses(act).iter().find(|&&(s, _)| index(s) == slot).map_or(0, |u| u.1);
                    let missing = needs + state.used[slot] - model.supply[slot];
                    let weeks = model.problem.weeks;
                    if better(short.as_ref().map(|s| s.0), net) {
                        short = Some((net, Reason::Supply(slot / weeks, slot % weeks, missing)));
                    }
                } else {
                    // Set for a moment: some costs, such as one more stay in a bed, show only then.
                    let before = state.value;
                    let p = state.set(*a, site, false);
                    let net = state.value - before;
                    state.take(p);
                    if better(dear.as_ref().map(|d| d.0), net) {
                        dear = Some((net, Reason::Dear(gain - net, gain)));
                    }
                }
            }
        }
    }
    // A free block that only a supply or its own cost keeps empty is the truer reason than room elsewhere.
    match (short, dear, space.or(own_room)) {
        (Some((_, reason)), _, _) | (None, Some((_, reason)), _) => reason,
        (None, None, Some((_, space))) => Reason::Space(space),
        (None, None, None) => Reason::Settled(Vec::new()),
    }
}

/// Ways of a wish of which some start ripens in a bucket.
fn ripening(model: &Model<'_>, wish: usize, bucket: usize) -> Vec<usize> {
    let weeks = model.buckets[bucket].from..model.buckets[bucket].to;
    let ripens = |w: usize| {
        let mut harvest = model.problem.ways[w].starts.iter().flat_map(|s| &s.harvest);
        harvest.any(|(week, amount)| *amount > 0 && weeks.contains(week))
    };
    (0..model.problem.ways.len()).filter(|&w| model.problem.ways[w].wish == Some(wish) && ripens(w)).collect()
}

/// Why no bed takes any of the ways.
fn kept_out(model: &Model<'_>, ways: &[usize]) -> Reason {
    let problem = model.problem;
    let (mut unfit, mut breaks, mut least) = (Vec::new(), Vec::new(), None);
    for &w in ways {
        let way = &problem.ways[w];
        for barred in &way.barred {
            match barred.why {
                Bar::Unfit { label } => unfit.push((w, barred.bed, label)),
                Bar::Break { until, label, .. } => breaks.push((w, barred.bed, until, label)),
            }
        }
        if !way.places.is_empty() {
            let sizes = way.shapes.iter().flat_map(|s| &s.sizes).map(|&(h, w)| (h * w, h, w));
            least = sizes.chain(least).min();
        }
    }
    match (breaks.is_empty(), least) {
        (false, _) => Reason::Break(breaks),
        (true, Some((_, height, width))) => Reason::NoBlock(height, width),
        (true, None) => Reason::NoPlace(unfit),
    }
}

fn sites<'m>(model: &'m Model<'_>, a: u32, bed: usize) -> &'m [Site] {
    let act = &model.acts[index(a)];
    if act.form == NONE { &[] } else { model.sites(index(act.form), bed, act.week) }
}

/// A settled planting of the bed that the act would follow or precede too soon, as its index in the problem.
fn settled_rival(state: &State<'_>, a: u32, bed: usize) -> Option<usize> {
    let mut rivals = Vec::new();
    state.rivals(&state.model.acts[index(a)], bed, &mut rivals);
    let first = rivals.into_iter().find(|&p| state.planting(p).settled)?;
    let act = state.planting(first).act;
    state.model.settled.iter().position(|s| s.act == act)
}

/// What one more cell, one more bed, or a little more of a supply is worth by the prices of the bound: the best stretch
/// of weeks of each, the best first. `amounts` are what counts as a little of each supply.
pub fn helps(problem: &Problem, prices: &Prices, amounts: &[i64]) -> Vec<Help> {
    let mut out = Vec::new();
    let mut likes: Vec<usize> = Vec::new();
    for bed in &problem.beds {
        if !likes.contains(&bed.like) {
            likes.push(bed.like);
        }
    }
    for (class, (like, price)) in likes.iter().zip(&prices.main).enumerate() {
        let beds: Vec<usize> = (0..problem.beds.len()).filter(|&b| problem.beds[b].like == *like).collect();
        let rows = prices.bed.get(class).map_or(&[][..], Vec::as_slice);
        // A bed more is all its cells more, and one bed more for large blocks.
        let whole = |cells: i64| -> Vec<i64> {
            let row = |week: usize| rows.iter().filter_map(|r| r.get(week)).sum::<i64>();
            price.iter().enumerate().map(|(week, p)| p * cells + row(week)).collect()
        };
        if rows.iter().flatten().any(|p| *p > 0)
            && let Some(&first) = beds.first()
            && let Some((from, to, value)) = stretch(&whole(signed(problem.beds[first].cells())))
        {
            out.push(Help { what: Scarce::Bed { beds: beds.clone() }, from, to, value });
        }
        if let Some((from, to, value)) = stretch(price) {
            out.push(Help { what: Scarce::Cell { beds }, from, to, value });
        }
    }
    for (supply, price) in prices.supply.iter().enumerate() {
        let amount = amounts.get(supply).copied().unwrap_or(1);
        if let Some((from, to, value)) = stretch(price) {
            out.push(Help { what: Scarce::Supply { supply, amount }, from, to, value: value * amount });
        }
    }
    out.sort_by_key(|help| std::cmp::Reverse(help.value));
    out
}

/// The weeks without a gap that sum to most once each week has paid a quarter of the dearest one, and that sum.
fn stretch(price: &[i64]) -> Option<(usize, usize, i64)> {
    let top = *price.iter().max()?;
    if top <= 0 {
        return None;
    }
    let (mut best, mut from, mut sum) = ((0, 0, 0), 0, 0);
    for (week, p) in price.iter().enumerate() {
        sum += p - top / 4;
        if sum <= 0 {
            (from, sum) = (week + 1, 0);
        } else if sum > best.2 {
            best = (from, week + 1, sum);
        }
    }
    let value = price[best.0..best.1].iter().sum();
    Some((best.0, best.1, value))
}
