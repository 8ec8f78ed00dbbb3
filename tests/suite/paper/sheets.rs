//! Invented content for the other sheets.

use catchcrop::calendar::Week;
use catchcrop::paper::{
    GroundBed, GroundBlock, GroundPlan, GroundSupport, GroundView, KitchenCalendar, KitchenRow, Known, Label,
    Labels, NeedsList, NeedsPart, NeedsRow, RecordByYears, Soil, Stay, SummaryFamily, SummaryWish,
    YearSummary,
};
use catchcrop::units::{Amount, CountWord, Measure, num};

use super::demo::{CROPS, FAMILIES, axis, date, tint};

fn block(crop: usize, at: (u16, u16), size: (u16, u16), mate: bool) -> GroundBlock {
    let (name, code, family, ..) = CROPS[crop % 16];
    GroundBlock {
        cells: format!("A{}\u{2013}B{}", at.0 + 1, at.1 + 1),
        at,
        size,
        name: name.to_owned(),
        code: code.to_owned(),
        amount: "16".to_owned(),
        family: FAMILIES[family].to_owned(),
        tint: tint(family),
        mate,
        stage: ["growing", "picked", "seedlings"][crop % 3].to_owned(),
    }
}

pub(super) fn view(week: i64, small: bool) -> GroundView {
    let n = num::count(week);
    let foot = 304.8;
    let bed = |name: &str, x: f64, y: f64, cols: u16, rows: u16, blocks: Vec<GroundBlock>| GroundBed {
        name: name.to_owned(),
        x: x * foot,
        y: y * foot,
        across: f64::from(cols) * foot,
        down: f64::from(rows) * foot,
        round: false,
        grid: (rows, cols),
        blocks,
        supports: Vec::new(),
    };
    let mut beds = vec![
        bed(
            "Box by the gate",
            0.0,
            0.0,
            4,
            4,
            vec![
                block(n, (0, 0), (2, 2), false),
                block(n + 4, (1, 0), (1, 2), true),
                block(n + 2, (0, 2), (1, 1), false),
                block(n + 3, (0, 3), (1, 1), false),
                block(n + 6, (2, 0), (2, 4), false),
            ],
        ),
        bed(
            "Long bed",
            6.0,
            0.0,
            8,
            2,
            (0..8).map(|c| block(n + usize::from(c), (0, c), (2, 1), false)).collect(),
        ),
        bed(
            "Trellis bed",
            6.0,
            4.0,
            8,
            1,
            vec![block(n + 6, (0, 0), (1, 5), false), block(n + 13, (0, 5), (1, 3), false)],
        ),
    ];
    beds[2].supports.push(GroundSupport { at: (0, 0), size: (1, 8) });
    for k in 0..4 {
        let mut pot = bed("", 0.0, 0.0, 1, 1, vec![block(n + k * 3, (0, 0), (1, 1), false)]);
        pot.name = format!("Pot {} L", [38, 20, 20, 11][k]);
        (pot.x, pot.y) = ((6.5 + 2.2 * num::real(k)) * foot, 6.4 * foot);
        (pot.across, pot.down, pot.round) = (430.0, 430.0, true);
        beds.push(pot);
    }
    if small {
        beds.truncate(1);
    }
    GroundView {
        week: Week::of(date(7 * week)),
        note: "14 h 10 min of light, soil 15 \u{b0}C, chance of frost 1 in 10".to_owned(),
        beds,
    }
}

pub(super) fn ground(weeks: &[i64]) -> GroundPlan {
    GroundPlan {
        title: "The ground".to_owned(),
        note: "Names stand in the cells where there is room; the key has the codes.".to_owned(),
        north: 20.0,
        measure: Measure::Us,
        views: weeks.iter().map(|w| view(*w, false)).collect(),
    }
}

