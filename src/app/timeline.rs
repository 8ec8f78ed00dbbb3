//! The rows of the timeline, and of the other lists one moves through.

use super::model::Model;
use super::view::View;
use crate::calendar::{Date, Season};
use crate::crop::Crop;
use crate::garden::{Block, Layer, PlaceId};
use crate::plan::{Planting, PlantingId};

/// What the rows of the timeline are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grouping {
    /// Plantings under their bed or pot.
    Places,
    /// Plantings under their crop.
    Crops,
    /// Cells under their bed or pot.
    Cells,
}

impl Grouping {
    /// The next one, round about.
    pub const fn next(self) -> Self {
        match self {
            Self::Places => Self::Crops,
            Self::Crops => Self::Cells,
            Self::Cells => Self::Places,
        }
    }
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Places => "by place",
            Self::Crops => "by crop",
            Self::Cells => "by cell",
        }
    }
}

/// A row of the timeline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Row {
    /// A bed or pot.
    Place(PlaceId),
    /// A crop.
    Crop(String),
    /// A planting.
    Planting(PlantingId),
    /// A cell.
    Cell(PlaceId, (u16, u16)),
}

/// Whether a planting takes its cells, or is raised, on any day of a season.
pub fn touches(planting: &Planting, season: Season) -> bool {
    let dates = planting.dates().in_order();
    let (Some(first), last) = (dates.iter().min(), dates.iter().max()) else { return false };
    *first <= season.last() && (planting.ends().is_none() || last.is_some_and(|l| *l >= season.first()))
}

impl Model {
    /// The rows of the timeline.
    pub fn rows(&self) -> Vec<Row> {
        let season = self.season();
        let mut plantings: Vec<&Planting> =
            self.shown().plantings.iter().filter(|p| touches(p, season)).collect();
        plantings.sort_by_cached_key(|p| (p.begins(), p.id));
        let mut places = self.places_of(season);
        if self.alone
            && let Some(bed) = &self.bed
        {
            places.retain(|p| p == bed);
            plantings.retain(|p| p.place == *bed);
        }
        let mut out = Vec::new();
        match self.grouping {
            Grouping::Places => {
                for place in places {
                    out.push(Row::Place(place.clone()));
                    out.extend(plantings.iter().filter(|p| p.place == place).map(|p| Row::Planting(p.id)));
                }
            }
            Grouping::Crops => {
                let mut names: Vec<&str> = plantings.iter().map(|p| p.name.as_str()).collect();
                names.sort_unstable();
                names.dedup();
                for name in names {
                    out.push(Row::Crop(name.to_owned()));
                    out.extend(plantings.iter().filter(|p| p.name == name).map(|p| Row::Planting(p.id)));
                }
            }
            Grouping::Cells => {
                for id in places {
                    let Some(place) = self.plan.place(&id) else { continue };
                    out.push(Row::Place(id.clone()));
                    let whole = place.whole(self.plan.settings.cell);
                    out.extend(whole.cells().map(|cell| Row::Cell(id.clone(), cell)));
                }
            }
        }
        out
    }
    /// Beds and pots that are there on any day of a season, from north-west to south-east.
    pub fn places_of(&self, season: Season) -> Vec<PlaceId> {
        let (first, last) = (season.first(), season.last());
        let mut out: Vec<_> = self
            .plan
            .places
            .iter()
            .filter(|p| p.since <= last && p.until.is_none_or(|u| u > first))
            .map(|p| (self.footprint(p).at, p.id.clone()))
            .map(|(at, id)| ((at.y, at.x), id))
            .collect();
        out.sort();
        out.into_iter().map(|(_, id)| id).collect()
    }
    /// What stands in a cell in a season, the earliest first.
    pub fn through<'a>(&'a self, place: &'a PlaceId, cell: (u16, u16), season: Season) -> Vec<&'a Planting> {
        let mut out: Vec<&Planting> = self
            .shown()
            .plantings_in(place)
            .filter(|p| p.block.holds(cell.0, cell.1) && touches(p, season))
            .collect();
        out.sort_by_key(|p| (p.layer, p.begins(), p.id));
        out
    }
    /// The row of the timeline the cursor is on.
    pub fn row(&self) -> Option<Row> {
        self.rows().into_iter().nth(self.line(View::Weeks))
    }
    /// The planting the cursor of the timeline is on: its row, or what stands in the row's cell in the shown week.
    pub fn row_planting(&self) -> Option<&Planting> {
        match self.row()? {
            Row::Planting(id) => self.shown().planting(id),
            Row::Cell(place, cell) => self.standing(&place, cell, Layer::Main),
            Row::Place(_) | Row::Crop(_) => None,
        }
    }

