//! The courtyard of the examples, filled once for all tests of this file.

use crate::support::example;
use catchcrop::calendar::read_date;
use catchcrop::check::{self, Weight};
use catchcrop::fill::{Effort, Proposal, Request, build, search};
use catchcrop::plan::Plan;
use catchcrop::site::SiteYear;
use catchcrop::store;
use std::collections::BTreeSet;
use std::sync::OnceLock;

/// The garden before and after a quick fill of the season from 1 March, and the proposal.
fn filled() -> &'static (Plan, Plan, Proposal) {
    static FILLED: OnceLock<(Plan, Plan, Proposal)> = OnceLock::new();
    FILLED.get_or_init(|| {
        let before = example("courtyard");
        let year = SiteYear::new(&before.site).unwrap();
        let built = build(&before, store::book(), &year, Request::from(read_date("2027-03-01").unwrap()));
        let proposal = built.proposal(&search(&built.problem, &Effort::Quick, 1, &mut |_| {}));
        let mut after = before.clone();
        after.apply(&proposal.edit()).unwrap();
        (before, after, proposal)
    })
}

#[test]
fn wishes_ask_for_more_than_there_is() {
    let (plan, _, proposal) = filled();
    let ratio = proposal.asked as f64 / proposal.growing as f64;
    println!("the wishes ask for {} of {} cell-weeks: {ratio:.2}", proposal.asked, proposal.growing);
    assert!(ratio >= 1.2, "{ratio}");
    let book = store::book();
    let crops: BTreeSet<_> = plan.wishes.iter().map(|w| &w.crop).collect();
    let families: BTreeSet<_> = crops.iter().map(|c| &book.get(c).unwrap().family).collect();
    assert!(crops.len() >= 15, "{} crops", crops.len());
    assert!(families.len() >= 8, "{} families", families.len());
}

#[test]
fn the_garden_as_it_is_has_findings_of_several_kinds() {
    let (plan, _, _) = filled();
    let year = SiteYear::new(&plan.site).unwrap();
    let findings = check::check(&check::Context::whole(plan, store::book(), &year));
    let kinds: BTreeSet<_> = findings.iter().map(|f| f.code).collect();
    assert!(kinds.len() >= 5, "{kinds:?}");
    assert!(!check::stops(&findings), "{kinds:?}");
}

#[test]
fn little_ground_lies_idle_and_nothing_must_stop() {
    let (plan, after, proposal) = filled();
    println!("{}; idle {:.1} %", proposal.words(), proposal.idle_share() * 100.0);
    assert!(proposal.idle_share() < 0.15, "{}", proposal.idle_share());
    for wish in &proposal.wishes {
        assert_eq!(wish.share < 0.995, !wish.reasons.is_empty(), "{wish:?}");
    }
    let year = SiteYear::new(&plan.site).unwrap();
    let findings = check::check(&check::Context::whole(after, store::book(), &year));
    let stops: Vec<_> = findings.iter().filter(|f| f.weight == Weight::Stop).map(|f| &f.words).collect();
    assert!(stops.is_empty(), "{stops:?}");
}

#[test]
fn what_wishes_ask_for_is_counted_in_whole_blocks() {
    use catchcrop::fill::{Bed, Bucket, Cells, Place, Problem, Shape, Start, Way, Wish, weeks};
    let start = |week: usize, length: usize| Start {
        week,
        taken: weeks(week, week + length),
        harvest: vec![(week + length - 1, 3)],
        ..Start::default()
    };
    let mut cells = Cells::default();
    cells.insert(0);
    let mut problem = Problem {
        weeks: 30,
        season: weeks(2, 28),
        point: 1,
        beds: vec![Bed { height: 1, width: 4, ..Bed::default() }],
        ways: vec![Way {
            wish: Some(0),
            shapes: vec![Shape { sizes: vec![(1, 1)], plants: 4 }],
            // A slow start and a quick one for the same weeks; the first two weeks are before the season.
            starts: vec![start(0, 8), start(1, 6), start(10, 5)],
            places: vec![Place { bed: 0, from: 0, to: 30, cells, ..Place::default() }],
            ..Way::default()
        }],
        wishes: vec![Wish {
            importance: 1,
            buckets: vec![
                Bucket { from: 5, to: 10, want: 24, ..Bucket::default() },
                Bucket { from: 10, to: 20, want: 14, ..Bucket::default() },
                Bucket { from: 25, to: 27, want: 9, ..Bucket::default() },
            ],
            ..Wish::default()
        }],
        ..Problem::default()
    };
    // Twelve a block: two of the quick one (5 weeks of it in season), one of the late one (the rest of 2 is less
    // than half a block), and nothing for the weeks in which nothing is ripe.
    assert_eq!(problem.asked(), 2 * 5 + 5);
    problem.wishes[0].buckets[1].want = 20;
    assert_eq!(problem.asked(), 2 * 5 + 2 * 5);
}

#[test]
fn what_is_sown_together_stands_together() {
    let (_, _, proposal) = filled();
    // Cells of one sowing in one bed, against the blocks they are told as.
    let mut sowings = std::collections::BTreeMap::new();
    for p in proposal.plantings.iter().filter(|p| p.block.area() <= 4) {
        let (cells, blocks) = sowings.entry((&p.place, &p.crop, p.begins())).or_insert((0, 0));
        *cells += p.block.area();
        *blocks += 1;
    }
    let several: Vec<_> = sowings.values().filter(|(cells, _)| *cells > 1).collect();
    let (cells, blocks) = several.iter().fold((0, 0), |(c, b), (cells, blocks)| (c + cells, b + blocks));
    println!("{} sowings of several cells: {cells} cells in {blocks} blocks", several.len());
    assert!(blocks * 10 <= cells * 7, "{cells} cells in {blocks} blocks");
}
