//! What may follow in one freed cell: which crops fit it on a day, the best first, and why others do not.
//!
//! The question is the fill's own with everything planned settled and every crop of the book allowed to begin on that
//! one day, so that no rule is left out.

use super::build::{Built, Scope, amount, build_for};
use super::model::{Act, Model};
use super::problem::{Bar, Layer as On};
use super::request::Request;
use super::state::State;
use super::tell::Teller;
use crate::calendar::{Date, day_text};
use crate::crop::{Book, CropId, Start};
use crate::garden::{Block, Layer, PlaceId};
use crate::growth::Dates;
use crate::plan::{Plan, WishId};
use crate::site::SiteYear;
use crate::units::Amount;
use crate::units::num::{index, real_i, small, word};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Crops told of that do not fit, at most.
const OUT: usize = 12;

/// A cell on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Freed {
    /// Its bed or pot.
    pub place: PlaceId,
    /// Row, from 0 at the north.
    pub row: u16,
    /// Column, from 0 at the west.
    pub col: u16,
    /// The day on which something is to go into it.
    pub on: Date,
}

/// A crop that fits, as it would be planted.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// The crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// How it is started.
    pub start: Start,
    /// The block, the freed cell in it.
    pub block: Block,
    /// Main planting, or a mate of what stands there.
    pub layer: Layer,
    /// Plants.
    pub plants: u16,
    /// Its dates.
    pub dates: Dates,
    /// Chance that it is ripe before a killing frost, 0 to 1.
    pub chance: f64,
    /// What it adds to the plan, points.
    pub points: f64,
    /// The wish it helps to meet, and what of it that is still short.
    pub wish: Option<(WishId, Amount)>,
    /// Weeks of the growing season in which it uses the cell.
    pub weeks: u32,
}

/// A crop that does not fit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unfit {
    /// The crop.
    pub crop: CropId,
    /// Its name.
    pub name: String,
    /// Whether a wish for it is short.
    pub wished: bool,
    /// Why.
    pub why: String,
}

/// What may follow in a cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Handover {
    /// What stands in the cell on that day, and until when as far as that is known.
    pub standing: Option<(String, Option<Date>)>,
    /// The day on which the next planting takes the cell; none where none is planned.
    pub until: Option<Date>,
    /// What fits, the best first: by points, then by the weeks of the season it fills.
    pub fits: Vec<Fit>,
    /// What does not, crops of wishes that are short first.
    pub unfit: Vec<Unfit>,
}

/// Ranks what may go into a freed cell; none where the garden has no such cell on that day.
pub fn handover(plan: &Plan, book: &Book, year: &SiteYear, freed: &Freed) -> Option<Handover> {
    let built = build_for(plan, book, year, (Request::from(freed.on), Scope::Today));
    let bed = built.places.iter().position(|p| p.id == freed.place && p.stands_on(freed.on))?;
    let size = (built.problem.beds[bed].height, built.problem.beds[bed].width);
    if usize::from(freed.row) >= size.0 || usize::from(freed.col) >= size.1 {
        return None;
    }
    let model = Model::new(&built.problem);
    let mut asking = Asking { built: &built, state: State::new(&model), bed, freed };
    let (fits, unfit) = asking.rank();
    let here = |p: &&crate::plan::Planting| {
        p.place == freed.place && p.layer == Layer::Main && p.block.holds(freed.row, freed.col)
    };
    let standing = plan.plantings.iter().filter(here).find(|p| p.stands_on(freed.on) && p.failed.is_none());
    Some(Handover {
        standing: standing.map(|p| (p.name.clone(), p.ends())),
        until: plan
            .plantings
            .iter()
            .filter(here)
            .filter_map(crate::plan::Planting::begins)
            .filter(|b| *b > freed.on)
            .min(),
        fits,
        unfit,
    })
}

struct Asking<'a> {
    built: &'a Built<'a>,
    state: State<'a>,
    bed: usize,
    freed: &'a Freed,
}

