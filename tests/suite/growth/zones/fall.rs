//! Latest safe dates for the fall garden.

use super::super::crop;
use super::{Fit, Table, zone};
use crate::support::show;
use catchcrop::calendar::{Date, MonthDay, days_between, plus};
use catchcrop::crop::{
    Clock, CountedFrom, Crop, FrostClass, Germination, HeatLimits, Maturity, PickShape, Picking, Season,
    Start,
};
use catchcrop::growth::{Conditions, Method, Refusal, Risk, outlook, ready, schedule};
use catchcrop::site::SiteYear;
use catchcrop::units::{TempUnit, Temperature};

/// Zones with the climate that stands for them and the middle of their first killing frosts.
const ZONES: [(&str, &str, &str); 5] = [
    ("zone_C", "new-york", "11-17"),
    ("zone_D", "toronto", "11-02"),
    ("zone_E", "ottawa", "10-20"),
    ("zone_F", "ottawa", "10-08"),
    ("zone_G", "intl-falls-mn", "09-23"),
];

/// A row of the table: its name, season, and the lower of the handbooks' days to maturity.
type Row = (&'static str, Season, u16);

/// Sown in place, ripe before the frost.
const IN_PLACE: [Row; 16] = [
    ("Bean, pole lima", Season::Warm, 60),
    ("Bean, snap", Season::Warm, 45),
    ("Beet", Season::Cool, 50),
    ("Carrot", Season::Cool, 70),
    ("Chard, Swiss", Season::Cool, 55),
    ("Corn, sweet", Season::Warm, 60),
    ("Cucumber", Season::Warm, 60),
    ("Okra", Season::Warm, 90),
    ("Onion sets", Season::Cool, 100),
    ("Pea", Season::Cool, 45),
    ("Potato, Irish", Season::Cool, 80),
    ("Radish", Season::Cool, 25),
    ("Spinach", Season::Cool, 40),
    ("Squash, bush", Season::Warm, 60),
    ("Squash, vine", Season::Warm, 100),
    ("Watermelon", Season::Warm, 100),
];

/// Set out as plants; the days count from setting out, but for celery, which loses the age of its plants.
const SET_OUT: [(&str, Season, u16, CountedFrom); 7] = [
    ("Cabbage", Season::Cool, 70, CountedFrom::SettingOut),
    ("Cauliflower", Season::Cool, 50, CountedFrom::SettingOut),
    ("Celery", Season::Cool, 120, CountedFrom::Sowing),
    ("Eggplant", Season::Warm, 60, CountedFrom::SettingOut),
    ("Peppers", Season::Warm, 70, CountedFrom::SettingOut),
    ("Potato, sweet", Season::Warm, 140, CountedFrom::SettingOut),
    ("Tomato", Season::Warm, 70, CountedFrom::SettingOut),
];

/// Greens and roots that stand frost: cut young, or growing on after the first frost.
const STANDING: [Row; 4] = [
    ("Kale", Season::Cool, 50),
    ("Lettuce", Season::Cool, 35),
    ("Parsley", Season::Cool, 70),
    ("Turnip", Season::Cool, 60),
];

/// Rows whose date is that of spring: the bulletin gives parsnip and salsify the whole season, and dates muskmelon
/// before watermelon, which takes longer.
const WHOLE_SEASON: [Row; 3] =
    [("Muskmelon", Season::Warm, 85), ("Parsnip", Season::Cool, 125), ("Salsify", Season::Cool, 125)];

fn table() -> Table {
    Table::of(include_str!("fall.tsv"))
}

/// A crop as the table means it: its quickest variety, ripe by the average first frost.
fn plain(season: Season, days: u16, from: CountedFrom) -> Crop {
    let mut plain = crop("bean");
    plain.clock = Clock::Heat { season, base: None, upper: None };
    plain.days = Maturity { min: days, max: days, from };
    plain.germination = Germination::None;
    plain.heat = HeatLimits::default();
    plain.daylength = None;
    plain.starts = vec![Start::InPlace, Start::Bought];
    let freezing = Temperature::new(0.0, TempUnit::C);
    plain.frost.foliage = freezing;
    plain.frost.harvest = freezing;
    plain.frost.class = if season == Season::Warm { FrostClass::Tender } else { FrostClass::Hardy };
    plain.picking = Picking { shape: PickShape::Steady, days: picking(season), holds: 0 };
    plain
}

/// Days of picking before the frost that make a start worth while.
fn picking(season: Season) -> u16 {
    if season == Season::Cool { 7 } else { 21 }
}

fn day(text: &str) -> Option<Date> {
    Some(text.parse::<MonthDay>().ok()?.in_year(2027))
}

/// One cell of the table: the zone's climate and its frost.
struct Cell<'a> {
    year: &'a SiteYear,
    frost: Date,
}

