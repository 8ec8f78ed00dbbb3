//! Potting mix: volume with settling, weight, bags.

use crate::calendar::Date;
use crate::garden::{Place, SOAKED_EARTH, SOAKED_MIX};
use serde::Serialize;

/// Ordered for each litre that is filled, because mix settles: 15 per cent more (common practice).
pub const SETTLING: f64 = 1.15;
/// Litres in a large bag: 2 cubic feet, the usual size of the trade.
pub const BAG: f64 = 56.0;
/// Litres in a cubic foot, and cubic feet in a cubic yard.
pub const CUBIC_FOOT: f64 = 28.316_846_592;
/// See [`CUBIC_FOOT`].
pub const CUBIC_YARD: f64 = 27.0 * CUBIC_FOOT;

/// Mix of a volume to be filled.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Mix {
    /// Litres when settled.
    pub litres: f64,
    /// Litres to order.
    pub order_litres: f64,
    /// Cubic feet to order.
    pub cubic_feet: f64,
    /// Cubic yards to order.
    pub cubic_yards: f64,
    /// Whole bags of 56 litres (2 cubic feet).
    pub bags: u32,
    /// Of the order, litres of compost, least and most: mixed 1:2 to 1:1 with topsoil, or 1:1 with soilless mix
    /// (University of Maryland, filling a raised bed).
    pub compost_litres: (f64, f64),
    /// Weight of it when soaked, kg.
    pub soaked_kg: f64,
}

impl Mix {
    /// Soilless potting mix for so many litres.
    pub fn of(litres: f64) -> Self {
        Self::weighing(litres, SOAKED_MIX)
    }
    /// The filling of a place: potting mix in pots and where the grower said it came fresh, soil elsewhere.
    pub fn filling(place: &Place, on: Date) -> Self {
        let (_, fresh) = place.soil_since(&place.soil_on(on));
        Self::weighing(place.litres(), if place.is_pot() || fresh { SOAKED_MIX } else { SOAKED_EARTH })
    }
    fn weighing(litres: f64, kg: f64) -> Self {
        let order = litres * SETTLING;
        Self {
            litres,
            order_litres: order,
            cubic_feet: order / CUBIC_FOOT,
            cubic_yards: order / CUBIC_YARD,
            // A thousandth of a bag is not bought.
            bags: crate::units::num::word(crate::units::num::round_u((order / BAG - 0.001).ceil())),
            compost_litres: (order / 3.0, order / 2.0),
            soaked_kg: litres * kg,
        }
    }
}
