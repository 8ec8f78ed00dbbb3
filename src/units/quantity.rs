//! Lengths, volumes and masses: whole base units that remember how they were typed.

use super::num;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;
use std::str::FromStr;

/// Which family of units the grower reads and writes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Measure {
    /// Feet, inches, gallons, pounds, degrees Fahrenheit.
    Us,
    /// Metres, centimetres, litres, kilograms, degrees Celsius.
    #[default]
    Metric,
}

/// Text that is no quantity of the wanted kind.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("'{text}' is not a {kind}: write a number and a unit, such as {example}")]
pub struct UnitError {
    /// What was read.
    pub text: String,
    /// The kind of quantity expected, in words.
    pub kind: &'static str,
    /// A good example of it.
    pub example: &'static str,
}

/// The fewest decimals (at most nine) with which `value` read back through `base` gives `whole` again.
pub fn decimal_text(value: f64, whole: i64, base: impl Fn(f64) -> i64) -> String {
    for decimals in 0..9 {
        let text = format!("{value:.decimals$}");
        if text.parse::<f64>().is_ok_and(|back| base(back) == whole) {
            return if text == "-0" { String::from("0") } else { text };
        }
    }
    format!("{value:.9}")
}

/// Splits "1 1/2 in", "4ft", ".5 l" into the number and the trimmed rest; `None` where no number leads.
pub fn split_number(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let mut total = 0.0;
    let mut rest = text;
    let mut any = false;
    loop {
        let trimmed = rest.trim_start();
        let end = trimmed
            .char_indices()
            .find(|&(at, c)| {
                !(c.is_ascii_digit() || c == '.' || c == '/' || (at == 0 && (c == '-' || c == '+') && !any))
            })
            .map_or(trimmed.len(), |(at, _)| at);
        let (word, after) = trimmed.split_at(end);
        if word.is_empty() || word == "-" || word == "+" {
            break;
        }
        if any && !word.contains('/') {
            return None;
        }
        let part = match word.split_once('/') {
            None => word.parse::<f64>().ok()?,
            Some((above, below)) => {
                let below = below.parse::<f64>().ok()?;
                let above = above.parse::<f64>().ok()?;
                if below == 0.0 {
                    return None;
                }
                above / below
            }
        };
        total += if total < 0.0 { -part } else { part };
        any = true;
        rest = after;
    }
    (any && total.is_finite()).then(|| (total, rest.trim()))
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $unit:ident, $base:ident, $kind:literal, $example:literal,
     [$( $(#[$udoc:meta])* $variant:ident = $symbol:literal, $factor:literal, [$($alias:literal),*] );+ $(;)?]) => {
        /// Units it may be typed in.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum $unit { $( $(#[$udoc])* $variant ),+ }

        impl $unit {
            /// Every unit, in the order they are offered.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
            /// How the unit is written.
            pub const fn symbol(self) -> &'static str { match self { $(Self::$variant => $symbol),+ } }
            /// Base units in one of it.
            pub const fn factor(self) -> f64 { match self { $(Self::$variant => $factor),+ } }
            /// The unit of that name, if there is one.
            pub fn of(text: &str) -> Option<Self> {
                let text = text.trim().trim_end_matches('.').to_lowercase();
                $( if text == $symbol $(|| text == $alias)* { return Some(Self::$variant); } )+
                None
            }
        }

        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub struct $name { $base: i64, unit: $unit }

        impl $name {
            /// So many of a unit, to the nearest base unit.
            pub fn new(value: f64, unit: $unit) -> Self {
                Self { $base: num::round_i(value * unit.factor()), unit }
            }
            /// From whole base units, shown in `unit`.
            pub const fn from_base($base: i64, unit: $unit) -> Self { Self { $base, unit } }
            /// Whole base units.
            pub const fn $base(self) -> i64 { self.$base }
            /// The unit it was typed in.
            pub const fn unit(self) -> $unit { self.unit }
            /// The number of `unit` in it.
            pub fn in_unit(self, unit: $unit) -> f64 { num::real_i(self.$base) / unit.factor() }
            /// The same quantity shown in another unit.
            pub const fn shown_in(self, unit: $unit) -> Self { Self { $base: self.$base, unit } }
            /// Rounded for reading to at most `decimals` places; not for files.
            pub fn rounded(self, decimals: usize) -> String {
                let text = format!("{:.decimals$}", self.in_unit(self.unit));
                let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
                format!("{text} {}", self.unit.symbol())
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                let unit = self.unit;
                let text = decimal_text(self.in_unit(unit), self.$base, |v| num::round_i(v * unit.factor()));
                f.pad(&format!("{text} {}", unit.symbol()))
            }
        }

        impl FromStr for $name {
            type Err = UnitError;
            fn from_str(text: &str) -> Result<Self, UnitError> {
                let error = || UnitError { text: text.trim().to_owned(), kind: $kind, example: $example };
                let (value, word) = split_number(text).ok_or_else(error)?;
                let unit = $unit::of(word).ok_or_else(error)?;
                let scaled = value * unit.factor();
                if !scaled.is_finite() || scaled.abs() > 1e15 { return Err(error()); }
                Ok(Self::new(value, unit))
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> { s.collect_str(self) }
        }
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                let text = String::deserialize(d)?;
                text.parse().map_err(serde::de::Error::custom)
            }
        }
    };
}

quantity!(
    /// A length in whole micrometres.
    Length, LengthUnit, um, "length", "\"10 in\" or \"25 cm\"",
    [
        /// Inches.
        In = "in", 25_400.0, ["inch", "inches", "\""];
        /// Feet.
        Ft = "ft", 304_800.0, ["foot", "feet", "'"];
        /// Millimetres.
        Mm = "mm", 1_000.0, [];
        /// Centimetres.
        Cm = "cm", 10_000.0, [];
        /// Metres.
        M = "m", 1_000_000.0, ["metre", "metres", "meter", "meters"];
    ]
);
quantity!(
    /// A volume in whole microlitres.
    Volume, VolumeUnit, ul, "volume", "\"38 l\" or \"10 gal\"",
    [
        /// Litres.
        L = "l", 1_000_000.0, ["litre", "litres", "liter", "liters"];
        /// US liquid gallons.
        Gal = "gal", 3_785_411.784, ["gallon", "gallons"];
        /// US quarts.
        Qt = "qt", 946_352.946, ["quart", "quarts"];
        /// Cubic feet.
        Ft3 = "ft3", 28_316_846.592, ["cu ft"];
        /// Cubic yards.
        Yd3 = "yd3", 764_554_857.984, ["cu yd"];
        /// Cubic metres.
        M3 = "m3", 1_000_000_000.0, [];
    ]
);
quantity!(
    /// A mass in whole milligrams.
    Mass, MassUnit, mg, "weight", "\"2 kg\" or \"5 lb\"",
    [
        /// Grams.
        G = "g", 1_000.0, ["gram", "grams"];
        /// Kilograms.
        Kg = "kg", 1_000_000.0, [];
        /// Ounces.
        Oz = "oz", 28_349.523_125, ["ounce", "ounces"];
        /// Pounds.
        Lb = "lb", 453_592.37, ["lbs", "pound", "pounds"];
    ]
);

impl Length {
    /// Centimetres.
    pub fn cm(self) -> f64 {
        self.in_unit(LengthUnit::Cm)
    }
    /// Metres.
    pub fn m(self) -> f64 {
        self.in_unit(LengthUnit::M)
    }
    /// The same length in the unit a reader of `measure` expects at this size.
    pub fn for_measure(self, measure: Measure) -> Self {
        let unit = match (measure, self.um.abs()) {
            (Measure::Us, ..1_219_200) => LengthUnit::In,
            (Measure::Us, _) => LengthUnit::Ft,
            (Measure::Metric, ..10_000) => LengthUnit::Mm,
            (Measure::Metric, ..3_000_000) => LengthUnit::Cm,
            (Measure::Metric, _) => LengthUnit::M,
        };
        self.shown_in(unit)
    }
}
impl Volume {
    /// Litres.
    pub fn litres(self) -> f64 {
        self.in_unit(VolumeUnit::L)
    }
    /// The same volume in the unit a reader of `measure` expects.
    pub fn for_measure(self, measure: Measure) -> Self {
        self.shown_in(match measure {
            Measure::Us => VolumeUnit::Gal,
            Measure::Metric => VolumeUnit::L,
        })
    }
}
impl Mass {
    /// Grams.
    pub fn grams(self) -> f64 {
        self.in_unit(MassUnit::G)
    }
    /// The same mass in the unit a reader of `measure` expects at this size.
    pub fn for_measure(self, measure: Measure) -> Self {
        self.shown_in(match (measure, self.mg.abs()) {
            (Measure::Us, ..453_592) => MassUnit::Oz,
            (Measure::Us, _) => MassUnit::Lb,
            (Measure::Metric, ..1_000_000) => MassUnit::G,
            (Measure::Metric, _) => MassUnit::Kg,
        })
    }
}
