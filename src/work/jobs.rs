//! The jobs of a week, and what is due on a day.

use super::amounts::count;
use super::desk::Desk;
use super::job::{Job, JobKind};
use crate::calendar::{Date, Week, day_text, days_between, plus};
use crate::crop::Book;
use crate::growth::Stage;
use crate::plan::{Plan, Planting};
use crate::site::SiteYear;

/// Weeks in which a late job is still called for.
const CALLED: i64 = 8;

/// The jobs whose best day lies in a week and that the diary does not call done, by place and day.
///
/// Each job is in one week only: that of its best day. What was left from earlier weeks is in [`due`].
pub fn jobs(plan: &Plan, book: &Book, year: &SiteYear, week: Week) -> Vec<Job> {
    jobs_between(plan, book, year, week, week)
}

/// The jobs of several weeks, the last one included, by place and day.
pub fn jobs_between(plan: &Plan, book: &Book, year: &SiteYear, from: Week, to: Week) -> Vec<Job> {
    let mut desk = Desk::new(plan, book, year, from, to);
    let mut out = all(&mut desk);
    out.retain(|j| desk.asks(j.best));
    out.sort_by_key(Job::order);
    out
}

/// What is due on a day: late jobs first, each saying what slips; then those left from earlier weeks whose window is
/// still open and those of this week.
pub fn due(plan: &Plan, book: &Book, year: &SiteYear, today: Date) -> Vec<Job> {
    let week = Week::of(today);
    let mut desk = Desk::new(plan, book, year, week.plus(-CALLED), week);
    let mut out = all(&mut desk);
    out.retain(|j| desk.asks(j.best) && (j.best >= week.monday() || j.to >= today || slips(j.kind)));
    for job in &mut out {
        if job.to < today {
            job.late = true;
            let days = days_between(job.to, today);
            job.why = format!(
                "{} late: {}",
                count(crate::units::num::count(days), "day", "days"),
                slip(&desk, job)
            );
        }
    }
    out.sort_by_key(Job::order);
    out
}

fn all(desk: &mut Desk<'_>) -> Vec<Job> {
    let mut out = desk.garden_jobs();
    out.extend(desk.frost_jobs());
    let (plan, days) = (desk.plan, (desk.from, desk.to));
    let acts = desk.gather(plan.plantings.iter().filter(|p| live(p, days)));
    for planting in &acts {
        let crop = desk.crop(planting);
        out.extend(desk.stage_jobs(planting, crop));
        if let Some(crop) = crop {
            out.extend(desk.tending_jobs(planting, crop));
            out.extend(desk.picking_jobs(planting, crop));
        }
    }
    out
}

/// Whether a planting can have jobs in the weeks asked for.
fn live(planting: &Planting, (from, to): (Date, Date)) -> bool {
    let first = planting.dates().in_order().into_iter().min();
    planting.failed.is_none()
        && planting.real.cleared.is_none()
        && first.is_some_and(|d| d <= to)
        && planting.ends().is_none_or(|e| plus(e, 60) >= from)
}

/// Whether a job that was not done in its week is still to be done later.
const fn slips(kind: JobKind) -> bool {
    match kind {
        JobKind::OrderSeed
        | JobKind::TestSeed
        | JobKind::StartIndoors
        | JobKind::PotOn
        | JobKind::HardenOff
        | JobKind::Sow
        | JobKind::SetOut
        | JobKind::Plant
        | JobKind::CoverCrop
        | JobKind::Support
        | JobKind::Net
        | JobKind::Thin
        | JobKind::Feed
        | JobKind::Hill
        | JobKind::SaveSeed
        | JobKind::Clear
        | JobKind::SoilTest => true,
        JobKind::Mulch
        | JobKind::Tie
        | JobKind::Pinch
        | JobKind::Uncover
        | JobKind::Cover
        | JobKind::Water
        | JobKind::Pick => false,
    }
}

/// What slips when a job is late.
fn slip(desk: &Desk<'_>, job: &Job) -> String {
    let planting = job.planting.and_then(|id| desk.plan.planting(id));
    let later = |stage: Stage, what: &str| {
        planting.and_then(|p| p.dates().of(stage)).map_or_else(
            || format!("{what} moves by as much"),
            |d| format!("{what} ({}) moves by as much", day_text(d)),
        )
    };
    match job.kind {
        JobKind::StartIndoors | JobKind::PotOn | JobKind::HardenOff => later(Stage::SetOut, "setting out"),
        JobKind::Sow | JobKind::SetOut | JobKind::Plant => later(Stage::FirstPick, "first picking"),
        JobKind::CoverCrop => "it must have grown before the hard frost".to_owned(),
        JobKind::SaveSeed => "what is cleared ripens no seed".to_owned(),
        JobKind::Clear => job.why.clone(),
        JobKind::OrderSeed | JobKind::TestSeed => "the first sowings wait for it".to_owned(),
        JobKind::SoilTest => "the ground may freeze before the sample is taken".to_owned(),
        JobKind::Support
        | JobKind::Net
        | JobKind::Thin
        | JobKind::Mulch
        | JobKind::Feed
        | JobKind::Tie
        | JobKind::Hill
        | JobKind::Pinch
        | JobKind::Uncover
        | JobKind::Cover
        | JobKind::Water
        | JobKind::Pick => format!("{}; the harvest suffers, no date moves", job.why),
    }
}
