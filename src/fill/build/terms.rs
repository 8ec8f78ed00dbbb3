//! What lies between plantings and weeks: the season, good and bad neighbours, shade, pairs in one drill.

use super::{Builder, POINT};
use crate::calendar::{ClimateDay, Date, plus};
use crate::crop::{Crop, Grade, Habit, MateTime, Start};
use crate::fill::problem::{Near, Weeks, weeks};
use crate::fill::ways::{self, Clock, Drawing, Supplies};
use crate::garden::Layer;
use crate::site::SHORT_DAY;

/// Points for each shared edge and week: a neighbour that helps, one that harms, a tall plant on the sunward side.
const BESIDE: (i64, i64, i64) = (POINT * 6 / 100, -POINT * 8 / 100, -POINT * 12 / 100);
/// Mean temperature from which plants grow, degrees Celsius (ETCCDI growing season length).
const GROWS: f64 = 5.0;

impl Builder<'_> {
    /// The season: the weeks in which a quick crop of the book can stand here and really grows: their mean
    /// temperature is at least 5 C (growing season of the WMO climate indices) and their days are not under ten
    /// hours.
    pub(super) fn idle(&mut self) {
        let mut season: Weeks = 0;
        let clock = Clock { from: Date::MIN, last: self.season.last(), ..self.clock };
        let drawing = Drawing {
            plan: self.plan,
            clock: &clock,
            supplies: Supplies::default(),
            scale: 0.0,
            opens: false,
            by_cell: true,
        };
        // The season is the climate's: what this garden has learnt of a crop does not stretch it.
        let open = self.open.clone().knowing(std::collections::BTreeMap::new());
        for crop in self.book.crops().filter(|c| c.catch && c.is_food() && c.starts.contains(&Start::InPlace))
        {
            for begin in ways::starts(crop, &open, Start::InPlace, &drawing).begins {
                season |= begin.taken;
            }
        }
        for week in 0..self.clock.weeks {
            let day = ClimateDay::of(self.clock.date(week)).index();
            let grows = self.year.tmean[day] >= GROWS && self.year.daylength[day] >= SHORT_DAY;
            if !grows {
                season &= !(1 << week);
            }
        }
        let last = self.clock.on_or_after(plus(self.season.last(), 1));
        self.problem.season = season & weeks(0, last);
    }

    pub(super) fn neighbours(&mut self) {
        let crops: Vec<Option<&Crop>> = self.grown.iter().map(|g| self.book.get(&g.crop)).collect();
        let is = |crop: &Crop, text: &str| crop.id.0 == text || crop.base().0 == text || crop.family == text;
        for (a, one) in crops.iter().enumerate() {
            for (b, two) in crops.iter().enumerate() {
                let (Some(one), Some(two)) = (one, two) else { continue };
                let claim = one.neighbours.iter().find(|n| n.grade <= Grade::B && is(two, &n.with));
                if let Some(claim) = claim {
                    let value = if claim.helps { BESIDE.0 } else { BESIDE.1 };
                    self.problem.neighbours.push(Near { a, b, value });
                }
                let tall = one.height.m() >= 1.2 || matches!(one.habit, Habit::Climbing);
                if tall && two.height.m() < 0.5 * one.height.m() && two.light.full >= 6.0 {
                    self.problem.shades.push(Near { a, b, value: BESIDE.2 });
                }
                let drill = two
                    .mates
                    .iter()
                    .any(|m| m.when == MateTime::Always && (m.main == one.id || m.main == *one.base()));
                if drill && self.grown[b].layer == Layer::Mate && self.grown[a].layer == Layer::Main {
                    self.problem.pairs.push((a, b));
                }
            }
        }
    }
}
