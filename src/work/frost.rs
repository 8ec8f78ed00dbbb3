//! Covering tender plants when frost is near.

use super::amounts::inside;
use super::desk::{Desk, Draft, POTS};
use super::job::{Job, JobKind};
use crate::calendar::{ClimateDay, Week, plus};
use crate::crop::{Crop, FrostClass};
use crate::garden::PlaceId;
use crate::growth::years;
use crate::plan::Planting;
use crate::site::SiteYear;
use crate::units::{TempUnit, Temperature};
use std::collections::BTreeMap;

/// Chance of a killing night in a week from which it is worth having covers at hand: one year in ten.
const WORTH: f64 = 0.1;
/// Minutes to lay and take off a cover, a place (from memory).
const MINUTES: f64 = 10.0;

/// Chance that at least one night of a week is at or below a temperature, nights taken one by one: a little high,
/// because cold nights come together.
pub(super) fn week_chance(year: &SiteYear, celsius: f64, week: Week) -> f64 {
    let curves = year.frost(celsius);
    let calm: f64 = (0..7).map(|n| 1.0 - curves.on(ClimateDay::of(plus(week.monday(), n)))).product();
    1.0 - calm
}

/// What stands in a place and the warmest killing temperature among it.
#[derive(Default)]
struct Threat<'a> {
    names: Vec<String>,
    kills: f64,
    first: Option<&'a Planting>,
}

impl Desk<'_> {
    /// One job a place and week in which a frost would kill what stands there.
    pub(super) fn frost_jobs(&self) -> Vec<Job> {
        let mut out = Vec::new();
        for week in self.weeks() {
            let mut threats: BTreeMap<&PlaceId, Threat<'_>> = BTreeMap::new();
            for planting in &self.plan.plantings {
                let Some(crop) = self.crop(planting) else { continue };
                if !tender(crop) || !stands_in(planting, week) || planting.failed.is_some() {
                    continue;
                }
                let kills = crop.frost.foliage.celsius();
                if week_chance(self.year, kills, week) < WORTH {
                    continue;
                }
                let here = threats.entry(&planting.place).or_default();
                let name = inside(&planting.name);
                if !here.names.contains(&name) {
                    here.names.push(name);
                }
                here.kills = if here.first.is_some() { here.kills.max(kills) } else { kills };
                here.first.get_or_insert(planting);
            }
            for (place, threat) in threats {
                out.extend(self.cover(place, &threat, week));
            }
        }
        out
    }

    fn cover(&self, place: &PlaceId, threat: &Threat<'_>, week: Week) -> Option<Job> {
        let first = threat.first?;
        let chance = week_chance(self.year, threat.kills, week);
        let degrees = Temperature::new(threat.kills, TempUnit::C).reading(self.measure());
        // The forecast names air over the day; 36 F (2 C) is where it speaks of frost.
        let warning = Temperature::new(2.0, TempUnit::C).reading(self.measure());
        let draft = Draft {
            kind: JobKind::Cover,
            nth: week.number(),
            what: format!("Be ready to cover {}", threat.names.join(", ")),
            amount: format!("fleece or cloth over night when {warning} or less is forecast"),
            minutes: MINUTES,
            why: format!("a night of {degrees}, which kills, comes in this week in {}", years(chance)),
        };
        let window = (week.monday(), week.sunday());
        if self.said_done(JobKind::Cover, Some(first), (plus(window.0, 10), plus(window.1, -10))) {
            return None;
        }
        let mut job = self.job(Some(first), draft, week.monday(), window);
        job.best = week.monday();
        let name = self.plan.place(place).map_or_else(|| place.to_string(), |p| p.name.clone());
        (job.bed, job.cells) =
            if job.bed == POTS { (job.bed, name.clone()) } else { (name.clone(), String::new()) };
        job.where_words = name;
        job.planting = None;
        job.plantings = Vec::new();
        job.id = format!("{place}-cover-{week}");
        Some(job)
    }
}

/// Whether a light frost ends a crop.
pub(super) fn tender(crop: &Crop) -> bool {
    crop.frost.class == FrostClass::Tender
}

fn stands_in(planting: &Planting, week: Week) -> bool {
    planting.begins().is_some_and(|b| b <= week.sunday()) && planting.ends().is_none_or(|e| e > week.monday())
}
