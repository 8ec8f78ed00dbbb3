//! The book against the tables of the handbooks, row by row. A figure matches a row, or the book keeps the row's
//! figure as another source's; anything else fails. Where the tables are not beside the project, nothing is compared
//! and that is said.

mod climate;
mod lists;
mod planting;
mod seeds;
mod share;
mod yields;

use super::names::NAMES;
use crate::support::shared;
use catchcrop::crop::{CountedFrom, Crop, CropId};
use catchcrop::store;
use catchcrop::units::{Length, LengthUnit};
use std::collections::{BTreeMap, BTreeSet};

type Row = BTreeMap<String, String>;

/// A table of the handbook; none where it is not beside the project.
fn table(name: &str) -> Option<Vec<Row>> {
    let Some(path) = shared(&format!("reference/handbook/{name}")) else {
        println!("{name}: not beside the project, nothing compared");
        return None;
    };
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{name}: {e}"));
    let mut lines = text.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty());
    let head: Vec<&str> = lines.next()?.split('\t').collect();
    let row = |line: &str| {
        let cells = line.split('\t').chain(std::iter::repeat(""));
        head.iter().zip(cells).map(|(h, c)| ((*h).to_owned(), c.trim().to_owned())).collect()
    };
    Some(lines.map(row).collect())
}

/// "1 1/2-2", "48 (hills)", "10 to 14": the numbers of a range, least and greatest.
fn range(text: &str) -> Option<(f64, f64)> {
    let text = text.split(" (").next()?.replace(" to ", "-");
    let part = |p: &str| -> Option<f64> {
        p.split_whitespace().try_fold(0.0, |sum, word| {
            let value = match word.split_once('/') {
                Some((a, b)) => a.parse::<f64>().ok()? / b.parse::<f64>().ok()?,
                None => word.parse().ok()?,
            };
            Some(sum + value)
        })
    };
    let parts: Vec<f64> = text.split('-').filter(|p| !p.is_empty()).map(part).collect::<Option<_>>()?;
    Some((*parts.first()?, *parts.last()?))
}

fn inches(length: Length) -> f64 {
    length.in_unit(LengthUnit::In)
}
fn overlap(a: (f64, f64), b: (f64, f64)) -> bool {
    a.0 <= b.1 + 1e-9 && b.0 <= a.1 + 1e-9
}
fn of(id: &str) -> &'static Crop {
    store::book().get(&CropId::new(id)).unwrap_or_else(|| panic!("the book has no '{id}'"))
}

/// Days to maturity are a row's: counted from the same day, the ranges overlap, the middles within 15 % (or 5 days).
fn days_match(crop: &Crop, theirs: (f64, f64), from_sowing: bool) -> bool {
    let basis = (crop.days.from == CountedFrom::Sowing) == from_sowing;
    let middle = f64::midpoint(theirs.0, theirs.1);
    let near = (crop.days.usual() - middle).abs() <= (0.15 * middle).max(5.0);
    basis && near && overlap((f64::from(crop.days.min), f64::from(crop.days.max)), theirs)
}

/// What comparing with a table found.
#[derive(Default)]
struct Tally {
    rows: usize,
    here: usize,
    same: usize,
    kept: usize,
    wrong: Vec<String>,
    /// Figures that match a row.
    published: BTreeSet<(CropId, &'static str)>,
}

impl Tally {
    /// The crop of a row; rows of plants the book does not grow are only counted.
    fn crop(&mut self, name: &str) -> Option<&'static Crop> {
        self.rows += 1;
        let Some((_, id)) = NAMES.iter().find(|(n, _)| *n == name) else {
            self.wrong.push(format!("'{name}' is not in the list of names"));
            return None;
        };
        if id.is_empty() {
            return None;
        }
        self.here += 1;
        Some(of(id))
    }
    /// Judges a figure: it matches, or the row's own words stand in `differs` under that code. A figure that names
    /// the code as its only source has to match.
    fn judge(&mut self, crop: &Crop, figure: &'static str, code: &str, matches: bool, says: &str) {
        let cited = crop.sources(figure) == [code];
        let first = says.split(|c: char| !(c.is_ascii_digit() || c == '.')).next().unwrap_or_default();
        let words = |d: &str| d.contains(says) || (!first.is_empty() && d.contains(first));
        let kept = crop.differs.iter().any(|d| d.figure == figure && d.src == code && words(&d.says));
        if matches {
            self.same += 1;
            self.published.insert((crop.id.clone(), figure));
        } else if kept && !cited {
            self.kept += 1;
        } else {
            let ours = if cited { "names that source but differs from" } else { "neither matches nor keeps" };
            self.wrong.push(format!("{} {figure}: {ours} {code}: {says}", crop.id));
        }
    }
    fn report(&self, table: &str, tolerance: &str) {
        let Self { rows, here, same, kept, .. } = self;
        println!("{table}: {rows} rows, {here} of them crops of the book");
        println!("    {same} figures match ({tolerance}), {kept} are kept as another source's");
        assert!(self.wrong.is_empty(), "{table}:\n{}", self.wrong.join("\n"));
    }
}
