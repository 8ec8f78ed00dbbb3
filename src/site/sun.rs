//! Where the sun stands: daylength, twilight, height and direction.
//!
//! Declination and right ascension come from the NREL Solar Position Algorithm (Reda & Andreas 2004, Solar Energy
//! 76:577, in the `solar-positioning` crate). Rise and set are solved from them at the moments of rise and set.

use super::day::{DAYS, Daily};
use crate::calendar::Date;
use crate::units::num;
use chrono::Datelike;
use solar_positioning::{SolarPositions, delta_t, time::JulianDate};
use std::f64::consts::PI;
use std::sync::LazyLock;

/// Height of the sun's centre, in degrees, at sunrise and sunset: refraction 34' and half the disc 16'.
pub const RISE: f64 = -0.8333;
/// Height of the sun's centre, in degrees, at the ends of civil twilight.
pub const CIVIL: f64 = -6.0;

/// The year whose sun stands for every year: the one published daylengths are checked in, a year after a leap year.
/// The sun of other years stands up to three quarters of a day before or behind it, which moves a day's length by
/// some two minutes at 40 degrees and five at 60: nothing to growth. Where a date is read beside it,
/// [`super::SiteYear::light_on`] knows the date.
pub const MEAN_YEAR: i32 = 2025;

/// Mean motion of the sun in right ascension, degrees a day.
const MEAN_MOTION: f64 = 0.985_647_36;

/// Declination and right ascension of the sun in degrees at one moment.
#[derive(Debug, Clone, Copy)]
struct Place {
    declination: f64,
    ascension: f64,
}

/// The sun at noon of the day before, the day itself and the day after.
#[derive(Debug, Clone, Copy)]
struct Noons([Place; 3]);

impl Noons {
    /// Declination in degrees `t` days from the middle noon.
    fn declination(self, t: f64) -> f64 {
        let [a, b, c] = self.0.map(|p| p.declination);
        b + t * ((c - a) / 2.0 + t * (a - 2.0 * b + c) / 2.0)
    }

    /// How much faster the sun's hour angle turns than a mean day, as a share.
    fn gain(self) -> f64 {
        let turn = (self.0[2].ascension - self.0[0].ascension).rem_euclid(360.0) / 2.0;
        (MEAN_MOTION - turn) / 360.0
    }

    /// Hours between the two passages of the height `altitude` (degrees) at latitude `lat`.
    fn hours(self, lat: f64, altitude: f64) -> f64 {
        let half = |sign: f64| {
            let mut angle = PI / 2.0;
            for _ in 0..4 {
                let declination = self.declination(sign * angle / (2.0 * PI));
                angle = hour_angle(lat, declination, altitude);
            }
            angle
        };
        let turned = half(-1.0) + half(1.0);
        if turned >= 2.0 * PI - 1e-9 {
            return 24.0;
        }
        (turned * 12.0 / PI / (1.0 + self.gain())).min(24.0)
    }
}

/// Hour angle in radians at which the sun passes `altitude`; 0 where it stays below, pi where it stays above.
fn hour_angle(lat: f64, declination: f64, altitude: f64) -> f64 {
    let (lat, dec) = (lat.clamp(-89.999, 89.999).to_radians(), declination.to_radians());
    let x = (altitude.to_radians().sin() - lat.sin() * dec.sin()) / (lat.cos() * dec.cos());
    x.clamp(-1.0, 1.0).acos()
}

/// The sun `days` days from noon (UT) of `date`.
fn place(date: Date, days: f64) -> Place {
    let seconds = delta_t::estimate_from_date_like(&date).unwrap_or(69.0);
    let from_epoch = num::real_i(date.signed_duration_since(EPOCH).num_days());
    let julian = JulianDate::new(EPOCH_NOON + from_epoch + days, seconds);
    match julian.and_then(|time| SolarPositions::new().for_time_from_julian(time)) {
        Ok(sun) => Place { declination: sun.declination(), ascension: sun.right_ascension() },
        // Years outside -2000..6000, for which no position is published: an equinox sun.
        Err(_) => Place { declination: 0.0, ascension: 0.0 },
    }
}

/// 1 January 2000.
const EPOCH: Date = match Date::from_ymd_opt(2000, 1, 1) {
    Some(date) => date,
    None => Date::MIN,
};
/// Julian date of noon UT on [`EPOCH`].
const EPOCH_NOON: f64 = 2_451_545.0;

/// The mean year's sun, one entry a day from the day before 1 January to the day after 31 December.
static MEAN: LazyLock<[Place; DAYS + 2]> = LazyLock::new(|| {
    let first = Date::from_ymd_opt(MEAN_YEAR, 1, 1).unwrap_or(EPOCH);
    std::array::from_fn(|i| place(first, num::real(i) - 1.0))
});

fn mean_noons(day: usize) -> Noons {
    let i = day % DAYS;
    Noons([MEAN[i], MEAN[i + 1], MEAN[i + 2]])
}

/// Hours between the passages of the height `altitude` (degrees; [`RISE`] or [`CIVIL`]) on a date.
/// 0 where the sun stays below all day, 24 where it stays above.
///
/// Within a quarter of a minute of the same algorithm's own rise and set times to 60 degrees.
pub fn daylength(lat: f64, lon: f64, date: Date, altitude: f64) -> f64 {
    let local = -lon.clamp(-180.0, 180.0) / 360.0;
    let before = date.pred_opt().unwrap_or(date);
    let after = date.succ_opt().unwrap_or(date);
    let year_is_usable = (-1900..=5900).contains(&date.year());
    if !year_is_usable {
        return mean_noons(crate::calendar::ClimateDay::of(date).index()).hours(lat, altitude);
    }
    Noons([place(before, local), place(date, local), place(after, local)]).hours(lat, altitude)
}

/// Hours of day for each day of the mean year.
pub fn daylengths(lat: f64) -> Daily {
    std::array::from_fn(|day| mean_noons(day).hours(lat, RISE))
}

/// Hours from dawn to dusk with civil twilight for each day of the mean year.
pub fn twilights(lat: f64) -> Daily {
    std::array::from_fn(|day| mean_noons(day).hours(lat, CIVIL))
}

/// Declination of the sun in degrees at noon of a climate day.
pub fn declination(day: usize) -> f64 {
    mean_noons(day).0[1].declination
}

/// Height above the horizon and direction from north through east, both in degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunPosition {
    /// Height of the centre above the horizon, without refraction.
    pub height: f64,
    /// Direction: 0 north, 90 east, 180 south, 270 west.
    pub azimuth: f64,
}

/// Where the sun stands at `hour` of solar time (12 = due south or north) on a climate day.
pub fn position(lat: f64, day: usize, hour: f64) -> SunPosition {
    let declination = mean_noons(day).declination((hour - 12.0) / 24.0).to_radians();
    let angle = (hour - 12.0) * PI / 12.0;
    let lat = lat.to_radians();
    let up = lat.sin() * declination.sin() + lat.cos() * declination.cos() * angle.cos();
    let east = -declination.cos() * angle.sin();
    let north = declination.sin() * lat.cos() - declination.cos() * angle.cos() * lat.sin();
    SunPosition {
        height: up.clamp(-1.0, 1.0).asin().to_degrees(),
        azimuth: east.atan2(north).to_degrees().rem_euclid(360.0),
    }
}
