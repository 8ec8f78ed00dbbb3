//! No two texts overlap and nothing leaves the margins, on made-up and on random plans.

use catchcrop::paper::{Imprint, Item, Orientation, Page, Paper};
use proptest::prelude::*;

use super::{demo, sheets};

/// Kerning and rounding may move a letter by this many points.
const SLACK: f64 = 0.35;

/// What is wrong with the pages, in words.
pub(super) fn faults(pages: &[Page]) -> Vec<String> {
    let mut out = Vec::new();
    for (n, page) in pages.iter().enumerate() {
        let inside = page.inside();
        let texts: Vec<_> = page.texts().map(|t| (t.outline(), &t.words)).collect();
        for (i, (a, words)) in texts.iter().enumerate() {
            if !inside.holds(a, SLACK) {
                out.push(format!("page {}: '{words}' leaves the margins: {a:?}", n + 1));
            }
            for (b, other) in texts.iter().skip(i + 1) {
                if a.meets(b, SLACK) {
                    out.push(format!("page {}: '{words}' lies over '{other}'", n + 1));
                }
            }
        }
        for item in &page.items {
            let (left, top, right, bottom) = match item {
                Item::Pane(p) => (p.at.left, p.at.top, p.at.right, p.at.bottom),
                Item::Line(l) => {
                    (l.from.0.min(l.to.0), l.from.1.min(l.to.1), l.from.0.max(l.to.0), l.from.1.max(l.to.1))
                }
                Item::Poly(p) => p.points.iter().fold((f64::MAX, f64::MAX, f64::MIN, f64::MIN), |b, q| {
                    (b.0.min(q.0), b.1.min(q.1), b.2.max(q.0), b.3.max(q.1))
                }),
                Item::Text(_) => continue,
            };
            if left < inside.left - 1.5
                || top < inside.top - 1.5
                || right > inside.right + 1.5
                || bottom > inside.bottom + 1.5
            {
                out.push(format!("page {}: {item:?} leaves the margins", n + 1));
            }
        }
    }
    out
}

#[track_caller]
pub(super) fn sound(pages: &[Page]) {
    let faults = faults(pages);
    assert!(faults.is_empty(), "{} faults, first: {:#?}", faults.len(), &faults[..faults.len().min(5)]);
}

/// All words of the pages, for asking whether something is there.
pub(super) fn words(pages: &[Page]) -> String {
    pages.iter().flat_map(Page::texts).map(|t| t.words.as_str()).collect::<Vec<_>>().join(" ")
}

/// Every paper, lying as each sheet reads best and either way.
fn imprints() -> impl Iterator<Item = Imprint> {
    let ways = [None, Some(Orientation::Portrait), Some(Orientation::Landscape)];
    let of = move |paper| ways.into_iter().map(move |lies| Imprint { lies, ..demo::imprint(paper) });
    [Paper::A4, Paper::Letter].into_iter().flat_map(of)
}

#[test]
fn a_checker_that_sees() {
    let mut pages = demo::jobs(2).pages(&demo::imprint(Paper::A4));
    let style = catchcrop::paper::Style::plain(8.0);
    pages[0].write(60.0, 700.0, style, "one over the other");
    pages[0].write(62.0, 701.0, style, "and the other");
    pages[0].write(20.0, 730.0, style, "in the margin");
    assert_eq!(faults(&pages).len(), 2);
}

#[test]
fn timeline_of_every_size() {
    for imprint in imprints() {
        for beds in [0, 1, 6, 14, 40] {
            sound(&demo::book(demo::season(beds).pages(&imprint), &format!("timeline-{beds}")));
        }
    }
}

#[test]
fn every_bed_and_every_bar_is_printed() {
    let season = demo::season(40);
    let pages = demo::book(season.pages(&demo::imprint(Paper::A4)), "timeline-40");
    assert!(pages.len() > 3, "{} pages", pages.len());
    let all = words(&pages);
    for bed in &season.beds {
        assert!(all.contains(bed.name.rsplit(' ').next().unwrap()), "{}", bed.name);
    }
    let bars: usize = season.beds.iter().flat_map(|b| &b.lanes).map(|l| l.bars.len()).sum();
    let plates = pages
        .iter()
        .flat_map(|p| &p.items)
        .filter(|i| matches!(i, Item::Pane(p) if matches!(p.fill, catchcrop::paper::Fill::Hatch(_))))
        .count();
    assert!(plates >= bars, "{plates} hatched panes for {bars} bars");
    for page in &pages {
        let head = words(std::slice::from_ref(page));
        for word in ["March", "Daylength", "Frost", "first picking", "page "] {
            assert!(head.contains(word), "a page lacks '{word}'");
        }
    }
}

