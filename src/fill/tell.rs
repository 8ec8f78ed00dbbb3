//! Reasons and what would help, in words a neighbour understands: the same for a garden and for a problem file, which
//! has no dates and units of its own.

use super::build::{Built, amount};
use super::outcome::Outcome;
use super::problem::{Bar, Placed, Problem, Weeks, weeks};
use super::reason::{Help, Lack, Reason, Scarce, Space, helps};
use super::ways::{MINUTE_UNIT, TRAY_UNIT};
use crate::calendar::day_text;
use crate::crop::inside;
use crate::units::num;
use std::collections::BTreeMap;

/// Reasons told of one wish, at most: the gravest.
const TOLD: usize = 3;
/// Places named in one reason, at most.
const NAMED: usize = 4;
/// Things that would help, at most, and the least each is worth, in points.
const HELPS: usize = 3;
const WORTH: f64 = 0.5;

/// Why each wish is not met in full, gravest first; empty where it is.
pub fn reasons(problem: &Problem, outcome: &Outcome) -> Vec<Vec<String>> {
    let teller = Teller { problem, garden: None };
    (0..problem.wishes.len()).map(|wish| teller.reasons(wish, outcome)).collect()
}

/// What would help most, dearest first: one more cell, pot, hour or tray, for how long and what it is worth.
pub fn help_words(problem: &Problem, outcome: &Outcome) -> Vec<String> {
    Teller { problem, garden: None }.helps(outcome)
}

/// Puts a problem into words, with the dates, units and places of its garden where there is one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Teller<'a> {
    pub(super) problem: &'a Problem,
    pub(super) garden: Option<&'a Built<'a>>,
}

