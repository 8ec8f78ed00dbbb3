//! Normals to days, degree days, soil.

use super::{close, golden, list, reference, twelve};
use catchcrop::site::degree::{self, Response};
use catchcrop::site::{SiteYear, day, normals, soil};

/// New York minima, NOAA 1991-2020, and the curve on every tenth day.
const NEW_YORK: [f64; 12] = [
    -2.281613, -1.386429, 2.108387, 7.501333, 12.773226, 18.004, 21.164516, 20.504194, 16.835333, 10.778065,
    5.554, 1.002258,
];

#[test]
fn months_keep_their_means() {
    let daily = normals::daily(&NEW_YORK);
    for (mean, given) in day::month_means(&daily).into_iter().zip(NEW_YORK) {
        close(mean, given, 1e-9);
    }
    close(daily[0], -1.232583, 1e-6);
    close(daily[200], 21.490217, 1e-6);
    close(daily[360], -0.553783, 1e-6);
}

#[test]
fn the_curve_follows_published_daily_normals() {
    let Some(data) = golden("monthly_to_daily.json") else { return };
    let path = reference("climate/data/noaa_daily_normals_USW00094728.csv").unwrap();
    let text = std::fs::read_to_string(path).unwrap();
    for case in data["cases"].as_array().unwrap() {
        let daily = normals::daily(&twelve(&case["monthly"]));
        for (mine, theirs) in daily.iter().step_by(10).zip(list(&case["daily_every_10th"])) {
            close(*mine, theirs, 2e-6);
        }
        let column = if case["column"] == "TMAX" { 1 } else { 2 };
        let published: Vec<f64> =
            text.lines().skip(1).map(|l| l.split(',').nth(column).unwrap().parse().unwrap()).collect();
        let square: f64 = daily.iter().zip(&published).map(|(a, b)| (a - b).powi(2)).sum();
        let rmse = (square / 365.0).sqrt();
        println!("{}: {rmse:.3} C against NOAA's daily normals", case["column"]);
        close(rmse, case["rmse_vs_noaa_daily"].as_f64().unwrap(), 1e-3);
    }
}

#[test]
fn rain_keeps_its_totals() {
    let totals = [92.0, 81.0, 109.0, 104.0, 101.0, 115.0, 117.0, 116.0, 109.0, 111.0, 91.0, 111.0];
    let daily = normals::spread(&totals);
    close(daily.iter().sum::<f64>(), totals.iter().sum::<f64>(), 1e-9);
    assert!(daily.iter().all(|r| *r >= 0.0));
}

#[test]
fn single_sine_agrees_with_quadrature() {
    close(degree::sine(2.0, 14.0, 4.4, 30.0), 4.065285, 1e-6);
    close(degree::sine(18.0, 38.0, 10.0, 30.0), 15.753024, 1e-6);
    close(degree::sine_fall(18.0, 38.0, 10.0, 22.0), 4.449049, 1e-6);
    let Some(data) = golden("degree_days.json") else { return };
    for row in data["rows"].as_array().unwrap() {
        let v = |name: &str| row[name].as_f64().unwrap();
        let (low, high, base, upper) = (v("tmin"), v("tmax"), v("base"), v("upper"));
        close(degree::sine(low, high, base, upper), v("sine"), 1e-6);
        close(degree::sine(low, high, base, upper), v("quadrature"), 1e-3);
        close(degree::average_held(low, high, base, upper), v("avg1"), 1e-6);
        close(degree::extremes_held(low, high, base, upper), v("avg2"), 1e-6);
        close(
            degree::expected(|a, b| degree::sine(a, b, base, upper), low, high, 3.7),
            v("sine_expected_sd37"),
            1e-6,
        );
        close(degree::sine_fall(low, high, base, 22.0), v("opt22"), 1e-6);
    }
}

#[test]
fn reference_rates_are_those_of_18_and_21_degrees() {
    close(Response::COOL.steady(18.0), 16.0, 1e-12);
    close(Response::WARM.steady(21.0), 11.0, 1e-12);
}

/// Days and inverse of a heat sum at the presets, from the reference prototype.
#[test]
fn heat_sums_ripen_on_the_reference_days() {
    let Some(data) = golden("planning.json") else { return };
    for site in data["sites"].as_array().unwrap() {
        let year = SiteYear::preset(site["id"].as_str().unwrap()).unwrap();
        let sow = site["sow"].as_u64().unwrap() as usize;
        for (name, response) in [("cool_60d", Response::COOL), ("warm_65d", Response::WARM)] {
            let rates = year.rates(response);
            let need = site[name]["need"].as_f64().unwrap();
            let mut sum = 0.0;
            let days = (0..365).find_map(|i| {
                sum += rates[(sow + i) % 365];
                (sum >= need - 1e-9).then_some(i as u64 + 1)
            });
            assert_eq!(days, site[name]["days"].as_u64(), "{} {name}", site["id"]);
        }
    }
}

#[test]
fn soil_follows_a_measured_series() {
    let Some(data) = golden("soil.json") else { return };
    let air = normals::daily(&twelve(&data["air_monthly"]));
    for (name, depth) in [("SOIL5", 0.05), ("SOIL10", 0.10), ("SOIL20", 0.20)] {
        let row = &data["soil"][name];
        let mine = day::month_means(&soil::wave(&air, depth, soil::COVER));
        for (a, b) in mine.into_iter().zip(list(&row["model_monthly"])) {
            // The reference's air means are rounded to a thousandth.
            close(a, b, 1e-3);
        }
        let square: f64 = mine.iter().zip(list(&row["observed_monthly"])).map(|(a, b)| (a - b).powi(2)).sum();
        close((square / 12.0).sqrt(), row["rmse"].as_f64().unwrap(), 0.01);
    }
}

#[test]
fn soil_lags_the_air_and_keeps_above_hard_frost() {
    let year = SiteYear::preset("intl-falls-mn").unwrap();
    let coldest = year.soil.iter().copied().fold(f64::INFINITY, f64::min);
    assert!(coldest > -6.0 && coldest < 0.0, "{coldest}");
    assert!(day::warmest(&year.soil) > day::warmest(&year.tmean));
}
