//! More work in a week than the grower has hours.

use super::words::{day, inside, list};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{Date, Week};
use crate::crop::Start;
use crate::plan::Planting;
use std::collections::BTreeMap;

const SOURCE: &str = "your own hours; minutes of each job are estimates from memory that you can edit";

pub(super) const RULE: Rule = Rule {
    code: "hours-short",
    title: "More work than hours",
    explain: "Each job is given minutes for the planting and for each plant: sowing, raising, potting on, setting \
              out, a weekly round of care, weekly picking, clearing. The weeks in which they add up to more than \
              the hours you have are minded, once for each stretch of such weeks; up to 15 % more is a note. The minutes stand in the \
              settings and are estimates: edit them after a season.\n\
              Source: from memory.",
    run,
};

/// Share of the hours above which more work is minded.
const MUCH: f64 = 1.15;

/// Minutes of a planting by week.
pub(super) fn minutes(context: &Context<'_>, planting: &Planting) -> BTreeMap<Week, f64> {
    let each = &context.plan.settings.minutes;
    let dates = planting.dates();
    let mut out: BTreeMap<Week, f64> = BTreeMap::new();
    let mut add = |date: Option<Date>, minutes: f64| {
        if let Some(date) = date {
            *out.entry(Week::of(date)).or_default() += minutes;
        }
    };
    let n = planting.plants;
    match planting.start {
        Start::InPlace => add(planting.begins(), each.sow.minutes(n)),
        Start::Raised { .. } => {
            add(dates.sown, each.raise.minutes(n));
            add(dates.potted, each.pot_on.minutes(n));
            add(dates.set_out, each.set_out.minutes(n));
        }
        Start::Bought | Start::Piece(_) => add(planting.begins(), each.set_out.minutes(n)),
    }
    add(dates.cleared, each.clear.minutes(n));
    let last = dates.cleared.or(dates.last_pick);
    let weeks = |from: Option<Date>, to: Option<Date>| {
        let (from, to) = (from.map(Week::of), to.map(Week::of));
        let span = from.zip(to);
        let steps = span.map_or(0, |(a, b)| a.until(b).clamp(-1, 260) + 1);
        (0..steps).filter_map(move |w| span.map(|s| s.0.plus(w).monday()))
    };
    for week in weeks(planting.begins(), last) {
        add(Some(week), each.care.minutes(n));
    }
    for week in weeks(dates.first_pick, dates.last_pick.or(dates.first_pick)) {
        add(Some(week), each.pick.minutes(n));
    }
    out
}

/// Runs of weeks in which a figure lies above its limit: first week, last week, worst week.
pub(super) fn runs(by_week: &BTreeMap<Week, f64>, limit: f64) -> Vec<(Week, Week, Week)> {
    let mut out: Vec<(Week, Week, Week)> = Vec::new();
    for (week, amount) in by_week {
        if *amount <= limit {
            continue;
        }
        match out.last_mut() {
            Some(run) if run.1.plus(1) == *week => {
                run.1 = *week;
                if by_week.get(&run.2).is_some_and(|worst| amount > worst) {
                    run.2 = *week;
                }
            }
            Some(_) | None => out.push((*week, *week, *week)),
        }
    }
    out
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let Some(hours) = context.plan.settings.hours_a_week else { return };
    let mut by_week: BTreeMap<Week, f64> = BTreeMap::new();
    let mut shares: BTreeMap<Week, BTreeMap<String, f64>> = BTreeMap::new();
    for planting in context.judged() {
        for (week, minutes) in minutes(context, planting) {
            if week.sunday() >= context.from && week.monday() <= context.to {
                *by_week.entry(week).or_default() += minutes;
                *shares.entry(week).or_default().entry(inside(&planting.name)).or_default() += minutes;
            }
        }
    }
    for (first, last, worst) in runs(&by_week, f64::from(hours) * 60.0) {
        let mut most: Vec<(&String, f64)> =
            shares.get(&worst).into_iter().flatten().map(|(name, m)| (name, *m)).collect();
        most.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(b.0)));
        let names: Vec<String> = most.iter().take(3).map(|(name, _)| (*name).clone()).collect();
        let most = by_week.get(&worst).copied().unwrap_or_default() / 60.0;
        let words = if first == last {
            format!(
                "In the week of {} the garden asks for about {most:.1} hours, and you have {hours}.",
                day(worst.monday())
            )
        } else {
            format!(
                "From the week of {} to that of {} the garden asks for more hours than you have: about {most:.1} in \
                 the week of {}, and you have {hours}.",
                day(first.monday()),
                day(last.monday()),
                day(worst.monday())
            )
        };
        let words = format!("{words} Most of it is {}.", list(&names));
        // The minutes are estimates: a little more is a note.
        let weight = if most > f64::from(hours) * MUCH { Weight::Mind } else { Weight::Note };
        let remedy = String::from(
            "Move a sowing by a week, buy plants instead of raising them, or grow less of these; the minutes are \
             estimates you can edit.",
        );
        out.push(
            Finding::new(RULE.code, weight, words, remedy, SOURCE).on(first.monday(), Some(last.sunday())),
        );
    }
}
