//! Judges a plan from the problem alone, week by week and cell by cell, as slowly and plainly as can be.

use catchcrop::fill::{Layer, Outcome, Placed, Problem, Reach};
use std::collections::BTreeMap;

/// One stay in the soil, settled or planned.
struct Stay {
    way: Option<usize>,
    layer: Layer,
    groups: Vec<usize>,
    bed: usize,
    cells: Vec<usize>,
    taken: Vec<usize>,
    /// The first week in which nothing of it grows.
    over: usize,
    open: Vec<usize>,
    filler: bool,
}

fn bits(weeks: u128) -> Vec<usize> {
    (0..128).filter(|w| weeks >> w & 1 == 1).collect()
}

fn stay(problem: &Problem, placed: &Placed) -> Stay {
    let way = &problem.ways[placed.way];
    let start = &way.starts[placed.start];
    let across = problem.beds[placed.bed].width;
    let mut cells = Vec::new();
    for row in placed.row..placed.row + placed.height {
        for column in placed.column..placed.column + placed.width {
            cells.push(row * across + column);
        }
    }
    Stay {
        way: Some(placed.way),
        layer: way.layer,
        groups: way.groups.clone(),
        bed: placed.bed,
        cells,
        taken: bits(start.taken),
        over: bits(start.taken & !start.wait).last().map_or(0, |w| w + 1),
        open: bits(start.open),
        filler: way.wish.is_none(),
    }
}

/// Whether the plan breaks no rule and is worth exactly what the outcome says.
pub(super) fn judge(problem: &Problem, outcome: &Outcome) -> Result<(), String> {
    let mut stays = Vec::new();
    let mut used = vec![vec![0; problem.weeks]; problem.supplies.len()];
    let mut harvest: Vec<Vec<i64>> = problem.wishes.iter().map(|w| vec![0; w.buckets.len()]).collect();
    let mut cost = 0;
    for fixed in &problem.fixed {
        stays.push(Stay {
            way: fixed.way,
            layer: fixed.layer,
            groups: fixed.groups.clone(),
            bed: fixed.bed,
            cells: fixed.cells.iter().collect(),
            taken: bits(fixed.taken),
            over: bits(fixed.taken).last().map_or(0, |w| w + 1),
            open: bits(fixed.open),
            filler: false,
        });
        for &(wish, bucket, amount) in &fixed.gives {
            harvest[wish][bucket] += amount;
        }
        cost += fixed.cost;
    }
    for placed in outcome.plan.iter().chain(&outcome.fillers) {
        let way = &problem.ways[placed.way];
        let start = &way.starts[placed.start];
        let shape = &way.shapes[placed.shape];
        let bed = &problem.beds[placed.bed];
        if !shape.sizes.contains(&(placed.height, placed.width)) {
            return Err(format!("{} has no block of {}x{}", way.name, placed.height, placed.width));
        }
        if placed.row + placed.height > bed.height || placed.column + placed.width > bed.width {
            return Err(format!("{} sticks out of {}", way.name, bed.name));
        }
        let stay = stay(problem, placed);
        let mut here = 0;
        for &cell in &stay.cells {
            let mut costs = Vec::new();
            for place in &way.places {
                let holds = place.bed == placed.bed
                    && (place.from..place.to).contains(&start.week)
                    && (place.shapes.is_empty() || place.shapes.contains(&placed.shape));
                if holds && place.cells.contains(cell) {
                    costs.push(place.costs.get(cell).copied().unwrap_or(0));
                }
            }
            here += costs
                .into_iter()
                .max()
                .ok_or_else(|| format!("{} may not stand in {}", way.name, bed.name))?;
        }
        if !stay.filler {
            cost += here;
            for &(week, amount) in &start.harvest {
                let wish = way.wish.unwrap();
                for (b, bucket) in problem.wishes[wish].buckets.iter().enumerate() {
                    if bucket.from <= week && week < bucket.to {
                        harvest[wish][b] += amount * shape.plants;
                    }
                }
            }
        }
        for item in &start.uses {
            used[item.supply][item.week] += item.planting + item.plant * shape.plants;
        }
        stays.push(stay);
    }
    for (supply, used) in problem.supplies.iter().zip(&used) {
        for (week, (&there, &used)) in supply.there.iter().zip(used).enumerate() {
            if used > there.max(0) {
                return Err(format!("{used} of {there} {} in week {week}", supply.name));
            }
        }
    }
    for (k, a) in stays.iter().enumerate() {
        for b in &stays[k + 1..] {
            pair(problem, a, b)?;
        }
    }
    let wished: Vec<&Stay> = stays.iter().filter(|s| !s.filler).collect();
    let mut value =
        -cost - repeats(problem, &wished) + beside(problem, &wished) + kept(problem, &outcome.plan);
    for (wish, harvest) in problem.wishes.iter().zip(&harvest) {
        for (bucket, &got) in wish.buckets.iter().zip(harvest) {
            value += bucket.value * got.min(bucket.want);
            value += bucket.beyond * (got - bucket.want).max(0).min(bucket.extra);
        }
    }
    for (told, harvest) in outcome.wishes.iter().zip(&harvest) {
        if &told.harvest != harvest {
            return Err(format!("harvest {harvest:?}, not {:?}", told.harvest));
        }
    }
    idle(problem, outcome, &stays)?;
    if value == outcome.value { Ok(()) } else { Err(format!("worth {value}, not {}", outcome.value)) }
}

