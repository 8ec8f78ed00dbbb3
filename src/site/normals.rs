//! Twelve monthly means to 365 daily values: a smooth curve that keeps every month's mean.

use super::day::{DAYS, Daily, MONTH_DAYS, MONTH_START, Monthly};
use crate::units::num;

/// The periodic, once-differentiable, piecewise quadratic curve whose mean over each month is the value given.
///
/// One parabola a month. With edge values `e`, month length `L` and mean `m` the slope at the left edge is
/// `(6m - 4e[i] - 2e[i+1]) / L` and at the right edge `(-6m + 2e[i] + 4e[i+1]) / L`; asking slopes to meet gives
/// a cyclic tridiagonal system for the twelve edges. The value of a day is the integral of the parabola over it.
/// Same family as Delhez 2003, Appl. Math. Lett. 16:17.
pub fn daily(monthly: &Monthly) -> Daily {
    let edges = edges(monthly);
    let mut out = [0.0; DAYS];
    for month in 0..12 {
        let (a, b, mean) = (edges[month], edges[(month + 1) % 12], monthly[month]);
        let linear = 6.0 * mean - 4.0 * a - 2.0 * b;
        let square = 3.0 * a + 3.0 * b - 6.0 * mean;
        let length = num::real(MONTH_DAYS[month]);
        let integral = |u: f64| u * (a + u * (linear / 2.0 + u * square / 3.0));
        for day in 0..MONTH_DAYS[month] {
            let (from, to) = (num::real(day) / length, num::real(day + 1) / length);
            out[MONTH_START[month] + day] = (integral(to) - integral(from)) * length;
        }
    }
    out
}

/// Values of the curve at the start of each month.
fn edges(monthly: &Monthly) -> Monthly {
    let length = |month: usize| num::real(MONTH_DAYS[month]);
    let mut rows = [[0.0; 13]; 12];
    for (i, row) in rows.iter_mut().enumerate() {
        let before = (i + 11) % 12;
        row[before] += 2.0 / length(before);
        row[i] += 4.0 / length(before) + 4.0 / length(i);
        row[(i + 1) % 12] += 2.0 / length(i);
        row[12] = 6.0 * monthly[i] / length(i) + 6.0 * monthly[before] / length(before);
    }
    solve(rows)
}

/// Gaussian elimination without pivoting: the system is diagonally dominant.
fn solve(mut rows: [[f64; 13]; 12]) -> Monthly {
    for pivot in 0..12 {
        let lead = rows[pivot];
        for row in rows.iter_mut().skip(pivot + 1) {
            let factor = row[pivot] / lead[pivot];
            if factor != 0.0 {
                for (value, top) in row.iter_mut().zip(lead).skip(pivot) {
                    *value -= factor * top;
                }
            }
        }
    }
    let mut out = [0.0; 12];
    for i in (0..12).rev() {
        let known: f64 = (i + 1..12).map(|j| rows[i][j] * out[j]).sum();
        out[i] = (rows[i][12] - known) / rows[i][i];
    }
    out
}

/// Monthly totals as an even share a day (rain is not smoothed: a smooth curve would go below zero in a dry month).
pub fn spread(totals: &Monthly) -> Daily {
    let mut out = [0.0; DAYS];
    for month in 0..12 {
        let share = totals[month] / num::real(MONTH_DAYS[month]);
        out[MONTH_START[month]..MONTH_START[month] + MONTH_DAYS[month]].fill(share);
    }
    out
}
