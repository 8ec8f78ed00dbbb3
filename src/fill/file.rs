//! Problem files: JSON in whole numbers.
//!
//! [`read`] takes two kinds. A *full* file ([`full`]) holds all of a problem and is what [`write`] writes. A *compact*
//! file (this module) states beds with their past by cell, crops with starts, and wishes by crop; it is meant for
//! comparing solvers:
//!
//! | field | meaning |
//! |---|---|
//! | `weeks`, `season` | horizon; first week and week after the last of the growing season |
//! | `families`, `hard_rotation` | names; free years a cell must have had before a family returns |
//! | `beds[]` | `h`, `w`, `vol` (litres; 999 = no pot), `sun` (1 to 3), `tag` (1 = flowers only), `history` by cell: families one, two and three years ago, -1 = none |
//! | `crops[]` | `family`, `h`, `w`, `sun`, `pot` (least litres; 0 = never in a pot), `flower`, `tray` and `tray_weeks` (raising before the start), `lab_plant`, `lab_harvest` (minutes), `starts`: `[week, weeks taken, [[week, amount], ...]]` |
//! | `wishes[]` | `crop`, `prio`, `first`, `bucket_weeks`, `buckets`, `want`, `extra`, `v1`, `v2` (milli-points for a unit up to `want` and beyond) |
//! | `labour_cap`, `tray_cap` | per week |
//! | `rot_pen`, `repeat_pen` | milli-points a cell for a family of one, two, three years ago; for each repeat in a cell |
//! | `neighbour`, `shade` | milli-points per shared edge and week, by crop and crop; read when asked for |
//! | `catch` | fillers: `name`, `family`, `base` (thermal weeks to harvest) |
//! | `locked` | settled plantings: `crop`, `start` (index), `bed`, `r`, `c` |
//!
//! In a pot a crop takes one cell whatever its block elsewhere.

mod full;

use super::cells::Cells;
use super::problem::{
    Bed, Bucket, Fixed, Group, LONGEST, Layer, Near, Place, Problem, ProblemError, Reach, Role, Shape, Side,
    Start, Supply, Use, Way, Wish, weeks,
};
use crate::units::num::{real, signed};
use full::Full;
use serde::Deserialize;
use std::collections::BTreeMap;
use thiserror::Error;

