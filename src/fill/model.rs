//! The problem laid out for speed: plantings reduced to masks of weeks, blocks to masks of cells.
//!
//! * A **form** is a way in one of its shapes.
//! * An **act** is a form at one start: what it takes and gives, wherever it stands.
//! * A **block** is a set of cells of one bed; a **site** is a block with its cost for one form.

use super::cells::Cells;
pub(crate) use super::problem::Role;
use super::problem::{Bucket, Group, Layer, Place, Placed, Problem, Reach, Side, Weeks, weeks};
use crate::units::num::{index, signed, word};
use std::collections::BTreeMap;
use std::ops::Range;

/// No index.
pub(crate) const NONE: u32 = u32::MAX;

/// A half-open range in one of the flat lists.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Span {
    from: u32,
    to: u32,
}

impl Span {
    fn since<T>(from: usize, list: &[T]) -> Self {
        Self { from: word(from), to: word(list.len()) }
    }
    pub(crate) fn range(self) -> Range<usize> {
        index(self.from)..index(self.to)
    }
    pub(crate) const fn is_empty(self) -> bool {
        self.from == self.to
    }
    pub(crate) fn of<T>(self, list: &[T]) -> &[T] {
        &list[self.range()]
    }
}

/// A way in one of its shapes.
#[derive(Debug)]
pub(crate) struct Form {
    pub(crate) way: usize,
    pub(crate) shape: usize,
    pub(crate) acts: Range<usize>,
    /// Cells of a block.
    pub(crate) area: i64,
    /// Beds with at least one site, and the number of cells any site of the form reaches there.
    pub(crate) beds: Vec<usize>,
    pub(crate) role: Role,
}

/// Which rules of its groups a planting has to mind.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rules {
    /// Some group keeps plantings apart within a cell.
    pub(crate) apart_cell: bool,
    /// Some group keeps plantings apart within a bed.
    pub(crate) apart_bed: bool,
    /// Some group costs a repeat within a cell.
    pub(crate) repeats: bool,
}

/// A form at one start, or a fixed planting.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Act {
    /// `NONE` for a fixed planting.
    pub(crate) form: u32,
    /// `NONE` for a fixed planting of no known way.
    pub(crate) way: u32,
    pub(crate) week: usize,
    pub(crate) end: usize,
    /// The week from which nothing of it grows; what waits for the soil to settle after it still takes the cells.
    pub(crate) over: usize,
    pub(crate) taken: Weeks,
    /// Taken weeks in which no mate may share the cells.
    pub(crate) shut: Weeks,
    /// The weeks just before and just after.
    pub(crate) edge: Weeks,
    pub(crate) mate: bool,
    /// (bucket, amount).
    pub(crate) gives: Span,
    /// (supply x weeks + week, amount).
    pub(crate) uses: Span,
    pub(crate) groups: Span,
    pub(crate) rules: Rules,
    /// Supplies it uses, each slot modulo 128 as a bit: a quick no to most questions.
    pub(crate) slots: u128,
}

/// A set of cells of one bed.
#[derive(Debug)]
pub(crate) struct Block {
    pub(crate) bed: usize,
    pub(crate) cells: Cells,
    /// Cells numbered through all beds.
    pub(crate) list: Span,
}

/// A block a form may take, and what that costs.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Site {
    pub(crate) block: u32,
    pub(crate) cost: i64,
}

/// The sites of a form in a bed for a range of start weeks.
#[derive(Debug, Clone, Copy)]
struct Ground {
    to: usize,
    sites: Span,
}

/// How a neighbouring cell lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Lie {
    Beside,
    Sunward,
    Away,
}

/// A settled planting ready to be set.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Settled {
    pub(crate) act: u32,
    pub(crate) site: Site,
}

