//! The second layer of the aim: weeks in which a cell carries nothing are filled with catch crops, then with cover
//! crops, by an exact little programme per cell. Nothing it does changes the value of the wishes.

use super::model::{Model, NONE, Role, Site};
use super::problem::{Layer, Way, Weeks};
use super::state::State;
use crate::units::num::{index, signed, word};

/// Worth of one week of a cell under a catch crop; one point of soft cost weighs as much.
const CATCH: i64 = 1000;
/// Worth of one week of a cell under a cover crop: so little that no sum of them outweighs a catch crop's week.
const COVER: i64 = 4;
/// A crop is spread out: one that fills more than one gap in so many is used only where no other can, and so on down.
const ONE_IN: [usize; 5] = [5, 4, 3, 2, 0];

/// A filler at one start with the cells of a bed it may take.
#[derive(Debug)]
struct Filler {
    act: u32,
    way: usize,
    worth: i64,
    sites: Vec<Option<Site>>,
}

impl State<'_> {
    /// Fills idle cells; returns how many plantings were added.
    pub(crate) fn fill_idle(&mut self) -> usize {
        let model = self.model;
        let mut tally = Tally::new(model);
        self.fill_again(&mut tally);
        let beds: Vec<_> = (0..model.problem.beds.len()).map(|bed| options(model, bed)).collect();
        for one_in in ONE_IN {
            for (bed, options) in beds.iter().enumerate().filter(|(_, o)| o.iter().any(|o| !o.is_empty())) {
                for cell in 0..model.problem.beds[bed].cells() {
                    let chain = self.chain(bed, cell, options, |way| tally.spread(way, one_in));
                    for (act, site) in chain {
                        if self.may_fill(act, bed, model.offset[bed] + cell) {
                            self.set(act, site, false);
                            tally.add(index(model.acts[index(act)].way));
                        }
                    }
                }
            }
        }
        tally.gaps[0] + tally.gaps[1]
    }

    /// Fillers of the plan in force that still fit, before all others.
    fn fill_again(&mut self, tally: &mut Tally) {
        let model = self.model;
        for placed in model.problem.in_force(false) {
            let Some((act, site)) = model.act_of(placed).zip(model.site_of(placed)) else { continue };
            let &[cell] = model.list(site.block) else { continue };
            if self.may_fill(act, placed.bed, index(cell)) {
                self.set(act, site, false);
                tally.add(placed.way);
            }
        }
    }

    fn may_fill(&self, act: u32, bed: usize, cell: usize) -> bool {
        let act = &self.model.acts[index(act)];
        let mut rivals = Vec::new();
        self.rivals(act, bed, &mut rivals);
        rivals.is_empty()
            && !self.closed(act, cell)
            && self.mate[cell] & act.taken == 0
            && self.lack(act).is_none()
            && !self.comes_again(act, bed)
    }

    /// The chain of fillers of greatest worth for one cell, by going back through the weeks.
    fn chain(
        &self,
        bed: usize,
        cell: usize,
        options: &[Vec<Filler>],
        allowed: impl Fn(usize) -> bool,
    ) -> Vec<(u32, Site)> {
        let model = self.model;
        let at = model.offset[bed] + cell;
        let busy: Weeks = self.main[at] | self.mate[at];
        let weeks = model.problem.weeks;
        if model.problem.season & !busy & !model.problem.beds[bed].gone == 0 {
            return Vec::new();
        }
        let mut best = vec![(0_i64, NONE, None); weeks + 1];
        for week in (0..weeks).rev() {
            best[week] = (best[week + 1].0, NONE, None);
            if busy >> week & 1 == 1 {
                continue;
            }
            for option in &options[week] {
                let Some(site) = option.sites[cell] else { continue };
                let act = &model.acts[index(option.act)];
                if act.taken & busy != 0 || !allowed(option.way) {
                    continue;
                }
                let soft = (site.cost + self.repeats(act, site.block)) * CATCH / model.problem.point;
                let worth = option.worth - soft.min(option.worth - 1) + best[act.end].0;
                if worth > best[week].0 && self.may_fill(option.act, bed, at) {
                    best[week] = (worth, option.act, Some(site));
                }
            }
        }
        let mut out = Vec::new();
        let mut week = 0;
        while week < weeks {
            if let (_, act, Some(site)) = best[week] {
                out.push((act, site));
                week = model.acts[index(act)].end;
            } else {
                week += 1;
            }
        }
        out
    }

    /// Weeks of cells in the season that carry nothing, carry a cover crop alone, and all of them.
    pub(crate) fn ground_use(&self) -> (u64, u64, u64) {
        let model = self.model;
        let season = model.problem.season;
        let mut growing = vec![0; model.cells];
        let mut covered = vec![0; model.cells];
        for &p in &self.live {
            let act = self.act(p);
            let form = model.forms.get(index(act.form));
            let wait = form.map_or(0, |f| {
                model.problem.ways[f.way].starts[index(self.planting(p).act) - f.acts.start].wait
            });
            let cover = form.is_some_and(|f| f.role == Role::Cover);
            for &cell in model.list(self.planting(p).site.block) {
                let weeks = if cover { &mut covered } else { &mut growing };
                weeks[index(cell)] |= act.taken & !wait;
            }
        }
        let (mut idle, mut cover, mut all) = (0, 0, 0);
        let beds = model.problem.beds.iter().flat_map(|b| std::iter::repeat_n(b.gone, b.cells()));
        for ((grown, covered), gone) in growing.iter().zip(&covered).zip(beds) {
            let season = season & !gone;
            idle += u64::from((season & !grown & !covered).count_ones());
            cover += u64::from((season & covered & !grown).count_ones());
            all += u64::from(season.count_ones());
        }
        (idle, cover, all)
    }
}

