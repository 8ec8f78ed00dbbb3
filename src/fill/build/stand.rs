//! Where a crop may stand, from when, in which blocks, and what its soil's past costs.

use super::{Builder, Dropped, POINT};
use crate::calendar::Date;
use crate::crop::{BreakWeight, Crop};
use crate::fill::cells::Cells;
use crate::fill::past;
use crate::fill::problem::{Bar, Barred, Place as Stand, Shape, Way};
use crate::fill::suit;
use crate::fill::ways::{Sown, Starts};
use crate::garden::{Layer, Place, PlaceId, capacity, pot_plants, shapes_in};

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
        (starts, layer): (&Starts, Layer),
        only: &[PlaceId],
        way: &mut Way,
    ) {
        let place = self.places[bed];
        if !only.is_empty() && !only.contains(&place.id) {
            let label = self.label(String::from("not among the places wished for"));
            way.barred.push(Barred { bed, why: Bar::Unfit { label } });
            return;
        }
        let cells = match self.suits(place, crop, bed) {
            Ok(cells) => cells,
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
        let until = place.until.map_or(clock.weeks, |u| {
            let late = |s: &Sown| s.dates.cleared.is_none_or(|c| c > u);
            starts.begins.iter().zip(&starts.sown).find(|(_, s)| late(s)).map_or(clock.weeks, |(b, _)| b.week)
        });
        for pair in edges.windows(2) {
            let (mut from, to) = (pair[0].max(since), pair[1].min(until));
            if from >= to {
                continue;
            }
            let day = clock.date(from);
            let soil = place.soil_on(day);
            let stays = past::stays(self.plan, self.book, place, &soil, day);
            let rotation = self.plan.settings.rotation_of(crop, self.book);
            let drop = self.request.drops(Dropped::Breaks);
            if rotation.weight == BreakWeight::Stop
                && !drop
                && let Some(free) = past::free_from(&stays, &crop.family, None, rotation.least)
            {
                let week = clock.on_or_after(free);
                if week > from {
                    let common = self.book.family(&crop.family).map_or(crop.family.as_str(), |f| &f.common);
                    let words = format!(
                        "{common} stood there, free again from {} {}",
                        crate::calendar::day_text(free),
                        chrono::Datelike::year(&free)
                    );
                    let label = self.label(words);
                    let until = (week < to).then_some(week);
                    way.barred.push(Barred { bed, why: Bar::Break { group: way.groups[0], until, label } });
                }
                from = from.max(week);
            }
            if !drop && let Some((free, trouble)) = past::sound_from(self.plan, self.book, place, crop, &soil)
            {
                let week = clock.on_or_after(free);
                if week > from {
                    let label = self.label(format!(
                        "{trouble} was seen there, free again from {} {}",
                        crate::calendar::day_text(free),
                        chrono::Datelike::year(&free)
                    ));
                    let until = (week < to).then_some(week);
                    way.barred.push(Barred { bed, why: Bar::Break { group: way.groups[0], until, label } });
                }
                from = from.max(week);
            }
            if let Some(clean) = suit::clean_from(place, crop, day) {
                let week = starts
                    .begins
                    .iter()
                    .zip(&starts.sown)
                    .find(|(_, s)| s.dates.first_pick.is_none_or(|p| p >= clean))
                    .map_or(to, |(b, _)| b.week);
                from = from.max(week);
            }
            if from >= to {
                continue;
            }
            let cost = if drop {
                0
            } else {
                soft(crop, &stays, clock.date(from.midpoint(to.min(from + 40))), rotation)
            };
            let area = self.problem.beds[bed].cells();
            way.places.push(Stand {
                bed,
                from,
                to,
                shapes: shapes.clone(),
                cells,
                costs: if cost > 0 { vec![cost; area] } else { Vec::new() },
            });
        }
    }

    /// The cells of a place that a crop may take, or why it may take none.
    fn suits(&self, place: &Place, crop: &Crop, bed: usize) -> Result<Cells, String> {
        let garden =
            suit::Garden { plan: self.plan, book: self.book, flowers: self.flowers, drop: self.request.drop };
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
fn soft(crop: &Crop, stays: &[past::Stay], day: Date, rotation: crate::crop::Rotation) -> i64 {
    let before = |years: u8| past::free_from(stays, &crop.family, None, years).is_some_and(|free| free > day);
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
