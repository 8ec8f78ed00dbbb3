//! A season of two hundred plantings on paper.

use catchcrop::calendar::{Date, MonthDay, Season, plus};
use catchcrop::paper::{
    Axis, Bar, Bed, Format, Imprint, Kind, Lane, Page, Paper, Start, Timeline, Tint, number, render,
};
use catchcrop::units::num;
use divan::{Bencher, black_box};

const NAMES: [&str; 8] = ["Tomato", "Lettuce, leaf", "Kale", "Radish", "Carrot", "Pea", "Onion", "Basil"];

/// Forty beds with five plantings each.
fn season() -> Timeline {
    let first = Date::from_ymd_opt(2027, 3, 1).unwrap_or_default();
    let bar = |n: usize| {
        let from = plus(first, 50 * num::signed(n % 5) + num::signed(n % 7));
        let start = if n.is_multiple_of(2) { Start::Sown } else { Start::SetOut(Some(plus(from, -35))) };
        let hue = u8::try_from(n % 7).unwrap_or(0) + 1;
        Bar {
            id: format!("planting-{n}"),
            name: NAMES[n % 8].to_owned(),
            code: NAMES[n % 8].chars().take(2).collect(),
            amount: (n % 16 + 1).to_string(),
            family: format!("Family {hue}"),
            tint: Tint::of(hue, hue % 7 + 1),
            start,
            from,
            pick: Some((plus(from, 30), plus(from, 40))),
            to: Some(plus(from, 42)),
            kind: if n.is_multiple_of(9) { Kind::Catch } else { Kind::Main },
            echo: false,
        }
    };
    let bed = |b: usize| Bed {
        name: format!("Box {}", b + 1),
        note: "1.2 \u{d7} 1.2 m".to_owned(),
        lanes: vec![Lane { cells: "A1\u{2013}D4".to_owned(), bars: (5 * b..5 * b + 5).map(bar).collect() }],
    };
    let start = MonthDay { month: 1, day: 1 };
    let axis = Axis::of(Season::beginning(2027, start));
    Timeline {
        title: "The season of 2027".to_owned(),
        note: String::new(),
        axis,
        daylength: vec![12.0; axis.weeks],
        frost: vec![0.3; axis.weeks],
        beds: (0..40).map(bed).collect(),
    }
}

fn imprint() -> Imprint {
    Imprint { paper: Paper::A4, garden: "Bench".to_owned(), printed: "1 January 2027".to_owned(), lies: None }
}

fn pages() -> Vec<Page> {
    let mut pages = season().pages(&imprint());
    number(&mut pages, &imprint());
    pages
}

/// Laying the pages out.
#[divan::bench]
fn season_pages() -> usize {
    pages().len()
}

/// Content to PDF, from the first line to the last byte.
#[divan::bench(sample_count = 20)]
fn season_pdf() -> usize {
    render(&pages(), Format::Pdf, "Bench").map_or(0, |files| files.iter().map(Vec::len).sum())
}

/// Pages to PNG at 150 dots per inch.
#[divan::bench(sample_count = 5)]
fn season_png(bencher: Bencher<'_, '_>) {
    let pages = pages();
    bencher.bench(|| render(black_box(&pages), Format::Png(150), "Bench").map_or(0, |files| files.len()));
}

/// Pages to SVG.
#[divan::bench]
fn season_svg(bencher: Bencher<'_, '_>) {
    let pages = pages();
    bencher.bench(|| render(black_box(&pages), Format::Svg, "Bench").map_or(0, |files| files.len()));
}
