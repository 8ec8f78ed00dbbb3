//! Root depth of a box over paving.

use super::words::{cap, length, name, stands};
use super::{Context, Finding, Rule, Weight};

const SOURCE: &str =
    "common practice; whole depth as root room: University of Maryland Extension answer 622152";

pub(super) const RULE: Rule = Rule {
    code: "roots-cramped",
    title: "Too little soil over paving",
    explain: "Over open soil roots go on down below a box. Over paving, a deck or a balcony the box must hold the \
              whole root depth: leafy crops about 15 cm, beans and beets 20 to 25 cm, tomatoes, squash and potatoes \
              30 to 40 cm. 2 % is allowed.\n\
              Source: common practice; University of Maryland Extension answer 622152 on filling boxes.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    for planting in context.judged_once() {
        let (Some(crop), Some(place)) = (context.crop(planting), context.place(&planting.place)) else {
            continue;
        };
        if place.is_pot() || !(place.on_paving || place.on_deck) {
            continue;
        }
        if place.depth().um() * 102 < crop.root_depth.um() * 100 {
            let (has, want) = (length(place.depth(), measure), length(crop.root_depth, measure));
            let words = format!(
                "{} is planned in {}, which holds {has} of soil over a hard floor; its roots want {want}.",
                cap(&name(planting)),
                stands(context, planting)
            );
            let remedy = format!("Grow something with shallower roots there, or raise the soil to {want}.");
            out.push(Finding::new(RULE.code, Weight::Mind, words, remedy, SOURCE).of_all(context, planting));
        }
    }
}
