//! The views of a garden.

/// A way of looking at the garden.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum View {
    /// The site plan.
    Ground,
    /// One bed, large.
    Bed,
    /// The timeline.
    Weeks,
    /// What is wished for.
    Wishes,
    /// What there is to do.
    Jobs,
    /// What the check says.
    Findings,
    /// What stood where, year by year.
    Record,
    /// The crop book.
    Book,
    /// What has to be bought or made ready.
    Needs,
}

impl View {
    /// Every view in the order of its digit.
    pub const ALL: [Self; 9] = [
        Self::Ground,
        Self::Bed,
        Self::Weeks,
        Self::Wishes,
        Self::Jobs,
        Self::Findings,
        Self::Record,
        Self::Book,
        Self::Needs,
    ];
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ground => "ground",
            Self::Bed => "bed",
            Self::Weeks => "weeks",
            Self::Wishes => "wishes",
            Self::Jobs => "jobs",
            Self::Findings => "findings",
            Self::Record => "record",
            Self::Book => "book",
            Self::Needs => "needs",
        }
    }
}
