//! How many plants really fit: placed one by one, never area times density.
//!
//! Plants keep half a spacing from the boards. A square grid is allowed 2 % on its spacing, so that a 30 cm cell
//! counts as 12 in; staggered layouts are strict.

use super::Place;
use crate::crop::Crop;
use crate::units::{Length, num};

/// Tolerance of the square grid.
const EASE: f64 = 1.02;
/// Rounding room of the strict layouts.
const EXACT: f64 = 1.0005;

/// Cells along a side; the last may be up to 8 % short, and there is at least one.
pub(super) fn cells_along(side: Length, cell: Length) -> u16 {
    let cells = num::real_i(side.um()) / num::real_i(cell.um().max(1));
    num::small(num::floor_u(cells + 0.08)).clamp(1, 200)
}

/// A side of so many cells, in the unit of spacing: a cell of 28 to 32 cm counts as 12 in.
pub fn span(cells: u16, cell: Length) -> f64 {
    let foot = 304_800.0;
    let um = num::real_i(cell.um());
    let side = if (um - foot).abs() <= 0.085 * foot { foot } else { um };
    f64::from(cells) * side
}

/// Plants at `spacing` on a square grid or in shifted columns, in a rectangle `across` by `down` (micrometres),
/// half a spacing from every edge: the best count found, and the points.
pub fn placed(across: f64, down: f64, spacing: f64) -> Vec<(f64, f64)> {
    if !(spacing.is_finite() && spacing > 0.0) || across <= 0.0 || down <= 0.0 {
        return Vec::new();
    }
    let mut best = square(across, down, spacing);
    for turned in [false, true] {
        let (wide, tall) = if turned { (down, across) } else { (across, down) };
        for points in shifted(wide, tall, spacing) {
            if points.len() > best.len() {
                best = if turned { points.into_iter().map(|(x, y)| (y, x)).collect() } else { points };
            }
        }
    }
    best
}

fn square(across: f64, down: f64, spacing: f64) -> Vec<(f64, f64)> {
    let (nx, ny) = (num::floor_u(across / spacing * EASE), num::floor_u(down / spacing * EASE));
    let at = |i: usize, n: usize, side: f64| (num::real(i) + 0.5) * side / num::real(n);
    (0..ny).flat_map(|j| (0..nx).map(move |i| (at(i, nx, across), at(j, ny, down)))).collect()
}

/// Columns with every other one shifted by half a step; one layout for each number of columns.
fn shifted(across: f64, down: f64, spacing: f64) -> impl Iterator<Item = Vec<(f64, f64)>> {
    let (wide, tall) = (across - spacing, down - spacing);
    let most = if wide < 0.0 || tall < 0.0 { 0 } else { num::floor_u(2.0 * wide / spacing * EXACT) + 1 };
    (2..=most).map(move |columns| {
        let dx = wide / num::real(columns - 1);
        let rise = (spacing * spacing - dx * dx).max(0.0).sqrt();
        let step = spacing.max(2.0 * rise);
        let mut points = Vec::new();
        for column in 0..columns {
            let offset = if column % 2 == 0 { 0.0 } else { step / 2.0 };
            if offset > tall * EXACT {
                continue;
            }
            let count = num::floor_u((tall * EXACT - offset) / step) + 1;
            for k in 0..count {
                points.push((
                    spacing / 2.0 + dx * num::real(column),
                    spacing / 2.0 + (offset + step * num::real(k)).min(tall),
                ));
            }
        }
        points
    })
}

/// Plants of a crop in a block of cells: as many a cell as its own square grid gives, or the placed count of the
/// whole block where that is more.
pub fn plants_in(spacing: Length, rows: u16, cols: u16, cell: Length) -> u16 {
    let s = num::real_i(spacing.um());
    let side = span(1, cell);
    let a_cell = num::floor_u(side / s.max(1.0) * EASE).pow(2);
    let by_cell = a_cell * usize::from(rows) * usize::from(cols);
    // With four or more plants a cell the cell's own grid is what the grower sows; the block's is not tried.
    if a_cell >= 4 {
        return num::small(by_cell);
    }
    num::small(by_cell.max(placed(span(cols, cell), span(rows, cell), s).len()))
}

