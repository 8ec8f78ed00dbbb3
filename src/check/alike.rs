//! Poisonous plants beside the food they are mistaken for.

use super::ground::touch;
use super::words::{cap, name, span, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::days_between;
use crate::crop::{Caution, CautionKind, Crop, Use};
use std::collections::BTreeSet;

const SOURCE: &str = "poison lists of master gardeners (Peterborough; Hamilton County); sweet pea: lists of Lathyrus \
                      as poisonous";

/// Days together from which what is not food is told beside food.
const LONG: i64 = 14;

pub(super) const ALIKE: Rule = Rule {
    code: "look-alike",
    title: "Not food, beside a crop it is mistaken for",
    explain: "Sweet pea pods are not peas; leaves of foxglove are taken for comfrey or borage, of daffodil for leek \
              or garlic. A plant that must not be eaten may not touch a crop it looks like: a stop. In the same bed \
              or pot but apart it is a note: label it. In case of poisoning call your local poison control centre \
              at once.\n\
              Source: poison lists of master gardeners (Peterborough; Hamilton County, Poisons in the garden); \
              foxglove and daffodil look-alikes from memory.",
    run: alike,
};

pub(super) const INEDIBLE: Rule = Rule {
    code: "not-food",
    title: "Not food, in a bed with food",
    explain: "A plant that must not be eaten stands in the same bed or pot as food. For two weeks or more it is a note, once for each \
              place: label it and tell who picks. Call your local poison control centre if any was eaten.\n\
              Source: poison lists of master gardeners (Peterborough; Hamilton County, Poisons in the garden).",
    run: inedible,
};

/// The caution of a crop that must not be eaten.
pub(super) fn not_food(crop: &Crop) -> Option<&Caution> {
    crop.cautions.iter().find(|c| c.kind == CautionKind::NotFood)
}

/// The caution by which one crop is taken for the other.
fn taken_for<'a>(crop: &'a Crop, other: &Crop) -> Option<&'a Caution> {
    crop.cautions.iter().find(|c| match &c.kind {
        CautionKind::LooksLike(ids) => ids.contains(&other.id) || ids.contains(other.base()),
        CautionKind::NotFood
        | CautionKind::Allergy
        | CautionKind::Skin
        | CautionKind::CookFirst
        | CautionKind::PartsPoisonous
        | CautionKind::Spreads => false,
    })
}

fn alike(context: &Context<'_>, out: &mut Vec<Finding>) {
    for &(a, b) in context.pairs() {
        let (Some(x), Some(y)) = (context.crop(a), context.crop(b)) else { continue };
        let (harm, food, caution) = match (not_food(x).is_some(), not_food(y).is_some()) {
            (true, false) => (a, b, taken_for(x, y).or_else(|| taken_for(y, x))),
            (false, true) => (b, a, taken_for(y, x).or_else(|| taken_for(x, y))),
            (true, true) | (false, false) => continue,
        };
        let Some(caution) = caution else { continue };
        let Some((from, to)) = context.together(a, b) else { continue };
        let beside = touch(a, b);
        let when = to.map_or_else(
            || format!("from {} on", super::words::day(from)),
            |t| format!("from {}", span(from, t)),
        );
        let how = if beside { "stands right beside" } else { "shares the bed with" };
        let words = format!(
            "{} in {}, which must not be eaten, {how} {} in {} {when}. {}",
            cap(&name(harm)),
            stand(context, harm),
            name(food),
            stand(context, food),
            caution.words.trim(),
        );
        let (weight, remedy) = if beside {
            (
                Weight::Stop,
                format!("Move {} to another bed, at least 1 bed away from {}.", name(harm), name(food)),
            )
        } else {
            (Weight::Note, format!("Label {} and tell everyone who picks there.", name(harm)))
        };
        let remedy = format!("{remedy} If any was eaten, call your local poison control centre.");
        out.push(Finding::new(ALIKE.code, weight, words, remedy, SOURCE).of(harm).on(from, to));
    }
}

fn inedible(context: &Context<'_>, out: &mut Vec<Finding>) {
    let mut said = BTreeSet::new();
    for &(a, b) in context.pairs() {
        let (Some(x), Some(y)) = (context.crop(a), context.crop(b)) else { continue };
        let (harm, food, crop, other) = match (not_food(x).is_some(), not_food(y).is_some()) {
            (true, false) if y.is_food() => (a, b, x, y),
            (false, true) if x.is_food() => (b, a, y, x),
            _ => continue,
        };
        let known = taken_for(crop, other).or_else(|| taken_for(other, crop));
        let (Some(caution), Some((from, to)), None) = (not_food(crop), context.together(a, b), known) else {
            continue;
        };
        // A cover crop is killed before it seeds; a day in passing is no matter.
        let brief = to.is_some_and(|t| days_between(from, t) + 1 < LONG);
        if brief || crop.is_for(Use::Cover) || !said.insert((&harm.place, &crop.id)) {
            continue;
        }
        let when = to.map_or_else(
            || format!("from {} on", super::words::day(from)),
            |t| format!("from {}", span(from, t)),
        );
        let words = format!(
            "{} in {}, which must not be eaten, shares the bed with {} {when}. {}",
            cap(&name(harm)),
            stand(context, harm),
            name(food),
            caution.words.trim(),
        );
        let remedy = format!(
            "Label {} and tell everyone who picks there. If any was eaten, call your local poison control centre.",
            name(harm)
        );
        out.push(Finding::new(INEDIBLE.code, Weight::Note, words, remedy, SOURCE).of(harm).on(from, to));
    }
}
