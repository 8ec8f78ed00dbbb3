//! Weeks across: the ruler that the timeline and the kitchen calendar share.

use chrono::Datelike as _;

use super::ink::Rgb;
use super::page::{Edge, Fill, Outline, Page, Style};
use crate::calendar::{Date, Season, Week, days_between, plus};
use crate::units::num::{real, real_i, signed};

/// A stretch of whole weeks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Axis {
    /// Its first week.
    pub first: Week,
    /// How many weeks.
    pub weeks: usize,
}

impl Axis {
    /// The weeks that touch a season.
    pub fn of(season: Season) -> Self {
        Self { first: Week::of(season.first()), weeks: season.weeks().count() }
    }
    /// Its first day.
    pub const fn begin(self) -> Date {
        self.first.monday()
    }
    /// The first day after it.
    pub fn end(self) -> Date {
        plus(self.begin(), 7 * signed(self.weeks))
    }
    /// Its weeks.
    pub fn each(self) -> impl Iterator<Item = Week> {
        (0..signed(self.weeks)).map(move |n| self.first.plus(n))
    }
    /// The first days of the months that touch it, the first of them before or at its start.
    fn months(self) -> Vec<Date> {
        let mut day = self.begin().with_day(1).unwrap_or_else(|| self.begin());
        let mut out = Vec::new();
        while day < self.end() {
            out.push(day);
            day = next_month(day);
        }
        out
    }
}

fn next_month(first: Date) -> Date {
    let day = plus(first, 32);
    day.with_day(1).unwrap_or(day)
}

/// The full English name of a date's month.
pub(super) fn month_name(date: Date) -> &'static str {
    let number = u8::try_from(date.month()).unwrap_or(1);
    chrono::Month::try_from(number).map_or("", |m| m.name())
}

/// Height of the ruler in points.
pub(super) const RULER: f64 = 21.0;

/// An axis laid on a page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    pub(super) axis: Axis,
    pub(super) left: f64,
    pub(super) right: f64,
}

impl Scale {
    /// Place of the start of a day, kept on the axis.
    pub(super) fn x(&self, date: Date) -> f64 {
        let days = 7 * signed(self.axis.weeks.max(1));
        let day = days_between(self.axis.begin(), date).clamp(0, days);
        self.left + (self.right - self.left) * real_i(day) / real_i(days)
    }

    /// Width of a week.
    pub(super) fn week(&self) -> f64 {
        (self.right - self.left) / real(self.axis.weeks.max(1))
    }

    /// Draws months and week numbers with their upper side at `top`; below them the months' ground down to `low`.
    pub(super) fn draw(&self, page: &mut Page, top: f64, low: f64) {
        let wash = top + RULER;
        let style = Style::bold(7.6).middle();
        let months = self.axis.months();
        let room = |m: Date| self.x(next_month(m)) - self.x(m) - 2.0;
        // Whole names where every month has room for its own, else three letters.
        let whole = months.iter().all(|&m| room(m) < 12.0 || style.width(month_name(m)) < room(m));
        for (n, month) in months.into_iter().enumerate() {
            let (a, b) = (self.x(month), self.x(next_month(month)));
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
            let name = month_name(month);
            let words: String = if whole { name.to_owned() } else { name.chars().take(3).collect() };
            if style.width(&words) < room(month) {
                page.write(f64::midpoint(a, b), top + 8.4, style, &words);
            }
        }
        self.numbers(page, top + 17.4);
        page.line((self.left, wash), (self.right, wash), Edge::solid(Rgb::SOFT, 0.5));
    }

    fn numbers(&self, page: &mut Page, y: f64) {
        let style = Style::plain(5.6).soft().middle();
        let widest = style.width("53");
        let step = [1, 2, 4, 8].into_iter().find(|s| self.week() * real(*s) > widest + 1.6).unwrap_or(13);
        for (n, week) in self.axis.each().enumerate().step_by(step) {
            let x = self.left + self.week() * (real(n) + 0.5);
            page.write(x, y, style, &week.number().to_string());
        }
    }
}
