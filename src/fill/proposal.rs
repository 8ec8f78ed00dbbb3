//! From the answer back to the garden: plantings the grower can accept, and what becomes of each wish.

use super::build::{Built, amount};
use super::outcome::Outcome;
use super::problem::{Placed, Role};
use super::reason::Lack;
use super::tell::Teller;
use crate::calendar::day_text;
use crate::crop::CropId;
use crate::garden::{Block, PlaceId};
use crate::growth::{Dates, Hindrance, Refusal};
use crate::plan::{Edit, Planting, PlantingId, Why, WishId};
use crate::units::{Amount, num};
use std::collections::{BTreeMap, BTreeSet};

/// Weeks from the start of a crop to its harvest, at most, for a start to have to do with a stretch.
const RIPENS: usize = 30;

/// What becomes of a wish.
#[derive(Debug, Clone, PartialEq)]
pub struct WishMet {
    /// The wish.
    pub wish: WishId,
    /// Its crop.
    pub crop: CropId,
    /// Asked for in all.
    pub wanted: Amount,
    /// Of it met.
    pub met: Amount,
    /// The same as a share, 0 to 1.
    pub share: f64,
    /// Harvest planned for it in all, within its weeks.
    pub harvest: Amount,
    /// Why it is not met in full, gravest first; empty where it is.
    pub reasons: Vec<String>,
}

/// A filled plan, to be accepted or dropped.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// New plantings.
    pub plantings: Vec<Planting>,
    /// Plantings of the plan in force that they replace.
    pub replaced: Vec<PlantingId>,
    /// Plantings of the plan in force that were up for change and stay as they are.
    pub kept: usize,
    /// Points of the value for what stays, so that a change must be worth its trouble.
    pub for_staying: f64,
    /// What becomes of each wish.
    pub wishes: Vec<WishMet>,
    /// What would help most, in words.
    pub helps: Vec<String>,
    /// Share of the wishes met, weighted by importance, 0 to 1.
    pub share: f64,
    /// Value, points: 100 times the importance for each wish met in full, a little for more than was asked, less
    /// what repeats of families and bad neighbours cost.
    pub value: f64,
    /// Proved bound: no plan under the same rules is worth more points.
    pub bound: f64,
    /// Cell-weeks of the growing season in which a cell carries nothing.
    pub idle: u64,
    /// Cell-weeks of it under a cover crop alone.
    pub covered: u64,
    /// All cell-weeks of the growing season.
    pub growing: u64,
    /// Cell-weeks the wishes would take, each grown by itself ([`super::Problem::asked`]).
    pub asked: usize,
    /// Moves made.
    pub moves: u64,
    /// Seed of the search.
    pub seed: u64,
    /// Ended early by the grower.
    pub stopped: bool,
}

impl Proposal {
    /// The proposal as one edit that can be undone.
    pub fn edit(&self) -> Edit {
        let mut edits: Vec<Edit> = self.replaced.iter().map(|id| Edit::Planting(*id, None)).collect();
        edits.extend(self.plantings.iter().map(|p| Edit::Planting(p.id, Some(Box::new(p.clone())))));
        let n = self.plantings.len();
        Edit::Batch(format!("accepted a fill of {n} plantings"), edits)
    }
    /// Only what the proposal brings for one place.
    pub fn edit_in(&self, place: &PlaceId, plan: &crate::plan::Plan) -> Edit {
        let there = |id: &PlantingId| plan.planting(*id).is_some_and(|p| p.place == *place);
        let mut edits: Vec<Edit> =
            self.replaced.iter().filter(|id| there(id)).map(|id| Edit::Planting(*id, None)).collect();
        let new = self.plantings.iter().filter(|p| p.place == *place);
        edits.extend(new.map(|p| Edit::Planting(p.id, Some(Box::new(p.clone())))));
        let name = plan.place(place).map_or_else(|| place.to_string(), |p| p.name.clone());
        Edit::Batch(format!("accepted the fill of {name}"), edits)
    }
    /// Whether accepting it would leave the plan as it is.
    pub const fn changes_nothing(&self) -> bool {
        self.plantings.is_empty() && self.replaced.is_empty()
    }
    /// Share of the growing season in which cells carry nothing, cover crops counted as not idle.
    pub fn idle_share(&self) -> f64 {
        if self.growing == 0 { 0.0 } else { real(self.idle) / real(self.growing) }
    }
    /// Share by which the bound lies above the value, 0 where the plan is proved to be the best.
    pub fn gap(&self) -> f64 {
        if self.bound > 0.0 { ((self.bound - self.value) / self.bound).max(0.0) } else { 0.0 }
    }
    /// The share met in a sentence, and how far from the best possible.
    pub fn words(&self) -> String {
        let share = self.share * 100.0;
        let more = if self.value > 0.0 { (self.bound / self.value - 1.0).max(0.0) * 100.0 } else { 0.0 };
        if more < 0.05 {
            format!("{share:.0} % of what you asked for; no plan can be worth more")
        } else {
            format!("{share:.0} % of what you asked for; no plan can be worth {more:.1} % more")
        }
    }
}

