//! The problem as whole numbers: beds of cells, ways of growing, wishes, and what must not happen.
//!
//! Nothing here knows a garden, a date or a crop book: the caller translates (see [`super::build`]).
//! Time is counted in weeks from the first Monday of the horizon. Values are whole *value units*, of which
//! [`Problem::point`] make one point; a wish of importance `p` met in full is worth `100 p` points.

use super::cells::Cells;
use thiserror::Error;

/// Weeks of the horizon as bits; bit 0 is the first week.
pub type Weeks = u128;

/// The longest horizon in weeks.
pub const LONGEST: usize = 127;

/// The weeks `from..to` as bits.
pub fn weeks(from: usize, to: usize) -> Weeks {
    let below = |n: usize| if n >= 128 { Weeks::MAX } else { (1 << n) - 1 };
    below(to) & !below(from)
}

/// Everything the search is asked to arrange.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Problem {
    /// Number of weeks, at most [`LONGEST`].
    pub weeks: usize,
    /// The weeks in which ground that carries nothing counts as idle.
    pub season: Weeks,
    /// Value units in one point (1,000 = milli-points).
    pub point: i64,
    /// Beds and pots.
    pub beds: Vec<Bed>,
    /// Families, or hosts of a disease, whose return to the same soil is limited.
    pub groups: Vec<Group>,
    /// What may be grown and how.
    pub ways: Vec<Way>,
    /// What is asked for.
    pub wishes: Vec<Wish>,
    /// What is scarce by the week: minutes of work, room for raising.
    pub supplies: Vec<Supply>,
    /// Value for every shared cell edge and week of two ways as neighbours.
    pub neighbours: Vec<Near>,
    /// The most that all good terms between neighbours may add together: enough to choose between plans that are
    /// otherwise alike, never a reason to plant more.
    pub good_most: i64,
    /// Value for every shared cell edge and week with `a` directly sunward of `b`.
    pub shades: Vec<Near>,
    /// Pairs (main, mate) that may share their cells all along.
    pub pairs: Vec<(usize, usize)>,
    /// What stands or is settled already.
    pub fixed: Vec<Fixed>,
    /// The plan in force: plantings for wishes, each worth [`Problem::keep_bonus`] where it stays, and fillers of gaps,
    /// which are taken up again where they still fit.
    pub keep: Vec<Placed>,
    /// Value of one planting for a wish of the plan in force that is kept (same way, start, shape and bed).
    pub keep_bonus: i64,
    /// Words of the labels of [`Bar`], for the reasons only.
    pub labels: Vec<String>,
}

/// One body of soil with its grid of cells.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Bed {
    /// For words and files.
    pub name: String,
    /// Rows of cells.
    pub height: usize,
    /// Columns of cells.
    pub width: usize,
    /// Beds with the same number differ in their past at most; the bound treats them as one. Any choice is
    /// valid, a true one makes the bound quick and tight.
    pub like: usize,
    /// Where the sun stands at noon, seen from a cell.
    pub sunward: Side,
    /// Weeks in which the bed is not there: not yet laid out, or taken away.
    pub gone: Weeks,
}

impl Bed {
    /// Number of cells.
    pub const fn cells(&self) -> usize {
        self.height * self.width
    }
}

/// A side of a cell in the drawing of its bed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Side {
    /// Towards row 0.
    Up,
    /// Towards higher rows.
    #[default]
    Down,
    /// Towards column 0.
    Left,
    /// Towards higher columns.
    Right,
}

/// A family, or the hosts of one disease, within the horizon. What the past forbids is in [`Place`].
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Group {
    /// For words and files.
    pub name: String,
    /// How far a stay reaches.
    pub reach: Reach,
    /// A planting may not start within so many weeks after another of the group was cleared; 0 = no such rule.
    /// Plantings that stand side by side at the same time do not hinder each other.
    pub apart: usize,
    /// Cost of a repeat: for [`Reach::Cell`] each use of a cell after the first; for [`Reach::Bed`] each
    /// week in which some begin in the bed after another of the group was cleared there.
    pub again: i64,
}

/// The soil that counts as the same for a group.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Reach {
    /// One cell.
    Cell,
    /// The whole bed or pot.
    #[default]
    Bed,
}

