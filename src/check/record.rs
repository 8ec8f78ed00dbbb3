//! When families may return to a soil, and the best order of few beds over the years to come.

use super::Context;
use super::past::unknown;
use super::soil::{Stay, whole_years, years_after};
use super::words::{day, free_years, list, members};
use crate::calendar::{Date, MonthDay, Season, plus};
use crate::crop::{BreakWeight, Rotation};
use crate::garden::{Kind, Place, PlaceId, Tag};
use crate::plan::Stood;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// What a soil says to a family in a season.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Ground {
    /// It stands there.
    Stands,
    /// Fewer free years than the least.
    Closed,
    /// At least the least, fewer than advised.
    Early,
    /// As many as advised.
    Free,
    /// The past is not recorded.
    Unknown,
}

/// When a family may return to a place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Return {
    /// The bed or pot.
    pub place: PlaceId,
    /// Botanical name of the family.
    pub family: String,
    /// What growers call it.
    pub common: String,
    /// Free years its break asks for at least.
    pub least: u8,
    /// Free years advised.
    pub advised: u8,
    /// What of it was there last.
    pub last: Option<String>,
    /// The last day it was there.
    pub until: Option<Date>,
    /// The day from which the least break is kept.
    pub least_from: Option<Date>,
    /// The day from which the advised break is kept.
    pub advised_from: Option<Date>,
    /// The first season in which it may return at its usual time, by the least break; none where it may at once.
    pub season: Option<i32>,
    /// What the soil says in each of the seasons asked for.
    pub seasons: Vec<(i32, Ground)>,
}

/// The break kept for a family here: the grower's, or the book's.
fn rotation(context: &Context<'_>, family: &str) -> Rotation {
    context
        .plan
        .settings
        .rotation
        .get(family)
        .copied()
        .or_else(|| context.book.family(family).map(|f| f.rotation))
        .unwrap_or(Rotation { least: 1, advised: 1, weight: BreakWeight::Mind })
}

/// Families that are looked at, of what this garden grew, grows or wishes for; the strictest first.
fn families(context: &Context<'_>) -> Vec<(String, Rotation)> {
    let mut names: BTreeSet<&str> = context.plan.plantings.iter().map(|p| context.family(p)).collect();
    names.extend(context.plan.record.iter().filter_map(|p| p.family()));
    names.extend(
        context.plan.wishes.iter().filter_map(|w| context.book.get(&w.crop)).map(|c| c.family.as_str()),
    );
    let mut out: Vec<(String, Rotation)> = names
        .into_iter()
        .map(|name| (name.to_owned(), rotation(context, name)))
        .filter(|(_, r)| r.weight != BreakWeight::Off)
        .collect();
    out.sort_by_key(|(name, r)| (r.weight, std::cmp::Reverse(r.least), name.clone()));
    out
}

/// The last stay of a family in the soil a place has on a day, of those begun before it.
fn last<'a>(stays: &'a [Stay<'a>], family: &str, before: Date) -> Option<&'a Stay<'a>> {
    stays
        .iter()
        .filter(|s| s.family == family && s.from < before)
        .max_by_key(|s| (s.until.is_none(), s.until))
}

/// Per bed or pot and family: when it may return, over so many seasons from the one that holds `from`, if it does
/// not stand there between but where a planting says so.
pub fn rotation_outlook(context: &Context<'_>, from: Date, seasons: u8) -> Vec<Return> {
    let first = context.season(from);
    let families = families(context);
    let mut out = Vec::new();
    for place in context.plan.places_on(from) {
        // Soil that is changed within the first season is the one that counts.
        let soil = place.soil_on(first.last());
        let stays = context.stays(&soil);
        for (family, rotation) in &families {
            out.push(one(context, place, stays, (family, *rotation), first, seasons));
        }
    }
    out
}

