//! Jobs of the garden as a whole: seed, water of pots, soil samples.

use super::amounts::{count, inside};
use super::desk::{Desk, Draft, POTS};
use super::job::{Job, JobKind};
use crate::calendar::{ClimateDay, Date, Season, days_between, plus};
use crate::crop::Start;
use crate::garden::Place;
use crate::plan::{Event, Packet, Planting};
use chrono::Datelike as _;

/// Weeks before the average last frost in which seed is ordered and tested (two extension calendars: 12 to 16).
const ORDER_WEEKS: (i64, i64) = (16, 12);
/// Days before the first sowing by which seed should be there (common practice).
const ORDER_AHEAD: i64 = 21;
/// Days between soil tests: every two to three years (common practice of extension services).
const TEST_EVERY: i64 = 2 * 365;
/// Daily maximum from which pots are looked at every day, and twice a day, degrees Celsius (from memory).
const WARM: f64 = 18.0;
const HOT: f64 = 30.0;

/// Minutes of these jobs (from memory).
const ORDER_MINUTES: f64 = 30.0;
const TEST_MINUTES: f64 = 10.0;
const SAMPLE_MINUTES: f64 = 20.0;
const POT_MINUTES: f64 = 1.0;

impl Desk<'_> {
    /// Seed, soil tests, water of pots.
    pub(super) fn garden_jobs(&self) -> Vec<Job> {
        let mut out = Vec::new();
        let start = self.plan.settings.season_start.unwrap_or_else(|| self.year.season_start_or_january());
        let (first, last) = (Season::holding(self.from, start), Season::holding(plus(self.to, 180), start));
        for n in 0..=(last.year() - first.year()).clamp(0, 30) {
            let season = first.plus(n);
            out.extend(self.seed_jobs(season));
            out.extend(self.soil_test(season));
        }
        out.extend(self.pot_jobs());
        out
    }

    /// Plantings of a season that begin with seed.
    fn sown_in(&self, season: Season) -> Vec<(&Planting, Date)> {
        let sown = |p: &Planting| match p.start {
            Start::InPlace => p.dates().sown.or_else(|| p.begins()),
            Start::Raised { .. } => p.dates().sown,
            Start::Bought | Start::Piece(_) => None,
        };
        let all = self.plan.plantings.iter().filter(|p| p.real.sown.is_none());
        all.filter_map(|p| sown(p).map(|d| (p, d))).filter(|(_, d)| season.holds(*d)).collect()
    }

    fn seed_jobs(&self, season: Season) -> Vec<Job> {
        let sown = self.sown_in(season);
        let Some(first) = sown.iter().map(|(_, d)| *d).min() else { return Vec::new() };
        let (from, to) = self.order_window(season, first);
        let mut out = Vec::new();
        let mut crops: Vec<String> = Vec::new();
        for (planting, _) in &sown {
            let name = inside(&planting.name);
            if self.packet(planting).is_none() && !crops.contains(&name) {
                crops.push(name);
            }
        }
        crops.sort();
        if !crops.is_empty() && !self.said_done(JobKind::OrderSeed, None, (from, to)) {
            let draft = Draft {
                kind: JobKind::OrderSeed,
                nth: 0,
                what: "Order seed".to_owned(),
                amount: format!("{}: {}", count(crops.len(), "crop", "crops"), crops.join(", ")),
                minutes: ORDER_MINUTES,
                why: "12 to 16 weeks before the last frost, while there is choice".to_owned(),
            };
            out.push(self.job(None, draft, from, (from, to)));
        }
        let mut old: Vec<(String, i32)> = Vec::new();
        for (planting, _) in &sown {
            let Some(packet) = self.packet(planting) else { continue };
            let named = (inside(&planting.name), packet.packed);
            if packet.tested.is_none() && packet.packed < from.year() - 1 && !old.contains(&named) {
                old.push(named);
            }
        }
        old.sort();
        if !old.is_empty() && !self.said_done(JobKind::TestSeed, None, (from, to)) {
            let names: Vec<String> = old.iter().map(|(n, y)| format!("{n} ({y})")).collect();
            let draft = Draft {
                kind: JobKind::TestSeed,
                nth: 0,
                what: "Test old seed".to_owned(),
                amount: format!("10 seeds of each in a damp towel, 3-7 days: {}", names.join(", ")),
                minutes: TEST_MINUTES,
                why: "fewer than 4 of 10: buy new; 4 or 5: sow thicker".to_owned(),
            };
            out.push(self.job(None, draft, from, (from, to)));
        }
        out
    }

    /// The packet of the drawer that serves a planting: of its crop, or of what it is a variety of.
    fn packet(&self, planting: &Planting) -> Option<&Packet> {
        let base = self.crop(planting).map(|c| c.base().clone());
        self.plan.drawer.iter().find(|p| p.crop == planting.crop || Some(&p.crop) == base.as_ref())
    }

    /// When seed is ordered for a season.
    fn order_window(&self, season: Season, first: Date) -> (Date, Date) {
        let curves = self.year.frost_plain(0.0);
        let frost = curves.safe_from(0.5).filter(|_| curves.share_spring() > 0.5);
        let by = plus(first, -ORDER_AHEAD);
        let Some(last_frost) = frost.map(|d| d.on_or_after(season.first())) else {
            return (plus(by, -28), by);
        };
        let (from, to) = (plus(last_frost, -7 * ORDER_WEEKS.0), plus(last_frost, -7 * ORDER_WEEKS.1));
        let to = to.min(by);
        (from.min(plus(to, -14)), to)
    }

    /// A soil sample in autumn where the last one is two years old or more.
    fn soil_test(&self, season: Season) -> Option<Job> {
        let autumn = self.year.warmest_day().plus(80).on_or_after(season.first());
        let window = (autumn, plus(autumn, 42));
        let due = |place: &&Place| {
            let (since, fresh) = place.soil_since(&place.soil_on(autumn));
            let tested = self
                .entries()
                .filter(|e| matches!(&e.what, Event::Job(w) if w == JobKind::SoilTest.word()))
                .filter(|e| e.place.as_ref().is_none_or(|p| *p == place.id) && e.on < window.1)
                .map(|e| e.on)
                .max();
            let known = if fresh { tested.max(Some(since)) } else { tested };
            !place.is_pot() && known.is_none_or(|d| days_between(d, autumn) >= TEST_EVERY)
        };
        let names: Vec<&str> = self.plan.places_on(autumn).filter(due).map(|p| p.name.as_str()).collect();
        if names.is_empty() {
            return None;
        }
        let draft = Draft {
            kind: JobKind::SoilTest,
            nth: 0,
            what: "Take a soil sample".to_owned(),
            amount: format!("10 small cores each, mixed: {}", names.join(", ")),
            minutes: SAMPLE_MINUTES,
            why: "every 2-3 years in autumn; ask the laboratory for lead once where food is new".to_owned(),
        };
        Some(self.job(None, draft, autumn, window))
    }

    /// A look at the water of pots in each warm week.
    fn pot_jobs(&self) -> Vec<Job> {
        let mut out = Vec::new();
        for week in self.weeks() {
            let day = week.day(self.plan.settings.garden_day);
            let high = self.year.tmax[ClimateDay::of(day).index()];
            let stands = |place: &&Place| {
                place.is_pot()
                    && self.plan.plantings_in(&place.id).any(|p| p.stands_on(day) && p.failed.is_none())
            };
            let pots: Vec<&Place> = self.plan.places_on(day).filter(stands).collect();
            if pots.is_empty() || high < WARM {
                continue;
            }
            let often = if high >= HOT { "morning and evening" } else { "every day" };
            let draft = Draft {
                kind: JobKind::Water,
                nth: 0,
                what: "Check the water of pots".to_owned(),
                amount: format!("{often}: a finger deep, until it drains"),
                minutes: POT_MINUTES * crate::units::num::real(pots.len()) * 7.0,
                why: "pots dry out in a day or two of warm weather".to_owned(),
            };
            let mut job = self.job(None, draft, week.monday(), (week.monday(), week.sunday()));
            job.best = week.monday();
            job.where_words = match pots.as_slice() {
                [one] => one.name.clone(),
                _ => count(pots.len(), "pot", "pots"),
            };
            POTS.clone_into(&mut job.bed);
            job.cells.clone_from(&job.where_words);
            job.id = format!("pots-water-{week}");
            out.push(job);
        }
        out
    }
}
