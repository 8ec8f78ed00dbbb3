//! Findings in words.

use crate::check::{self, Finding, RULES, Weight};
use crate::cli::table::wrap;
use crate::plan::Plan;
use crate::store::nearest;
use serde_json::Value;
use std::fmt::Write as _;

/// Findings for a program.
pub fn check_json(findings: &[Finding]) -> Value {
    serde_json::to_value(findings).unwrap_or_default()
}

/// Findings for a person.
pub fn check_text(plan: &Plan, findings: &[Finding]) -> String {
    let mut out = format!("{}: {}\n", plan.name, tally(findings));
    for finding in findings {
        out.push('\n');
        let place = finding.place.as_ref().and_then(|id| plan.place(id)).map(|p| p.name.as_str());
        let mut head = format!("{:<5} {}", finding.weight.word().to_uppercase(), finding.code);
        if let Some(place) = place {
            let _ = write!(head, " · {place}");
        }
        if let Some(cells) = finding.cells {
            let _ = write!(head, " {cells}");
        }
        if let Some(from) = finding.from {
            let _ = write!(head, " · {from}");
        }
        if let Some(to) = finding.to.filter(|to| Some(*to) != finding.from) {
            let _ = write!(head, " to {to}");
        }
        out.push_str(&head);
        out.push('\n');
        out.push_str(&wrap(&finding.words, 96, "      "));
        out.push_str(&wrap(&finding.remedy, 96, "      > "));
        out.push_str(&wrap(&format!("Source: {}", finding.source), 96, "      "));
        if let Some(reason) = &finding.set_aside {
            out.push_str(&wrap(&format!("Set aside: {reason}"), 96, "      "));
        }
    }
    out
}

fn tally(findings: &[Finding]) -> String {
    let count = |weight| findings.iter().filter(|f| f.counts() && f.weight == weight).count();
    let aside = findings.iter().filter(|f| !f.counts()).count();
    let (stops, minds, notes) = (count(Weight::Stop), count(Weight::Mind), count(Weight::Note));
    if stops + minds + notes + aside == 0 {
        return String::from("nothing found");
    }
    let mut parts =
        vec![format!("{stops} to stop for"), format!("{minds} to mind"), format!("{notes} to note")];
    if aside > 0 {
        parts.push(format!("{aside} set aside"));
    }
    parts.join(", ")
}

/// A rule with its numbers and sources; the words to say where there is none of that code word.
///
/// # Errors
/// Where no rule has that code word: with the one most like it.
pub fn explain_text(code: &str) -> Result<String, String> {
    check::explain(code).map(|text| format!("{code}: {text}\n")).ok_or_else(|| {
        let codes: Vec<&str> = RULES.iter().map(|r| r.code).collect();
        let hint = nearest(code, codes.iter().copied()).map_or_else(
            || format!("the rules are: {}", codes.join(", ")),
            |n| format!("did you mean '{n}'?"),
        );
        format!("there is no rule '{code}'; {hint}")
    })
}
