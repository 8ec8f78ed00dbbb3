//! Quantities with the unit they were typed in, and the only conversion factors of the program.
//!
//! A quantity is a whole number of a tiny base unit (micrometres, microlitres, milligrams, millionths of a
//! degree) plus the unit it was written with, so that layout is exact and text comes back as it was typed:
//! `parse(print(x)) == x` for every quantity.

mod amount;
pub mod num;
mod quantity;
mod temperature;
mod words;

pub use amount::{Amount, CountWord};
pub use quantity::{
    Length, LengthUnit, Mass, MassUnit, Measure, UnitError, Volume, VolumeUnit, decimal_text, split_number,
};
pub use temperature::{Degrees, TempUnit, Temperature};
pub use words::{capital, sentence};

/// Kilograms a square metre in one pound a square foot.
pub const KG_M2_PER_PSF: f64 = 4.882_427_636;
