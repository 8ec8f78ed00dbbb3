//! Planning again in the middle of a season: what is lost is made good, and what is not stays where it is.

use super::{Asked, instance};
use catchcrop::fill::{Fixed, Outcome, Placed, Problem, read_problem, search, weeks};
use catchcrop::units::num::{real, real_i};
use std::collections::BTreeMap;

/// The problem in a week after some plantings were lost: what began stays, but for those, nothing begins earlier, and
/// the rest of the plan is in force.
fn later(problem: &Problem, plan: &[Placed], week: usize, lost: &[Placed]) -> Problem {
    let mut next = problem.clone();
    let begins = |p: &Placed| problem.ways[p.way].starts[p.start].week;
    for placed in plan.iter().filter(|p| begins(p) < week) {
        let (way, gone) = (&problem.ways[placed.way], lost.contains(placed));
        let (start, plants) = (&way.starts[placed.start], way.shapes[placed.shape].plants);
        let mut gives = BTreeMap::new();
        for &(at, amount) in start.harvest.iter().filter(|&&(at, _)| !gone || at < week) {
            let wish = way.wish.unwrap();
            if let Some(b) = problem.wishes[wish].buckets.iter().position(|b| (b.from..b.to).contains(&at)) {
                *gives.entry((wish, b)).or_insert(0) += amount * plants;
            }
        }
        for item in &start.uses {
            next.supplies[item.supply].there[item.week] -= item.planting + item.plant * plants;
        }
        let taken = if gone { start.taken & weeks(0, week) } else { start.taken };
        next.fixed.push(Fixed {
            name: way.name.clone(),
            way: Some(placed.way),
            layer: way.layer,
            groups: way.groups.clone(),
            bed: placed.bed,
            cells: placed.cells(problem),
            taken,
            open: start.open & taken,
            gives: gives.into_iter().map(|((wish, bucket), amount)| (wish, bucket, amount)).collect(),
            cost: 0,
        });
    }
    // What can no longer begin gives nothing; so the starts keep their numbers.
    for start in next.ways.iter_mut().flat_map(|way| &mut way.starts).filter(|s| s.week < week) {
        start.harvest.clear();
    }
    next
}

#[test]
fn a_plan_made_again_after_losses_keeps_what_it_can_and_is_as_good_as_a_free_one() {
    const WEEK: usize = 14;
    let Some(text) = instance("M1") else { return };
    let problem = read_problem(&text, false).unwrap();
    let run = |problem: &Problem| search(problem, &Asked::times(150), 1, &mut |_| {});
    let before = run(&problem);
    let standing = |p: &&Placed| problem.ways[p.way].starts[p.start].taken >> WEEK & 1 == 1;
    let old = |p: &&Placed| problem.ways[p.way].starts[p.start].week < WEEK;
    let there: Vec<Placed> = before.plan.iter().filter(old).filter(standing).copied().collect();
    let lost: Vec<Placed> = (0..3).map(|k| there[k * there.len() / 3]).collect();
    let free = later(&problem, &before.plan, WEEK, &lost);
    let mut again = free.clone();
    again.keep = before.plan.iter().filter(|p| !old(p)).copied().collect();
    again.keep_bonus = 2 * again.point;
    let (free, again, keep) = (run(&free), run(&again), (again.keep.len(), again.keep_bonus));
    let worth = |outcome: &Outcome, bonus: i64| outcome.value - bonus * i64::try_from(outcome.kept).unwrap();
    let ratio = real_i(worth(&again, keep.1)) / real_i(worth(&free, 0));
    let kept = real(again.kept) / real(keep.0);
    println!("kept {:.1} % of {} plantings, {ratio:.4} of a free plan", 100.0 * kept, keep.0);
    assert!(kept >= 0.87, "only {} of {} were kept", again.kept, keep.0);
    assert!(ratio >= 0.997, "worth only {ratio} of a free plan");
}
