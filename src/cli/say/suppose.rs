//! A question written to a file, and what a rule costs.

use super::fill::unit;
use super::{figure, full_day};
use crate::calendar::{Date, Season};
use crate::cli::table::Table;
use crate::fill::{Dropped, Problem, Proposal, WishMet};
use crate::plan::Plan;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::Path;

/// A question that was written to a file, for a person.
pub fn question_text(problem: &Problem, from: Date, file: &Path) -> String {
    format!(
        "The question of this garden from {} on is written to {}: {} weeks, {} beds and pots, {} ways of growing, {} \
         wishes.\n",
        full_day(from),
        file.display(),
        problem.weeks,
        problem.beds.len(),
        problem.ways.len(),
        problem.wishes.len()
    )
}

/// The same for a program.
pub fn question_json(problem: &Problem, from: Date, file: &Path) -> Value {
    json!({
        "written": file.display().to_string(),
        "from": from,
        "weeks": problem.weeks,
        "beds": problem.beds.len(),
        "ways": problem.ways.len(),
        "wishes": problem.wishes.len(),
    })
}

/// A fill as it is and one without a rule.
#[derive(Debug)]
pub struct Supposed<'a> {
    /// The garden.
    pub plan: &'a Plan,
    /// Its season.
    pub season: Season,
    /// The rule left out.
    pub rule: Dropped,
    /// With every rule.
    pub now: Proposal,
    /// Without it.
    pub then: Proposal,
}

impl Supposed<'_> {
    /// Wishes of which another amount would be met: as it is, and without the rule.
    fn changed(&self) -> impl Iterator<Item = (&WishMet, &WishMet)> {
        self.now.wishes.iter().zip(&self.then.wishes).filter(|(a, b)| (a.share - b.share).abs() >= 0.01)
    }
}

/// What a rule costs, for a person.
pub fn supposed_text(supposed: &Supposed<'_>) -> String {
    let Supposed { plan, season, rule, now, then } = supposed;
    let mut out = format!("{}, season {season}\n", plan.name);
    let _ = writeln!(out, "As it is {:.1} % of what you asked for is met.", now.share * 100.0);
    let _ = writeln!(out, "If {}, {:.1} % would be.", rule.words(), then.share * 100.0);
    let measure = plan.settings.measure;
    let mut table = Table::new(&["", ">now", ">then", ">of"]);
    let mut rows = 0;
    for (a, b) in supposed.changed() {
        table.row([
            a.crop.to_string(),
            a.met.reading(measure),
            b.met.reading(measure),
            a.wanted.reading(measure),
        ]);
        rows += 1;
    }
    if rows > 0 {
        out.push('\n');
        out.push_str(&table.text("  "));
    }
    out
}

/// The same for a program.
pub fn supposed_json(supposed: &Supposed<'_>) -> Value {
    let of = |p: &Proposal| json!({"value": figure(p.value, 3), "bound": figure(p.bound, 3), "share_met": figure(p.share, 4)});
    json!({
        "season": supposed.season.to_string(),
        "if": supposed.rule.words(),
        "now": of(&supposed.now),
        "then": of(&supposed.then),
        "changed": supposed.changed().map(|(a, b)| json!({
            "wish": a.wish,
            "crop": a.crop,
            "wanted": figure(a.wanted.value(), 1),
            "now": figure(a.met.value(), 1),
            "then": figure(b.met.value(), 1),
            "unit": unit(a.wanted),
        })).collect::<Value>(),
    })
}
