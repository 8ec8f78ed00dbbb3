//! Pots large and deep enough.

use super::words::{cap, length, name, stands, volume};
use super::{Context, Finding, Rule, Weight};
use crate::crop::PotNeed;
use crate::garden::Place;
use crate::plan::Planting;
use crate::units::{Volume, VolumeUnit};

const SOURCE: &str =
    "least volumes of Texas A&M AgriLife E-545 / EHT-062 where it has the crop; depths common practice";

pub(super) const SMALL: Rule = Rule {
    code: "pot-small",
    title: "Too small a pot",
    explain: "A crop needs a least volume of mix for a number of plants: eggplant 5 gal for one, broccoli 2 gal \
              for one, cucumber 1 gal for one, leaf lettuce 1 gal for two. Crops without such a figure are not \
              grown in pots here. 2 % is allowed.\n\
              Source: Texas A&M AgriLife E-545 / EHT-062; others from memory, as the crop book says.",
    run: small,
};

pub(super) const SHALLOW: Rule = Rule {
    code: "pot-shallow",
    title: "Too shallow a pot",
    explain: "Roots want a least depth of mix: leafy crops about 15 cm, beans, beets and peppers 20 to 25 cm, long \
              carrots, tomatoes, squash and potatoes 30 to 40 cm; for carrots 2 in more than the root is long. \
              2 % is allowed.\n\
              Source: common practice; carrot by Texas A&M AgriLife E-545.",
    run: shallow,
};

/// Plantings in pots, with what they need.
fn potted<'a>(context: &Context<'a>) -> Vec<(&'a Planting, &'a Place, Option<PotNeed>)> {
    context
        .judged_once()
        .filter_map(|planting| {
            let place = context.place(&planting.place).filter(|p| p.is_pot())?;
            Some((planting, place, context.crop(planting)?.pot))
        })
        .collect()
}

fn small(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    for (planting, place, need) in potted(context) {
        let (at, subject) = (stands(context, planting), cap(&name(planting)));
        let has = volume(Volume::new(place.litres(), VolumeUnit::L), measure);
        let (words, remedy) = match need {
            None => (
                format!(
                    "{subject} is planned in {at}, which holds {has}. It is not a crop for pots: there is no volume in which it is known to do well."
                ),
                format!("Move {} to a bed.", name(planting)),
            ),
            Some(need) if place.litres() * 1.02 < need.volume.litres() => {
                let least = volume(need.volume, measure);
                (
                    format!("{subject} is planned in {at}, which holds {has}; it needs at least {least}."),
                    format!(
                        "Give {} a pot of {least} or more, or grow something smaller there.",
                        name(planting)
                    ),
                )
            }
            Some(_) => continue,
        };
        out.push(Finding::new(SMALL.code, Weight::Stop, words, remedy, SOURCE).of_all(context, planting));
    }
}

fn shallow(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    for (planting, place, need) in potted(context) {
        let Some(need) = need else { continue };
        if place.depth().um() * 102 < need.depth.um() * 100 {
            let (has, least) = (length(place.depth(), measure), length(need.depth, measure));
            let words = format!(
                "{} is planned in {}, which is {has} deep; its roots need at least {least}.",
                cap(&name(planting)),
                stands(context, planting)
            );
            let remedy = format!("Give {} a pot {least} deep or more.", name(planting));
            out.push(
                Finding::new(SHALLOW.code, Weight::Stop, words, remedy, SOURCE).of_all(context, planting),
            );
        }
    }
}
