//! From a plan to its sheets.

use catchcrop::calendar::{Date, Season, Week, plus, read_date};
use catchcrop::crop::{CropId, Start};
use catchcrop::garden::{Block, Layer, PlaceId};
use catchcrop::growth::Dates;
use catchcrop::paper::{Extra, Form, Kind, Known, Leaf, Paper, Sheet, Source, csv, print};
use catchcrop::plan::{DiaryEntry, Event, Plan, Planting, PlantingId, Why};
use catchcrop::site::SiteYear;
use catchcrop::store;
use catchcrop::units::{Amount, Measure};

use proptest::prelude::*;

use super::{demo, geometry};

fn day(text: &str) -> Date {
    read_date(text).unwrap()
}

/// An example garden of the project with a few plantings put in by hand.
pub(super) fn garden() -> Plan {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("plans/courtyard.ron");
    let text = std::fs::read_to_string(path).unwrap();
    let mut plan: Plan = store::text::read("courtyard.ron", &text).unwrap();
    plan.diary.clear();
    plan.plantings.clear();
    let rows = [
        ("box-1", "radish", (0, 0), (1, 1), "2027-04-03", 35, Layer::Main, Why::Hand),
        ("box-1", "radish", (0, 1), (1, 1), "2027-04-03", 35, Layer::Main, Why::Hand),
        ("box-1", "tomato", (0, 0), (2, 2), "2027-05-15", 140, Layer::Main, Why::Hand),
        ("box-1", "lettuce", (0, 0), (2, 2), "2027-05-15", 40, Layer::Mate, Why::Hand),
        ("box-1", "carrot", (2, 0), (1, 4), "2027-04-10", 95, Layer::Main, Why::Hand),
        ("box-1", "spinach", (2, 0), (1, 2), "2027-08-14", 60, Layer::Main, Why::Catch),
        ("box-2", "pea", (0, 0), (1, 4), "2027-03-27", 90, Layer::Main, Why::Hand),
        ("pot-1", "basil", (0, 0), (1, 1), "2027-05-29", 110, Layer::Main, Why::Hand),
    ];
    for (n, (place, crop, at, size, from, days, layer, why)) in rows.into_iter().enumerate() {
        plan.plantings.push(planting(
            n,
            place,
            crop,
            Block { row: at.0, col: at.1, rows: size.0, cols: size.1 },
            day(from),
            days,
            layer,
            why,
        ));
    }
    plan
}

#[expect(clippy::too_many_arguments, reason = "a row of the table above")]
fn planting(
    n: usize,
    place: &str,
    crop: &str,
    block: Block,
    from: Date,
    days: i64,
    layer: Layer,
    why: Why,
) -> Planting {
    let entry = store::book().get(&CropId::new(crop)).unwrap_or_else(|| panic!("no {crop}"));
    let start = entry.starts[0];
    let raised = matches!(start, Start::Raised { .. });
    let dates = Dates {
        sown: Some(if raised { plus(from, -42) } else { from }),
        set_out: raised.then_some(from),
        first_pick: Some(plus(from, days * 2 / 3)),
        last_pick: Some(plus(from, days - 1)),
        cleared: Some(plus(from, days)),
        ..Dates::default()
    };
    Planting {
        id: PlantingId(u32::try_from(n).unwrap() + 1),
        crop: entry.id.clone(),
        name: entry.name.clone(),
        botanical: entry.botanical.clone(),
        family: entry.family.clone(),
        place: PlaceId::new(place),
        block,
        layer,
        start,
        plants: 4,
        planned: dates,
        shift: None,
        real: Dates::default(),
        fixed: false,
        why,
        failed: None,
        note: String::new(),
    }
}

