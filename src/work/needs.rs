//! What a season needs: seed, sets and plants, room for seedlings, mix, supports, water.

use super::amounts::{count, inside, length, piece, seeds};
use super::desk::Desk;
use super::mix::{BAG, Mix};
use super::seed::{BUY_NEW, SOW_THICKER, grams, in_grams, in_packet, packet_sprouts};
use crate::calendar::{Date, Season, Week, day_text, plus};
use crate::crop::{Book, Crop, CropId, Start, SupportNeed};
use crate::garden::{Layer, Place, PlaceId, Shape};
use crate::growth::water_need;
use crate::plan::{Packet, Plan, Planting, PlantingId};
use crate::site::SiteYear;
use crate::units::{Length, LengthUnit, Mass, MassUnit, Measure, num};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Inches of compost laid on a bed in a year, least and most (common practice).
const TOP_UP: (f64, f64) = (1.0, 2.0);
/// Litres in a gallon.
const GALLON: f64 = 3.785_411_784;

/// Seed of one crop.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SeedNeed {
    /// The crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// Sowings of the season.
    pub sowings: u32,
    /// Plants wanted.
    pub plants: u32,
    /// Fresh seeds that would be sown in all, spare ones among them.
    pub seeds: u32,
    /// Grams of them.
    pub grams: f64,
    /// Fresh seeds that the drawer spares, for the share of it that still sprouts.
    pub from_drawer: u32,
    /// Fresh seeds to buy.
    pub to_buy: u32,
    /// Grams to buy.
    pub buy_grams: f64,
    /// Packets to buy, of the usual size.
    pub packets: u32,
    /// The first sowing.
    pub by: Date,
    /// What to know of the drawer: old packets, tests.
    pub about: String,
}

/// Sets, tubers, cloves or young plants of one crop.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlantNeed {
    /// The crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Of what: "cloves", "young plants".
    pub what: String,
    /// When the first are planted.
    pub by: Date,
}

/// Seedlings of a week.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SeedlingWeek {
    /// "2027-W12".
    pub week: String,
    /// Its Monday.
    pub begins: Date,
    /// Tray cells taken.
    pub cells: u32,
    /// Tray cells there are.
    pub room: u32,
    /// What is started in it: "8 cells of tomato".
    pub start: Vec<String>,
}

/// Mix for a bed or pot that is filled in the season.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MixNeed {
    /// The bed or pot.
    pub place: PlaceId,
    /// Its name.
    pub name: String,
    /// When it is filled.
    pub on: Date,
    /// How much.
    #[serde(flatten)]
    pub mix: Mix,
}

/// Compost to top up a bed that was filled in an earlier season.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CompostNeed {
    /// The bed.
    pub place: PlaceId,
    /// Its name.
    pub name: String,
    /// Litres, least and most: a layer of 1 to 2 in (2.5 to 5 cm) a year (common practice).
    pub litres: (f64, f64),
}

/// A support that is not there yet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SupportWanted {
    /// The planting it is for.
    pub planting: PlantingId,
    /// Its name.
    pub name: String,
    /// Where: "Square box, A1-B2".
    #[serde(rename = "where")]
    pub where_words: String,
    /// Height, metres.
    pub height_m: f64,
    /// Plants to hold.
    pub plants: u16,
    /// It does not grow without one.
    pub needed: bool,
    /// Planting day.
    pub by: Date,
}

/// Water of a bed or pot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WaterNeed {
    /// The bed or pot.
    pub place: PlaceId,
    /// Its name.
    pub name: String,
    /// Litres by week, the weeks without need left out.
    pub weeks: Vec<WaterWeek>,
    /// Litres in all.
    pub litres: f64,
}

/// Water of a week.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WaterWeek {
    /// "2027-W25".
    pub week: String,
    /// Litres.
    pub litres: f64,
}

/// What a season needs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Needs {
    /// The year in which the season begins.
    pub season: i32,
    /// Seed.
    pub seeds: Vec<SeedNeed>,
    /// Sets, tubers, cloves, young plants to buy.
    pub plants: Vec<PlantNeed>,
    /// Room for seedlings by week.
    pub seedlings: Vec<SeedlingWeek>,
    /// Mix and soil.
    pub mix: Vec<MixNeed>,
    /// Compost to top up what is not filled anew.
    pub compost: Vec<CompostNeed>,
    /// Supports.
    pub supports: Vec<SupportWanted>,
    /// Water by place: a floor.
    pub water: Vec<WaterNeed>,
    /// Units of the text.
    #[serde(skip)]
    pub measure: Measure,
}

