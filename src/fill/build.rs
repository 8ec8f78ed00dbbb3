//! From a garden to the problem: what may be grown where and when, and what must not happen.

use super::cells::Cells;
use super::past;
use super::problem::{
    Bar, Barred, Bed, Bucket, Fixed, Group, Layer as On, Near, Place as Stand, Placed, Problem, Reach, Role,
    Shape, Side, Supply, Way, Weeks, Wish as Ask, weeks,
};
use super::suit;
use super::ways::{self, Clock, Drawing, Sown, Starts, Supplies};
use crate::calendar::{ClimateDay, Date, Season, Week, plus};
use crate::crop::{Book, BreakWeight, Crop, CropId, Grade, Habit, MateTime, Start, Use};
use crate::garden::{Layer, Place, capacity, shapes_in};
use crate::growth::{Conditions, Refusal, age, outlook};
use crate::plan::{Pattern, Plan, Planting, PlantingId, Why, Wish, WishId};
use crate::site::shade::SunPaths;
use crate::site::{SHORT_DAY, SiteYear};
use crate::units::{Amount, num};
use std::collections::{BTreeMap, BTreeSet};

/// Value units in a point.
const POINT: i64 = 1_000_000;
/// Weeks looked ahead: this season and the next, so that what stands through the winter is seen to its end.
const AHEAD: usize = 104;
/// Points for each planting of the plan in force that is kept when re-planning.
const KEEP: i64 = 2;
/// Points lost by a cell whose soil had the family too recently, before the advised and before the least break.
const EARLY: (i64, i64) = (POINT, 2 * POINT);
/// Points lost by a second stay in one soil of a family that should come once a season, and by a second use of a
/// cell by another family.
const TWICE: (i64, i64) = (25 * POINT, POINT / 2);
/// Points for each shared edge and week: a neighbour that helps, one that harms, a tall plant on the sunward side.
const BESIDE: (i64, i64, i64) = (POINT * 6 / 100, -POINT * 8 / 100, -POINT * 12 / 100);

/// Mean temperature from which plants grow, degrees Celsius (ETCCDI growing season length).
const GROWS: f64 = 5.0;

/// What is to be filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Request {
    /// Nothing is begun before this date; what stands then stays.
    pub from: Date,
    /// The plan in force is kept where it can be (a re-plan).
    pub keep: bool,
    /// Leave out one rule, to see what it costs.
    pub drop: Option<Dropped>,
}

impl Request {
    /// A plan from a date on, without regard to the one in force.
    pub const fn from(from: Date) -> Self {
        Self { from, keep: false, drop: None }
    }
    /// A re-plan from a date on.
    pub const fn again(from: Date) -> Self {
        Self { from, keep: true, drop: None }
    }
}

/// A rule that may be left out to see what it costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dropped {
    /// Breaks of families and diseases.
    Breaks,
    /// Hours of work.
    Hours,
    /// Room for seedlings.
    Trays,
}

/// A way as the garden knows it.
#[derive(Debug, Clone)]
pub(super) struct Grown {
    pub(super) crop: CropId,
    pub(super) start: Start,
    pub(super) layer: Layer,
    pub(super) role: Role,
    pub(super) sown: Vec<Sown>,
    pub(super) refused: Vec<(usize, Refusal)>,
}

/// A wish that could not be put as a question at all, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Left {
    pub(super) wish: WishId,
    pub(super) why: String,
}

/// A problem with the way back to the garden it came from.
#[derive(Debug, Clone)]
pub struct Built<'a> {
    /// The problem.
    pub problem: Problem,
    pub(super) plan: &'a Plan,
    pub(super) book: &'a Book,
    pub(super) clock: Clock,
    pub(super) grown: Vec<Grown>,
    pub(super) wishes: Vec<WishId>,
    pub(super) left: Vec<Left>,
    /// Words of [`Bar`] labels.
    pub(super) labels: Vec<String>,
    /// Plantings that the answer replaces.
    pub(super) replaced: Vec<PlantingId>,
}