/// One way of growing something: a variety for one wish, in one layer.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Way {
    /// For words and files.
    pub name: String,
    /// The wish it serves; none for a crop that only fills gaps.
    pub wish: Option<usize>,
    /// Wished, or a filler of gaps.
    pub role: Role,
    /// Main planting or mate.
    pub layer: Layer,
    /// Indices into [`Problem::groups`].
    pub groups: Vec<usize>,
    /// Blocks it may take.
    pub shapes: Vec<Shape>,
    /// When it may start, in rising order of week.
    pub starts: Vec<Start>,
    /// Where it may stand.
    pub places: Vec<Place>,
    /// Why it may not stand elsewhere, for the reasons only.
    pub barred: Vec<Barred>,
}

/// What a way of growing is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Role {
    /// Serves a wish.
    #[default]
    Wished,
    /// A harvestable planting put into an idle gap.
    Catch,
    /// Grown for the soil alone.
    Cover,
}

/// The layer of a cell a planting takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Layer {
    /// The cell's main planting.
    #[default]
    Main,
    /// A second planting in the room the main one leaves.
    Mate,
}

/// Blocks that hold the same number of plants, and that number as really placed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Shape {
    /// (rows, columns) of cells; both ways round where both hold as many.
    pub sizes: Vec<(usize, usize)>,
    /// Plants placed in the block.
    pub plants: i64,
}

/// One start of a way.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Start {
    /// Week in which it takes its cells (sown in place or set out).
    pub week: usize,
    /// Weeks its cells are taken.
    pub taken: Weeks,
    /// Those of them in which a mate may share the cells.
    pub open: Weeks,
    /// Those of them in which nothing grows (the wait after a killed cover crop).
    pub wait: Weeks,
    /// (week, amount of one plant), in rising order of week.
    pub harvest: Vec<(usize, i64)>,
    /// What it takes from the supplies.
    pub uses: Vec<Use>,
}

/// What a start takes of one supply in one week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Use {
    /// Index into [`Problem::supplies`].
    pub supply: usize,
    /// Week.
    pub week: usize,
    /// Amount for the planting as a whole.
    pub planting: i64,
    /// Amount for each plant.
    pub plant: i64,
}

/// Cells of a bed a way may take.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Place {
    /// Index into [`Problem::beds`].
    pub bed: usize,
    /// First start week it holds for.
    pub from: usize,
    /// Start week from which it holds no longer.
    pub to: usize,
    /// Indices into [`Way::shapes`] it holds for; empty = all.
    pub shapes: Vec<usize>,
    /// The cells.
    pub cells: Cells,
    /// Cost by cell of the bed (rotation, shade of a wall); empty = none.
    pub costs: Vec<i64>,
}

/// Why a way may not stand in some bed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Barred {
    /// Index into [`Problem::beds`].
    pub bed: usize,
    /// What stands against it.
    pub why: Bar,
}

/// What stands against a way in a bed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Bar {
    /// Light, pot, depth, tag, support: `label` is the caller's index of the words.
    Unfit {
        /// The caller's index.
        label: usize,
    },
    /// A break: the soil is kept free of the group until a week (None: past the horizon).
    Break {
        /// Index into [`Problem::groups`].
        group: usize,
        /// First free week, if within the horizon.
        until: Option<usize>,
        /// The caller's index of the words.
        label: usize,
    },
}

/// What is asked for.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Wish {
    /// For words and files.
    pub name: String,
    /// Weight in the share met.
    pub importance: i64,
    /// Stretches of weeks that do not overlap, each with its own amount.
    pub buckets: Vec<Bucket>,
}

/// One stretch of weeks of a wish.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Bucket {
    /// First week.
    pub from: usize,
    /// Week after the last.
    pub to: usize,
    /// Amount asked for.
    pub want: i64,
    /// Amount beyond that still counts.
    pub extra: i64,
    /// Value of one unit up to `want`.
    pub value: i64,
    /// Value of one unit beyond; at most `value`.
    pub beyond: i64,
}

impl Bucket {
    /// Value of a harvest of `amount` in the bucket: concave and never falling.
    pub fn worth(&self, amount: i64) -> i64 {
        self.value * amount.min(self.want) + self.beyond * (amount - self.want).clamp(0, self.extra)
    }
}

/// Something scarce by the week.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Supply {
    /// For words and files.
    pub name: String,
    /// What there is for new plantings, by week.
    pub there: Vec<i64>,
}

/// A term between two ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Near {
    /// Index into [`Problem::ways`].
    pub a: usize,
    /// Index into [`Problem::ways`].
    pub b: usize,
    /// Value for each shared edge and week; negative for harm.
    pub value: i64,
}

