//! Real weather in place of the expected, and starts replayed through the years of a record.

use super::{crop, date, own, site_of};
use crate::site::reference;
use catchcrop::calendar::{ClimateDay, Date, days_between, plus};
use catchcrop::crop::{Crop, Germination, HeatLimits, Start};
use catchcrop::growth::{Conditions, Dates, outlook, replay, schedule};
use catchcrop::plan::PlantingId;
use catchcrop::site::station::{self, FileUnits};
use catchcrop::site::{SiteSpec, SiteYear, Weather};
use catchcrop::store::{book, plan_text};
use catchcrop::work::weathered;
use std::fmt::Write as _;
use std::sync::Arc;

/// A daily file from one day to another whose days are `off` degrees warmer than a site's normal ones.
fn days_off(year: &SiteYear, from: Date, to: Date, off: f64) -> String {
    let mut out = String::from("DATE,TMAX,TMIN\n");
    for on in from.iter_days().take_while(|d| *d <= to) {
        let d = ClimateDay::of(on).index();
        writeln!(out, "{on},{:.1},{:.1}", year.tmax[d] + off, year.tmin[d] + off).unwrap();
    }
    out
}

fn weather(text: &str, year: &SiteYear) -> Arc<Weather> {
    Arc::new(Weather::new(&station::read(text.as_bytes()).unwrap(), year).unwrap())
}

fn first_pick(crop: &Crop, conditions: &Conditions<'_>, on: Date) -> Date {
    outlook(crop, conditions, Start::InPlace, on).schedule.unwrap().dates.first_pick.unwrap()
}

/// A bean of a known number of days, whatever its soil and the heat.
fn plain_bean(days: u16) -> Crop {
    let mut bean = crop("bean");
    bean.days.min = days;
    bean.days.max = days;
    bean.germination = Germination::None;
    bean.heat = HeatLimits::default();
    bean
}

/// Fifty days at 21 C are the fifty days of the packet; five degrees colder they are as many days as their warmth.
#[test]
fn known_days_count_by_their_own_warmth() {
    let year = site_of("new-york");
    let bean = plain_bean(50);
    let on = date(2027, 130);
    for (steady, days) in [(21.0, 50), (16.0, 92), (30.0, 28)] {
        let mut text = String::from("DATE,TMAX,TMIN\n");
        for day in on.iter_days().take(120) {
            writeln!(text, "{day},{steady:.1},{steady:.1}").unwrap();
        }
        let conditions = Conditions::new(&year).lived(weather(&text, &year));
        // 11 degree days a day at 21 C; 6 at 16 C; 20 at 30 C.
        assert_eq!(days_between(on, first_pick(&bean, &conditions, on)), days, "{steady}");
    }
}

/// Warm weeks bring the harvest forward, cold ones put it off; weather before the start or a file's end changes
/// only what it touches.
#[test]
fn what_has_been_moves_what_is_expected() {
    let year = site_of("new-york");
    let bean = crop("bean");
    let plain = Conditions::new(&year);
    let on = date(2027, 130);
    let expected = first_pick(&bean, &plain, on);
    let lived = |from: i64, to: i64, off: f64| {
        let file = days_off(&year, plus(on, from), plus(on, to), off);
        first_pick(&bean, &plain.clone().lived(weather(&file, &year)), on)
    };
    let moved = |day| days_between(expected, day);
    let (warm, cold) = (moved(lived(0, 30, 4.0)), moved(lived(0, 30, -4.0)));
    println!("bean at New York, first month 4 C warmer: {warm:+} d, colder: {cold:+} d");
    assert!((-15..=-6).contains(&warm) && (6..=15).contains(&cold));
    // A longer warm spell brings it further forward; one in the days before the start, or after it is ripe, not.
    assert!(moved(lived(0, 15, 4.0)) > warm);
    assert_eq!(moved(lived(-40, -20, 6.0)), 0);
    assert_eq!(moved(lived(90, 120, 6.0)), 0);
    // Soil that is warmer brings seed up sooner.
    let up =
        |c: &Conditions<'_>| outlook(&bean, c, Start::InPlace, on).schedule.unwrap().dates.emerged.unwrap();
    let file = days_off(&year, plus(on, -20), plus(on, 20), 5.0);
    assert!(up(&plain.clone().lived(weather(&file, &year))) < up(&plain));
    // Missing days count as normal ones.
    let gap: String = days_off(&year, on, plus(on, 30), 4.0)
        .lines()
        .enumerate()
        .filter(|(n, _)| n % 2 == 0)
        .fold(String::new(), |mut all, (_, line)| {
            writeln!(all, "{line}").unwrap();
            all
        });
    let half = moved(first_pick(&bean, &plain.clone().lived(weather(&gap, &year)), on));
    assert!(half < -2 && half > warm, "{half}");
}