/// Gaps filled so far.
#[derive(Debug)]
struct Tally {
    /// Crop and kind of filler of each way: under a cover and in the open a crop has ways of its own.
    ways: Vec<(usize, usize)>,
    /// By crop.
    used: Vec<usize>,
    /// With catch crops, with cover crops.
    gaps: [usize; 2],
}

impl Tally {
    fn new(model: &Model<'_>) -> Self {
        let ways = &model.problem.ways;
        let first = |way: &Way| ways.iter().position(|w| w.name == way.name && w.role == way.role);
        Self {
            ways: ways
                .iter()
                .map(|w| (first(w).unwrap_or_default(), usize::from(w.role == Role::Cover)))
                .collect(),
            used: vec![0; ways.len()],
            gaps: [0; 2],
        }
    }
    /// Whether the crop of a way fills no more than one gap in so many of its kind.
    fn spread(&self, way: usize, one_in: usize) -> bool {
        let (crop, kind) = self.ways[way];
        self.used[crop] * one_in <= self.gaps[kind] + one_in
    }
    fn add(&mut self, way: usize) {
        let (crop, kind) = self.ways[way];
        self.used[crop] += 1;
        self.gaps[kind] += 1;
    }
}

/// Fillers of a bed by start week.
fn options(model: &Model<'_>, bed: usize) -> Vec<Vec<Filler>> {
    let problem = model.problem;
    let mut out: Vec<Vec<Filler>> = (0..problem.weeks).map(|_| Vec::new()).collect();
    for (f, form) in model.forms.iter().enumerate() {
        let single = form.area == 1 && problem.ways[form.way].layer == Layer::Main;
        if form.role == Role::Wished || !single || !form.beds.contains(&bed) {
            continue;
        }
        for a in form.acts.clone() {
            let act = &model.acts[a];
            let start = &problem.ways[form.way].starts[a - form.acts.start];
            let growing = i64::from((act.taken & !start.wait & problem.season).count_ones());
            let mut sites = vec![None; problem.beds[bed].cells()];
            for &site in model.sites(f, bed, act.week) {
                if let [cell] = model.list(site.block) {
                    sites[index(*cell) - model.offset[bed]] = Some(site);
                }
            }
            let each = if form.role == Role::Catch { CATCH } else { COVER };
            // Of two that cover as many weeks the one with fewer turns of work is the better.
            let worth = growing * each - each / 10 - signed(model.uses(act).len()).min(each / 20);
            if worth > 0 {
                out[act.week].push(Filler { act: word(a), way: form.way, worth, sites });
            }
        }
    }
    out
}
