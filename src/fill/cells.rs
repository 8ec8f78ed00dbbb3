//! A set of cells of one bed, up to 256, as bits.

/// Cells of one bed, numbered row by row from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Cells([u64; 4]);

impl Cells {
    /// The most cells a bed may have.
    pub const MOST: usize = 256;
    /// No cell.
    pub const NONE: Self = Self([0; 4]);

    /// The first `n` cells.
    pub fn first(n: usize) -> Self {
        (0..n.min(Self::MOST)).collect()
    }
    /// Puts one cell in; a number past the last possible cell is left out.
    pub fn insert(&mut self, cell: usize) {
        if let Some(word) = self.0.get_mut(cell / 64) {
            *word |= 1 << (cell % 64);
        }
    }
    /// Whether the cell is in.
    pub fn contains(&self, cell: usize) -> bool {
        self.0.get(cell / 64).is_some_and(|word| word >> (cell % 64) & 1 == 1)
    }
    /// Whether the two sets share a cell.
    pub const fn meets(&self, other: &Self) -> bool {
        let (a, b) = (&self.0, &other.0);
        (a[0] & b[0]) | (a[1] & b[1]) | (a[2] & b[2]) | (a[3] & b[3]) != 0
    }
    /// Whether every cell of `other` is in.
    pub const fn covers(&self, other: &Self) -> bool {
        let (a, b) = (&self.0, &other.0);
        (b[0] & !a[0]) | (b[1] & !a[1]) | (b[2] & !a[2]) | (b[3] & !a[3]) == 0
    }
    /// Both sets together.
    #[must_use]
    pub fn union(self, other: &Self) -> Self {
        let mut out = self;
        for (word, more) in out.0.iter_mut().zip(other.0) {
            *word |= more;
        }
        out
    }
    /// The cells in both sets.
    #[must_use]
    pub fn both(self, other: &Self) -> Self {
        let mut out = self;
        for (word, more) in out.0.iter_mut().zip(other.0) {
            *word &= more;
        }
        out
    }
    /// The cells of this set that are not in the other.
    #[must_use]
    pub fn less(self, other: &Self) -> Self {
        let mut out = self;
        for (word, more) in out.0.iter_mut().zip(other.0) {
            *word &= !more;
        }
        out
    }
    /// Whether no cell is in.
    pub fn is_empty(&self) -> bool {
        self.0 == [0; 4]
    }
    /// How many cells are in.
    pub fn len(&self) -> usize {
        self.0.iter().map(|word| crate::units::num::index(word.count_ones())).sum()
    }
    /// The cells in rising order.
    pub fn iter(&self) -> impl Iterator<Item = usize> + '_ {
        (0..Self::MOST).filter(|&cell| self.contains(cell))
    }
    /// The rectangle `height` x `width` whose upper left cell is (`row`, `column`) in a bed `across` cells wide.
    pub fn rectangle(across: usize, row: usize, column: usize, height: usize, width: usize) -> Self {
        (row..row + height).flat_map(|r| (column..column + width).map(move |c| r * across + c)).collect()
    }
}

impl FromIterator<usize> for Cells {
    fn from_iter<I: IntoIterator<Item = usize>>(cells: I) -> Self {
        let mut out = Self::NONE;
        for cell in cells {
            out.insert(cell);
        }
        out
    }
}