/// Why a problem file was not taken.
#[derive(Debug, Error)]
pub enum FileError {
    /// Not JSON of this form; the words say where and what was expected.
    #[error("the problem file cannot be read: {0}")]
    Json(#[from] serde_json::Error),
    /// JSON, but no problem.
    #[error("the problem file makes no sense: {0}")]
    Problem(#[from] ProblemError),
    /// Neither of the kinds there are.
    #[error("the problem file is of the kind '{0}'; it should be 'full', or a compact file without a kind")]
    Kind(String),
    /// An index points nowhere.
    #[error("the problem file names {0} {1}, which it does not have")]
    Unknown(&'static str, i64),
}

/// Reads a problem file of either kind; `near` adds the neighbour and shade terms of a compact one.
///
/// # Errors
/// When the text is not such a file or contradicts itself.
pub fn read(text: &str, near: bool) -> Result<Problem, FileError> {
    let kind: Kind = serde_json::from_str(text)?;
    let problem = match kind.kind.as_deref() {
        Some("full") => serde_json::from_str::<Full>(text)?.problem(),
        Some(other) => return Err(FileError::Kind(other.to_owned())),
        None => serde_json::from_str::<Compact>(text)?.problem(near)?,
    };
    problem.validate()?;
    Ok(problem)
}

/// Writes a problem as a full file.
///
/// # Errors
/// None in practice: the fields are numbers and text.
pub fn write(problem: &Problem) -> Result<String, FileError> {
    Ok(serde_json::to_string(&Full::of(problem))?)
}

#[derive(Debug, Deserialize)]
struct Kind {
    kind: Option<String>,
}

#[derive(Debug, Deserialize)]
struct Compact {
    weeks: usize,
    season: (usize, usize),
    families: Vec<String>,
    hard_rotation: BTreeMap<String, usize>,
    beds: Vec<CompactBed>,
    crops: Vec<CompactCrop>,
    wishes: Vec<CompactWish>,
    labour_cap: i64,
    tray_cap: i64,
    rot_pen: Vec<i64>,
    repeat_pen: i64,
    #[serde(default)]
    neighbour: Vec<Vec<i64>>,
    #[serde(default)]
    shade: Vec<Vec<i64>>,
    #[serde(default)]
    catch: Vec<CompactCatch>,
    #[serde(default)]
    locked: Vec<CompactLock>,
}

#[derive(Debug, Deserialize)]
struct CompactBed {
    h: usize,
    w: usize,
    vol: i64,
    tag: i64,
    sun: i64,
    history: Vec<Vec<i64>>,
}

#[derive(Debug, Deserialize)]
struct CompactCrop {
    name: String,
    family: usize,
    h: usize,
    w: usize,
    sun: i64,
    pot: i64,
    tray: i64,
    tray_weeks: usize,
    flower: i64,
    lab_plant: i64,
    lab_harvest: i64,
    starts: Vec<CompactStart>,
}

#[derive(Debug, Deserialize)]
struct CompactWish {
    crop: usize,
    prio: i64,
    first: usize,
    bucket_weeks: usize,
    buckets: usize,
    want: i64,
    extra: i64,
    v1: i64,
    v2: i64,
}

#[derive(Debug, Deserialize)]
struct CompactCatch {
    name: String,
    family: usize,
    base: f64,
}

#[derive(Debug, Deserialize)]
struct CompactLock {
    crop: usize,
    start: usize,
    bed: usize,
    r: usize,
    c: usize,
}

/// Week, weeks taken, and (week, amount) of its harvest.
type CompactStart = (usize, usize, Vec<(usize, i64)>);

/// Supplies of a compact file.
const LABOUR: usize = 0;
const TRAYS: usize = 1;

impl Compact {
    fn problem(&self, near: bool) -> Result<Problem, FileError> {
        let mut problem = Problem {
            weeks: self.weeks,
            season: weeks(self.season.0, self.season.1),
            point: 1000,
            beds: self.beds.iter().enumerate().map(|(k, bed)| self.bed(k, bed)).collect(),
            groups: self.families.iter().map(|name| self.group(name)).collect(),
            supplies: vec![
                Supply { name: "work".into(), there: vec![self.labour_cap; self.weeks] },
                Supply { name: "raising".into(), there: vec![self.tray_cap; self.weeks] },
            ],
            ..Problem::default()
        };
        let mut wish_of = BTreeMap::new();
        for (k, wish) in self.wishes.iter().enumerate() {
            let crop =
                self.crops.get(wish.crop).ok_or_else(|| FileError::Unknown("crop", signed(wish.crop)))?;
            wish_of.insert(wish.crop, k);
            let stretch = |b: usize| Bucket {
                from: wish.first + b * wish.bucket_weeks,
                to: (wish.first + (b + 1) * wish.bucket_weeks).min(self.weeks),
                want: wish.want,
                extra: wish.extra,
                value: wish.v1,
                beyond: wish.v2,
            };
            problem.wishes.push(Wish {
                name: crop.name.clone(),
                importance: wish.prio,
                buckets: (0..wish.buckets).map(stretch).collect(),
            });
        }
        for (k, crop) in self.crops.iter().enumerate() {
            problem.ways.push(self.way(crop, wish_of.get(&k).copied()));
        }
        // One point in a hundred of all that is asked for.
        problem.good_most = self.wishes.iter().map(|wish| wish.prio * problem.point).sum();
        if near {
            problem.neighbours = terms(&self.neighbour);
            problem.shades = terms(&self.shade);
        }
        let crops = self.crops.len();
        let listed = |t: &Near| t.a < crops && t.b < crops;
        problem.neighbours.retain(listed);
        problem.shades.retain(listed);
        for filler in &self.catch {
            problem.ways.push(self.filler(filler));
        }
        for lock in &self.locked {
            let fixed = self.fixed(lock, &problem, wish_of.get(&lock.crop).copied())?;
            // The file counts settled work against the weekly limits; the problem lists what is left.
            let crop = &self.crops[lock.crop];
            for item in Self::uses(crop, &crop.starts[lock.start]) {
                if item.week < self.weeks {
                    problem.supplies[item.supply].there[item.week] -= item.planting;
                }
            }
            problem.fixed.push(fixed);
        }
        Ok(problem)
    }

    fn bed(&self, k: usize, bed: &CompactBed) -> Bed {
        let same =
            |b: &CompactBed| (b.h, b.w, b.vol, b.sun, b.tag) == (bed.h, bed.w, bed.vol, bed.sun, bed.tag);
        Bed {
            name: format!("bed {k}"),
            height: bed.h,
            width: bed.w,
            like: self.beds.iter().position(same).unwrap_or(k),
            sunward: Side::Down,
            gone: 0,
        }
    }

    fn group(&self, name: &str) -> Group {
        let hard = self.hard_rotation.contains_key(name);
        Group {
            name: name.to_owned(),
            reach: Reach::Cell,
            apart: if hard { LONGEST } else { 0 },
            again: if hard { 0 } else { self.repeat_pen },
        }
    }

    fn way(&self, crop: &CompactCrop, wish: Option<usize>) -> Way {
        let mut sizes = vec![(crop.h, crop.w), (crop.w, crop.h)];
        sizes.dedup();
        let single = crop.h * crop.w == 1;
        let mut shapes = vec![Shape { sizes, plants: 1 }];
        if !single {
            shapes.push(Shape { sizes: vec![(1, 1)], plants: 1 });
        }
        let mut places = Vec::new();
        for (k, bed) in self.beds.iter().enumerate() {
            let pot = bed.vol < 999;
            let fits = crop.sun <= bed.sun
                && !(pot && (crop.pot == 0 || crop.pot > bed.vol))
                && !(bed.tag == 1 && crop.flower == 0);
            if fits && let Some(place) = self.place(k, bed, crop.family) {
                let shape = usize::from(pot && !single);
                places.push(Place { shapes: vec![shape], ..place });
            }
        }
        Way {
            name: crop.name.clone(),
            wish,
            role: Role::Wished,
            layer: Layer::Main,
            groups: vec![crop.family],
            shapes,
            starts: crop.starts.iter().map(|start| Self::start(crop, start)).collect(),
            places,
            barred: Vec::new(),
        }
    }

    /// The cells of a bed a family may take, with what its past costs there.
    fn place(&self, k: usize, bed: &CompactBed, family: usize) -> Option<Place> {
        let years =
            self.families.get(family).and_then(|name| self.hard_rotation.get(name)).copied().unwrap_or(0);
        let mut place = Place { bed: k, from: 0, to: self.weeks, ..Place::default() };
        for cell in 0..bed.h * bed.w {
            let past = bed.history.get(cell).map_or(&[][..], Vec::as_slice);
            let ago: Vec<usize> = (0..past.len()).filter(|&y| past[y] == signed(family)).collect();
            if ago.iter().all(|&y| y >= years) {
                place.cells.insert(cell);
            }
            place.costs.push(ago.iter().filter_map(|&y| self.rot_pen.get(y)).copied().max().unwrap_or(0));
        }
        (!place.cells.is_empty()).then_some(place)
    }

    fn uses(crop: &CompactCrop, start: &CompactStart) -> Vec<Use> {
        let one = |supply, week, planting| Use { supply, week, planting, plant: 0 };
        let mut uses = vec![one(LABOUR, start.0, crop.lab_plant)];
        uses.extend(start.2.iter().map(|&(week, _)| one(LABOUR, week, crop.lab_harvest)));
        if crop.tray > 0 {
            uses.extend((start.0.saturating_sub(crop.tray_weeks)..start.0).map(|w| one(TRAYS, w, crop.tray)));
        }
        uses
    }

    fn start(crop: &CompactCrop, start: &CompactStart) -> Start {
        Start {
            week: start.0,
            taken: weeks(start.0, start.0 + start.1),
            open: 0,
            wait: 0,
            harvest: start.2.clone(),
            uses: Self::uses(crop, start),
        }
    }

    fn filler(&self, filler: &CompactCatch) -> Way {
        let (first, last) = self.season;
        let starts = (first..last).filter_map(|week| {
            let (mut heat, mut end) = (0.0, week);
            while heat < filler.base {
                heat += growth(end);
                end += 1;
            }
            let taken = weeks(week, end);
            (end <= last).then(|| Start { week, taken, ..Start::default() })
        });
        let whole = |(bed, b): (usize, &CompactBed)| Place {
            bed,
            from: 0,
            to: self.weeks,
            cells: Cells::first(b.h * b.w),
            ..Place::default()
        };
        Way {
            name: filler.name.clone(),
            role: Role::Catch,
            groups: vec![filler.family],
            shapes: vec![Shape { sizes: vec![(1, 1)], plants: 1 }],
            starts: starts.collect(),
            places: self.beds.iter().enumerate().map(whole).collect(),
            ..Way::default()
        }
    }

    fn fixed(&self, lock: &CompactLock, problem: &Problem, wish: Option<usize>) -> Result<Fixed, FileError> {
        let crop = self.crops.get(lock.crop).ok_or_else(|| FileError::Unknown("crop", signed(lock.crop)))?;
        let start =
            crop.starts.get(lock.start).ok_or_else(|| FileError::Unknown("start", signed(lock.start)))?;
        let bed = self.beds.get(lock.bed).ok_or_else(|| FileError::Unknown("bed", signed(lock.bed)))?;
        let mut gives = BTreeMap::new();
        for &(week, amount) in &start.2 {
            let bucket = |wish: usize| {
                let stretches = &problem.wishes[wish].buckets;
                stretches.iter().position(|b| (b.from..b.to).contains(&week)).map(|b| (wish, b))
            };
            if let Some(key) = wish.and_then(bucket) {
                *gives.entry(key).or_insert(0) += amount;
            }
        }
        let cells = Cells::rectangle(bed.w, lock.r, lock.c, crop.h, crop.w);
        let costs = self.place(lock.bed, bed, crop.family).map(|p| p.costs).unwrap_or_default();
        Ok(Fixed {
            name: crop.name.clone(),
            way: Some(lock.crop),
            layer: Layer::Main,
            groups: vec![crop.family],
            bed: lock.bed,
            cells,
            taken: weeks(start.0, start.0 + start.1),
            open: 0,
            gives: gives.into_iter().map(|((wish, bucket), amount)| (wish, bucket, amount)).collect(),
            cost: cells.iter().filter_map(|cell| costs.get(cell)).sum(),
        })
    }
}

/// Growth in a week from the first of March on, as the compact files assume it (1 = midsummer).
fn growth(week: usize) -> f64 {
    let turn = std::f64::consts::PI * (real(week % 52) - 18.0) / 36.0;
    0.10 + 0.90 * libm::cos(turn).max(0.0)
}

fn terms(matrix: &[Vec<i64>]) -> Vec<Near> {
    let row = |(a, row): (usize, &Vec<i64>)| {
        row.iter()
            .enumerate()
            .filter(|&(_, &value)| value != 0)
            .map(|(b, &value)| Near { a, b, value })
            .collect::<Vec<_>>()
    };
    matrix.iter().enumerate().flat_map(row).collect()
}
