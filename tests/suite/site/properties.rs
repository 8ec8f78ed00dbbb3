//! What holds for any place and any figures.

use catchcrop::calendar::{ClimateDay, Date, MonthDay};
use catchcrop::cli::say::{site_json, site_text};
use catchcrop::growth::Risk;
use catchcrop::site::degree::{self, Response};
use catchcrop::site::frost::FrostCurves;
use catchcrop::site::shade::{Block, Spot, SunPaths};
use catchcrop::site::{Normals, SiteSpec, SiteYear, chance, radiation, soil, station, sun};
use catchcrop::units::{Degrees, Length, LengthUnit, Measure, TempUnit, Temperature};
use proptest::prelude::*;
use std::fmt::Write as _;

fn quick(cases: u32) -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(cases) }
}

/// Any finite number, mostly of a believable size.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![4 => -60.0..60.0, 1 => -1e4..1e4, 1 => proptest::num::f64::NORMAL | proptest::num::f64::ZERO]
}

fn any_months() -> impl Strategy<Value = [f64; 12]> {
    prop_oneof![
        // A yearly wave.
        6 => (-30.0..28.0, 0.0..25.0, 0.0..12.0).prop_map(|(mean, swing, peak): (f64, f64, f64)| {
            std::array::from_fn(|m| mean + swing * ((m as f64 - peak) / 12.0 * std::f64::consts::TAU).cos())
        }),
        1 => proptest::array::uniform12(any_number()),
    ]
}

fn any_day() -> impl Strategy<Value = MonthDay> {
    (1_u8..=12, 1_u8..=31).prop_filter_map("no such day", |(m, d)| MonthDay::new(m, d))
}

fn any_spec() -> impl Strategy<Value = SiteSpec> {
    let normals = (any_months(), 0.0..25.0, proptest::array::uniform12(0.0..400.0_f64))
        .prop_map(|(tmin, range, rain)| Normals { tmax: tmin.map(|t| t + range), tmin, rain });
    let place = (-90.0..=90.0_f64, -180.0..=180.0_f64);
    let heights = (proptest::option::of(-500.0..7000.0_f64), proptest::option::of(-400.0..5000.0_f64));
    let nights = (
        proptest::option::of(proptest::array::uniform12(0.0..28.0_f64)),
        proptest::option::of(-60.0..20.0_f64),
        proptest::option::of(-5.0..9.0_f64),
        proptest::option::of(-9.0..9.0_f64),
    );
    let dates = (proptest::option::of(any_day()), proptest::option::of(any_day()));
    (place, proptest::option::weighted(0.85, normals), heights, nights, dates).prop_map(
        |((lat, lon), normals, (height, record), (frost_days, zone, pocket, soil), (last, first))| {
            let metres = |m: f64| Length::new(m, LengthUnit::M);
            SiteSpec {
                name: "any".into(),
                lat,
                lon,
                normals,
                elevation: height.map(metres),
                record_elevation: record.map(metres),
                frost_days,
                zone_min: zone.map(|t| Temperature::new(t, TempUnit::C)),
                cold_pocket: pocket.map(|t| Degrees::new(t, TempUnit::C)),
                soil_offset: soil.map(|t| Degrees::new(t, TempUnit::C)),
                last_frost: last,
                first_frost: first,
                ..SiteSpec::default()
            }
        },
    )
}

/// Chances lie between 0 and 1, fall towards the warmest day in spring and rise after it.
fn check_curves(curves: &FrostCurves) -> Result<(), TestCaseError> {
    let peak = curves.peak();
    let (mut later, mut before) = (1.0 + 1e-9, -1e-9);
    for step in 0..=182_i64 {
        let (spring, autumn) = (peak.plus(step - 182), peak.plus(step));
        prop_assert!((0.0..=1.0).contains(&curves.on(spring)));
        prop_assert!(curves.later(spring) <= later + 1e-9 && curves.later(spring) >= 0.0);
        later = curves.later(spring);
        prop_assert!(curves.before(autumn) >= before - 1e-9 && curves.before(autumn) <= 1.0 + 1e-9);
        before = curves.before(autumn);
    }
    Ok(())
}

