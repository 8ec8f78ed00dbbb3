//! Ways and weeks of starting that a crop is not known by.

use super::season::{against, instead, opening};
use super::words::{cap, day, name, stands};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::day_text;
use crate::growth::Refusal;

pub(super) const WAY: Rule = Rule {
    code: "other-way",
    title: "Not started in this way",
    explain: "The crop book knows the ways a crop is started: sown in place, raised and set out, bought, or from \
              sets, bulbs, cloves, tubers. Another way is minded, because no dates can be reckoned for it.\n\
              Source: ways of starting in the crop book.",
    run: way,
};

fn way(context: &Context<'_>, out: &mut Vec<Finding>) {
    for case in against(context, false) {
        if !matches!(case.refusal, Refusal::OtherWay) {
            continue;
        }
        let words = format!(
            "{}. The crop book knows {} for it, and this is not among them.",
            opening(context, case.planting),
            super::words::count(
                u64::try_from(case.crop.starts.len()).unwrap_or(0),
                "way of starting",
                "ways of starting"
            ),
        );
        let remedy = format!("Choose one of the ways the crop book names for {}.", name(case.planting));
        out.push(
            Finding::new(WAY.code, Weight::Mind, words, remedy, "the crop book")
                .of_all(context, case.planting),
        );
    }
}

pub(super) const WEEKS: Rule = Rule {
    code: "wrong-weeks",
    title: "Outside its weeks of planting",
    explain: "Crops that are planted in autumn and stand through the winter, such as garlic, have weeks for it \
              counted from the average first frost: garlic within 3 weeks of it, before the ground freezes.\n\
              Source: Oregon State University Extension, planting fall vegetables; weeks of the crop book.",
    run: weeks,
};

fn weeks(context: &Context<'_>, out: &mut Vec<Finding>) {
    for case in against(context, false) {
        let Refusal::Outside { first, last } = case.refusal else { continue };
        let words = format!(
            "{} in {} is planted on {}; here it is planted between {} and {}.",
            cap(&name(case.planting)),
            stands(context, case.planting),
            case.planting.begins().map_or_else(String::new, day),
            day_text(first),
            day_text(last),
        );
        let remedy = instead(context, case.planting, case.crop);
        let source =
            "weeks of planting in the crop book; Oregon State University Extension, planting fall vegetables";
        out.push(
            Finding::new(WEEKS.code, Weight::Mind, words, remedy, source).of_all(context, case.planting),
        );
    }
}