/// Errors of a list of rows, days by which the program is later than the table, and its lines of print.
///
/// Cells with fewer days to the frost than the packet asks for are left out where `whole`: such a crop is meant to stand
/// the winter, or for frames.
fn errors<'a>(
    years: &[SiteYear],
    whole: bool,
    rows: impl IntoIterator<Item = (&'a str, u16)>,
    mine: impl Fn(&str, &Cell<'_>) -> Option<Date>,
) -> Vec<f64> {
    let table = table();
    let mut errors = Vec::new();
    for (name, days) in rows {
        let mut line = format!("  {name:<16}");
        for ((zone, _, frost), year) in ZONES.iter().zip(years) {
            let (text, frost) = (table.cell(name, zone), day(frost).unwrap());
            let words = match day(text) {
                None => "not planted".to_owned(),
                Some(printed) if whole && days_between(printed, frost) < i64::from(days) => {
                    format!("{text} short")
                }
                Some(printed) => match mine(name, &Cell { year, frost }) {
                    Some(mine) => {
                        let error = days_between(printed, mine);
                        errors.push(error as f64);
                        format!("{text} {error:+}")
                    }
                    None => format!("{text} never"),
                },
            };
            line += &format!(" {words:>12}");
        }
        println!("{line}");
    }
    errors
}

/// The last start in the half-year before the frost that the program does not refuse at even chance.
fn last_start(crop: &Crop, year: &SiteYear, start: Start, frost: Date) -> Option<Date> {
    let conditions = Conditions::new(year).at(Risk::Bold);
    (0..230).map(|n| plus(frost, -n)).find(|on| schedule(crop, &conditions, start, *on).is_ok())
}

/// The last start by the extension services' flat count.
fn flat(crop: &Crop, cell: &Cell<'_>) -> Option<Date> {
    let conditions = Conditions::new(cell.year).by(Method::Catalogue).at(Risk::Bold);
    let late = |on: &Date| {
        let against = outlook(crop, &conditions, Start::InPlace, *on).against;
        against.iter().any(|r| matches!(r, Refusal::Late { .. }))
    };
    (0..250).map(|n| plus(cell.frost, -n)).find(|on| !late(on))
}

/// Every row of the table has its group.
#[test]
fn every_row_is_looked_at() {
    let mut named: Vec<&str> =
        IN_PLACE.iter().chain(&STANDING).chain(&WHOLE_SEASON).map(|row| row.0).collect();
    named.extend(SET_OUT.iter().map(|row| row.0));
    let mut rows: Vec<&str> = table().rows.iter().map(|row| row[0]).collect();
    named.sort_unstable();
    rows.sort_unstable();
    assert_eq!(named, rows);
}

fn years() -> Vec<SiteYear> {
    ZONES.iter().map(|(_, preset, frost)| zone(preset, None, Some(frost))).collect()
}

fn row(name: &str) -> &'static Row {
    IN_PLACE.iter().chain(&STANDING).chain(&WHOLE_SEASON).find(|row| row.0 == name).unwrap()
}

fn sown(name: &str) -> Crop {
    let (_, season, days) = *row(name);
    plain(season, days, CountedFrom::Sowing)
}

fn named(rows: &[Row]) -> Vec<(&'static str, u16)> {
    rows.iter().map(|row| (row.0, row.2)).collect()
}

/// Expected warmth added up backwards from the even-chance frost date, less the picking; no chances.
fn by_warmth(name: &str, cell: &Cell<'_>) -> Option<Date> {
    let picked = plus(cell.frost, -i64::from(picking(row(name).1)));
    let start = ready(&sown(name), &Conditions::new(cell.year), Start::InPlace, picked)?;
    (days_between(start, cell.frost) < 330).then_some(start)
}

fn by_windows(name: &str, cell: &Cell<'_>) -> Option<Date> {
    last_start(&sown(name), cell.year, Start::InPlace, cell.frost)
}

