//! The season timeline of a plan.

use super::lanes::{Group, Run, lanes, named};
use super::{Source, end, name};
use crate::calendar::{ClimateDay, Week, plus};
use crate::crop;
use crate::garden::{Layer, Place};
use crate::paper::axis::Axis;
use crate::paper::timeline::{Bar, Bed, Kind, Lane, Start, Timeline};
use crate::plan::{Planting, Why};
use crate::units::{Measure, capital};

impl Source<'_> {
    /// The season timeline.
    pub fn timeline(&self) -> Timeline {
        let axis = Axis::of(self.season);
        let frost = self.year.frost_plain(0.0);
        let middle = |w: Week| ClimateDay::of(plus(w.monday(), 3));
        let plantings = self.plantings();
        let mut beds = Vec::new();
        for place in self.there() {
            let mut here: Vec<&Planting> =
                plantings.iter().copied().filter(|p| p.place == place.id).collect();
            // Mates have lanes of their own, below the main plantings of the same cells.
            let mates: Vec<&Planting> = here.extract_if(.., |p| p.layer == Layer::Mate).collect();
            let single = place.grid(self.plan.settings.cell) == (1, 1);
            let mut runs: Vec<_> = lanes(&here).into_iter().map(|r| (r, false)).collect();
            runs.extend(lanes(&mates).into_iter().map(|r| (r, true)));
            runs.sort_by_key(|(run, mate)| (run.cells.first().copied(), *mate));
            let lanes = runs.iter().map(|(run, mate)| self.lane(run, single, *mate)).collect();
            beds.push(Bed { name: place.name.clone(), note: self.size(place), lanes });
        }
        Timeline {
            title: format!("The season of {}", self.season),
            note: self.about(),
            axis,
            daylength: axis.each().map(|w| self.year.daylength[middle(w).index()]).collect(),
            frost: axis.each().map(|w| frost.later(middle(w)).max(frost.before(middle(w)))).collect(),
            beds,
        }
    }

    /// Beds and pots that are there on some day of the season.
    pub(super) fn there(&self) -> impl Iterator<Item = &Place> {
        let (first, last) = (self.season.first(), self.season.last());
        self.plan.places.iter().filter(move |p| p.since <= last && p.until.is_none_or(|u| u > first))
    }

    /// The place and its average frosts in a sentence.
    pub(super) fn about(&self) -> String {
        let frost = self.year.frost_plain(0.0);
        let day = |d: Option<ClimateDay>| d.map(|d| d.month_day().words());
        let dates = match (day(frost.last.five_in_10), day(frost.first.five_in_10)) {
            (Some(last), Some(first)) => {
                format!("in every other year the last frost comes after {last} and the first before {first}")
            }
            (Some(last), None) => format!("in every other year the last frost comes after {last}"),
            (None, Some(first)) => format!("in every other year the first frost comes before {first}"),
            (None, None) => "frost is rare".to_owned(),
        };
        format!("{}: {dates}. {}.", self.year.name, capital(&self.year.trust.words()))
    }

    /// Size and volume of a bed or pot.
    pub(super) fn size(&self, place: &Place) -> String {
        let measure = self.plan.settings.measure;
        let (across, down) = place.size();
        if place.is_pot() {
            let litres = place.litres();
            return match measure {
                Measure::Metric => format!("{litres:.0} L"),
                Measure::Us => format!("{:.0} gal", litres / 3.785_411_784),
            };
        }
        match measure {
            Measure::Metric => format!("{} \u{d7} {} m", short(across.m()), short(down.m())),
            Measure::Us => format!("{} \u{d7} {} ft", short(across.m() / 0.3048), short(down.m() / 0.3048)),
        }
    }

    fn lane(&self, run: &Run<'_>, single: bool, mate: bool) -> Lane {
        let cells = if single { String::new() } else { named(&run.cells) };
        let bars = run.groups.iter().map(|g| self.bar(g, run, single)).collect();
        Lane { cells: if mate { format!("{cells} mate").trim().to_owned() } else { cells }, bars }
    }

    fn bar(&self, group: &Group<'_>, run: &Run<'_>, single: bool) -> Bar {
        let p = group.own.first().copied().unwrap_or(group.first);
        let dates = p.dates();
        let begins = p.begins().unwrap_or_else(|| self.season.first());
        let until = end(p);
        let pick = dates.first_pick.map(|first| (first, dates.last_pick.unwrap_or(first)));
        // What failed is not picked after that day.
        let pick = pick.filter(|(first, _)| p.failed.is_none_or(|f| *first < f));
        let cells = group.cells();
        let mut amount = group.plants().to_string();
        if !single && cells != run.cells {
            amount = format!("{amount} ({})", named(&cells));
        }
        Bar {
            id: format!("planting-{}", p.id.0),
            echo: group.own.is_empty(),
            name: name(p),
            code: self.code(p),
            amount,
            family: self.family(&p.family),
            tint: self.tint(&p.family),
            start: match p.start {
                crop::Start::InPlace => Start::Sown,
                crop::Start::Raised { .. } => Start::SetOut(dates.sown),
                crop::Start::Bought | crop::Start::Piece(_) => Start::Planted,
            },
            from: begins,
            pick,
            to: until,
            kind: match (p.layer, p.why) {
                (_, Why::Cover) => Kind::Cover,
                (Layer::Mate, _) => Kind::Mate,
                (Layer::Main, Why::Catch) => Kind::Catch,
                (Layer::Main, Why::Hand | Why::Wish(_)) => Kind::Main,
            },
        }
    }
}

/// A length with at most one decimal.
fn short(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or_else(|| text.clone(), str::to_owned)
}