/// Nights that have passed without frost are no risk any more, and those with one still are.
#[test]
fn passed_nights_are_no_longer_a_chance() {
    let year = site_of("toronto");
    let bean = plain_bean(50);
    let on = date(2027, 75);
    let plain = Conditions::new(&year);
    assert!(schedule(&bean, &plain, Start::InPlace, on).is_err());
    let mild = weather(&days_off(&year, on, date(2027, 150), 12.0), &year);
    assert!(schedule(&bean, &plain.clone().lived(mild), Start::InPlace, on).is_ok());
    let frosty = weather(&days_off(&year, on, date(2027, 150), -8.0), &year);
    assert!(schedule(&bean, &plain.lived(frosty), Start::InPlace, on).is_err());
}

/// A file of a cold spring does not show its units by its maxima: it is read so that it agrees with the normals.
#[test]
fn units_of_a_short_file_are_taken_from_the_normals() {
    let year = site_of("ottawa");
    let mut text = String::from("DATE,TMAX,TMIN\n");
    for day in date(2027, 60).iter_days().take(25) {
        let d = ClimateDay::of(day).index();
        writeln!(text, "{day},{:.0},{:.0}", year.tmax[d] * 10.0 + 20.0, year.tmin[d] * 10.0 + 20.0).unwrap();
    }
    let file = station::read(text.as_bytes()).unwrap();
    assert_ne!(file.units, FileUnits::Tenths);
    let weather = Weather::new(&file, &year).unwrap();
    assert_eq!(weather.units, FileUnits::Tenths);
    assert!((weather.departure(&year) - 2.0).abs() < 0.1, "{}", weather.departure(&year));
    assert!(Weather::new(&station::read(b"DATE,TMAX,TMIN\n2027-03-01,5,1\n").unwrap(), &year).is_err());
}

/// Thirty made-up years with a known answer: every year is the normal one, but the first frost comes on 1 October
/// plus the year's number.
#[test]
fn a_replay_counts_the_years() {
    let year = site_of("ottawa");
    let bean = plain_bean(50);
    let mut text = String::from("DATE,TMAX,TMIN\n");
    for n in 0..30 {
        let frost = Date::from_ymd_opt(1991 + n, 10, 1).unwrap() + chrono::TimeDelta::days(i64::from(n));
        for day in
            date(1991 + n, 0).iter_days().take_while(|d| d.format("%Y").to_string() == (1991 + n).to_string())
        {
            let low = if day == frost { -4.0 } else { 12.0 };
            writeln!(text, "{day},24.0,{low:.1}").unwrap();
        }
    }
    let conditions = Conditions::new(&year).lived(weather(&text, &year));
    let seen = replay(&bean, &conditions, Start::InPlace, date(2027, 195));
    assert_eq!(seen.years.len(), 30);
    let ripe = seen.years[0].first_pick.unwrap();
    let over = plus(ripe, i64::from(bean.picking.days.min(21)));
    let killed = (0..30_i64).filter(|n| plus(date(1991, 273), *n) <= over).count();
    assert!((3..27).contains(&killed), "{killed} {over}");
    assert_eq!(seen.years.iter().filter(|y| !y.in_time()).count(), killed);
    assert!(seen.years[..killed].iter().all(|y| y.killed.is_some()));
    assert!((seen.share().unwrap() - (30 - killed) as f64 / 30.0).abs() < 1e-9);
    // Every year is alike until its frost.
    assert_eq!(seen.picked_by(0.1), seen.picked_by(0.9));
    assert!(replay(&bean, &Conditions::new(&year), Start::InPlace, date(2027, 195)).years.is_empty());
}

