//! What is to be filled, and which rule is left out to see what it costs.

use crate::calendar::Date;

/// What is to be filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Request {
    /// Nothing is begun before this date; what stands then stays.
    pub from: Date,
    /// The plan in force is kept where it can be (a re-plan).
    pub keep: bool,
    /// Leave out one rule, to see what it costs.
    pub drop: Option<Dropped>,
}

impl Request {
    /// A plan from a date on, without regard to the one in force.
    pub const fn from(from: Date) -> Self {
        Self { from, keep: false, drop: None }
    }
    /// A re-plan from a date on.
    pub const fn again(from: Date) -> Self {
        Self { from, keep: true, drop: None }
    }
    /// The same without one rule.
    #[must_use]
    pub const fn without(mut self, rule: Dropped) -> Self {
        self.drop = Some(rule);
        self
    }
    /// Whether a rule is left out.
    pub fn drops(&self, rule: Dropped) -> bool {
        self.drop == Some(rule)
    }
}

/// A rule that may be left out to see what it costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dropped {
    /// Breaks of families and diseases.
    Breaks,
    /// Hours of work.
    Hours,
    /// Room for seedlings.
    Trays,
    /// What places are kept for.
    Tags,
    /// Hours of sun.
    Light,
    /// Size and depth of pots.
    Pots,
    /// Supports of climbers.
    Supports,
    /// Frost, as far as a fleece over every bed keeps it off.
    Frost,
}

impl Dropped {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Breaks,
        Self::Hours,
        Self::Trays,
        Self::Tags,
        Self::Light,
        Self::Pots,
        Self::Supports,
        Self::Frost,
    ];
    /// Without it, in words that follow "If".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Breaks => "nothing had stood or been seen in any soil",
            Self::Hours => "there were hours enough",
            Self::Trays => "there were room enough for seedlings",
            Self::Tags => "no place were kept for anything",
            Self::Light => "every place had sun enough",
            Self::Pots => "every pot were large enough",
            Self::Supports => "there were a support everywhere",
            Self::Frost => "a fleece lay over every bed (nights 2 C milder)",
        }
    }
}

/// Degrees a fleece keeps the night milder (common practice: one to three).
pub(super) const FLEECE: f64 = 2.0;