fn pair(problem: &Problem, a: &Stay, b: &Stay) -> Result<(), String> {
    if a.bed != b.bed {
        return Ok(());
    }
    let name =
        |s: &Stay| s.way.map_or_else(|| "a settled planting".to_owned(), |w| problem.ways[w].name.clone());
    let share = a.cells.iter().any(|cell| b.cells.contains(cell));
    for week in a.taken.iter().filter(|week| share && b.taken.contains(week)) {
        let (main, mate) = match (a.layer, b.layer) {
            (Layer::Main, Layer::Mate) => (a, b),
            (Layer::Mate, Layer::Main) => (b, a),
            (Layer::Main, Layer::Main) | (Layer::Mate, Layer::Mate) => {
                return Err(format!("{} and {} overlap in week {week}", name(a), name(b)));
            }
        };
        let paired = main.way.zip(mate.way).is_some_and(|p| problem.pairs.contains(&p));
        if !paired && !main.open.contains(week) {
            return Err(format!("{} leaves {} no room in week {week}", name(main), name(mate)));
        }
    }
    for &g in a.groups.iter().filter(|g| b.groups.contains(g)) {
        let group = &problem.groups[g];
        if group.apart == 0 || (group.reach == Reach::Cell && !share) {
            continue;
        }
        let (first, second) = if a.taken[0] <= b.taken[0] { (a, b) } else { (b, a) };
        let cleared = first.taken[first.taken.len() - 1] + 1;
        let starts = second.taken[0];
        if cleared <= starts && starts < cleared + group.apart {
            return Err(format!("{} follows {} in week {starts} too soon", name(second), name(first)));
        }
    }
    Ok(())
}

fn repeats(problem: &Problem, stays: &[&Stay]) -> i64 {
    let mut cost = 0;
    for (g, group) in problem.groups.iter().enumerate() {
        for (b, bed) in problem.beds.iter().enumerate() {
            let here: Vec<&&Stay> = stays.iter().filter(|s| s.bed == b && s.groups.contains(&g)).collect();
            match group.reach {
                Reach::Cell => {
                    for cell in 0..bed.height * bed.width {
                        let uses = here.iter().filter(|s| s.cells.contains(&cell)).count();
                        cost += group.again * i64::try_from(uses.saturating_sub(1)).unwrap();
                    }
                }
                Reach::Bed => {
                    let begins = |week: usize| here.iter().any(|s| s.taken.first() == Some(&week));
                    let over = |week: usize| here.iter().any(|s| s.over <= week);
                    let returns = (0..problem.weeks).filter(|&w| begins(w) && over(w)).count();
                    cost += group.again * i64::try_from(returns).unwrap();
                }
            }
        }
    }
    cost
}