impl Asking<'_> {
    /// The best way of each crop that fits, and why the others do not.
    fn rank(&mut self) -> (Vec<Fit>, Vec<Unfit>) {
        let model = self.state.model;
        let mut best: BTreeMap<&CropId, Fit> = BTreeMap::new();
        let mut against: BTreeMap<&CropId, (u8, usize, String)> = BTreeMap::new();
        let built = self.built;
        for (w, grown) in built.grown.iter().enumerate() {
            let mut told = self.closed(w);
            for form in model.forms.iter().filter(|f| f.way == w) {
                for a in form.acts.clone() {
                    match self.try_act(word(a)) {
                        Ok(fit) => {
                            let better = |old: &Fit| key(&fit) < key(old);
                            if best.get(&grown.crop).is_none_or(better) {
                                best.insert(&grown.crop, fit);
                            }
                        }
                        Err(why) => told = told.max(Some(why)),
                    }
                }
            }
            if let Some((nearness, words)) = told {
                let known = against.entry(&grown.crop).or_insert_with(|| (nearness, w, words.clone()));
                if nearness > known.0 {
                    *known = (nearness, w, words);
                }
            }
        }
        let mut unfit: Vec<(bool, usize, Unfit)> = against
            .into_iter()
            .filter(|(crop, _)| !best.contains_key(crop))
            .filter_map(|(crop, (_, w, why))| {
                let name = built.problem.ways[w].name.clone();
                let wished = built.problem.ways[w].wish.is_some_and(|wish| self.is_short(wish));
                let crop = crop.clone();
                (wished || built.book.get(&crop)?.catch).then_some((
                    !wished,
                    w,
                    Unfit { crop, name, wished, why },
                ))
            })
            .collect();
        unfit.sort_by_key(|(rest, w, _)| (*rest, *w));
        let mut fits: Vec<Fit> = best.into_values().collect();
        fits.sort_by_key(key);
        (fits, unfit.into_iter().map(|u| u.2).take(OUT).collect())
    }

    fn is_short(&self, wish: usize) -> bool {
        let model = self.state.model;
        (model.wish_buckets[wish]..model.wish_buckets[wish + 1])
            .any(|b| self.state.harvest[b] < model.buckets[b].want)
    }

    /// What keeps a way out of the bed, or from starting on that day, with how near it came to fitting.
    fn closed(&self, w: usize) -> Option<(u8, String)> {
        let (way, grown) = (&self.built.problem.ways[w], &self.built.grown[w]);
        let measure = self.built.plan.settings.measure;
        let bar = way.barred.iter().find(|b| b.bed == self.bed).map(|b| {
            let (Bar::Unfit { label } | Bar::Break { label, .. }) = b.why;
            self.built.problem.labels.get(label).cloned().unwrap_or_default()
        });
        let refused = grown.refused.iter().find(|(week, _)| *week == 0).map(|(_, r)| r.words(measure));
        match (bar, refused) {
            (Some(words), _) => Some((1, words)),
            (None, Some(words)) => Some((2, words)),
            (None, None) if way.starts.is_empty() => {
                Some((0, String::from("it is raised first: not a start for today")))
            }
            (None, None) => None,
        }
    }

    /// The act at its best block over the cell, or what is in its way.
    fn try_act(&mut self, a: u32) -> Result<Fit, (u8, String)> {
        let model = self.state.model;
        let act = &model.acts[index(a)];
        let cell = model.offset[self.bed]
            + usize::from(self.freed.row) * self.built.problem.beds[self.bed].width
            + usize::from(self.freed.col);
        let over = |block: u32| model.list(block).iter().any(|&c| index(c) == cell);
        let sites: Vec<_> = model
            .sites(index(act.form), self.bed, act.week)
            .iter()
            .filter(|s| over(s.block))
            .copied()
            .collect();
        if sites.is_empty() {
            return Err((0, String::from("no block of it that suits the crop takes in this cell")));
        }
        let mut rivals = Vec::new();
        self.state.rivals(act, self.bed, &mut rivals);
        if !rivals.is_empty() {
            return Err((
                4,
                String::from("it would come too soon before or after its own family in this soil"),
            ));
        }
        if let Some(slot) = self.state.lack(act) {
            let weeks = self.built.problem.weeks;
            let needs = model.uses(act).iter().find(|u| index(u.0) == slot).map_or(0, |u| u.1);
            let missing = needs + self.state.used[slot] - model.supply[slot];
            let teller = Teller { problem: &self.built.problem, garden: Some(self.built) };
            return Err((6, teller.supply(slot / weeks, slot % weeks, missing)));
        }
        let free = |block: u32| model.list(block).iter().all(|&c| !self.state.closed(act, index(c)));
        let cost = |s: &super::model::Site| {
            s.cost + self.state.repeats(act, s.block) - self.state.near(act, s.block)
        };
        let Some(site) = sites.iter().filter(|s| free(s.block)).min_by_key(|s| (cost(s), s.block)).copied()
        else {
            let end = self.built.clock.date(act.end.min(self.built.problem.weeks));
            return Err((5, format!("it stands until {}, longer than the cells are free", day_text(end))));
        };
        self.fit(a, act, site).ok_or_else(|| (0, String::from("it cannot be planted here")))
    }

    fn fit(&mut self, a: u32, act: &Act, site: super::model::Site) -> Option<Fit> {
        let model = self.state.model;
        let placed = model.placed(a, site.block)?;
        let (way, grown) = (&self.built.problem.ways[placed.way], &self.built.grown[placed.way]);
        let sown = grown.sown.get(placed.start)?;
        let wish = way.wish.and_then(|wish| {
            let short = |b: usize| (model.buckets[b].want - self.state.harvest[b]).max(0);
            let adds: i64 = model.gives(act).iter().map(|&(b, n)| n.min(short(index(b)))).sum();
            let id = *self.built.wishes.get(wish)?;
            (adds > 0).then_some((id, amount(self.built.plan.wish(id)?.amount, adds)))
        });
        let before = self.state.value;
        let p = self.state.set(a, site, false);
        let net = self.state.value - before;
        self.state.take(p);
        let wait = way.starts.get(placed.start).map_or(0, |s| s.wait);
        Some(Fit {
            crop: grown.crop.clone(),
            name: way.name.clone(),
            start: grown.start,
            block: Block {
                row: small(placed.row),
                col: small(placed.column),
                rows: small(placed.height),
                cols: small(placed.width),
            },
            layer: if way.layer == On::Mate { Layer::Mate } else { Layer::Main },
            plants: small(usize::try_from(way.shapes.get(placed.shape)?.plants).unwrap_or(1)),
            dates: sown.dates,
            chance: sown.chance,
            points: real_i(net) / real_i(self.built.problem.point),
            wish,
            weeks: (act.taken & !wait & self.built.problem.season).count_ones(),
        })
    }
}

/// The order of what fits: points, then whether it is eaten or cut, then weeks filled, then the name.
fn key(fit: &Fit) -> (Reverse<i64>, bool, Reverse<u32>, String) {
    let points = crate::units::num::round_i(fit.points.max(0.0) * 10.0);
    (Reverse(points), fit.dates.first_pick.is_none(), Reverse(fit.weeks), fit.name.clone())
}