impl Teller<'_> {
    /// Why a wish is not met in full.
    pub(super) fn reasons(&self, wish: usize, outcome: &Outcome) -> Vec<String> {
        let met = &outcome.wishes[wish];
        if met.met * 1000 >= met.wanted * 995 {
            return Vec::new();
        }
        let mut kinds: Vec<(u8, Vec<&Lack>)> = Vec::new();
        for lack in outcome.lacks.iter().filter(|l| l.wish == wish) {
            let kind = gravity(&lack.reason);
            match kinds.iter_mut().find(|(k, _)| *k == kind) {
                Some((_, lacks)) => lacks.push(lack),
                None => kinds.push((kind, vec![lack])),
            }
        }
        kinds.sort_by_key(|(kind, _)| *kind);
        let mut out: Vec<String> = kinds.iter().take(TOLD).map(|(_, lacks)| self.kind(wish, lacks)).collect();
        if out.is_empty() {
            let missing = self.amount(wish, met.wanted - met.met);
            out.push(format!("short of {missing} in all, less than one more planting is worth"));
        }
        out
    }

    /// Stretches of a wish that are short for one kind of reason.
    fn kind(&self, wish: usize, lacks: &[&Lack]) -> String {
        let missing: i64 = lacks.iter().map(|l| l.missing).sum();
        let from = lacks.iter().map(|l| l.from).min().unwrap_or(0);
        let to = lacks.iter().map(|l| l.to).max().unwrap_or(from);
        let worst = lacks.iter().max_by_key(|l| (l.missing, std::cmp::Reverse(l.from)));
        let why = worst.map_or_else(String::new, |lack| self.why(lack));
        format!("short of {} {}: {why}", self.amount(wish, missing), self.span(from, to))
    }

    fn why(&self, lack: &Lack) -> String {
        match &lack.reason {
            Reason::Unripe => self.unripe(lack),
            Reason::NoPlace(bars) => {
                let bars: Vec<(usize, usize)> = bars.iter().map(|&(_, bed, label)| (bed, label)).collect();
                if bars.is_empty() {
                    return String::from("no place takes it");
                }
                format!("no place takes it: {}", self.bars(&bars))
            }
            Reason::Break(bars) => {
                let mut ways: Vec<usize> = bars.iter().map(|b| b.0).collect();
                ways.dedup();
                let bars: Vec<(usize, usize)> = bars.iter().map(|&(_, bed, _, label)| (bed, label)).collect();
                let mut out = format!("its soil must be kept free: {}", self.bars(&bars));
                let unfit: Vec<(usize, usize)> = ways
                    .iter()
                    .flat_map(|&w| &self.problem.ways[w].barred)
                    .filter_map(|b| match b.why {
                        Bar::Unfit { label } => Some((b.bed, label)),
                        Bar::Break { .. } => None,
                    })
                    .filter(|(bed, _)| bars.iter().all(|(b, _)| b != bed))
                    .collect();
                if !unfit.is_empty() {
                    out.push_str("; no other place takes it: ");
                    out.push_str(&self.bars(&unfit));
                }
                out
            }
            Reason::Settled(rivals) => self.settled(rivals),
            Reason::NoBlock(1, 1) => String::from("no place takes it at the time it would have to begin"),
            Reason::NoBlock(rows, columns) => {
                format!(
                    "it needs {rows} by {columns} cells side by side, and no place that suits it has them"
                )
            }
            Reason::Space(space) => self.space(space),
            Reason::Supply(supply, week, missing) => self.supply(*supply, *week, *missing),
            Reason::Dear(cost, gain) => format!(
                "one more planting would cost {} points (its family was in that soil too recently, or bad neighbours) \
                 and bring {}",
                self.points(*cost),
                self.points(*gain)
            ),
        }
    }

    /// Nothing ripens in those weeks: what is the nearest that does, and what keeps the next start from it.
    fn unripe(&self, lack: &Lack) -> String {
        let ways: Vec<usize> =
            (0..self.problem.ways.len()).filter(|&w| self.problem.ways[w].wish == Some(lack.wish)).collect();
        let mut ripe: Weeks = 0;
        for begin in ways.iter().flat_map(|&w| &self.problem.ways[w].starts) {
            for &(week, _) in &begin.harvest {
                ripe |= 1 << week;
            }
        }
        let later = ripe & !weeks(0, lack.to);
        let sooner = ripe & weeks(0, lack.from);
        let nearest = match (sooner == 0, later == 0) {
            (true, true) => String::from("nothing that can be started ripens here"),
            (true, false) => {
                format!(
                    "the first that can be ripe is so in {}",
                    self.week(num::index(later.trailing_zeros()))
                )
            }
            (false, true) => {
                format!(
                    "the last that can be ripe is so in {}",
                    self.week(127 - num::index(sooner.leading_zeros()))
                )
            }
            (false, false) => format!(
                "nothing is ripe between {} and {}",
                self.week(127 - num::index(sooner.leading_zeros())),
                self.week(num::index(later.trailing_zeros()))
            ),
        };
        let Some(garden) = self.garden else { return nearest };
        match garden.hindrance(&ways, lack, sooner != 0, later != 0) {
            Some(words) => format!("{nearest}; {words}"),
            None => nearest,
        }
    }

    fn settled(&self, rivals: &[(usize, usize)]) -> String {
        if rivals.is_empty() {
            return String::from("what is fixed or standing already has all the cells that suit it");
        }
        let words: Vec<String> = rivals
            .iter()
            .map(|&(bed, fixed)| {
                let name = self.problem.fixed.get(fixed).map_or("what stands", |f| f.name.as_str());
                format!("{} in {}", inside(name), self.bed(bed))
            })
            .collect();
        format!("it would come too soon before or after its own family: {}", some(&words, NAMED))
    }

    fn space(&self, space: &Space) -> String {
        let problem = self.problem;
        let mut gone: BTreeMap<(&str, usize), usize> = BTreeMap::new();
        for moved in &space.moved {
            *gone.entry((problem.ways[moved.way].name.as_str(), moved.bed)).or_default() += 1;
        }
        let there = space.planting.bed;
        let mut many: Vec<((&str, usize), usize)> = gone.into_iter().collect();
        many.sort_by_key(|(key, n)| (std::cmp::Reverse(*n), *key));
        let words: Vec<String> = many
            .iter()
            .map(|((name, bed), n)| {
                let name = inside(name);
                let times = if *n == 1 { name } else { format!("{n} plantings of {name}") };
                if *bed == there { times } else { format!("{times} ({})", self.bed(*bed)) }
            })
            .collect();
        let own = |p: &Placed| problem.ways[p.way].wish == problem.ways[space.planting.way].wish;
        if space.moved.iter().all(own) {
            return format!("it has all the room that suits it, as far as {} goes", self.bed(there));
        }
        let room = format!("the room is taken: {}", self.room(&space.planting));
        let (gain, cost) = (self.points(space.gain), self.points(space.cost));
        if space.gain > space.cost {
            format!(
                "{room} would displace {} ({cost} points) and bring {gain}: a deeper search may find room",
                some(&words, NAMED)
            )
        } else {
            format!("{room} would displace {}, worth {cost} points, and bring {gain}", some(&words, NAMED))
        }
    }

    /// "2 by 2 cells of Long box from 4 May".
    fn room(&self, planting: &Placed) -> String {
        let begin = self.problem.ways[planting.way].starts.get(planting.start).map_or(0, |s| s.week);
        let from = match self.garden {
            Some(garden) => format!("from {}", day_text(garden.clock.date(begin))),
            None => format!("from week {begin}"),
        };
        let bed = &self.problem.beds[planting.bed];
        if bed.cells() == 1 {
            return format!("{} {from}", self.bed(planting.bed));
        }
        if planting.height * planting.width == 1 {
            return format!("a cell of {} {from}", self.bed(planting.bed));
        }
        format!("{} by {} cells of {} {from}", planting.height, planting.width, self.bed(planting.bed))
    }

    /// Which supply is used up, when, and what more would be needed.
    pub(super) fn supply(&self, supply: usize, week: usize, missing: i64) -> String {
        let known = self.garden.map(|g| g.supplies);
        if known.is_some_and(|s| s.minutes == Some(supply)) {
            let minutes = num::real_i(missing) / MINUTE_UNIT;
            return format!(
                "your hours in {} are used up: {:.0} minutes more would be needed",
                self.week(week),
                minutes.ceil()
            );
        }
        if known.is_some_and(|s| s.trays == Some(supply)) {
            let cells = num::real_i(missing) / TRAY_UNIT;
            let room = self.problem.supplies[supply].there.get(week).copied().unwrap_or(0);
            if room <= 0 {
                return format!(
                    "there is no room to raise its seedlings in {}: {:.0} tray cells would be needed",
                    self.week(week),
                    cells.ceil()
                );
            }
            return format!(
                "the room for seedlings is used up in {}: {:.0} tray cells more would be needed",
                self.week(week),
                cells.ceil()
            );
        }
        format!(
            "{} are used up in {}: {missing} more would be needed",
            self.problem.supplies[supply].name,
            self.week(week)
        )
    }

    /// What would help most.
    pub(super) fn helps(&self, outcome: &Outcome) -> Vec<String> {
        // An hour and ten tray cells are what a grower would think of adding.
        let amounts: Vec<i64> = (0..self.problem.supplies.len())
            .map(|supply| match self.garden.map(|g| g.supplies) {
                Some(s) if s.minutes == Some(supply) => num::round_i(60.0 * MINUTE_UNIT),
                Some(s) if s.trays == Some(supply) => num::round_i(10.0 * TRAY_UNIT),
                Some(_) | None => 10,
            })
            .collect();
        let worth = |help: &Help| num::real_i(help.value) / num::real_i(self.problem.point) >= WORTH;
        let found = helps(self.problem, &outcome.prices, &amounts);
        found.iter().filter(|h| worth(h)).take(HELPS).map(|h| self.help(h)).collect()
    }

    fn help(&self, help: &Help) -> String {
        let what = match &help.what {
            Scarce::Cell { beds } => self.more_room(beds),
            Scarce::Bed { beds } => {
                let names: Vec<String> = beds.iter().map(|&b| self.bed(b)).collect();
                format!("one more bed like {}", either(&names, NAMED))
            }
            Scarce::Supply { supply, amount } => {
                let known = self.garden.map(|g| g.supplies);
                if known.is_some_and(|s| s.minutes == Some(*supply)) {
                    String::from("an hour more each week")
                } else if known.is_some_and(|s| s.trays == Some(*supply)) {
                    String::from("room for 10 tray cells more")
                } else {
                    format!("{amount} {} more a week", self.problem.supplies[*supply].name)
                }
            }
        };
        format!("{what} {} is worth up to {} points", self.span(help.from, help.to), self.points(help.value))
    }

    /// One more pot where the beds in question are pots, one more cell elsewhere.
    fn more_room(&self, beds: &[usize]) -> String {
        let names: Vec<String> = beds.iter().map(|&b| self.bed(b)).collect();
        let pots = self.garden.is_some_and(|g| beds.iter().all(|&b| g.places[b].is_pot()));
        if pots {
            format!("one more pot like {}", names.first().map_or("", String::as_str))
        } else {
            format!("one more cell in {}", either(&names, NAMED))
        }
    }

    /// Phrases such as "Long box: too little sun", those of one cause together.
    fn bars(&self, bars: &[(usize, usize)]) -> String {
        let mut causes: Vec<(usize, Vec<usize>)> = Vec::new();
        for &(bed, label) in bars {
            match causes.iter_mut().find(|(l, _)| *l == label) {
                Some((_, beds)) if !beds.contains(&bed) => beds.push(bed),
                Some(_) => {}
                None => causes.push((label, vec![bed])),
            }
        }
        causes.sort_by_key(|(label, beds)| (std::cmp::Reverse(beds.len()), *label));
        let words: Vec<String> = causes
            .iter()
            .map(|(label, beds)| {
                let names: Vec<String> = beds.iter().map(|&b| self.bed(b)).collect();
                let label = self.problem.labels.get(*label).map_or("not suited", String::as_str);
                format!("{} ({label})", some(&names, NAMED))
            })
            .collect();
        words.join("; ")
    }

    fn bed(&self, bed: usize) -> String {
        self.problem.beds.get(bed).map_or_else(String::new, |b| b.name.clone())
    }
    fn points(&self, units: i64) -> String {
        let points = num::real_i(units) / num::real_i(self.problem.point.max(1));
        if points < 9.95 { format!("{points:.1}") } else { format!("{points:.0}") }
    }
    fn amount(&self, wish: usize, units: i64) -> String {
        let own = self.garden.and_then(|g| Some((g, g.plan.wish(*g.wishes.get(wish)?)?)));
        match own {
            Some((garden, own)) => amount(own.amount, units).reading(garden.plan.settings.measure),
            None => units.to_string(),
        }
    }
    fn span(&self, from: usize, to: usize) -> String {
        let last = to.max(from + 1) - 1;
        match self.garden {
            Some(garden) => {
                let first = garden.clock.first.plus(num::signed(from)).monday();
                let last = garden.clock.first.plus(num::signed(last)).sunday();
                format!("from {} to {}", day_text(first), day_text(last))
            }
            None if from == last => format!("in week {from}"),
            None => format!("in weeks {from} to {last}"),
        }
    }
    fn week(&self, week: usize) -> String {
        match self.garden {
            Some(garden) => {
                format!("the week of {}", day_text(garden.clock.first.plus(num::signed(week)).monday()))
            }
            None => format!("week {week}"),
        }
    }
}

/// The order in which reasons are told: what cannot be helped first.
const fn gravity(reason: &Reason) -> u8 {
    match reason {
        Reason::Unripe => 0,
        Reason::NoPlace(_) => 1,
        Reason::Break(_) | Reason::Settled(_) => 2,
        Reason::NoBlock(..) => 3,
        Reason::Space(_) => 4,
        Reason::Supply(..) => 5,
        Reason::Dear(..) => 6,
    }
}

/// "a, b and c", "a, b, c and 4 more".
fn some(items: &[String], most: usize) -> String {
    joined(items, most, "and")
}
/// "a, b or c".
fn either(items: &[String], most: usize) -> String {
    joined(items, most, "or")
}
fn joined(items: &[String], most: usize, word: &str) -> String {
    let mut shown: Vec<String> = items.iter().take(most).cloned().collect();
    if items.len() > most {
        shown.push(format!("{} more", items.len() - most));
    }
    match &shown[..] {
        [] => String::new(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} {word} {last}", rest.join(", ")),
    }
}