/// What a season needs, of the plantings in it that have not begun; water of all that stand in it.
pub fn needs(plan: &Plan, book: &Book, year: &SiteYear, season: Season) -> Needs {
    let desk = Desk::new(plan, book, year, Week::of(season.first()), Week::of(season.last()));
    Needs {
        season: season.year(),
        seeds: desk.seeds(season),
        plants: desk.pieces(season),
        seedlings: desk.seedlings(season),
        mix: desk.mixes(season),
        compost: desk.compost(season),
        supports: desk.supports(season),
        water: desk.water(season),
        measure: plan.settings.measure,
    }
}

/// Seed of a crop, added up over its sowings.
struct Sum<'a> {
    crop: &'a Crop,
    sowings: usize,
    plants: usize,
    seeds: usize,
    by: Date,
}

impl<'a> Desk<'a> {
    /// Plantings of a season that are still to come, each with the day on which its seed or plants must be there.
    fn coming(&self, season: Season) -> impl Iterator<Item = (&'a Planting, &'a Crop, Date)> + use<'_, 'a> {
        self.plan.plantings.iter().filter_map(move |p| {
            let on = p.dates().sown.filter(|_| !matches!(p.start, Start::Bought | Start::Piece(_)));
            let on = on.or_else(|| p.begins())?;
            let coming = season.holds(on) && !p.has_begun() && p.failed.is_none();
            coming.then_some((p, self.book.get(&p.crop)?, on))
        })
    }

    fn seeds(&self, season: Season) -> Vec<SeedNeed> {
        let mut sums: BTreeMap<&CropId, Sum<'_>> = BTreeMap::new();
        for (planting, crop, on) in self.coming(season) {
            let n = seeds(crop, planting, f64::from(crop.seed.sprouts) / 100.0);
            if n == 0 {
                continue;
            }
            let sum = sums.entry(&crop.id).or_insert(Sum { crop, sowings: 0, plants: 0, seeds: 0, by: on });
            sum.sowings += 1;
            sum.plants += usize::from(planting.plants);
            sum.seeds += n;
            sum.by = sum.by.min(on);
        }
        // A packet of a crop serves its varieties, each seed once: what one takes is not there for the next.
        let mut drawer: Vec<(&Packet, f64)> = self.plan.drawer.iter().map(|p| (p, 1.0)).collect();
        drawer.sort_by_key(|(p, _)| p.packed);
        sums.into_values().map(|sum| seed_need(&sum, &mut drawer)).collect()
    }

    fn pieces(&self, season: Season) -> Vec<PlantNeed> {
        let mut out: BTreeMap<(&CropId, String), PlantNeed> = BTreeMap::new();
        for (planting, crop, on) in self.coming(season) {
            let what = match planting.start {
                Start::Piece(kind) => piece(kind).1.to_owned(),
                Start::Bought => "young plants".to_owned(),
                Start::InPlace | Start::Raised { .. } => continue,
            };
            let need = out.entry((&crop.id, what.clone())).or_insert_with(|| PlantNeed {
                crop: crop.id.clone(),
                name: crop.name.clone(),
                count: 0,
                what,
                by: on,
            });
            need.count += u32::from(planting.plants);
            need.by = need.by.min(on);
        }
        out.into_values().collect()
    }

    fn seedlings(&self, season: Season) -> Vec<SeedlingWeek> {
        let room: u32 = self.plan.raising.iter().map(|r| u32::from(r.cells)).sum();
        let mut weeks: BTreeMap<Week, (f64, BTreeMap<String, f64>)> = BTreeMap::new();
        for planting in self.plan.plantings.iter().filter(|p| p.failed.is_none() && p.real.set_out.is_none())
        {
            let cells = planting.tray_cells();
            let first = cells.keys().next().copied();
            for (week, n) in cells {
                if week.sunday() < season.first() || week.monday() > season.last() {
                    continue;
                }
                let here = weeks.entry(week).or_default();
                here.0 += n;
                if Some(week) == first && planting.real.sown.is_none() {
                    *here.1.entry(inside(&planting.name)).or_default() += n;
                }
            }
        }
        let whole = |x: f64| num::word(num::round_u(x.ceil()));
        weeks
            .into_iter()
            .map(|(week, (cells, start))| SeedlingWeek {
                week: week.to_string(),
                begins: week.monday(),
                cells: whole(cells),
                room,
                start: start
                    .into_iter()
                    .map(|(name, n)| format!("{} of {name}", count(num::round_u(n), "cell", "cells")))
                    .collect(),
            })
            .collect()
    }

