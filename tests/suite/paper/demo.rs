//! Invented gardens, small and large, and a way to look at what is printed.

use catchcrop::calendar::{Date, MonthDay, Season, Week, plus};
use catchcrop::paper::{
    Axis, Bar, Bed, Format, Imprint, Job, JobList, JobWeek, Kind, Lane, Page, Paper, Start, Timeline, Tint,
    number, render,
};

use catchcrop::units::num;

/// A crop of the demo: name, code, family, days in the cells, days of picking.
pub(super) const CROPS: [(&str, &str, usize, i64, i64); 16] = [
    ("Tomato", "TOM", 0, 130, 60),
    ("Pepper, sweet", "PEP", 0, 125, 55),
    ("Lettuce, loose-leaf", "LET", 1, 56, 14),
    ("Kale", "KAL", 2, 150, 90),
    ("Radish", "RAD", 2, 28, 6),
    ("Broccoli", "BRO", 2, 80, 14),
    ("Pea, climbing", "PEA", 3, 77, 18),
    ("Bean, bush", "BEA", 3, 70, 21),
    ("Carrot", "CAR", 4, 90, 21),
    ("Parsley", "PAR", 4, 170, 100),
    ("Onion", "ONI", 5, 120, 10),
    ("Beet", "BEE", 6, 65, 14),
    ("Spinach", "SPI", 6, 48, 12),
    ("Cucumber", "CUC", 7, 95, 40),
    ("Basil", "BAS", 8, 90, 50),
    ("Zinnia", "ZIN", 1, 110, 50),
];

pub(super) const FAMILIES: [&str; 9] = [
    "Nightshades",
    "Daisies",
    "Cabbages",
    "Legumes",
    "Umbellifers",
    "Onions",
    "Goosefoots",
    "Gourds",
    "Mints",
];

pub(super) fn tint(family: usize) -> Tint {
    let n = u8::try_from(family).unwrap();
    Tint::of(1 + n % 7, 1 + (n * 3 + n / 7) % 7)
}

/// The day so many days after 1 January 2027.
pub(super) fn date(day: i64) -> Date {
    plus(Date::from_ymd_opt(2027, 1, 1).unwrap(), day)
}

pub(super) fn axis() -> Axis {
    Axis::of(Season::beginning(2027, MonthDay::new(1, 1).unwrap()))
}

pub(super) fn bar(crop: usize, from: i64) -> Bar {
    let (name, code, family, days, picking) = CROPS[crop % CROPS.len()];
    let raised = matches!(code, "TOM" | "PEP" | "KAL" | "BRO" | "CUC" | "BAS");
    let start = match code {
        "ONI" => Start::Planted,
        _ if raised => Start::SetOut(Some(date(from - 42))),
        _ => Start::Sown,
    };
    Bar {
        id: format!("{code}-{from}"),
        name: name.to_owned(),
        code: code.to_owned(),
        amount: [1, 1, 4, 1, 16, 1, 36, 9, 16, 4, 9, 9, 9, 1, 4, 4][crop % 16].to_string(),
        family: FAMILIES[family].to_owned(),
        tint: tint(family),
        start,
        from: date(from),
        pick: Some((date(from + days - picking), date(from + days))),
        to: Some(date(from + days)),
        kind: if code == "RAD" { Kind::Catch } else { Kind::Main },
        echo: false,
    }
}

