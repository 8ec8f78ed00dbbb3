//! What of the book fits the cell at the cursor, in its light, from the shown week on, in so many weeks.

use super::{Purpose, Reading};
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::view::View;
use crate::calendar::{Date, Week, day_text, days_between};
use crate::crop::CropId;
use crate::garden::{Block, Layer, PlaceId};
use crate::growth::Free;
use crate::plan::Planting;
use crate::units::num;
use crate::work::fitting;

/// The crops the book is narrowed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Narrowed {
    /// The bed or pot.
    place: PlaceId,
    /// Row and column of the cell.
    cell: (u16, u16),
    /// Weeks it is free; none: nothing waits for it.
    weeks: Option<u16>,
    /// What they were chosen by, in words.
    pub words: String,
    /// The crops with their dates in words, those that begin first coming first.
    pub crops: Vec<(CropId, String)>,
    /// Of which week and state of the garden they are true.
    stamp: Option<(Week, u64)>,
}

impl Narrowed {
    /// The dates of a crop in words; none where it does not fit.
    pub fn dates(&self, id: &CropId) -> Option<&str> {
        self.crops.iter().find(|(crop, _)| crop == id).map(|(_, words)| words.as_str())
    }
}

/// First free day: the garden day of the shown week, but not before today.
fn from(model: &Model) -> Date {
    model.shown_day().max(model.today)
}

/// The cell that is asked about and the day on which the next planting takes it.
fn spot(model: &Model) -> Option<(PlaceId, (u16, u16), Option<Date>)> {
    let (place, cell) = model.bed_cell()?;
    let day = from(model);
    let here = |p: &&Planting| p.layer == Layer::Main && p.block.holds(cell.0, cell.1);
    let later = model.shown().plantings_in(&place.id).filter(here).filter_map(Planting::begins);
    Some((place.id.clone(), cell, later.filter(|begins| *begins > day).min()))
}

fn where_words(model: &Model, place: &PlaceId, (row, col): (u16, u16)) -> String {
    crate::app::where_words(model, place, Block::cell(row, col))
}

/// Narrows the book, or shows it whole again.
pub(in crate::app) fn switch(model: &mut Model) {
    if model.narrowed.take().is_some() {
        model.lines.insert(View::Book, 0);
        model.say(Tone::Plain, "Every crop is shown again.");
        return;
    }
    let Some((_, _, next)) = spot(model) else { return };
    let weeks = next.map(|day| days_between(from(model), day) / 7);
    let text = weeks.map_or_else(String::new, |weeks| weeks.to_string());
    super::open(model, Purpose::Narrow, &text);
}

pub(super) fn title(model: &Model) -> String {
    let here = spot(model).map_or_else(String::new, |(place, cell, _)| where_words(model, &place, cell));
    format!("What fits {here} from {}: free for how many weeks? empty: no end", day_text(from(model)))
}

fn weeks(text: &str) -> Result<Option<u16>, String> {
    let text = text.trim().trim_end_matches("weeks").trim_end_matches("week").trim();
    if text.is_empty() {
        return Ok(None);
    }
    let number = text.parse::<u16>().ok().filter(|n| (1..=104).contains(n));
    number.map(Some).ok_or_else(|| String::from("Write a number of weeks, 1 to 104, or nothing."))
}

pub(super) fn read(model: &Model, text: &str) -> Reading {
    match weeks(text) {
        Err(words) => Reading::say(Tone::Mind, words),
        Ok(_) => match spot(model).and_then(|(_, _, next)| next) {
            Some(next) => {
                Reading::say(Tone::Plain, format!("the next planting takes the cell on {}", day_text(next)))
            }
            None => Reading::say(Tone::Plain, "nothing is planned in the cell after that day"),
        },
    }
}

pub(super) fn accept(model: &mut Model, text: &str) -> Result<Vec<Effect>, String> {
    let weeks = weeks(text)?;
    let Some((place, cell, _)) = spot(model) else {
        return Err(String::from("There is no bed or pot under the cursor."));
    };
    model.narrowed =
        Some(Narrowed { place, cell, weeks, words: String::new(), crops: Vec::new(), stamp: None });
    model.lines.insert(View::Book, 0);
    model.scroll = 0;
    model.reckon_narrowed();
    Ok(Vec::new())
}

impl Model {
    /// Reckons what fits anew, where the week or the plan has changed since.
    pub(in crate::app) fn reckon_narrowed(&mut self) {
        let stamp = Some((self.week, self.revision));
        let Some(mut fits) = self.narrowed.take_if(|fits| fits.stamp != stamp) else { return };
        let (Ok(year), Some(place)) = (self.year.clone(), self.plan.place(&fits.place)) else { return };
        let free = Free { today: self.today, from: from(self), weeks: fits.weeks };
        let mut wanted = place.offers(Some(fits.cell));
        let sun = self.plan.sun_on(&self.book, &year, self.season(), place, fits.cell);
        wanted.sun = Some(num::narrow(sun));
        let open = self.plan.conditions(&self.book, &year);
        let found = fitting(&self.book, &wanted, Some(place), free, |crop| self.plan.raised_for(&open, crop));
        fits.crops = found.iter().map(|fit| (fit.crop.id.clone(), fit.words(free))).collect();
        let weeks = fits.weeks.map_or_else(String::new, |n| format!(", ripe in {n} weeks"));
        fits.words = format!(
            "Fits {}: {}; from {}{weeks}.",
            where_words(self, &fits.place, fits.cell),
            wanted.words(self.plan.settings.measure),
            day_text(free.from)
        );
        fits.stamp = stamp;
        self.narrowed = Some(fits);
    }
}