    fn mixes(&self, season: Season) -> Vec<MixNeed> {
        let mut out = Vec::new();
        for place in &self.plan.places {
            let dates = std::iter::once(place.since).chain(place.refilled.iter().copied());
            for on in dates.filter(|d| season.holds(*d) && place.stands_on(*d)) {
                let open =
                    matches!(place.kind, crate::garden::Kind::OpenBed | crate::garden::Kind::FlowerBed);
                if open && !place.fresh {
                    continue;
                }
                let mix = Mix::filling(place, on);
                out.push(MixNeed { place: place.id.clone(), name: place.name.clone(), on, mix });
            }
        }
        out
    }

    /// A layer of compost for every bed that is not filled in the season; pots get new mix instead.
    fn compost(&self, season: Season) -> Vec<CompostNeed> {
        let mut out = Vec::new();
        for place in self.plan.places.iter().filter(|p| !p.is_pot()) {
            let filled = std::iter::once(place.since).chain(place.refilled.iter().copied());
            let stands = place.stands_on(season.first().max(place.since)) && place.since <= season.last();
            let grows = self.plan.plantings_in(&place.id).any(|p| {
                p.failed.is_none()
                    && p.begins().is_some_and(|b| b <= season.last())
                    && p.ends().is_none_or(|e| e > season.first())
            });
            if !stands || !grows || filled.into_iter().any(|d| season.holds(d)) {
                continue;
            }
            let (across, down) = place.size();
            let layer = |inches: f64| across.m() * down.m() * inches * 25.4;
            out.push(CompostNeed {
                place: place.id.clone(),
                name: place.name.clone(),
                litres: (layer(TOP_UP.0), layer(TOP_UP.1)),
            });
        }
        out
    }

    fn supports(&self, season: Season) -> Vec<SupportWanted> {
        let mut out = Vec::new();
        for (planting, crop, _) in self.coming(season) {
            let Some(by) = planting.begins() else { continue };
            if crop.support == SupportNeed::None || self.held(planting, by) {
                continue;
            }
            out.push(SupportWanted {
                planting: planting.id,
                name: planting.name.clone(),
                where_words: self.stand(planting),
                height_m: crop.height.m(),
                plants: planting.plants,
                needed: crop.support == SupportNeed::Needs,
                by,
            });
        }
        out.sort_by_key(|s| (s.by, s.planting));
        out
    }

    /// Litres a week by place: crop coefficient times reference evapotranspiration less the normal rain, over the
    /// area of the cells a planting takes (FAO-56). Mates share the water of the main planting.
    fn water(&self, season: Season) -> Vec<WaterNeed> {
        let mut out = Vec::new();
        for place in &self.plan.places {
            let mut weeks: BTreeMap<Week, f64> = BTreeMap::new();
            for planting in self.plan.plantings_in(&place.id).filter(|p| p.layer == Layer::Main) {
                let Some(crop) = self.crop(planting) else { continue };
                let (Some(begins), area) = (planting.begins(), area(place, planting, self.plan)) else {
                    continue;
                };
                let mut dates = planting.dates();
                if let Some(failed) = planting.failed {
                    dates.cleared = Some(dates.cleared.map_or(failed, |c| c.min(failed)));
                }
                let ends = dates.cleared.unwrap_or_else(|| plus(begins, 365));
                let mut week = Week::of(begins.max(season.first()));
                while week.monday() < ends && week.monday() <= season.last() {
                    let litres = water_need(&crop.water, self.year, &dates, week) * area;
                    if litres > 0.05 {
                        *weeks.entry(week).or_default() += litres;
                    }
                    week = week.plus(1);
                }
            }
            if weeks.is_empty() {
                continue;
            }
            let tenth = |x: f64| (x * 10.0).round() / 10.0;
            let litres = tenth(weeks.values().sum());
            let weeks = weeks.into_iter();
            let weeks = weeks.map(|(w, l)| WaterWeek { week: w.to_string(), litres: tenth(l) }).collect();
            out.push(WaterNeed { place: place.id.clone(), name: place.name.clone(), weeks, litres });
        }
        out
    }
}

