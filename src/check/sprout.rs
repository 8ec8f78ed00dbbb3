//! Soil too cold or too hot for seed and young plants.

use super::season::{against, instead, opening};
use super::words::{cap, day, name};
use super::{Context, Finding, Rule, Weight};
use crate::growth::Refusal;
use crate::units::{TempUnit, Temperature};

const SOURCE: &str = "germination by soil temperature, Harrington and Minges 1954 (the classic university table), for \
                      the crops it has; soil temperature computed from the site's climate";

pub(super) const COLD: Rule = Rule {
    code: "soil-cold",
    title: "Soil too cold",
    explain: "Seed comes up only within the soil temperatures in which it was tested, and rots when it would take \
              longer than 35 days; young warm-season plants want soil of 13 C (55 F), cool-season ones of 4 to 7 C. \
              The soil at 5 cm is reckoned from the site's climate: snap bean 1 % at 50 F and 97 % at 59 F, pepper \
              1 % at 50 F, cucumber none.\n\
              Source: Harrington and Minges 1954; soil limits for setting out from memory and common practice.",
    run: cold,
};

pub(super) const HOT: Rule = Rule {
    code: "soil-hot",
    title: "Soil too hot to sprout",
    explain: "Above the warmest soil in which it was tested, seed fails: lettuce sprouts 99 % at 77 F and 12 % at \
              86 F, spinach 82 % at 59 F and 28 % at 77 F. Raise it in a cool place, or wait.\n\
              Source: Harrington and Minges 1954; soil temperature at 5 cm reckoned from the site's climate.",
    run: hot,
};

pub(super) const RAISED: Rule = Rule {
    code: "raising-unfit",
    title: "Raising place too cold or too warm",
    explain: "Seedlings raised indoors sprout only within the temperatures in which the seed was tested; the \
              raising place that suits a crop best is looked at.\n\
              Source: Harrington and Minges 1954; temperature of the raising place as you entered it.",
    run: raised,
};

fn cold(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    let degrees = |t: f64| Temperature::new(t, TempUnit::C).reading(measure);
    for case in against(context, false) {
        let Refusal::ColdSoil { soil, least, .. } = case.refusal else { continue };
        let words = format!(
            "{}. The soil is then about {}, and it wants at least {}.",
            opening(context, case.planting),
            degrees(soil),
            degrees(least),
        );
        let remedy = instead(context, case.planting, case.crop);
        out.push(Finding::new(COLD.code, Weight::Mind, words, remedy, SOURCE).of_all(context, case.planting));
    }
}

fn hot(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    let degrees = |t: f64| Temperature::new(t, TempUnit::C).reading(measure);
    for case in against(context, false) {
        let Refusal::HotSoil { soil, most, .. } = case.refusal else { continue };
        let words = format!(
            "{}. The soil is then about {}, and its seed sprouts up to {}.",
            opening(context, case.planting),
            degrees(soil),
            degrees(most),
        );
        let remedy =
            format!("{} Or raise it indoors in a cool place.", instead(context, case.planting, case.crop));
        out.push(Finding::new(HOT.code, Weight::Mind, words, remedy, SOURCE).of_all(context, case.planting));
    }
}

fn raised(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    let degrees = |t: f64| Temperature::new(t, TempUnit::C).reading(measure);
    for case in against(context, false) {
        let Refusal::RaisingPlace { there, wanted } = case.refusal else { continue };
        let sown = case.planting.dates().sown.map_or_else(String::new, |d| format!(" from {}", day(d)));
        let words = format!(
            "{} for {} is raised indoors{sown} at {}; its seed sprouts between {} and {}.",
            cap(&name(case.planting)),
            super::words::stands(context, case.planting),
            degrees(there),
            degrees(wanted.0),
            degrees(wanted.1),
        );
        let remedy = format!(
            "Find a place within these temperatures, or buy {} as young plants.",
            name(case.planting)
        );
        out.push(
            Finding::new(RAISED.code, Weight::Mind, words, remedy, SOURCE).of_all(context, case.planting),
        );
    }
}
