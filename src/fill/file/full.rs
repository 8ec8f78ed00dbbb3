//! The full kind of problem file: everything a [`Problem`] holds, as JSON in whole numbers.
//!
//! | field | meaning |
//! |---|---|
//! | `kind` | `"full"` |
//! | `weeks`, `point`, `good_most`, `keep_bonus` | as in [`Problem`] |
//! | `season` and all other weeks | stretches `[from, to]`, `to` not included |
//! | `beds[]` | `name`, `height`, `width`, `like`, `sunward` (`up`, `down`, `left`, `right`), `gone` (weeks in which it is not there) |
//! | `groups[]` | `name`, `reach` (`cell`, `bed`), `apart`, `again` |
//! | `supplies[]` | `name`, `there` by week |
//! | `wishes[]` | `name`, `importance`, `buckets` of `[from, to, want, extra, value, beyond]` |
//! | `ways[]` | `name`, `wish`, `role` (`wished`, `catch`, `cover`), `layer` (`main`, `mate`), `groups`, `shapes` (`sizes`, `plants`), `starts` (`week`, `taken`, `open`, `wait`, `harvest` of `[week, amount]`, `uses` of `[supply, week, planting, plant]`), `places` (`bed`, `from`, `to`, `shapes`, `cells`, `costs` by cell or one for all), `barred` (`bed`, `group`, `until`, `label`; without `group`: unfit) |
//! | `neighbours[]`, `shades[]` | `[a, b, value]`; `pairs[]`: `[main, mate]` |
//! | `fixed[]` | `name`, `way`, `layer`, `groups`, `bed`, `cells`, `taken`, `open`, `gives` of `[wish, bucket, amount]`, `cost` |
//! | `keep[]` | `[way, start, shape, bed, row, column, height, width]` |
//! | `labels[]` | words of the labels in `barred` |
//!
//! Cells are numbered row by row from 0; indices count from 0. Fields that are empty may be left out.

use crate::fill::cells::Cells;
use crate::fill::problem::{
    Bar, Barred, Bed, Bucket, Fixed, Group, Layer, Near, Place, Placed, Problem, Reach, Role, Shape, Side,
    Start, Supply, Use, Way, Weeks, Wish, weeks,
};
use serde::{Deserialize, Serialize};

type Stretches = Vec<(usize, usize)>;

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Full {
    kind: String,
    weeks: usize,
    season: Stretches,
    point: i64,
    #[serde(default)]
    good_most: i64,
    #[serde(default)]
    keep_bonus: i64,
    beds: Vec<FullBed>,
    #[serde(default)]
    groups: Vec<FullGroup>,
    #[serde(default)]
    supplies: Vec<FullSupply>,
    wishes: Vec<FullWish>,
    ways: Vec<FullWay>,
    #[serde(default)]
    neighbours: Vec<(usize, usize, i64)>,
    #[serde(default)]
    shades: Vec<(usize, usize, i64)>,
    #[serde(default)]
    pairs: Vec<(usize, usize)>,
    #[serde(default)]
    fixed: Vec<FullFixed>,
    #[serde(default)]
    keep: Vec<[usize; 8]>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    labels: Vec<String>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullBed {
    name: String,
    height: usize,
    width: usize,
    like: usize,
    #[serde(default)]
    sunward: FullSide,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    gone: Stretches,
}

#[derive(Debug, Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FullSide {
    Up,
    #[default]
    Down,
    Left,
    Right,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FullReach {
    Cell,
    Bed,
}

#[derive(Debug, Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FullRole {
    #[default]
    Wished,
    Catch,
    Cover,
}