proptest! {
    #![proptest_config(quick(40))]

    #[test]
    fn any_site_is_computed_or_refused(spec in any_spec(), threshold in any_number()) {
        if let Ok(year) = SiteYear::new(&spec) {
            for curve in [&year.tmax, &year.tmin, &year.soil, &year.et0, &year.ra, &year.daylength, &year.rain] {
                prop_assert!(curve.iter().all(|v| v.is_finite()));
            }
            prop_assert!(year.et0.iter().chain(&year.ra).chain(&year.rain).all(|v| *v >= 0.0));
            prop_assert!(year.daylength.iter().all(|h| (0.0..=24.0).contains(h)));
            check_curves(&year.frost(threshold))?;
            check_curves(&year.frost_plain(0.0))?;
            let text = site_text(&year, Measure::Us, Risk::Usual);
            prop_assert!(text.lines().all(|line| line.chars().count() <= 80), "{}", text);
            prop_assert!(serde_json::to_string(&site_json(&year)).is_ok());
        }
    }

    #[test]
    fn a_colder_threshold_is_never_likelier(
        id in proptest::sample::select(vec!["new-york", "ottawa", "las-cruces-nm", "christchurch", "kamloops"]),
        warm in -8.0..6.0_f64,
        less in 0.1..6.0_f64,
    ) {
        let year = SiteYear::preset(id).unwrap();
        let (warm, cold) = (year.frost(warm), year.frost(warm - less));
        for day in 0..365 {
            let day = ClimateDay::new(day);
            prop_assert!(cold.later(day) <= warm.later(day) + 1e-6);
            prop_assert!(cold.before(day) <= warm.before(day) + 1e-6);
            prop_assert!(cold.on(day) <= warm.on(day) + 1e-12);
        }
    }

    #[test]
    fn a_larger_need_is_never_likelier_met(start in 0_i64..365, need in 100.0..1500.0_f64, more in 1.0..400.0_f64) {
        let year = SiteYear::preset("toronto").unwrap();
        let (rate, frost) = (year.rates(Response::WARM), year.frost(-1.0));
        let chance = |need| chance::ripe_before_frost(&rate, ClimateDay::new(start), need, &frost, year.sd);
        prop_assert!((0.0..=1.0).contains(&chance(need)));
        prop_assert!(chance(need + more) <= chance(need) + 1e-6);
    }
}

proptest! {
    #![proptest_config(quick(256))]

    #[test]
    fn numbers_of_any_size_break_nothing(a in any_number(), b in any_number(), c in any_number(), n in 0_i64..4000) {
        let _ = (radiation::extraterrestrial(a, b), radiation::hargreaves(a, b, c), radiation::daylight(a, b));
        let response = Response { base: a, ceiling: degree::Ceiling::Fall(b) };
        let _ = (response.expected(b, c, a), degree::extremes_held(a, b, c, a), degree::average_held(a, b, c, a));
        let _ = soil::wave(&[a; 365], b, c);
        let day = Date::from_ymd_opt(1800, 1, 1).unwrap() + chrono::TimeDelta::days(n * 40);
        let hours = sun::daylength(a, b, day, sun::RISE);
        prop_assert!((0.0..=24.0).contains(&hours));
        let _ = sun::position(a, 200, b);
        let block = Block::planting((a, b), (b, c), c, Some((ClimateDay::new(n), ClimateDay::new(n * 7))));
        let hours = SunPaths::new(a.clamp(-90.0, 90.0), b).hours(Spot { x: c, y: a, z: b }, &[block]);
        prop_assert!(hours.iter().all(|h| (0.0..=24.0).contains(h)));
    }

    #[test]
    fn warmer_days_never_give_a_warm_crop_less(low in -10.0..25.0_f64, range in 0.0..20.0_f64, more in 0.0..10.0_f64) {
        let rate = |t: f64| Response::WARM.expected(low + t, low + range + t, 3.7);
        prop_assert!(rate(more) >= rate(0.0) - 1e-9);
    }

    #[test]
    fn any_bytes_read_or_are_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        drop(station::read(&bytes));
    }

    #[test]
    fn damaged_files_read_or_say_the_line(
        at in 0_usize..900,
        with in "[-0-9,\"A-Z \\n]{0,6}",
        long in any::<bool>(),
    ) {
        let mut text = if long { String::new() } else { "DATE,TMAX,TMIN,PRCP\n".to_owned() };
        for day in 1..=28 {
            let high = 150 + day;
            if long {
                writeln!(text, "XX1,199102{day:02},TMAX,{high},,,7,\nXX1,199102{day:02},TMIN,-{day},,,7,").unwrap();
            } else {
                writeln!(text, "1991-02-{day:02},{high},-{day},0").unwrap();
            }
        }
        let at = at.min(text.len());
        text.insert_str(at, &with);
        if let Err(error) = station::read(text.as_bytes()) {
            let words = error.to_string();
            prop_assert!(words.starts_with("line ") || words.contains("TMAX"), "{}", words);
        }
    }
}
