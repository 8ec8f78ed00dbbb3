//! Daylength, radiation, evapotranspiration.

use super::{close, golden};
use crate::support::show;
use catchcrop::calendar::Date;
use catchcrop::site::{SiteSpec, SiteYear, radiation, sun};

/// SPA daylengths by pvlib 0.16.1 (NREL SPA), hours, longitude 0.
const SPA: [(f64, (i32, u32, u32), f64); 6] = [
    (0.0, (2025, 1, 15), 12.1219),
    (0.0, (2025, 6, 21), 12.1229),
    (25.8, (2025, 5, 1), 13.1372),
    (25.8, (2025, 11, 5), 11.0788),
    (-43.5, (2025, 9, 23), 12.1863),
    (-43.5, (2025, 12, 21), 15.4285),
];

fn date(y: i32, m: u32, d: u32) -> Date {
    Date::from_ymd_opt(y, m, d).unwrap()
}

#[test]
fn daylength_is_within_a_minute_of_the_published_algorithm() {
    for (lat, (y, m, d), hours) in SPA {
        close(sun::daylength(lat, 0.0, date(y, m, d), sun::RISE), hours, 0.25 / 60.0);
    }
    let Some(data) = golden("daylength.json") else { return };
    let (mut worst, mut worst_mean, mut civil) = (0.0_f64, 0.0_f64, 0.0_f64);
    for row in data["rows"].as_array().unwrap() {
        let lat = row["lat"].as_f64().unwrap();
        let day: Date = row["date"].as_str().unwrap().parse().unwrap();
        let spa = row["spa_day_h"].as_f64().unwrap();
        let mine = sun::daylength(lat, 0.0, day, sun::RISE);
        worst = worst.max((mine - spa).abs() * 60.0);
        let mean = sun::daylengths(lat)[catchcrop::calendar::ClimateDay::of(day).index()];
        worst_mean = worst_mean.max((mean - spa).abs() * 60.0);
        let twilight = sun::daylength(lat, 0.0, day, sun::CIVIL);
        civil = civil.max((twilight - row["proto_civil_h"].as_f64().unwrap()).abs() * 60.0);
    }
    show(&[format!(
        "daylength to 60 degrees against the published algorithm: {} rows, worst {worst:.2} min, twilight {civil:.2} min",
        data["rows"].as_array().unwrap().len()
    )]);
    assert!(worst < 0.35, "{worst}");
    assert!(worst_mean < 1.0, "{worst_mean}");
    assert!(civil < 2.0, "{civil}");
}

/// The daylength that is read beside a date, in leap years and the years between, long ago and far ahead. The mean
/// year's, which growth goes by, may be five minutes off at 60 degrees.
#[test]
fn daylength_beside_a_date_is_right_in_any_year() {
    let spec = SiteSpec::from_preset("new-york").unwrap();
    let (mut worst, mut mean, mut rows) = (0.0_f64, 0.0_f64, 0);
    for (lat, lon) in [(-60.0, 20.0), (-33.9, 18.4), (0.0, 37.0), (40.8, -74.0), (52.0, 5.0), (60.0, 25.0)] {
        let year = SiteYear::new(&SiteSpec { lat, lon, ..spec.clone() }).unwrap();
        for y in [1950, 2024, 2025, 2026, 2027, 2028, 2060, 2096] {
            for month in 1..=12 {
                let day = date(y, month, 21);
                let hours = between_events(lat, lon, day);
                worst = worst.max((year.light_on(day) - hours).abs() * 60.0);
                let table = year.daylength[catchcrop::calendar::ClimateDay::of(day).index()];
                mean = mean.max((table - hours).abs() * 60.0);
                rows += 1;
            }
        }
    }
    show(&[format!(
        "daylength beside a date, 1950 to 2096, against rise and set: {rows} rows, worst {worst:.2} min (mean year {mean:.1})"
    )]);
    assert!(worst < 1.0 && mean < 5.5, "{worst} {mean}");
}

/// Hours between the rise and the set of the algorithm's own events.
fn between_events(lat: f64, lon: f64, day: Date) -> f64 {
    use solar_positioning::{Horizon, Location, SolarEvents};
    let zone = chrono::FixedOffset::east_opt((lon / 15.0) as i32 * 3600).unwrap();
    let place = Location { latitude: lat, longitude: lon };
    let events = SolarEvents::new().for_date(day, &zone, place, 69.0, Horizon::SunriseSunset).unwrap();
    (events.sets[0] - events.rises[0]).num_milliseconds() as f64 / 3.6e6
}

#[test]
fn rise_and_set_agree_with_the_algorithm_s_own_events() {
    let mut worst = 0.0_f64;
    for lat in [-60.0, -33.9, -1.3, 25.8, 40.8, 52.0, 60.0, 65.0] {
        for lon in [-120.0, 0.0, 140.0] {
            for month in 1..=12 {
                for (y, d) in [(2024, 3), (2027, 21)] {
                    let day = date(y, month, d);
                    let mine = sun::daylength(lat, lon, day, sun::RISE);
                    worst = worst.max((mine - between_events(lat, lon, day)).abs() * 60.0);
                }
            }
        }
    }
    println!("daylength against rise and set of the same algorithm: worst {worst:.3} min");
    assert!(worst < 0.25, "{worst}");
}

