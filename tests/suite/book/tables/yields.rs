//! Yields by area, against those of rows and fields.

use super::super::names::NAMES;
use super::{Row, of, range, table};
use catchcrop::crop::Crop;
use catchcrop::units::{Length, LengthUnit};
use std::collections::BTreeMap;

/// How far a full cell may exceed the ground of a row, gaps counted: a raised bed gave 1.24 lb from a square foot over
/// three years, an ordinary garden 0.6 (Ohio State University figures, 2010).
const GAIN: f64 = 1.24 / 0.6;
/// Below this share of the poorest published figure the book would be too modest.
const LEAST: f64 = 0.8;
/// Square feet of an acre.
const ACRE: f64 = 43_560.0;

/// Good field yields, pounds an acre (New England Vegetable Management Guide, table of yields).
const FIELD: [(&str, f64); 14] = [
    ("leek", 32_000.0),
    ("cabbage", 30_000.0),
    ("carrot", 26_000.0),
    ("beet", 24_000.0),
    ("cucumber", 20_000.0),
    ("eggplant", 20_000.0),
    ("kohlrabi", 20_000.0),
    ("melon", 16_000.0),
    ("cauliflower", 14_000.0),
    ("kale", 12_000.0),
    ("bean", 8_000.0),
    ("broccoli", 8_000.0),
    ("garlic", 4_000.0),
    ("basil", 4_000.0),
];

/// A published yield of a square foot, least and greatest, pieces or pounds, and what it stands in.
struct Published {
    code: &'static str,
    bounds: (f64, f64),
    pounds: bool,
}

fn id(row: &Row) -> &'static str {
    let found = NAMES.iter().find(|(n, _)| *n == row["crop"]);
    found.unwrap_or_else(|| panic!("{}", row["crop"])).1
}

/// What a row of so many feet gives on a square foot of its ground.
fn by_row(amount: (f64, f64), feet: f64, gap: (f64, f64)) -> (f64, f64) {
    (amount.0 / feet / gap.1 * 12.0, amount.1 / feet / gap.0 * 12.0)
}

/// Every published yield, by crop.
fn published() -> Option<BTreeMap<&'static str, Vec<Published>>> {
    let mut out: BTreeMap<&str, Vec<Published>> = BTreeMap::new();
    let charts = table("spacing_dtm.tsv")?;
    for row in table("yield_per_100ft.tsv")? {
        let id = id(&row);
        let mut words = row["average_yield_per_100ft"].split_whitespace();
        let amount = range(words.next().unwrap()).unwrap();
        let unit = words.next().unwrap();
        let dozen = if unit == "dozen" { 12.0 } else { 1.0 };
        let chart = charts.iter().find(|c| NAMES.iter().any(|(n, i)| *n == c["crop"] && *i == id));
        let gap = chart.and_then(|c| range(&c["row_in"]));
        let own = || of(id).row.map(|r| (r.in_unit(LengthUnit::In), r.in_unit(LengthUnit::In)));
        let gap = gap.or_else(own).unwrap_or_else(|| panic!("{id}: no distance between rows"));
        let bounds = by_row((amount.0 * dozen, amount.1 * dozen), 100.0, gap);
        out.entry(id).or_default().push(Published { code: "KSU", bounds, pounds: unit == "lb" });
    }
    for row in table("planting_chart_florida.tsv")? {
        let (Some(amount), Some(gap)) = (range(&row["yield_lb_per_10ft"]), range(&row["row_in"])) else {
            continue;
        };
        let bounds = by_row(amount, 10.0, gap);
        out.entry(id(&row)).or_default().push(Published { code: "UF", bounds, pounds: true });
    }
    for (id, pounds) in FIELD {
        let bounds = (pounds / ACRE, pounds / ACRE);
        out.entry(id).or_default().push(Published { code: "NEVMG", bounds, pounds: true });
    }
    Some(out)
}

/// Low, usual and high of a square foot, in pounds or in pieces.
fn ours(crop: &Crop, pounds: bool) -> [f64; 3] {
    let foot = Length::new(1.0, LengthUnit::Ft).m().powi(2);
    if pounds {
        let grams = crop.grams_a_square_metre().unwrap_or_else(|| panic!("{}: not weighed", crop.id));
        grams.map(|g| g * foot / 453.592)
    } else {
        let plants = foot * crop.spacing.wide.m().powi(-2);
        [crop.harvest.low, crop.harvest.usual, crop.harvest.high].map(|a| a.value() * plants)
    }
}

#[test]
fn a_full_cell_gives_as_much_as_rows_do_to_twice_as_much() {
    let Some(published) = published() else { return };
    let (mut rows, mut wrong) = (0, Vec::new());
    for (id, figures) in &published {
        let crop = of(id);
        let kept = |code: &str| crop.differs.iter().any(|d| d.figure == "harvest" && d.src == code);
        let (mut over, mut under) = (f64::MAX, 0.0_f64);
        for Published { code, bounds, pounds } in figures {
            let [low, usual, high] = ours(crop, *pounds);
            let unit = if *pounds { "lb" } else { "pieces" };
            println!(
                "    {id:<18}{code:<6} {:.2}-{:.2} {unit} a sq ft; the book {low:.2}, {usual:.2}, {high:.2}{}",
                bounds.0,
                bounds.1,
                if kept(code) { ", kept as another source's" } else { "" }
            );
            rows += 1;
            over = over.min(usual / bounds.1);
            under = under.max(usual / bounds.0);
        }
        let all_kept = figures.iter().all(|f| kept(f.code));
        if (over > GAIN * 1.005 || under < LEAST) && !all_kept {
            wrong.push(format!(
                "{id}: {over:.2} times the best, {under:.2} times the poorest published yield"
            ));
        }
    }
    println!(
        "yield_per_100ft.tsv, planting_chart_florida.tsv, field yields: {rows} rows of {} crops; the usual yield of a full \
         cell lies between {LEAST} and {GAIN:.2} times what they give",
        published.len()
    );
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(rows >= 60 && published.len() >= 40, "{rows} {}", published.len());
}
