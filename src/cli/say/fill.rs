//! A proposal of the fill: what is met and what is not, and why.

use super::{figure, full_day, start_id};
use crate::calendar::{Date, Season, day_text};
use crate::check::Finding;
use crate::cli::table::{Table, wrap};
use crate::fill::{Outcome, Problem, Proposal, help_words, reasons};
use crate::garden::Layer;
use crate::plan::{Plan, Planting, Why};
use crate::units::{Amount, CountWord, num};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A proposal with what is said about it.
#[derive(Debug)]
pub struct Filled<'a> {
    /// The garden as it was.
    pub before: &'a Plan,
    /// The garden with the proposal in it.
    pub plan: &'a Plan,
    /// The proposal.
    pub proposal: &'a Proposal,
    /// No plan can be worth more, points.
    pub bound: f64,
    /// The day filled from.
    pub from: Date,
    /// The season of that day.
    pub season: Season,
    /// Time it took.
    pub milliseconds: u64,
    /// Findings that stop and were not there before.
    pub added: Vec<Finding>,
}

impl Filled<'_> {
    /// How far the value may be from the best possible, 0 to 1.
    fn gap(&self) -> f64 {
        if self.bound > 0.0 { ((self.bound - self.proposal.value) / self.bound).max(0.0) } else { 0.0 }
    }
}

fn why_id(why: Why) -> &'static str {
    match why {
        Why::Hand => "hand",
        Why::Wish(_) => "wish",
        Why::Catch => "catch",
        Why::Cover => "cover",
    }
}

pub(super) fn unit(amount: Amount) -> &'static str {
    match amount {
        Amount::Weight(_) => "g",
        Amount::Count(_, word) => match word {
            CountWord::Head => "heads",
            CountWord::Bunch => "bunches",
            CountWord::Stem => "stems",
            CountWord::Ear => "ears",
            CountWord::Bulb => "bulbs",
            CountWord::Fruit => "fruits",
            CountWord::Root => "roots",
        },
    }
}

/// A proposal for a program.
pub fn fill_json(filled: &Filled<'_>) -> Value {
    let p = filled.proposal;
    json!({
        "value": figure(p.value, 3),
        "bound": figure(filled.bound, 3),
        "gap": figure(filled.gap(), 4),
        "share_met": figure(p.share, 4),
        "from": filled.from,
        "season": filled.season.to_string(),
        "wishes": p.wishes.iter().map(|w| json!({
            "wish": w.wish,
            "crop": w.crop,
            "wanted": figure(w.wanted.value(), 1),
            "met": figure(w.met.value(), 1),
            "harvest": figure(w.harvest.value(), 1),
            "unit": unit(w.wanted),
            "share": figure(w.share, 4),
            "reasons": w.reasons,
        })).collect::<Value>(),
        "helps": p.helps,
        "idle_cell_weeks": p.idle,
        "covered_cell_weeks": p.covered,
        "growing_cell_weeks": p.growing,
        "asked_cell_weeks": p.asked,
        "plantings": p.plantings.iter().map(planting_json).collect::<Value>(),
        "replaced": p.replaced,
        "kept": p.kept,
        "stops_added": filled.added.len(),
        "iterations": p.moves,
        "milliseconds": filled.milliseconds,
        "seed": p.seed,
        "stopped": p.stopped,
    })
}

fn planting_json(p: &Planting) -> Value {
    json!({
        "crop": p.crop,
        "name": p.name,
        "place": p.place,
        "cells": p.block.to_string(),
        "layer": p.layer,
        "start": p.planned.sown.or(p.planned.set_out),
        "set_out": p.planned.set_out,
        "first_pick": p.planned.first_pick,
        "method": start_id(p.start),
        "cleared": p.planned.cleared,
        "plants": p.plants,
        "why": why_id(p.why),
        "wish": match p.why {
            Why::Wish(id) => Some(id),
            Why::Hand | Why::Catch | Why::Cover => None,
        },
    })
}

