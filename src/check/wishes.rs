//! Wishes that nothing can meet as they are written.

use super::words::{cap, inside, list};
use super::{Context, Finding, Rule, Weight};
use crate::crop::Crop;
use crate::plan::Wish;
use crate::units::Amount;

const SOURCE: &str = "the wish as it is written, and the harvest unit of the crop book";

pub(super) const RULE: Rule = Rule {
    code: "wish-unclear",
    title: "A wish that cannot be met as it is written",
    explain: "A wish is measured in the unit in which the crop is harvested. Weight and count can be turned into \
              each other where the crop book knows the weight of one piece. A wish for 0, for places that are not \
              in the garden, or only for places kept for something else cannot be met either.\n\
              Source: the crop book.",
    run,
};

/// Whether an amount can be compared with what a crop gives.
pub(super) fn comparable(crop: &Crop, amount: Amount) -> bool {
    amount.same_kind(crop.harvest.usual)
        || match (amount, crop.harvest.usual) {
            (Amount::Weight(_), Amount::Count(..)) | (Amount::Count(..), Amount::Weight(_)) => {
                crop.each.is_some()
            }
            (Amount::Weight(_), Amount::Weight(_)) | (Amount::Count(..), Amount::Count(..)) => false,
        }
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for wish in &context.plan.wishes {
        let Some(crop) = context.book.get(&wish.crop) else { continue };
        let what = inside(&crop.name);
        let mut say = |words: String, remedy: String| {
            out.push(Finding::new(RULE.code, Weight::Mind, words, remedy, SOURCE));
        };
        if wish.amount.value() <= 0.0 {
            say(
                format!("You wish for {} of {what}, which asks for nothing.", wish.amount),
                String::from("Give an amount above 0, or take the wish away."),
            );
            continue;
        }
        if !comparable(crop, wish.amount) {
            say(
                format!(
                    "You wish for {} of {what}, but its harvest is counted as {} a plant, and nothing tells how to \
                     turn the one into the other.",
                    wish.amount, crop.harvest.usual
                ),
                format!("Write the wish in the unit of its harvest, such as {}.", crop.harvest.usual),
            );
        }
        barred(context, wish, crop, &mut say);
    }
}

/// Wishes whose places are not there or kept for something else.
fn barred(context: &Context<'_>, wish: &Wish, crop: &Crop, say: &mut impl FnMut(String, String)) {
    if wish.places.is_empty() {
        return;
    }
    let what = inside(&crop.name);
    let missing: Vec<String> =
        wish.places.iter().filter(|id| context.place(id).is_none()).map(|id| format!("'{id}'")).collect();
    if !missing.is_empty() {
        say(
            format!("{} is wished for in {}, which this garden does not have.", cap(&what), list(&missing)),
            String::from("Name places that are there, or none to allow all."),
        );
    }
    let places: Vec<_> = wish.places.iter().filter_map(|id| context.place(id)).collect();
    let shut = |p: &&crate::garden::Place| p.tags.iter().any(|t| super::tags::kept_for(t, crop).is_some());
    if !places.is_empty() && places.iter().all(shut) {
        let names: Vec<String> = places.iter().map(|p| p.name.clone()).collect();
        say(
            format!(
                "{} is wished for only in {}, which you keep for something else.",
                cap(&what),
                list(&names)
            ),
            format!("Allow another place for {what}, or change what {} is kept for.", list(&names)),
        );
    }
}
