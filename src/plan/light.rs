//! Hours of direct sun on every cell, behind obstacles and the tall plantings of a season.

use super::{Plan, Planting};
use crate::calendar::{ClimateDay, Date, Season, days_between, plus};
use crate::crop::Book;
use crate::garden::{self, Kind, Place};
use crate::site::shade::{Block, LightClass, Obstacle, Spot, SunPaths, season_mean};
use crate::site::{Monthly, SiteYear};
use crate::units::num;

/// Temperature of the soil from which the growing season of a cell is counted, degrees Celsius.
const SEASON: f64 = 8.0;
/// Height above the soil from which a planting counts as tall, metres: 2 ft.
const TALL: f64 = 0.6;

/// Hours of direct sun on the cells of a place.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceLight<'a> {
    /// The place.
    pub place: &'a Place,
    /// Rows and columns of its cells.
    pub grid: (u16, u16),
    /// Hours a day by month for each cell, row by row from the north-west.
    pub cells: Vec<Monthly>,
    /// Mean hours a day over the growing season for each cell; what the grower counted, where there is such a count.
    pub season: Vec<f64>,
    /// Tall plantings whose shadows are in the figures.
    pub tall: usize,
}

impl PlaceLight<'_> {
    /// The class of light of a cell over the growing season.
    pub fn class(&self, cell: usize) -> LightClass {
        LightClass::of(self.season.get(cell).copied().unwrap_or(0.0))
    }
    /// Cells in rectangles of the same figures, to a quarter of an hour in every month: the rectangle and the number
    /// of its first cell.
    pub fn alike(&self) -> Vec<(garden::Block, usize)> {
        let like =
            |a: usize, b: usize| self.cells[a].iter().zip(&self.cells[b]).all(|(a, b)| (a - b).abs() < 0.25);
        let mut out: Vec<(garden::Block, usize)> = Vec::new();
        for row in 0..self.grid.0 {
            let mut col = 0;
            while col < self.grid.1 {
                let at = |col: u16| usize::from(row) * usize::from(self.grid.1) + usize::from(col);
                let first = at(col);
                let wide = (col..self.grid.1).take_while(|c| like(first, at(*c))).count();
                let cols = num::small(wide);
                // A stretch like the one above it goes on downwards.
                let above = out.iter_mut().find(|(block, cell)| {
                    block.col == col
                        && block.cols == cols
                        && block.row + block.rows == row
                        && like(*cell, first)
                });
                match above {
                    Some((block, _)) => block.rows += 1,
                    None => out.push((garden::Block { row, col, rows: 1, cols }, first)),
                }
                col += cols;
            }
        }
        out
    }
}

/// The day from which a tall planting throws its shadow: half way to its first picking.
fn tall_from(planting: &Planting) -> Option<Date> {
    let begin = planting.begins()?;
    let first = planting.dates().first_pick.or_else(|| planting.ends()).unwrap_or_else(|| plus(begin, 60));
    Some(plus(begin, days_between(begin, first).max(0) / 2))
}

impl Plan {
    /// Height of the soil of a place above the ground, metres.
    fn rim(place: &Place) -> f64 {
        match place.kind {
            Kind::Box | Kind::Pot => place.depth().m(),
            Kind::OpenBed | Kind::FlowerBed => 0.0,
        }
    }

    /// What throws shadows in a season: the site's obstacles, and plantings that stand at least 60 cm above their
    /// soil, from half way to their first picking until they are cleared.
    fn shadows(&self, book: &Book, season: Season) -> (Vec<Block>, usize) {
        let mut out: Vec<Block> = self.site.obstacles.iter().map(Obstacle::block).collect();
        let fixed = out.len();
        for planting in &self.plantings {
            let (Some(crop), Some(place), Some(from)) =
                (book.get(&planting.crop), self.place(&planting.place), tall_from(planting))
            else {
                continue;
            };
            let to = planting.ends().map_or_else(|| season.last(), |end| end.min(season.last()));
            let from = from.max(season.first());
            if crop.height.m() < TALL || planting.failed.is_some() || from > to {
                continue;
            }
            let (at, (rows, cols), size) = (place.at_on(from), place.grid(self.settings.cell), place.size());
            let edge = |at: f64, size: f64, cells: u16, n: u16| {
                at + size * f64::from(n.min(cells)) / f64::from(cells.max(1))
            };
            let block = planting.block;
            let east = |n: u16| edge(at.x.m(), size.0.m(), cols, n);
            let south = |n: u16| edge(at.y.m(), size.1.m(), rows, n);
            let stands = (days_between(from, to) < 360).then(|| (ClimateDay::of(from), ClimateDay::of(to)));
            out.push(Block::planting(
                (east(block.col), east(block.col.saturating_add(block.cols))),
                (south(block.row), south(block.row.saturating_add(block.rows))),
                Self::rim(place) + crop.height.m(),
                stands,
            ));
        }
        let tall = out.len() - fixed;
        (out, tall)
    }

    /// Hours of direct sun a day on every cell of every place that stands in a season, by month: on its soil, behind
    /// the site's obstacles and the season's tall plantings.
    pub fn light(&self, book: &Book, year: &SiteYear, season: Season) -> Vec<PlaceLight<'_>> {
        let (blocks, tall) = self.shadows(book, season);
        let paths = self.sun_paths(year);
        let there = |p: &&Place| p.since <= season.last() && p.until.is_none_or(|u| u > season.first());
        self.places
            .iter()
            .filter(there)
            .map(|place| {
                let grid = place.grid(self.settings.cell);
                let cells: Vec<Monthly> = (0..grid.0)
                    .flat_map(|row| (0..grid.1).map(move |col| (row, col)))
                    .map(|cell| paths.hours(self.spot(place, cell, season), &blocks))
                    .collect();
                let season = cells
                    .iter()
                    .map(|hours| {
                        place.sun_hours.map_or_else(|| season_mean(hours, &year.soil, SEASON), f64::from)
                    })
                    .collect();
                PlaceLight { place, grid, cells, season, tall }
            })
            .collect()
    }

    /// [`Plan::light`] for one cell of a place: hours a day by month.
    pub fn light_at(
        &self,
        book: &Book,
        year: &SiteYear,
        season: Season,
        place: &Place,
        cell: (u16, u16),
    ) -> Monthly {
        self.sun_paths(year).hours(self.spot(place, cell, season), &self.shadows(book, season).0)
    }

    /// Mean hours of direct sun a day over the growing season on one cell of a place; what the grower counted, where
    /// there is such a count.
    pub fn sun_on(
        &self,
        book: &Book,
        year: &SiteYear,
        season: Season,
        place: &Place,
        cell: (u16, u16),
    ) -> f64 {
        let shaded = || season_mean(&self.light_at(book, year, season, place, cell), &year.soil, SEASON);
        place.sun_hours.map_or_else(shaded, f64::from)
    }

    /// The sun's ways over the site plan as it is drawn.
    fn sun_paths(&self, year: &SiteYear) -> SunPaths {
        SunPaths::new(year.lat, self.site.plan_turn)
    }

    /// The middle of a cell, on its soil, where the place stands at the end of a season.
    fn spot(&self, place: &Place, (row, col): (u16, u16), season: Season) -> Spot {
        let (rows, cols) = place.grid(self.settings.cell);
        let (at, size) = (place.at_on(season.last()), place.size());
        let part = |n: u16, of: u16| (f64::from(n) + 0.5) / f64::from(of.max(1));
        Spot {
            x: at.x.m() + size.0.m() * part(col, cols),
            y: at.y.m() + size.1.m() * part(row, rows),
            z: Self::rim(place),
        }
    }
}
