//! Hours of direct sun against what a crop wants.

use super::words::{cap, day, name, stand};
use super::{Context, Finding, Rule, Weight};

const SOURCE: &str = "fruiting crops 8 h (6 at least), roots 6 (4), leaves 4 (3): rule of thumb of extension services; \
                      Florida asks 6 h for a garden (SP103/VH021), Texas ranks leaf, root, fruit (E-502)";

pub(super) const RULE: Rule = Rule {
    code: "too-dark",
    title: "Too little direct sun",
    explain: "Each crop has the hours of direct sun below which it is no use planting (a stop) and those from which \
              it grows fully (a note below them): fruiting crops about 6 and 8, roots 4 and 6, leaves 3 and 4. \
              The hours of a place are yours where you counted them.\n\
              Source: rule of thumb of extension services; University of Florida SP103/VH021; Texas A&M E-502.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged() {
        let (Some(crop), Some(place), Some(begin)) =
            (context.crop(planting), context.place(&planting.place), planting.begins())
        else {
            continue;
        };
        let Some(hours) = place.sun_hours else { continue };
        let (weight, wants, remedy) = if hours < crop.light.least {
            let remedy = format!("Move {} to a sunnier place, or grow leaf crops there.", name(planting));
            (Weight::Stop, format!("needs at least {}", crop.light.least), remedy)
        } else if hours < crop.light.full {
            let remedy = format!("Expect less of {}, or move it to a sunnier place.", name(planting));
            (Weight::Note, format!("grows fully from {} on", crop.light.full), remedy)
        } else {
            continue;
        };
        let words = format!(
            "{} in {} from {} gets {hours} hours of direct sun a day; it {wants}.",
            cap(&name(planting)),
            stand(context, planting),
            day(begin)
        );
        out.push(Finding::new(RULE.code, weight, words, remedy, SOURCE).of(planting));
    }
}