/// By the lower catalogue days, the even-chance frost date at 0 C, and a week of picking for cool crops, three for warm
/// ones.
#[test]
fn sown_in_place_and_ripe_before_frost() {
    let years = years();
    println!(
        "USDA 1919, latest safe dates in autumn, zones C to G: the table, days by which warmth alone is later"
    );
    let fit = Fit::of(&errors(&years, true, named(&IN_PLACE), by_warmth));
    println!("the same with the cells that have fewer days to the frost than the packet asks for");
    let all = Fit::of(&errors(&years, false, named(&IN_PLACE), by_warmth));
    println!("by the program's own windows at even chance");
    let windows = Fit::of(&errors(&years, true, named(&IN_PLACE), by_windows));
    println!("by the extension services' flat count");
    let flat = Fit::of(&errors(&years, true, named(&IN_PLACE), |name, cell| flat(&sown(name), cell)));
    show(&[
        fit.line("USDA fall zones 1919, sown in place and ripe before frost, by warmth"),
        all.line("  with three cells too short for the packet's days"),
        windows.line("  by the program's windows at even chance"),
        flat.line("  by the flat count"),
    ]);
    assert!(fit.rows >= 70 && fit.median <= 6.0 && fit.within(16.0) >= 0.9 && fit.bias.abs() <= 3.0);
    assert!(all.rows == fit.rows + 3 && all.median <= 6.0 && all.within(16.0) >= 0.9);
    assert!(windows.median <= 8.0 && windows.within(16.0) >= 0.9 && windows.bias.abs() <= 3.0);
    assert!(flat.bias < -8.0 && flat.median > 1.5 * fit.median);
}

#[test]
fn plants_set_out() {
    let years = years();
    println!("USDA 1919, latest safe dates in autumn, plants set out");
    let out = errors(&years, false, SET_OUT.iter().map(|row| (row.0, row.2)), |name, cell| {
        let (_, season, days, from) = SET_OUT.iter().find(|row| row.0 == name).unwrap();
        let mut plant = plain(*season, *days, *from);
        if name == "Celery" {
            plant.starts = crop("celery").starts;
        }
        plant.starts.push(Start::Bought);
        last_start(&plant, cell.year, Start::Bought, cell.frost)
    });
    let out = Fit::of(&out);
    show(&[
        out.line("USDA fall zones 1919, plants set out"),
        "  eggplant and pepper count from seed there; cauliflower has the dates of cabbage, which takes longer".into(),
    ]);
    assert!(out.rows >= 26 && out.median <= 21.0);
}

/// What stands frost is sown there so late that it cannot be ripe by the first frost: cut young, or grown on in the
/// cool after it (the bulletin lets kale and spinach stand all winter to zone D and parts of zone E).
#[test]
fn greens_and_roots_that_stand_frost() {
    let years = years();
    println!("USDA 1919, latest safe dates in autumn, what stands frost: as if the first frost ended it");
    let ended = Fit::of(&errors(&years, false, named(&STANDING), by_windows));
    println!("by the nights that kill it, up to thirty days after the first frost");
    let hardy = |name: &str, cell: &Cell<'_>| {
        let mut hardy = sown(name);
        hardy.frost = crop(&name.to_lowercase()).frost;
        last_start(&hardy, cell.year, Start::InPlace, plus(cell.frost, 30))
    };
    let hardy = Fit::of(&errors(&years, false, named(&STANDING), hardy));
    println!("only the cells that leave the packet its days");
    let whole = Fit::of(&errors(&years, true, named(&STANDING), by_windows));
    show(&[
        ended.line("USDA fall zones 1919, what stands frost, as if the first frost ended it"),
        hardy.line("  by the nights that kill it"),
        whole.line("  only the cells that leave the packet its days"),
        "  the other cells leave fewer days than any packet asks for: cut young, and grown on after frost"
            .into(),
    ]);
    assert!(hardy.median < ended.median && ended.bias < -20.0);
    assert!(whole.rows >= 3 && whole.median <= 21.0);
}

/// Parsnip and salsify have the whole season there, and muskmelon the date of spring.
#[test]
fn rows_of_the_whole_season() {
    println!("USDA 1919, latest safe dates in autumn, crops given the whole season");
    let fit = Fit::of(&errors(&years(), false, named(&WHOLE_SEASON), by_warmth));
    show(&[
        fit.line("USDA fall zones 1919, given the whole season"),
        "  muskmelon is dated there before watermelon, which takes longer: a date of spring".into(),
    ]);
    // Later starts than the table's are found: nothing there is refused that the table allows.
    assert!(fit.rows >= 10 && fit.bias > 5.0);
}
