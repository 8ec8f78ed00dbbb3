//! Temperatures, and differences of temperature, which are another kind of thing.

use super::num;
use super::quantity::{Measure, UnitError, decimal_text, split_number};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;
use std::str::FromStr;

/// Degrees Celsius or Fahrenheit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TempUnit {
    /// Celsius.
    C,
    /// Fahrenheit.
    F,
}

impl TempUnit {
    const fn symbol(self) -> &'static str {
        match self {
            Self::C => "C",
            Self::F => "F",
        }
    }
    fn of(word: &str) -> Option<Self> {
        match word.trim().trim_start_matches('\u{b0}').trim() {
            "C" | "c" => Some(Self::C),
            "F" | "f" => Some(Self::F),
            _ => None,
        }
    }
    /// The unit a reader of `measure` expects.
    pub const fn for_measure(measure: Measure) -> Self {
        match measure {
            Measure::Us => Self::F,
            Measure::Metric => Self::C,
        }
    }
}

/// A temperature on the thermometer, in millionths of a degree Celsius.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Temperature {
    micro: i64,
    unit: TempUnit,
}

/// A difference between two temperatures ("3 C warmer"), in millionths of a Celsius degree.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Degrees {
    micro: i64,
    unit: TempUnit,
}

fn micro(celsius: f64) -> i64 {
    num::round_i(celsius * 1e6)
}

impl Temperature {
    /// So many degrees of a unit.
    pub fn new(value: f64, unit: TempUnit) -> Self {
        let celsius = match unit {
            TempUnit::C => value,
            TempUnit::F => (value - 32.0) / 1.8,
        };
        Self { micro: micro(celsius), unit }
    }
    /// Degrees Celsius.
    pub fn celsius(self) -> f64 {
        num::real_i(self.micro) / 1e6
    }
    /// Degrees of a unit.
    pub fn in_unit(self, unit: TempUnit) -> f64 {
        match unit {
            TempUnit::C => self.celsius(),
            TempUnit::F => self.celsius() * 1.8 + 32.0,
        }
    }
    /// The same temperature shown in another unit.
    pub const fn shown_in(self, unit: TempUnit) -> Self {
        Self { micro: self.micro, unit }
    }
    /// Whole degrees for reading, in the grower's measure.
    pub fn reading(self, measure: Measure) -> String {
        let unit = TempUnit::for_measure(measure);
        format!("{:.0} {}", self.in_unit(unit), unit.symbol())
    }
}

impl Degrees {
    /// So many degrees of difference.
    pub fn new(value: f64, unit: TempUnit) -> Self {
        let celsius = match unit {
            TempUnit::C => value,
            TempUnit::F => value / 1.8,
        };
        Self { micro: micro(celsius), unit }
    }
    /// Celsius degrees of difference.
    pub fn celsius(self) -> f64 {
        num::real_i(self.micro) / 1e6
    }
}

impl fmt::Display for Temperature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.unit;
        let text = decimal_text(self.in_unit(unit), self.micro, |v| Self::new(v, unit).micro);
        f.pad(&format!("{text} {}", unit.symbol()))
    }
}

impl fmt::Display for Degrees {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.unit;
        let value = match unit {
            TempUnit::C => self.celsius(),
            TempUnit::F => self.celsius() * 1.8,
        };
        let text = decimal_text(value, self.micro, |v| Self::new(v, unit).micro);
        f.pad(&format!("{}{text} {}", if self.micro > 0 { "+" } else { "" }, unit.symbol()))
    }
}

fn read(text: &str, kind: &'static str, example: &'static str) -> Result<(f64, TempUnit), UnitError> {
    let error = || UnitError { text: text.trim().to_owned(), kind, example };
    let (value, word) = split_number(text).ok_or_else(error)?;
    let unit = TempUnit::of(word).ok_or_else(error)?;
    if value.abs() > 1e6 { Err(error()) } else { Ok((value, unit)) }
}

impl FromStr for Temperature {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        read(text, "temperature", "\"21 C\" or \"70 F\"").map(|(value, unit)| Self::new(value, unit))
    }
}
impl FromStr for Degrees {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        read(text, "difference of temperature", "\"+2 C\" or \"-3 F\"")
            .map(|(value, unit)| Self::new(value, unit))
    }
}

macro_rules! as_text {
    ($name:ident) => {
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                s.collect_str(self)
            }
        }
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                let text = String::deserialize(d)?;
                text.parse().map_err(serde::de::Error::custom)
            }
        }
    };
}
as_text!(Temperature);
as_text!(Degrees);