    /// Crops of the book that answer the search, best first; where nothing is searched all by name, or those that fit,
    /// the first to begin first.
    pub fn found(&self) -> Vec<&Crop> {
        if self.find.trim().is_empty() {
            if let Some(fits) = &self.narrowed {
                return fits.crops.iter().filter_map(|(id, _)| self.book.get(id)).collect();
            }
            let mut out: Vec<&Crop> = self.book.crops().collect();
            out.sort_by(|a, b| (&a.name, &a.id).cmp(&(&b.name, &b.id)));
            return out;
        }
        let fits = |crop: &&Crop| self.narrowed.as_ref().is_none_or(|f| f.dates(&crop.id).is_some());
        self.book.search(&self.find).into_iter().map(|hit| hit.crop).filter(fits).collect()
    }
    /// The line of a view the cursor is on.
    pub fn line(&self, view: View) -> usize {
        self.lines.get(&view).copied().unwrap_or(0)
    }
    /// Lines of a view one can go to.
    pub fn count(&self, view: View) -> usize {
        match view {
            View::Weeks => self.rows().len(),
            View::Wishes => self.plan.wishes.len(),
            View::Findings => self.reckoned.findings.len(),
            View::Record => self.record_rows().len(),
            View::Book => self.found().len(),
            View::Jobs => self.jobs.len(),
            View::Ground | View::Bed | View::Needs => 0,
        }
    }
}

/// "B2-C3 of Long box" in short: the block and the name of its place.
pub fn where_words(model: &Model, place: &PlaceId, block: Block) -> String {
    let name = model.plan.place(place).map_or_else(|| place.to_string(), |p| p.name.clone());
    format!("{name} {block}")
}

/// A row of the record: a place, or a cell of it.
pub type Soil = (PlaceId, Option<(u16, u16)>);

impl Model {
    /// The rows of the record: the beds and pots, or the cells of one of them.
    pub fn record_rows(&self) -> Vec<Soil> {
        if let Some(place) = self.cells_of.as_ref().and_then(|id| self.plan.place(id)) {
            let whole = place.whole(self.plan.settings.cell);
            return whole.cells().map(|cell| (place.id.clone(), Some(cell))).collect();
        }
        self.places_of(self.season()).into_iter().map(|id| (id, None)).collect()
    }
    /// The row of the record the cursor is on.
    pub fn record_row(&self) -> Option<Soil> {
        self.record_rows().into_iter().nth(self.line(View::Record))
    }
    /// What stood or will stand in a cell of a place in a season; what was recorded without its cells stood in all.
    pub fn stays_in(&self, (place, cell): &Soil, season: Season) -> Vec<Stay> {
        let mut out = self.stays(place, season);
        out.retain(|s| s.took(*cell));
        out
    }
}

/// One past or coming stay in a soil.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stay {
    /// What stood there: a crop, a family, or nothing.
    pub name: String,
    /// Two letters of the crop; none where only a family is known.
    pub code: Option<String>,
    /// The family; none where nothing stood there.
    pub family: Option<String>,
    /// First day.
    pub from: Date,
    /// Last day; none while it stands for years.
    pub to: Option<Date>,
    /// From the record of the past, not from a planting.
    pub recorded: bool,
    /// The cells it took; none: somewhere in the place, or all over it.
    pub block: Option<Block>,
}

impl Stay {
    /// Whether it lies in a season on any day.
    pub fn touches(&self, season: Season) -> bool {
        self.from <= season.last() && self.to.is_none_or(|to| to >= season.first())
    }
    /// Whether it took a cell, or all cells where none is named.
    pub fn took(&self, cell: Option<(u16, u16)>) -> bool {
        cell.is_none_or(|(row, col)| self.block.is_none_or(|b| b.holds(row, col)))
    }
}

impl Model {
    /// What stood or will stand in a place in a season, the earliest first. Empty: nothing is known.
    pub fn stays(&self, place: &PlaceId, season: Season) -> Vec<Stay> {
        let mut out = self.all_stays(place);
        out.retain(|s| s.touches(season));
        out
    }
    /// The same in every season.
    pub fn all_stays(&self, place: &PlaceId) -> Vec<Stay> {
        let mut out: Vec<Stay> = Vec::new();
        for past in self.plan.record.iter().filter(|p| p.place == *place) {
            let (name, code) = match &past.stood {
                crate::plan::Stood::Crop { crop, .. } => {
                    let entry = self.book.get(crop);
                    (
                        entry.map_or_else(|| crop.to_string(), |c| c.name.clone()),
                        entry.map(|c| c.code.clone()),
                    )
                }
                crate::plan::Stood::Family(family) => {
                    let common = self.book.family(family).map_or(family, |f| &f.common);
                    (common.clone(), None)
                }
                crate::plan::Stood::Nothing => (String::from("nothing"), None),
            };
            let family = past.family().map(str::to_owned);
            out.push(Stay {
                name,
                code,
                family,
                from: past.from,
                to: Some(past.to),
                recorded: true,
                block: past.block,
            });
        }
        for planting in self.shown().plantings_in(place) {
            let Some(from) = planting.begins() else { continue };
            let to = planting.ends();
            let code = self.book.get(&planting.crop).map(|c| c.code.clone());
            let family = Some(planting.family.clone());
            out.push(Stay {
                name: planting.name.clone(),
                code,
                family,
                from,
                to,
                recorded: false,
                block: Some(planting.block),
            });
        }
        out.sort_by(|a, b| (a.from, &a.name).cmp(&(b.from, &b.name)));
        out
    }
}
