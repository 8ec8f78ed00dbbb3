//! Jobs that are stages of a planting: from sowing to clearing.

use super::amounts::{apart, count, deep, inside, piece, seeds};
use super::desk::{Desk, Draft};
use super::job::{Job, JobKind};
use crate::calendar::{Date, Week, day_text, days_between, plus};
use crate::crop::{Crop, Start, TroubleKind};
use crate::growth::Stage;
use crate::plan::{Event, Planting, Why};

/// Days a sowing or setting out may slip before later dates move (common practice).
const SLACK: i64 = 7;
/// Days a cover crop may slip, and days it should grow before a hard frost (trade articles on cover crops: at least 4
/// weeks before hard frost).
const COVER_SLACK: i64 = 14;
const COVER_GROWS: i64 = 28;
/// A hard frost, degrees Celsius: 28 F (National Weather Service).
const HARD: f64 = -2.2;
/// Days in which a cleared cell is sown again for the hand-over to be said.
const NEXT: i64 = 28;

/// A stage, what is said of it, and the days it may slip.
struct Step {
    stage: Stage,
    kind: JobKind,
    what: String,
    amount: String,
    minutes: f64,
    why: String,
    slack: i64,
}

impl Desk<'_> {
    /// Jobs of a planting that are stages of it and not done.
    pub(super) fn stage_jobs(&self, planting: &Planting, crop: Option<&Crop>) -> Vec<Job> {
        let mut out = Vec::new();
        let dates = planting.dates();
        for step in self.steps(planting, crop) {
            let Some(day) = dates.of(step.stage) else { continue };
            if past(planting, step.stage) {
                continue;
            }
            let mut window = (day, plus(day, step.slack));
            if let Some(limit) = self.limit(planting, step.stage) {
                window.1 = window.1.min(limit).max(day);
            }
            let (mut day, mut nth) = (day, 0);
            if let Some(off) = self.put_off(step.stage, planting).filter(|off| *off >= day) {
                // Put off: the garden day of the week after.
                day = Week::of(off).plus(1).day(self.plan.settings.garden_day);
                window = (plus(off, 1), window.1.max(day));
                nth = 1;
            }
            let draft = Draft {
                kind: step.kind,
                nth: 0,
                what: step.what,
                amount: step.amount,
                minutes: step.minutes,
                why: if nth > 0 { format!("{}; put off before", step.why) } else { step.why },
            };
            out.push(self.job(Some(planting), draft, day, window));
        }
        out
    }

    fn steps(&self, planting: &Planting, crop: Option<&Crop>) -> Vec<Step> {
        let minutes = &self.plan.settings.minutes;
        let measure = self.measure();
        let name = inside(&planting.name);
        let n = planting.plants;
        let plants = count(usize::from(n), "plant", "plants");
        let spaced = crop.map_or_else(String::new, |c| format!(", {}", apart(c, measure)));
        let depth = crop.map_or_else(String::new, |c| format!(", {}", deep(c, measure)));
        let fresh = crop.map_or(1.0, |c| f64::from(c.seed.sprouts) / 100.0);
        let seed = crop.map_or_else(|| usize::from(n), |c| seeds(c, planting, fresh));
        let reason = reason(planting);
        let mut out = Vec::new();
        let mut step = |stage, kind, what: String, amount: String, minutes: f64, why: String, slack| {
            out.push(Step { stage, kind, what, amount, minutes, why, slack });
        };
        match planting.start {
            Start::InPlace => {
                let seeds = count(seed, "seed", "seeds");
                let amount = format!("{seeds}{spaced}{depth}");
                let stage = if planting.dates().sown.is_some() { Stage::Sown } else { Stage::SetOut };
                let cover = planting.why == Why::Cover;
                let (kind, what) = if cover {
                    (JobKind::CoverCrop, format!("Sow {name} as a cover crop"))
                } else {
                    (JobKind::Sow, format!("Sow {name}"))
                };
                let slack = if cover { COVER_SLACK } else { SLACK };
                let why = if cover { self.before_hard_frost(planting) } else { reason };
                step(stage, kind, what, amount, minutes.sow.minutes(n), why, slack);
            }
            Start::Raised { per_station, harden, .. } => {
                let out =
                    planting.dates().set_out.map_or_else(String::new, |d| format!(" on {}", day_text(d)));
                let cells = crate::units::num::round_u(planting.stations());
                let each =
                    if per_station > 1 { format!(" for {per_station} plants each") } else { String::new() };
                let amount = format!(
                    "{} in {}{each}{depth}",
                    count(seed, "seed", "seeds"),
                    count(cells, "cell", "cells")
                );
                let what = format!("Start {name} indoors");
                step(
                    Stage::Sown,
                    JobKind::StartIndoors,
                    what,
                    amount,
                    minutes.raise.minutes(n),
                    format!("to be set out{out}"),
                    SLACK,
                );
                let amount = count(cells, "plant into a larger pot", "plants into larger pots");
                let why = "before the roots circle".to_owned();
                let what = format!("Pot on {name}");
                step(Stage::Potted, JobKind::PotOn, what, amount, minutes.pot_on.minutes(n), why, SLACK);
                let low = match measure {
                    crate::units::Measure::Us => "45 F",
                    crate::units::Measure::Metric => "7 C",
                };
                let amount = format!("shade, 1-2 h the first day, an hour more each day; not below {low}");
                let why = format!("{} days before it is set out{out}", harden.max(1));
                step(Stage::Hardened, JobKind::HardenOff, format!("Harden off {name}"), amount, 10.0, why, 3);
                let what = format!("Set out {name}");
                let minutes = minutes.set_out.minutes(n);
                step(
                    Stage::SetOut,
                    JobKind::SetOut,
                    what,
                    format!("{plants}{spaced}"),
                    minutes,
                    reason,
                    SLACK,
                );
            }
            Start::Bought => {
                let what = format!("Set out {name}");
                let amount = format!("{plants}{spaced}, bought");
                step(Stage::SetOut, JobKind::SetOut, what, amount, minutes.set_out.minutes(n), reason, SLACK);
            }
            Start::Piece(what) => {
                let (one, many) = piece(what);
                let amount = format!("{}{spaced}{depth}", count(usize::from(n), one, many));
                let what = format!("Plant {name}");
                step(
                    Stage::SetOut,
                    JobKind::Plant,
                    what,
                    amount,
                    minutes.set_out.minutes(n),
                    reason,
                    2 * SLACK,
                );
            }
        }
        let (amount, why) = self.clearing(planting);
        let what = match planting.why {
            Why::Cover => format!("Cut down and dig in {name}"),
            Why::Hand | Why::Wish(_) | Why::Catch => format!("Clear {name}"),
        };
        step(Stage::Cleared, JobKind::Clear, what, amount, minutes.clear.minutes(n), why, SLACK);
        out
    }

    /// What to do with the remains, and what comes after.
    fn clearing(&self, planting: &Planting) -> (String, String) {
        let sick = self.entries().any(|e| {
            let here = e.planting == Some(planting.id);
            let soil = |id: &str| self.book.trouble(id).is_none_or(|t| t.kind != TroubleKind::Pest);
            here && matches!(&e.what, Event::Trouble(id) if soil(id))
        });
        let amount = if sick {
            "diseased: take every root and leaf out of the garden, none to the compost"
        } else if planting.why == Why::Cover {
            "before it seeds; wait 2-4 weeks before sowing"
        } else {
            "tops to the compost, roots out or cut at the ground"
        };
        let why = match self.next(planting) {
            Some((next, on)) => {
                let deed = match next.start {
                    Start::InPlace => "sow",
                    Start::Raised { .. } | Start::Bought => "set out",
                    Start::Piece(_) => "plant",
                };
                format!("then {deed} {} on {}", inside(&next.name), day_text(on))
            }
            None => "its last picking is over".to_owned(),
        };
        (amount.to_owned(), why)
    }

    /// The average first hard frost (28 F, -2.2 C) after a planting begins, where there is one before it ends.
    fn hard_frost(&self, planting: &Planting) -> Option<Date> {
        let begins = planting.begins()?;
        let frost = self.year.frost_plain(HARD).first.five_in_10?.on_or_after(begins);
        planting.ends().is_none_or(|e| frost < e).then_some(frost)
    }

    /// Why a cover crop is sown now.
    fn before_hard_frost(&self, planting: &Planting) -> String {
        match self.hard_frost(planting) {
            Some(frost) => format!(
                "to cover the soil; it should grow for 4 weeks before the hard frost (about {})",
                day_text(frost)
            ),
            None => "to cover the soil".to_owned(),
        }
    }

    /// The first planting after this one in any of its cells, if it comes soon.
    pub(super) fn next(&self, planting: &Planting) -> Option<(&Planting, Date)> {
        let cleared = planting.ends()?;
        self.plan
            .plantings
            .iter()
            .filter(|p| {
                p.place == planting.place
                    && p.id != planting.id
                    && p.layer == planting.layer
                    && p.block.overlaps(planting.block)
            })
            .filter_map(|p| p.begins().map(|b| (p, b)))
            .filter(|(_, b)| (0..=NEXT).contains(&days_between(cleared, *b)))
            .min_by_key(|(p, b)| (*b, p.id))
    }

    /// The last day for a stage: for clearing the day the next planting wants the cells, for setting out and sowing
    /// the day before its own clearing.
    fn limit(&self, planting: &Planting, stage: Stage) -> Option<Date> {
        match stage {
            Stage::Cleared => self.next(planting).map(|(_, b)| b),
            Stage::Hardened => planting.dates().set_out.map(|d| plus(d, -1)),
            Stage::Potted => planting.dates().hardened,
            // A cover crop grows for four weeks before the hard frost that ends its growth.
            Stage::Sown if planting.why == Why::Cover => {
                self.hard_frost(planting).map(|frost| plus(frost, -COVER_GROWS))
            }
            Stage::Sown
            | Stage::Emerged
            | Stage::SetOut
            | Stage::Closed
            | Stage::FirstPick
            | Stage::LastPick => None,
        }
    }
}

/// Whether a stage, or one after it, really happened.
pub(super) fn past(planting: &Planting, stage: Stage) -> bool {
    Stage::ALL.into_iter().any(|s| s >= stage && planting.real.of(s).is_some())
}

/// Why it is planted at all.
fn reason(planting: &Planting) -> String {
    match (planting.why, planting.dates().first_pick) {
        (Why::Cover, _) => "to cover the soil".to_owned(),
        (Why::Catch, Some(pick)) => format!("catch crop, first picking about {}", day_text(pick)),
        (_, Some(pick)) => format!("first picking about {}", day_text(pick)),
        (_, None) => "as planned".to_owned(),
    }
}