/// The compiled problem.
#[derive(Debug)]
pub(crate) struct Model<'a> {
    pub(crate) problem: &'a Problem,
    pub(crate) forms: Vec<Form>,
    pub(crate) acts: Vec<Act>,
    pub(crate) blocks: Vec<Block>,
    pub(crate) settled: Vec<Settled>,
    pub(crate) buckets: Vec<Bucket>,
    /// First bucket of each wish, and one past the last.
    pub(crate) wish_buckets: Vec<usize>,
    /// First cell of each bed, and one past the last.
    pub(crate) offset: Vec<usize>,
    pub(crate) cells: usize,
    pub(crate) supply: Vec<i64>,
    /// Forms that serve wishes, by wish; the search draws a wish first so that many varieties of one crop are
    /// not tried more often than the one of another.
    pub(crate) by_wish: Vec<Vec<usize>>,
    /// All forms of a wish, those that find no site too.
    pub(crate) wish_forms: Vec<Vec<usize>>,
    gives: Vec<(u32, i64)>,
    uses: Vec<(u32, i64)>,
    groups: Vec<u32>,
    cell_list: Vec<u32>,
    sites: Vec<Site>,
    grounds: Vec<Vec<Ground>>,
    pub(crate) edges: Vec<Vec<(u32, Lie)>>,
    near: Vec<i64>,
    shade: Vec<i64>,
    paired: Vec<bool>,
    pub(crate) has_mates: bool,
}

impl<'a> Model<'a> {
    pub(crate) fn new(problem: &'a Problem) -> Self {
        let mut offset = vec![0];
        for bed in &problem.beds {
            offset.push(offset[offset.len() - 1] + bed.cells());
        }
        let mut wish_buckets = vec![0];
        let mut buckets = Vec::new();
        for wish in &problem.wishes {
            buckets.extend_from_slice(&wish.buckets);
            wish_buckets.push(buckets.len());
        }
        let ways = problem.ways.len();
        let table = |terms: &[super::problem::Near]| {
            let mut out = if terms.is_empty() { Vec::new() } else { vec![0; ways * ways] };
            for term in terms {
                out[term.a * ways + term.b] += term.value;
            }
            out
        };
        let shade = table(&problem.shades);
        // Neighbours are mutual: either order of the pair counts for both.
        let mut near = table(&problem.neighbours);
        if !near.is_empty() {
            let one = near.clone();
            for a in 0..ways {
                for b in 0..ways {
                    let other = one[b * ways + a];
                    if one[a * ways + b] == 0 {
                        near[a * ways + b] = other;
                    }
                }
            }
        }
        let mut paired = if problem.pairs.is_empty() { Vec::new() } else { vec![false; ways * ways] };
        for &(main, mate) in &problem.pairs {
            paired[main * ways + mate] = true;
        }
        let mut model = Self {
            problem,
            forms: Vec::new(),
            acts: Vec::new(),
            blocks: Vec::new(),
            settled: Vec::new(),
            buckets,
            wish_buckets,
            cells: offset[offset.len() - 1],
            offset,
            // What settled work has overdrawn already leaves nothing, but forbids nothing that needs none.
            supply: problem.supplies.iter().flat_map(|s| s.there.iter().map(|&n| n.max(0))).collect(),
            by_wish: vec![Vec::new(); problem.wishes.len()],
            wish_forms: vec![Vec::new(); problem.wishes.len()],
            gives: Vec::new(),
            uses: Vec::new(),
            groups: Vec::new(),
            cell_list: Vec::new(),
            sites: Vec::new(),
            grounds: Vec::new(),
            edges: Vec::new(),
            near,
            shade,
            paired,
            has_mates: problem.ways.iter().any(|w| w.layer == Layer::Mate)
                || problem.fixed.iter().any(|f| f.layer == Layer::Mate),
        };
        let mut known = BTreeMap::new();
        for way in 0..problem.ways.len() {
            model.add_way(way, &mut known);
        }
        for fixed in 0..problem.fixed.len() {
            model.add_fixed(fixed, &mut known);
        }
        model.add_edges();
        model
    }

