//! What stands beside what, by the evidence there is for it.

use super::ground::touch;
use super::words::{cap, name, span, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{Date, days_between};
use crate::crop::{Crop, Grade, Neighbour};
use crate::plan::Planting;
use std::collections::BTreeSet;

const SOURCE: &str = "the trials named in the crop book for this pair";

/// Days side by side from which a neighbour counts.
const LONG: i64 = 14;

pub(super) const HARMS: Rule = Rule {
    code: "neighbour-harms",
    title: "A neighbour that harms",
    explain: "Only pairs with field trials behind them are judged: evidence A means that several field trials \
              agree, B that there are one or few, or that it holds only under stated conditions. What harms is \
              minded. Plantings count as neighbours when they share an edge of a cell for two weeks or more.\n\
              Source: the trial named with each pair in the crop book.",
    run: |context, out| told(context, out, HARMS.code, |n| !n.helps && n.grade <= Grade::B),
};

pub(super) const HELPS: Rule = Rule {
    code: "neighbour-helps",
    title: "A neighbour that helps",
    explain: "Pairs that field trials found to help (evidence A or B), with what happens, as a note. Nothing needs \
              to be done; keep them together if the plan moves.\n\
              Source: the trial named with each pair in the crop book.",
    run: |context, out| told(context, out, HELPS.code, |n| n.helps && n.grade <= Grade::B),
};

pub(super) const LORE: Rule = Rule {
    code: "neighbour-lore",
    title: "Tradition about neighbours",
    explain: "Pairs that are handed down without a field trial (D), or were seen in the laboratory or greenhouse \
              only (C). They change nothing, and are shown only when you switch tradition on in the settings.\n\
              Source: the lists named in the crop book; reviews by Washington State University Extension found no \
              trials behind most of them.",
    run: |context, out| {
        if context.plan.settings.tradition {
            told(context, out, LORE.code, |n| matches!(n.grade, Grade::C | Grade::D));
        }
    },
};

pub(super) const MYTH: Rule = Rule {
    code: "neighbour-myth",
    title: "Not supported by trials",
    explain: "Pairs of which something is said that a trial has contradicted: basil does not better the taste of \
              tomatoes, a few marigolds do not lower root-knot nematodes. There is no harm in planting them \
              together; only don't count on it.\n\
              Source: West Virginia University thesis 2004 (basil and tomato, three years of blind tastings); trial \
              of marigold cultivars PMC2620405.",
    run: |context, out| told(context, out, MYTH.code, |n| n.grade == Grade::X),
};

/// Whether a claim is about that crop: by id, base id or family.
fn about(claim: &Neighbour, crop: &Crop) -> bool {
    [crop.id.as_str(), crop.base().as_str(), crop.family.as_str()].contains(&claim.with.as_str())
}

fn told(context: &Context<'_>, out: &mut Vec<Finding>, code: &'static str, wanted: fn(&Neighbour) -> bool) {
    let mut said = BTreeSet::new();
    for &(a, b) in context.pairs() {
        if !touch(a, b) {
            continue;
        }
        let (Some(x), Some(y)) = (context.crop(a), context.crop(b)) else { continue };
        let Some((from, to)) = context.together(a, b) else { continue };
        if to.is_some_and(|t| days_between(from, t) + 1 < LONG) {
            continue;
        }
        for (one, other, crop, beside) in [(a, b, x, y), (b, a, y, x)] {
            for claim in crop.neighbours.iter().filter(|n| about(n, beside) && wanted(n)) {
                let pair = (a.place.clone(), crop.base().clone(), beside.base().clone(), claim.why.clone());
                let turned = (a.place.clone(), beside.base().clone(), crop.base().clone(), claim.why.clone());
                if said.contains(&turned) || !said.insert(pair) {
                    continue;
                }
                out.push(finding(context, code, (one, other), claim, (from, to)));
            }
        }
    }
}

const fn evidence(grade: Grade) -> &'static str {
    match grade {
        Grade::A => "several field trials agree",
        Grade::B => "from one or few field trials",
        Grade::C => "seen in the laboratory or greenhouse only",
        Grade::D => "handed down, no trial is known",
        Grade::X => "not supported by trials",
    }
}

fn finding(
    context: &Context<'_>,
    code: &'static str,
    (one, other): (&Planting, &Planting),
    claim: &Neighbour,
    (from, to): (Date, Option<Date>),
) -> Finding {
    let when = to.map_or_else(
        || format!("from {} on", super::words::day(from)),
        |t| format!("from {}", span(from, t)),
    );
    let pair = format!(
        "{} in {} and {} in {} stand side by side {when}.",
        cap(&name(one)),
        stand(context, one),
        name(other),
        stand(context, other),
    );
    let why = claim.why.trim_end_matches('.');
    let words = match claim.grade {
        Grade::X => format!("{pair} That is said to help, but trials do not bear it out: {why}."),
        Grade::A | Grade::B | Grade::C | Grade::D => {
            format!("{pair} Known of {}: {why} ({}).", name(one), evidence(claim.grade))
        }
    };
    let (weight, remedy) = match (claim.grade, claim.helps) {
        (Grade::A | Grade::B, false) => (
            Weight::Mind,
            format!("Put at least 1 cell of something else between {} and {}.", name(one), name(other)),
        ),
        (Grade::A | Grade::B, true) => {
            (Weight::Note, format!("Keep {} and {} together if you move one.", name(one), name(other)))
        }
        (Grade::C | Grade::D, _) => {
            (Weight::Note, String::from("Do as you like; nothing is counted for it."))
        }
        (Grade::X, _) => (Weight::Note, format!("Plant {} there because it fits, not for this.", name(one))),
    };
    Finding::new(code, weight, words, remedy, SOURCE).of(one).on(from, to)
}
