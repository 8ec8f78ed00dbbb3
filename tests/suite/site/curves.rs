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

/// Days from sowing until a heat sum is met.
fn days_to(year: &SiteYear, response: Response, sow: usize, need: f64) -> Option<u64> {
    let rates = year.rates(response);
    let mut sum = 0.0;
    (0..365).find_map(|i| {
        sum += rates[(sow + i) % 365];
        (sum >= need - 1e-9).then_some(i as u64 + 1)
    })
}

/// Days of a heat sum at the presets, from the reference prototype.
#[test]
fn heat_sums_ripen_on_the_reference_days() {
    let new_york = SiteYear::preset("new-york").unwrap();
    assert_eq!(days_to(&new_york, Response::COOL, 102, 960.0), Some(69));
    assert_eq!(days_to(&new_york, Response::WARM, 102, 715.0), Some(83));
    let Some(data) = golden("planning.json") else { return };
    for site in data["sites"].as_array().unwrap() {
        let year = SiteYear::preset(site["id"].as_str().unwrap()).unwrap();
        let sow = site["sow"].as_u64().unwrap() as usize;
        for (name, response) in [("cool_60d", Response::COOL), ("warm_65d", Response::WARM)] {
            let days = days_to(&year, response, sow, site[name]["need"].as_f64().unwrap());
            assert_eq!(days, site[name]["days"].as_u64(), "{} {name}", site["id"]);
        }
    }
}

/// Monthly air and soil at 5 cm (model), Manhattan, Kansas, from the reference prototype.
const KANSAS_AIR: [f64; 12] =
    [-1.461, 0.637, 8.08, 13.5, 17.937, 24.246, 26.672, 24.708, 20.746, 13.864, 7.317, -0.043];
const KANSAS_SOIL: [f64; 12] =
    [0.6744, 1.6653, 8.4798, 14.1502, 18.3487, 24.5216, 27.4598, 25.8601, 22.2525, 15.6757, 9.3179, 2.1151];

#[test]
fn soil_follows_a_measured_series() {
    let soil = day::month_means(&soil::wave(&normals::daily(&KANSAS_AIR), 0.05, soil::COVER));
    for (mine, theirs) in soil.into_iter().zip(KANSAS_SOIL) {
        close(mine, theirs, 1e-3);
    }
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

/// US Climate Reference Network, Manhattan 6 SSW, Kansas: daily air and soil at 5 cm, 2009-2017, tenths of a degree.
#[test]
fn daily_soil_follows_a_measured_series_within_two_degrees() {
    let Some(path) = reference("climate/data/uscrn_manhattan_ks_soil.csv") else { return };
    let text = std::fs::read_to_string(path).unwrap();
    let rows: Vec<Vec<Option<f64>>> = text
        .lines()
        .skip(1)
        .map(|l| l.split(',').skip(1).map(|v| v.parse::<f64>().ok().map(|t| t / 10.0)).collect())
        .collect();
    let air: Vec<Option<f64>> = rows.iter().map(|r| r[0].zip(r[1]).map(|(a, b)| a.midpoint(b))).collect();
    let soil = soil::follow(&air, 26.0);
    let misses = |mine: &dyn Fn(usize) -> Option<f64>| {
        let all: Vec<f64> = (30..rows.len()).filter_map(|i| Some(mine(i)? - rows[i][2]?)).collect();
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        (all.iter().map(|m| (m - mean).powi(2)).sum::<f64>() / all.len() as f64).sqrt()
    };
    let (filtered, plain) = (misses(&|i| Some(soil[i])), misses(&|i| air[i]));
    println!("soil at 5 cm day by day: SD {filtered:.2} C, air of the day {plain:.2} C");
    assert!(filtered < 2.1 && plain > 3.5, "{filtered} {plain}");
}

#[test]
fn daily_soil_closes_on_steady_air_and_keeps_through_gaps() {
    let soil = soil::follow(&[Some(20.0); 40], 5.0);
    assert!(soil.windows(2).all(|w| w[1] >= w[0]));
    close(soil[39], 20.0 + soil::COVER, 0.01);
    // Four days take up 63 % of the change.
    close((soil[3] - 5.0) / (20.0 + soil::COVER - 5.0), 0.632, 0.001);
    assert_eq!(soil::follow(&[None, None], 7.0), vec![7.0, 7.0]);
}
