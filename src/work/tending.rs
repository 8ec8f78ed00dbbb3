//! Jobs between planting and clearing: support, net, thinning, feeding, tying, picking.

use super::amounts::{apart, count, inside, length};
use super::desk::{Desk, Draft};
use super::job::{Job, JobKind};
use crate::calendar::{ClimateDay, Date, days_between, plus};
use crate::crop::{Clock, Crop, Part, Start, SupportNeed, Tending};
use crate::garden::CoverKind;
use crate::plan::{Planting, Why};
use crate::units::{Measure, num};

/// Soil temperature from which mulch no longer keeps the soil cold, degrees Celsius: 60 F (common practice).
const MULCH_SOIL: f64 = 15.5;
/// Days from an open flower to a fruit for the table (from memory: cucumber 10, squash 7 to 14).
const FLOWER_TO_FRUIT: i64 = 14;
/// Days from the first to the second time soil is drawn up (from memory: two to three weeks).
const HILL_AGAIN: i64 = 21;
/// Days from a pod for the table to a dry one (from memory: four to six weeks), of which the end of picking is used.
const SEED_RIPENS: i64 = 14;
/// Minutes to mark plants for seed (from memory).
const SEED_MINUTES: f64 = 10.0;
/// Minutes to put up a support, to lay or take off a net (from memory).
const SUPPORT_MINUTES: f64 = 20.0;
const NET_MINUTES: f64 = 10.0;

