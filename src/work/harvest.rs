//! Picking, week by week.

use super::amounts::inside;
use super::desk::{Desk, Draft};
use super::job::{Job, JobKind};
use crate::calendar::{Date, Week, day_text};
use crate::crop::{Crop, PickShape};
use crate::plan::{Event, Planting, Why};
use crate::units::num;

impl Desk<'_> {
    /// A picking job for each week asked for in which a planting is picked and the diary has no picking.
    pub(super) fn picking_jobs(&self, planting: &Planting, crop: &Crop) -> Vec<Job> {
        let dates = planting.dates();
        let Some(first) = dates.first_pick else { return Vec::new() };
        let ended = planting.real.last_pick.is_some() || planting.real.cleared.is_some();
        let over = planting.ends().is_some_and(|e| e < self.from);
        if first > self.to || ended || over || planting.why == Why::Cover {
            return Vec::new();
        }
        let mut out = Vec::new();
        for (week, share) in
            planting.harvest(crop, &self.plan.conditions_of(&self.conditions, planting, crop))
        {
            let (from, to) = (week.monday().max(first), week.sunday());
            let asked = self.asks(from) || self.asks(to);
            if !asked || from > to || self.picked_in(planting, week) {
                continue;
            }
            let nth = num::word(num::count(Week::of(first).until(week)));
            let usual = crop.harvest.usual;
            let amount = usual.with_value(usual.value() * f64::from(planting.plants) * share);
            let draft = Draft {
                kind: JobKind::Pick,
                nth,
                what: format!("Pick {}", inside(&planting.name)),
                amount: format!("about {}", amount.reading(self.measure())),
                minutes: self.plan.settings.minutes.pick.minutes(planting.plants),
                why: rhythm(crop, dates.last_pick),
            };
            out.push(self.job(Some(planting), draft, from, (from, to)));
        }
        out
    }

    fn picked_in(&self, planting: &Planting, week: Week) -> bool {
        self.entries().any(|e| {
            e.planting == Some(planting.id) && week.holds(e.on) && matches!(e.what, Event::Picked(_))
        })
    }
}

/// How often, and until when.
fn rhythm(crop: &Crop, last: Option<Date>) -> String {
    let until = last.map_or_else(String::new, |d| format!(", until about {}", day_text(d)));
    match crop.picking.shape {
        PickShape::Once => "ready: all at one time, or a few at a time while it holds".to_owned(),
        PickShape::Flush => format!("every 1-3 days while it comes{until}"),
        PickShape::Steady => format!("the more it is picked the more it bears{until}"),
        PickShape::Cut { .. } => format!("cut, and it comes again{until}"),
    }
}
