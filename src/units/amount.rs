//! What is harvested, wished for or picked: a weight, or a count of heads, bunches, stems ...

use super::num;
use super::quantity::{Mass, MassUnit, Measure, UnitError, split_number};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;
use std::str::FromStr;

/// The words things are counted in at harvest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CountWord {
    /// Heads of lettuce, cabbage ...
    Head,
    /// Bunches of herbs, radishes ...
    Bunch,
    /// Cut stems.
    Stem,
    /// Ears of corn.
    Ear,
    /// Bulbs.
    Bulb,
    /// Single fruits.
    Fruit,
    /// Single roots.
    Root,
}

impl CountWord {
    const ALL: [(Self, &'static str, &'static str); 7] = [
        (Self::Head, "head", "heads"),
        (Self::Bunch, "bunch", "bunches"),
        (Self::Stem, "stem", "stems"),
        (Self::Ear, "ear", "ears"),
        (Self::Bulb, "bulb", "bulbs"),
        (Self::Fruit, "fruit", "fruits"),
        (Self::Root, "root", "roots"),
    ];
    /// The word for so many (thousandths).
    fn word(self, milli: i64) -> &'static str {
        let (_, one, many) = Self::ALL.iter().find(|(w, ..)| *w == self).copied().unwrap_or(Self::ALL[0]);
        if milli == 1000 { one } else { many }
    }
    fn of(text: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, one, many)| text == *one || text == *many).map(|(w, ..)| *w)
    }
}

/// An amount of harvest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Amount {
    /// By weight.
    Weight(Mass),
    /// By count, in thousandths of one.
    Count(i64, CountWord),
}

impl Amount {
    /// So many of a counted thing.
    pub fn count(value: f64, word: CountWord) -> Self {
        Self::Count(num::round_i(value * 1000.0), word)
    }
    /// So many grams, shown as is usual at that size.
    pub fn grams(value: f64, measure: Measure) -> Self {
        Self::Weight(Mass::new(value, MassUnit::G).for_measure(measure))
    }
    /// The plain number: grams for weights, pieces for counts.
    pub fn value(self) -> f64 {
        match self {
            Self::Weight(mass) => mass.grams(),
            Self::Count(milli, _) => num::real_i(milli) / 1000.0,
        }
    }
    /// The same kind of amount with another plain number (grams or pieces).
    pub fn with_value(self, value: f64) -> Self {
        match self {
            Self::Weight(mass) => Self::Weight(Mass::new(value, MassUnit::G).shown_in(mass.unit())),
            Self::Count(_, word) => Self::count(value, word),
        }
    }
    /// Whether two amounts are of one kind, so that they can be added.
    pub fn same_kind(self, other: Self) -> bool {
        match (self, other) {
            (Self::Weight(_), Self::Weight(_)) => true,
            (Self::Count(_, a), Self::Count(_, b)) => a == b,
            (Self::Weight(_), Self::Count(..)) | (Self::Count(..), Self::Weight(_)) => false,
        }
    }
    /// For reading, rounded to what a kitchen scale shows, in the grower's measure.
    pub fn reading(self, measure: Measure) -> String {
        match self {
            Self::Weight(mass) => {
                let mass = mass.for_measure(measure);
                let decimals = match mass.unit() {
                    MassUnit::G | MassUnit::Oz => 0,
                    MassUnit::Kg | MassUnit::Lb => 1,
                };
                mass.rounded(decimals)
            }
            Self::Count(milli, word) => {
                let tenths = num::round_i(num::real_i(milli) / 100.0);
                let text = if tenths % 10 == 0 {
                    format!("{}", tenths / 10)
                } else {
                    format!("{:.1}", num::real_i(tenths) / 10.0)
                };
                format!("{text} {}", word.word(tenths * 100))
            }
        }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Weight(mass) => mass.fmt(f),
            Self::Count(milli, word) => {
                let text = format!("{:.3}", num::real_i(*milli) / 1000.0);
                let text = text.trim_end_matches('0').trim_end_matches('.');
                f.pad(&format!("{text} {}", word.word(*milli)))
            }
        }
    }
}

impl FromStr for Amount {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let error = || UnitError {
            text: text.trim().to_owned(),
            kind: "weight or count",
            example: "\"500 g\", \"2 lb\", \"3 heads\", \"2 bunches\" or \"10 stems\"",
        };
        let (value, word) = split_number(text).ok_or_else(error)?;
        if !(0.0..=1e9).contains(&value) {
            return Err(error());
        }
        match CountWord::of(&word.to_lowercase()) {
            Some(word) => Ok(Self::count(value, word)),
            None => text.parse().ok().map(Self::Weight).ok_or_else(error),
        }
    }
}

impl Serialize for Amount {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}
impl<'de> Deserialize<'de> for Amount {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let text = String::deserialize(d)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}
