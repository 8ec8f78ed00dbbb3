//! Jobs that fall into weeks away.

use super::words::{cap, day, name, span, stands};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::Date;
use crate::crop::Start;
use crate::plan::{Away, Planting};

pub(super) const RULE: Rule = Rule {
    code: "away-then",
    title: "Nobody is there to do it",
    explain: "Sowing, setting out, or the whole of a picking that falls into days you are away is minded. A harvest \
              that holds in the ground past your return is not.\n\
              Source: your own weeks away.",
    run,
};

/// What falls into an absence, with its day.
fn missed(context: &Context<'_>, planting: &Planting, away: &Away) -> Option<(&'static str, Date)> {
    let dates = planting.dates();
    let within = |d: &Date| away.from <= *d && *d <= away.to;
    let raised = matches!(planting.start, Start::Raised { .. });
    if raised && let Some(sown) = dates.sown.filter(within) {
        return Some(("is to be sown", sown));
    }
    if let Some(begin) = planting.begins().filter(within) {
        return Some((
            if planting.start == Start::InPlace { "is to be sown" } else { "is to be set out" },
            begin,
        ));
    }
    let holds = context.crop(planting).map_or(0, |c| i64::from(c.picking.holds));
    let last = dates.last_pick.or(dates.first_pick)?;
    let until = crate::calendar::plus(last, holds);
    dates.first_pick.filter(|first| within(first) && within(&until)).map(|first| ("is only ripe", first))
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged_once() {
        for away in &context.plan.settings.away {
            let Some((what, on)) = missed(context, planting, away) else { continue };
            let words = format!(
                "{} in {} {what} on {}, but you are away {}.",
                cap(&name(planting)),
                stands(context, planting),
                day(on),
                span(away.from, away.to),
            );
            let remedy = String::from("Move it by 1 or 2 weeks, or ask someone to do it.");
            out.push(
                Finding::new(RULE.code, Weight::Mind, words, remedy, "your own weeks away")
                    .of_all(context, planting)
                    .on(on, None),
            );
        }
    }
}
