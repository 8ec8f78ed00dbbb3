//! Why a start comes to nothing.

use crate::calendar::{Date, day_text};
use crate::site::words::years;
use crate::units::{Measure, TempUnit, Temperature, num};

/// Why a start is refused.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Refusal {
    /// The crop is not started in this way.
    OtherWay,
    /// The soil is too cold to sow or set out.
    ColdSoil {
        /// Soil temperature on that day, degrees Celsius.
        soil: f64,
        /// Wanted.
        least: f64,
        /// First day warm enough.
        from: Option<Date>,
    },
    /// The soil is too warm for the seed.
    HotSoil {
        /// Soil temperature on that day, degrees Celsius.
        soil: f64,
        /// Wanted.
        most: f64,
        /// First day cool enough again.
        from: Option<Date>,
    },
    /// The raising place is too cold or too warm for the seed.
    RaisingPlace {
        /// Its temperature, degrees Celsius.
        there: f64,
        /// Wanted, least and most.
        wanted: (f64, f64),
    },
    /// Frost would come over the seedlings.
    SeedlingFrost {
        /// Chance of it.
        chance: f64,
        /// The day they are up or set out.
        on: Date,
        /// Degrees Celsius that kill.
        kills: f64,
    },
    /// There is not enough warmth to ripen within two years.
    NeverRipe,
    /// It would be ripe after the killing frost.
    Late {
        /// Chance that it is in time.
        chance: f64,
        /// Chance the grower wants.
        wanted: f64,
        /// When it would be ripe.
        ripe: Date,
        /// Last start that is in time by the flat count; only by the catalogue.
        latest: Option<Date>,
    },
    /// It is too hot while it ripens: it turns bitter, runs to flower or stops.
    Heat {
        /// By this day.
        on: Date,
        /// Mean temperature of a month at most, degrees Celsius.
        most: f64,
    },
    /// Fruit does not set in the heat (or cold) of its flowering time.
    NoSet {
        /// Share that sets.
        share: f64,
    },
    /// It runs to flower in long days before it is ripe.
    Bolts {
        /// About this day.
        on: Date,
        /// Days longer than this, hours.
        hours: f64,
    },
    /// Days never are as long or as short as it needs to bulb or flower.
    Daylength {
        /// Hours wanted.
        hours: f64,
        /// Longer (true) or shorter.
        longer: bool,
    },
    /// Outside the weeks in which an overwintering crop is planted.
    Outside {
        /// First day.
        first: Date,
        /// Last day.
        last: Date,
    },
    /// The winter would kill it.
    Winter {
        /// Chance of it.
        chance: f64,
        /// Degrees Celsius that kill.
        kills: f64,
    },
}

/// What a refusal comes down to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hindrance {
    /// Frost.
    Frost,
    /// Heat.
    Heat,
    /// Cold soil or too little warmth.
    Cold,
    /// The length of the day.
    Light,
    /// The way of starting, or the time of planting.
    Practice,
}

impl Refusal {
    /// What it comes down to.
    pub const fn cause(&self) -> Hindrance {
        match self {
            Self::SeedlingFrost { .. } | Self::Late { .. } | Self::Winter { .. } => Hindrance::Frost,
            Self::HotSoil { .. } | Self::Heat { .. } | Self::NoSet { .. } => Hindrance::Heat,
            Self::ColdSoil { .. } | Self::NeverRipe => Hindrance::Cold,
            Self::Bolts { .. } | Self::Daylength { .. } => Hindrance::Light,
            Self::OtherWay | Self::Outside { .. } | Self::RaisingPlace { .. } => Hindrance::Practice,
        }
    }
    /// In words, without a capital or a full stop.
    pub fn words(&self, measure: Measure) -> String {
        let degrees = |celsius: f64| Temperature::new(celsius, TempUnit::C).reading(measure);
        let again = |from: &Option<Date>| from.map_or_else(String::new, |d| format!(" from {}", day_text(d)));
        match self {
            Self::OtherWay => String::from("it is not started in this way"),
            Self::ColdSoil { soil, least, from } => format!(
                "the soil is too cold ({}, wants {}){}",
                degrees(*soil),
                degrees(*least),
                from.map_or_else(String::new, |d| format!(": wait until {}", day_text(d)))
            ),
            Self::HotSoil { soil, most, from } => format!(
                "the soil is too warm for the seed ({}, at most {}){}",
                degrees(*soil),
                degrees(*most),
                again(from).replace(" from", ": cool enough from")
            ),
            Self::RaisingPlace { there, wanted } => format!(
                "the raising place is {}; the seed wants {} to {}",
                degrees(*there),
                degrees(wanted.0),
                degrees(wanted.1)
            ),
            Self::SeedlingFrost { chance, on, kills } => format!(
                "a night of {} still comes after {} in {}",
                degrees(*kills),
                day_text(*on),
                years(*chance)
            ),
            Self::NeverRipe => String::from("there is too little warmth to ripen it"),
            Self::Late { chance, ripe, latest, .. } => format!(
                "ripe about {}: in time before the killing frost in {}{}",
                day_text(*ripe),
                years(*chance),
                latest.map_or_else(String::new, |d| format!(
                    "; counted back from it, {} is the last day",
                    day_text(d)
                ))
            ),
            Self::Heat { on, most } => {
                format!(
                    "too hot to ripen well: by {} its weeks average over {}",
                    day_text(*on),
                    degrees(*most)
                )
            }
            Self::NoSet { share } => {
                format!(
                    "only {:.0} of 100 flowers would set fruit at the temperatures of their time",
                    share * 100.0
                )
            }
            Self::Bolts { on, hours } => {
                format!("runs to flower about {}, after days longer than {hours} hours", day_text(*on))
            }
            Self::Daylength { hours, longer } => format!(
                "days are never {} than {hours} hours while it grows",
                if *longer { "longer" } else { "shorter" }
            ),
            Self::Outside { first, last } => {
                format!("planted between {} and {}", day_text(*first), day_text(*last))
            }
            Self::Winter { chance, kills } => {
                format!("a night of {} kills it in {}", degrees(*kills), years(*chance))
            }
        }
    }
}

/// A chance and the one it is held against, in words that differ: years of 10, or of 100 where those are the same.
pub fn years_against(chance: f64, limit: f64) -> (String, String) {
    let (a, b) = (years(chance), years(limit));
    if a != b {
        return (a, b);
    }
    let fine = |p: f64| format!("{} years of 100", num::round_i(p.clamp(0.0, 1.0) * 100.0));
    (fine(chance), fine(limit))
}