struct Builder<'a> {
    plan: &'a Plan,
    book: &'a Book,
    year: &'a SiteYear,
    request: Request,
    open: Conditions<'a>,
    clock: Clock,
    season: Season,
    supplies: Supplies,
    problem: Problem,
    places: Vec<&'a Place>,
    sun: Vec<Vec<f64>>,
    groups: BTreeMap<String, usize>,
    grown: Vec<Grown>,
    labels: Vec<String>,
    mains: BTreeSet<CropId>,
    flowers: bool,
}

/// Puts the question of a garden.
pub fn build<'a>(plan: &'a Plan, book: &'a Book, year: &'a SiteYear, request: Request) -> Built<'a> {
    let start = plan.settings.season_start.unwrap_or_else(|| year.season_start_or_january());
    let season = Season::holding(request.from, start);
    let first = Week::of(request.from);
    let horizon = num::count(first.until(Week::of(season.plus(1).last()))) + 1;
    let clock = Clock {
        first,
        day: plan.settings.garden_day,
        from: request.from,
        last: season.last(),
        weeks: horizon.min(AHEAD),
    };
    let mut open = Conditions::new(year).by(plan.settings.method).at(plan.settings.risk);
    open.raising = plan.raising.first().map_or(open.raising, |r| r.temperature.celsius());
    let problem = Problem { weeks: clock.weeks, point: POINT, ..Problem::default() };
    let flowers = plan.places.iter().any(|p| p.tags.contains(&crate::garden::Tag::FlowersOnly));
    let mut builder = Builder {
        plan,
        book,
        year,
        request,
        open,
        clock,
        season,
        supplies: Supplies::default(),
        problem,
        places: Vec::new(),
        sun: Vec::new(),
        groups: BTreeMap::new(),
        grown: Vec::new(),
        labels: Vec::new(),
        mains: book.crops().flat_map(|c| &c.mates).map(|m| m.main.clone()).collect(),
        flowers,
    };
    builder.beds();
    builder.supplies();
    let (wishes, left) = builder.wishes();
    // One point in a hundred of all that is asked for.
    builder.problem.good_most = builder.problem.wishes.iter().map(|wish| wish.importance * POINT).sum();
    builder.fillers();
    builder.idle();
    builder.neighbours();
    let replaced = builder.standing(&wishes);
    let Builder { problem, clock, grown, labels, .. } = builder;
    Built { problem, plan, book, clock, grown, wishes, left, labels, replaced }
}

impl<'a> Builder<'a> {
    fn beds(&mut self) {
        let end = self.clock.date(self.clock.weeks);
        let paths = SunPaths::new(self.plan.site.lat, self.plan.site.plan_turn);
        let south = self.plan.site.lat < 0.0;
        let mut kinds: BTreeMap<String, usize> = BTreeMap::new();
        for place in &self.plan.places {
            let (rows, cols) = place.grid(self.plan.settings.cell);
            let cells = usize::from(rows) * usize::from(cols);
            if place.since >= end || place.until.is_some_and(|u| u <= self.clock.from) || cells > Cells::MOST
            {
                continue;
            }
            let sun = suit::sun(self.plan, self.year, place, &paths);
            let supports: Vec<_> = place.supports.iter().map(|s| (s.cells, s.height.um())).collect();
            let like = format!(
                "{:?} {:?} {rows} {cols} {:?} {supports:?} {:?} {} {:?}",
                place.kind,
                place.shape,
                place.tags,
                sun.iter().map(|h| num::round_i(h * 2.0)).collect::<Vec<_>>(),
                place.on_paving || place.on_deck,
                place.lead.map(|l| num::round_i(f64::from(l))),
            );
            let count = kinds.len();
            self.problem.beds.push(Bed {
                name: place.name.clone(),
                height: usize::from(rows),
                width: usize::from(cols),
                like: *kinds.entry(like).or_insert(count),
                sunward: if south { Side::Up } else { Side::Down },
            });
            self.places.push(place);
            self.sun.push(sun);
        }
    }

