//! The judge: rules that look at a plan and say what is wrong with it, where, when, why, and what to do.
//!
//! One file a rule (or a pair of close ones). A rule reads a [`Context`] and nothing else; it shares no code with
//! the search, so that a proposal is judged by someone else. [`check`] runs them all, [`RULES`] lists them, and
//! [`explain`] tells a rule's numbers and sources.
//!
//! To add a rule: write its file with a `const RULE: Rule`, add it to [`RULES`], and a test with a plan that
//! triggers it and a near miss that does not. A rule that stops must be paired in [`STOPS`] with what the fill may
//! not do.

mod alike;
mod away;
mod caution;
mod context;
mod crowded;
mod dates;
mod daylength;
mod finding;
mod fits;
mod frost;
mod ground;
mod harvest;
mod heat;
mod hours;
mod idle;
mod lead;
mod light;
mod lines;
mod load;
mod manure;
mod mate;
mod neighbours;
mod overlap;
mod past;
mod pots;
mod practice;
mod record;
mod returns;
mod roots;
mod season;
mod shade;
mod shared;
mod sky;
mod soil;
mod sprout;
mod support;
mod tags;
mod timber;
mod trays;
mod trouble;
mod twice;
mod unknown;
mod wishes;
mod words;

pub use context::Context;
pub use finding::{Finding, Weight};
pub use harvest::{Larder, Met, ShareMet, share_met};
pub use idle::{GroundUse, ground_use, growing_weeks};
pub use record::{Ground, Order, Pause, Return, Turn, best_order, is_recorded, pauses, rotation_outlook};
pub use tags::kept_for;
pub use words::{cap as capital, inside};

/// A rule.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Its code word.
    pub code: &'static str,
    /// What it is about, in a few words.
    pub title: &'static str,
    /// The rule in full: what is looked at, the numbers, the sources.
    pub explain: &'static str,
    /// Looks at a plan and adds what it finds.
    pub run: fn(&Context<'_>, &mut Vec<Finding>),
}

/// Every rule, in the order in which they are explained.
pub const RULES: &[Rule] = &[
    fits::OUTSIDE,
    fits::GONE,
    dates::RULE,
    overlap::RULE,
    mate::RULE,
    crowded::RULE,
    unknown::RULE,
    tags::RULE,
    pots::SMALL,
    pots::SHALLOW,
    roots::RULE,
    support::RULE,
    frost::EARLY,
    frost::LATE,
    frost::WINTER,
    sprout::COLD,
    sprout::HOT,
    sprout::RAISED,
    heat::FRUIT,
    heat::HOT,
    daylength::BOLTS,
    daylength::WRONG,
    daylength::SHORT,
    practice::WAY,
    practice::WEEKS,
    light::RULE,
    shade::RULE,
    returns::RULE,
    twice::RULE,
    past::RULE,
    trouble::RULE,
    neighbours::HARMS,
    neighbours::HELPS,
    neighbours::LORE,
    neighbours::MYTH,
    shared::RULE,
    alike::ALIKE,
    alike::INEDIBLE,
    caution::RULE,
    manure::RULE,
    lead::RULE,
    load::RULE,
    lines::RULE,
    timber::RULE,
    hours::RULE,
    trays::RULE,
    away::RULE,
    wishes::RULE,
];

/// Each rule that can stop, with what the fill may never do because of it.
pub const STOPS: &[(&str, &str)] = &[
    ("outside-bed", "blocks lie inside the grid of a bed or pot"),
    ("place-gone", "plantings fall between the set-up and the retirement of their place"),
    ("dates-muddled", "the stages of a planting are computed in order"),
    ("cells-taken", "no two plantings take a cell in one layer at one time"),
    ("mate-crowded", "a mate takes only open weeks of the main planting"),
    ("too-many-plants", "a block holds no more plants than are placed in it"),
    ("not-meant-here", "a place takes only what its tags allow"),
    ("pot-small", "a pot takes only crops with enough volume"),
    ("pot-shallow", "a pot takes only crops with enough depth"),
    ("no-support", "a climber takes only cells with a support"),
    ("too-dark", "a way grows only in places with its least hours of sun"),
    ("look-alike", "what must not be eaten stays in beds apart from the crops it looks like"),
    ("raw-manure", "a place is barred until the days after raw manure are over"),
    ("soil-lead", "a place with lead in its soil is barred to the parts that take it up"),
    ("deck-load", "the layout is the grower's; the fill adds no soil and no pot"),
    (
        "family-returns",
        "a soil is barred to a family until its least break is over, where that is set to stop",
    ),
    (
        "trouble-returns",
        "a soil with a recorded disease is barred to its hosts until the least break is over",
    ),
];

/// Judges a plan: every finding, stops first, then by date and place; those set aside come last and say why.
pub fn check(context: &Context<'_>) -> Vec<Finding> {
    let mut out = Vec::new();
    for rule in RULES {
        (rule.run)(context, &mut out);
    }
    finding::set_aside(context, &mut out);
    finding::order(&mut out);
    out
}

/// Whether any finding still stops: set-aside ones don't count.
pub fn stops(findings: &[Finding]) -> bool {
    findings.iter().any(|f| f.weight == Weight::Stop && f.counts())
}

/// The rule of that code word.
pub fn rule(code: &str) -> Option<&'static Rule> {
    RULES.iter().find(|r| r.code == code)
}

/// The rule of that code word in full, with its numbers and sources.
pub fn explain(code: &str) -> Option<String> {
    rule(code).map(|r| format!("{}\n\n{}", r.title, r.explain))
}
