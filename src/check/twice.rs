//! Families that are planted only once a season in one soil: legumes above all.

use super::returns::before;
use super::words::{cap, day, members, name, stands};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::plus;
use crate::crop::BreakWeight;

const SOURCE: &str = "Pacific Northwest Plant Disease Handbook (pea root rot stays 10 years and more); Netherlands \
                      Journal of Plant Pathology 99 (1993) 35-44 (peas one year in six)";

pub(super) const RULE: Rule = Rule {
    code: "family-twice",
    title: "The same family twice in one season in one soil",
    explain: "Peas in spring and beans or peas again in August in the same box are two legume crops in one season: \
              the root rot of peas (Aphanomyces) lives ten years and more and gains from each. The second sowing \
              belongs in another box. The rule holds for the families that the crop book marks so; plantings that \
              stand side by side at the same time count as one.\n\
              Source: Pacific Northwest Plant Disease Handbook; Netherlands Journal of Plant Pathology 99 (1993) \
              35-44; Saskatchewan Pulse Growers 2019.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged_once() {
        let (Some(place), Some(begin)) = (context.place(&planting.place), planting.begins()) else {
            continue;
        };
        let family = context.family(planting);
        if !context.book.family(family).is_some_and(|f| f.once_a_season) {
            continue;
        }
        // What is stopped by its break is said by that rule.
        if context.rotation(planting).weight != BreakWeight::Mind {
            continue;
        }
        let Some((stay, free)) = before(context, planting, place, begin) else { continue };
        if context.season(plus(free, -1)) != context.season(begin) {
            continue;
        }
        let plants = members(&context.common(family));
        let before = if stay.name == name(planting) {
            String::from("a second time in this season; it was last in this soil until")
        } else {
            format!("in the same season as {}, which was in this soil until", stay.name)
        };
        let words = format!(
            "{} goes into {} on {}, {before} {}. That makes {plants} \
             there 2 times in one season; once is enough.",
            cap(&name(planting)),
            stands(context, planting),
            day(begin),
            day(plus(free, -1)),
        );
        let remedy = format!(
            "Put {} into another bed or pot; grow no {plants} in {} this season.",
            name(planting),
            place.name
        );
        out.push(Finding::new(RULE.code, Weight::Mind, words, remedy, SOURCE).of_all(context, planting));
    }
}
