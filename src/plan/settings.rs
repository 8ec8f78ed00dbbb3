//! How the grower wants things done.

use super::minutes::Minutes;
use crate::calendar::{Date, MonthDay, Weekday};
use crate::crop::{Book, Crop, Rotation};
use crate::growth::{Method, Risk};
use crate::units::{Length, LengthUnit, Measure, Temperature};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Weeks in which nobody is there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Away {
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
}

/// A place where seedlings are raised.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RaisingPlace {
    /// "windowsill".
    pub name: String,
    /// Mean temperature there.
    pub temperature: Temperature,
    /// Tray cells it holds.
    pub cells: u16,
    /// Enough light to keep seedlings there until they go out.
    pub light: bool,
}

/// The grower's own breaks: by crop id, family or trouble id.
pub type RotationSetting = BTreeMap<String, Rotation>;

/// How the grower wants things done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of its own in the file")]
pub struct Settings {
    /// What units are shown.
    pub measure: Measure,
    /// Side of a cell.
    pub cell: Length,
    /// The weekday on which most is done.
    pub garden_day: Weekday,
    /// First day of a season; none: the site's.
    pub season_start: Option<MonthDay>,
    /// Frost risk taken.
    pub risk: Risk,
    /// How maturity is computed.
    pub method: Method,
    /// Hours a week the grower has; none: not counted.
    pub hours_a_week: Option<f32>,
    /// How long jobs take.
    pub minutes: Minutes,
    /// Weeks away.
    pub away: Vec<Away>,
    /// Breaks that differ from the book's.
    pub rotation: RotationSetting,
    /// Rotation is judged by the cell, not by the whole body of soil.
    pub rotation_by_cell: bool,
    /// Notes of tradition without a trial are shown.
    pub tradition: bool,
    /// Load a balcony or deck may bear as the owner or an engineer said, kg/m2.
    pub load_limit: Option<f32>,
    /// Area of that balcony or deck, m2.
    pub deck_area: Option<f32>,
    /// Gaps are filled with catch crops.
    pub catch_crops: bool,
    /// What is left is filled with cover crops.
    pub cover_crops: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            measure: Measure::Metric,
            cell: Length::new(30.0, LengthUnit::Cm),
            garden_day: Weekday::Sat,
            season_start: None,
            risk: Risk::Usual,
            method: Method::Heat,
            hours_a_week: None,
            minutes: Minutes::default(),
            away: Vec::new(),
            rotation: BTreeMap::new(),
            rotation_by_cell: false,
            tradition: false,
            load_limit: None,
            deck_area: None,
            catch_crops: true,
            cover_crops: true,
        }
    }
}

impl Settings {
    /// Defaults for a measure: 1 ft or 30 cm cells.
    pub fn for_measure(measure: Measure) -> Self {
        let cell = match measure {
            Measure::Us => Length::new(1.0, LengthUnit::Ft),
            Measure::Metric => Length::new(30.0, LengthUnit::Cm),
        };
        Self { measure, cell, ..Self::default() }
    }
    /// The break that holds for a crop here: the grower's for the crop, for what it is a variety of or for its
    /// family, else the book's.
    pub fn rotation_of(&self, crop: &Crop, book: &Book) -> Rotation {
        [crop.id.as_str(), crop.base().as_str(), crop.family.as_str()]
            .iter()
            .find_map(|key| self.rotation.get(*key).copied())
            .unwrap_or_else(|| book.rotation(crop))
    }
    /// Whether the grower is away on a date.
    pub fn is_away(&self, date: Date) -> bool {
        self.away.iter().any(|a| a.from <= date && date <= a.to)
    }
}
