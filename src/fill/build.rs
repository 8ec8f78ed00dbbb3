//! From a garden to the problem: what may be grown where and when, and what must not happen.

mod asks;
mod cover;
mod group;
mod grow;
mod stand;
mod standing;
mod terms;

pub(super) use asks::amount;
pub(super) use cover::cells_of;

use super::cells::Cells;
use super::problem::{Bed, Problem, Side, Supply};
use super::request::{Dropped, FLEECE, Request};
use super::suit;
use super::ways::{self, Clock, Sown, Supplies};
use crate::calendar::{Season, Week};
use crate::crop::{Book, CropId, Start};
use crate::garden::{Layer, Place, Tag};
use crate::growth::{Conditions, Refusal};
use crate::plan::{Plan, PlantingId, WishId};
use crate::site::SiteYear;
use crate::site::shade::SunPaths;
use crate::units::num;
use std::collections::{BTreeMap, BTreeSet};

/// Value units in a point.
const POINT: i64 = 1_000_000;
/// Weeks looked ahead: this season and the next, so that what stands through the winter is seen to its end.
const AHEAD: usize = 104;
/// A way as the garden knows it.
#[derive(Debug, Clone)]
pub(super) struct Grown {
    pub(super) crop: CropId,
    pub(super) start: Start,
    pub(super) layer: Layer,
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
    /// The places of the beds.
    pub(super) places: Vec<&'a Place>,
    pub(super) left: Vec<Left>,
    pub(super) supplies: Supplies,
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
    mains: BTreeSet<CropId>,
    flowers: bool,
    kinds: Vec<cover::Like>,
    strict: BTreeMap<String, crate::crop::Rotation>,
    scope: Scope,
}

/// What the question is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Scope {
    /// The wishes and the gaps of a season.
    Season,
    /// Whatever may be begun on the first day; all that is planned stays.
    Today,
}

/// Puts the question of a garden.
pub fn build<'a>(plan: &'a Plan, book: &'a Book, year: &'a SiteYear, request: Request) -> Built<'a> {
    build_for(plan, book, year, (request, Scope::Season))
}

/// Puts the question of a garden for a season, or for one day.
pub(super) fn build_for<'a>(
    plan: &'a Plan,
    book: &'a Book,
    year: &'a SiteYear,
    (request, scope): (Request, Scope),
) -> Built<'a> {
    let start = plan.settings.season_start.unwrap_or_else(|| year.season_start_or_january());
    let season = Season::holding(request.from, start);
    let first = Week::of(request.from);
    let horizon = num::count(first.until(Week::of(season.plus(1).last()))) + 1;
    let clock = Clock {
        first,
        // What is begun on one day is reckoned from that day.
        day: match scope {
            Scope::Season => plan.settings.garden_day,
            Scope::Today => chrono::Datelike::weekday(&request.from),
        },
        from: request.from,
        last: match scope {
            Scope::Season => season.last(),
            Scope::Today => request.from,
        },
        weeks: horizon.min(AHEAD),
    };
    let mut open = plan.conditions(book, year);
    if request.drops(Dropped::Frost) {
        open.frost_gain = FLEECE;
    }
    let problem = Problem { weeks: clock.weeks, point: POINT, ..Problem::default() };
    let flowers = plan.places.iter().any(|p| p.tags.contains(&Tag::FlowersOnly));
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
        mains: book.crops().flat_map(|c| &c.mates).map(|m| m.main.clone()).collect(),
        flowers,
        kinds: Vec::new(),
        strict: BTreeMap::new(),
        scope,
    };
    builder.beds();
    builder.kinds = builder.kinds_of_cover();
    builder.strict = builder.strictest();
    builder.supplies();
    let (wishes, left) = builder.wishes();
    // One point in a hundred of all that is asked for.
    builder.problem.good_most = builder.problem.wishes.iter().map(|wish| wish.importance * POINT).sum();
    builder.fillers();
    builder.idle();
    builder.neighbours();
    let replaced = builder.standing(&wishes);
    let Builder { problem, clock, grown, supplies, places, .. } = builder;
    Built { problem, plan, book, clock, grown, wishes, places, left, supplies, replaced }
}

impl Builder<'_> {
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
            let supports: Vec<_> =
                place.supports.iter().map(|s| (s.cells, s.height.um(), s.from, s.until)).collect();
            let like = format!(
                "{:?} {:?} {rows} {cols} {:?} {supports:?} {:?} {} {:?} {:?}",
                place.kind,
                place.shape,
                place.tags,
                sun.iter().map(|h| num::round_i(h * 2.0)).collect::<Vec<_>>(),
                place.on_paving || place.on_deck,
                place.lead.map(|l| num::round_i(f64::from(l))),
                place.covers,
            );
            let gone = (0..self.clock.weeks).filter(|w| !place.stands_on(self.clock.date(*w)));
            let count = kinds.len();
            self.problem.beds.push(Bed {
                name: place.name.clone(),
                height: usize::from(rows),
                width: usize::from(cols),
                like: *kinds.entry(like).or_insert(count),
                sunward: if south { Side::Up } else { Side::Down },
                gone: gone.fold(0, |weeks, w| weeks | 1 << w),
            });
            self.places.push(place);
            self.sun.push(sun);
        }
    }

    fn supplies(&mut self) {
        let settings = &self.plan.settings;
        if let Some(hours) = settings.hours_a_week
            && !self.request.drops(Dropped::Hours)
        {
            self.supplies.minutes = Some(self.problem.supplies.len());
            let there = num::round_i(f64::from(hours) * 60.0 * ways::MINUTE_UNIT);
            self.problem
                .supplies
                .push(Supply { name: "minutes".into(), there: vec![there; self.clock.weeks] });
        }
        if !self.request.drops(Dropped::Trays) {
            self.supplies.trays = Some(self.problem.supplies.len());
            let room: u32 = self.plan.raising.iter().map(|r| u32::from(r.cells)).sum();
            let there = num::round_i(f64::from(room) * ways::TRAY_UNIT);
            self.problem
                .supplies
                .push(Supply { name: "tray cells".into(), there: vec![there; self.clock.weeks] });
        }
    }
}
