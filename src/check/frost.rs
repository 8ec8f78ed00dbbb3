//! Too early, too late, killed in winter: frost, with its chance in words.

use super::season::{against, instead, opening};
use super::words::{day, in_years};
use super::{Context, Finding, Rule, Weight};
use crate::growth::{Refusal, years, years_against};
use crate::units::{TempUnit, Temperature};

const SOURCE: &str = "chances of frost computed from the site's own climate (first-order chain of nights, anchored to \
                      the average frost dates); killing temperature of the crop book";

pub(super) const EARLY: Rule = Rule {
    code: "too-early",
    title: "Out too early for the frost",
    explain: "From the day its leaves are outside a young plant must not meet a night cold enough to kill it. The \
              chance that such a night still comes after that day is compared with the risk you chose: 1, 3 or 5 \
              years of 10. It is computed from the site's climate and widened by what the frost dates are known to \
              be off. A cover over the cells counts with its gain.\n\
              Source: the site's climate; killing temperatures of the crop book (frost lists of extension \
              services); your own frost dates where you gave them.",
    run: early,
};

fn early(context: &Context<'_>, out: &mut Vec<Finding>) {
    let settings = &context.plan.settings;
    for case in against(context, false) {
        let Refusal::SeedlingFrost { chance, on, kills } = case.refusal else { continue };
        let cold = Temperature::new(kills, TempUnit::C).reading(settings.measure);
        let (comes, accepted) = years_against(chance, settings.risk.share());
        let words = format!(
            "{}. A night of {cold} or colder, which kills it, still comes after {} in {comes}; you accept {accepted}.",
            opening(context, case.planting),
            day(on),
        );
        let remedy = format!("{} A fleece gains a few degrees.", instead(context, case.planting, case.crop));
        out.push(
            Finding::new(EARLY.code, Weight::Mind, words, remedy, SOURCE).of_all(context, case.planting),
        );
    }
}

pub(super) const LATE: Rule = Rule {
    code: "too-late",
    title: "Too late to ripen",
    explain: "A planting must be ripe, and be picked for a week (cool-season crops) or three (warm-season crops), \
              before a night that spoils the harvest. The chance of that is computed by adding the warmth of the \
              site day by day against the days to maturity, with the spread of the weather and of the frost dates, \
              and compared with the risk you chose. Where days are counted as on the packet, the last day is found \
              by counting back from the average first frost: days to maturity, picking, 14 days for autumn and 14 \
              more for tender crops.\n\
              Source: the site's climate and days to maturity of the crop book; the count back by Virginia Tech \
              horticulture.",
    run: late,
};

fn late(context: &Context<'_>, out: &mut Vec<Finding>) {
    let settings = &context.plan.settings;
    for case in against(context, true) {
        let words = if let Refusal::Late { chance, wanted, ripe, latest } = case.refusal {
            let latest = latest.map_or_else(String::new, |d| {
                format!(" Counted back from the average first frost, {} is the last day.", day(d))
            });
            let (comes, wanted) = years_against(chance, wanted);
            format!(
                "{}. It would be ripe about {}, in time before the frost that spoils it in {comes}; you asked for \
                 {wanted}.{latest}",
                opening(context, case.planting),
                day(ripe),
            )
        } else if case.refusal == Refusal::NeverRipe {
            format!(
                "{}. With the warmth of this place it does not ripen within 2 years.",
                opening(context, case.planting)
            )
        } else {
            continue;
        };
        let cold = Temperature::new(case.crop.frost.harvest.celsius(), TempUnit::C).reading(settings.measure);
        let words = format!("{words} Frost of {cold} ends its harvest.");
        let remedy = instead(context, case.planting, case.crop);
        out.push(Finding::new(LATE.code, Weight::Mind, words, remedy, SOURCE).of_all(context, case.planting));
    }
}

pub(super) const WINTER: Rule = Rule {
    code: "winter-kills",
    title: "Likely to die in winter",
    explain: "A planting that stands through the winter must live through its coldest nights. The chance of a night \
              that kills its leaves is compared with the risk you chose.\n\
              Source: the site's climate; killing temperatures of the crop book.",
    run: winter,
};

fn winter(context: &Context<'_>, out: &mut Vec<Finding>) {
    let settings = &context.plan.settings;
    for case in against(context, true) {
        let Refusal::Winter { chance, kills } = case.refusal else { continue };
        let cold = Temperature::new(kills, TempUnit::C).reading(settings.measure);
        let words = format!(
            "{} and stands through the winter. A night of {cold}, which kills it, comes {}; you accept {}.",
            opening(context, case.planting),
            in_years(chance),
            years(settings.risk.share()),
        );
        let remedy = format!(
            "Cover {} through the winter, or plant a hardier crop.",
            super::words::name(case.planting)
        );
        out.push(
            Finding::new(WINTER.code, Weight::Mind, words, remedy, SOURCE).of_all(context, case.planting),
        );
    }
}
