//! Lead in the soil against the part that is eaten.

use super::words::{cap, name, stands};
use super::{Context, Finding, Rule, Weight};
use crate::crop::{Crop, Part};

const SOURCE: &str = "EPA residential screening level of January 2024 (200 mg/kg, 100 where other lead is about); \
                      University of Maryland Extension (no vegetables above 400); New York garden study PMC4175907";

/// Where other sources of lead are about (EPA 2024).
const WATCH: f32 = 100.0;
/// Screening level of EPA, January 2024.
const SCREEN: f32 = 200.0;
/// No food above this (Maryland).
const NONE: f32 = 400.0;

pub(super) const RULE: Rule = Rule {
    code: "soil-lead",
    title: "Lead in the soil",
    explain: "Lead in garden soil gets into people mostly as dust and soil on roots and leaves; in New York gardens \
              47 % of root crops, 9 % of leaf crops and practically no fruits were above the guidance value. From \
              100 mg/kg on roots, leaves and herbs are minded; from 200 they stop and only fruits remain; above 400 \
              no food at all. 200 is the EPA residential screening level of January 2024 (100 where there are other \
              sources of lead), 400 the limit of University of Maryland Extension. Levels change and differ by \
              place: ask your extension or health office, and have the soil tested by a laboratory.\n\
              Source: EPA January 2024; University of Maryland Extension; lead leaflet Healthy gardens; study \
              PMC4175907.",
    run,
};

/// Whether soil clings to the part that is eaten, or dust settles on it.
pub(super) const fn dusty(crop: &Crop) -> bool {
    match crop.part {
        Part::Root | Part::Bulb | Part::Leaf | Part::Stem | Part::Flower => true,
        Part::Fruit | Part::Pod | Part::Seed | Part::Nothing => false,
    }
}

/// How much lead weighs for a crop; none where it may be eaten.
pub(super) fn weight(crop: &Crop, lead: f32) -> Option<Weight> {
    if !crop.is_food() || lead < WATCH {
        None
    } else if lead > NONE || (dusty(crop) && lead >= SCREEN) {
        Some(Weight::Stop)
    } else if dusty(crop) {
        Some(Weight::Mind)
    } else {
        (lead >= SCREEN).then_some(Weight::Note)
    }
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged_once() {
        let (Some(crop), Some(place)) = (context.crop(planting), context.place(&planting.place)) else {
            continue;
        };
        let Some(lead) = place.lead else { continue };
        let Some(weight) = weight(crop, lead) else { continue };
        let limit = if lead > NONE {
            "above 400 no food should be grown in it"
        } else if lead >= SCREEN {
            "above 200 only fruits should be eaten from it, washed well"
        } else {
            "above 100 roots, leaves and herbs are better grown elsewhere"
        };
        let words = format!(
            "{} is planned in {}, whose soil has {lead:.0} mg/kg of lead; {limit}.",
            cap(&name(planting)),
            stands(context, planting),
        );
        let act = match weight {
            Weight::Stop | Weight::Mind => format!(
                "Grow {} in a box with clean soil over a barrier, and keep the paths covered.",
                name(planting)
            ),
            Weight::Note => {
                format!("Wash {} well, peel it where you can, and mulch the bed.", name(planting))
            }
        };
        let remedy =
            format!("{act} Have the soil tested by a laboratory and ask your extension or health office.");
        out.push(Finding::new(RULE.code, weight, words, remedy, SOURCE).of_all(context, planting));
    }
}
