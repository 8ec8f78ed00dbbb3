//! How a harvest spreads over its weeks.

use super::pace::Pace;
use crate::calendar::{Date, Week, days_between, plus};
use crate::crop::{PickShape, Picking};
use crate::units::num;

/// Where in its picking time a flush is at its height (from memory).
const HEIGHT: f64 = 1.0 / 3.0;

/// The dates of a harvest that nothing cuts short.
#[derive(Debug, Clone)]
pub(super) enum Course {
    /// From a first to a last day, with the shape between.
    Span(Date, Date, PickShape),
    /// On these days, in equal parts.
    Cuts(Vec<Date>),
}

impl Course {
    /// The course of a harvest that begins on `first`.
    pub(super) fn new(picking: Picking, pace: &Pace, first: Date) -> Self {
        match picking.shape {
            PickShape::Once | PickShape::Flush | PickShape::Steady => {
                Self::Span(first, plus(first, i64::from(picking.days)), picking.shape)
            }
            PickShape::Cut { cuts, regrow } => {
                let mut days = vec![first];
                for _ in 1..cuts.clamp(1, 30) {
                    let last = days.last().copied().unwrap_or(first);
                    match pace.after(last, f64::from(regrow.max(1))) {
                        Some(next) => days.push(next),
                        None => break,
                    }
                }
                Self::Cuts(days)
            }
        }
    }

    /// Its last day.
    pub(super) fn last(&self) -> Date {
        match self {
            Self::Span(_, last, _) => *last,
            Self::Cuts(days) => days.last().copied().unwrap_or(Date::MIN),
        }
    }

    /// Shares by week up to `end`, each weighed by `alive` on its middle day. A day of the whole harvest counts
    /// when it is not after `end`.
    pub(super) fn weeks(&self, end: Date, alive: impl Fn(Date) -> f64) -> Vec<(Week, f64)> {
        let mut out: Vec<(Week, f64)> = Vec::new();
        match self {
            Self::Span(first, last, shape) => {
                let days = num::real_i(days_between(*first, *last)).max(1.0);
                let stop = if end >= *last { plus(*first, num::round_i(days)) } else { end };
                let so_far =
                    |day: Date| done(*shape, (num::real_i(days_between(*first, day)) / days).clamp(0.0, 1.0));
                let mut week = Week::of(*first);
                let mut before = 0.0;
                while week.monday() < stop {
                    let to = week.plus(1).monday().min(stop);
                    let now = so_far(to);
                    let middle =
                        plus(week.monday().max(*first), days_between(week.monday().max(*first), to) / 2);
                    push(&mut out, week, (now - before) * alive(middle));
                    before = now;
                    week = week.plus(1);
                }
            }
            Self::Cuts(days) => {
                let part = 1.0 / num::real(days.len().max(1));
                for day in days.iter().filter(|d| **d <= end) {
                    push(&mut out, Week::of(*day), part * alive(*day));
                }
            }
        }
        out
    }
}

fn push(out: &mut Vec<(Week, f64)>, week: Week, share: f64) {
    if share <= 1e-6 {
        return;
    }
    match out.last_mut() {
        Some((last, sum)) if *last == week => *sum += share,
        _ => out.push((week, share)),
    }
}

/// Share of the harvest picked in the first part `x` of its time.
fn done(shape: PickShape, x: f64) -> f64 {
    match shape {
        PickShape::Once | PickShape::Steady | PickShape::Cut { .. } => x,
        PickShape::Flush => {
            if x <= HEIGHT {
                x * x / HEIGHT
            } else {
                1.0 - (1.0 - x) * (1.0 - x) / (1.0 - HEIGHT)
            }
        }
    }
}