#[test]
fn jobs_keep_their_heads() {
    let list = demo::jobs(30);
    let pages = demo::book(list.pages(&demo::imprint(Paper::A4)), "jobs");
    sound(&pages);
    assert!(pages.len() > 2);
    let all = words(&pages);
    for week in list.weeks.iter().filter(|w| !w.jobs.is_empty()) {
        assert!(all.contains(&catchcrop::paper::week(week.week)), "{}", week.week);
    }
    for page in &pages {
        assert!(words(std::slice::from_ref(page)).contains("How much"));
    }
}

#[test]
fn a_year_of_many_wishes_keeps_to_its_page() {
    for paper in [Paper::A4, Paper::Letter] {
        for wishes in [4, 12, 48] {
            let pages = sheets::summary(wishes).pages(&demo::imprint(paper));
            sound(&pages);
            assert_eq!(pages.len(), 1, "{wishes} wishes");
        }
    }
}

#[test]
fn the_other_sheets_are_sound() {
    for imprint in imprints() {
        let all = [
            ("ground", sheets::ground(&[20]).pages(&imprint)),
            ("seasons", sheets::ground(&[14, 24, 34, 44]).pages(&imprint)),
            ("plot", sheets::plot().pages(&imprint)),
            ("kitchen", sheets::kitchen(16).pages(&imprint)),
            ("kitchen-long", sheets::kitchen(70).pages(&imprint)),
            ("needs", sheets::needs().pages(&imprint)),
            ("record", sheets::record(14, 6).pages(&imprint)),
            ("labels", sheets::labels(40).pages(&imprint)),
            ("summary", sheets::summary(12).pages(&imprint)),
            ("summary-long", sheets::summary(48).pages(&imprint)),
        ];
        for (name, pages) in all {
            println!("{name}: {} pages", pages.len());
            let wide = |page: &Page| page.width > page.height;
            match imprint.lies {
                Some(Orientation::Portrait) => assert!(!pages.iter().any(wide), "{name}"),
                Some(Orientation::Landscape) => assert!(pages.iter().all(wide), "{name}"),
                None => {}
            }
            sound(&demo::book(pages, name));
        }
    }
}

fn name() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => "[A-Z][a-z]{2,9}( [a-z]{2,9}){0,3}",
        1 => "[A-Z][a-z]{30,60}",
        1 => "([A-Za-z]{1,12} ){5,25}",
        1 => "[\u{e0}-\u{ff}\u{3b1}-\u{3c9}<>&\"' ]{1,20}",
    ]
}

