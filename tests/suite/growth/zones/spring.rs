//! Earliest safe dates for planting in the open.

use super::super::crop;
use super::{Fit, Table};
use crate::support::show;
use catchcrop::calendar::{Date, MonthDay, days_between, plus};
use catchcrop::crop::{Crop, Start};
use catchcrop::growth::{Conditions, Hindrance, Refusal, Risk, outlook};
use catchcrop::site::{Normals, SiteSpec, SiteYear};

/// Zones with the two climates between which they lie, and the middle of their last killing frosts.
const ZONES: [(&str, &str, &str, &str); 7] = [
    ("zone_A", "pensacola-fl", "new-york", "02-22"),
    ("zone_B", "pensacola-fl", "new-york", "03-08"),
    ("zone_C", "pensacola-fl", "new-york", "03-23"),
    ("zone_D", "new-york", "toronto", "04-08"),
    ("zone_E", "toronto", "ottawa", "04-23"),
    ("zone_F", "ottawa", "intl-falls-mn", "05-08"),
    ("zone_G", "ottawa", "intl-falls-mn", "05-23"),
];

/// The climate between two presets whose average last frost falls on a day: no preset stands in the wide zones between
/// the Gulf and New York, and soil and air of one with a later frost are colder than the zone's.
fn between(mild: &str, hard: &str, last: &str) -> SiteYear {
    let last: MonthDay = last.parse().unwrap();
    let own = |preset: &str| {
        let date = SiteYear::preset(preset).unwrap().frost_plain(0.0).last.five_in_10.unwrap();
        date.index() as f64
    };
    let (early, late) = (own(mild), own(hard));
    let part = ((last.climate_day().index() as f64 - early) / (late - early)).clamp(0.0, 1.0);
    let (mild, hard) = (SiteSpec::from_preset(mild).unwrap(), SiteSpec::from_preset(hard).unwrap());
    let mix = |a: f64, b: f64| a + (b - a) * part;
    let months = |pick: fn(&Normals) -> &[f64; 12]| {
        let (a, b) = (pick(mild.normals.as_ref().unwrap()), pick(hard.normals.as_ref().unwrap()));
        std::array::from_fn(|m| mix(a[m], b[m]))
    };
    let normals = Normals { tmax: months(|n| &n.tmax), tmin: months(|n| &n.tmin), rain: months(|n| &n.rain) };
    let spec = SiteSpec {
        name: "between".to_owned(),
        lat: mix(mild.lat, hard.lat),
        lon: mix(mild.lon, hard.lon),
        normals: Some(normals),
        last_frost: Some(last),
        ..SiteSpec::default()
    };
    SiteYear::new(&spec).unwrap()
}

/// Rows of the table and the crops of the book that stand for them.
const CROPS: [(&str, &str); 34] = [
    ("Bean, lima", "lima-bean"),
    ("Bean, snap", "bean"),
    ("Beet", "beet"),
    ("Brussels sprouts", "brussels-sprouts"),
    ("Cabbage", "cabbage"),
    ("Carrot", "carrot"),
    ("Cauliflower", "cauliflower"),
    ("Celery", "celery"),
    ("Chard", "chard"),
    ("Collard", "collards"),
    ("Corn, sweet", "corn"),
    ("Cucumber", "cucumber"),
    ("Eggplant", "eggplant"),
    ("Kale", "kale"),
    ("Kohlrabi", "kohlrabi"),
    ("Lettuce, head", "lettuce-head"),
    ("Lettuce, leaf", "lettuce"),
    ("Melons", "melon"),
    ("Okra", "okra"),
    ("Onion sets", "onion-sets"),
    ("Parsley", "parsley"),
    ("Parsnip", "parsnip"),
    ("Peas, smooth", "pea-early"),
    ("Peas, wrinkled", "pea"),
    ("Peppers", "pepper"),
    ("Potato, Irish", "potato"),
    ("Potato, sweet", "sweet-potato"),
    ("Pumpkin", "pumpkin"),
    ("Radish", "radish"),
    ("Salsify", "salsify"),
    ("Spinach", "spinach"),
    ("Squash", "winter-squash"),
    ("Tomato", "tomato"),
    ("Turnip", "turnip"),
];