fn one(
    context: &Context<'_>,
    place: &Place,
    stays: &[Stay<'_>],
    (family, rotation): (&String, Rotation),
    first: Season,
    seasons: u8,
) -> Return {
    let (since, _) = place.soil_since(&place.soil_on(first.last()));
    let latest = last(stays, family, Date::MAX);
    let until = latest.and_then(|s| s.until);
    let usual = |season: Season, stay: Option<&Stay<'_>>| {
        let start = stay.map_or_else(|| MonthDay::of(season.first()), |s| MonthDay::of(s.from));
        start.climate_day().on_or_after(season.first()).max(since)
    };
    // What was never written down counts; what is not planned yet is no past.
    let dark = |on: Date| {
        unknown(context, place, on, rotation.least).iter().any(|season| season.year() < first.year())
    };
    let ground = |season: Season| {
        let (begin, end) = (season.first(), season.last());
        let stands =
            |s: &&Stay<'_>| s.family == *family && s.from <= end && s.until.is_none_or(|u| u > begin);
        if stays.iter().any(|s| stands(&s)) {
            return Ground::Stands;
        }
        let stay = last(stays, family, begin);
        let on = usual(season, stay);
        let years = stay.and_then(|s| s.until).map(|u| whole_years(u, on));
        match years {
            Some(n) if n < i32::from(rotation.least) => Ground::Closed,
            _ if dark(on) => Ground::Unknown,
            Some(n) if n < i32::from(rotation.advised) => Ground::Early,
            Some(_) | None => Ground::Free,
        }
    };
    let least_from = until.map(|u| years_after(u, rotation.least));
    let season = least_from.map(|free| {
        let held = context.season(free);
        if usual(held, latest) >= free { held.year() } else { held.year() + 1 }
    });
    Return {
        place: place.id.clone(),
        family: family.clone(),
        common: context.common(family),
        least: rotation.least,
        advised: rotation.advised,
        last: latest.map(|s| s.name.clone()),
        until: until.map(|u| plus(u, -1)),
        least_from,
        advised_from: until.map(|u| years_after(u, rotation.advised)),
        season: season.filter(|y| *y >= first.year()),
        seasons: (0..i32::from(seasons)).map(|n| first.plus(n)).map(|s| (s.year(), ground(s))).collect(),
    }
}

/// Where a family goes in one season.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Turn {
    /// Year in which the season begins.
    pub season: i32,
    /// The bed; none: pots with fresh mix.
    pub place: Option<PlaceId>,
    /// Seasons its soil was free of the family; none where it is not known to have stood there.
    pub free: Option<i32>,
}

/// The best order of the beds for one family.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Order {
    /// Botanical name of the family.
    pub family: String,
    /// What growers call it.
    pub common: String,
    /// Free years its break asks for at least.
    pub least: u8,
    /// Every season in a bed.
    pub beds: Vec<Turn>,
    /// The fewest free years any bed gets in that order; none where none returns.
    pub fewest: Option<i32>,
    /// The same with a season in pots whenever no bed is free long enough.
    pub with_pots: Vec<Turn>,
    /// In words.
    pub words: String,
}

/// Proposes for each strictly kept family in which bed to grow it in each of the next seasons, so that its soil
/// is free of it as long as can be.
///
/// A family goes to the bed that has been free of it longest; with one bed a season no other order leaves more
/// free years. Families are shared out over the beds, the strictest first. Beds are boxes and open beds that may
/// take food; a bed whose past is unknown comes after those known to be free.
pub fn best_order(context: &Context<'_>, from: Date, seasons: u8) -> Vec<Order> {
    let first = context.season(from);
    let beds: Vec<&Place> = context
        .plan
        .places_on(from)
        .filter(|p| matches!(p.kind, Kind::Box | Kind::OpenBed) && !p.tags.contains(&Tag::FlowersOnly))
        .collect();
    let mut busy: BTreeMap<(i32, PlaceId), usize> = BTreeMap::new();
    let mut out = Vec::new();
    for (family, rotation) in families(context) {
        let open: Vec<&Place> = beds
            .iter()
            .copied()
            .filter(|p| p.tags.iter().all(|t| !matches!(t, Tag::Families(these) if !these.contains(&family))))
            .collect();
        if open.is_empty() {
            continue;
        }
        let (kept, span) = ((family.as_str(), rotation), (first, seasons));
        let with_pots = turns(context, &open, kept, span, true, &mut busy.clone());
        let turns = turns(context, &open, kept, span, false, &mut busy);
        let fewest = turns.iter().filter_map(|t| t.free).min();
        let words = words(context, &family, rotation, (&turns, fewest), &with_pots);
        out.push(Order {
            common: context.common(&family),
            family,
            least: rotation.least,
            beds: turns,
            fewest,
            with_pots,
            words,
        });
    }
    out
}