/// Neighbours and shade, each shared edge once.
fn beside(problem: &Problem, stays: &[&Stay]) -> i64 {
    let (mut good, mut bad) = (0, 0);
    for (k, a) in stays.iter().enumerate() {
        for b in &stays[k + 1..] {
            let (Some(i), Some(j)) = (a.way, b.way) else { continue };
            let weeks = a.taken.iter().filter(|w| b.taken.contains(w)).count();
            if a.bed != b.bed || weeks == 0 {
                continue;
            }
            let across = problem.beds[a.bed].width;
            let term = |list: &[catchcrop::fill::Near], a: usize, b: usize| -> i64 {
                list.iter().filter(|t| (t.a, t.b) == (a, b)).map(|t| t.value).sum()
            };
            for &x in &a.cells {
                for &y in &b.cells {
                    // A cell both stand in is no neighbour, nor is any cell of a mate's own main planting.
                    if a.cells.contains(&y) || b.cells.contains(&x) {
                        continue;
                    }
                    let (rows, columns) =
                        ((x / across).abs_diff(y / across), (x % across).abs_diff(y % across));
                    if rows + columns != 1 {
                        continue;
                    }
                    let both = term(&problem.neighbours, i, j);
                    let mut edge = if both == 0 { term(&problem.neighbours, j, i) } else { both };
                    // The sun stands towards higher rows in every problem judged here.
                    if rows == 1 && y > x {
                        edge += term(&problem.shades, j, i);
                    } else if rows == 1 {
                        edge += term(&problem.shades, i, j);
                    }
                    let term = edge * i64::try_from(weeks).unwrap();
                    good += term.max(0);
                    bad += term.min(0);
                }
            }
        }
    }
    good.min(problem.good_most) + bad
}

fn kept(problem: &Problem, plan: &[Placed]) -> i64 {
    let count = |list: &[Placed]| {
        let mut out: BTreeMap<_, i64> = BTreeMap::new();
        for p in list {
            *out.entry((p.way, p.start, p.shape, p.bed)).or_default() += 1;
        }
        out
    };
    let now = count(plan);
    let kept: i64 = count(&problem.keep).iter().map(|(key, n)| *n.min(now.get(key).unwrap_or(&0))).sum();
    kept * problem.keep_bonus
}

fn idle(problem: &Problem, outcome: &Outcome, stays: &[Stay]) -> Result<(), String> {
    let mut busy = std::collections::BTreeSet::new();
    for stay in stays {
        for &cell in &stay.cells {
            busy.extend(stay.taken.iter().map(|&week| (stay.bed, cell, week)));
        }
    }
    let (mut idle, mut season) = (0, 0);
    for (b, bed) in problem.beds.iter().enumerate() {
        for cell in 0..bed.height * bed.width {
            for week in bits(problem.season & !bed.gone) {
                season += 1;
                idle += u64::from(!busy.contains(&(b, cell, week)));
            }
        }
    }
    // Weeks of waiting after a cover crop count as idle too; random problems have none.
    if (idle, season) == (outcome.idle, outcome.season) {
        Ok(())
    } else {
        Err(format!("{idle} of {season} cell-weeks are idle, not {} of {}", outcome.idle, outcome.season))
    }
}

