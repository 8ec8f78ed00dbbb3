//! What a rule may look at, with the plantings sorted by place.

use super::season::Outlooks;
use super::soil::Stay;
use crate::calendar::{Date, Season, SeasonStart, plus};
use crate::crop::{Book, BreakWeight, Crop, Rotation};
use crate::garden::{Place, PlaceId, SoilId};
use crate::growth::Conditions;
use crate::plan::{Plan, Planting, PlantingId};
use crate::site::SiteYear;
use crate::site::shade::SunPaths;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// A plan, the crop book and the days that are judged. What stood before them still counts for the rules that look
/// back.
#[derive(Debug, Clone)]
pub struct Context<'a> {
    /// The garden.
    pub plan: &'a Plan,
    /// The crop book.
    pub book: &'a Book,
    /// The site's year.
    pub year: &'a SiteYear,
    /// First day judged.
    pub from: Date,
    /// Last day judged.
    pub to: Date,
    /// Growth in the open, from which other conditions are made: they share its curves.
    pub(super) open: Conditions<'a>,
    by_place: BTreeMap<&'a PlaceId, Vec<&'a Planting>>,
    /// Plantings that are one act of the grower, by the first of them.
    alike: BTreeMap<PlantingId, Vec<&'a Planting>>,
    places: BTreeMap<&'a PlaceId, &'a Place>,
    outlooks: OnceLock<Outlooks>,
    sky: OnceLock<SunPaths>,
    stays: OnceLock<BTreeMap<SoilId, Vec<Stay<'a>>>>,
    pairs: OnceLock<Vec<(&'a Planting, &'a Planting)>>,
}

impl<'a> Context<'a> {
    /// Judges what stands on any day from `from` to `to`.
    pub fn new(plan: &'a Plan, book: &'a Book, year: &'a SiteYear, from: Date, to: Date) -> Self {
        let mut by_place: BTreeMap<&PlaceId, Vec<&Planting>> = BTreeMap::new();
        for planting in &plan.plantings {
            by_place.entry(&planting.place).or_default().push(planting);
        }
        for plantings in by_place.values_mut() {
            plantings.sort_by_key(|p| (p.begins(), p.id));
        }
        let mut alike: BTreeMap<PlantingId, Vec<&Planting>> = BTreeMap::new();
        for plantings in by_place.values() {
            let mut sorted = plantings.clone();
            sorted.sort_by_key(|p| (p.block.row, p.block.col, p.id));
            for planting in sorted {
                let first =
                    alike.values_mut().find(|group| group.first().is_some_and(|g| one_act(g, planting)));
                match first {
                    Some(group) => group.push(planting),
                    None => {
                        alike.insert(planting.id, vec![planting]);
                    }
                }
            }
        }
        Self {
            plan,
            book,
            year,
            from,
            to,
            open: plan.conditions(book, year),
            by_place,
            alike,
            places: plan.places.iter().map(|place| (&place.id, place)).collect(),
            outlooks: OnceLock::new(),
            sky: OnceLock::new(),
            stays: OnceLock::new(),
            pairs: OnceLock::new(),
        }
    }
    /// Judges everything that was ever planned.
    pub fn whole(plan: &'a Plan, book: &'a Book, year: &'a SiteYear) -> Self {
        Self::new(plan, book, year, Date::MIN, Date::MAX)
    }