fn real(n: u64) -> f64 {
    num::real(usize::try_from(n).unwrap_or(usize::MAX))
}

/// One start of one way on cells of one bed, to be joined into rectangles.
type Key = (usize, usize, usize, usize, bool);

impl Built<'_> {
    /// The proposal for an outcome.
    pub fn proposal(&self, outcome: &Outcome) -> Proposal {
        let mut next = self.plan.next_planting().0;
        let mut plantings = Vec::new();
        let mut singles: BTreeMap<Key, Vec<(u16, u16)>> = BTreeMap::new();
        for (placed, filler) in
            outcome.plan.iter().map(|p| (p, false)).chain(outcome.fillers.iter().map(|p| (p, true)))
        {
            let block = block(placed);
            if block.area() == 1 {
                let key = (placed.bed, placed.start, placed.way, placed.shape, filler);
                singles.entry(key).or_default().push((block.row, block.col));
            } else if let Some(p) = self.planting(placed, block, filler, PlantingId(next)) {
                plantings.push(p);
                next += 1;
            }
        }
        for ((bed, start, way, shape, filler), cells) in singles {
            for block in self.joined((bed, start, way), cells) {
                let placed = Placed { way, start, shape, bed, row: 0, column: 0, height: 1, width: 1 };
                if let Some(p) = self.planting(&placed, block, filler, PlantingId(next)) {
                    plantings.push(p);
                    next += 1;
                }
            }
        }
        let stays = self.unchanged(&mut plantings);
        plantings.sort_by_key(|p| (p.begins(), p.place.clone(), p.block, p.id));
        let first = self.plan.next_planting().0;
        for (n, planting) in plantings.iter_mut().enumerate() {
            planting.id = PlantingId(first + num::word(n));
        }
        let wishes = self.met(outcome);
        let points = |units: i64| num::real_i(units) / num::real_i(self.problem.point);
        Proposal {
            plantings,
            replaced: self.replaced.iter().copied().filter(|id| !stays.contains(id)).collect(),
            kept: stays.len(),
            for_staying: points(self.problem.keep_bonus * num::signed(outcome.kept)),
            wishes,
            helps: Teller { problem: &self.problem, garden: Some(self) }.helps(outcome),
            share: self.share(outcome),
            value: points(outcome.value),
            bound: points(outcome.bound),
            idle: outcome.idle,
            covered: outcome.covered,
            growing: outcome.season,
            asked: self.problem.asked(),
            moves: outcome.moves,
            seed: outcome.seed,
            stopped: outcome.stopped,
        }
    }

    /// Plantings of the plan in force that are up for change.
    fn in_force(&self) -> impl Iterator<Item = &Planting> {
        self.replaced.iter().filter_map(|id| self.plan.planting(*id))
    }

    /// Cells of one start as blocks: those of the plan in force first, so that what stays is seen to stay.
    fn joined(&self, (bed, start, way): (usize, usize, usize), mut cells: Vec<(u16, u16)>) -> Vec<Block> {
        let grown = &self.grown[way];
        let mut out = Vec::new();
        if let Some(sown) = grown.sown.get(start) {
            let same = |p: &&Planting| {
                p.place == self.places[bed].id
                    && p.crop == grown.crop
                    && p.layer == grown.layer
                    && p.start == grown.start
                    && p.planned == sown.dates
            };
            for p in self.in_force().filter(same) {
                if p.block.cells().all(|cell| cells.contains(&cell)) {
                    cells.retain(|&(r, c)| !p.block.holds(r, c));
                    out.push(p.block);
                }
            }
        }
        out.extend(rectangles(cells));
        out
    }

    /// Takes out of new plantings those that stand in the plan in force already; returns the ids of these.
    fn unchanged(&self, plantings: &mut Vec<Planting>) -> BTreeSet<PlantingId> {
        let mut stays = BTreeSet::new();
        for old in self.in_force() {
            let same = |p: &Planting| Planting { id: old.id, note: old.note.clone(), ..p.clone() } == *old;
            if let Some(at) = plantings.iter().position(same) {
                plantings.remove(at);
                stays.insert(old.id);
            }
        }
        stays
    }

    /// Share met over every wish of the plan, those that could not even be asked included.
    fn share(&self, outcome: &Outcome) -> f64 {
        let (mut met, mut all) = (0.0, 0.0);
        for wish in &self.plan.wishes {
            let over = self.left.iter().any(|l| l.wish == wish.id);
            let weight = f64::from(wish.importance);
            if let Some(at) = self.wishes.iter().position(|w| *w == wish.id) {
                let of = &outcome.wishes[at];
                met += weight * num::real_i(of.met) / num::real_i(of.wanted.max(1));
            }
            if !over || !self.is_past(wish.id) {
                all += weight;
            }
        }
        if all > 0.0 { met / all } else { 1.0 }
    }

    fn is_past(&self, wish: WishId) -> bool {
        self.left.iter().any(|l| l.wish == wish && (l.why.contains("over") || l.why.contains("beyond")))
    }

    fn planting(&self, placed: &Placed, block: Block, filler: bool, id: PlantingId) -> Option<Planting> {
        let grown = &self.grown[placed.way];
        let way = &self.problem.ways[placed.way];
        let crop = self.book.get(&grown.crop)?;
        let place = self.places[placed.bed];
        let dates: Dates = grown.sown.get(placed.start)?.dates;
        // Cells joined into one block keep the plants that were counted for each of them.
        let joined = block.area() / (placed.height * placed.width).max(1);
        let plants = num::small(num::count(way.shapes.get(placed.shape)?.plants) * joined);
        let why = match (way.wish, way.role, filler) {
            (Some(wish), _, _) => Why::Wish(self.wishes[wish]),
            (None, Role::Cover, _) => Why::Cover,
            (None, Role::Catch | Role::Wished, _) => Why::Catch,
        };
        Some(Planting {
            id,
            crop: crop.id.clone(),
            name: crop.name.clone(),
            botanical: crop.botanical.clone(),
            family: crop.family.clone(),
            place: place.id.clone(),
            block,
            layer: grown.layer,
            start: grown.start,
            plants: plants.max(1),
            planned: dates,
            shift: None,
            real: Dates::default(),
            fixed: false,
            why,
            failed: None,
            note: String::new(),
        })
    }

    fn met(&self, outcome: &Outcome) -> Vec<WishMet> {
        let mut out = Vec::new();
        let teller = Teller { problem: &self.problem, garden: Some(self) };
        for wish in &self.plan.wishes {
            let zero = wish.amount.with_value(0.0);
            if let Some(at) = self.wishes.iter().position(|w| *w == wish.id) {
                let met = &outcome.wishes[at];
                let share = num::real_i(met.met) / num::real_i(met.wanted.max(1));
                out.push(WishMet {
                    wish: wish.id,
                    crop: wish.crop.clone(),
                    wanted: amount(wish.amount, met.wanted),
                    met: amount(wish.amount, met.met),
                    share,
                    harvest: amount(wish.amount, met.harvest.iter().sum()),
                    reasons: teller.reasons(at, outcome),
                });
            } else if let Some(left) = self.left.iter().find(|l| l.wish == wish.id) {
                out.push(WishMet {
                    wish: wish.id,
                    crop: wish.crop.clone(),
                    wanted: wish.amount,
                    met: zero,
                    share: 0.0,
                    harvest: zero,
                    reasons: vec![left.why.clone()],
                });
            }
        }
        out
    }

    /// What keeps the start out that would have been ripe in those weeks: the one before the first that is ripe
    /// later, the one after the last that is ripe sooner, or the commonest cause between the two.
    pub(super) fn hindrance(&self, ways: &[usize], lack: &Lack, sooner: bool, later: bool) -> Option<String> {
        let measure = self.plan.settings.measure;
        let refused = |w: usize| &self.grown[w].refused;
        let first = |w: &usize| self.problem.ways[*w].starts.first().map(|s| s.week);
        let last = |w: &usize| self.problem.ways[*w].starts.last().map(|s| s.week);
        let (refusal, week) = if later && !sooner {
            // The way that is ripe first; the latest start refused before its first.
            let (week, way) = ways.iter().filter_map(|w| Some((first(w)?, *w))).min()?;
            let before = refused(way).iter().filter(|(at, _)| *at < week).max_by_key(|(at, _)| *at);
            let Some((at, refusal)) = before else {
                let from = day_text(self.clock.from);
                return Some(format!("it would have to be begun before {from}, when this plan begins"));
            };
            (*refusal, *at)
        } else if sooner && !later {
            let (week, way) = ways.iter().filter_map(|w| Some((last(w)?, *w))).max()?;
            let after = refused(way).iter().filter(|(at, _)| *at > week).min_by_key(|(at, _)| *at);
            let Some((at, refusal)) = after else {
                let end = day_text(self.clock.last);
                return Some(format!("it would have to be begun after {end}, when this season ends"));
            };
            (*refusal, *at)
        } else {
            let mut causes: BTreeMap<Hindrance, (usize, usize, Refusal)> = BTreeMap::new();
            for (week, refusal) in ways.iter().flat_map(|w| refused(*w)) {
                if *week < lack.to && *week + RIPENS >= lack.from {
                    causes.entry(refusal.cause()).or_insert((0, *week, *refusal)).0 += 1;
                }
            }
            let Some((_, week, refusal)) = causes.into_values().max_by_key(|c| c.0) else {
                let from = day_text(self.clock.from);
                return Some(format!("it would have to be begun before {from}, when this plan begins"));
            };
            (refusal, week)
        };
        let cause = match refusal.cause() {
            Hindrance::Frost => "frost",
            Hindrance::Heat => "heat",
            Hindrance::Cold => "cold",
            Hindrance::Light => "light",
            Hindrance::Practice => "its time of planting",
        };
        let on = day_text(self.clock.date(week));
        Some(format!("{cause} keeps it from starting on {on}: {}", refusal.words(measure)))
    }
}

fn block(placed: &Placed) -> Block {
    Block {
        row: num::small(placed.row),
        col: num::small(placed.column),
        rows: num::small(placed.height),
        cols: num::small(placed.width),
    }
}

/// The largest rectangles of some cells, one after another.
fn rectangles(mut cells: Vec<(u16, u16)>) -> Vec<Block> {
    cells.sort_unstable();
    cells.dedup();
    let mut out = Vec::new();
    while let Some(&(row, col)) = cells.first() {
        let has = |r: u16, c: u16| cells.binary_search(&(r, c)).is_ok();
        let mut best = Block::cell(row, col);
        let mut wide = u16::MAX;
        let mut rows = 0;
        while has(row + rows, col) {
            let mut cols = 0;
            while cols < wide && has(row + rows, col + cols) {
                cols += 1;
            }
            wide = wide.min(cols);
            rows += 1;
            let block = Block { row, col, rows, cols: wide };
            if block.area() > best.area() {
                best = block;
            }
        }
        cells.retain(|&(r, c)| !best.holds(r, c));
        out.push(best);
    }
    out
}