/// What is settled and not up for change.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Fixed {
    /// For words and files.
    pub name: String,
    /// The way it is, for the terms between neighbours.
    pub way: Option<usize>,
    /// Layer.
    pub layer: Layer,
    /// Indices into [`Problem::groups`].
    pub groups: Vec<usize>,
    /// Index into [`Problem::beds`].
    pub bed: usize,
    /// Its cells.
    pub cells: Cells,
    /// Weeks its cells are taken.
    pub taken: Weeks,
    /// Those in which a mate may share them.
    pub open: Weeks,
    /// (wish, bucket, amount) it will give.
    pub gives: Vec<(usize, usize, i64)>,
    /// Cost that stands with it (rotation), counted in the value.
    pub cost: i64,
}

/// One planting of a plan: a way, when and where.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Placed {
    /// Index into [`Problem::ways`].
    pub way: usize,
    /// Index into [`Way::starts`].
    pub start: usize,
    /// Index into [`Way::shapes`].
    pub shape: usize,
    /// Index into [`Problem::beds`].
    pub bed: usize,
    /// Upper row of the block.
    pub row: usize,
    /// Left column of the block.
    pub column: usize,
    /// Rows of the block.
    pub height: usize,
    /// Columns of the block.
    pub width: usize,
}

impl Placed {
    /// The cells it takes in its bed.
    pub fn cells(&self, problem: &Problem) -> Cells {
        Cells::rectangle(problem.beds[self.bed].width, self.row, self.column, self.height, self.width)
    }
}