/// Crops that have no row of the trial of 1954, or its later additions, below 15 C (lima bean, okra) or 20 C: the table
/// sows them one to three weeks after the last frost, the bulletin's own words only into ground thoroughly warmed, about
/// four weeks after it.
const UNTRIED: [&str; 5] = ["Bean, lima", "Melons", "Okra", "Pumpkin", "Squash"];

#[test]
fn the_spring_zone_table() {
    let table = Table::of(include_str!("spring.tsv"));
    assert_eq!(table.rows.len(), CROPS.len());
    let years: Vec<SiteYear> =
        ZONES.iter().map(|(_, mild, hard, frost)| between(mild, hard, frost)).collect();
    let mut found: Vec<(&str, Start, f64)> = Vec::new();
    println!(
        "USDA 1919, earliest safe dates in spring, zones A to G: the table, days by which the program is later than its \
         middle; winter: may be sown all winter there"
    );
    for (name, id) in CROPS {
        let crop = &crop(id);
        // Only when it may first go out is asked, not whether it ripens.
        let has = |start: &Start| crop.starts.contains(start);
        let start = [Start::InPlace, Start::Bought].into_iter().find(has).unwrap_or(crop.starts[0]);
        let mut line = format!("  {name:<16}");
        for ((zone, ..), year) in ZONES.iter().zip(&years) {
            let cell = table.cell(name, zone);
            let words = match cell.split_once("..") {
                None => "not planted".to_owned(),
                Some((from, to)) => {
                    let middle = plus(day(from), days_between(day(from), day(to)) / 2);
                    match earliest(crop, year, start) {
                        // No cold stops it in winter: the table's date there is custom.
                        None => "winter".to_owned(),
                        Some(mine) => {
                            let error = days_between(middle, mine);
                            found.push((name, start, error as f64));
                            format!("{} {error:+}", middle.format("%m-%d"))
                        }
                    }
                }
            };
            line += &format!(" {words:>11}");
        }
        println!("{line} {start:?}");
    }
    let fit = |keep: &dyn Fn(&str, Start) -> bool| {
        Fit::of(&found.iter().filter(|f| keep(f.0, f.1)).map(|f| f.2).collect::<Vec<_>>())
    };
    let untried = |name: &str, start: Start| start == Start::InPlace && UNTRIED.contains(&name);
    let known = fit(&|name, start| !untried(name, start));
    let sown = fit(&|name, start| start == Start::InPlace && !untried(name, start));
    let out = fit(&|_, start| start != Start::InPlace);
    let (cold, all) = (fit(&untried), fit(&|_, _| true));
    show(&[
        known.line("USDA spring zones 1919, all but seed sown colder than any trial of it"),
        sown.line("  sown in place"),
        out.line("  set out"),
        cold.line("  sown colder than any trial: lima bean, melon, okra, pumpkin, squash"),
        all.line("  the whole table"),
    ]);
    assert!(known.rows >= 170 && known.median <= 10.0 && known.bias.abs() <= 5.0);
    assert!(sown.rows >= 110 && sown.median <= 10.0 && out.rows >= 60 && out.median <= 10.0);
    assert!(all.rows >= 200 && all.median <= 11.0 && all.bias.abs() <= 3.0);
    assert!(cold.bias > 0.0);
}

fn day(text: &str) -> Date {
    text.parse::<MonthDay>().unwrap().in_year(2027)
}

/// Back from early summer to the first day that is not too cold; none where no day of the winter is.
fn earliest(crop: &Crop, year: &SiteYear, start: Start) -> Option<Date> {
    let conditions = Conditions::new(year).at(Risk::Usual);
    let good = |on: &Date| {
        outlook(crop, &conditions, start, *on).against.iter().all(|r| {
            matches!(r, Refusal::Late { .. } | Refusal::NeverRipe)
                || !matches!(r.cause(), Hindrance::Cold | Hindrance::Frost)
        })
    };
    let summer = Date::from_ymd_opt(2027, 6, 25).unwrap();
    (0..185)
        .map(|n| plus(summer, -n))
        .take_while(good)
        .last()
        .filter(|first| days_between(*first, summer) < 184)
}
