//! The dates of a planting follow one another.

use super::words::{cap, day, name, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::Date;

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
        let dates = planting.dates();
        let stages = [
            ("sown", dates.sown),
            ("emerged", dates.emerged),
            ("potted on", dates.potted),
            ("hardening off", dates.hardened),
            ("set out", dates.set_out),
            ("leaves meeting", dates.closed),
            ("first picking", dates.first_pick),
            ("last picking", dates.last_pick),
            ("cleared", dates.cleared),
        ];
        let known: Vec<(&str, Date)> =
            stages.iter().filter_map(|(word, date)| Some((*word, (*date)?))).collect();
        if let Some([first, second]) = known.windows(2).find(|pair| pair[0].1 > pair[1].1) {
            let words = format!(
                "{subject} in {at} has dates that run backwards: {} on {}, but {} on {}.",
                first.0,
                day(first.1),
                second.0,
                day(second.1)
            );
            let remedy = format!("Mend the date of '{}' or of '{}'.", first.0, second.0);
            out.push(Finding::new(RULE.code, Weight::Stop, words, remedy, "common practice").of(planting));
        }
    }
}
