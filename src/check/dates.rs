//! The dates of a planting follow one another.

use super::words::{cap, day, name, stand};
use super::{Context, Finding, Rule, Weight};

pub(super) const RULE: Rule = Rule {
    code: "dates-muddled",
    title: "Dates out of order",
    explain: "A planting is sown, emerges, is set out, is picked and is cleared, in this order. Dates that run \
              backwards, or no first date at all, mean that nothing that follows from them can be trusted.\n\
              Source: common practice.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged() {
        let at = stand(context, planting);
        let subject = cap(&name(planting));
        if planting.begins().is_none() {
            let words =
                format!("{subject} in {at} has no day on which it is sown or set out, so it takes no room.");
            let remedy = format!("Give {} a sowing or setting-out date, or take it away.", name(planting));
            out.push(Finding::new(RULE.code, Weight::Mind, words, remedy, "common practice").of(planting));
            continue;
        }
        let dates = planting.dates().in_order();
        if let Some(pair) = dates.windows(2).find(|pair| pair[0] > pair[1]) {
            let words = format!(
                "{subject} in {at} has dates that run backwards: a stage on {} is followed by one on {}.",
                day(pair[0]),
                day(pair[1])
            );
            let remedy = String::from("Mend the date that is wrong.");
            out.push(Finding::new(RULE.code, Weight::Stop, words, remedy, "common practice").of(planting));
        }
    }
}
