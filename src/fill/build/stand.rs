//! Where a crop may stand, from when, in which blocks, and what its soil's past costs.

use super::grow::Kind;
use super::{Builder, Dropped, POINT};
use crate::calendar::Date;
use crate::crop::{BreakWeight, Crop, Rotation};
use crate::fill::cells::Cells;
use crate::fill::past;
use crate::fill::problem::{Bar, Barred, Place as Stand, Shape, Way};
use crate::fill::suit;
use crate::fill::ways::{Sown, Starts};
use crate::garden::{Block, Layer, Place, PlaceId, SoilId, capacity, pot_plants, shapes_in};
use crate::units::num;

/// Points lost by a cell whose soil had the family too recently, before the advised and before the least break.
const EARLY: (i64, i64) = (POINT, 2 * POINT);

impl Builder<'_> {
    pub(super) fn label(&mut self, words: String) -> usize {
        let labels = &mut self.problem.labels;
        labels.iter().position(|l| *l == words).unwrap_or_else(|| {
            labels.push(words);
            labels.len() - 1
        })
    }

    /// Where in a bed a crop may stand, and from when.
    pub(super) fn stand(
        &mut self,
        crop: &Crop,
        bed: usize,
        (starts, layer, kind): (&Starts, Layer, &Kind),
        only: &[PlaceId],
        way: &mut Way,
    ) {
        let place = self.places[bed];
        if self.ills(crop, bed) != kind.ills {
            return;
        }
        if !only.is_empty() && !only.contains(&place.id) {
            let label = self.label(String::from("not among the places wished for"));
            way.barred.push(Barred { bed, why: Bar::Unfit { label } });
            return;
        }
        let held = match self.suits(place, crop, (bed, kind.cut)) {
            Ok(held) => held,
            Err(words) => {
                let label = self.label(words);
                way.barred.push(Barred { bed, why: Bar::Unfit { label } });
                return;
            }
        };
        let shapes = self.shapes(crop, place, layer, way);
        if shapes.is_empty() {
            let label = self.label(String::from("no block of it fits"));
            way.barred.push(Barred { bed, why: Bar::Unfit { label } });
            return;
        }
        // Fresh mix on a date is another soil: each stretch of one soil is judged by itself.
        let mut edges = vec![0];
        edges.extend(place.refilled.iter().map(|d| self.clock.on_or_after(*d)));
        edges.push(self.clock.weeks);
        edges.dedup();
        let clock = self.clock;
        let since = clock.on_or_after(place.since);
        // The first week in which a start is cleared after a day.
        let late = |day: Date| {
            let late = |s: &Sown| s.dates.cleared.is_none_or(|c| c > day);
            starts.begins.iter().zip(&starts.sown).find(|(_, s)| late(s)).map_or(clock.weeks, |(b, _)| b.week)
        };
        let until = place.until.map_or(clock.weeks, late);
        let lies = self.lies(bed, kind.cover);
        for pair in edges.windows(2) {
            let (mut from, to) = (pair[0].max(since), pair[1].min(until));
            if from >= to {
                continue;
            }
            let soil = place.soil_on(clock.date(from));
            from = from.max(self.closed(crop, (bed, &soil), (from, to), way));
            if let Some(clean) = suit::clean_from(place, crop, clock.date(from)) {
                let week = starts
                    .begins
                    .iter()
                    .zip(&starts.sown)
                    .find(|(_, s)| s.dates.first_pick.is_none_or(|p| p >= clean))
                    .map_or(to, |(b, _)| b.week);
                if week >= to && from < to {
                    let day = crate::calendar::day_text(clean);
                    let label = self.label(format!("raw manure was dug in: nothing is picked before {day}"));
                    way.barred.push(Barred { bed, why: Bar::Unfit { label } });
                }
                from = from.max(week);
            }
            if from >= to {
                continue;
            }
            let tracts = self.tracts(crop, (bed, &soil), (from, to));
            for (since, free, costs) in tracts {
                for held in &held {
                    for (begin, end, under) in &lies {
                        let first = since.max(clock.on_or_after(held.from)).max(*begin);
                        let last = to.min(held.until.map_or(clock.weeks, late)).min(*end);
                        let cells = held.cells.both(&free).both(under);
                        if first < last && !cells.is_empty() {
                            let costs = costs.clone();
                            let shapes = shapes.clone();
                            way.places.push(Stand { bed, from: first, to: last, shapes, cells, costs });
                        }
                    }
                }
            }
        }
    }

    /// The week until which a soil is closed to a crop as a whole, by its family or a disease.
    fn closed(
        &mut self,
        crop: &Crop,
        (bed, soil): (usize, &SoilId),
        (from, to): (usize, usize),
        way: &mut Way,
    ) -> usize {
        if self.request.drops(Dropped::Breaks) {
            return from;
        }
        let place = self.places[bed];
        let rotation = self.plan.settings.rotation_of(crop, self.book);
        let stays = past::stays(self.plan, self.book, place, soil, self.clock.date(from));
        let mut bars: Vec<(Date, String)> = Vec::new();
        if rotation.weight == BreakWeight::Stop {
            // Judged by the cell, a soil is closed as a whole only by what stood somewhere in it.
            let by_cell = self.plan.settings.rotation_by_cell;
            let whole: Vec<past::Stay> =
                stays.into_iter().filter(|s| !by_cell || s.block.is_none()).collect();
            if let Some(free) = past::free_from(&whole, &crop.family, None, rotation.least) {
                let common = self.book.family(&crop.family).map_or(crop.family.as_str(), |f| &f.common);
                bars.push((free, format!("{common} stood there, free again from")));
            }
        }
        if let Some((free, trouble)) =
            past::sound_from(self.plan, self.book, place, crop, (soil, self.clock.date(from)))
        {
            bars.push((free, format!("{trouble} was seen there, free again from")));
        }
        let mut closed = from;
        for (free, words) in bars {
            let week = self.clock.on_or_after(free);
            if week > closed {
                let day = crate::calendar::day_text(free);
                let label = self.label(format!("{words} {day} {}", chrono::Datelike::year(&free)));
                let until = (week < to).then_some(week);
                way.barred.push(Barred { bed, why: Bar::Break { group: way.groups[0], until, label } });
            }
            closed = closed.max(week);
        }
        closed
    }

    /// Cells of a soil with the week from which they are free of a crop's family, and what its past costs each cell.
    fn tracts(
        &self,
        crop: &Crop,
        (bed, soil): (usize, &SoilId),
        (from, to): (usize, usize),
    ) -> Vec<(usize, Cells, Vec<i64>)> {
        let place = self.places[bed];
        let area = self.problem.beds[bed].cells();
        let rotation = self.plan.settings.rotation_of(crop, self.book);
        let stays = past::stays(self.plan, self.book, place, soil, self.clock.date(from));
        let day = self.clock.date(from.midpoint(to.min(from + 40)));
        let all = Cells::first(area);
        if self.request.drops(Dropped::Breaks) {
            return vec![(from, all, Vec::new())];
        }
        if !self.plan.settings.rotation_by_cell {
            let cost = soft(crop, &stays, None, day, rotation);
            return vec![(from, all, if cost > 0 { vec![cost; area] } else { Vec::new() })];
        }
        let width = self.problem.beds[bed].width;
        let block = |cell: usize| Block::cell(num::small(cell / width), num::small(cell % width));
        let costs: Vec<i64> = (0..area).map(|c| soft(crop, &stays, Some(block(c)), day, rotation)).collect();
        let mut out: Vec<(usize, Cells, Vec<i64>)> = Vec::new();
        for cell in 0..area {
            let free = past::free_from(&stays, &crop.family, Some(block(cell)), rotation.least)
                .filter(|_| rotation.weight == BreakWeight::Stop);
            let week = free.map_or(from, |day| self.clock.on_or_after(day).max(from));
            match out.iter_mut().find(|(since, ..)| *since == week) {
                Some((_, cells, _)) => cells.insert(cell),
                None => out.push((week, std::iter::once(cell).collect(), costs.clone())),
            }
        }
        out
    }

    /// The cells of a place that a crop may take, or why it may take none.
    fn suits(
        &self,
        place: &Place,
        crop: &Crop,
        (bed, cut): (usize, bool),
    ) -> Result<Vec<suit::Held>, String> {
        let garden = suit::Garden {
            plan: self.plan,
            book: self.book,
            flowers: self.flowers,
            drop: self.request.drop,
            cut,
        };
        garden.cells(place, crop, &self.sun[bed])
    }

    /// Indices of the blocks a crop may take in a place.
    pub(super) fn shapes(&self, crop: &Crop, place: &Place, layer: Layer, way: &mut Way) -> Vec<usize> {
        let cell = self.plan.settings.cell;
        let found: Vec<(u16, u16, u16)> = match layer {
            // Were every pot large enough, it would take one plant.
            Layer::Main
                if place.is_pot() && self.request.drops(Dropped::Pots) && pot_plants(crop, place) == 0 =>
            {
                vec![(1, 1, 1)]
            }
            Layer::Main => shapes_in(crop, place, cell),
            // Between larger plants there is room for half as many.
            Layer::Mate => {
                let n = capacity(crop, place, 1, 1, cell) / 2;
                if n > 0 { vec![(1, 1, n)] } else { Vec::new() }
            }
        };
        let mut out = Vec::new();
        for (rows, cols, plants) in found {
            let size = (usize::from(rows), usize::from(cols));
            let plants = i64::from(plants);
            let same = |s: &Shape| {
                s.plants == plants && s.sizes.iter().any(|&(a, b)| (a, b) == size || (b, a) == size)
            };
            let at = way.shapes.iter().position(same).unwrap_or_else(|| {
                way.shapes.push(Shape { sizes: Vec::new(), plants });
                way.shapes.len() - 1
            });
            if !way.shapes[at].sizes.contains(&size) {
                way.shapes[at].sizes.push(size);
            }
            if !out.contains(&at) {
                out.push(at);
            }
        }
        out.sort_unstable();
        out
    }
}

/// Cost of a cell whose soil had the family too recently.
fn soft(crop: &Crop, stays: &[past::Stay], block: Option<Block>, day: Date, rotation: Rotation) -> i64 {
    let before =
        |years: u8| past::free_from(stays, &crop.family, block, years).is_some_and(|free| free > day);
    if rotation.weight == BreakWeight::Off {
        0
    } else if before(rotation.least) {
        EARLY.1
    } else if before(rotation.advised) {
        EARLY.0
    } else {
        0
    }
}
