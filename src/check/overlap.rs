//! Two plantings in the same cells at the same time.

use super::words::{cap, day, name, span, stand};
use super::{Context, Finding, Rule, Weight};
use crate::garden::Layer;

pub(super) const RULE: Rule = Rule {
    code: "cells-taken",
    title: "Two plantings in the same cells",
    explain: "A cell holds one main planting at a time, and one mate in the weeks the main planting leaves room. \
              Days are compared one by one: a cell cleared on a day can be planted again on that day.\n\
              Source: the layout itself.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for &(first, second) in context.pairs() {
        if !first.collides(second) {
            continue;
        }
        let Some((from, to)) = context.together(first, second) else { continue };
        let layer = match second.layer {
            Layer::Main => "",
            Layer::Mate => {
                " Both are planned as companions sharing the room of a larger crop, and only one fits."
            }
        };
        let when = to.map_or_else(|| format!("from {} on", day(from)), |t| format!("from {}", span(from, t)));
        let words = format!(
            "{} and {} share cells {when}: {} stands in {}, {} in {}.{layer}",
            cap(&name(first)),
            name(second),
            name(first),
            stand(context, first),
            name(second),
            stand(context, second),
        );
        let remedy = match first.ends() {
            Some(end) => {
                format!("Plant {} on {} or later, or move it to other cells.", name(second), day(end))
            }
            None => format!("Move {} to other cells: {} stands for years.", name(second), name(first)),
        };
        out.push(
            Finding::new(RULE.code, Weight::Stop, words, remedy, "the layout of this garden")
                .on(from, to)
                .of(second),
        );
    }
}
