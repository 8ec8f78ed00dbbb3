//! What the garden has learnt about itself, and the conditions its plantings grow under.

use super::{Plan, Planting};
use crate::crop::{Book, Clock, Crop, CropId, Start};
use crate::garden::Cover;
use crate::growth::{Conditions, OwnDays, Sprouting, days_shown, own_days};
use crate::site::SiteYear;
use std::collections::BTreeMap;

impl Plan {
    /// Days to maturity by what really happened here: from plantings whose beginning and first picking are known.
    pub fn own_days(&self, book: &Book, year: &SiteYear) -> BTreeMap<CropId, OwnDays> {
        self.learnt(book, &self.choices(year))
    }

    fn learnt(&self, book: &Book, plain: &Conditions<'_>) -> BTreeMap<CropId, OwnDays> {
        let january = plain.year.season_start_or_january();
        let seen: Vec<(CropId, i32, f64)> = self
            .plantings
            .iter()
            .filter_map(|p| {
                let picked = p.real.first_pick?;
                let begun = match p.start {
                    Start::InPlace => p.real.sown?,
                    Start::Raised { .. } | Start::Bought | Start::Piece(_) => p.real.set_out?,
                };
                let crop = book.get(&p.crop)?;
                if !matches!(crop.clock, Clock::Heat { .. }) {
                    return None;
                }
                let days = days_shown(crop, plain, p.start, begun, picked)?;
                Some((crop.id.clone(), self.season(picked, january).year(), days))
            })
            .collect();
        own_days(book, &seen)
    }

    /// The grower's choices at a site, without what the garden has learnt.
    ///
    /// What the garden learns is learnt with these, and the diary moves dates with them: a planting's own real dates
    /// already hold what it shows of itself. With the garden's own days as well, one early picking would count twice:
    /// in the dates of its planting, and again, through the days it taught, in those of every planting of the crop
    /// that stands, each time an entry is written. Plantings yet to be planned are reckoned with [`Plan::conditions`].
    pub fn choices<'a>(&self, year: &'a SiteYear) -> Conditions<'a> {
        let mut out = Conditions::new(year).by(self.settings.method).at(self.settings.risk);
        if let Some(place) = self.raising.first() {
            out.raising = place.temperature.celsius();
        }
        out
    }

    /// The conditions of the garden in the open: the grower's choices, the first raising place, and this garden's own
    /// days to maturity.
    pub fn conditions<'a>(&self, book: &Book, year: &'a SiteYear) -> Conditions<'a> {
        let plain = self.choices(year);
        let own = self.learnt(book, &plain).into_iter().map(|(crop, own)| (crop, own.days)).collect();
        plain.knowing(own)
    }

    /// The conditions of a crop: seedlings in the raising place that suits its seed best. `open` are those of the
    /// garden.
    pub fn raised_for<'a>(&self, open: &Conditions<'a>, crop: &Crop) -> Conditions<'a> {
        let mut out = open.clone();
        let seed = Sprouting::new(&crop.germination);
        let rate = |t: f64| seed.as_ref().map_or(0.0, |s| s.rate(t));
        let there = self.raising.iter().map(|r| r.temperature.celsius());
        out.raising = there.max_by(|a, b| rate(*a).total_cmp(&rate(*b))).unwrap_or(out.raising);
        out
    }

    /// The conditions of one planting: its crop's, under a cover that lies over all of its cells when it goes in.
    pub fn conditions_of<'a>(
        &self,
        open: &Conditions<'a>,
        planting: &Planting,
        crop: &Crop,
    ) -> Conditions<'a> {
        let out = self.raised_for(open, crop);
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
