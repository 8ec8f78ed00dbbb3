//! What the grower chooses: the frost risk taken and the way maturity is computed.

use serde::{Deserialize, Serialize};

/// The frost risk the grower takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Risk {
    /// 1 year in 10 goes wrong.
    Cautious,
    /// 3 years in 10.
    #[default]
    Usual,
    /// Every other year.
    Bold,
}

impl Risk {
    /// The chance taken.
    pub const fn share(self) -> f64 {
        match self {
            Self::Cautious => 0.1,
            Self::Usual => 0.3,
            Self::Bold => 0.5,
        }
    }
}

/// How dates of maturity are computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Method {
    /// From the site's warmth.
    #[default]
    Heat,
    /// The extension services' count of days.
    Catalogue,
}