#[derive(Debug, Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FullLayer {
    #[default]
    Main,
    Mate,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullGroup {
    name: String,
    reach: FullReach,
    #[serde(default)]
    apart: usize,
    #[serde(default)]
    again: i64,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullSupply {
    name: String,
    there: Vec<i64>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullWish {
    name: String,
    importance: i64,
    buckets: Vec<(usize, usize, i64, i64, i64, i64)>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullWay {
    name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wish: Option<usize>,
    #[serde(default)]
    role: FullRole,
    #[serde(default)]
    layer: FullLayer,
    #[serde(default)]
    groups: Vec<usize>,
    shapes: Vec<FullShape>,
    starts: Vec<FullStart>,
    places: Vec<FullPlace>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    barred: Vec<FullBarred>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullShape {
    sizes: Vec<(usize, usize)>,
    plants: i64,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullStart {
    week: usize,
    taken: Stretches,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    open: Stretches,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    wait: Stretches,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    harvest: Vec<(usize, i64)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    uses: Vec<(usize, usize, i64, i64)>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(untagged)]
enum FullCosts {
    All(i64),
    ByCell(Vec<i64>),
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullPlace {
    bed: usize,
    from: usize,
    to: usize,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    shapes: Vec<usize>,
    cells: Vec<usize>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    costs: Option<FullCosts>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullBarred {
    bed: usize,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    group: Option<usize>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    until: Option<usize>,
    label: usize,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FullFixed {
    name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    way: Option<usize>,
    #[serde(default)]
    layer: FullLayer,
    #[serde(default)]
    groups: Vec<usize>,
    bed: usize,
    cells: Vec<usize>,
    taken: Stretches,
    #[serde(default)]
    open: Stretches,
    #[serde(default)]
    gives: Vec<(usize, usize, i64)>,
    #[serde(default)]
    cost: i64,
}

fn stretches(set: Weeks) -> Stretches {
    let mut out: Stretches = Vec::new();
    for week in (0..128).filter(|week| set >> week & 1 == 1) {
        match out.last_mut() {
            Some((_, to)) if *to == week => *to += 1,
            Some(_) | None => out.push((week, week + 1)),
        }
    }
    out
}

fn set(stretches: &[(usize, usize)]) -> Weeks {
    stretches.iter().fold(0, |all, &(from, to)| all | weeks(from, to))
}

impl Full {
    pub(super) fn of(problem: &Problem) -> Self {
        let terms = |list: &[Near]| list.iter().map(|t| (t.a, t.b, t.value)).collect();
        Self {
            kind: "full".into(),
            weeks: problem.weeks,
            season: stretches(problem.season),
            point: problem.point,
            good_most: problem.good_most,
            keep_bonus: problem.keep_bonus,
            beds: problem.beds.iter().map(FullBed::of).collect(),
            groups: problem.groups.iter().map(FullGroup::of).collect(),
            supplies: problem
                .supplies
                .iter()
                .map(|s| FullSupply { name: s.name.clone(), there: s.there.clone() })
                .collect(),
            wishes: problem.wishes.iter().map(FullWish::of).collect(),
            ways: problem.ways.iter().map(FullWay::of).collect(),
            neighbours: terms(&problem.neighbours),
            shades: terms(&problem.shades),
            pairs: problem.pairs.clone(),
            fixed: problem.fixed.iter().map(FullFixed::of).collect(),
            keep: problem
                .keep
                .iter()
                .map(|p| [p.way, p.start, p.shape, p.bed, p.row, p.column, p.height, p.width])
                .collect(),
            labels: problem.labels.clone(),
        }
    }

    pub(super) fn problem(self) -> Problem {
        let terms = |list: Vec<(usize, usize, i64)>| -> Vec<Near> {
            list.into_iter().map(|(a, b, value)| Near { a, b, value }).collect()
        };
        let beds: Vec<Bed> = self.beds.into_iter().map(FullBed::bed).collect();
        let supplies = self.supplies.into_iter().map(|s| Supply { name: s.name, there: s.there });
        let placed = |p: [usize; 8]| Placed {
            way: p[0],
            start: p[1],
            shape: p[2],
            bed: p[3],
            row: p[4],
            column: p[5],
            height: p[6],
            width: p[7],
        };
        Problem {
            weeks: self.weeks,
            season: set(&self.season),
            point: self.point,
            good_most: self.good_most,
            keep_bonus: self.keep_bonus,
            groups: self.groups.into_iter().map(FullGroup::group).collect(),
            supplies: supplies.collect(),
            wishes: self.wishes.into_iter().map(FullWish::wish).collect(),
            ways: self.ways.into_iter().map(|way| way.way(&beds)).collect(),
            beds,
            neighbours: terms(self.neighbours),
            shades: terms(self.shades),
            pairs: self.pairs,
            fixed: self.fixed.into_iter().map(FullFixed::fixed).collect(),
            keep: self.keep.into_iter().map(placed).collect(),
            labels: self.labels,
        }
    }
}

impl FullBed {
    fn of(bed: &Bed) -> Self {
        let sunward = match bed.sunward {
            Side::Up => FullSide::Up,
            Side::Down => FullSide::Down,
            Side::Left => FullSide::Left,
            Side::Right => FullSide::Right,
        };
        Self {
            name: bed.name.clone(),
            height: bed.height,
            width: bed.width,
            like: bed.like,
            sunward,
            gone: stretches(bed.gone),
        }
    }
    fn bed(self) -> Bed {
        let sunward = match self.sunward {
            FullSide::Up => Side::Up,
            FullSide::Down => Side::Down,
            FullSide::Left => Side::Left,
            FullSide::Right => Side::Right,
        };
        Bed {
            name: self.name,
            height: self.height,
            width: self.width,
            like: self.like,
            sunward,
            gone: set(&self.gone),
        }
    }
}

impl FullGroup {
    fn of(group: &Group) -> Self {
        let reach = match group.reach {
            Reach::Cell => FullReach::Cell,
            Reach::Bed => FullReach::Bed,
        };
        Self { name: group.name.clone(), reach, apart: group.apart, again: group.again }
    }
    fn group(self) -> Group {
        let reach = match self.reach {
            FullReach::Cell => Reach::Cell,
            FullReach::Bed => Reach::Bed,
        };
        Group { name: self.name, reach, apart: self.apart, again: self.again }
    }
}

impl FullWish {
    fn of(wish: &Wish) -> Self {
        let row = |b: &Bucket| (b.from, b.to, b.want, b.extra, b.value, b.beyond);
        Self {
            name: wish.name.clone(),
            importance: wish.importance,
            buckets: wish.buckets.iter().map(row).collect(),
        }
    }
    fn wish(self) -> Wish {
        let bucket = |(from, to, want, extra, value, beyond)| Bucket { from, to, want, extra, value, beyond };
        Wish {
            name: self.name,
            importance: self.importance,
            buckets: self.buckets.into_iter().map(bucket).collect(),
        }
    }
}

impl FullWay {
    fn of(way: &Way) -> Self {
        Self {
            name: way.name.clone(),
            wish: way.wish,
            role: match way.role {
                Role::Wished => FullRole::Wished,
                Role::Catch => FullRole::Catch,
                Role::Cover => FullRole::Cover,
            },
            layer: layer_of(way.layer),
            groups: way.groups.clone(),
            shapes: way
                .shapes
                .iter()
                .map(|s| FullShape { sizes: s.sizes.clone(), plants: s.plants })
                .collect(),
            starts: way.starts.iter().map(FullStart::of).collect(),
            places: way.places.iter().map(FullPlace::of).collect(),
            barred: way.barred.iter().map(FullBarred::of).collect(),
        }
    }
    fn way(self, beds: &[Bed]) -> Way {
        Way {
            name: self.name,
            wish: self.wish,
            role: match self.role {
                FullRole::Wished => Role::Wished,
                FullRole::Catch => Role::Catch,
                FullRole::Cover => Role::Cover,
            },
            layer: layer(self.layer),
            groups: self.groups,
            shapes: self.shapes.into_iter().map(|s| Shape { sizes: s.sizes, plants: s.plants }).collect(),
            starts: self.starts.into_iter().map(FullStart::start).collect(),
            places: self.places.into_iter().map(|place| place.place(beds)).collect(),
            barred: self.barred.into_iter().map(FullBarred::barred).collect(),
        }
    }
}

impl FullStart {
    fn of(start: &Start) -> Self {
        Self {
            week: start.week,
            taken: stretches(start.taken),
            open: stretches(start.open),
            wait: stretches(start.wait),
            harvest: start.harvest.clone(),
            uses: start.uses.iter().map(|u| (u.supply, u.week, u.planting, u.plant)).collect(),
        }
    }
    fn start(self) -> Start {
        let takes = |(supply, week, planting, plant)| Use { supply, week, planting, plant };
        Start {
            week: self.week,
            taken: set(&self.taken),
            open: set(&self.open),
            wait: set(&self.wait),
            harvest: self.harvest,
            uses: self.uses.into_iter().map(takes).collect(),
        }
    }
}

impl FullPlace {
    fn of(place: &Place) -> Self {
        let costs = match place.costs.first() {
            None => None,
            Some(&first) if place.costs.iter().all(|&cost| cost == first) => Some(FullCosts::All(first)),
            Some(_) => Some(FullCosts::ByCell(place.costs.clone())),
        };
        Self {
            bed: place.bed,
            from: place.from,
            to: place.to,
            shapes: place.shapes.clone(),
            cells: place.cells.iter().collect(),
            costs,
        }
    }
    fn place(self, beds: &[Bed]) -> Place {
        // A bed that does not exist is reported when the problem is checked.
        let cells = beds.get(self.bed).map_or(0, Bed::cells);
        Place {
            bed: self.bed,
            from: self.from,
            to: self.to,
            shapes: self.shapes,
            cells: self.cells.into_iter().collect(),
            costs: match self.costs {
                None => Vec::new(),
                Some(FullCosts::All(cost)) => vec![cost; cells],
                Some(FullCosts::ByCell(costs)) => costs,
            },
        }
    }
}

impl FullBarred {
    fn of(barred: &Barred) -> Self {
        match barred.why {
            Bar::Unfit { label } => Self { bed: barred.bed, group: None, until: None, label },
            Bar::Break { group, until, label } => Self { bed: barred.bed, group: Some(group), until, label },
        }
    }
    fn barred(self) -> Barred {
        let why = match self.group {
            None => Bar::Unfit { label: self.label },
            Some(group) => Bar::Break { group, until: self.until, label: self.label },
        };
        Barred { bed: self.bed, why }
    }
}

impl FullFixed {
    fn of(fixed: &Fixed) -> Self {
        Self {
            name: fixed.name.clone(),
            way: fixed.way,
            layer: layer_of(fixed.layer),
            groups: fixed.groups.clone(),
            bed: fixed.bed,
            cells: fixed.cells.iter().collect(),
            taken: stretches(fixed.taken),
            open: stretches(fixed.open),
            gives: fixed.gives.clone(),
            cost: fixed.cost,
        }
    }
    fn fixed(self) -> Fixed {
        Fixed {
            name: self.name,
            way: self.way,
            layer: layer(self.layer),
            groups: self.groups,
            bed: self.bed,
            cells: self.cells.into_iter().collect::<Cells>(),
            taken: set(&self.taken),
            open: set(&self.open),
            gives: self.gives,
            cost: self.cost,
        }
    }
}

fn layer_of(layer: Layer) -> FullLayer {
    match layer {
        Layer::Main => FullLayer::Main,
        Layer::Mate => FullLayer::Mate,
    }
}

fn layer(layer: FullLayer) -> Layer {
    match layer {
        FullLayer::Main => Layer::Main,
        FullLayer::Mate => Layer::Mate,
    }
}
