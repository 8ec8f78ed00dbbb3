//! How long jobs take: estimates from memory that the grower edits.

use serde::{Deserialize, Serialize};

/// Minutes of a job: for a planting as a whole, and for each of its plants.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Task {
    /// Minutes a planting.
    pub planting: f32,
    /// Minutes a plant.
    pub plant: f32,
}

impl Task {
    /// So many minutes a planting and a plant.
    pub const fn new(planting: f32, plant: f32) -> Self {
        Self { planting, plant }
    }
    /// Minutes for a planting of so many plants.
    pub fn minutes(self, plants: u16) -> f64 {
        f64::from(self.planting) + f64::from(self.plant) * f64::from(plants)
    }
}

/// Minutes of every job that is counted against the hours of a week. All are estimates from memory.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Minutes {
    /// Sowing in place.
    pub sow: Task,
    /// Sowing indoors.
    pub raise: Task,
    /// Potting on.
    pub pot_on: Task,
    /// Setting out or planting.
    pub set_out: Task,
    /// Watering, weeding and looking after, each week it stands.
    pub care: Task,
    /// Picking, each week of its harvest.
    pub pick: Task,
    /// Clearing.
    pub clear: Task,
}

impl Default for Minutes {
    fn default() -> Self {
        Self {
            sow: Task::new(3.0, 0.05),
            raise: Task::new(4.0, 0.2),
            pot_on: Task::new(2.0, 0.5),
            set_out: Task::new(3.0, 0.5),
            care: Task::new(0.5, 0.02),
            pick: Task::new(2.0, 0.1),
            clear: Task::new(2.0, 0.1),
        }
    }
}
