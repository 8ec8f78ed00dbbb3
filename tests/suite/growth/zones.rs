//! The zone tables of the US Department of Agriculture's The City Home Garden (Farmers' Bulletin 1044, 1919), against
//! the program's own windows.
//!
//! The zones are bands of average frost dates; each is stood for by a preset with the middle of its band set over it.

mod fall;
mod spring;

use catchcrop::calendar::MonthDay;
use catchcrop::site::{SiteSpec, SiteYear};

/// A published table: its header and its rows, the line of its source left out.
struct Table {
    header: Vec<&'static str>,
    rows: Vec<Vec<&'static str>>,
}

impl Table {
    fn of(text: &'static str) -> Self {
        let mut lines =
            text.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect());
        Self { header: lines.next().unwrap(), rows: lines.collect() }
    }
    /// The cell of a crop in a zone.
    fn cell(&self, crop: &str, zone: &str) -> &'static str {
        let row = self.rows.iter().find(|row| row[0] == crop).unwrap_or_else(|| panic!("no row {crop}"));
        row[self.header.iter().position(|head| *head == zone).unwrap()]
    }
}

/// A climate with its average frost dates replaced.
fn zone(preset: &str, last: Option<&str>, first: Option<&str>) -> SiteYear {
    let read = |d: Option<&str>| d.map(|d| d.parse::<MonthDay>().unwrap());
    let spec = SiteSpec::from_preset(preset).unwrap();
    SiteYear::new(&SiteSpec { last_frost: read(last), first_frost: read(first), ..spec }).unwrap()
}

/// How a table fares: count, median and worst absolute error, share within so many days, bias.
pub(super) struct Fit {
    pub(super) rows: usize,
    pub(super) median: f64,
    pub(super) worst: f64,
    pub(super) bias: f64,
    errors: Vec<f64>,
}

impl Fit {
    pub(super) fn of(errors: &[f64]) -> Self {
        let mut sizes: Vec<f64> = errors.iter().map(|e| e.abs()).collect();
        sizes.sort_by(f64::total_cmp);
        let rows = sizes.len();
        let median = if rows.is_multiple_of(2) {
            sizes[rows / 2 - 1].midpoint(sizes[rows / 2])
        } else {
            sizes[rows / 2]
        };
        Self {
            rows,
            median,
            worst: sizes[rows - 1],
            bias: errors.iter().sum::<f64>() / rows as f64,
            errors: sizes,
        }
    }
    pub(super) fn within(&self, days: f64) -> f64 {
        self.errors.iter().filter(|e| **e <= days).count() as f64 / self.rows as f64
    }
    /// What it says for people.
    pub(super) fn line(&self, what: &str) -> String {
        format!(
            "{what}: {} rows, median {} d, worst {} d, bias {:+.1} d, within 16 d {:.0} %",
            self.rows,
            self.median,
            self.worst,
            self.bias,
            100.0 * self.within(16.0)
        )
    }
}