/// A proposal for a person.
pub fn fill_text(filled: &Filled<'_>) -> String {
    let p = filled.proposal;
    let mut out =
        format!("{}, season {}, filled from {}\n", filled.plan.name, filled.season, full_day(filled.from));
    let _ = writeln!(out, "{}.", p.words());
    let _ = writeln!(
        out,
        "{:.0} points of at most {:.0} (proved gap {:.1} %).",
        p.value,
        filled.bound,
        filled.gap() * 100.0
    );
    if p.for_staying > 0.0 {
        let _ = writeln!(out, "{:.0} of the points are for what stays as it is.", p.for_staying);
    }
    let part = |n: u64| if p.growing == 0 { 0.0 } else { real(n) / real(p.growing) * 100.0 };
    let _ = writeln!(
        out,
        "Of {} cell-weeks of the growing season {} lie idle ({:.1} %), {} carry a cover crop alone ({:.1} %).",
        p.growing,
        p.idle,
        part(p.idle),
        p.covered,
        part(p.covered)
    );
    if p.asked > 0 {
        let _ = writeln!(
            out,
            "Each grown by itself, what you asked for would take {} cell-weeks: {:.1} times the season's.",
            p.asked,
            num::real(p.asked) / real(p.growing.max(1)),
        );
    }
    wishes(&mut out, filled);
    plantings(&mut out, filled);
    if filled.added.is_empty() {
        out.push_str("\nThe check finds nothing new to stop for.\n");
    } else {
        let _ = writeln!(out, "\nThe check stops at {}:", filled.added.len());
        for finding in &filled.added {
            out.push_str(&wrap(&format!("{}: {}", finding.code, finding.words), 96, "  "));
        }
    }
    let _ = writeln!(out, "{} moves, seed {}, {} ms.", p.moves, p.seed, filled.milliseconds);
    out
}

fn real(n: u64) -> f64 {
    num::real(usize::try_from(n).unwrap_or(usize::MAX))
}

fn wishes(out: &mut String, filled: &Filled<'_>) {
    let measure = filled.plan.settings.measure;
    if filled.proposal.wishes.is_empty() {
        out.push_str("\nThere are no wishes: only gaps were filled.\n");
        return;
    }
    out.push_str("\nWishes\n");
    let mut all: Vec<_> = filled.proposal.wishes.iter().collect();
    all.sort_by_key(|w| w.wish);
    let mut table = Table::new(&["", ">met", ">of", ">"]);
    for w in &all {
        table.row([
            w.crop.to_string(),
            w.met.reading(measure),
            w.wanted.reading(measure),
            format!("{:.0} %", w.share * 100.0),
        ]);
    }
    for (line, w) in table.text("  ").lines().skip(1).zip(&all) {
        let _ = writeln!(out, "{line}");
        for reason in &w.reasons {
            out.push_str(&wrap(&format!("- {reason}"), 96, "      "));
        }
    }
    if !filled.proposal.helps.is_empty() {
        out.push_str("\nWhat would help most\n");
        for help in &filled.proposal.helps {
            out.push_str(&wrap(&format!("- {help}"), 96, "  "));
        }
    }
}

fn plantings(out: &mut String, filled: &Filled<'_>) {
    let p = filled.proposal;
    let gone: Vec<&Planting> = p.replaced.iter().filter_map(|id| filled.before.planting(*id)).collect();
    if p.kept == 0 && gone.is_empty() {
        listed(out, filled.plan, &counted(p.plantings.len()), &p.plantings.iter().collect::<Vec<_>>());
        return;
    }
    let stay = if p.kept == 1 { "stays as it is" } else { "stay as they are" };
    let _ = writeln!(out, "\n{} of the plan in force {stay}.", counted(p.kept));
    if !gone.is_empty() {
        listed(out, filled.plan, &format!("Taken out of the plan: {}", counted(gone.len())), &gone);
    }
    if !p.plantings.is_empty() {
        let head = format!("Put into the plan: {}", counted(p.plantings.len()));
        listed(out, filled.plan, &head, &p.plantings.iter().collect::<Vec<_>>());
    }
}

