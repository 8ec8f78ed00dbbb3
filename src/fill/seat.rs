//! Finding a block for an act: a free one, or the one whose plantings cost least to move out.

use super::cells::Cells;
use super::model::{Act, Site};
use super::random::Random;
use super::state::State;
use crate::units::num::{index, signed};

/// Blocks looked at, at most, when plantings have to be moved out.
const LOOKED_AT: usize = 24;

impl State<'_> {
    /// The best free block of the bed: little cost and a tight fit between the plantings before and after.
    pub(crate) fn fit(&self, act: &Act, bed: usize, random: &mut Random) -> Option<Site> {
        self.fit_with(act, bed, self.model.problem.point / 6, random)
    }
    /// The best free block of the bed where each neighbouring week in use makes up for a cost of `tight`.
    pub(crate) fn fit_with(&self, act: &Act, bed: usize, tight: i64, random: &mut Random) -> Option<Site> {
        let model = self.model;
        let sites = model.sites(index(act.form), bed, act.week);
        if sites.is_empty() || (act.rules.apart_bed && self.has_rival(act, bed)) {
            return None;
        }
        // Blocks of one cell are looked at one by one; for larger ones the closed cells of the bed are noted first.
        let single = model.forms[index(act.form)].area == 1;
        let mut closed = Cells::NONE;
        if !single {
            let offset = model.offset[bed];
            for cell in 0..model.offset[bed + 1] - offset {
                if self.closed(act, offset + cell) {
                    closed.insert(cell);
                }
            }
        }
        // Of equals the first is taken, from a place drawn by chance.
        let from = random.below(sites.len());
        let mut best: Option<(i64, Site)> = None;
        for &site in sites[from..].iter().chain(&sites[..from]) {
            let cells = model.list(site.block);
            let hit = match cells {
                [cell] if single => self.closed(act, index(*cell)),
                _ => model.blocks[index(site.block)].cells.meets(&closed),
            };
            if hit {
                continue;
            }
            let touch: u32 = cells.iter().map(|&c| (self.main[index(c)] & act.edge).count_ones()).sum();
            let score = site.cost + self.repeats(act, site.block)
                - self.near(act, site.block)
                - tight * i64::from(touch) / signed(cells.len());
            if best.is_none_or(|(least, _)| score < least) {
                best = Some((score, site));
            }
        }
        best.map(|(_, site)| site)
    }

    fn has_rival(&self, act: &Act, bed: usize) -> bool {
        let mut rivals = Vec::new();
        self.rivals(act, bed, &mut rivals);
        !rivals.is_empty()
    }

    /// The plantings that would have to move for the act to take a site; none where a settled one stands there.
    pub(crate) fn in_the_way(&self, act: &Act, bed: usize, site: Site) -> Option<Vec<u32>> {
        let mut out = Vec::new();
        self.rivals(act, bed, &mut out);
        for &cell in self.model.list(site.block) {
            for stand in self.at(index(cell)) {
                let p = stand.planting;
                let may = stand.taken & act.taken != 0 || act.rules.apart_cell;
                if may && !out.contains(&p) && self.collide(act, self.act(p)) {
                    out.push(p);
                }
            }
        }
        (!out.iter().any(|&p| self.planting(p).settled)).then_some(out)
    }

    /// The block whose plantings cost least to move out, with up to `noise` added by chance; they go to `out`.
    pub(crate) fn force(
        &self,
        act: &Act,
        bed: usize,
        noise: i64,
        random: &mut Random,
        out: &mut Vec<u32>,
    ) -> Option<Site> {
        let model = self.model;
        let sites = model.sites(index(act.form), bed, act.week);
        if sites.is_empty() {
            return None;
        }
        let mut rivals = Vec::new();
        self.rivals(act, bed, &mut rivals);
        let first = random.below(sites.len());
        let step = if sites.len() > LOOKED_AT { 7 } else { 1 };
        let mut best: Option<(i64, Site)> = None;
        let mut victims = Vec::with_capacity(16);
        for k in 0..sites.len().min(LOOKED_AT) {
            let site = sites[(first + k * step) % sites.len()];
            victims.clone_from(&rivals);
            for &cell in model.list(site.block) {
                for stand in self.at(index(cell)) {
                    let p = stand.planting;
                    let may = stand.taken & act.taken != 0 || act.rules.apart_cell;
                    if may && !victims.contains(&p) && self.collide(act, self.act(p)) {
                        victims.push(p);
                    }
                }
            }
            if victims.iter().any(|&p| self.planting(p).settled) {
                continue;
            }
            let cost = site.cost + victims.iter().map(|&p| self.loss(p)).sum::<i64>() + random.amount(noise);
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, site));
                out.clone_from(&victims);
            }
        }
        best.map(|(_, site)| site)
    }
}
