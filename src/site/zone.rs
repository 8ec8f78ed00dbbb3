//! Hardiness zones: bands of the mean of the yearly lowest temperature.
//!
//! The zones of the US Department of Agriculture are 10 F wide, from -60 F up; each has a colder half `a` and a milder
//! half `b`.

use crate::units::{TempUnit, Temperature};

/// Lower end of zone 1, degrees Fahrenheit.
const FIRST: f64 = -60.0;
/// The warmest zone.
const MOST: u8 = 13;

/// The middle of a zone as growers write it, "6" or "6b"; none where the text is no zone.
pub fn middle(text: &str) -> Option<Temperature> {
    let text = text.trim().to_lowercase();
    let (number, middle) = match (text.strip_suffix('a'), text.strip_suffix('b')) {
        (Some(number), _) => (number, 2.5),
        (_, Some(number)) => (number, 7.5),
        (None, None) => (text.as_str(), 5.0),
    };
    let number: u8 = number.parse().ok().filter(|n| (1..=MOST).contains(n))?;
    Some(Temperature::new(FIRST + 10.0 * f64::from(number - 1) + middle, TempUnit::F))
}