/// Area of the cells of a planting, square metres: its share of the place.
fn area(place: &Place, planting: &Planting, plan: &Plan) -> f64 {
    let whole = match place.shape {
        Shape::Rect { across, down, .. } => across.m() * down.m(),
        Shape::Round { width, .. } => std::f64::consts::PI * (width.m() / 2.0).powi(2),
    };
    let (rows, cols) = place.grid(plan.settings.cell);
    let cells = f64::from(rows) * f64::from(cols);
    whole * num::real(planting.block.area()) / cells.max(1.0)
}

/// The need of a crop less what the drawer has, the oldest usable packet first.
fn seed_need(sum: &Sum<'_>, drawer: &mut [(&Packet, f64)]) -> SeedNeed {
    let crop = sum.crop;
    let fresh = (f64::from(crop.seed.sprouts) / 100.0).max(0.05);
    let year = chrono::Datelike::year(&sum.by);
    let mut open = num::real(sum.seeds);
    let mut about = Vec::new();
    for (packet, left) in drawer.iter_mut() {
        if packet.crop != crop.id && packet.crop != *crop.base() {
            continue;
        }
        let share = packet_sprouts(crop, packet, year);
        let whence = if packet.tested.is_some() { "tested" } else { "reckoned" };
        let named = format!("packet of {}: {:.0} of 100 sprout ({whence})", packet.packed, share * 100.0);
        if share < BUY_NEW {
            about.push(format!("{named}, buy new"));
            continue;
        }
        // Seeds of the packet in fresh ones, of which fewer are sown.
        let worth = share / fresh;
        let there = in_grams(crop, packet.left.grams() * *left) * worth;
        if there < 1.0 || open < 1.0 {
            continue;
        }
        let used = there.min(open);
        open -= used;
        *left *= 1.0 - used / there;
        about.push(if share <= SOW_THICKER { format!("{named}, sow thicker") } else { named });
    }
    let to_buy = num::round_u(open.ceil());
    let word = num::word;
    SeedNeed {
        crop: crop.id.clone(),
        name: crop.name.clone(),
        sowings: word(sum.sowings),
        plants: word(sum.plants),
        seeds: word(sum.seeds),
        grams: grams(crop, sum.seeds),
        from_drawer: word(sum.seeds.saturating_sub(to_buy)),
        to_buy: word(to_buy),
        buy_grams: grams(crop, to_buy),
        packets: word(num::round_u((num::real(to_buy) / in_packet(crop)).ceil())),
        by: sum.by,
        about: about.join("; "),
    }
}

impl Needs {
    /// The week with most tray cells, where any are needed.
    pub fn busiest(&self) -> Option<&SeedlingWeek> {
        self.seedlings.iter().max_by_key(|w| w.cells)
    }
    /// Litres of water of the whole garden by week.
    pub fn water_by_week(&self) -> BTreeMap<String, f64> {
        let mut out: BTreeMap<String, f64> = BTreeMap::new();
        for week in self.water.iter().flat_map(|w| &w.weeks) {
            *out.entry(week.week.clone()).or_default() += week.litres;
        }
        out
    }
    /// The needs for a terminal.
    pub fn words(&self) -> String {
        let mut out = String::new();
        self.write_seeds(&mut out);
        self.write_seedlings(&mut out);
        self.write_mix(&mut out);
        self.write_compost(&mut out);
        self.write_supports(&mut out);
        self.write_water(&mut out);
        if out.is_empty() { "Nothing is needed.\n".to_owned() } else { out.trim_start().to_owned() }
    }

    fn write_seeds(&self, out: &mut String) {
        if !self.seeds.is_empty() {
            out.push_str("Seed (a fifth more than plants wanted; packets of the usual size)\n");
        }
        for need in &self.seeds {
            let buy = if need.to_buy == 0 {
                "the drawer has enough".to_owned()
            } else {
                let packets = count(num::index(need.packets), "packet", "packets");
                // A pinch that weighs nothing to speak of is said in packets alone.
                match weight(need.buy_grams, self.measure) {
                    pinch if pinch.starts_with("0 ") => format!("buy {packets}"),
                    weight => format!("buy {weight}, {packets}"),
                }
            };
            let about = if need.about.is_empty() { String::new() } else { format!(" ({})", need.about) };
            let name = &need.name;
            let _ = writeln!(out, "  {name}: {} seeds by {}, {buy}{about}", need.seeds, day_text(need.by));
        }
        for need in &self.plants {
            let _ = writeln!(out, "  {}: {} {} by {}", need.name, need.count, need.what, day_text(need.by));
        }
    }