impl Desk<'_> {
    /// Jobs of a standing planting.
    pub(super) fn tending_jobs(&self, planting: &Planting, crop: &Crop) -> Vec<Job> {
        let Some(begins) = planting.begins() else { return Vec::new() };
        let mut out = Vec::new();
        self.protection(planting, crop, begins, &mut out);
        self.seed_saving(planting, crop, &mut out);
        let ends = planting.ends().unwrap_or(Date::MAX);
        let grows = grows_from(planting, begins);
        for tending in &crop.tending {
            for (nth, (draft, day, slack)) in
                self.tended(planting, crop, *tending, grows).into_iter().enumerate()
            {
                let window = (day, plus(day, slack));
                let draft = Draft { nth: num::word(nth), ..draft };
                if day < begins || day >= ends {
                    continue;
                }
                if self.said_done(draft.kind, Some(planting), repeated(*tending, window)) {
                    continue;
                }
                out.push(self.job(Some(planting), draft, day, window));
            }
        }
        out
    }

    fn protection(&self, planting: &Planting, crop: &Crop, begins: Date, out: &mut Vec<Job>) {
        let name = inside(&planting.name);
        let held = self.held(planting, begins);
        let mut add = |kind, what, amount, minutes, why: &str| {
            let window = (begins, plus(begins, 3));
            if begun_long_ago(planting) || self.said_done(kind, Some(planting), window) {
                return;
            }
            let draft = Draft { kind, nth: 0, what, amount, minutes, why: why.to_owned() };
            out.push(self.job(Some(planting), draft, begins, window));
        };
        if crop.support != SupportNeed::None && !held {
            let amount = format!("{} high", length(crop.height, self.measure()));
            let why = match crop.support {
                SupportNeed::Needs => {
                    "on planting day, before the roots spread: it does not grow without one"
                }
                SupportNeed::Helps | SupportNeed::None => {
                    "on planting day, before the roots spread: it helps"
                }
            };
            add(JobKind::Support, format!("Put up a support for {name}"), amount, SUPPORT_MINUTES, why);
        }
        if crop.net && !self.covered(planting, begins) {
            let amount = "fine net, edges in the soil".to_owned();
            let why = "from the first day, before insects find it";
            add(JobKind::Net, format!("Net {name}"), amount, NET_MINUTES, why);
        }
    }

    /// Seed of pods and grains is easily saved at home: they dry on the plant and mostly come true (common practice).
    /// Asked of the last planting of a crop in a season, before it is cleared.
    fn seed_saving(&self, planting: &Planting, crop: &Crop, out: &mut Vec<Job>) {
        let dry = matches!(crop.part, Part::Pod | Part::Seed) && matches!(crop.clock, Clock::Heat { .. });
        let (Some(last), Some(ends)) = (planting.dates().last_pick, planting.ends()) else { return };
        let filler = matches!(planting.why, Why::Catch | Why::Cover);
        let later = |p: &Planting| {
            p.crop == planting.crop
                && p.failed.is_none()
                && p.ends().is_some_and(|e| e > ends && days_between(ends, e) < 200)
        };
        if !dry || filler || self.plan.plantings.iter().any(later) {
            return;
        }
        let day = plus(last, -SEED_RIPENS).max(planting.dates().first_pick.unwrap_or(last)).min(ends);
        let window = (day, ends);
        if self.said_done(JobKind::SaveSeed, Some(planting), window) {
            return;
        }
        let kin = |p: &Planting| {
            p.crop != planting.crop
                && p.botanical == planting.botanical
                && p.begins().is_some_and(|b| b < ends)
                && p.ends().is_none_or(|e| e > plus(day, -30))
        };
        let crosses = self.plan.plantings.iter().find(|p| kin(p)).map_or_else(String::new, |p| {
            format!("; {} flowers near it and may cross with it", inside(&p.name))
        });
        let name = inside(&planting.name);
        let draft = Draft {
            kind: JobKind::SaveSeed,
            nth: 0,
            what: format!("Save seed of {name}"),
            amount: "stop picking 2 or 3 of the best plants; pods or ears dry on them; label with the year"
                .to_owned(),
            minutes: SEED_MINUTES,
            why: format!("not of F1 hybrids: they do not come true{crosses}"),
        };
        out.push(self.job(Some(planting), draft, day, window));
    }

    /// Whether a support stands at some of its cells on a day.
    pub(super) fn held(&self, planting: &Planting, day: Date) -> bool {
        self.plan.place(&planting.place).is_some_and(|p| {
            p.supports
                .iter()
                .any(|s| s.cells.overlaps(planting.block) && s.from <= day && s.until.is_none_or(|u| u > day))
        })
    }

    /// Whether a net or fleece of the plan lies over some of its cells on a day.
    fn covered(&self, planting: &Planting, day: Date) -> bool {
        self.plan.place(&planting.place).is_some_and(|p| {
            p.covers.iter().any(|c| {
                matches!(c.kind, CoverKind::InsectNet | CoverKind::Fleece)
                    && c.cells.overlaps(planting.block)
                    && c.from <= day
                    && day < c.until
            })
        })
    }

    /// The jobs of one kind of tending: what, on which day, days it may slip.
    fn tended(
        &self,
        planting: &Planting,
        crop: &Crop,
        tending: Tending,
        grows: Date,
    ) -> Vec<(Draft, Date, i64)> {
        let name = inside(&planting.name);
        let minutes = self.plan.settings.minutes.care.minutes(planting.plants);
        let draft = |kind, what: String, amount: String, why: &str| Draft {
            kind,
            nth: 0,
            what,
            amount,
            minutes,
            why: why.to_owned(),
        };
        let plants = || count(usize::from(planting.plants), "plant", "plants");
        let soil = |inches, cm| match self.measure() {
            Measure::Us => format!("{inches} in"),
            Measure::Metric => format!("{cm} cm"),
        };
        match tending {
            Tending::Thin(days) if planting.start == Start::InPlace => {
                let amount = format!("to {}, {} left", apart(crop, self.measure()), plants());
                let why = "at 2-3 true leaves, before they crowd each other";
                vec![(draft(JobKind::Thin, format!("Thin {name}"), amount, why), plus(grows, days.into()), 7)]
            }
            Tending::Thin(_) => Vec::new(),
            Tending::Tie(every) => {
                let last = planting
                    .dates()
                    .last_pick
                    .or_else(|| planting.ends())
                    .unwrap_or_else(|| plus(grows, 120));
                let step = i64::from(every.max(1));
                let days = (1..60).map(|n| plus(grows, n * step)).take_while(|d| *d <= last);
                let why = "new growth is soft and breaks later";
                days.map(|d| (draft(JobKind::Tie, format!("Tie up {name}"), plants(), why), d, 6)).collect()
            }
            Tending::Hill(days) => {
                let first = plus(grows, days.into());
                let amount = format!("{} of soil drawn up", soil("3", "8"));
                [first, plus(first, HILL_AGAIN)]
                    .into_iter()
                    .map(|d| {
                        let why = "keeps light from what swells";
                        (draft(JobKind::Hill, format!("Hill up {name}"), amount.clone(), why), d, 7)
                    })
                    .collect()
            }
            Tending::Feed(days) => {
                let why = "feeds heavily from now on; rate by the label";
                vec![(
                    draft(JobKind::Feed, format!("Feed {name}"), plants(), why),
                    plus(grows, days.into()),
                    10,
                )]
            }
            Tending::Mulch(days) => {
                let mut day = plus(grows, days.into());
                let warm = |d: Date| self.year.soil[ClimateDay::of(d).index()] >= MULCH_SOIL;
                if let Some(later) = (0..90).map(|n| plus(day, n)).find(|d| warm(*d)) {
                    day = later;
                }
                let amount = format!("{} deep, off the stems", soil("2-3", "5-8"));
                let why = "the soil is warm enough now";
                vec![(draft(JobKind::Mulch, format!("Mulch {name}"), amount, why), day, 14)]
            }
            Tending::Uncover => {
                let Some(pick) = planting.dates().first_pick else { return Vec::new() };
                let day = plus(pick, -FLOWER_TO_FRUIT);
                if !crop.net && !self.covered(planting, day) {
                    return Vec::new();
                }
                let why = "first flowers open about now: insects must reach them";
                let amount = "net or fleece off by day".to_owned();
                vec![(draft(JobKind::Uncover, format!("Uncover {name}"), amount, why), day, 3)]
            }
            Tending::Pinch(days) => {
                let why = "it branches";
                vec![(
                    draft(JobKind::Pinch, format!("Pinch out {name}"), plants(), why),
                    plus(grows, days.into()),
                    7,
                )]
            }
        }
    }
}

/// The day tending counts from: emerged, or set out.
fn grows_from(planting: &Planting, begins: Date) -> Date {
    match planting.start {
        Start::InPlace => planting.dates().emerged.unwrap_or(begins),
        Start::Raised { .. } | Start::Bought | Start::Piece(_) => begins,
    }
}

/// Whether the planting day is over for certain.
fn begun_long_ago(planting: &Planting) -> bool {
    planting.real.first_pick.is_some() || planting.real.closed.is_some()
}

/// Days about which the diary's word is looked for: jobs that come again must be near.
fn repeated(tending: Tending, window: (Date, Date)) -> (Date, Date) {
    match tending {
        // The search itself allows ten days on either side; these come every week.
        Tending::Tie(_) => (plus(window.0, 8), plus(window.0, -7)),
        Tending::Thin(_)
        | Tending::Hill(_)
        | Tending::Feed(_)
        | Tending::Mulch(_)
        | Tending::Uncover
        | Tending::Pinch(_) => window,
    }
}
