//! The courtyard of the examples, filled once for all tests of this file.

use crate::support::example;
use catchcrop::calendar::read_date;
use catchcrop::check::{self, Weight};
use catchcrop::fill::{Effort, Proposal, Request, build, search};
use catchcrop::plan::{Plan, Why};
use catchcrop::site::SiteYear;
use catchcrop::store;
use catchcrop::units::num::real;
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
    let ratio = real(proposal.asked) / real(usize::try_from(proposal.growing).unwrap());
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
    assert!(proposal.idle_share() < 0.09, "{}", proposal.idle_share());
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

#[test]
fn fillers_are_spread_and_gaps_are_used() {
    use catchcrop::plan::Why;
    let (plan, after, proposal) = filled();
    let mut fillers = std::collections::BTreeMap::new();
    for p in proposal.plantings.iter().filter(|p| p.why == Why::Catch) {
        *fillers.entry(p.crop.as_str()).or_insert(0) += p.block.area();
    }
    let all: usize = fillers.values().sum();
    let covers = proposal.plantings.iter().filter(|p| p.why == Why::Cover);
    let covers = covers.fold(std::collections::BTreeMap::new(), |mut all, p| {
        *all.entry(p.crop.as_str()).or_insert(0) += p.block.area();
        all
    });
    println!("cover crops in cells: {covers:?}");
    println!("catch crops in {all} gaps of cells: {fillers:?}");
    assert!(all >= 10, "{fillers:?}");
    for (crop, gaps) in &fillers {
        // A fifth, and a little more only where no other crop fits.
        assert!(gaps * 4 <= all + 4, "{crop} fills {gaps} of {all} gaps: {fillers:?}");
    }
    let year = SiteYear::new(&plan.site).unwrap();
    let found = open_gaps(after, &year);
    for gap in &found {
        println!("{gap}");
    }
    assert!(found.is_empty(), "{} gaps of three weeks or more could carry a catch crop", found.len());
}

/// Gaps of three weeks or more of the growing season in which a catch crop of the book, sown on a garden day and
/// cleared before the next planting, would add no stop and no week with too much work.
fn open_gaps(after: &Plan, year: &SiteYear) -> Vec<String> {
    use catchcrop::calendar::{Date, plus};
    use catchcrop::garden::{Block, Layer};
    use catchcrop::growth::{Dates, schedule};
    use catchcrop::plan::Planting;
    let book = store::book();
    let from = read_date("2027-03-01").unwrap();
    let context = check::Context::whole(after, book, year);
    let weeks = check::growing_weeks(&context, from);
    let open = after.conditions(book, year);
    let catch: Vec<_> = book
        .crops()
        .filter(|c| c.catch && c.is_food() && c.starts.contains(&catchcrop::crop::Start::InPlace))
        .collect();
    let serious = |plan: &Plan| {
        let findings = check::check(&check::Context::new(plan, book, year, from, Date::MAX));
        let counted = findings.into_iter().filter(|f| f.weight == Weight::Stop || f.code == "hours-short");
        counted.map(|f| f.words).collect::<BTreeSet<String>>()
    };
    let before = serious(after);
    let mut out = Vec::new();
    let mut tried = BTreeSet::new();
    for place in &after.places {
        let here: Vec<&Planting> = after.plantings.iter().filter(|p| p.place == place.id).collect();
        for (row, col) in place.whole(after.settings.cell).cells() {
            let there: Vec<_> = here.iter().filter(|p| p.block.holds(row, col)).collect();
            let busy = |d: Date| {
                there
                    .iter()
                    .any(|p| p.begins().is_some_and(|b| b < plus(d, 7)) && p.ends().is_none_or(|e| e > d))
            };
            let mut n = 0;
            while n < weeks.len() {
                let mut to = n;
                while to < weeks.len() && !busy(weeks[to]) && (to == n || plus(weeks[to - 1], 7) == weeks[to])
                {
                    to += 1;
                }
                if to - n < 3 {
                    n = to.max(n + 1);
                    continue;
                }
                let first = weeks[n];
                let next = there.iter().filter_map(|p| p.begins()).filter(|b| *b >= first).min();
                for crop in &catch {
                    // Cells alike in one bed are tried once.
                    if !tried.insert((place.id.clone(), first, next, crop.id.clone())) {
                        continue;
                    }
                    let conditions = after.raised_for(&open, crop);
                    for &on in &weeks[n..to] {
                        let Ok(s) = schedule(crop, &conditions, catchcrop::crop::Start::InPlace, on) else {
                            continue;
                        };
                        let (Some(end), Some(up)) = (s.dates.cleared, s.dates.emerged) else { continue };
                        let plants = catchcrop::garden::capacity(crop, place, 1, 1, after.settings.cell);
                        let late = next.is_some_and(|n| end > n);
                        if late || plants == 0 || catchcrop::calendar::days_between(on, up) > 28 {
                            continue;
                        }
                        let mut plan = after.clone();
                        plan.plantings.push(Planting {
                            id: after.next_planting(),
                            crop: crop.id.clone(),
                            name: crop.name.clone(),
                            botanical: String::new(),
                            family: crop.family.clone(),
                            place: place.id.clone(),
                            block: Block::cell(row, col),
                            layer: Layer::Main,
                            start: catchcrop::crop::Start::InPlace,
                            plants,
                            planned: s.dates,
                            real: Dates::default(),
                            fixed: false,
                            why: Why::Catch,
                            failed: None,
                            shift: None,
                            note: String::new(),
                        });
                        if serious(&plan).is_subset(&before) {
                            out.push(format!(
                                "{} {}: {} on {on} until {end}",
                                place.id,
                                Block::cell(row, col),
                                crop.id
                            ));
                            break;
                        }
                    }
                }
                n = to;
            }
        }
    }
    out
}