/// Judges the lines of a plan against a compact file read afresh, as its own checker does.
pub(super) fn judge_compact(text: &str, lines: &str, value: i64) -> Result<(), String> {
    let file: serde_json::Value = serde_json::from_str(text).unwrap();
    let number = |v: &serde_json::Value| v.as_i64().unwrap();
    let size = |v: &serde_json::Value| usize::try_from(v.as_i64().unwrap()).unwrap();
    let list = |v: &serde_json::Value| v.as_array().unwrap().clone();
    let (beds, crops, wishes) = (list(&file["beds"]), list(&file["crops"]), list(&file["wishes"]));
    let mut taken = std::collections::BTreeSet::new();
    let mut turns: BTreeMap<(usize, usize, i64), i64> = BTreeMap::new();
    let (mut labour, mut trays) = ([0; 64], [0; 64]);
    let mut harvest = BTreeMap::new();
    let mut seen = std::collections::BTreeSet::new();
    let mut worth = 0;
    for line in lines.lines() {
        let words: Vec<usize> = line.split(' ').map(|w| w.parse().unwrap()).collect();
        let (c, si, b, cells) = (words[0], words[1], words[2], &words[3..]);
        let (crop, bed) = (&crops[c], &beds[b]);
        let (week, long) = (size(&crop["starts"][si][0]), size(&crop["starts"][si][1]));
        let pot = number(&bed["vol"]) < 999;
        let light = number(&crop["sun"]) <= number(&bed["sun"]);
        let volume = !pot || (number(&crop["pot"]) > 0 && number(&crop["pot"]) <= number(&bed["vol"]));
        if !light || !volume || (number(&bed["tag"]) == 1 && number(&crop["flower"]) == 0) {
            return Err(format!("{} may not stand in bed {b}", crop["name"]));
        }
        let across = size(&bed["w"]);
        let (row, column) = (cells[0] / across, cells[0] % across);
        let corner = cells[cells.len() - 1];
        let (high, wide) = (corner / across + 1 - row, corner % across + 1 - column);
        let own = (size(&crop["h"]), size(&crop["w"]));
        let block = if pot { (high, wide) == (1, 1) } else { (high, wide) == own || (wide, high) == own };
        if !block || high * wide != cells.len() {
            return Err(format!("{} has no block of {high}x{wide}", crop["name"]));
        }
        seen.insert((c, si, b, row, column));
        let family = number(&crop["family"]);
        let hard = file["hard_rotation"]
            .get(file["families"][size(&crop["family"])].as_str().unwrap())
            .map_or(0, size);
        for &cell in cells {
            let ago: Vec<usize> = (0..3).filter(|&y| number(&bed["history"][cell][y]) == family).collect();
            if ago.iter().any(|&y| y < hard) {
                return Err(format!("{} returns too soon to bed {b}", crop["name"]));
            }
            worth -= ago.iter().map(|&y| number(&file["rot_pen"][y])).max().unwrap_or(0);
            if (week..week + long).any(|t| !taken.insert((b, cell, t))) {
                return Err(format!("overlap in bed {b}, cell {cell}"));
            }
            let turn = turns.entry((b, cell, family)).or_default();
            *turn += 1;
            if *turn > 1 && hard > 0 {
                return Err(format!("family {family} twice in bed {b}"));
            } else if *turn > 1 {
                worth -= number(&file["repeat_pen"]);
            }
        }
        labour[week] += number(&crop["lab_plant"]);
        for harvested in list(&crop["starts"][si][2]) {
            labour[size(&harvested[0])] += number(&crop["lab_harvest"]);
            *harvest.entry((c, size(&harvested[0]))).or_insert(0) += number(&harvested[1]);
        }
        for full in &mut trays[week.saturating_sub(size(&crop["tray_weeks"]))..week] {
            *full += number(&crop["tray"]);
        }
    }
    if labour.iter().any(|&m| m > number(&file["labour_cap"]))
        || trays.iter().any(|&m| m > number(&file["tray_cap"]))
    {
        return Err("too much work or too many trays".into());
    }
    for lock in list(&file["locked"]) {
        let key = |name: &str| size(&lock[name]);
        if !seen.contains(&(key("crop"), key("start"), key("bed"), key("r"), key("c"))) {
            return Err(format!("{lock} is not kept"));
        }
    }
    for wish in &wishes {
        for k in 0..size(&wish["buckets"]) {
            let from = size(&wish["first"]) + k * size(&wish["bucket_weeks"]);
            let weeks = from..from + size(&wish["bucket_weeks"]);
            let got: i64 = weeks.filter_map(|t| harvest.get(&(size(&wish["crop"]), t))).sum();
            let (want, extra) = (number(&wish["want"]), number(&wish["extra"]));
            worth +=
                number(&wish["v1"]) * got.min(want) + number(&wish["v2"]) * (got - want).max(0).min(extra);
        }
    }
    if worth == value { Ok(()) } else { Err(format!("worth {worth}, not {value}")) }
}