fn bars() -> impl Strategy<Value = Vec<catchcrop::paper::Bar>> {
    prop::collection::vec((0..16_usize, -80..420_i64, 0..220_i64, name(), any::<bool>(), any::<bool>()), 0..9)
        .prop_map(|rows| {
            rows.into_iter()
                .map(|(crop, from, days, name, mate, own)| {
                    let mut bar = demo::bar(crop, from);
                    bar.to = (days < 200).then(|| demo::date(from + days));
                    bar.pick = Some((demo::date(from + days / 2), demo::date(from + days)));
                    if own {
                        bar.name = name;
                    }
                    if mate {
                        bar.kind = catchcrop::paper::Kind::Mate;
                    }
                    bar
                })
                .collect()
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_seasons(
        title in name(), note in name(), garden in name(), letter in any::<bool>(),
        beds in prop::collection::vec((name(), name(), prop::collection::vec((name(), bars()), 0..5)), 0..12),
    ) {
        let mut season = demo::season(0);
        season.title = title;
        season.note = note;
        season.beds = beds.into_iter().map(|(name, note, lanes)| catchcrop::paper::Bed {
            name, note,
            lanes: lanes.into_iter().map(|(cells, bars)| catchcrop::paper::Lane { cells, bars }).collect(),
        }).collect();
        let mut imprint = demo::imprint(if letter { Paper::Letter } else { Paper::A4 });
        imprint.garden = garden;
        let mut pages = season.pages(&imprint);
        catchcrop::paper::number(&mut pages, &imprint);
        let faults = faults(&pages);
        prop_assert!(faults.is_empty(), "{:#?}", &faults[..faults.len().min(4)]);
    }

    #[test]
    fn random_jobs(
        title in name(), letter in any::<bool>(),
        weeks in prop::collection::vec((0..60_i64, name(), prop::collection::vec((name(), name(), name(), name()), 0..12)), 0..9),
    ) {
        let mut list = demo::jobs(0);
        list.title = title;
        list.weeks = weeks.into_iter().map(|(week, note, jobs)| catchcrop::paper::JobWeek {
            week: catchcrop::calendar::Week::of(demo::date(7 * week)), note,
            jobs: jobs.into_iter().map(|(what, place, amount, why)| catchcrop::paper::Job {
                what, place, amount, why, id: String::new(), from: demo::date(week), to: demo::date(week + 6), minutes: 12, cells: String::new()
            }).collect(),
        }).collect();
        let imprint = demo::imprint(if letter { Paper::Letter } else { Paper::A4 });
        let mut pages = list.pages(&imprint);
        catchcrop::paper::number(&mut pages, &imprint);
        let faults = faults(&pages);
        prop_assert!(faults.is_empty(), "{:#?}", &faults[..faults.len().min(4)]);
    }

    #[test]
    fn random_grounds(
        title in name(), letter in any::<bool>(), weeks in prop::sample::subsequence(vec![12_i64, 20, 28, 36, 44], 0..=5),
        moves in prop::collection::vec((0_usize..9, -2000.0..9000.0_f64, -2000.0..9000.0_f64, 60.0..4000.0_f64, 60.0..4000.0_f64, 1_u16..14, 1_u16..14, name()), 0..14),
    ) {
        let mut plan = sheets::ground(&weeks);
        plan.title = title;
        for view in &mut plan.views {
            for (n, x, y, across, down, rows, cols, name) in &moves {
                let count = view.beds.len();
                let bed = &mut view.beds[n % count];
                (bed.x, bed.y, bed.across, bed.down, bed.grid) = (*x, *y, *across, *down, (*rows, *cols));
                bed.name.clone_from(name);
                if let Some(block) = bed.blocks.first_mut() {
                    block.name.clone_from(name);
                }
            }
        }
        let imprint = demo::imprint(if letter { Paper::Letter } else { Paper::A4 });
        let mut pages = plan.pages(&imprint);
        catchcrop::paper::number(&mut pages, &imprint);
        let faults = faults(&pages);
        prop_assert!(faults.is_empty(), "{:#?}", &faults[..faults.len().min(4)]);
    }

    #[test]
    fn random_lists(
        letter in any::<bool>(),
        words in prop::collection::vec((name(), name(), name(), 0_usize..6), 0..40),
        kitchen in 0_usize..60, years in 0_usize..9, facts in 0_usize..11,
    ) {
        let imprint = demo::imprint(if letter { Paper::Letter } else { Paper::A4 });
        let (mut needs, mut record, mut labels) = (sheets::needs(), sheets::record(words.len(), years), sheets::labels(words.len()));
        let (mut summary, mut calendar) = (sheets::summary(8 + kitchen), sheets::kitchen(kitchen));
        for (n, (a, b, c, part)) in words.iter().enumerate() {
            let row = catchcrop::paper::NeedsRow { what: a.clone(), amount: b.clone(), detail: c.clone(), by: None };
            let at = part % needs.parts.len();
            needs.parts[at].rows.push(row);
            record.soils[n].name.clone_from(a);
            record.soils[n].note.clone_from(b);
            labels.labels[n].name.clone_from(a);
            labels.labels[n].place.clone_from(b);
            labels.labels[n].lines.push(c.clone());
            summary.remarks.push(c.clone());
            let count = summary.wishes.len();
            summary.wishes[n % count].reason.clone_from(c);
            summary.facts.push((a.clone(), b.clone()));
            if let Some(row) = calendar.rows.get_mut(n) {
                row.name.clone_from(a);
            }
        }
        summary.facts.truncate(facts);
        let mut pages = needs.pages(&imprint);
        pages.extend(record.pages(&imprint));
        pages.extend(labels.pages(&imprint));
        pages.extend(summary.pages(&imprint));
        pages.extend(calendar.pages(&imprint));
        catchcrop::paper::number(&mut pages, &imprint);
        let faults = faults(&pages);
        prop_assert!(faults.is_empty(), "{:#?}", &faults[..faults.len().min(4)]);
    }
}