    fn add_way(&mut self, way_index: usize, known: &mut BTreeMap<(usize, Cells), u32>) {
        let problem = self.problem;
        let way = &problem.ways[way_index];
        let from = self.groups.len();
        self.groups.extend(way.groups.iter().map(|&g| word(g)));
        let groups = Span::since(from, &self.groups);
        for (shape_index, shape) in way.shapes.iter().enumerate() {
            let form = self.forms.len();
            let first = self.acts.len();
            for start in &way.starts {
                let mut gives: BTreeMap<u32, i64> = BTreeMap::new();
                for &(week, amount) in &start.harvest {
                    if let Some(bucket) = way.wish.and_then(|wish| self.bucket_at(wish, week)) {
                        *gives.entry(word(bucket)).or_default() += amount * shape.plants;
                    }
                }
                let mut uses: BTreeMap<u32, i64> = BTreeMap::new();
                for item in &start.uses {
                    let slot = word(item.supply * problem.weeks + item.week);
                    *uses.entry(slot).or_default() += item.planting + item.plant * shape.plants;
                }
                let gives_from = self.gives.len();
                self.gives.extend(gives.into_iter().filter(|&(_, amount)| amount > 0));
                let uses_from = self.uses.len();
                self.uses.extend(uses.into_iter().filter(|&(_, amount)| amount > 0));
                let gives = Span::since(gives_from, &self.gives);
                let uses = Span::since(uses_from, &self.uses);
                let mate = way.layer == Layer::Mate;
                let act = self.act(start.taken, start.open, mate, groups, gives, uses);
                let over = 128 - index((start.taken & !start.wait).leading_zeros());
                self.acts.push(Act { form: word(form), way: word(way_index), over, ..act });
            }
            let mut beds = Vec::new();
            for bed in 0..problem.beds.len() {
                let grounds = self.grounds_of(way_index, shape_index, bed, known);
                if grounds.iter().any(|g| !g.sites.is_empty()) {
                    beds.push(bed);
                }
                self.grounds.push(grounds);
            }
            if let Some(wish) = way.wish {
                self.wish_forms[wish].push(form);
            }
            if let (Some(wish), false) = (way.wish, beds.is_empty() || way.starts.is_empty()) {
                self.by_wish[wish].push(form);
            }
            self.forms.push(Form {
                way: way_index,
                shape: shape_index,
                acts: first..self.acts.len(),
                area: signed(shape.sizes.iter().map(|&(h, w)| h * w).min().unwrap_or(1)),
                beds,
                role: way.role,
            });
        }
    }

    fn act(&self, taken: Weeks, open: Weeks, mate: bool, groups: Span, gives: Span, uses: Span) -> Act {
        let some = |reach: Reach, minds: fn(&Group) -> bool| {
            groups.of(&self.groups).iter().any(|&g| {
                let group = &self.problem.groups[index(g)];
                minds(group) && group.reach == reach
            })
        };
        Act {
            form: NONE,
            way: NONE,
            week: index(taken.trailing_zeros()),
            end: 128 - index(taken.leading_zeros()),
            over: 128 - index(taken.leading_zeros()),
            taken,
            shut: taken & !open,
            edge: ((taken << 1) | (taken >> 1)) & !taken,
            mate,
            gives,
            uses,
            groups,
            rules: Rules {
                apart_cell: some(Reach::Cell, |group| group.apart > 0),
                apart_bed: some(Reach::Bed, |group| group.apart > 0),
                repeats: some(Reach::Cell, |group| group.again > 0),
            },
            slots: uses.of(&self.uses).iter().fold(0, |slots, &(slot, _)| slots | 1 << (slot % 128)),
        }
    }

