//! Old boxes of treated wood.

use super::words::{day, name};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::Date;
use crate::garden::Kind;

const SOURCE: &str = "Michigan State University Extension answer 178073; Alabama extension column on treated timber: \
                      arsenic-treated wood left the US home market at the end of 2003";

pub(super) const RULE: Rule = Rule {
    code: "old-timber",
    title: "A box that may be of arsenic-treated wood",
    explain: "Wood treated with arsenic (CCA) was sold for homes in the US until the end of 2003; old stock and \
              salvaged boards are still about. A box set up before 2004 that grows food gets a note. Arsenic moves \
              only centimetres into the soil; don't reuse such boards for food beds, never burn them, line the box \
              where in doubt. No railway sleepers, unknown pallets or tyres.\n\
              Source: Michigan State University Extension answer 178073; Alabama extension column; sleepers and \
              tyres from memory.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let Some(end) = Date::from_ymd_opt(2004, 1, 1) else { return };
    for place in &context.plan.places {
        if place.kind != Kind::Box || place.since >= end {
            continue;
        }
        let food = context
            .in_place(&place.id)
            .iter()
            .filter(|p| context.judges(p))
            .find(|p| context.crop(p).is_some_and(crate::crop::Crop::is_food));
        let Some(food) = food else { continue };
        let words = format!(
            "{}, where {} grows, was set up on {}. Boards sold before 2004 may be treated with arsenic.",
            place.name,
            name(food),
            day(place.since)
        );
        let remedy = String::from(
            "Find out what the boards are; line the box or change them if in doubt, never burn them, and ask your \
             extension office about a soil test.",
        );
        out.push(
            Finding::new(RULE.code, Weight::Note, words, remedy, SOURCE).at(place).on(place.since, None),
        );
    }
}
