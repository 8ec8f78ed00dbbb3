//! Weeks across: the ruler that the timeline and the kitchen calendar share.

use super::ink::Rgb;
use super::page::{Edge, Fill, Outline, Page, Style};
use crate::units::num::{real, real_i, signed};

/// A month's part of the ruler, in days from the ruler's first day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Month {
    /// Its name.
    pub name: String,
    /// First day.
    pub from: i64,
    /// First day after it.
    pub to: i64,
}

/// A stretch of whole weeks.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Axis {
    /// The number of each week, as it should read.
    pub weeks: Vec<String>,
    /// The months it touches.
    pub months: Vec<Month>,
}

impl Axis {
    /// Length in days.
    pub fn days(&self) -> i64 {
        7 * signed(self.weeks.len())
    }
}

/// Height of the ruler in points.
pub(super) const RULER: f64 = 21.0;

/// An axis laid on a page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale<'a> {
    pub(super) axis: &'a Axis,
    pub(super) left: f64,
    pub(super) right: f64,
}

impl Scale<'_> {
    /// Place of the start of a day, kept on the axis.
    pub(super) fn x(&self, day: i64) -> f64 {
        let days = self.axis.days().max(1);
        self.left + (self.right - self.left) * real_i(day.clamp(0, days)) / real_i(days)
    }

    /// Width of a week.
    pub(super) fn week(&self) -> f64 {
        (self.right - self.left) / real(self.axis.weeks.len().max(1))
    }

    /// Draws months and week numbers with their upper side at `top`; below them the months' ground down to `low`.
    pub(super) fn draw(&self, page: &mut Page, top: f64, low: f64) {
        let wash = top + RULER;
        for (n, month) in self.axis.months.iter().enumerate() {
            let (a, b) = (self.x(month.from), self.x(month.to));
            if b - a < 0.5 {
                continue;
            }
            if n % 2 == 0 {
                let at = Outline { left: a, top, right: b, bottom: low };
                page.pane(at, 0.0, Fill::Flat(Rgb::WASH), Edge::NONE);
            }
            if a > self.left + 0.5 {
                page.line((a, top), (a, low), Edge::HAIR);
            }
            let style = Style::bold(7.6).middle();
            let short: String = month.name.chars().take(3).collect();
            let words = [month.name.as_str(), short.as_str()];
            if let Some(words) = words.into_iter().find(|w| style.width(w) < b - a - 2.0) {
                page.write(f64::midpoint(a, b), top + 8.4, style, words);
            }
        }
        self.numbers(page, top + 17.4);
        page.line((self.left, wash), (self.right, wash), Edge::solid(Rgb::SOFT, 0.5));
    }

    fn numbers(&self, page: &mut Page, y: f64) {
        let style = Style::plain(5.6).soft().middle();
        let widest = self.axis.weeks.iter().map(|w| style.width(w)).fold(0.0, f64::max);
        let step = [1, 2, 4, 8].into_iter().find(|s| self.week() * real(*s) > widest + 1.6).unwrap_or(13);
        for (n, number) in self.axis.weeks.iter().enumerate().step_by(step) {
            page.write(self.left + self.week() * (real(n) + 0.5), y, style, number);
        }
    }
}