/// A season of `beds` beds with about five plantings each.
pub(super) fn season(beds: usize) -> Timeline {
    let wave = |w: usize| -((num::real(w) + 1.5) / 52.0 * std::f64::consts::TAU).cos();
    let mut n = 0;
    let beds = (0..beds)
        .map(|b| {
            let lanes = (0..[2, 3, 1][b % 3])
                .map(|l| {
                    let mut day = 80 + 6 * num::signed(l);
                    let mut bars = Vec::new();
                    while day < 300 {
                        let bar = bar(n * 7 + b, day);
                        n += 1;
                        day += CROPS[(n * 7 - 7 + b) % 16].3 + 3;
                        bars.push(bar);
                    }
                    Lane { cells: ["A1\u{2013}B2", "C1\u{2013}D2", "A3\u{2013}D4"][l % 3].to_owned(), bars }
                })
                .collect();
            let name = ["Box by the gate", "Long bed", "Pot 38 L", "Trellis bed"][b % 4];
            Bed { name: format!("{name} {}", b + 1), note: "4 \u{d7} 4 ft, full sun".to_owned(), lanes }
        })
        .collect();
    Timeline {
        title: "The season of 2027".to_owned(),
        note: "Larch Court, 41 N. Average last frost 19 April, first frost 24 October. Bars show what stands in the cells; \
               the thin line under a bar is its time under cover."
            .to_owned(),
        axis: axis(),
        daylength: (0..53).map(|w| 12.1 + 2.9 * wave(w)).collect(),
        frost: (0..53).map(|w| (0.45_f64 - 1.1 * wave(w)).clamp(0.0, 1.0)).collect(),
        beds,
    }
}

pub(super) fn imprint(paper: Paper) -> Imprint {
    Imprint { paper, garden: "Larch Court".to_owned(), printed: "24 November 2026".to_owned(), lies: None }
}

pub(super) fn jobs(weeks: usize) -> JobList {
    let rows = [
        (
            "Sow radish",
            "Long bed, A1\u{2013}B2",
            "32 seeds, 2 in apart, 1/2 in deep",
            10,
            "Soil is warm enough (9 \u{b0}C).",
        ),
        ("Set out kale", "Box by the gate, C1", "4 plants, 12 in apart", 15, "Hardened off for a week."),
        (
            "Start tomatoes indoors",
            "Windowsill",
            "8 modules, 2 seeds each",
            20,
            "Six weeks before the last frost at 3 in 10.",
        ),
        ("Pick spinach", "Trellis bed, B1\u{2013}B4", "about 400 g", 10, ""),
        ("Cover for frost", "Pot 38 L", "fleece over 1 pot", 5, "Chance of frost this week: 4 in 10."),
    ];
    let weeks = (0..weeks)
        .map(|w| JobWeek {
            week: Week::of(date(94)).plus(num::signed(w)),
            note: "12 h 51 min of light, soil 9 \u{b0}C, chance of frost 30 %".to_owned(),
            jobs: (0..=(w * 3 % 7))
                .map(|j| {
                    let (what, place, amount, minutes, why) = rows[(w + j) % rows.len()];
                    Job {
                        id: format!("w{w}j{j}"),
                        what: what.to_owned(),
                        place: place.to_owned(),
                        cells: String::new(),
                        amount: amount.to_owned(),
                        from: date(94 + 7 * num::signed(w)),
                        to: date(100 + 7 * num::signed(w)),
                        minutes,
                        why: why.to_owned(),
                    }
                })
                .collect(),
        })
        .collect();
    JobList {
        title: "Jobs".to_owned(),
        note: "Minutes are estimates; change them to what you need.".to_owned(),
        weeks,
    }
}

/// Numbers the pages and keeps them.
pub(super) fn book(mut pages: Vec<Page>, name: &str) -> Vec<Page> {
    number(&mut pages, &imprint(Paper::A4));
    keep(&pages, name);
    pages
}

/// Where `CATCHCROP_PAPER_OUT` names a folder, writes the pages there to be looked at.
pub(super) fn keep(pages: &[Page], name: &str) {
    let Ok(folder) = std::env::var("CATCHCROP_PAPER_OUT") else { return };
    let pdf = render(pages, Format::Pdf, name).unwrap();
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(format!("{folder}/{name}.pdf"), &pdf[0]).unwrap();
    let svg = render(&pages[..1], Format::Svg, name).unwrap();
    std::fs::write(format!("{folder}/{name}.svg"), &svg[0]).unwrap();
    let png = render(&pages[..1], Format::Png(110), name).unwrap();
    std::fs::write(format!("{folder}/{name}.png"), &png[0]).unwrap();
}
