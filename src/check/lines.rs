//! Buried lines before digging and posts.

use super::words::day;
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{Date, plus};
use crate::garden::{Kind, Place, SupportKind};

const SOURCE: &str = "one-call (811) pages of US states and cities; Northwest gas association: hand digging within 18 \
                      to 24 in of marks";

/// Days before digging on which to ask: 3 business days fall within so many.
const AHEAD: i64 = 5;
/// Days before the first planting in which beds and posts may still be to come.
const BEFORE: i64 = 90;

pub(super) const RULE: Rule = Rule {
    code: "buried-lines",
    title: "Buried lines before digging",
    explain: "Gas, power, water and telephone lines lie shallower than one thinks. Before posts are driven or a bed \
              is dug in the open ground, have them marked: in the US call 811, free, 2 to 3 business days ahead, \
              even for shallow digging; dig by hand within 18 to 24 in of the marks. A note for each place with a \
              new bed in the open ground, or new posts in soil. Keep tall supports away from overhead lines.\n\
              Source: one-call pages of US states and cities; Northwest gas association. Elsewhere ask your local \
              service.",
    run,
};

/// What is dug at a place on a judged day, first to come.
fn dug(context: &Context<'_>, place: &Place, first: Date) -> Option<(Date, &'static str)> {
    let open = matches!(place.kind, Kind::OpenBed | Kind::FlowerBed);
    let bed = open.then_some((place.since, "is dug"));
    let soil = !place.is_pot() && !place.on_paving && !place.on_deck;
    let posts = place.supports.iter().filter(|_| soil).filter_map(|s| match s.kind {
        SupportKind::Trellis | SupportKind::Net | SupportKind::Stakes => {
            Some((s.from, "gets posts for a support"))
        }
        SupportKind::Cage => None,
    });
    bed.into_iter()
        .chain(posts)
        .filter(|(on, _)| *on >= context.from.max(first) && *on <= context.to)
        .min_by_key(|d| d.0)
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    // What was dug before the first planting that is judged has been dug.
    let first = context.judged().filter_map(crate::plan::Planting::begins).min().map(|d| plus(d, -BEFORE));
    for place in &context.plan.places {
        let Some((on, what)) = dug(context, place, first.unwrap_or(context.from)) else { continue };
        let words = format!(
            "{} {what} on {}. Gas, power, water and telephone lines may lie there; they are marked 2 to 3 business \
             days after you ask.",
            place.name,
            day(on)
        );
        let remedy = format!(
            "Ask your one-call service (811 in the US) by {} to have buried lines marked, and dig by hand within 24 \
             in (60 cm) of the marks. Follow local rules.",
            day(plus(on, -AHEAD))
        );
        out.push(Finding::new(RULE.code, Weight::Note, words, remedy, SOURCE).at(place).on(on, None));
    }
}