fn counted(plantings: usize) -> String {
    format!("{plantings} {}", if plantings == 1 { "planting" } else { "plantings" })
}

/// Plantings by place and day under a head.
fn listed(out: &mut String, plan: &Plan, head: &str, plantings: &[&Planting]) {
    let _ = writeln!(out, "\n{head}");
    for place in &plan.places {
        let mut here: Vec<&Planting> = plantings.iter().copied().filter(|q| q.place == place.id).collect();
        if here.is_empty() {
            continue;
        }
        here.sort_by_key(|q| (q.begins(), q.block, q.id));
        let _ = writeln!(out, "\n  {}", place.name);
        let mut table = Table::new(&["", "", ">", "", "", "", ""]);
        for q in here {
            let day = |d: Option<Date>| d.map(day_text).unwrap_or_default();
            let d = &q.planned;
            let name = if q.layer == Layer::Mate { format!("+ {}", q.name) } else { q.name.clone() };
            let pick = d.first_pick.map_or_else(String::new, |f| format!("pick {}", day_text(f)));
            let begin = match (d.sown, d.set_out) {
                (Some(sown), Some(out)) => format!("raise {}, set out {}", day_text(sown), day_text(out)),
                (Some(sown), None) => format!("sow {}", day_text(sown)),
                (None, out) => format!("plant {}", day(out)),
            };
            table.row([
                q.block.to_string(),
                name,
                q.plants.to_string(),
                begin,
                pick,
                format!("clear {}", day(d.cleared)),
                match q.why {
                    Why::Catch => String::from("catch crop"),
                    Why::Cover => String::from("cover crop"),
                    Why::Wish(_) | Why::Hand => String::new(),
                },
            ]);
        }
        out.push_str(&table.text("    "));
    }
}

/// The answer to a problem file, for a program: amounts in whole units as the file has them.
pub fn outcome_json(problem: &Problem, outcome: &Outcome, milliseconds: u64) -> Value {
    let points = |units: i64| num::real_i(units) / num::real_i(problem.point.max(1));
    let (value, bound) = (points(outcome.value), points(outcome.bound));
    let reasons = reasons(problem, outcome);
    json!({
        "value": figure(value, 3),
        "bound": figure(bound, 3),
        "gap": figure(if bound > 0.0 { ((bound - value) / bound).max(0.0) } else { 0.0 }, 4),
        "share_met": figure(outcome.share, 4),
        "wishes": problem.wishes.iter().zip(&outcome.wishes).enumerate().map(|(at, (wish, met))| json!({
            "crop": wish.name, "wanted": met.wanted, "met": met.met, "reasons": reasons[at],
        })).collect::<Value>(),
        "helps": help_words(problem, outcome),
        "idle_cell_weeks": outcome.idle,
        "covered_cell_weeks": outcome.covered,
        "growing_cell_weeks": outcome.season,
        "plantings": outcome.plan.iter().chain(&outcome.fillers).map(|p| {
            let way = &problem.ways[p.way];
            json!({
                "crop": way.name,
                "place": problem.beds[p.bed].name,
                "cells": [p.row, p.column, p.height, p.width],
                "start": way.starts.get(p.start).map(|s| s.week),
                "wish": way.wish,
            })
        }).collect::<Value>(),
        "iterations": outcome.moves,
        "milliseconds": milliseconds,
        "seed": outcome.seed,
        "stopped": outcome.stopped,
    })
}

/// The answer to a problem file, for a person, and its lines for the checker of such files.
pub fn outcome_text(problem: &Problem, outcome: &Outcome) -> String {
    let points = |units: i64| num::real_i(units) / num::real_i(problem.point.max(1));
    format!(
        "value {:.3} bound {:.3} share {:.4} idle {} covered {} season {}\n{}",
        points(outcome.value),
        points(outcome.bound),
        outcome.share,
        outcome.idle,
        outcome.covered,
        outcome.season,
        outcome.lines(problem)
    )
}