/// Block shapes a crop may take in a bed of `rows` x `cols` cells: one cell for small crops; for large ones every
/// shape up to four cells a side whose last row and column are really needed, with its placed count.
pub fn shapes(spacing: Length, rows: u16, cols: u16, cell: Length) -> Vec<(u16, u16, u16)> {
    if plants_in(spacing, 1, 1, cell) >= 1 && num::real_i(spacing.um()) <= span(1, cell) * EASE * 0.65 {
        return vec![(1, 1, plants_in(spacing, 1, 1, cell))];
    }
    let mut out = Vec::new();
    let most = num::small(num::floor_u(2.0 * num::real_i(spacing.um()) / span(1, cell)) + 2).clamp(1, 6);
    for r in 1..=rows.min(most) {
        for c in 1..=cols.min(most) {
            let n = plants_in(spacing, r, c, cell);
            if n == 0 {
                continue;
            }
            let shrinks = |r: u16, c: u16| r >= 1 && c >= 1 && plants_in(spacing, r, c, cell) >= n;
            let joins = n > 1 && joined(spacing, r, c, n, cell);
            if !shrinks(r - 1, c) && !shrinks(r, c - 1) && !joins {
                out.push((r, c, n));
            }
        }
    }
    out
}

/// Whether two smaller blocks side by side hold as many plants, so that the shape adds nothing.
fn joined(spacing: Length, rows: u16, cols: u16, n: u16, cell: Length) -> bool {
    let count = |r: u16, c: u16| plants_in(spacing, r, c, cell);
    (1..rows).any(|r| count(r, cols) + count(rows - r, cols) >= n)
        || (1..cols).any(|c| count(rows, c) + count(rows, cols - c) >= n)
}

/// Plants of a crop in a pot by its least volume and depth; 0 where it is too small or too shallow, or the crop is
/// not grown in pots.
pub fn pot_plants(crop: &Crop, place: &Place) -> u16 {
    let Some(need) = crop.pot else { return 0 };
    if place.depth().um() * 102 < need.depth.um() * 100 || place.litres() * 1.02 < need.volume.litres() {
        return 0;
    }
    let groups = (place.litres() * 1.02 / need.volume.litres().max(0.1)).floor();
    let by_volume = num::floor_u(groups) * usize::from(need.plants.max(1));
    let rim = place.size().0;
    let s = num::real_i(crop.spacing.dense.um());
    let side = num::real_i(rim.um());
    // A pot gives its plants air at the rim, so leaves may hang over it: the count by area is allowed half a
    // spacing more than the rim.
    let by_area = placed(side + s * 0.5, side + s * 0.5, s).len().max(1);
    num::small(by_volume.min(by_area))
}

/// Plants of a crop in a block of a place: by volume in pots (a share for a part of a large pot), by placing in
/// beds.
pub fn capacity(crop: &Crop, place: &Place, rows: u16, cols: u16, cell: Length) -> u16 {
    if place.is_pot() {
        let whole = place.whole(cell);
        let share = num::real(usize::from(rows) * usize::from(cols)) / num::real(whole.area().max(1));
        return num::small(num::floor_u(f64::from(pot_plants(crop, place)) * share + 1e-9));
    }
    plants_in(crop.spacing.wide, rows, cols, cell)
}

/// Shapes a crop may take in a place, each with its count of plants.
pub fn shapes_in(crop: &Crop, place: &Place, cell: Length) -> Vec<(u16, u16, u16)> {
    let (rows, cols) = place.grid(cell);
    if !place.is_pot() {
        return shapes(crop.spacing.wide, rows, cols, cell);
    }
    let mut out = Vec::new();
    for (r, c) in [(1, 1), (1, 2), (2, 1), (2, 2)] {
        if r <= rows && c <= cols {
            let n = capacity(crop, place, r, c, cell);
            if n > 0 && !out.iter().any(|&(a, b, m): &(u16, u16, u16)| a * b <= r * c && m >= n) {
                out.push((r, c, n));
            }
        }
    }
    out
}
