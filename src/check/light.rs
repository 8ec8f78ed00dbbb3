//! Hours of direct sun against what a crop wants.

use super::sky::{floor, obstacles, season_hours};
use super::words::{cap, day, name, stand};
use super::{Context, Finding, Rule, Weight};
use crate::garden::Place;
use crate::plan::Planting;
use crate::site::shade::Block;
use crate::units::num;

const SOURCE: &str = "fruiting crops 8 h (6 at least), roots 6 (4), leaves 4 (3): rule of thumb of extension services; \
                      Florida asks 6 h for a garden (SP103/VH021), Texas ranks leaf, root, fruit (E-502)";

/// Hours that obstacles must take away before they are blamed.
const TAKEN: f64 = 0.5;

pub(super) const RULE: Rule = Rule {
    code: "too-dark",
    title: "Too little direct sun",
    explain: "Each crop has the hours of direct sun below which it is no use planting (a stop) and those from which \
              it grows fully (a note below them): fruiting crops about 6 and 8, roots 4 and 6, leaves 3 and 4. The \
              hours are yours where you counted them for the place; otherwise they are worked out for the middle of \
              the planting's cells from the real paths of the sun behind the walls, houses, fences and trees you \
              entered, as the mean of the growing season (soil of 8 C or more).\n\
              Source: rule of thumb of extension services; University of Florida SP103/VH021; Texas A&M E-502; sun \
              by the NREL solar position algorithm.",
    run,
};

/// Hours of direct sun a planting gets, if anything is known or stands in the way.
fn lit(context: &Context<'_>, place: &Place, planting: &Planting, blocks: &[Block]) -> Option<f64> {
    if let Some(counted) = place.sun_hours {
        return Some(f64::from(counted));
    }
    if blocks.is_empty() {
        return None;
    }
    let at = floor(context, place, planting);
    let there = season_hours(context, at, blocks);
    (season_hours(context, at, &[]) - there >= TAKEN).then_some(there)
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let blocks = obstacles(context);
    for planting in context.judged() {
        let (Some(crop), Some(place), Some(begin)) =
            (context.crop(planting), context.place(&planting.place), planting.begins())
        else {
            continue;
        };
        let Some(hours) = lit(context, place, planting, &blocks) else { continue };
        let (weight, wants, remedy) = if hours < f64::from(crop.light.least) {
            let remedy = format!(
                "Move {} to a sunnier place, or grow something there that needs less sun.",
                name(planting)
            );
            (Weight::Stop, format!("needs at least {}", crop.light.least), remedy)
        } else if hours < f64::from(crop.light.full) {
            let remedy = format!("Expect less of {}, or move it to a sunnier place.", name(planting));
            (Weight::Note, format!("grows fully from {} on", crop.light.full), remedy)
        } else {
            continue;
        };
        let shown = num::real_i(num::round_i(hours * 10.0)) / 10.0;
        let words = format!(
            "{} in {} from {} gets {shown} hours of direct sun a day; it {wants}.",
            cap(&name(planting)),
            stand(context, planting),
            day(begin)
        );
        out.push(Finding::new(RULE.code, weight, words, remedy, SOURCE).of(planting));
    }
}