/// Where real records lie beside the project: normals of a station against its own years (year by year against
/// expected dates: 1 to 1.3 days of mean error at 24 to 27 stations).
#[test]
fn expected_dates_lie_in_the_middle_of_real_years() {
    let Some(folder) = reference("climate/data/daily") else { return };
    let (mut errors, mut chances, mut counted) = (Vec::new(), Vec::new(), Vec::new());
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    paths.sort();
    for path in paths.iter().filter(|p| p.extension().is_some_and(|e| e == "csv")) {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let file = station::read(&std::fs::read(path).unwrap()).unwrap();
        let (lat, lon, _) = file.place.unwrap_or((40.0, -100.0, None));
        let spec = file.apply(&SiteSpec { name: name.clone(), lat, lon, ..SiteSpec::default() }).unwrap();
        let year = SiteYear::new(&spec).unwrap();
        let plain = Conditions::new(&year);
        let lived = plain.clone().lived(Arc::new(Weather::new(&file, &year).unwrap()));
        for (id, days, on) in [("bean", 50, 140), ("bean", 50, 180), ("beet", 60, 100), ("beet", 60, 200)] {
            let mut crop = crop(id);
            crop.days.min = days;
            crop.days.max = days;
            crop.germination = Germination::None;
            crop.heat = HeatLimits::default();
            let on = date(2027, on);
            let seen = replay(&crop, &lived, Start::InPlace, on);
            let Some(expected) = outlook(&crop, &plain, Start::InPlace, on).schedule else { continue };
            if seen.years.len() < 20 {
                continue;
            }
            // Where the warmth of some years just suffices, no single date means much.
            let by = |share| seen.picked_by(share);
            if let (Some(first), Some(middle), Some(last)) = (by(0.1), by(0.5), by(0.9))
                && last - first <= 40
            {
                errors.push(days_between(date(2027, middle), expected.dates.first_pick.unwrap()) as f64);
            }
            // The chance is that of autumn; late frosts of spring are asked about apart.
            if on >= date(2027, 180) {
                chances.push(expected.chance);
                counted.push(seen.share().unwrap());
            }
        }
    }
    let mean = |v: &[f64]| v.iter().sum::<f64>() / v.len() as f64;
    let sizes: Vec<f64> = errors.iter().map(|e| e.abs()).collect();
    let off: Vec<f64> = chances.iter().zip(&counted).map(|(a, b)| a - b).collect();
    let far: Vec<f64> = off.iter().map(|d| d.abs()).collect();
    println!(
        "expected first picking against the middle of real years: {} cases, mean error {:.1} d, bias {:+.1} d; chance \
         to finish: {} cases, bias {:+.3}, mean error {:.3}",
        errors.len(),
        mean(&sizes),
        mean(&errors),
        off.len(),
        mean(&off),
        mean(&far)
    );
    assert!(mean(&sizes) <= 2.5 && mean(&errors).abs() <= 2.0);
    assert!(mean(&off).abs() <= 0.06 && mean(&far) <= 0.12);
}

/// A garden's standing plantings move with the weather, once.
#[test]
fn the_garden_takes_the_weather_up() {
    let year = site_of("new-york");
    let (bean, _) = own::slow_bean();
    let on = date(2027, 130);
    let mut plan = own::seasons_of(&bean, &bean, 1);
    plan.plantings[0].id = PlantingId(7);
    plan.plantings[0].real = Dates::default();
    plan.plantings[0].planned =
        outlook(&bean, &Conditions::new(&year), Start::InPlace, on).schedule.unwrap().dates;
    let text = days_off(&year, plus(on, -10), plus(on, 30), -4.0);
    let cold = weather(&text, &year);
    let forecast = weathered(&plan, book(), &year, &cold);
    assert_eq!(forecast.moved.len(), 1, "{:?}", forecast.moved);
    println!("{}", forecast.moved[0]);
    let mut now = plan.clone();
    now.apply(&forecast.edit).unwrap();
    let (old, new) = (plan.plantings[0].dates(), now.plantings[0].dates());
    let days = days_between(old.first_pick.unwrap(), new.first_pick.unwrap());
    assert!((5..=15).contains(&days), "{days}");
    assert_eq!(days_between(old.cleared.unwrap(), new.cleared.unwrap()), days);
    assert!(new.emerged > old.emerged);
    assert!(weathered(&now, book(), &year, &cold).is_still());
    // What is picked already, or not begun in the days of the file, is left alone.
    let mut other = plan.clone();
    other.plantings[0].real.first_pick = plan.plantings[0].planned.first_pick;
    assert!(weathered(&other, book(), &year, &cold).is_still());
    let early = weather(&days_off(&year, plus(on, -60), plus(on, -20), -4.0), &year);
    assert!(weathered(&plan, book(), &year, &early).is_still());
    // From the shell: said, and kept when asked.
    let home = crate::cli::Home::new();
    let garden = home.file("garden.ron", &plan_text(&plan).unwrap());
    let daily = home.file("spring.csv", &text);
    let week = ["week", &garden, "--on", "2027-06-10", "--daily", &daily];
    let ran = home.run(&week);
    assert_eq!(ran.code, 0, "{}", ran.said);
    for words in ["41 days, 0 missing", "4.0 C colder than normal", "first picking"] {
        assert!(ran.said.contains(words), "{words}: {}", ran.said);
    }
    let kept = home.run(&[&week[..], &["--write"]].concat());
    assert_eq!(kept.code, 0, "{}", kept.said);
    assert!(home.run(&week).said.contains("no date moves"));
    // A schedule reckons with the days of the file.
    let days = |more: &[&str]| {
        let args = ["schedule", "bean", "--site", "new-york", "--on", "2027-05-11", "--json"];
        home.run(&[&args[..], more].concat()).json()["days"].as_i64().unwrap()
    };
    assert!(days(&["--daily", &daily]) > days(&[]) + 4);
}
