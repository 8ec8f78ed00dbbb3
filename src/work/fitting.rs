//! What of the crop book fits a spot: its room and light, the week it is free from, and for how long.

use crate::calendar::{Date, day_text, days_between};
use crate::check::kept_for;
use crate::crop::{Book, Crop, Start, Wanted};
use crate::garden::Place;
use crate::growth::{Conditions, Free, Schedule, in_time};

/// A crop that fits, as it would be grown.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitting<'a> {
    /// The crop.
    pub crop: &'a Crop,
    /// How and when.
    pub schedule: Schedule,
}

/// The crops and varieties of a book that are what is wanted, that a place is not kept from, and that are ripe while
/// it is free: those that begin first come first, then those that are picked first.
pub fn fitting<'a, 'y>(
    book: &'a Book,
    wanted: &Wanted,
    place: Option<&Place>,
    free: Free,
    conditions: impl Fn(&Crop) -> Conditions<'y>,
) -> Vec<Fitting<'a>> {
    let kept = |crop: &Crop| place.is_some_and(|p| p.tags.iter().any(|tag| kept_for(tag, crop).is_some()));
    let mut out: Vec<Fitting<'a>> = book
        .suited(wanted, |crop| !kept(crop))
        .into_iter()
        .filter_map(|crop| Some(Fitting { crop, schedule: in_time(crop, &conditions(crop), free)? }))
        .collect();
    out.sort_by_key(|f| (f.schedule.begins(), f.schedule.dates.first_pick, f.crop.id.clone()));
    out
}

impl Fitting<'_> {
    /// "sown in place 22 May, picked 20 Jun to 3 Jul", and what of the picking is lost where the spot is wanted before
    /// its end.
    pub fn words(&self, free: Free) -> String {
        let dates = self.schedule.dates;
        let day = |date: Option<Date>| date.map_or_else(String::new, day_text);
        let begins = day(self.schedule.begins());
        let start = match self.schedule.start {
            Start::InPlace => format!("sown {begins}"),
            Start::Raised { .. } => format!("raised from {}, set out {begins}", day(dates.sown)),
            Start::Bought => format!("bought, set out {begins}"),
            Start::Piece(_) => format!("planted {begins}"),
        };
        match (dates.first_pick, dates.last_pick) {
            _ if self.crop.is_perennial() => format!("{start}, stands for years"),
            (Some(first), Some(last)) => {
                let cut = match free.until().map_or(0, |end| days_between(end, last)) {
                    ..1 => String::new(),
                    1 => String::from(", the last day of it lost"),
                    days => format!(", the last {days} days of it lost"),
                };
                format!("{start}, picked {} to {}{cut}", day_text(first), day_text(last))
            }
            _ => format!("{start}, full-grown after {} days", self.schedule.days),
        }
    }
}