#[test]
fn the_sun_stands_where_the_algorithm_puts_it() {
    use solar_positioning::{Location, SolarPositions, time::JulianDate};
    let positions = SolarPositions::new();
    for lat in [-34.0, 0.0, 40.8, 65.0] {
        for (day, month, of_month) in [(20, 1, 21), (171, 6, 21), (265, 9, 23)] {
            for hour in [8.0, 10.5, 13.0, 16.0] {
                // Solar time is clock time plus the equation of time: search the clock time of the same hour angle
                // by the azimuth's own noon.
                let noon = (0..=2400)
                    .map(|i| 11.6 + f64::from(i) / 3000.0)
                    .min_by(|a, b| {
                        let zenith = |h: f64| {
                            let t = JulianDate::from_utc(sun::MEAN_YEAR, month, of_month, 0, 0, 0.0, 69.0)
                                .unwrap();
                            let t = JulianDate::new(t.julian_date() + h / 24.0, 69.0).unwrap();
                            let place = Location { latitude: 52.0, longitude: 0.0 };
                            positions.at_from_julian(t, place, 0.0, None).unwrap().zenith_angle()
                        };
                        zenith(*a).total_cmp(&zenith(*b))
                    })
                    .unwrap();
                let t = JulianDate::from_utc(sun::MEAN_YEAR, month, of_month, 0, 0, 0.0, 69.0).unwrap();
                let t = JulianDate::new(t.julian_date() + (noon + hour - 12.0) / 24.0, 69.0).unwrap();
                let place = Location { latitude: lat, longitude: 0.0 };
                let theirs = positions.at_from_julian(t, place, 0.0, None).unwrap();
                let mine = sun::position(lat, day, hour);
                close(mine.height, theirs.elevation_angle(), 0.2);
                if mine.height < 80.0 {
                    let turn = (mine.azimuth - theirs.azimuth() + 180.0).rem_euclid(360.0) - 180.0;
                    close(turn, 0.0, 1.0);
                }
            }
        }
    }
}

#[test]
fn polar_day_and_night_are_24_and_0_hours() {
    close(sun::daylength(78.0, 15.0, date(2026, 6, 21), sun::RISE), 24.0, 0.0);
    close(sun::daylength(78.0, 15.0, date(2026, 12, 21), sun::RISE), 0.0, 0.0);
    close(sun::daylength(-80.0, 0.0, date(2026, 12, 21), sun::RISE), 24.0, 0.0);
    let arctic = sun::daylengths(66.9);
    assert!(arctic.contains(&24.0) && arctic.iter().all(|h| (0.0..=24.0).contains(h)));
}

/// FAO-56 worked examples, to the printed digit (Allen et al. 1998).
#[test]
fn fao56_examples_come_out_to_the_printed_digit() {
    let two = |x: f64, digits: i32| (x * 10f64.powi(digits)).round() / 10f64.powi(digits);
    // Example 8: 20 S, 3 September, day 246.
    close(two(radiation::inverse_distance(246.0), 3), 0.985, 1e-9);
    close(two(radiation::declination(246.0), 3), 0.120, 1e-9);
    close(two(radiation::sunset_angle(-20.0, 246.0), 3), 1.527, 1e-9);
    let ra = radiation::extraterrestrial(-20.0, 246.0);
    close(two(ra, 1), 32.2, 1e-9);
    close(two(ra * radiation::MM_PER_MJ, 1), 13.1, 1e-9);
    // Example 9: daylight of the same day.
    close(two(radiation::daylight(-20.0, 246.0), 1), 11.7, 1e-9);
    // Example 15: Lyon, July.
    close(two(radiation::ground(14.8, 26.6, 40.6, 0.16), 1), 22.3, 1e-9);
    // Example 18: 50 48 N, 6 July.
    close(two(radiation::extraterrestrial(50.80, 187.0), 2), 41.09, 1e-9);
    close(two(radiation::daylight(50.80, 187.0), 1), 16.1, 1e-9);
    // Example 20: Lyon (45 43 N), mid-July.
    let lyon = radiation::extraterrestrial(45.72, 196.0);
    close(two(lyon, 1), 40.6, 1e-9);
    close(two(radiation::hargreaves(14.8, 26.6, lyon), 1), 5.0, 1e-9);
}

#[test]
fn radiation_and_et0_agree_with_two_other_programs() {
    let Some(data) = golden("ra_et0.json") else { return };
    for row in data["rows"].as_array().unwrap() {
        let value = |name: &str| row[name].as_f64().unwrap();
        let ra = radiation::extraterrestrial(value("lat"), value("doy"));
        close(ra, value("proto_ra"), 1e-6);
        close(ra, value("pyet_ra"), 0.05);
        close(ra, value("refet_ra"), 0.05);
        let et0 = radiation::hargreaves(14.8, 26.6, ra);
        close(et0, value("proto_et0"), 1e-6);
        close(et0, value("pyet_hargreaves"), 0.02);
    }
}
