//! The findings: what the check says, the gravest first; what is under the cursor in full.

use super::hit::Table;
use super::list;
use super::pane::Pane;
use super::theme::Role;
use crate::app::{Model, Sum, View};
use crate::calendar::day_text;
use crate::check::{Finding, Weight, rule};

/// Said while the findings are not those of the garden as it is.
const BEHIND: &str = "Judging the garden as it is now ...";

/// Columns of the list where the screen is wide enough to say more beside it.
fn half(width: i32) -> Option<i32> {
    (width >= 110).then_some(width / 2)
}

/// Rows of the list where more is said below it.
fn upper(height: i32) -> i32 {
    (height / 2).max(3)
}

/// Where the findings lie.
pub(super) fn table(width: i32, height: i32) -> Table {
    match half(width) {
        Some(half) => Table { top: 1, rows: height - 1, wide: half },
        None => Table { top: 1, rows: upper(height) - 1, wide: i32::MAX },
    }
}

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    if let Err(words) = &model.year {
        pane.words(
            2,
            1,
            &format!("Nothing can be judged without a climate: {words}."),
            width - 4,
            Role::Mind,
        );
        return;
    }
    if model.reckoned.findings.is_empty() && model.is_behind(Sum::Findings) {
        pane.say(2, 1, BEHIND, Role::Quiet);
        return;
    }
    if model.reckoned.findings.is_empty() {
        pane.say(
            2,
            1,
            if model.shown().plantings.is_empty() {
                "Nothing is planted yet, so there is nothing to say."
            } else {
                "Nothing to say: this season and the next stand as they should."
            },
            Role::Good,
        );
        return;
    }
    if let Some(half) = half(width) {
        lines(&mut pane.part(0, 0, half, height), model);
        whole(&mut pane.part(half + 1, 0, width - half - 1, height), model);
    } else {
        let rows = upper(height);
        lines(&mut pane.part(0, 0, width, rows), model);
        pane.rule(0, rows, width);
        whole(&mut pane.part(0, rows + 1, width, height - rows - 1), model);
    }
}

/// The word of a weight and its role; those set aside are quiet.
fn weight(finding: &Finding) -> (&'static str, Role) {
    if !finding.counts() {
        return ("aside", Role::Quiet);
    }
    let role = match finding.weight {
        Weight::Stop => Role::Stop,
        Weight::Mind => Role::Mind,
        Weight::Note => Role::Quiet,
    };
    (finding.weight.word(), role)
}

/// "3 stops, 5 to mind, 8 notes".
pub(super) fn tally(model: &Model) -> String {
    let count = |w: Weight| model.reckoned.findings.iter().filter(|f| f.counts() && f.weight == w).count();
    let part = |n: usize, word: &str| {
        let ending = if n == 1 || word == "to mind" { "" } else { "s" };
        (n > 0).then(|| format!("{n} {word}{ending}"))
    };
    let parts: Vec<String> = [
        part(count(Weight::Stop), "stop"),
        part(count(Weight::Mind), "to mind"),
        part(count(Weight::Note), "note"),
        part(model.reckoned.findings.iter().filter(|f| !f.counts()).count(), "set aside")
            .map(|s| s.replace("asides", "aside")),
    ]
    .into_iter()
    .flatten()
    .collect();
    parts.join(", ")
}

fn lines(pane: &mut Pane<'_>, model: &Model) {
    let at = model.line(View::Findings);
    let width = pane.width();
    let behind = model.is_behind(Sum::Findings);
    let words = if behind { BEHIND.to_owned() } else { tally(model) };
    pane.say(2, 0, &words, Role::Quiet);
    list::rest(pane, 0, at, model.reckoned.findings.len());
    let mut inside = pane.part(0, 1, width, i32::MAX);
    let height = inside.height();
    for (row, n, finding) in list::shown(&model.reckoned.findings, at, height) {
        let (word, role) = weight(finding);
        inside.say(2, row, word, role);
        let place =
            finding.place.as_ref().and_then(|id| model.plan.place(id)).map_or("", |p| p.name.as_str());
        inside.fit(8, row, place, 13, Role::Quiet);
        let title = rule(finding.code).map_or(finding.code, |r| r.title);
        let end = inside.fit(22, row, title, width - 23, Role::Plain);
        if let Some(from) = finding.from.filter(|_| width - end > 10) {
            inside.right(width - 1, row, &day_text(from), Role::Quiet);
        }
        if n == at {
            list::mark(&mut inside, row);
        }
    }
}

fn whole(pane: &mut Pane<'_>, model: &Model) {
    let Some(finding) = model.focus_finding() else { return };
    let width = pane.width() - 4;
    let (word, role) = weight(finding);
    let title = rule(finding.code).map_or(finding.code, |r| r.title);
    let at = pane.say(2, 0, word, role);
    pane.fit(at + 2, 0, title, width - at, Role::Title);
    let mut y = pane.words(2, 1, &finding.words, width, Role::Plain);
    y = pane.words(2, y, &finding.remedy, width, Role::Accent);
    if let Some(reason) = &finding.set_aside {
        y = pane.words(2, y, &format!("Set aside: {reason}"), width, Role::Quiet);
    }
    y = pane.words(2, y, &format!("Source: {}", finding.source), width, Role::Quiet);
    if let Some(rule) = rule(finding.code)
        && y + 2 < pane.height()
    {
        pane.words(2, y + 1, rule.explain, width, Role::Quiet);
    }
}