    fn write_seedlings(&self, out: &mut String) {
        let Some(busiest) = self.busiest() else { return };
        let _ = writeln!(
            out,
            "\nSeedlings: at most {} tray cells (in the week of {}), of {} there are",
            busiest.cells,
            day_text(busiest.begins),
            busiest.room
        );
        for week in self.seedlings.iter().filter(|w| !w.start.is_empty()) {
            let _ = writeln!(
                out,
                "  week of {}: start {}; {} cells in use",
                day_text(week.begins),
                week.start.join(", "),
                week.cells
            );
        }
    }

    fn write_mix(&self, out: &mut String) {
        if self.mix.is_empty() {
            return;
        }
        out.push_str("\nPotting mix and soil (15 % more, because it settles; weight when soaked)\n");
        for need in &self.mix {
            let _ = writeln!(
                out,
                "  {}: {} by {}",
                need.name,
                mix_words(&need.mix, self.measure),
                day_text(need.on)
            );
        }
        let total = Mix::of(self.mix.iter().map(|m| m.mix.litres).sum());
        let kg: f64 = self.mix.iter().map(|m| m.mix.soaked_kg).sum();
        let _ = writeln!(out, "  in all: {}", mix_words(&Mix { soaked_kg: kg, ..total }, self.measure));
    }

    fn write_compost(&self, out: &mut String) {
        if self.compost.is_empty() {
            return;
        }
        out.push_str("\nCompost to top up (1 to 2 in a year, 2.5 to 5 cm)\n");
        for need in &self.compost {
            let (low, high) = (volume(need.litres.0, self.measure), volume(need.litres.1, self.measure));
            let _ = writeln!(out, "  {}: {low} to {high}", need.name);
        }
    }

    fn write_supports(&self, out: &mut String) {
        if !self.supports.is_empty() {
            out.push_str("\nSupports that are not there yet\n");
        }
        for need in &self.supports {
            let height = length(Length::new(need.height_m, LengthUnit::M), self.measure);
            let must = if need.needed { "" } else { ", helps" };
            let (name, place) = (&need.name, &need.where_words);
            let plants = count(usize::from(need.plants), "plant", "plants");
            let _ = writeln!(out, "  {name} in {place}: {height}, {plants}, by {}{must}", day_text(need.by));
        }
    }

    fn write_water(&self, out: &mut String) {
        if self.water.is_empty() {
            return;
        }
        out.push_str(
            "\nWater, a week at most and in all (a floor: boxes and pots dry at the rim and drain)\n",
        );
        for need in &self.water {
            let Some(peak) = need.weeks.iter().max_by(|a, b| a.litres.total_cmp(&b.litres)) else { continue };
            let (most, all) = (volume(peak.litres, self.measure), volume(need.litres, self.measure));
            let _ = writeln!(out, "  {}: {most} in {}, {all}", need.name, peak.week);
        }
    }
}

fn weight(grams: f64, measure: Measure) -> String {
    let mass = Mass::new(grams, MassUnit::G);
    match measure {
        Measure::Us => mass.shown_in(MassUnit::Oz).rounded(2),
        Measure::Metric => mass.rounded(1),
    }
}

fn volume(litres: f64, measure: Measure) -> String {
    match measure {
        Measure::Us => format!("{:.0} gal", litres / GALLON),
        Measure::Metric => format!("{litres:.0} l"),
    }
}

fn mix_words(mix: &Mix, measure: Measure) -> String {
    let bags = count(num::index(mix.bags), "bag", "bags");
    match measure {
        Measure::Us => format!(
            "{:.1} cu ft ({bags} of 2 cu ft), {:.0} lb",
            mix.cubic_feet,
            mix.soaked_kg * 1000.0 / MassUnit::Lb.factor() * 1000.0
        ),
        Measure::Metric => {
            format!("{:.0} l ({bags} of {BAG:.0} l), {:.0} kg", mix.order_litres, mix.soaked_kg)
        }
    }
}
