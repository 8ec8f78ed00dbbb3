//! Small problems with every rule in them, by seed.

use catchcrop::fill::{
    Bed, Bucket, Cells, Fixed, Group, Layer, Near, Place, Problem, Reach, Role, Shape, Side, Start, Supply,
    Use, Way, Wish, weeks,
};

/// A plain linear generator of its own, so that tests do not lean on the one of the search.
struct Dice(u64);

impl Dice {
    fn upto(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % n.max(1)
    }
    fn amount(&mut self, from: i64, to: i64) -> i64 {
        from + i64::try_from(self.upto(usize::try_from(to - from).unwrap())).unwrap()
    }
    fn chance(&mut self, one_in: usize) -> bool {
        self.upto(one_in) == 0
    }
}

/// The problem of a seed.
pub(super) fn problem(seed: u64) -> Problem {
    let mut dice = Dice(seed.wrapping_mul(0x9E37_79B9).wrapping_add(12345));
    for _ in 0..4 {
        dice.upto(2);
    }
    let horizon = 12 + dice.upto(40);
    let mut problem = Problem {
        weeks: horizon,
        season: weeks(horizon / 8, horizon - horizon / 8),
        point: 1000,
        good_most: dice.amount(0, 3) * dice.amount(0, 2000),
        ..Problem::default()
    };
    for k in 0..=dice.upto(4) {
        let (height, width) = (1 + dice.upto(4), 1 + dice.upto(9));
        // The third bed is taken away half way.
        let gone = if k == 2 { weeks(horizon / 2, horizon) } else { 0 };
        let bed = Bed { name: format!("bed {k}"), height, width, like: k % 2, sunward: Side::Down, gone };
        problem.beds.push(bed);
    }
    for k in 0..4 {
        let apart = if dice.chance(2) { dice.upto(30) } else { 0 };
        let again = if apart == 0 { dice.amount(0, 3000) } else { 0 };
        let reach = if dice.chance(2) { Reach::Cell } else { Reach::Bed };
        problem.groups.push(Group { name: format!("group {k}"), reach, apart, again });
    }
    for name in ["work", "raising"] {
        let there = (0..horizon).map(|_| dice.amount(8, 40)).collect();
        problem.supplies.push(Supply { name: name.into(), there });
    }
    for k in 0..2 + dice.upto(6) {
        let wish = wish(&mut dice, k, horizon);
        problem.wishes.push(wish);
    }
    let count = problem.wishes.len();
    for k in 0..count + dice.upto(4) {
        let way = way(&mut dice, &problem, k, Some(k % count));
        problem.ways.push(way);
    }
    for k in 0..3 {
        let mut filler = way(&mut dice, &problem, 100 + k, None);
        filler.role = if k == 2 { Role::Cover } else { Role::Catch };
        problem.ways.push(filler);
    }
    let all = problem.ways.len();
    for _ in 0..dice.upto(6) {
        let (a, b) = (dice.upto(all), dice.upto(all));
        if a != b && !problem.neighbours.iter().any(|t| (t.a.min(t.b), t.a.max(t.b)) == (a.min(b), a.max(b)))
        {
            problem.neighbours.push(Near { a, b, value: dice.amount(-80, 60) });
        }
        let (a, b) = (dice.upto(count), dice.upto(count));
        problem.shades.push(Near { a, b, value: -dice.amount(0, 120) });
    }
    // Fillers are set after the value is settled, so terms with them would be counted in neither.
    problem.neighbours.retain(|t| t.a < all - 3 && t.b < all - 3);
    if dice.chance(2) {
        problem.pairs.push((0, dice.upto(count)));
    }
    for k in 0..dice.upto(3) {
        let bed = dice.upto(problem.beds.len());
        let from = dice.upto(horizon - 4);
        let cell = dice.upto(problem.beds[bed].cells());
        let clash = |f: &Fixed| f.bed == bed;
        if problem.fixed.iter().any(clash) {
            continue;
        }
        let mut cells = Cells::NONE;
        cells.insert(cell);
        problem.fixed.push(Fixed {
            name: format!("settled {k}"),
            way: Some(dice.upto(count)),
            groups: vec![dice.upto(4)],
            bed,
            cells,
            taken: weeks(from, from + 3),
            open: weeks(from, from + 1),
            gives: vec![(0, 0, dice.amount(0, 20))],
            ..Fixed::default()
        });
    }
    problem
}

