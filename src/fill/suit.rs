//! Whether a crop suits a place, in words where it does not.

use super::build::cells_of;
use super::cells::Cells;
use super::request::Dropped;
use crate::calendar::{Date, plus};
use crate::crop::{Book, CautionKind, Crop, Part, SupportNeed, Use};
use crate::garden::{Place, Tag, pot_plants};
use crate::plan::{Plan, Why};
use crate::site::SiteYear;
use crate::site::shade::{self, SunPaths};
use crate::units::num;

/// Soil lead from which parts that touch the soil are not grown in it, mg/kg (EPA residential screening, January
/// 2024), and above which no food is (University of Maryland Extension).
const LEAD: (f32, f32) = (200.0, 400.0);
/// Days after planting by which a support must stand (common practice).
const GRACE: i64 = 28;
/// Days from raw manure to harvest, for parts that touch the soil and for others (7 CFR 205.203(c)).
const MANURE: (i64, i64) = (120, 90);

/// Hours of direct sun of each cell of a place in its growing season; counted ones hold for the whole place.
pub(super) fn sun(plan: &Plan, year: &SiteYear, place: &Place, paths: &SunPaths) -> Vec<f64> {
    let (rows, cols) = place.grid(plan.settings.cell);
    let cells = usize::from(rows) * usize::from(cols);
    if let Some(hours) = place.sun_hours {
        return vec![f64::from(hours); cells];
    }
    if plan.site.obstacles.is_empty() {
        return vec![24.0; cells];
    }
    let blocks: Vec<_> = plan.site.obstacles.iter().map(shade::Obstacle::block).collect();
    let cell = plan.settings.cell.m();
    let mut out = Vec::with_capacity(cells);
    for row in 0..rows {
        for col in 0..cols {
            let at = shade::Spot {
                x: place.at.x.m() + (f64::from(col) + 0.5) * cell,
                y: place.at.y.m() + (f64::from(row) + 0.5) * cell,
                z: 0.0,
            };
            out.push(shade::season_mean(&paths.hours(at, &blocks), &year.soil, 8.0));
        }
    }
    out
}

/// The garden as far as it decides what suits a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Garden<'a> {
    pub(super) plan: &'a Plan,
    pub(super) book: &'a Book,
    /// Some place is kept for flowers, so that flowers keep to it.
    pub(super) flowers: bool,
    /// A rule left out.
    pub(super) drop: Option<Dropped>,
    /// Grown for cutting, even where it may be eaten.
    pub(super) cut: bool,
}

