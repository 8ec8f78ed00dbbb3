//! How far the dates of a site can be trusted, by the kind of figures they come from.

use std::fmt;

/// What the frost dates come from, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Input {
    /// Dates counted in 15 seasons or more of daily minima.
    Counted,
    /// Normals, with known average frost dates set over them.
    NormalsAndDates,
    /// Fewer than 15 whole seasons of daily minima, through the frost chain.
    ShortRecord,
    /// Normals with days of frost a month.
    FrostDays,
    /// Average frost dates and nothing else.
    DatesAlone,
    /// Normals with the hardiness zone.
    Zone,
    /// Normals and nothing else.
    NormalsAlone,
}

impl Input {
    /// Days of error to expect of frost dates (mean absolute errors measured over 18 to 36 stations, left one out).
    pub const fn error(self) -> f64 {
        match self {
            Self::Counted => 3.0,
            Self::NormalsAndDates => 4.0,
            Self::ShortRecord | Self::FrostDays => 5.0,
            Self::DatesAlone => 6.0,
            Self::Zone => 8.0,
            Self::NormalsAlone => 13.0,
        }
    }
    /// What would make the dates better.
    pub const fn advice(self) -> Option<&'static str> {
        match self {
            Self::Counted => None,
            Self::NormalsAndDates | Self::ShortRecord | Self::FrostDays => {
                Some("a daily station file with 15 whole seasons or more would count the dates themselves")
            }
            Self::DatesAlone => {
                Some("twelve monthly normals would let crops ripen by heat instead of by days")
            }
            Self::Zone | Self::NormalsAlone => {
                Some("your own average last and first frost dates would halve the error or better")
            }
        }
    }
}

impl fmt::Display for Input {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Counted => "dates counted in 15 seasons or more of a daily record",
            Self::NormalsAndDates => "normals with known average frost dates",
            Self::ShortRecord => "a daily record with fewer than 15 whole seasons",
            Self::FrostDays => "normals with days of frost a month",
            Self::DatesAlone => "average frost dates alone",
            Self::Zone => "normals with the hardiness zone",
            Self::NormalsAlone => "normals alone",
        })
    }
}

/// Trust in both halves of the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Trust {
    /// What last frosts come from.
    pub spring: Input,
    /// What first frosts come from.
    pub autumn: Input,
}

impl Trust {
    /// The larger of the two errors, days.
    pub const fn error(self) -> f64 {
        self.spring.error().max(self.autumn.error())
    }
    /// The weaker of the two inputs.
    pub fn weaker(self) -> Input {
        self.spring.max(self.autumn)
    }
    /// "frost dates may be about 13 days off (normals alone)".
    pub fn words(self) -> String {
        let amount = |input: Input| format!("about {:.0} days off ({input})", input.error());
        if self.spring == self.autumn {
            format!("frost dates may be {}", amount(self.spring))
        } else {
            let (spring, autumn) = (amount(self.spring), amount(self.autumn));
            format!("last frosts may be {spring}, first frosts {autumn}")
        }
    }
}