    /// The sites of one shape in one bed, cut where a place begins or ends to hold.
    fn grounds_of(
        &mut self,
        way: usize,
        shape: usize,
        bed: usize,
        known: &mut BTreeMap<(usize, Cells), u32>,
    ) -> Vec<Ground> {
        let problem = self.problem;
        let holds =
            |p: &&Place| p.bed == bed && p.from < p.to && (p.shapes.is_empty() || p.shapes.contains(&shape));
        let places: Vec<_> = problem.ways[way].places.iter().filter(holds).collect();
        if places.is_empty() {
            return Vec::new();
        }
        let mut cuts: Vec<usize> =
            places.iter().flat_map(|p| [p.from, p.to]).chain([0, usize::MAX]).collect();
        cuts.sort_unstable();
        cuts.dedup();
        let (height, width) = (problem.beds[bed].height, problem.beds[bed].width);
        let sizes = &problem.ways[way].shapes[shape].sizes;
        let mut grounds = Vec::new();
        for pair in cuts.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let mut allowed = Cells::NONE;
            let mut costs = vec![0; height * width];
            for place in places.iter().filter(|p| p.from <= from && to <= p.to) {
                allowed = allowed.union(&place.cells);
                for cell in place.cells.iter() {
                    costs[cell] = costs[cell].max(place.costs.get(cell).copied().unwrap_or(0));
                }
            }
            let first = self.sites.len();
            let fitting = sizes.iter().filter(|&&(h, w)| !allowed.is_empty() && h <= height && w <= width);
            for &(h, w) in fitting {
                for (row, column) in (0..=height - h).flat_map(|r| (0..=width - w).map(move |c| (r, c))) {
                    let cells = Cells::rectangle(width, row, column, h, w);
                    if allowed.covers(&cells) {
                        let cost = cells.iter().map(|cell| costs[cell]).sum();
                        let block = self.block(bed, cells, known);
                        self.sites.push(Site { block, cost });
                    }
                }
            }
            grounds.push(Ground { to, sites: Span::since(first, &self.sites) });
        }
        grounds
    }

    fn block(&mut self, bed: usize, cells: Cells, known: &mut BTreeMap<(usize, Cells), u32>) -> u32 {
        if let Some(&block) = known.get(&(bed, cells)) {
            return block;
        }
        let first = self.cell_list.len();
        let offset = self.offset[bed];
        self.cell_list.extend(cells.iter().map(|cell| word(offset + cell)));
        let block = word(self.blocks.len());
        self.blocks.push(Block { bed, cells, list: Span::since(first, &self.cell_list) });
        known.insert((bed, cells), block);
        block
    }

    fn add_fixed(&mut self, fixed: usize, known: &mut BTreeMap<(usize, Cells), u32>) {
        let fixed = &self.problem.fixed[fixed];
        let taken = fixed.taken & weeks(0, self.problem.weeks);
        if taken == 0 {
            return;
        }
        let from = self.groups.len();
        self.groups.extend(fixed.groups.iter().map(|&g| word(g)));
        let groups = Span::since(from, &self.groups);
        let from = self.gives.len();
        for &(wish, bucket, amount) in &fixed.gives {
            self.gives.push((word(self.wish_buckets[wish] + bucket), amount));
        }
        let gives = Span::since(from, &self.gives);
        let mate = fixed.layer == Layer::Mate;
        let act = self.act(taken, fixed.open, mate, groups, gives, Span::default());
        let act_index = word(self.acts.len());
        self.acts.push(Act { way: fixed.way.map_or(NONE, word), ..act });
        let block = self.block(fixed.bed, fixed.cells, known);
        self.settled.push(Settled { act: act_index, site: Site { block, cost: fixed.cost } });
    }

    fn add_edges(&mut self) {
        if self.near.is_empty() && self.shade.is_empty() {
            return;
        }
        self.edges = vec![Vec::new(); self.cells];
        for (bed, &offset) in self.problem.beds.iter().zip(&self.offset) {
            let lie = |side: Side, opposite: Side| {
                if bed.sunward == side {
                    Lie::Sunward
                } else if bed.sunward == opposite {
                    Lie::Away
                } else {
                    Lie::Beside
                }
            };
            for row in 0..bed.height {
                for column in 0..bed.width {
                    let cell = offset + row * bed.width + column;
                    let out = &mut self.edges[cell];
                    if row > 0 {
                        out.push((word(cell - bed.width), lie(Side::Up, Side::Down)));
                    }
                    if row + 1 < bed.height {
                        out.push((word(cell + bed.width), lie(Side::Down, Side::Up)));
                    }
                    if column > 0 {
                        out.push((word(cell - 1), lie(Side::Left, Side::Right)));
                    }
                    if column + 1 < bed.width {
                        out.push((word(cell + 1), lie(Side::Right, Side::Left)));
                    }
                }
            }
        }
    }

    /// The bucket (through all wishes) in which a harvest of `week` counts.
    pub(crate) fn bucket_at(&self, wish: usize, week: usize) -> Option<usize> {
        let range = self.wish_buckets[wish]..self.wish_buckets[wish + 1];
        range.into_iter().find(|&b| (self.buckets[b].from..self.buckets[b].to).contains(&week))
    }
    pub(crate) fn gives(&self, act: &Act) -> &[(u32, i64)] {
        act.gives.of(&self.gives)
    }
    pub(crate) fn uses(&self, act: &Act) -> &[(u32, i64)] {
        act.uses.of(&self.uses)
    }
    pub(crate) fn groups(&self, act: &Act) -> &[u32] {
        act.groups.of(&self.groups)
    }
    pub(crate) fn list(&self, block: u32) -> &[u32] {
        self.blocks[index(block)].list.of(&self.cell_list)
    }
    /// The sites of a form in a bed for a start week.
    pub(crate) fn sites(&self, form: usize, bed: usize, week: usize) -> &[Site] {
        let grounds = &self.grounds[form * self.problem.beds.len() + bed];
        grounds.iter().find(|g| week < g.to).map_or(&[], |g| g.sites.of(&self.sites))
    }
    /// All sites of a form in a bed, whatever the start.
    pub(crate) fn all_sites(&self, form: usize, bed: usize) -> impl Iterator<Item = &Site> {
        self.grounds[form * self.problem.beds.len() + bed].iter().flat_map(|g| g.sites.of(&self.sites))
    }
    /// The weeks at which the sites of a form in a bed change, the last one past the horizon.
    pub(crate) fn cuts(&self, form: usize, bed: usize) -> impl Iterator<Item = usize> {
        self.grounds[form * self.problem.beds.len() + bed].iter().map(|g| g.to)
    }
    pub(crate) const fn has_near(&self) -> bool {
        !self.near.is_empty() || !self.shade.is_empty()
    }
    /// Value for an edge and week between `own` and `other`, which lies as told.
    pub(crate) fn near(&self, own: u32, other: u32, lie: Lie) -> i64 {
        let ways = self.problem.ways.len();
        let (own, other) = (index(own), index(other));
        let near = self.near.get(own * ways + other).copied().unwrap_or(0);
        near + match lie {
            Lie::Beside => 0,
            Lie::Sunward => self.shade.get(other * ways + own).copied().unwrap_or(0),
            Lie::Away => self.shade.get(own * ways + other).copied().unwrap_or(0),
        }
    }
    /// Whether the mate may stand under the main planting for as long as it likes.
    pub(crate) fn paired(&self, main: u32, mate: u32) -> bool {
        main != NONE && mate != NONE && {
            let ways = self.problem.ways.len();
            self.paired.get(index(main) * ways + index(mate)).copied().unwrap_or(false)
        }
    }
    pub(crate) const fn has_pairs(&self) -> bool {
        !self.paired.is_empty()
    }
    /// The planting as the caller names it; `None` for a settled one.
    pub(crate) fn placed(&self, act: u32, block: u32) -> Option<Placed> {
        let form = self.forms.get(index(self.acts[index(act)].form))?;
        let block = &self.blocks[index(block)];
        let across = self.problem.beds[block.bed].width;
        let (first, last) = (block.cells.iter().min()?, block.cells.iter().max()?);
        Some(Placed {
            way: form.way,
            start: index(act) - form.acts.start,
            shape: form.shape,
            bed: block.bed,
            row: first / across,
            column: first % across,
            height: last / across - first / across + 1,
            width: last % across - first % across + 1,
        })
    }
    /// The act of a planting named by the caller.
    pub(crate) fn act_of(&self, placed: &Placed) -> Option<u32> {
        let form = self.forms.iter().find(|f| f.way == placed.way && f.shape == placed.shape)?;
        (placed.start < form.acts.len()).then(|| word(form.acts.start + placed.start))
    }
    /// The site of a planting named by the caller, if it is one.
    pub(crate) fn site_of(&self, placed: &Placed) -> Option<Site> {
        let act = &self.acts[index(self.act_of(placed)?)];
        let cells = placed.cells(self.problem);
        let sites = self.sites(index(act.form), placed.bed, act.week);
        sites.iter().copied().find(|site| self.blocks[index(site.block)].cells == cells)
    }
}