/// Forty boxes in five rows.
pub(super) fn plot() -> GroundPlan {
    let mut plan = ground(&[20]);
    "Forty boxes".clone_into(&mut plan.title);
    plan.measure = Measure::Metric;
    plan.views[0].beds = (0..40_u16)
        .map(|b| {
            let mut bed = view(20, true).beds.remove(0);
            bed.name = format!("Box {}", b + 1);
            bed.x = 1700.0 * f64::from(b % 8);
            bed.y = 1700.0 * f64::from(b / 8);
            bed
        })
        .collect();
    plan
}

pub(super) fn kitchen(rows: usize) -> KitchenCalendar {
    let row = |k: usize| {
        let (name, _, family, _, picking) = CROPS[k % 16];
        let first = 16 + num::signed(k * 5 % 24);
        let weeks: Vec<(Week, Amount)> = (0..=picking / 7)
            .map(|w| {
                let grams = 180.0 + 420.0 * (num::real_i(w) * 0.7).sin().abs();
                let amount = if k % 3 == 1 {
                    Amount::count(2.0, CountWord::Bunch)
                } else {
                    Amount::grams(grams, Measure::Metric)
                };
                (Week::of(date(7 * (first + w))), amount)
            })
            .collect();
        let store = (k % 4 == 2).then(|| (date(7 * first + 60), date(7 * first + 190)));
        let range = weeks.first().map(|(_, a): &(Week, Amount)| (a.with_value(300.0), a.with_value(5000.0)));
        KitchenRow { name: name.to_owned(), tint: tint(family), weeks, range, store }
    };
    KitchenCalendar {
        title: "What comes when".to_owned(),
        note: "Usual yields of a well-kept garden; a cool or dry year brings less.".to_owned(),
        axis: axis(),
        measure: Measure::Metric,
        rows: (0..rows).map(row).collect(),
    }
}

pub(super) fn needs() -> NeedsList {
    let row = |what: &str, amount: &str, detail: &str, by: Option<i64>| NeedsRow {
        what: what.to_owned(),
        amount: amount.to_owned(),
        detail: detail.to_owned(),
        by: by.map(date),
    };
    let seed: Vec<_> = CROPS
        .iter()
        .enumerate()
        .map(|(n, c)| {
            row(
                c.0,
                &format!("{} seeds, {:.1} g", 20 + n * 9, 0.2 + num::real(n) * 0.3),
                "1 packet; 3 sowings; reckoned with 80 % germination",
                Some(30 + num::signed(n) * 9),
            )
        })
        .collect();
    let mix = vec![
        row(
            "Potting mix",
            "420 L",
            "with 10 % for settling; about 170 kg moist: order it delivered",
            Some(70),
        ),
        row("Mulch, straw", "2 bales", "", None),
    ];
    let part = |head: &str, note: &str, rows: Vec<NeedsRow>| NeedsPart {
        head: head.to_owned(),
        note: note.to_owned(),
        rows,
    };
    NeedsList {
        title: "Needs".to_owned(),
        note: "What the season asks for beyond what lies in the drawer.".to_owned(),
        parts: vec![
            part("Seed", "Low germination and a second sowing are allowed for.", seed),
            part("Potting mix and mulch", "", mix),
            part(
                "Supports",
                "",
                vec![row("Trellis", "8 ft, 6 ft high", "Trellis bed, for peas and cucumbers", Some(80))],
            ),
            part("Nothing here", "", Vec::new()),
        ],
    }
}

pub(super) fn record(soils: usize, years: usize) -> RecordByYears {
    let known = |s: usize, y: usize| match (s + 2 * y) % 5 {
        0 => Known::Unknown,
        1 => Known::Free("without crops".to_owned()),
        k => Known::Stood(
            (0..k)
                .map(|n| {
                    let (name, _, family, ..) = CROPS[(s * 3 + y * 5 + n) % 16];
                    Stay {
                        name: name.to_owned(),
                        family: FAMILIES[family].to_owned(),
                        tint: tint(family),
                        cells: "A1\u{2013}D4".to_owned(),
                        from: date(90 + 40 * num::signed(n)),
                        to: (n != 2).then(|| date(130 + 40 * num::signed(n))),
                    }
                })
                .collect(),
        ),
    };
    RecordByYears {
        title: "What stood where".to_owned(),
        note: "Unknown is not free: what was never written down may have been anything.".to_owned(),
        years: (0..years).map(|y| (2022 + y).to_string()).collect(),
        soils: (0..soils)
            .map(|s| Soil {
                name: format!("Box {}", s + 1),
                note: "soil since spring 2021".to_owned(),
                years: (0..years).map(|y| known(s, y)).collect(),
            })
            .collect(),
    }
}

