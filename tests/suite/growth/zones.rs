//! The zone tables of the US Department of Agriculture's The City Home Garden (Farmers' Bulletin 1044, 1919), against
//! the program's own windows.
//!
//! The zones are bands of average frost dates; each is stood for by a preset with the middle of its band set over it.

use super::crop;
use crate::site::reference;
use catchcrop::calendar::{Date, MonthDay, days_between, plus};
use catchcrop::crop::{
    Clock, CountedFrom, Crop, Germination, HeatLimits, Maturity, PickShape, Picking, Season, Start,
};
use catchcrop::growth::{Conditions, Hindrance, Refusal, Risk, outlook, ready, schedule};
use catchcrop::site::{SiteSpec, SiteYear};
use catchcrop::units::{TempUnit, Temperature};

/// Rows of a table of the handbook: its header and its cells.
pub(super) fn table(name: &str) -> Option<(Vec<String>, Vec<Vec<String>>)> {
    let path = reference(&format!("handbook/{name}"))?;
    let text = std::fs::read_to_string(path).unwrap();
    let mut lines =
        text.lines().filter(|l| !l.starts_with('#')).map(|l| l.split('\t').map(str::to_owned).collect());
    Some((lines.next().unwrap(), lines.collect()))
}

/// A climate with its average frost dates replaced.
fn zone(preset: &str, last: Option<&str>, first: Option<&str>) -> SiteYear {
    let read = |d: Option<&str>| d.map(|d| d.parse::<MonthDay>().unwrap());
    let spec = SiteSpec::from_preset(preset).unwrap();
    SiteYear::new(&SiteSpec { last_frost: read(last), first_frost: read(first), ..spec }).unwrap()
}

/// How a table fares: count, median and worst absolute error, share within so many days, bias.
pub(super) struct Fit {
    pub(super) rows: usize,
    pub(super) median: f64,
    pub(super) worst: f64,
    pub(super) bias: f64,
    errors: Vec<f64>,
}

impl Fit {
    pub(super) fn of(errors: &[f64]) -> Self {
        let mut sizes: Vec<f64> = errors.iter().map(|e| e.abs()).collect();
        sizes.sort_by(f64::total_cmp);
        let rows = sizes.len();
        let median = if rows.is_multiple_of(2) {
            sizes[rows / 2 - 1].midpoint(sizes[rows / 2])
        } else {
            sizes[rows / 2]
        };
        Self {
            rows,
            median,
            worst: sizes[rows - 1],
            bias: errors.iter().sum::<f64>() / rows as f64,
            errors: sizes,
        }
    }
    pub(super) fn within(&self, days: f64) -> f64 {
        self.errors.iter().filter(|e| **e <= days).count() as f64 / self.rows as f64
    }
    pub(super) fn print(&self, what: &str) {
        println!(
            "{what}: {} rows, median {} d, worst {} d, bias {:+.1} d, within 16 d {:.0} %",
            self.rows,
            self.median,
            self.worst,
            self.bias,
            100.0 * self.within(16.0)
        );
    }
}

/// A crop as the table of 1919 means it: its quickest variety, ripe by the average first frost.
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
    plain.picking = Picking { shape: PickShape::Steady, days: 60, holds: 0 };
    plain
}

/// The last start that succeeds in the autumn half of 2027.
fn latest(crop: &Crop, conditions: &Conditions<'_>, start: Start, frost: Date) -> Option<Date> {
    (0..230).map(|n| plus(frost, -n)).find(|on| schedule(crop, conditions, start, *on).is_ok())
}

/// Zones of the fall table with the climate that stands for them and the middle of their first killing frosts.
const FALL: [(&str, &str, &str); 5] = [
    ("zone_C", "new-york", "11-17"),
    ("zone_D", "toronto", "11-02"),
    ("zone_E", "ottawa", "10-20"),
    ("zone_F", "ottawa", "10-08"),
    ("zone_G", "intl-falls-mn", "09-23"),
];