pub(super) fn with<T>(plan: &Plan, see: impl FnOnce(&Source<'_>) -> T) -> T {
    let year = SiteYear::new(&plan.site).unwrap();
    let season = plan.season(day("2027-06-01"), year.season_start_or_january());
    see(&Source { plan, book: store::book(), year: &year, season })
}

#[test]
fn lanes_follow_the_cells() {
    let plan = garden();
    let line = with(&plan, |source| source.timeline().clone());
    let bed = line.beds.iter().find(|b| b.name == "Long box").unwrap();
    let lanes: Vec<_> = bed
        .lanes
        .iter()
        .map(|l| {
            (l.cells.as_str(), l.bars.iter().map(|b| (b.code.as_str(), b.kind, b.echo)).collect::<Vec<_>>())
        })
        .collect();
    let code = |id: &str| store::book().get(&CropId::new(id)).unwrap().code.as_str();
    let (radish, tomato, lettuce) = (code("radish"), code("tomato"), code("lettuce"));
    let (carrot, spinach) = (code("carrot"), code("spinach"));
    assert_eq!(
        lanes,
        [
            ("A1\u{2013}B1", vec![(radish, Kind::Main, false), (tomato, Kind::Main, false)]),
            ("A1\u{2013}B2 mate", vec![(lettuce, Kind::Mate, false)]),
            ("A2\u{2013}B2", vec![(tomato, Kind::Main, true)]),
            ("A3\u{2013}B3", vec![(carrot, Kind::Main, false), (spinach, Kind::Catch, false)]),
            ("C3\u{2013}D3", vec![(carrot, Kind::Main, true)]),
        ],
        "cells with the same year share a lane; what reaches into another lane is echoed there"
    );
    let bars = &bed.lanes[0].bars;
    assert_eq!(bars[0].amount, "8", "two like plantings are one bar");
    assert_eq!(bars[1].amount, "4 (A1\u{2013}B2)", "a planting of more cells than its lane names them");
    assert_eq!(line.axis.weeks, 53);
    assert_eq!((line.daylength.len(), line.frost.len()), (53, 53));
    assert!(
        line.frost[3] > 0.95 && line.frost[28] < 0.05,
        "frost in January, none in July: {:?}",
        line.frost
    );
    assert!((line.daylength[24] - 15.1).abs() < 0.2, "15 h 06 at midsummer, 40.8 N: {}", line.daylength[24]);
}

#[test]
fn every_sheet_of_a_plan_is_sound() {
    let mut plan = garden();
    plan.plantings[2].failed = Some(day("2027-07-20"));
    plan.plantings[3].planned.cleared = None;
    with(&plan, |source| {
        for paper in [Paper::A4, Paper::Letter] {
            let imprint = demo::imprint(paper);
            let week = Week::of(day("2027-06-10"));
            let all = [
                ("plan-weeks", source.timeline().pages(&imprint)),
                ("plan-ground", source.ground(week).pages(&imprint)),
                ("plan-seasons", source.seasons().pages(&imprint)),
                ("plan-record", source.record(4).pages(&imprint)),
                ("plan-kitchen", source.kitchen().pages(&imprint)),
                ("plan-labels", source.labels().pages(&imprint)),
                ("plan-summary", source.summary().pages(&imprint)),
            ];
            for (name, pages) in all {
                geometry::sound(&demo::book(pages, name));
            }
        }
        let line = source.timeline();
        let words = geometry::words(&line.pages(&demo::imprint(Paper::A4)));
        assert!(words.contains("failed"));
        let tomato = line.each_bar().find(|b| b.name.contains("failed")).unwrap();
        assert_eq!(tomato.to, Some(day("2027-07-20")), "what failed stands until then");
        assert_eq!(tomato.pick, None, "and is not picked after");
    });
}

#[test]
fn ground_shows_what_stands_that_week() {
    let plan = garden();
    with(&plan, |source| {
        let at = |date: &str| {
            let view = source.ground(Week::of(day(date))).views.remove(0);
            let bed = view.beds.into_iter().find(|b| b.name == "Long box").unwrap();
            bed.blocks.into_iter().map(|b| format!("{} {} {}", b.name, b.cells, b.stage)).collect::<Vec<_>>()
        };
        assert_eq!(at("2027-02-01"), Vec::<String>::new());
        let june = at("2027-06-12");
        assert_eq!(june.len(), 3, "{june:?}");
        assert!(june.iter().any(|w| w.contains("A1\u{2013}B2")));
        let october = at("2027-10-06");
        assert_eq!(october.len(), 1, "{october:?}");
        assert!(october[0].ends_with("picked"));
    });
}

#[test]
fn the_record_knows_what_it_does_not_know() {
    let plan = garden();
    let record = with(&plan, |s| s.record(4));
    let mut older = garden();
    older.plantings.push(planting(
        90,
        "pot-1",
        "basil",
        Block::cell(0, 0),
        day("2026-06-01"),
        90,
        Layer::Main,
        Why::Hand,
    ));
    let older = with(&older, |s| s.record(4));
    let gone = older.soils.iter().find(|s| s.name == "Fabric pot 1, old filling").unwrap();
    assert_eq!(gone.years[0], Known::Free("not yet there".to_owned()));
    assert!(matches!(gone.years[2], Known::Stood(_)));
    assert_eq!(record.years, ["2024", "2025", "2026", "2027"]);
    let soil = |name: &str| record.soils.iter().find(|s| s.name == name).unwrap();
    let kinds = |name: &str| -> Vec<&str> {
        let word = |k: &Known| match k {
            Known::Unknown => "unknown",
            Known::Free(_) => "free",
            Known::Stood(_) => "stood",
        };
        soil(name).years.iter().map(word).collect()
    };
    assert_eq!(kinds("Long box"), ["stood", "stood", "stood", "stood"]);
    assert_eq!(
        kinds("Trellis bed"),
        ["stood", "stood", "unknown", "unknown"],
        "a year without entries is unknown"
    );
    assert_eq!(kinds("Flower border"), ["unknown", "unknown", "stood", "unknown"]);
    // A pot filled anew on 6 March 2027 has two soils: the old one ends, the new one begins.
    assert_eq!(kinds("Fabric pot 1")[..3], ["free", "free", "free"]);
    assert_eq!(kinds("Fabric pot 1")[3], "stood");
    assert!(
        !record.soils.iter().any(|s| s.name.contains("old filling")),
        "nothing is known of the soil that is gone"
    );
    let Known::Stood(stays) = &soil("Long box").years[0] else { panic!() };
    assert_eq!(stays[0].name, store::book().get(&CropId::new("kale")).unwrap().name);
}

#[test]
fn pickings_leave_out_what_was_corrected() {
    let mut plan = garden();
    let entry = |id: u32, grams: f64, corrects: Option<u32>| DiaryEntry {
        id,
        on: day("2027-07-10"),
        planting: Some(PlantingId(5)),
        place: None,
        what: Event::Picked(Amount::grams(grams, Measure::Metric)),
        words: "=sweet".to_owned(),
        corrects,
    };
    plan.diary = vec![entry(1, 900.0, None), entry(2, 400.0, Some(1))];
    with(&plan, |source| {
        let records = source.pickings().records();
        assert_eq!(records.columns.join(" "), "date crop place cells amount unit words");
        assert_eq!(records.rows.len(), 1);
        let words = csv(&records).unwrap();
        assert!(words.contains("2027-07-10,"), "{words}");
        assert!(words.contains(",400,g,'=sweet\r\n"), "{words}");
        let summary = source.summary();
        assert!(
            summary
                .facts
                .iter()
                .any(|(name, value)| name.contains("picked")
                    && value.contains("400") | value.contains("14 oz")),
            "{:?}",
            summary.facts
        );
    });
}

#[test]
fn a_southern_season_runs_across_the_new_year() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("plans/southern.ron");
    let plan: Plan = store::text::read("southern.ron", &std::fs::read_to_string(path).unwrap()).unwrap();
    let year = SiteYear::new(&plan.site).unwrap();
    let season = plan.season(day("2027-12-01"), year.season_start_or_january());
    let source = Source { plan: &plan, book: store::book(), year: &year, season };
    let line = source.timeline();
    assert_eq!(season, Season::beginning(2027, year.season_start_or_january()));
    assert!(line.axis.begin() <= day("2027-07-01") && line.axis.end() > day("2028-06-30"));
    let words = geometry::words(&line.pages(&demo::imprint(Paper::A4)));
    let (july, january) = (words.find("July").unwrap(), words.find("January").unwrap());
    assert!(july < january, "July comes first");
}