#[test]
fn peas_tomatoes_flowers_and_mates_go_where_a_grower_would_put_them() {
    use catchcrop::crop::Use;
    use catchcrop::garden::Layer;
    let (plan, after, proposal) = filled();
    let book = store::book();
    // Flowers for cutting only in the flower border.
    for p in &proposal.plantings {
        let crop = book.get(&p.crop).unwrap();
        let stems = match p.why {
            Why::Wish(id) => plan.wish(id).unwrap().amount.to_string().contains("stem"),
            Why::Hand | Why::Catch | Why::Cover => false,
        };
        if crop.is_for(Use::CutFlower) && (stems || !crop.is_food()) {
            assert_eq!(p.place.0, "border-1", "{} in {}", p.name, p.place);
        }
    }
    // Never nightshades where they stood within three years.
    for p in proposal.plantings.iter().filter(|p| p.family == "Solanaceae") {
        let old = plan.record.iter().filter(|r| r.place == p.place && r.family() == Some("Solanaceae"));
        assert!(old.count() == 0 || p.place.0 == "box-1", "{} in {}", p.name, p.place);
    }
    // Spring peas, then something that is no legume, then August peas in another bed.
    let year = SiteYear::new(&plan.site).unwrap();
    let twice = check::check(&check::Context::whole(after, book, &year));
    let twice: Vec<_> = twice.iter().filter(|f| f.code == "family-twice").map(|f| &f.words).collect();
    assert!(twice.is_empty(), "a legume follows a legume: {twice:?}");
    let peas: BTreeSet<_> = proposal
        .plantings
        .iter()
        .filter(|p| book.get(&p.crop).is_some_and(|c| c.base().as_str() == "pea" || c.id.as_str() == "pea"))
        .filter_map(|p| Some((chrono::Datelike::month(&p.begins()?) > 6, p.place.0.as_str())))
        .collect();
    println!("peas: {peas:?}");
    let mates: Vec<_> =
        proposal.plantings.iter().filter(|p| p.layer == Layer::Mate).map(|p| &p.name).collect();
    println!("mates: {mates:?}");
}

#[test]
fn even_wishes_are_met_evenly() {
    let (plan, after, _) = filled();
    let year = SiteYear::new(&plan.site).unwrap();
    let context = check::Context::whole(after, store::book(), &year);
    let met = check::share_met(&context, read_date("2027-03-01").unwrap());
    let (mut good, mut all) = (0, 0);
    for (wish, larder) in met.wishes.iter().filter_map(|m| Some((m, m.larder?))) {
        // What is asked for beyond all that could be had is told by its reasons, not by its larder.
        if wish.share >= 0.5 {
            good += larder.weeks - larder.short - larder.glut;
            all += larder.weeks;
        }
    }
    println!("{good} of {all} weeks of even wishes are neither short nor a glut");
    assert!(good * 100 >= all * 75, "{good} of {all}");
}

#[test]
fn planning_again_leaves_the_past_and_what_is_fixed() {
    let (_, after, _) = filled();
    let today = read_date("2027-06-14").unwrap();
    let year = SiteYear::new(&after.site).unwrap();
    let built = build(after, store::book(), &year, Request::again(today));
    let proposal = built.proposal(&search(&built.problem, &Effort::Quick, 1, &mut |_| {}));
    let mut again = after.clone();
    again.apply(&proposal.edit()).unwrap();
    for old in &after.plantings {
        let begun = old.dates().in_order().first().is_some_and(|d| *d < today);
        if begun || old.fixed {
            assert_eq!(again.planting(old.id), Some(old), "{} of {}", old.name, old.place);
        }
    }
    assert!(proposal.plantings.iter().all(|p| p.dates().in_order().iter().all(|d| *d >= today)));
    let (kept, gone) = (proposal.kept, proposal.replaced.len());
    println!("{kept} stay as they are, {gone} go, {} are new", proposal.plantings.len());
    assert!(kept * 100 >= (kept + gone) * 87, "{kept} kept, {gone} gone");
    let findings = check::check(&check::Context::whole(&again, store::book(), &year));
    assert!(!check::stops(&findings));
}

#[test]
fn planning_again_when_nothing_has_changed_changes_nothing() {
    let (before, after, _) = filled();
    let from = read_date("2027-03-01").unwrap();
    let year = SiteYear::new(&after.site).unwrap();
    let built = build(after, store::book(), &year, Request::again(from));
    let proposal = built.proposal(&search(&built.problem, &Effort::Quick, 1, &mut |_| {}));
    let new = after.plantings.len() - before.plantings.len();
    println!(
        "{} of {new} stay, {} new, {} gone",
        proposal.kept,
        proposal.plantings.len(),
        proposal.replaced.len()
    );
    assert!(proposal.changes_nothing(), "{:?} {:?}", proposal.plantings, proposal.replaced);
}
