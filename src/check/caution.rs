//! Cautions of a crop, told once where it is planned.

use super::words::{cap, day, name, stand};
use super::{Context, Finding, Rule, Weight};
use crate::crop::{Caution, CautionKind};
use std::collections::BTreeSet;

const SOURCE: &str = "the publication named with the caution in the crop book; raw beans: FDA Bad Bug Book";

pub(super) const RULE: Rule = Rule {
    code: "take-care",
    title: "Handle or prepare with care",
    explain: "Some crops are poisonous in part or unless cooked (green potatoes, raw kidney beans: soak 5 hours, \
              then 30 minutes at a full boil, no slow cooker), burn skin in the sun, are known allergens, or spread \
              and are hard to be rid of. Told once for each crop of the plan. Nothing here is medical advice: ask \
              your doctor or a poison control centre.\n\
              Source: FDA Bad Bug Book for raw beans; poison lists of master gardeners; others from memory, as the \
              crop book says.",
    run,
};

/// What kind of care, before the words of the book.
const fn kind(caution: &Caution) -> Option<&'static str> {
    match caution.kind {
        CautionKind::Allergy => Some("Known allergen."),
        CautionKind::Skin => Some("Hard on the skin."),
        CautionKind::CookFirst => Some("Only eaten cooked."),
        CautionKind::PartsPoisonous => Some("Poisonous in part."),
        CautionKind::Spreads => Some("Spreads."),
        CautionKind::NotFood | CautionKind::LooksLike(_) => None,
    }
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let mut said = BTreeSet::new();
    for planting in context.judged() {
        let Some(crop) = context.crop(planting) else { continue };
        let cautions: Vec<String> =
            crop.cautions.iter().filter_map(|c| kind(c).map(|k| format!("{k} {}", c.words.trim()))).collect();
        if cautions.is_empty() || !said.insert(crop.base()) {
            continue;
        }
        let words = format!(
            "{}, first in {}{}: {}",
            cap(&name(planting)),
            stand(context, planting),
            planting.begins().map_or_else(String::new, |d| format!(" from {}", day(d))),
            cautions.join(" ")
        );
        let remedy =
            String::from("Tell everyone who picks, cooks or eats it; ask a doctor where someone reacts.");
        out.push(Finding::new(RULE.code, Weight::Note, words, remedy, SOURCE).of(planting));
    }
}
