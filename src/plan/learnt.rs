//! What the garden has learnt about itself, and the conditions its plantings grow under.

use super::{Plan, Planting};
use crate::crop::{Book, Clock, Crop, CropId};
use crate::garden::Cover;
use crate::growth::{Conditions, OwnDays, Sprouting, days_shown, own_days};
use crate::site::SiteYear;
use std::collections::BTreeMap;

impl Plan {
    /// Days to maturity by what really happened here: from plantings whose beginning and first picking are known.
    pub fn own_days(&self, book: &Book, year: &SiteYear) -> BTreeMap<CropId, OwnDays> {
        let plain = self.plain(year);
        let seen: Vec<(CropId, f64)> = self
            .plantings
            .iter()
            .filter_map(|p| {
                let crop = book.get(&p.crop)?;
                if !matches!(crop.clock, Clock::Heat { .. }) {
                    return None;
                }
                let begun = match p.start {
                    crate::crop::Start::InPlace => p.real.sown?,
                    crate::crop::Start::Raised { .. }
                    | crate::crop::Start::Bought
                    | crate::crop::Start::Piece(_) => p.real.set_out?,
                };
                let days = days_shown(crop, &plain, p.start, begun, p.real.first_pick?)?;
                Some((crop.id.clone(), days))
            })
            .collect();
        own_days(book, &seen)
    }

    /// The grower's choices at a site, without what the garden has learnt.
    fn plain<'a>(&self, year: &'a SiteYear) -> Conditions<'a> {
        let mut out = Conditions::new(year).by(self.settings.method).at(self.settings.risk);
        if let Some(place) = self.raising.first() {
            out.raising = place.temperature.celsius();
        }
        out
    }

    /// The conditions of the garden in the open: the grower's choices, the first raising place, and this garden's own
    /// days to maturity.
    pub fn conditions<'a>(&self, book: &Book, year: &'a SiteYear) -> Conditions<'a> {
        let own = self.own_days(book, year).into_iter().map(|(crop, own)| (crop, own.days)).collect();
        self.plain(year).knowing(own)
    }

    /// The conditions of one planting: the raising place that suits its seed best, and a cover that lies over all of
    /// its cells when it goes in. `open` are those of the garden.
    pub fn conditions_of<'a>(
        &self,
        open: &Conditions<'a>,
        planting: &Planting,
        crop: &Crop,
    ) -> Conditions<'a> {
        let mut out = open.clone();
        let seed = Sprouting::new(&crop.germination);
        let rate = |t: f64| seed.as_ref().map_or(0.0, |s| s.rate(t));
        let there = self.raising.iter().map(|r| r.temperature.celsius());
        out.raising = there.max_by(|a, b| rate(*a).total_cmp(&rate(*b))).unwrap_or(out.raising);
        match self.cover_over(planting) {
            Some(cover) => out.under(cover.warmth.celsius(), cover.frost_gain.celsius()),
            None => out,
        }
    }

    /// The cover that lies over all cells of a planting on the day it takes them.
    pub fn cover_over(&self, planting: &Planting) -> Option<&Cover> {
        let begin = planting.begins()?;
        self.place(&planting.place)?.covers.iter().find(|c| {
            c.from <= begin
                && begin < c.until
                && planting.block.cells().all(|(row, col)| c.cells.holds(row, col))
        })
    }
}
