//! Crops that the book does not have.

use super::words::{cap, inside, name, stand};
use super::{Context, Finding, Rule, Weight};
use crate::crop::CropId;
use std::collections::BTreeSet;

const SOURCE: &str = "the crop book";

pub(super) const RULE: Rule = Rule {
    code: "crop-unknown",
    title: "Not in the crop book",
    explain: "A planting or wish whose crop is not in the crop book still counts for rotation by the family kept \
              with it, but its spacing, dates and needs cannot be judged, and the fill cannot grow it.\n\
              Source: the crop book.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged().filter(|p| context.crop(p).is_none()) {
        let words = format!(
            "{} in {} is written as '{}', which is not in the crop book: only its dates, cells and family ({}) are \
             judged.",
            cap(&name(planting)),
            stand(context, planting),
            planting.crop,
            context.common(&planting.family),
        );
        let remedy = mend(context, &planting.crop);
        out.push(Finding::new(RULE.code, Weight::Mind, words, remedy, SOURCE).of(planting));
    }
    let mut said = BTreeSet::new();
    for wish in &context.plan.wishes {
        if context.book.get(&wish.crop).is_none() && said.insert(&wish.crop) {
            let words = format!(
                "You wish for {} of '{}', which is not in the crop book, so none of it can be planned.",
                wish.amount, wish.crop
            );
            out.push(Finding::new(RULE.code, Weight::Mind, words, mend(context, &wish.crop), SOURCE));
        }
    }
}

/// What to do about an unknown id: the nearest one of the book, if one is near.
fn mend(context: &Context<'_>, id: &CropId) -> String {
    let near = context
        .book
        .crops()
        .map(|c| (strsim::damerau_levenshtein(&c.id.0, &id.0), c))
        .min_by_key(|(distance, c)| (*distance, c.id.clone()))
        .filter(|(distance, _)| *distance <= 1 + id.0.chars().count() / 4);
    near.map_or_else(
        || format!("Add '{id}' to your own crop file, or choose a crop of the book."),
        |(_, crop)| {
            format!(
                "Write '{}' if you meant {}, or add '{id}' to your own crop file.",
                crop.id,
                inside(&crop.name)
            )
        },
    )
}
