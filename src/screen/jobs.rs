//! The jobs: what there is to do in the shown week, what is late first; and what was done.

use super::hit::Table;
use super::list;
use super::pane::Pane;
use super::theme::Role;
use crate::app::{Model, View, event_words};
use crate::calendar::day_text;
use crate::work::Job;

/// Rows about the job under the cursor.
const DETAIL: i32 = 4;

/// Rows about what was done.
fn told(model: &Model, height: i32) -> i32 {
    i32::try_from(model.diary_of_week().len()).unwrap_or(0).min(height / 4)
}

/// Where the jobs lie.
pub(super) fn table(model: &Model, height: i32) -> Table {
    let told = told(model, height);
    Table { top: 1, rows: height - 2 - DETAIL - told - i32::from(told > 0), wide: i32::MAX }
}

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    if let Err(words) = &model.year {
        pane.words(2, 1, &format!("There are no dates without a climate: {words}."), width - 4, Role::Mind);
        return;
    }
    head(pane, model);
    let done = model.diary_of_week();
    let told = told(model, height);
    let table = table(model, height);
    let rows = table.rows;
    let at = model.line(View::Jobs);
    let mut inside = pane.part(0, table.top, width, rows);
    if model.jobs.is_empty() {
        inside.say(2, 0, "Nothing to do in this week.", Role::Good);
        if model.shown().plantings.is_empty() {
            let filling =
                "Nothing is planted yet: fill the garden, or plant by hand in a bed, and the jobs follow.";
            inside.words(2, 1, filling, width - 4, Role::Quiet);
        }
    }
    let high = inside.height();
    for (row, n, job) in list::shown(&model.jobs, at, high) {
        line(&mut inside, job, row);
        if n == at {
            list::mark(&mut inside, row);
        }
    }
    let latest = done.iter().rev().take(usize::try_from(told).unwrap_or(0));
    for (y, entry) in (rows + 1..).zip(latest) {
        let who = entry.planting.and_then(|id| model.plan.planting(id)).map_or("", |p| p.name.as_str());
        let words = format!("{} {who} {} {}", day_text(entry.on), event_words(&entry.what), entry.words);
        let tick = pane.look.glyphs.tick;
        pane.say(2, y, tick, Role::Good);
        pane.fit(4, y, words.trim(), width - 5, Role::Quiet);
    }
    pane.rule(0, height - DETAIL - 1, width);
    whole(&mut pane.part(0, height - DETAIL, width, DETAIL), model);
}

/// "12 jobs, about 3 h 20 min, of 8 h there are".
fn head(pane: &mut Pane<'_>, model: &Model) {
    let minutes: u32 = model.jobs.iter().map(|j| u32::from(j.minutes)).sum();
    let late = model.jobs.iter().filter(|j| j.late).count();
    let n = model.jobs.len();
    let mut words = format!("{n} job{}, about {}", if n == 1 { "" } else { "s" }, time(minutes));
    if let Some(hours) = model.plan.settings.hours_a_week {
        words = format!("{words}; there are {hours} h a week");
    }
    let at = pane.say(2, 0, &words, Role::Quiet);
    if late > 0 {
        pane.say(at + 2, 0, &format!("{late} late"), Role::Mind);
    }
    list::rest(pane, 0, model.line(View::Jobs), n);
}

/// "3 h 20 min".
fn time(minutes: u32) -> String {
    match (minutes / 60, minutes % 60) {
        (0, m) => format!("{m} min"),
        (h, 0) => format!("{h} h"),
        (h, m) => format!("{h} h {m} min"),
    }
}

fn line(pane: &mut Pane<'_>, job: &Job, row: i32) {
    let width = pane.width();
    let wide = width >= 110;
    let what = if wide { 34 } else { 26 };
    let place = if wide { 28 } else { 20 };
    let [_, empty] = pane.look.glyphs.bar;
    let role = if job.late { Role::Mind } else { Role::Plain };
    pane.say(2, row, empty, role);
    pane.fit(4, row, &job.what, what, role);
    pane.fit(5 + what, row, &job.where_words, place, Role::Quiet);
    let amount = 6 + what + place;
    pane.fit(amount, row, &job.amount, width - amount - 8, Role::Plain);
    pane.right(width - 1, row, &time(u32::from(job.minutes)), Role::Quiet);
}

fn whole(pane: &mut Pane<'_>, model: &Model) {
    let Some(job) = model.focus_job() else { return };
    let width = pane.width() - 4;
    let at = pane.fit(2, 0, &job.what, width, Role::Title);
    pane.fit(at + 2, 0, &job.where_words, width - at, Role::Quiet);
    let y = pane.words(2, 1, &job.amount, width, Role::Plain);
    let y = pane.words(2, y, &format!("{}: {}", job.when(), job.why), width, Role::Quiet);
    if job.away {
        pane.words(2, y, "You are away on every day of its window.", width, Role::Mind);
    }
}
