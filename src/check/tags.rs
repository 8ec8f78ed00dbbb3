//! What a place is kept for.

use super::words::{cap, list, name, stands};
use super::{Context, Finding, Rule, Weight};
use crate::crop::{Crop, Use};
use crate::garden::Tag;
use crate::plan::{Planting, Why};

pub(super) const RULE: Rule = Rule {
    code: "not-meant-here",
    title: "A place kept for something else",
    explain: "The grower may keep a place for flowers, for food, for certain families, or out of the fill's hands. \
              Flowers that can be eaten may stand among flowers, and cover crops may stand anywhere that is not \
              kept for certain families.\n\
              Source: the grower's own word.",
    run,
};

/// Why a crop breaks a tag, in words that follow "is kept for"; none where it does not.
pub fn kept_for(tag: &Tag, crop: &Crop) -> Option<String> {
    let cover = crop.is_for(Use::Cover);
    match tag {
        Tag::FlowersOnly if crop.is_food() && !crop.is_for(Use::CutFlower) && !cover => {
            Some(String::from("flowers and other plants that are not eaten"))
        }
        Tag::FoodOnly if !crop.is_food() && !cover => Some(String::from("plants that are eaten")),
        Tag::Families(families) if !families.contains(&crop.family) => Some(list(families)),
        Tag::FlowersOnly | Tag::FoodOnly | Tag::Families(_) | Tag::HandOnly => None,
    }
}

/// Whether a planting was put there by the program.
fn by_program(planting: &Planting) -> bool {
    !planting.fixed
        && match planting.why {
            Why::Hand => false,
            Why::Wish(_) | Why::Catch | Why::Cover => true,
        }
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged_once() {
        let (Some(crop), Some(place)) = (context.crop(planting), context.place(&planting.place)) else {
            continue;
        };
        let at = stands(context, planting);
        let subject = cap(&name(planting));
        for tag in &place.tags {
            let words = match tag {
                Tag::HandOnly if by_program(planting) => {
                    format!(
                        "{subject} was put into {at} by the program, but you keep {} for your own hand.",
                        place.name
                    )
                }
                Tag::HandOnly => continue,
                Tag::FlowersOnly | Tag::FoodOnly | Tag::Families(_) => {
                    let Some(kept) = kept_for(tag, crop) else { continue };
                    format!("{subject} is planned in {at}, but that place is kept for {kept}.")
                }
            };
            let remedy =
                format!("Move {} elsewhere, or change what {} is kept for.", name(planting), place.name);
            out.push(
                Finding::new(RULE.code, Weight::Stop, words, remedy, "your own setting for this place")
                    .of_all(context, planting),
            );
        }
    }
}
