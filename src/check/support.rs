//! Climbers and their supports.

use super::words::{cap, day, length, name, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::plus;
use crate::crop::SupportNeed;
use crate::garden::Support;
use crate::units::num;
use std::collections::BTreeSet;

const SOURCE: &str =
    "common practice: supports of 1.5 to 2 m for climbing beans, peas and tall tomatoes, set on planting day";

/// Days after planting by which a support must stand.
const GRACE: i64 = 28;
/// Share of a plant's height that its support should have.
const ENOUGH: f64 = 0.6;

pub(super) const RULE: Rule = Rule {
    code: "no-support",
    title: "A climber without support",
    explain: "Climbers need a trellis, net, cage or stakes in their cells, best on planting day so that no root is \
              hurt, at the latest 4 weeks after, until they are cleared. A support that comes later or goes \
              earlier, or of less than three fifths of the plant's height, is minded. Crops that only do better with a support get a note.\n\
              Source: common practice.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    let mut said = BTreeSet::new();
    for planting in context.judged() {
        let (Some(crop), Some(place), Some(begin)) =
            (context.crop(planting), context.place(&planting.place), planting.begins())
        else {
            continue;
        };
        let weight = match crop.support {
            SupportNeed::None => continue,
            SupportNeed::Helps => Weight::Note,
            SupportNeed::Needs => Weight::Stop,
        };
        let (at, subject) = (stand(context, planting), cap(&name(planting)));
        let there: Vec<&Support> =
            place.supports.iter().filter(|s| s.cells.overlaps(planting.block)).collect();
        let in_time = |s: &&&Support| {
            s.from <= plus(begin, GRACE) && s.until.is_none_or(|u| planting.ends().is_some_and(|e| u >= e))
        };
        let Some(best) = there.iter().filter(in_time).max_by_key(|s| s.height.um()) else {
            let grows = length(crop.height, measure);
            let (weight, lacks) = match (there.first(), weight) {
                (None, Weight::Stop) => (weight, String::from("needs a support; none stands in its cells")),
                (None, _) => (weight, String::from("does better with a support; none stands in its cells")),
                (Some(s), _) => {
                    let until = s.until.map_or_else(String::new, |u| format!(" until {}", day(u)));
                    let lacks =
                        format!("wants a support; the one in its cells stands from {}{until}", day(s.from));
                    (weight.max(Weight::Mind), lacks)
                }
            };
            // Where a support only helps, one word for each crop and place is enough.
            if weight == Weight::Note && !said.insert((&planting.place, crop.base())) {
                continue;
            }
            let words = format!("{subject} in {at} grows {grows} tall from {} on and {lacks}.", day(begin));
            let remedy = format!(
                "Set a trellis, net or stakes there by {}, or move {} to cells that have one.",
                day(begin),
                name(planting)
            );
            out.push(Finding::new(RULE.code, weight, words, remedy, SOURCE).of(planting));
            continue;
        };
        if num::real_i(best.height.um()) < num::real_i(crop.height.um()) * ENOUGH {
            let words = format!(
                "{subject} in {at} grows {} tall, but the support there, from {} on, is {} high.",
                length(crop.height, measure),
                day(best.from),
                length(best.height, measure)
            );
            let remedy = String::from("Take a taller support, or a lower variety.");
            let weight = if weight == Weight::Stop { Weight::Mind } else { Weight::Note };
            out.push(Finding::new(RULE.code, weight, words, remedy, SOURCE).of(planting));
        }
    }
}
