//! Neighbours that give each other a disease.

use super::ground::touch;
use super::words::{cap, name, span, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::days_between;
use crate::crop::{Crop, Trouble, TroubleKind};
use std::collections::BTreeSet;

const SOURCE: &str = "hosts of the disease in the crop book (late blight on tomato and potato, mildew on all of the \
                      cucumber family)";

/// Days side by side from which infection counts.
const LONG: i64 = 21;

pub(super) const RULE: Rule = Rule {
    code: "shared-disease",
    title: "Two hosts of one disease side by side",
    explain: "Diseases that come by air jump from one crop to the next: late blight between tomato and potato, \
              powdery mildew between all of the cucumber family. Two different hosts that share an edge of a cell \
              for three weeks or more get a note, once for each disease and place. It costs no harvest by itself; \
              it makes an outbreak quicker.\n\
              Source: hosts of the diseases in the crop book; University of Minnesota Extension and common practice.",
    run,
};

/// Whether a trouble goes from one crop to the other: one species on both, or (mildews and rusts are many species,
/// each with its own hosts) two crops of one family. Two crops of one species are no news.
fn jumps(trouble: &Trouble, x: &Crop, y: &Crop) -> bool {
    let mut name = trouble.agent.split_whitespace();
    let species = name.next().is_some_and(|w| w.starts_with(char::is_uppercase))
        && name.next().is_some_and(|w| w.starts_with(char::is_lowercase));
    let many = trouble.agent.starts_with(char::is_uppercase) && !trouble.agent.contains(' ');
    trouble.kind == TroubleKind::AirDisease
        && x.botanical != y.botanical
        && (species || (many && x.family == y.family))
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let troubles: Vec<&Trouble> = context.book.troubles().collect();
    let mut said = BTreeSet::new();
    for &(a, b) in context.pairs() {
        let (Some(x), Some(y)) = (context.crop(a), context.crop(b)) else { continue };
        if x.base() == y.base() || !touch(a, b) {
            continue;
        }
        let Some((from, to)) = context.together(a, b) else { continue };
        if to.is_some_and(|t| days_between(from, t) + 1 < LONG) {
            continue;
        }
        for trouble in &troubles {
            let both =
                jumps(trouble, x, y) && context.book.harms(trouble, x) && context.book.harms(trouble, y);
            if !both || !said.insert((&a.place, &trouble.id)) {
                continue;
            }
            let when = to.map_or_else(
                || format!("from {} on", super::words::day(from)),
                |t| format!("from {}", span(from, t)),
            );
            let words = format!(
                "{} in {} and {} in {} stand side by side {when}. Both get {}: 1 sick plant soon makes the other \
                 sick.",
                cap(&name(a)),
                stand(context, a),
                name(b),
                stand(context, b),
                super::words::inside(&trouble.name),
            );
            let remedy = format!(
                "Move one of them to another bed if there is room; otherwise look under the leaves every week. {}.",
                cap(trouble.remedy.trim().trim_end_matches('.'))
            );
            out.push(Finding::new(RULE.code, Weight::Note, words, remedy, SOURCE).of(a).on(from, to));
        }
    }
}