#[test]
fn the_kitchen_gets_what_the_plan_brings() {
    let mut plan = garden();
    for p in &mut plan.plantings {
        p.plants = 10;
    }
    with(&plan, |source| {
        let kitchen = source.kitchen();
        let row = |name: &str| kitchen.rows.iter().find(|r| r.name == name).unwrap();
        for (id, plants) in [("carrot", 10.0), ("radish", 20.0)] {
            let crop = store::book().get(&CropId::new(id)).unwrap();
            let row = row(&crop.name);
            let total: f64 = row.weeks.iter().map(|(_, a)| a.value()).sum();
            let whole = crop.harvest.usual.value() * plants;
            assert!(total > 0.5 * whole && total <= whole * 1.001, "{id}: {total} of {whole}");
            let first = plan.plantings.iter().find(|p| p.crop.0 == id).unwrap().dates().first_pick.unwrap();
            assert!(row.weeks[0].0.until(Week::of(first)).abs() <= 1, "{id} begins with its first picking");
        }
        assert!(
            kitchen.rows.windows(2).all(|w| w[0].weeks[0].0 <= w[1].weeks[0].0),
            "in the order of the year"
        );
        let wishes = source.wishes();
        assert_eq!(wishes.len(), plan.wishes.iter().filter(|w| w.season.is_none_or(|y| y == 2027)).count());
        let carrot = wishes.iter().find(|w| w.name == row("Carrot").name).unwrap();
        assert!(carrot.share > 0.0, "{carrot:?}");
        let leek = wishes.iter().find(|w| w.name.starts_with("Leek")).unwrap();
        assert_eq!((leek.share, leek.met.as_str()), (0.0, "nothing"));
        assert!(wishes.iter().all(|w| (0.0..=1.0).contains(&w.share)));
    });
}

