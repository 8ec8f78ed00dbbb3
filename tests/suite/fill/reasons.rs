//! Every reason given for an unmet wish is looked up in the problem.

use super::{Asked, instance, random};
use catchcrop::fill::{Outcome, Problem, Reason, Scarce, helps, read_problem, search};

fn holds(problem: &Problem, outcome: &Outcome, lack: &catchcrop::fill::Lack) -> Result<(), String> {
    let ways: Vec<usize> =
        (0..problem.ways.len()).filter(|&w| problem.ways[w].wish == Some(lack.wish)).collect();
    let ripens = |w: usize| {
        let weeks = lack.from..lack.to;
        problem.ways[w].starts.iter().any(|s| s.harvest.iter().any(|(t, n)| weeks.contains(t) && *n > 0))
    };
    match &lack.reason {
        Reason::Unripe => {
            // Stretches told as one are each without a ripe start, so the whole is.
            if ways.iter().any(|&w| ripens(w)) { Err("something ripens then".into()) } else { Ok(()) }
        }
        Reason::NoPlace(_) => {
            let open = ways.iter().filter(|&&w| ripens(w) && !problem.ways[w].places.is_empty()).count();
            if open > 0 { Err(format!("{open} ways have places")) } else { Ok(()) }
        }
        Reason::Space(space) => {
            if !ways.contains(&space.planting.way) {
                return Err("the planting serves another wish".into());
            }
            if space.moved.is_empty() || space.moved.iter().any(|p| !outcome.plan.contains(p)) {
                return Err(format!("{:?} is not all in the plan", space.moved));
            }
            Ok(())
        }
        Reason::Supply(supply, week, missing) => {
            let used: i64 = outcome
                .plan
                .iter()
                .map(|p| {
                    let way = &problem.ways[p.way];
                    let plants = way.shapes[p.shape].plants;
                    let uses =
                        way.starts[p.start].uses.iter().filter(|u| (u.supply, u.week) == (*supply, *week));
                    uses.map(|u| u.planting + u.plant * plants).sum::<i64>()
                })
                .sum();
            let left = problem.supplies[*supply].there[*week].max(0) - used;
            let needs = |w: &usize| {
                let way = &problem.ways[*w];
                way.starts.iter().flat_map(|s| &s.uses).any(|u| (u.supply, u.week) == (*supply, *week))
            };
            if *missing <= 0 || left < 0 || !ways.iter().any(needs) {
                return Err(format!("{missing} missing, {left} left"));
            }
            Ok(())
        }
        Reason::Dear(cost, gain) => {
            if cost < gain {
                Err(format!("{cost} for {gain} would be worth it"))
            } else {
                Ok(())
            }
        }
        Reason::Break(_) | Reason::Settled(_) | Reason::NoBlock(..) => Ok(()),
    }
}

#[test]
fn every_unmet_stretch_has_a_reason_that_holds() {
    let mut kinds = std::collections::BTreeMap::new();
    for seed in 0..80 {
        let problem = random::problem(seed);
        let outcome = search(&problem, &Asked::times(30), seed, &mut |_| {});
        for (w, wish) in problem.wishes.iter().enumerate() {
            for (b, bucket) in wish.buckets.iter().enumerate() {
                let short = outcome.wishes[w].harvest[b] * 100 < bucket.want * 98;
                let told =
                    outcome.lacks.iter().any(|l| l.wish == w && l.from <= bucket.from && bucket.to <= l.to);
                assert_eq!(short, told, "problem {seed}, {}, bucket {b}", wish.name);
            }
        }
        for lack in &outcome.lacks {
            let kind = format!("{:?}", lack.reason).split(['(', ' ']).next().unwrap().to_owned();
            *kinds.entry(kind).or_insert(0) += 1;
            holds(&problem, &outcome, lack).unwrap_or_else(|e| panic!("problem {seed}: {lack:?}: {e}"));
        }
    }
    println!("{kinds:?}");
    assert!(kinds.len() >= 5, "only {kinds:?} came up");
}

#[test]
fn giving_what_a_reason_names_changes_the_plan() {
    let Some(text) = instance("M1") else { return };
    let problem = read_problem(&text, false).unwrap();
    let outcome = search(&problem, &Asked::times(60), 1, &mut |_| {});
    let help = helps(&problem, &outcome.prices, &[10, 10]);
    let Scarce::Cell { beds } = &help.iter().find(|h| matches!(h.what, Scarce::Cell { .. })).unwrap().what
    else {
        return;
    };
    // One more cell in a bed of the kind said to be worth most: a bed of one row more.
    let mut larger = problem.clone();
    let bed = larger.beds[beds[0]].clone();
    let at = larger.beds.len();
    larger.beds.push(catchcrop::fill::Bed { height: 1, width: 1, name: "one more".into(), ..bed });
    for way in &mut larger.ways {
        let may = way.places.iter().find(|p| p.bed == beds[0]).cloned();
        if let Some(mut place) = may {
            place.bed = at;
            place.cells = catchcrop::fill::Cells::first(1);
            place.costs.clear();
            way.places.push(place);
        }
    }
    let more = search(&larger, &Asked::times(60), 1, &mut |_| {});
    println!(
        "{} becomes {}, bound {} becomes {}; {:?}",
        outcome.value, more.value, outcome.bound, more.bound, help[0]
    );
    assert!(more.value > outcome.value);
}
