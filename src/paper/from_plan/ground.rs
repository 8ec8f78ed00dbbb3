//! The ground of a plan in a week.

use super::{Source, cells, end};
use crate::calendar::{ClimateDay, Date, Week, day_text, plus};
use crate::garden::{Layer, Place, Shape};
use crate::growth::Stage;
use crate::paper::ground::{GroundBed, GroundBlock, GroundPlan, GroundSupport, GroundView};
use crate::plan::Planting;
use crate::units::Length;

/// Weeks from the beginning of the season to the four pictures of a season series: the middle of each quarter.
const QUARTERS: [i64; 4] = [6, 19, 32, 45];

impl Source<'_> {
    /// The ground in one week.
    pub fn ground(&self, week: Week) -> GroundPlan {
        self.grounds("The ground", &[week])
    }

    /// The ground in the middle of each quarter of the season.
    pub fn seasons(&self) -> GroundPlan {
        let first = Week::of(self.season.first());
        let weeks: Vec<_> = QUARTERS.into_iter().map(|n| first.plus(n)).collect();
        self.grounds("The ground through the year", &weeks)
    }

    fn grounds(&self, title: &str, weeks: &[Week]) -> GroundPlan {
        GroundPlan {
            title: title.to_owned(),
            note: self.plan.note.clone(),
            // Places are laid out from the north-west corner: north is up.
            north: 0.0,
            measure: self.plan.settings.measure,
            views: weeks.iter().map(|w| self.view(*w)).collect(),
        }
    }

    fn view(&self, week: Week) -> GroundView {
        let day = week.day(self.plan.settings.garden_day);
        let beds = self.plan.places_on(day).map(|place| self.bed(place, week, day)).collect();
        GroundView { week, note: self.facts(week), beds }
    }

    /// Light, soil and frost of a week in a line.
    pub(super) fn facts(&self, week: Week) -> String {
        let middle = plus(week.monday(), 3);
        let day = ClimateDay::of(middle);
        let hours = self.year.light_on(middle);
        let frost = self.year.frost_plain(0.0);
        let minutes = crate::units::num::round_u(hours * 60.0);
        let soil = self.year.soil[day.index()];
        let temperature = crate::units::Temperature::new(soil, crate::units::TempUnit::C);
        let mut words = vec![
            format!("{} h {:02} min of light", minutes / 60, minutes % 60),
            format!("soil {}", temperature.reading(self.plan.settings.measure)),
        ];
        let (later, before) = (frost.later(day), frost.before(day));
        if later > 0.005 {
            words.push(format!("{:.0} % chance that a frost still comes", 100.0 * later));
        }
        if before > 0.005 {
            words.push(format!("{:.0} % chance that a frost has come", 100.0 * before));
        }
        words.join(", ")
    }

    fn bed(&self, place: &Place, week: Week, day: Date) -> GroundBed {
        let at = place.at_on(day);
        let (across, down) = place.size();
        let grid = place.grid(self.plan.settings.cell);
        let mut here: Vec<&Planting> = self
            .plan
            .plantings_in(&place.id)
            .filter(|p| p.begins().is_some_and(|b| b <= day) && end(p).is_none_or(|e| day < e))
            .collect();
        here.sort_by_key(|p| (p.layer, p.block.row, p.block.col, p.id));
        let supports =
            place.supports.iter().filter(|s| s.from <= day && s.until.is_none_or(|u| day < u)).map(|s| {
                GroundSupport { at: (s.cells.row, s.cells.col), size: (s.cells.rows, s.cells.cols) }
            });
        GroundBed {
            name: place.name.clone(),
            x: millimetres(at.x),
            y: millimetres(at.y),
            across: millimetres(across),
            down: millimetres(down),
            round: matches!(place.shape, Shape::Round { .. }),
            grid,
            blocks: here.iter().map(|p| self.block(p, grid, week)).collect(),
            supports: supports.collect(),
        }
    }

    fn block(&self, p: &Planting, grid: (u16, u16), week: Week) -> GroundBlock {
        GroundBlock {
            cells: if grid == (1, 1) { String::new() } else { cells(p.block) },
            at: (p.block.row, p.block.col),
            size: (p.block.rows, p.block.cols),
            name: p.name.clone(),
            code: self.code(p),
            amount: p.plants.to_string(),
            family: self.family(&p.family),
            tint: self.tint(&p.family),
            mate: p.layer == Layer::Mate,
            stage: stage(p, week),
        }
    }
}

/// What a planting does in a week: the last stage it reaches by its end, with the day where it is in this week.
fn stage(p: &Planting, week: Week) -> String {
    let dates = p.dates();
    let picked = dates.first_pick.is_some_and(|first| first <= week.sunday());
    if picked && dates.last_pick.or(dates.first_pick).is_some_and(|last| last >= week.monday()) {
        return "picked".to_owned();
    }
    let stages = [
        (Stage::Cleared, dates.cleared),
        (Stage::SetOut, dates.set_out),
        (Stage::Emerged, dates.emerged),
        (Stage::Sown, dates.sown),
    ];
    for (stage, date) in stages {
        if let Some(date) = date.filter(|d| week.holds(*d)) {
            return format!("{} {}", stage.word(), day_text(date));
        }
    }
    if picked {
        return "picked out".to_owned();
    }
    "growing".to_owned()
}

fn millimetres(length: Length) -> f64 {
    length.m() * 1000.0
}