#[test]
fn a_plan_is_printed_in_every_form() {
    let plan = garden();
    with(&plan, |source| {
        let week = Week::of(day("2027-06-10"));
        let leaves = source.leaves(&Sheet::ALL, Extra::of(week));
        assert_eq!(leaves.iter().map(Leaf::sheet).collect::<Vec<_>>(), Sheet::ALL);
        let imprint = source.imprint(Paper::A4, day("2027-03-01"));
        let stamp = source.stamp(day("2027-03-01").and_hms_opt(7, 0, 0).unwrap(), None);
        for ending in ["pdf", "svg", "ics", "csv", "md", "txt"] {
            let form = Form::of(ending).unwrap();
            let made = print(&leaves, form, &imprint, &stamp).unwrap();
            assert_eq!(
                made,
                print(&leaves, form, &imprint, &stamp).unwrap(),
                "{ending}: equal plans, equal bytes"
            );
            assert_eq!(made.missing, [], "{ending}");
        }
        let few = source.leaves(&[Sheet::Jobs, Sheet::Weeks, Sheet::Jobs], Extra::of(week));
        assert_eq!(
            few.iter().map(Leaf::sheet).collect::<Vec<_>>(),
            [Sheet::Weeks, Sheet::Jobs],
            "each once, bound in order"
        );
    });
}

/// Row, column, rows, columns; first day and days; crop; mate; day of failing.
type Random = (u16, u16, u16, u16, i64, i64, usize, bool, Option<i64>);

fn rows() -> impl Strategy<Value = Vec<Random>> {
    let row = (
        0_u16..4,
        0_u16..8,
        1_u16..5,
        1_u16..5,
        -200_i64..500,
        1_i64..200,
        0_usize..6,
        any::<bool>(),
        prop::option::weighted(0.1, 0_i64..100),
    );
    prop::collection::vec(row, 0..40)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever stands in a box, no plant is lost on the way to the timeline, and no page is spoilt.
    #[test]
    fn no_plant_is_lost(rows in rows()) {
        let mut plan = garden();
        plan.plantings.clear();
        let crops = ["radish", "tomato", "lettuce", "carrot", "spinach", "pea"];
        for (n, (row, col, tall, wide, from, days, crop, mate, failed)) in rows.into_iter().enumerate() {
            let block = Block { row, col, rows: tall.min(4 - row), cols: wide.min(8 - col) };
            let layer = if mate { Layer::Mate } else { Layer::Main };
            let begin = plus(day("2027-01-01"), from);
            let mut p = planting(n, "box-1", crops[crop], block, begin, days, layer, Why::Hand);
            p.failed = failed.map(|f| plus(begin, f));
            plan.plantings.push(p);
        }
        let (line, pages) = with(&plan, |source| {
            let line = source.timeline();
            let imprint = source.imprint(Paper::Letter, day("2027-03-01"));
            let leaves = source.leaves(&[Sheet::Weeks, Sheet::Ground, Sheet::Record, Sheet::Labels], Extra::of(Week::of(day("2027-06-10"))));
            (line, catchcrop::paper::pages(&leaves, &imprint))
        });
        let faults = geometry::faults(&pages);
        prop_assert!(faults.is_empty(), "{:#?}", &faults[..faults.len().min(4)]);
        let (first, after) = (day("2027-01-01"), day("2028-01-01"));
        let stands = |p: &&Planting| {
            let end = p.failed.map_or_else(|| p.ends(), |f| p.ends().map(|e| e.min(f)));
            p.begins().unwrap() < after && end.is_none_or(|e| e > first)
        };
        let planted: usize = plan.plantings.iter().filter(stands).map(|p| usize::from(p.plants)).sum();
        let number = |b: &catchcrop::paper::Bar| b.amount.split(' ').next().unwrap().parse::<usize>().unwrap();
        prop_assert_eq!(line.each_bar().map(number).sum::<usize>(), planted);
    }
}