pub(super) fn labels(n: usize) -> Labels {
    let label = |k: usize| {
        let (name, code, family, ..) = CROPS[k % 16];
        Label {
            name: name.to_owned(),
            botanical: "Solanum lycopersicum".to_owned(),
            place: "Box by the gate, A1\u{2013}B2".to_owned(),
            lines: vec!["sown 8 Feb, set out 22 Mar".to_owned(), "pick 31 May\u{2013}30 Jul".to_owned()],
            code: code.to_owned(),
            tint: tint(family),
        }
    };
    Labels { title: "Labels".to_owned(), note: String::new(), labels: (0..n).map(label).collect() }
}

pub(super) fn summary(wishes: usize) -> YearSummary {
    let fact = |name: &str, value: &str| (name.to_owned(), value.to_owned());
    let wish = |k: usize| SummaryWish {
        name: CROPS[k % 16].0.to_owned(),
        wanted: "1.2 kg a week, 1 Jul\u{2013}30 Sep".to_owned(),
        met: "12.4 kg".to_owned(),
        share: [1.0, 0.74, 0.31, 0.9][k % 4],
        reason: [
            "",
            "space: the trellis bed is full in weeks 26\u{2013}34",
            "too hot to sprout after 20 June",
            "",
        ][k % 4]
            .to_owned(),
    };
    YearSummary {
        title: "The year 2027".to_owned(),
        note: "Larch Court, 41 N, 48 cells in 3 beds and 4 pots.".to_owned(),
        facts: vec![
            fact("of the wishes met", "84 %"),
            fact("plantings", "61"),
            fact("cell-weeks idle in the growing season", "9 %"),
            fact("crops of 9 families", "16"),
            fact("frost-free days", "188"),
            fact("last frost, 1 year in 2 later", "19 Apr"),
            fact("work in the fullest week", "3 h 20 min"),
            fact("picked so far", "31.5 kg"),
        ],
        wishes: (0..wishes).map(wish).collect(),
        families: FAMILIES
            .iter()
            .enumerate()
            .map(|(n, name)| SummaryFamily {
                name: (*name).to_owned(),
                tint: tint(n),
                plantings: 9 - n / 2,
                cell_weeks: 420 - 43 * n,
            })
            .collect(),
        remarks: vec![
            "Clubroot was seen in the long bed on 4 August: no cabbages there before 2034.".to_owned(),
            "Pot 20 L was filled with fresh mix in March.".to_owned(),
        ],
    }
}

pub(super) fn pickings() -> catchcrop::paper::Pickings {
    let row = |n: i64| catchcrop::paper::Picking {
        on: super::demo::date(150 + 3 * n),
        crop: super::demo::CROPS[usize::try_from(n).unwrap() % 16].0.to_owned(),
        place: "Long box".to_owned(),
        cells: "A1\u{2013}B2".to_owned(),
        amount: "250 g".parse().unwrap(),
        words: if n % 3 == 0 { "the first ones, small but tender".to_owned() } else { String::new() },
    };
    catchcrop::paper::Pickings {
        title: "Picked in 2027".to_owned(),
        note: "As the diary has it.".to_owned(),
        measure: catchcrop::units::Measure::Metric,
        rows: (0..90).map(row).collect(),
    }
}

#[test]
fn pickings_run_over_pages() {
    let imprint = super::demo::imprint(catchcrop::paper::Paper::A4);
    let mut pages = pickings().pages(&imprint);
    assert!(pages.len() > 1);
    catchcrop::paper::number(&mut pages, &imprint);
    super::geometry::sound(&pages);
}