/// A row of the fall table: its name, season, the handbook's lower days to maturity, what they count from.
type Row = (&'static str, Season, u16, CountedFrom);

/// Rows that a copy of the table lacks are passed over.
const IN_PLACE: [Row; 18] = [
    ("Beet", Season::Cool, 50, CountedFrom::Sowing),
    ("Cucumber", Season::Warm, 60, CountedFrom::Sowing),
    ("Potatoes, Irish", Season::Cool, 80, CountedFrom::Sowing),
    ("Squash, bush", Season::Warm, 60, CountedFrom::Sowing),
    ("Bean, pole lima", Season::Warm, 60, CountedFrom::Sowing),
    ("Bean, snap", Season::Warm, 45, CountedFrom::Sowing),
    ("Carrot", Season::Cool, 70, CountedFrom::Sowing),
    ("Chard, Swiss", Season::Cool, 55, CountedFrom::Sowing),
    ("Corn, sweet", Season::Warm, 60, CountedFrom::Sowing),
    ("Melons, watermelon", Season::Warm, 100, CountedFrom::Sowing),
    ("Okra", Season::Warm, 90, CountedFrom::Sowing),
    ("Onion sets", Season::Cool, 100, CountedFrom::Sowing),
    ("Parsnip", Season::Cool, 125, CountedFrom::Sowing),
    ("Pea", Season::Cool, 45, CountedFrom::Sowing),
    ("Radish", Season::Cool, 25, CountedFrom::Sowing),
    ("Salsify", Season::Cool, 125, CountedFrom::Sowing),
    ("Spinach", Season::Cool, 40, CountedFrom::Sowing),
    ("Squash, vine", Season::Warm, 100, CountedFrom::Sowing),
];

const APART: [Row; 11] = [
    ("Cauliflower", Season::Cool, 50, CountedFrom::SettingOut),
    ("Kale", Season::Cool, 50, CountedFrom::Sowing),
    ("Parsley", Season::Cool, 70, CountedFrom::Sowing),
    ("Turnip", Season::Cool, 60, CountedFrom::Sowing),
    ("Cabbage", Season::Cool, 70, CountedFrom::SettingOut),
    ("Celery", Season::Cool, 120, CountedFrom::Sowing),
    ("Eggplant", Season::Warm, 60, CountedFrom::SettingOut),
    ("Lettuce", Season::Cool, 35, CountedFrom::Sowing),
    ("Peppers", Season::Warm, 70, CountedFrom::SettingOut),
    ("Potatoes, sweet", Season::Warm, 140, CountedFrom::SettingOut),
    ("Tomato", Season::Warm, 70, CountedFrom::SettingOut),
];

/// Days by which the last start is later than the table's, without chances: expected warmth added up backwards from
/// the even-chance frost date, less the picking.
fn by_warmth(crop: &Crop, season: Season, year: &SiteYear, frost: &str, theirs: MonthDay) -> Option<f64> {
    let frost = frost.parse::<MonthDay>().unwrap().in_year(2027);
    let theirs = theirs.in_year(2027);
    let picked = plus(frost, if season == Season::Cool { -7 } else { -21 });
    let mine = ready(crop, &Conditions::new(year), Start::InPlace, picked)?;
    let whole = days_between(theirs, frost) >= i64::from(crop.days.min) && days_between(mine, frost) < 330;
    whole.then(|| days_between(theirs, mine) as f64)
}

#[test]
fn the_fall_zone_table() {
    let Some((header, rows)) = table("fall_zone_planting.tsv") else { return };
    let years: Vec<SiteYear> =
        FALL.iter().map(|(_, preset, frost)| zone(preset, None, Some(frost))).collect();
    let check = |list: &[Row]| {
        let mut errors = Vec::new();
        for (name, season, days, from) in list {
            let Some(row) = rows.iter().find(|r| r[0] == *name) else { continue };
            let crop = plain(*season, *days, *from);
            let mut line = format!("  {name:<20}");
            for ((column, _, frost), year) in FALL.iter().zip(&years) {
                let cell = &row[header.iter().position(|h| h == column).unwrap()];
                let frost = frost.parse::<MonthDay>().unwrap().in_year(2027);
                let conditions = Conditions::new(year).at(Risk::Bold);
                let start = if *from == CountedFrom::Sowing { Start::InPlace } else { Start::Bought };
                let mine = latest(&crop, &conditions, start, frost);
                let (Ok(theirs), Some(mine)) = (cell.parse::<MonthDay>(), mine) else {
                    line += &format!(
                        " {:>12}",
                        format!(
                            "{cell}/{}",
                            mine.map_or_else(|| "none".to_owned(), |d| d.format("%m-%d").to_string())
                        )
                    );
                    continue;
                };
                // Fewer days to the frost than the packet asks for: a crop meant to stand the winter, or for frames.
                if days_between(theirs.in_year(2027), frost) < i64::from(*days) {
                    line += &format!(" {:>12}", format!("{cell} short"));
                    continue;
                }
                let error = days_between(theirs.in_year(2027), mine);
                errors.push(error as f64);
                line += &format!(" {:>12}", format!("{cell} {error:+}"));
            }
            println!("{line}");
        }
        errors
    };
    println!(
        "USDA 1919, latest safe dates in autumn (zones C to G; table, days by which the program is later)"
    );
    let fit = Fit::of(&check(&IN_PLACE));
    fit.print("sown in place");
    let other = Fit::of(&check(&APART));
    other.print("set out, or greens that stand frost");
    let cells = |name: &str, column: &str| {
        let row = rows.iter().find(|r| r[0] == name)?;
        row[header.iter().position(|h| h == column)?].parse::<MonthDay>().ok()
    };
    let bare: Vec<f64> = IN_PLACE
        .iter()
        .flat_map(|(name, season, days, from)| {
            let crop = plain(*season, *days, *from);
            let of_zone = |((column, _, frost), year): (&(&str, &str, &str), &SiteYear)| {
                by_warmth(&crop, *season, year, frost, cells(name, column)?)
            };
            FALL.iter().zip(&years).filter_map(of_zone).collect::<Vec<f64>>()
        })
        .collect();
    Fit::of(&bare).print("sown in place, expected warmth alone");
    println!(
        "  the median sought was 6, of all 30 rows of the table; {} of them are here. Its lead grows from the bare \
         packet days in zone C to packet days and three weeks in zone G, more than warmth alone does; days of \
         eggplant and pepper there count from seed",
        rows.len()
    );
    assert!(fit.rows >= 55 && fit.median <= 9.0 && fit.within(16.0) >= 0.88 && fit.bias.abs() <= 3.0);
    assert!(other.median <= 21.0);
}

#[test]
fn the_spring_zone_table() {
    let Some((header, rows)) = table("spring_zone_planting.tsv") else { return };
    let zones = [
        ("zone_A", "pensacola-fl", "02-22"),
        ("zone_B", "pensacola-fl", "03-08"),
        ("zone_C", "new-york", "03-23"),
        ("zone_D", "new-york", "04-08"),
        ("zone_E", "toronto", "04-23"),
        ("zone_F", "ottawa", "05-08"),
        ("zone_G", "intl-falls-mn", "05-23"),
    ];
    let names = [
        ("Bean, snap", "bean"),
        ("Brussels sprouts", "brussels-sprouts"),
        ("Cabbage", "cabbage"),
        ("Carrot", "carrot"),
        ("Chard", "chard"),
        ("Corn, sweet", "corn"),
        ("Eggplant", "eggplant"),
        ("Kohlrabi", "kohlrabi"),
        ("Lettuce, head", "lettuce-head"),
        ("Lettuce, leaf", "lettuce"),
        ("Onion sets", "onion-sets"),
        ("Parsnip", "parsnip"),
        ("Peas, smooth", "pea-early"),
        ("Peas, wrinkled", "pea"),
        ("Peppers", "pepper"),
        ("Radish", "radish"),
        ("Spinach", "spinach"),
        ("Squash", "winter-squash"),
        ("Tomato", "tomato"),
    ];
    let years: Vec<SiteYear> =
        zones.iter().map(|(_, preset, frost)| zone(preset, Some(frost), None)).collect();
    let mut errors = (Vec::new(), Vec::new());
    println!(
        "USDA 1919, earliest safe dates in spring (zones A to G; table, days by which the program is later than its \
         middle; winter: may be sown all winter there)"
    );
    for (name, id) in names {
        let row = rows.iter().find(|r| r[0] == name).unwrap();
        let crop = &crop(id);
        // Only when it may first go out is asked, not whether it ripens.
        let has = |start: &Start| crop.starts.contains(start);
        let start = [Start::InPlace, Start::Bought].into_iter().find(has).unwrap_or(crop.starts[0]);
        let mut line = format!("  {name:<18}");
        for ((column, _, _), year) in zones.iter().zip(&years) {
            let cell = &row[header.iter().position(|h| h == column).unwrap()];
            let Some((from, to)) = cell.split_once("..") else {
                line += &format!(" {cell:>18}");
                continue;
            };
            let read = |d: &str| d.parse::<MonthDay>().unwrap().in_year(2027);
            let middle = plus(read(from), days_between(read(from), read(to)) / 2);
            let conditions = Conditions::new(year).at(Risk::Usual);
            let good = |on: &Date| {
                let seen = outlook(crop, &conditions, start, *on);
                seen.against.iter().all(|r| {
                    matches!(r, Refusal::Late { .. } | Refusal::NeverRipe)
                        || !matches!(r.cause(), Hindrance::Cold | Hindrance::Frost)
                })
            };
            // Back from early summer to the first day that is too cold.
            let summer = Date::from_ymd_opt(2027, 6, 25).unwrap();
            let mine = (0..220).map(|n| plus(summer, -n)).take_while(good).last();
            let Some(mine) = mine else { continue };
            let error = days_between(middle, mine);
            // No cold stops it in winter: the table's date there is custom.
            if days_between(mine, summer) > 185 {
                line += &format!(" {:>18}", format!("{cell} winter"));
                continue;
            }
            if start == Start::InPlace {
                errors.0.push(error as f64);
            } else {
                errors.1.push(error as f64);
            }
            line += &format!(" {:>18}", format!("{cell} {error:+}"));
        }
        println!("{line} {start:?}");
    }
    let (sown, out) = (Fit::of(&errors.0), Fit::of(&errors.1));
    sown.print("sown in place");
    out.print("set out");
    assert!(sown.rows >= 70 && sown.median <= 10.0 && sown.bias.abs() <= 5.0);
    assert!(out.rows >= 30 && out.median <= 10.0);
}