/// Why a problem cannot be searched.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ProblemError {
    /// The horizon is empty or too long.
    #[error("the horizon has {0} weeks; between 1 and {LONGEST} can be planned")]
    Horizon(usize),
    /// A bed has no cell or too many.
    #[error("bed {0} has {1} cells; a bed may have 1 to 256: divide it or take larger cells")]
    Bed(String, usize),
    /// An index points past its list.
    #[error("{0} names {1} {2}, but there are only {3}")]
    Index(String, &'static str, usize, usize),
    /// A figure that makes no sense.
    #[error("{0}: {1}")]
    Figure(String, &'static str),
}

impl Problem {
    /// The plan in force: what it grows for wishes, or what it fills gaps with.
    pub fn in_force(&self, wished: bool) -> impl Iterator<Item = &Placed> {
        let is = move |p: &&Placed| self.ways.get(p.way).is_some_and(|w| (w.role == Role::Wished) == wished);
        self.keep.iter().filter(is)
    }
    /// Checks that indices and figures make sense.
    ///
    /// # Errors
    /// The first thing that does not, with the name of the entry it stands in.
    pub fn validate(&self) -> Result<(), ProblemError> {
        if !(1..=LONGEST).contains(&self.weeks) {
            return Err(ProblemError::Horizon(self.weeks));
        }
        if self.good_most < 0 || self.keep_bonus < 0 {
            let words = "what neighbours may add and what keeping is worth cannot be negative";
            return Err(ProblemError::Figure("the problem".into(), words));
        }
        if self.point < 1 {
            return Err(ProblemError::Figure(
                "the problem".into(),
                "a point must be at least one value unit",
            ));
        }
        for bed in &self.beds {
            if bed.cells() == 0 || bed.cells() > Cells::MOST {
                return Err(ProblemError::Bed(bed.name.clone(), bed.cells()));
            }
        }
        for wish in &self.wishes {
            let mut last = 0;
            for bucket in &wish.buckets {
                let wrong = |words| Err(ProblemError::Figure(wish.name.clone(), words));
                if bucket.from < last || bucket.to <= bucket.from || bucket.to > self.weeks {
                    return wrong("its stretches of weeks must be in order and inside the horizon");
                }
                if bucket.want < 1 || bucket.extra < 0 || bucket.beyond < 0 || bucket.value < bucket.beyond {
                    return wrong("amounts must be positive, and more of it may not be worth more");
                }
                last = bucket.to;
            }
        }
        for supply in &self.supplies {
            if supply.there.len() != self.weeks {
                let words = "needs one figure for each week of the horizon";
                return Err(ProblemError::Figure(supply.name.clone(), words));
            }
        }
        for way in &self.ways {
            self.validate_way(way)?;
        }
        let name = |what: &str, k: usize| format!("{what} {k}");
        for (k, fixed) in self.fixed.iter().enumerate() {
            let owner = || format!("{} ({})", fixed.name, name("fixed planting", k));
            within(owner, "bed", fixed.bed, self.beds.len())?;
            for &group in &fixed.groups {
                within(owner, "group", group, self.groups.len())?;
            }
            if let Some(way) = fixed.way {
                within(owner, "way", way, self.ways.len())?;
            }
            for &(wish, bucket, _) in &fixed.gives {
                within(owner, "wish", wish, self.wishes.len())?;
                within(owner, "bucket", bucket, self.wishes[wish].buckets.len())?;
            }
            if fixed.cells.iter().any(|cell| cell >= self.beds[fixed.bed].cells()) {
                return Err(ProblemError::Figure(owner(), "takes a cell outside its bed"));
            }
        }
        for near in self.neighbours.iter().chain(&self.shades) {
            within(|| name("neighbour term of way", near.a), "way", near.a.max(near.b), self.ways.len())?;
        }
        for &(main, mate) in &self.pairs {
            within(|| name("pair of way", main), "way", main.max(mate), self.ways.len())?;
        }
        for placed in &self.keep {
            let owner = || name("plan in force, planting of way", placed.way);
            within(owner, "way", placed.way, self.ways.len())?;
            within(owner, "start", placed.start, self.ways[placed.way].starts.len())?;
            within(owner, "shape", placed.shape, self.ways[placed.way].shapes.len())?;
            within(owner, "bed", placed.bed, self.beds.len())?;
        }
        Ok(())
    }

    fn validate_way(&self, way: &Way) -> Result<(), ProblemError> {
        let owner = || way.name.clone();
        if let Some(wish) = way.wish {
            within(owner, "wish", wish, self.wishes.len())?;
        }
        for &group in &way.groups {
            within(owner, "group", group, self.groups.len())?;
        }
        let empty =
            |s: &Shape| s.plants < 1 || s.sizes.is_empty() || s.sizes.iter().any(|&(h, w)| h == 0 || w == 0);
        if way.shapes.iter().any(empty) {
            return Err(ProblemError::Figure(owner(), "a block needs a height, a width and a plant"));
        }
        let mut last = 0;
        for start in &way.starts {
            let inside = weeks(0, self.weeks);
            if start.week < last || start.week >= self.weeks {
                return Err(ProblemError::Figure(owner(), "starts must be in order and inside the horizon"));
            }
            last = start.week;
            if start.taken == 0 || start.taken & !inside != 0 || start.open & !start.taken != 0 {
                return Err(ProblemError::Figure(owner(), "its weeks must be inside the horizon"));
            }
            let run = start.taken >> start.taken.trailing_zeros();
            if run & (run + 1) != 0 {
                return Err(ProblemError::Figure(owner(), "the weeks of a planting must follow one another"));
            }
            if start.harvest.iter().any(|&(week, amount)| week >= self.weeks || amount < 0) {
                return Err(ProblemError::Figure(
                    owner(),
                    "a harvest lies outside the horizon or is negative",
                ));
            }
            for item in &start.uses {
                within(owner, "supply", item.supply, self.supplies.len())?;
                within(owner, "week", item.week, self.weeks)?;
                if item.planting < 0 || item.plant < 0 {
                    return Err(ProblemError::Figure(owner(), "it cannot give back what is scarce"));
                }
            }
        }
        for place in &way.places {
            within(owner, "bed", place.bed, self.beds.len())?;
            for &shape in &place.shapes {
                within(owner, "shape", shape, way.shapes.len())?;
            }
            let cells = self.beds[place.bed].cells();
            if !place.costs.is_empty() && place.costs.len() != cells {
                return Err(ProblemError::Figure(owner(), "a place needs one cost for each cell of the bed"));
            }
            if !Cells::first(cells).covers(&place.cells) || place.costs.iter().any(|&cost| cost < 0) {
                return Err(ProblemError::Figure(
                    owner(),
                    "a place lies outside its bed or has a negative cost",
                ));
            }
        }
        for barred in &way.barred {
            within(owner, "bed", barred.bed, self.beds.len())?;
        }
        Ok(())
    }

    /// Number of cells of all beds.
    pub fn cells(&self) -> usize {
        self.beds.iter().map(Bed::cells).sum()
    }
}

fn within(
    owner: impl Fn() -> String,
    what: &'static str,
    index: usize,
    len: usize,
) -> Result<(), ProblemError> {
    if index < len { Ok(()) } else { Err(ProblemError::Index(owner(), what, index, len)) }
}
