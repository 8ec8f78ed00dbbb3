//! Room that raised plants take before they are set out.

use super::planting::Planting;
use crate::calendar::Week;
use crate::crop::Start;
use std::collections::BTreeMap;

/// Tray cells a plant takes once it is potted on (common practice).
pub const POTTED_CELLS: f64 = 4.0;
/// Sown for each plant that is wanted: a fifth more as spare (common practice).
pub const SPARE: f64 = 1.2;

impl Planting {
    /// Stations sown in the raising place, spare ones among them; 0 where nothing is raised.
    pub fn stations(&self) -> f64 {
        match self.start {
            Start::Raised { per_station, .. } => {
                (f64::from(self.plants) / f64::from(per_station.max(1)) * SPARE).ceil()
            }
            Start::InPlace | Start::Bought | Start::Piece(_) => 0.0,
        }
    }
    /// Tray cells it takes by week, from sowing until it is set out.
    pub fn tray_cells(&self) -> BTreeMap<Week, f64> {
        let mut out = BTreeMap::new();
        let stations = self.stations();
        let dates = self.dates();
        let (Some(sown), Some(set_out)) = (dates.sown, dates.set_out) else { return out };
        if stations <= 0.0 {
            return out;
        }
        let (first, last) = (Week::of(sown), Week::of(set_out));
        for n in 0..first.until(last).clamp(0, 60) {
            let week = first.plus(n);
            let potted = dates.potted.is_some_and(|p| Week::of(p) <= week);
            out.insert(week, stations * if potted { POTTED_CELLS } else { 1.0 });
        }
        out
    }
}