fn wish(dice: &mut Dice, k: usize, horizon: usize) -> Wish {
    let long = 1 + dice.upto(5);
    let from = dice.upto(horizon / 2);
    let importance = dice.amount(1, 6);
    let mut buckets = Vec::new();
    let mut at = from;
    while at + long <= horizon && buckets.len() < 6 {
        let want = dice.amount(5, 60);
        let value = 20_000 * importance / want;
        buckets.push(Bucket { from: at, to: at + long, want, extra: want / 2, value, beyond: value / 5 });
        at += long + dice.upto(2);
    }
    Wish { name: format!("wish {k}"), importance, buckets }
}

fn way(dice: &mut Dice, problem: &Problem, k: usize, wish: Option<usize>) -> Way {
    let horizon = problem.weeks;
    let size = if wish.is_none() { (1, 1) } else { (1 + dice.upto(2), 1 + dice.upto(3)) };
    let mut shapes = vec![Shape { sizes: vec![size], plants: dice.amount(1, 9) }];
    if size.0 != size.1 {
        shapes[0].sizes.push((size.1, size.0));
    }
    if wish.is_some() && dice.chance(2) {
        shapes.push(Shape { sizes: vec![(1, 1)], plants: dice.amount(1, 3) });
    }
    let layer = if wish.is_some() && dice.chance(4) { Layer::Mate } else { Layer::Main };
    let mut starts = Vec::new();
    for week in 0..horizon {
        let long = 2 + dice.upto(9);
        if dice.chance(3) || week + long > horizon {
            continue;
        }
        let open = if layer == Layer::Main { weeks(week, week + long / 2) } else { 0 };
        let harvest = if wish.is_some() { vec![(week + long - 1, dice.amount(1, 12))] } else { Vec::new() };
        let mut uses = vec![Use { supply: 0, week, planting: dice.amount(0, 5), plant: 0 }];
        if week > 0 && dice.chance(3) {
            uses.push(Use { supply: 1, week: week - 1, planting: 0, plant: dice.amount(0, 3) });
        }
        starts.push(Start { week, taken: weeks(week, week + long), open, wait: 0, harvest, uses });
    }
    let mut places = Vec::new();
    for (bed, b) in problem.beds.iter().enumerate() {
        if dice.chance(5) {
            continue;
        }
        let cells = (0..b.cells()).filter(|_| !dice.chance(8)).collect();
        let costs =
            if dice.chance(2) { (0..b.cells()).map(|_| dice.amount(0, 2500)).collect() } else { Vec::new() };
        let cut = if dice.chance(3) { horizon / 2 } else { 0 };
        places.push(Place { bed, from: cut, to: horizon, shapes: Vec::new(), cells, costs });
        if cut > 0 && dice.chance(2) {
            places.push(Place {
                bed,
                from: 0,
                to: cut,
                shapes: vec![0],
                cells: Cells::first(1),
                costs: Vec::new(),
            });
        }
    }
    if places.is_empty() {
        places.push(Place { bed: 0, from: 0, to: horizon, cells: Cells::first(1), ..Place::default() });
    }
    let mut groups = vec![dice.upto(4)];
    if dice.chance(3) {
        let more = dice.upto(4);
        if !groups.contains(&more) {
            groups.push(more);
        }
    }
    Way {
        name: format!("way {k}"),
        wish,
        role: Role::Wished,
        layer,
        groups,
        shapes,
        starts,
        places,
        barred: Vec::new(),
    }
}