/// One bed a season: the one free longest; pots where none has been free for the least break, if `pots` are asked
/// for. A bed whose past is not known comes after those that are free long enough, and before those that are not.
fn turns(
    context: &Context<'_>,
    beds: &[&Place],
    (family, rotation): (&str, Rotation),
    (first, seasons): (Season, u8),
    pots: bool,
    busy: &mut BTreeMap<(i32, PlaceId), usize>,
) -> Vec<Turn> {
    let least = i32::from(rotation.least);
    // The last season in which the family stood in each bed; none where it is not known to have.
    let mut stood: Vec<Option<i32>> =
        beds.iter().map(|place| last_season(context, place, family, first)).collect();
    let known: Vec<bool> =
        beds.iter().map(|place| unknown(context, place, first.first(), 3).is_empty()).collect();
    let mut out = Vec::new();
    for n in 0..i32::from(seasons) {
        let season = first.plus(n).year();
        let free = |at: usize| stood[at].map(|s| season - s - 1);
        let rank = |at: usize| {
            let turns = busy.get(&(season, beds[at].id.clone())).copied().unwrap_or_default();
            let longest = match free(at) {
                Some(years) => 2 * years,
                // After as many seasons of this order as the break has years, the dark past no longer counts.
                None if known[at] || n >= least => i32::MAX,
                None => 2 * least - 1,
            };
            (std::cmp::Reverse(longest), turns, at)
        };
        let Some(at) = (0..beds.len()).min_by_key(|at| rank(*at)) else { break };
        let years = free(at);
        if pots && years.is_some_and(|y| y < least) {
            out.push(Turn { season, place: None, free: None });
            continue;
        }
        *busy.entry((season, beds[at].id.clone())).or_default() += 1;
        stood[at] = Some(season);
        out.push(Turn { season, place: Some(beds[at].id.clone()), free: years });
    }
    out
}

/// The season before `first` in which a family last stood in a bed.
fn last_season(context: &Context<'_>, place: &Place, family: &str, first: Season) -> Option<i32> {
    let stays = context.stays(&place.soil_on(first.first()));
    let stay = last(stays, family, first.first())?;
    let end = stay.until.map_or_else(|| first.last(), |u| plus(u, -1));
    Some(context.season(end.min(first.last())).year())
}

fn words(
    context: &Context<'_>,
    family: &str,
    rotation: Rotation,
    (turns, fewest): (&[Turn], Option<i32>),
    with_pots: &[Turn],
) -> String {
    let name = |id: &PlaceId| context.place(id).map_or_else(|| id.to_string(), |p| p.name.clone());
    let plants = super::words::cap(&members(&context.common(family)));
    let steps: Vec<String> = turns
        .iter()
        .map(|t| t.place.as_ref().map_or_else(String::new, |p| format!("{} in {}", t.season, name(p))))
        .collect();
    let gets = fewest.map_or_else(
        || String::from("no bed has them twice"),
        |n| format!("a bed gets {} between", free_years(n)),
    );
    let pots: Vec<String> =
        with_pots.iter().filter(|t| t.place.is_none()).map(|t| t.season.to_string()).collect();
    let better = if pots.is_empty() || fewest.is_none_or(|n| n >= i32::from(rotation.least)) {
        String::new()
    } else {
        let reached = with_pots.iter().filter_map(|t| t.free).min();
        let reached = reached.map_or_else(
            || String::from("no bed has them twice"),
            |n| format!("every bed gets {} or more", free_years(n)),
        );
        format!(" Grown in pots with fresh mix in {}, {reached}.", list(&pots))
    };
    let are = if rotation.least == 1 { "is" } else { "are" };
    format!("{plants}: {}; {gets}, and at least {} {are} asked for.{better}", list(&steps), rotation.least)
}

/// A soil kept free of the hosts of a recorded disease.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Pause {
    /// The bed or pot.
    pub place: PlaceId,
    /// Name of the disease.
    pub trouble: String,
    /// The day it was recorded.
    pub seen: Date,
    /// First day after the least break, counted from the record.
    pub least_from: Date,
    /// First day after the advised break.
    pub advised_from: Date,
    /// In words.
    pub words: String,
}

/// Recorded diseases whose advised break still runs on a day.
pub fn pauses(context: &Context<'_>, on: Date) -> Vec<Pause> {
    super::trouble::recorded(context)
        .into_iter()
        .filter(|(place, seen, _, pause)| {
            place.soil_on(*seen) == place.soil_on(on) && years_after(*seen, pause.advised) > on
        })
        .map(|(place, seen, trouble, pause)| Pause {
            place: place.id.clone(),
            trouble: trouble.name.clone(),
            seen,
            least_from: years_after(seen, pause.least),
            advised_from: years_after(seen, pause.advised),
            words: format!(
                "{} was recorded in {} on {}: keep its hosts out until {} at least, {} is advised. It survives {}.",
                trouble.name,
                place.name,
                day(seen),
                day(years_after(seen, pause.least)),
                day(years_after(seen, pause.advised)),
                trouble.survives.trim_end_matches('.'),
            ),
        })
        .collect()
}

/// Whether anything is recorded of a place in a season, or that nothing stood there.
pub fn is_recorded(context: &Context<'_>, place: &Place, season: Season) -> bool {
    let empty = context.plan.record.iter().any(|p| {
        p.place == place.id && p.stood == Stood::Nothing && p.from <= season.last() && p.to >= season.first()
    });
    empty
        || context
            .stays(&place.soil_on(season.last()))
            .iter()
            .any(|s| s.from <= season.last() && s.until.is_none_or(|u| u > season.first()))
}