impl Garden<'_> {
    /// The cells of a place that a crop may take, or why it may take none.
    pub(super) fn cells(&self, place: &Place, crop: &Crop, sun: &[f64]) -> Result<Vec<Held>, String> {
        let Self { plan, book, flowers, .. } = *self;
        let minds = |rule: Dropped| self.drop != Some(rule);
        let say = |words: &str| Err(words.to_owned());
        let flower = crop.is_for(Use::CutFlower) && (self.cut || !crop.is_food());
        for tag in place.tags.iter().filter(|_| minds(Dropped::Tags)) {
            match tag {
                Tag::HandOnly => return say("planted by hand only"),
                Tag::FlowersOnly if crop.is_food() && !flower => return say("only for flowers"),
                Tag::FoodOnly if !crop.is_food() && !crop.is_for(Use::Cover) => return say("only for food"),
                Tag::Families(these) if !these.contains(&crop.family) => {
                    return say("kept for other families");
                }
                Tag::FlowersOnly | Tag::FoodOnly | Tag::Families(_) => {}
            }
        }
        let kept_for_flowers = place.tags.contains(&Tag::FlowersOnly);
        let look_alike = crop.cautions.iter().any(|c| matches!(c.kind, CautionKind::LooksLike(_)));
        if !crop.is_food() && look_alike && !kept_for_flowers {
            return say("not for a plant that could be mistaken for food");
        }
        if mistaken(plan, book, place, crop) {
            return say("it would stand by a plant it is mistaken for");
        }
        if flowers && minds(Dropped::Tags) && flower && !kept_for_flowers {
            return say("flowers keep to the flower bed");
        }
        if place.is_pot() {
            if minds(Dropped::Pots) && pot_plants(crop, place) == 0 {
                return say(if crop.pot.is_none() { "not grown in pots" } else { "the pot is too small" });
            }
        } else if (place.on_paving || place.on_deck) && place.depth().um() * 102 < crop.root_depth.um() * 100
        {
            return say("too little soil over paving");
        }
        if let Some(lead) = place.lead
            && crop.is_food()
            && (lead > LEAD.1
                || (lead >= LEAD.0 && !matches!(crop.part, Part::Fruit | Part::Pod | Part::Seed)))
        {
            return say("too much lead in its soil for this part of a plant");
        }
        let (rows, cols) = place.grid(plan.settings.cell);
        let (height, width) = (usize::from(rows), usize::from(cols));
        let all = Cells::first(height * width);
        let lit: Cells = all
            .iter()
            .filter(|&cell| {
                let hours = sun.get(cell).copied().unwrap_or(24.0);
                !minds(Dropped::Light) || hours + 1e-9 >= f64::from(crop.light.least)
            })
            .collect();
        if crop.support != SupportNeed::Needs || !minds(Dropped::Supports) {
            if lit.is_empty() {
                return say(&dim(sun, crop));
            }
            return Ok(vec![Held { cells: lit, from: Date::MIN, until: None }]);
        }
        let held: Vec<Held> = place
            .supports
            .iter()
            .filter(|s| enough(s.height.um(), crop))
            .map(|s| Held {
                cells: cells_of(s.cells, height, width),
                from: plus(s.from, -GRACE),
                until: s.until,
            })
            .filter(|h| !h.cells.is_empty())
            .collect();
        if held.is_empty() {
            return say("no support for a climber");
        }
        let held: Vec<Held> = held
            .into_iter()
            .map(|h| Held { cells: h.cells.both(&lit), ..h })
            .filter(|h| !h.cells.is_empty())
            .collect();
        if held.is_empty() { say(&dim(sun, crop)) } else { Ok(held) }
    }
}

/// Cells a crop may take, with the days on which what it needs there stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Held {
    pub(super) cells: Cells,
    /// Planted on or after this day.
    pub(super) from: Date,
    /// Cleared by this day.
    pub(super) until: Option<Date>,
}

/// Too little sun, with the hours.
fn dim(sun: &[f64], crop: &Crop) -> String {
    let most = sun.iter().copied().fold(0.0, f64::max);
    format!("too little sun: {most:.1} hours, it needs {}", crop.light.least)
}

/// Whether the grower's own plantings in a place are such that one of the two, which must not be eaten, would be taken
/// for the other, which is.
fn mistaken(plan: &Plan, book: &Book, place: &Place, crop: &Crop) -> bool {
    let looks = |a: &Crop, b: &Crop| {
        a.cautions.iter().any(|c| match &c.kind {
            CautionKind::LooksLike(ids) => ids.contains(&b.id) || ids.contains(b.base()),
            CautionKind::NotFood
            | CautionKind::Allergy
            | CautionKind::Skin
            | CautionKind::CookFirst
            | CautionKind::PartsPoisonous
            | CautionKind::Spreads => false,
        })
    };
    plan.plantings
        .iter()
        .filter(|p| p.place == place.id && (p.fixed || p.why == Why::Hand || p.has_begun()))
        .filter_map(|p| book.get(&p.crop))
        .any(|other| other.is_food() != crop.is_food() && (looks(crop, other) || looks(other, crop)))
}

/// Whether a support of that height (micrometres) holds a crop: three fifths of its height (common practice).
fn enough(height: i64, crop: &Crop) -> bool {
    num::real_i(height) >= 0.6 * num::real_i(crop.height.um())
}

/// The day before which a crop may not be picked from a place, for raw manure in its soil.
pub(super) fn clean_from(place: &Place, crop: &Crop, day: Date) -> Option<Date> {
    if !crop.is_food() {
        return None;
    }
    let touches = matches!(crop.part, Part::Root | Part::Bulb) || crop.soil_contact;
    let wait = if touches { MANURE.0 } else { MANURE.1 };
    place
        .amendments
        .iter()
        .filter(|a| a.kind == crate::garden::AmendmentKind::RawManure)
        .filter(|a| place.soil_on(a.on) == place.soil_on(day))
        .map(|a| plus(a.on, wait))
        .max()
}