    /// Plantings that take their cells, or are raised, on a day that is judged.
    pub fn judged(&self) -> impl Iterator<Item = &'a Planting> + use<'_, 'a> {
        self.plan.plantings.iter().filter(|p| self.judges(p))
    }
    /// Judged plantings that are one act of the grower only once: the first of each crop sown or set out in a place
    /// on one day and cleared on one day. [`Context::twins`] gives the others.
    pub fn judged_once(&self) -> impl Iterator<Item = &'a Planting> + use<'_, 'a> {
        self.judged().filter(|p| self.alike.contains_key(&p.id))
    }
    /// A planting with those that are one act with it, in the order of their cells.
    pub fn twins(&self, planting: &Planting) -> &[&'a Planting] {
        self.alike.get(&planting.id).map_or(&[], Vec::as_slice)
    }
    /// Whether a planting is judged.
    pub fn judges(&self, planting: &Planting) -> bool {
        let first = planting.dates().in_order().into_iter().min().or_else(|| planting.begins());
        first.is_none_or(|d| d <= self.to) && planting.ends().is_none_or(|d| d > self.from)
    }
    /// Whether any day of a stretch is judged.
    pub fn touches(&self, from: Date, to: Option<Date>) -> bool {
        from <= self.to && to.is_none_or(|t| t >= self.from)
    }
    /// Plantings of a place by their first day.
    pub fn in_place(&self, place: &PlaceId) -> &[&'a Planting] {
        self.by_place.get(place).map_or(&[], Vec::as_slice)
    }
    /// The bed or pot of that id.
    pub fn place(&self, id: &PlaceId) -> Option<&'a Place> {
        self.places.get(id).copied()
    }
    /// The crop of a planting, where the book has it.
    pub fn crop(&self, planting: &Planting) -> Option<&'a Crop> {
        self.book.get(&planting.crop)
    }
    /// The conditions under which a planting grows.
    pub(super) fn conditions(&self, planting: &Planting, crop: &Crop) -> Conditions<'a> {
        self.plan.conditions_of(&self.open, planting, crop)
    }
    /// The family of a planting: the book's, or the one kept with the planting.
    pub fn family<'b>(&self, planting: &'b Planting) -> &'b str
    where
        'a: 'b,
    {
        self.crop(planting).map_or(planting.family.as_str(), |c| c.family.as_str())
    }
    /// What growers call a family: "nightshades"; its botanical name where the book does not know it.
    pub fn common(&self, family: &str) -> String {
        self.book.family(family).map_or_else(|| family.to_owned(), |f| f.common.clone())
    }
    /// The break that holds for a planting here.
    pub fn rotation(&self, planting: &Planting) -> Rotation {
        let settings = &self.plan.settings.rotation;
        if let Some(crop) = self.crop(planting) {
            return self.plan.settings.rotation_of(crop, self.book);
        }
        settings
            .get(&planting.family)
            .copied()
            .or_else(|| self.book.family(&planting.family).map(|f| f.rotation))
            .unwrap_or(Rotation { least: 1, advised: 1, weight: BreakWeight::Mind })
    }
    /// The day on which seasons begin here.
    pub fn season_start(&self) -> SeasonStart {
        self.plan.settings.season_start.unwrap_or_else(|| self.year.season_start_or_january())
    }
    /// The season of a date.
    pub fn season(&self, date: Date) -> Season {
        Season::holding(date, self.season_start())
    }
    /// What the site's year says to each judged planting; drawn up when it is first asked for.
    pub(super) fn outlooks(&self) -> &Outlooks {
        self.outlooks.get_or_init(|| super::season::outlooks(self))
    }
    /// The sun's paths over the site plan.
    pub(super) fn sky(&self) -> &SunPaths {
        self.sky.get_or_init(|| SunPaths::new(self.year.lat, self.plan.site.plan_turn))
    }
    /// Every stay in a body of soil, by its first day.
    pub(super) fn stays(&self, soil: &SoilId) -> &[Stay<'a>] {
        let all = self.stays.get_or_init(|| super::soil::all_stays(self));
        all.get(soil).map_or(&[], Vec::as_slice)
    }
    /// Pairs of plantings of one place that stand at the same time, the earlier first; at least one is judged.
    pub fn pairs(&self) -> &[(&'a Planting, &'a Planting)] {
        self.pairs.get_or_init(|| self.paired())
    }
    fn paired(&self) -> Vec<(&'a Planting, &'a Planting)> {
        let mut out = Vec::new();
        for plantings in self.by_place.values() {
            for (i, a) in plantings.iter().enumerate() {
                let Some(end) = a.ends().or(Some(Date::MAX)) else { continue };
                for b in plantings.get(i + 1..).unwrap_or_default() {
                    let Some(begin) = b.begins() else { continue };
                    if begin >= end {
                        break;
                    }
                    if a.begins().is_some() && (self.judges(a) || self.judges(b)) {
                        out.push((*a, *b));
                    }
                }
            }
        }
        out
    }
    /// The days on which two plantings stand together, last day included; none where they do not.
    pub fn together(&self, a: &Planting, b: &Planting) -> Option<(Date, Option<Date>)> {
        let from = a.begins()?.max(b.begins()?);
        let until = match (a.ends(), b.ends()) {
            (Some(x), Some(y)) => Some(x.min(y)),
            (x, y) => x.or(y),
        };
        until.is_none_or(|u| from < u).then(|| (from, until.map(|u| plus(u, -1))))
    }
}

/// Whether two plantings are one act of the grower: alike in everything but their cells and their number of plants.
fn one_act(a: &Planting, b: &Planting) -> bool {
    a.place == b.place
        && a.crop == b.crop
        && a.layer == b.layer
        && a.start == b.start
        && a.begins() == b.begins()
        && a.ends() == b.ends()
        && a.dates().first_pick == b.dates().first_pick
        && (a.why, a.fixed) == (b.why, b.fixed)
        && a.failed == b.failed
        && a.has_begun() == b.has_begun()
}
