//! What a rule says: one finding, and the order in which findings are read.

use super::Context;
use crate::calendar::Date;
use crate::garden::{Block, Place, PlaceId};
use crate::plan::{Planting, PlantingId};
use serde::{Serialize, Serializer};
use std::cmp::Reverse;

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Weight {
    /// Must not be: a hard rule of the plan, or a danger.
    Stop,
    /// Better changed.
    Mind,
    /// Good to know.
    Note,
}

impl Weight {
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Mind => "mind",
            Self::Note => "note",
        }
    }
}

/// One thing the check says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// Code word of the rule.
    pub code: &'static str,
    /// How much it weighs.
    pub weight: Weight,
    /// The bed or pot, where it is about one.
    pub place: Option<PlaceId>,
    /// The cells there, where it is about some of them; written "B2-C3".
    #[serde(serialize_with = "cells_text")]
    pub cells: Option<Block>,
    /// The planting, where it is about one.
    pub planting: Option<PlantingId>,
    /// Every planting it is about, where it is about several that are one act.
    pub plantings: Vec<PlantingId>,
    /// First day it is about.
    pub from: Option<Date>,
    /// Last day it is about.
    pub to: Option<Date>,
    /// What is the matter: place, dates, figure and limit, in plain words.
    pub words: String,
    /// One thing to do.
    pub remedy: String,
    /// Where the rule and its numbers come from.
    pub source: String,
    /// Why the grower lives with it, where it was set aside.
    pub set_aside: Option<String>,
}

#[expect(clippy::ref_option, reason = "serde hands the field by reference")]
fn cells_text<S: Serializer>(cells: &Option<Block>, serializer: S) -> Result<S::Ok, S::Error> {
    match cells {
        Some(block) => serializer.collect_str(block),
        None => serializer.serialize_none(),
    }
}

impl Finding {
    /// A finding that is about no place and no planting yet.
    pub(super) fn new(
        code: &'static str,
        weight: Weight,
        words: String,
        remedy: String,
        source: &str,
    ) -> Self {
        Self {
            code,
            weight,
            place: None,
            cells: None,
            planting: None,
            plantings: Vec::new(),
            from: None,
            to: None,
            words,
            remedy,
            source: source.to_owned(),
            set_aside: None,
        }
    }
    /// The same, about a place.
    pub(super) fn at(mut self, place: &Place) -> Self {
        self.place = Some(place.id.clone());
        self
    }
    /// The same, about a planting, its place and its cells.
    pub(super) fn of(mut self, planting: &Planting) -> Self {
        self.place = Some(planting.place.clone());
        self.cells = Some(planting.block);
        self.planting = Some(planting.id);
        self.plantings = vec![planting.id];
        self.from = self.from.or_else(|| planting.begins());
        self.to = self.to.or_else(|| planting.ends());
        self
    }
    /// The same, about a planting and those that are one act with it.
    pub(super) fn of_all(mut self, context: &Context<'_>, planting: &Planting) -> Self {
        self = self.of(planting);
        self.plantings = context.twins(planting).iter().map(|p| p.id).collect();
        self
    }
    /// The same, about these days.
    pub(super) const fn on(mut self, from: Date, to: Option<Date>) -> Self {
        self.from = Some(from);
        self.to = to;
        self
    }
    /// Whether it still counts: it was not set aside.
    pub const fn counts(&self) -> bool {
        self.set_aside.is_none()
    }
}

/// Stops first, then by date, place, cells and rule; what was set aside comes last.
pub(super) fn order(findings: &mut [Finding]) {
    findings.sort_by(|a, b| {
        let key = |f: &Finding| (Reverse(f.counts()), f.weight, f.from.is_none(), f.from);
        let cells = |f: &Finding| f.cells.map(|c| (c.row, c.col));
        key(a)
            .cmp(&key(b))
            .then_with(|| a.place.cmp(&b.place))
            .then_with(|| cells(a).cmp(&cells(b)))
            .then_with(|| a.code.cmp(b.code))
            .then_with(|| a.planting.cmp(&b.planting))
            .then_with(|| a.words.cmp(&b.words))
    });
}

/// Marks what the grower has set aside, by rule, place and planting.
pub(super) fn set_aside(context: &Context<'_>, findings: &mut [Finding]) {
    for finding in findings {
        finding.set_aside = context
            .plan
            .set_aside
            .iter()
            .find(|s| {
                s.code == finding.code
                    && s.place.as_ref().is_none_or(|p| Some(p) == finding.place.as_ref())
                    && s.planting.is_none_or(|p| Some(p) == finding.planting)
            })
            .map(|s| s.reason.clone());
    }
}