    fn supplies(&mut self) {
        let settings = &self.plan.settings;
        if let Some(hours) = settings.hours_a_week
            && self.request.drop != Some(Dropped::Hours)
        {
            self.supplies.minutes = Some(self.problem.supplies.len());
            let there = num::round_i(f64::from(hours) * 60.0 * ways::MINUTE_UNIT);
            self.problem
                .supplies
                .push(Supply { name: "minutes".into(), there: vec![there; self.clock.weeks] });
        }
        if self.request.drop != Some(Dropped::Trays) {
            self.supplies.trays = Some(self.problem.supplies.len());
            let room: u32 = self.plan.raising.iter().map(|r| u32::from(r.cells)).sum();
            let there = num::round_i(f64::from(room) * ways::TRAY_UNIT);
            self.problem
                .supplies
                .push(Supply { name: "tray cells".into(), there: vec![there; self.clock.weeks] });
        }
    }

    /// The crops that meet a wish: the crop itself and, where the wish names a crop and no variety, its varieties.
    fn candidates(&self, wish: &Wish) -> Vec<&'a Crop> {
        let Some(crop) = self.book.get(&wish.crop) else { return Vec::new() };
        let mut out = vec![crop];
        if crop.of.is_none() {
            let book: &'a Book = self.book;
            // A variety picked as something else (pea shoots, green onions) is not what was wished for; nor, for
            // laying down, is one that does not keep.
            let kept = |c: &Crop| c.keeps.as_ref().map_or(0, |k| k.days.0);
            let keeps = |c: &Crop| wish.pattern != Pattern::Store || kept(c) * 2 >= kept(crop);
            let same = |c: &Crop| c.part == crop.part && keeps(c);
            out.extend(book.crops().filter(|c| c.of.as_ref() == Some(&crop.id) && same(c)));
        }
        out
    }

    fn wishes(&mut self) -> (Vec<WishId>, Vec<Left>) {
        let (mut ids, mut left) = (Vec::new(), Vec::new());
        let plan = self.plan;
        for wish in &plan.wishes {
            match self.ask(wish) {
                Ok(ask) => {
                    let index = self.problem.wishes.len();
                    self.problem.wishes.push(ask);
                    ids.push(wish.id);
                    for crop in self.candidates(wish) {
                        self.grow(crop, Some((index, wish)));
                    }
                }
                Err(why) => left.push(Left { wish: wish.id, why }),
            }
        }
        (ids, left)
    }

    fn ask(&self, wish: &Wish) -> Result<Ask, String> {
        let Some(crop) = self.book.get(&wish.crop) else {
            return Err(format!("'{}' is not in the crop book", wish.crop));
        };
        if !self.candidates(wish).iter().any(|c| ways::scale(c, wish.amount).is_some()) {
            return Err(format!(
                "{} is counted as {}, not as {}",
                crop.name, crop.harvest.usual, wish.amount
            ));
        }
        let season = wish.season.map_or(self.season, |y| {
            Season::beginning(y, crate::calendar::MonthDay::of(self.season.first()))
        });
        let first = wish.from.climate_day().on_or_after(season.first());
        let last = wish.to.climate_day().on_or_after(first);
        if last < self.clock.from {
            return Err(String::from("its weeks are over"));
        }
        let (from, to) =
            (self.clock.first.until(Week::of(first)), self.clock.first.until(Week::of(last)) + 1);
        let from = num::count(from);
        let to = num::count(to).min(self.clock.weeks);
        if from >= to {
            return Err(String::from("its weeks lie beyond what is planned now"));
        }
        let unit = ways::unit(wish.amount) * wish.amount.value();
        let spans: Vec<(usize, usize)> = match wish.pattern {
            Pattern::Even => {
                let keeps = crop.keeps.as_ref().map_or(7, |k| usize::from(k.days.0));
                let step = (keeps / 7).clamp(1, 4);
                (from..to).step_by(step).map(|a| (a, (a + step).min(to))).collect()
            }
            Pattern::AtOnce | Pattern::Store => vec![(from, to)],
        };
        let amount = |a: usize, b: usize| match wish.pattern {
            Pattern::Even => unit * num::real(b - a),
            Pattern::AtOnce | Pattern::Store => unit,
        };
        let total: f64 = spans.iter().map(|&(a, b)| amount(a, b)).sum();
        if total < 1.0 {
            return Err(String::from("no amount is asked for"));
        }
        let value = num::round_i(100.0 * f64::from(wish.importance) * num::real_i(POINT) / total).max(5);
        let buckets = spans
            .into_iter()
            .map(|(a, b)| {
                let want = num::round_i(amount(a, b)).max(1);
                Bucket { from: a, to: b, want, extra: want / 2, value, beyond: value / 5 }
            })
            .collect();
        Ok(Ask { name: crop.name.clone(), importance: i64::from(wish.importance), buckets })
    }

    /// Adds the ways of a crop: each method of starting, in the main layer and as a mate.
    fn grow(&mut self, crop: &'a Crop, wish: Option<(usize, &Wish)>) {
        let scale = match wish {
            Some((_, wish)) => match ways::scale(crop, wish.amount) {
                Some(scale) => scale,
                None => return,
            },
            None => 0.0,
        };
        let role = match wish {
            Some(_) => Role::Wished,
            None if crop.is_food() => Role::Catch,
            None => Role::Cover,
        };
        let opens = self.mains.contains(&crop.id) || self.mains.contains(crop.base());
        let by_cell = crate::garden::plants_in(crop.spacing.wide, 1, 1, self.plan.settings.cell) > 1;
        let raised = crop.starts.iter().any(|s| !matches!(s, Start::Bought));
        for &start in &crop.starts {
            // A bought plant is a way out for a crop that cannot be raised, not a second copy of every start.
            if (matches!(start, Start::Bought) && raised) || (role != Role::Wished && start != Start::InPlace)
            {
                continue;
            }
            let clock = self.clock;
            let drawing =
                Drawing { plan: self.plan, clock: &clock, supplies: self.supplies, scale, opens, by_cell };
            let starts = match role {
                Role::Cover => ways::covers(crop, &self.open, start, &drawing),
                Role::Wished | Role::Catch => ways::starts(crop, &self.open, start, &drawing),
            };
            let places = wish.map(|(_, w)| w.places.as_slice()).unwrap_or_default();
            let index = wish.map(|(i, _)| i);
            if role == Role::Wished && !crop.mates.is_empty() {
                self.way(crop, start, (index, role, Layer::Mate), starts.clone(), places);
            }
            self.way(crop, start, (index, role, Layer::Main), starts, places);
        }
    }

    fn way(
        &mut self,
        crop: &'a Crop,
        start: Start,
        (wish, role, layer): (Option<usize>, Role, Layer),
        starts: Starts,
        only: &[crate::garden::PlaceId],
    ) {
        let mut way = Way {
            name: crop.name.clone(),
            wish,
            role,
            layer: if layer == Layer::Mate { On::Mate } else { On::Main },
            groups: vec![self.group(crop)],
            ..Way::default()
        };
        for bed in 0..self.places.len() {
            self.stand(crop, bed, (&starts, layer), only, &mut way);
        }
        way.starts = starts.begins;
        if layer == Layer::Mate {
            for begin in &mut way.starts {
                begin.open = 0;
            }
        }
        self.problem.ways.push(way);
        self.grown.push(Grown {
            crop: crop.id.clone(),
            start,
            layer,
            role,
            sown: starts.sown,
            refused: starts.refused,
        });
    }

    fn label(&mut self, words: String) -> usize {
        self.labels.iter().position(|l| *l == words).unwrap_or_else(|| {
            self.labels.push(words);
            self.labels.len() - 1
        })
    }

    /// Where in a bed a crop may stand, and from when.
    fn stand(
        &mut self,
        crop: &Crop,
        bed: usize,
        (starts, layer): (&Starts, Layer),
        only: &[crate::garden::PlaceId],
        way: &mut Way,
    ) {
        let place = self.places[bed];
        if !only.is_empty() && !only.contains(&place.id) {
            let label = self.label(format!("{}: not among the places wished for", place.name));
            way.barred.push(Barred { bed, why: Bar::Unfit { label } });
            return;
        }
        let cells = match suit::cells((self.plan, self.book), place, crop, &self.sun[bed], self.flowers) {
            Ok(cells) => cells,
            Err(words) => {
                let label = self.label(words);
                way.barred.push(Barred { bed, why: Bar::Unfit { label } });
                return;
            }
        };
        let shapes = self.shapes(crop, place, layer, way);
        if shapes.is_empty() {
            let label = self.label(format!("{}: no block of it fits", place.name));
            way.barred.push(Barred { bed, why: Bar::Unfit { label } });
            return;
        }
        // Fresh mix on a date is another soil: each stretch of one soil is judged by itself.
        let mut edges = vec![0];
        edges.extend(place.refilled.iter().map(|d| self.clock.on_or_after(*d)));
        edges.push(self.clock.weeks);
        edges.dedup();
        let clock = self.clock;
        let since = clock.on_or_after(place.since);
        let until = place.until.map_or(clock.weeks, |u| {
            let late = |s: &Sown| s.dates.cleared.is_none_or(|c| c > u);
            starts.begins.iter().zip(&starts.sown).find(|(_, s)| late(s)).map_or(clock.weeks, |(b, _)| b.week)
        });
        for pair in edges.windows(2) {
            let (mut from, to) = (pair[0].max(since), pair[1].min(until));
            if from >= to {
                continue;
            }
            let day = clock.date(from);
            let soil = place.soil_on(day);
            let stays = past::stays(self.plan, self.book, place, &soil, day);
            let rotation = self.plan.settings.rotation_of(crop, self.book);
            let drop = self.request.drop == Some(Dropped::Breaks);
            if rotation.weight == BreakWeight::Stop
                && !drop
                && let Some(free) = past::free_from(&stays, &crop.family, None, rotation.least)
            {
                let week = clock.on_or_after(free);
                if week > from {
                    let common = self.book.family(&crop.family).map_or(crop.family.as_str(), |f| &f.common);
                    let words = format!(
                        "{}: {common} stood there; free again from {} {}",
                        place.name,
                        crate::calendar::day_text(free),
                        chrono::Datelike::year(&free)
                    );
                    let label = self.label(words);
                    let until = (week < to).then_some(week);
                    way.barred.push(Barred { bed, why: Bar::Break { group: way.groups[0], until, label } });
                }
                from = from.max(week);
            }
            if !drop && let Some((free, trouble)) = past::sound_from(self.plan, self.book, place, crop, &soil)
            {
                let week = clock.on_or_after(free);
                if week > from {
                    let label = self.label(format!(
                        "{}: {trouble} was seen there; free again from {} {}",
                        place.name,
                        crate::calendar::day_text(free),
                        chrono::Datelike::year(&free)
                    ));
                    let until = (week < to).then_some(week);
                    way.barred.push(Barred { bed, why: Bar::Break { group: way.groups[0], until, label } });
                }
                from = from.max(week);
            }
            if let Some(clean) = suit::clean_from(place, crop, day) {
                let week = starts
                    .begins
                    .iter()
                    .zip(&starts.sown)
                    .find(|(_, s)| s.dates.first_pick.is_none_or(|p| p >= clean))
                    .map_or(to, |(b, _)| b.week);
                from = from.max(week);
            }
            if from >= to {
                continue;
            }
            let cost = soft(crop, &stays, clock.date(from.midpoint(to.min(from + 40))), rotation);
            let area = self.problem.beds[bed].cells();
            way.places.push(Stand {
                bed,
                from,
                to,
                shapes: shapes.clone(),
                cells,
                costs: if cost > 0 { vec![cost; area] } else { Vec::new() },
            });
        }
    }

    /// Indices of the blocks a crop may take in a place.
    fn shapes(&self, crop: &Crop, place: &Place, layer: Layer, way: &mut Way) -> Vec<usize> {
        let cell = self.plan.settings.cell;
        let found: Vec<(u16, u16, u16)> = match layer {
            Layer::Main => shapes_in(crop, place, cell),
            // Between larger plants there is room for half as many.
            Layer::Mate => {
                let n = capacity(crop, place, 1, 1, cell) / 2;
                if n > 0 { vec![(1, 1, n)] } else { Vec::new() }
            }
        };
        let mut out = Vec::new();
        for (rows, cols, plants) in found {
            let size = (usize::from(rows), usize::from(cols));
            let plants = i64::from(plants);
            let same = |s: &Shape| {
                s.plants == plants && s.sizes.iter().any(|&(a, b)| (a, b) == size || (b, a) == size)
            };
            let at = way.shapes.iter().position(same).unwrap_or_else(|| {
                way.shapes.push(Shape { sizes: Vec::new(), plants });
                way.shapes.len() - 1
            });
            if !way.shapes[at].sizes.contains(&size) {
                way.shapes[at].sizes.push(size);
            }
            if !out.contains(&at) {
                out.push(at);
            }
        }
        out.sort_unstable();
        out
    }

    /// The group of a crop's family.
    fn group(&mut self, crop: &Crop) -> usize {
        if let Some(&at) = self.groups.get(&crop.family) {
            return at;
        }
        let rotation = self.plan.settings.rotation_of(crop, self.book);
        let once = self.book.family(&crop.family).is_some_and(|f| f.once_a_season);
        let stop = rotation.weight == BreakWeight::Stop && self.request.drop != Some(Dropped::Breaks);
        let off = rotation.weight == BreakWeight::Off;
        let whole = (stop || once) && !self.plan.settings.rotation_by_cell;
        let at = self.problem.groups.len();
        self.problem.groups.push(Group {
            name: self.book.family(&crop.family).map_or_else(|| crop.family.clone(), |f| f.common.clone()),
            reach: if whole { Reach::Bed } else { Reach::Cell },
            apart: if stop { usize::from(rotation.least) * 53 } else { 0 },
            again: if off {
                0
            } else if once {
                TWICE.0
            } else {
                TWICE.1
            },
        });
        self.groups.insert(crop.family.clone(), at);
        at
    }

    /// Catch crops and cover crops.
    fn fillers(&mut self) {
        let book = self.book;
        for crop in book.crops() {
            let catch = self.plan.settings.catch_crops && crop.catch && crop.is_food();
            let cover = self.plan.settings.cover_crops && crop.is_for(Use::Cover) && !crop.is_food();
            if catch || cover {
                self.grow(crop, None);
            }
        }
    }

    /// The season: the weeks in which a quick crop of the book can stand here and really grows: their mean
    /// temperature is at least 5 C (growing season of the WMO climate indices) and their days are not under ten
    /// hours.
    fn idle(&mut self) {
        let mut season: Weeks = 0;
        let clock = Clock { from: Date::MIN, ..self.clock };
        let drawing = Drawing {
            plan: self.plan,
            clock: &clock,
            supplies: Supplies::default(),
            scale: 0.0,
            opens: false,
            by_cell: true,
        };
        for crop in self.book.crops().filter(|c| c.catch && c.is_food() && c.starts.contains(&Start::InPlace))
        {
            for begin in ways::starts(crop, &self.open, Start::InPlace, &drawing).begins {
                season |= begin.taken;
            }
        }
        for week in 0..self.clock.weeks {
            let day = ClimateDay::of(self.clock.date(week)).index();
            let grows = self.year.tmean[day] >= GROWS && self.year.daylength[day] >= SHORT_DAY;
            if !grows {
                season &= !(1 << week);
            }
        }
        let last = self.clock.on_or_after(plus(self.season.last(), 1));
        self.problem.season = season & weeks(0, last);
    }

    fn neighbours(&mut self) {
        let crops: Vec<Option<&Crop>> = self.grown.iter().map(|g| self.book.get(&g.crop)).collect();
        let is = |crop: &Crop, text: &str| crop.id.0 == text || crop.base().0 == text || crop.family == text;
        for (a, one) in crops.iter().enumerate() {
            for (b, two) in crops.iter().enumerate() {
                let (Some(one), Some(two)) = (one, two) else { continue };
                let claim = one.neighbours.iter().find(|n| n.grade <= Grade::B && is(two, &n.with));
                if let Some(claim) = claim {
                    let value = if claim.helps { BESIDE.0 } else { BESIDE.1 };
                    self.problem.neighbours.push(Near { a, b, value });
                }
                let tall = one.height.m() >= 1.2 || matches!(one.habit, Habit::Climbing);
                if tall && two.height.m() < 0.5 * one.height.m() && two.light.full >= 6.0 {
                    self.problem.shades.push(Near { a, b, value: BESIDE.2 });
                }
                let drill = two
                    .mates
                    .iter()
                    .any(|m| m.when == MateTime::Always && (m.main == one.id || m.main == *one.base()));
                if drill && self.grown[b].layer == Layer::Mate && self.grown[a].layer == Layer::Main {
                    self.problem.pairs.push((a, b));
                }
            }
        }
    }

    /// What stays, and the plan in force; returns the plantings that the answer replaces.
    fn standing(&mut self, wishes: &[WishId]) -> Vec<PlantingId> {
        let mut replaced = Vec::new();
        let plan = self.plan;
        let end = self.clock.date(self.clock.weeks);
        for planting in &plan.plantings {
            let Some(begins) = planting.begins() else { continue };
            let over = planting
                .ends()
                .into_iter()
                .chain(planting.failed)
                .min()
                .is_some_and(|e| e <= self.clock.from);
            if over || begins >= end {
                continue;
            }
            let first = planting.dates().in_order().into_iter().min().unwrap_or(begins);
            let settled = planting.fixed
                || planting.why == Why::Hand
                || planting.has_begun()
                || first < self.request.from;
            if settled {
                self.fix(planting, wishes);
            } else {
                replaced.push(planting.id);
                if self.request.keep {
                    self.keep(planting);
                }
            }
        }
        if self.request.keep {
            self.problem.keep_bonus = KEEP * POINT;
        }
        replaced
    }

    fn fix(&mut self, planting: &Planting, wishes: &[WishId]) {
        let Some(bed) = self.places.iter().position(|p| p.id == planting.place) else { return };
        let Some(begins) = planting.begins() else { return };
        let ends = planting.ends().into_iter().chain(planting.failed).min();
        let width = self.problem.beds[bed].width;
        let height = self.problem.beds[bed].height;
        let mut cells = Cells::NONE;
        for (row, col) in planting.block.cells() {
            let (row, col) = (usize::from(row), usize::from(col));
            if row < height && col < width {
                cells.insert(row * width + col);
            }
        }
        let taken = self.clock.taken(begins.max(self.clock.date(0)), ends);
        if cells.is_empty() || taken == 0 {
            return;
        }
        let crop = self.book.get(&planting.crop);
        let open = match (crop, planting.dates().closed) {
            (Some(_), Some(closed)) if planting.layer == Layer::Main => {
                let to = self.clock.on_or_after(closed);
                taken & weeks(0, if to > 0 && self.clock.date(to) > closed { to - 1 } else { to })
            }
            (Some(_) | None, _) => 0,
        };
        let way = self.grown.iter().position(|g| {
            g.crop == planting.crop
                && g.layer == planting.layer
                && std::mem::discriminant(&g.start) == std::mem::discriminant(&planting.start)
        });
        let groups = match crop {
            Some(crop) => vec![self.group(crop)],
            None => self.groups.get(&planting.family).copied().into_iter().collect(),
        };
        let gives = crop.map_or_else(Vec::new, |crop| self.gives(planting, crop, wishes));
        self.problem.fixed.push(Fixed {
            name: planting.name.clone(),
            way,
            layer: if planting.layer == Layer::Mate { On::Mate } else { On::Main },
            groups,
            bed,
            cells,
            taken,
            open,
            gives,
            cost: 0,
        });
    }

    /// What a standing planting will give to the wishes: to its own, or to the first its crop can meet.
    fn gives(&self, planting: &Planting, crop: &Crop, wishes: &[WishId]) -> Vec<(usize, usize, i64)> {
        let meets = |wish: &Wish| {
            (wish.crop == crop.id || wish.crop == *crop.base()) && ways::scale(crop, wish.amount).is_some()
        };
        let own = match planting.why {
            Why::Wish(id) => wishes.iter().position(|w| *w == id),
            Why::Hand | Why::Catch | Why::Cover => {
                wishes.iter().position(|w| self.plan.wish(*w).is_some_and(&meets))
            }
        };
        let (Some(at), Some(begins)) = (own, planting.begins()) else { return Vec::new() };
        let Some(scale) = self.plan.wish(wishes[at]).and_then(|w| ways::scale(crop, w.amount)) else {
            return Vec::new();
        };
        if planting.failed.is_some() {
            return Vec::new();
        }
        let conditions = ways::conditions(&self.open, self.plan, crop);
        let on = plus(begins, -age(planting.start));
        let Some(schedule) = outlook(crop, &conditions, planting.start, on).schedule else {
            return Vec::new();
        };
        let each = crop.harvest.usual.value() * scale * f64::from(planting.plants);
        let mut out: BTreeMap<usize, f64> = BTreeMap::new();
        for (week, share) in &schedule.weeks {
            let Some(week) = self.clock.index(*week) else { continue };
            let bucket = self.problem.wishes[at].buckets.iter().position(|b| b.from <= week && week < b.to);
            if let Some(bucket) = bucket {
                *out.entry(bucket).or_default() += each * share;
            }
        }
        out.into_iter().map(|(bucket, amount)| (at, bucket, num::round_i(amount))).collect()
    }

    /// A planting of the plan in force as the search would place it; one of many cells may be many there.
    fn keep(&mut self, planting: &Planting) {
        let Some(bed) = self.places.iter().position(|p| p.id == planting.place) else { return };
        let (Some(begins), block) = (planting.begins(), planting.block) else { return };
        let role = |why: Why, role: Role| match why {
            Why::Wish(_) | Why::Hand => role == Role::Wished,
            Why::Catch | Why::Cover => false,
        };
        for (w, grown) in self.grown.iter().enumerate() {
            if grown.crop != planting.crop
                || grown.layer != planting.layer
                || !role(planting.why, grown.role)
                || std::mem::discriminant(&grown.start) != std::mem::discriminant(&planting.start)
            {
                continue;
            }
            let way = &self.problem.ways[w];
            let Some(start) = way.starts.iter().position(|s| self.clock.date(s.week) == begins) else {
                continue;
            };
            let size = (usize::from(block.rows), usize::from(block.cols));
            let (row, column) = (usize::from(block.row), usize::from(block.col));
            let whole = way.shapes.iter().position(|s| s.sizes.contains(&size));
            let single = way.shapes.iter().position(|s| s.sizes.contains(&(1, 1)));
            let placed = |shape, row, column, (height, width)| Placed {
                way: w,
                start,
                shape,
                bed,
                row,
                column,
                height,
                width,
            };
            match (whole, single) {
                (Some(shape), _) => self.problem.keep.push(placed(shape, row, column, size)),
                (None, Some(shape)) => {
                    for (r, c) in block.cells() {
                        self.problem.keep.push(placed(shape, usize::from(r), usize::from(c), (1, 1)));
                    }
                }
                (None, None) => {}
            }
            return;
        }
    }
}

/// Cost of a cell whose soil had the family too recently.
fn soft(crop: &Crop, stays: &[past::Stay], day: Date, rotation: crate::crop::Rotation) -> i64 {
    let before = |years: u8| past::free_from(stays, &crop.family, None, years).is_some_and(|free| free > day);
    if rotation.weight == BreakWeight::Off {
        0
    } else if before(rotation.least) {
        EARLY.1
    } else if before(rotation.advised) {
        EARLY.0
    } else {
        0
    }
}

/// An amount of the problem as the grower reads it.
pub(super) fn amount(like: Amount, units: i64) -> Amount {
    like.with_value(num::real_i(units) / ways::unit(like))
}
