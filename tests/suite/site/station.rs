//! Daily station files.

use super::{close, golden, reference, twelve};
use crate::support::show;
use catchcrop::calendar::Date;
use catchcrop::site::station::{self, FileUnits, Layout, StationError};
use catchcrop::site::{Input, SiteSpec, SiteYear};
use std::fmt::Write as _;
use std::io::Write as _;

/// Minima of an invented station: a warm season whose length is known for every year.
///
/// In year `i` (0..30) the last night at or below 0 C is 1 May + i days, the first 1 October + i days, the last at
/// or below -2.2 C ten days before, the first ten days after.
fn invented(years: i32) -> Vec<(Date, f64, f64)> {
    let mut out = Vec::new();
    for i in 0..years {
        let year = 1991 + i;
        let day = |m, d| Date::from_ymd_opt(year, m, d).unwrap();
        let (last, first) = (day(5, 1) + days(i), day(10, 1) + days(i));
        let mut date = day(1, 1);
        while date <= day(12, 31) {
            let part = (date - last).num_days() as f64 / (first - last).num_days() as f64;
            let low = if date <= last - days(10) || date >= first + days(10) {
                -3.0
            } else if date <= last || date >= first {
                -1.0
            } else {
                2.5 + 12.0 * (part * std::f64::consts::PI).sin()
            };
            out.push((date, low, low + 9.0));
            date = date.succ_opt().unwrap();
        }
    }
    out
}
fn days(n: i32) -> chrono::TimeDelta {
    chrono::TimeDelta::days(i64::from(n))
}

fn wide(rows: &[(Date, f64, f64)], text: impl Fn(f64) -> String) -> String {
    let mut out = "\"STATION\",\"DATE\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\
                   \"TMIN_ATTRIBUTES\",\"PRCP\",\"PRCP_ATTRIBUTES\"\n"
        .to_owned();
    for (date, low, high) in rows {
        let (low, high) = (text(*low), text(*high));
        writeln!(out, "\"XX1\",\"{date}\",\"45.5\",\"-80.25\",\"120.0\",\"{high}\",\",,7\",\"{low}\",\",,7\",\"10\",\",,7\"")
            .unwrap();
    }
    out
}
fn tenths(t: f64) -> String {
    format!("{:.0}", t * 10.0)
}

#[test]
fn counted_dates_of_an_invented_station_are_the_known_ones() {
    let file = station::read(wide(&invented(30), tenths).as_bytes()).unwrap();
    assert_eq!((file.layout, file.units, file.flagged, file.absurd), (Layout::Wide, FileUnits::Tenths, 0, 0));
    assert_eq!((file.missing(), file.place), (0, Some((45.5, -80.25, Some(120.0)))));
    let climate = file.climate().unwrap();
    let summary = &climate.summary;
    assert_eq!((summary.first_year, summary.last_year), (1991, 2020));
    assert!((180..215).contains(&summary.peak), "{}", summary.peak);
    let midwinter = summary.peak as f64 - 182.0;
    let zero = summary.counted.iter().find(|c| c.threshold == 0.0).unwrap();
    // 1 May is day 120; Hazen's ranks of 30 years: 27.5, 15.5 and 3.5 of 0..29 days on.
    assert_eq!((zero.springs, zero.share_spring), (30, 1.0));
    for (place, on) in zero.last.iter().zip([26.5, 14.5, 2.5]) {
        close(place.unwrap() + midwinter, 120.0 + on, 1e-9);
    }
    // 1 October is day 273; the last autumn runs out of the record.
    assert_eq!(zero.autumns, 29);
    for (place, on) in zero.first.iter().zip([2.4, 14.0, 25.6]) {
        close(place.unwrap() + summary.peak as f64, 273.0 + on, 1e-9);
    }
    let hard = summary.counted.iter().find(|c| c.threshold == -2.2).unwrap();
    close(hard.last[1].unwrap(), zero.last[1].unwrap() - 10.0, 1e-9);
    close(hard.first[1].unwrap(), zero.first[1].unwrap() + 10.0, 1e-9);
    assert_eq!(climate.zone_min, Some(-3.0));

    let spec = file.apply(&SiteSpec { lat: 45.5, lon: -80.25, ..SiteSpec::default() }).unwrap();
    let year = SiteYear::new(&spec).unwrap();
    assert_eq!(year.trust.weaker(), Input::Counted);
    let curves = year.frost_plain(0.0);
    let text = |day: Option<catchcrop::calendar::ClimateDay>| day.unwrap().month_day().to_string();
    assert_eq!(text(curves.last.five_in_10), "05-16");
    assert_eq!(text(curves.first.five_in_10), "10-15");
    // The whole curve meets the counted dates, not only the three shown.
    close(curves.last_place(0.1).unwrap(), zero.last[0].unwrap(), 0.5);
    close(curves.last_place(0.9).unwrap(), zero.last[2].unwrap(), 0.5);
    // Between two counted thresholds the dates lie between theirs.
    let between = year.frost_plain(-1.1).last_place(0.5).unwrap();
    assert!(between < zero.last[1].unwrap() && between > hard.last[1].unwrap(), "{between}");
}

#[test]
fn every_layout_and_unit_reads_the_same() {
    let rows = invented(16);
    let base = station::read(wide(&rows, tenths).as_bytes()).unwrap();
    let fahrenheit = station::read(wide(&rows, |t| format!("{:.2}", t * 1.8 + 32.0)).as_bytes()).unwrap();
    assert_eq!(fahrenheit.units, FileUnits::Us);
    let celsius = station::read(wide(&rows, |t| format!("{t:.1}")).as_bytes()).unwrap();
    assert_eq!(celsius.units, FileUnits::Metric);
    let mut long = String::new();
    let mut months: std::collections::BTreeMap<(String, &str), Vec<String>> =
        std::collections::BTreeMap::new();
    for (date, low, high) in &rows {
        let compact = date.format("%Y%m%d");
        writeln!(long, "XX1,{compact},TMAX,{},,,7,0700", tenths(*high)).unwrap();
        writeln!(long, "XX1,{compact},TMIN,{},,,7,0700", tenths(*low)).unwrap();
        writeln!(long, "XX1,{compact},SNOW,0,,,7,").unwrap();
        for (element, value) in [("TMAX", high), ("TMIN", low)] {
            let month = months.entry((date.format("%Y%m").to_string(), element)).or_default();
            month.push(format!("{:>5}  7", tenths(*value)) + " ");
        }
    }
    let long = station::read(long.as_bytes()).unwrap();
    assert_eq!(long.layout, Layout::Long);
    let fixed: String = months.iter().fold(String::new(), |all, ((month, element), days)| {
        let mut line = format!("XX100000000{month}{element}");
        for day in 0..31 {
            line += &days.get(day).map_or_else(|| "-9999   ".to_owned(), |v| v.chars().take(8).collect());
        }
        all + &line + "\n"
    });
    let fixed = station::read(fixed.as_bytes()).unwrap();
    assert_eq!(fixed.layout, Layout::Fixed);
    for other in [&fahrenheit, &celsius, &long, &fixed] {
        assert_eq!(other.days.len(), base.days.len());
        for (date, day) in &base.days {
            close(other.days[date].tmin.unwrap(), day.tmin.unwrap(), 0.06);
            close(other.days[date].tmax.unwrap(), day.tmax.unwrap(), 0.06);
        }
    }
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    packed.write_all(wide(&rows, tenths).as_bytes()).unwrap();
    assert_eq!(station::read(&packed.finish().unwrap()).unwrap(), base);
}

#[test]
fn flags_gaps_and_absurd_days_are_counted() {
    let mut text = wide(&invented(16), tenths);
    text = text.replacen("\"-30\",\",,7\"", "\"-30\",\",I,7\"", 1);
    text = text.replacen("\"1992-03-03\"", "\"1992-03-02\"", 1);
    let crossed = "\"XX1\",\"1992-03-04\",\"45.5\",\"-80.25\",\"120.0\",\"-50\",\",,7\",\"100\",\",,7\",\"0\",\",,7\"\n";
    text += crossed;
    let file = station::read(text.as_bytes()).unwrap();
    assert_eq!((file.flagged, file.absurd, file.missing()), (1, 1, 3));
    assert!(file.words().contains("3 days without a minimum, 1 flagged values"), "{}", file.words());
}

#[test]
fn a_short_record_is_computed_not_counted() {
    let file = station::read(wide(&invented(9), tenths).as_bytes()).unwrap();
    let year = SiteYear::new(&file.apply(&SiteSpec { lat: 45.5, ..SiteSpec::default() }).unwrap()).unwrap();
    assert_eq!(year.trust.weaker(), Input::ShortRecord);
    assert!(matches!(
        station::read(wide(&invented(1), tenths).as_bytes()).unwrap().climate(),
        Err(StationError::TooShort { .. })
    ));
}

#[test]
fn broken_files_say_where() {
    let bad = |text: &str| station::read(text.as_bytes()).unwrap_err().to_string();
    for empty in ["", "\n", " \r\n\t\n", "\u{feff}", "\u{feff}\n \n"] {
        let text = bad(empty);
        assert!(
            text.contains("no rows: fetch the station's daily record anew, or name"),
            "{empty:?}: {text}"
        );
    }
    assert!(bad("name,rank\nx,1\n").starts_with("line 1: 'name,rank' is no daily"));
    let text = bad("DATE,TMAX,TMIN\n1991-01-01,161,39\n1991-02-31,1,1\n");
    assert!(text.starts_with("line 3: '1991-02-31' is not a date"), "{text}");
    let text = bad("DATE,TMAX,TMIN\n1991-01-01,161,warm\n");
    assert!(text.starts_with("line 2: 'warm' is not a value for TMIN"), "{text}");
    let text = bad("A,19910101,TMAX,100,,,7\nB,19910101,TMAX,100,,,7\n");
    assert!(text.contains("more than one station (A, B)"), "{text}");
    assert!(matches!(station::read(&[0x1f, 0x8b, 1, 2, 3]), Err(StationError::Gzip(_))));
}

/// Blank lines and a byte order mark above the first row or between rows change nothing, and errors still name the
/// line of the file.
#[test]
fn blank_lines_are_passed_over_and_counted() {
    let wide = "DATE,TMAX,TMIN\n1991-02-01,151,-1\n";
    let long = "XX1,19910201,TMAX,151,,,7,\nXX1,19910201,TMIN,-1,,,7,\n";
    let headed = format!("STATION,DATE,ELEMENT,VALUE,M,Q,S,T\n{long}");
    let fixed = "XX100000000199102TMAX  151  7\nXX100000000199102TMIN   -1  7\n";
    for (file, bad) in [
        (wide, "1991-02-31,1,1\n"),
        (long, "XX1,19910231,TMAX,1,,,7,\n"),
        (headed.as_str(), "XX1,19910231,TMAX,1,,,7,\n"),
        (fixed, "XX100000000199113TMAX  151  7\n"),
    ] {
        let plain = station::read(file.as_bytes()).unwrap();
        assert_eq!(plain.days.len(), 1, "{file}");
        for above in ["\n", "\u{feff}", "\u{feff}\n", "\n\u{feff}", "\r\n\r\n", "  \n\t\n\n"] {
            for between in ["", "\n", "\r\n\n"] {
                let text = format!("{above}{file}{between}");
                assert_eq!(station::read(text.as_bytes()).unwrap(), plain, "{text:?}");
                let line = text.matches('\n').count() + 1;
                let error = station::read(format!("{text}{bad}").as_bytes()).unwrap_err().to_string();
                assert!(error.starts_with(&format!("line {line}: ")), "{text:?}: {error}");
            }
        }
    }
    let error = station::read(b"\n\nname,rank\nx,1\n").unwrap_err().to_string();
    assert!(error.starts_with("line 3: 'name,rank' is no daily"), "{error}");
}

/// Percentiles, seasons judged and normals of eight real daily files, 1991-2020.
#[test]
fn real_daily_files_give_the_published_percentiles() {
    let Some(data) = golden("stations.json") else { return };
    let (mut checked, mut worst) = (0, 0.0_f64);
    for row in data["stations"].as_array().unwrap() {
        let name = row["file"].as_str().unwrap();
        let Some(path) = reference(&format!("climate/data/daily/{name}")) else { continue };
        let file = station::read(&std::fs::read(path).unwrap()).unwrap();
        assert_eq!(file.units, FileUnits::Tenths, "{name}");
        let climate = file.climate().unwrap();
        for (mine, theirs) in [
            (climate.normals.tmax, twelve(&row["tmax"])),
            (climate.normals.tmin, twelve(&row["tmin"])),
            (climate.frost_days, twelve(&row["frost_days"])),
            (climate.normals.rain, twelve(&row["prcp"])),
        ] {
            for (a, b) in mine.into_iter().zip(theirs) {
                close(a, b, 1e-3);
            }
        }
        assert_eq!(climate.summary.peak as u64, row["peak_day"].as_u64().unwrap(), "{name}");
        for (threshold, frost) in row["frost"].as_object().unwrap() {
            let wanted: f64 = threshold.parse().unwrap();
            let mine = climate.summary.counted.iter().find(|c| c.threshold == wanted).unwrap();
            assert_eq!(u64::from(mine.springs), frost["n_spring"].as_u64().unwrap(), "{name} {threshold}");
            assert_eq!(u64::from(mine.autumns), frost["n_autumn"].as_u64().unwrap(), "{name} {threshold}");
            close(mine.share_spring, frost["share_with_spring_frost"].as_f64().unwrap(), 1e-4);
            for (k, p) in ["10", "50", "90"].into_iter().enumerate() {
                for (place, key) in [
                    (mine.last[k], "last_offset_from_peak_minus_182"),
                    (mine.first[k], "first_offset_from_peak"),
                ] {
                    match (place, frost[key][p].as_f64()) {
                        (Some(a), Some(b)) => {
                            worst = worst.max((a - b).abs());
                            close(a, b, 0.051);
                        }
                        (a, b) => assert_eq!(a, b, "{name} {threshold} {key} {p}"),
                    }
                    checked += 1;
                }
            }
        }
    }
    show(&[format!("daily station files, counted frost dates: {checked} percentiles, worst {worst:.2} d")]);
}

/// Dates by each kind of input against the dates counted in the same eight records: the days of error the program
/// tells its users to expect (measured over 18 to 36 stations when the methods were chosen).
#[test]
fn each_kind_of_input_errs_about_as_much_as_it_says() {
    let mut errors: std::collections::BTreeMap<Input, Vec<f64>> = std::collections::BTreeMap::new();
    for name in [
        "USC00028619",
        "USC00042319",
        "USC00051660",
        "USC00294426",
        "USC00485345",
        "daymet_ak505769",
        "daymet_ut429382",
    ] {
        let Some(path) = reference(&format!("climate/data/daily/{name}.csv")) else { return };
        let file = station::read(&std::fs::read(path).unwrap()).unwrap();
        let full = file.apply(&SiteSpec { lat: 40.0, ..SiteSpec::default() }).unwrap();
        let counted = full.station.clone().unwrap().counted;
        let zero = counted.iter().find(|c| c.threshold == 0.0).unwrap();
        let bare = SiteSpec { station: None, frost_days: None, zone_min: None, ..full.clone() };
        let mut short = full.clone();
        short.station.as_mut().unwrap().counted.clear();
        let day = |place: Option<f64>, from: i64| {
            place.map(|p| catchcrop::calendar::ClimateDay::new(from + p.round() as i64).month_day())
        };
        let peak = full.station.as_ref().unwrap().peak as i64;
        let dated = SiteSpec {
            last_frost: day(zero.last[1], peak - 182),
            first_frost: day(zero.first[1], peak),
            ..bare.clone()
        };
        let specs = [
            short,
            SiteSpec { frost_days: full.frost_days, ..bare.clone() },
            SiteSpec { zone_min: full.zone_min, ..bare.clone() },
            dated,
            bare,
        ];
        for spec in specs {
            let year = SiteYear::new(&spec).unwrap();
            let curves = year.frost_plain(0.0);
            // The peak of the normals is that of the record, so places compare.
            for (p, last, first) in [(0.1, zero.last[0], zero.first[0]), (0.5, zero.last[1], zero.first[1])] {
                for (mine, theirs) in [(curves.last_place(p), last), (curves.first_place(p), first)] {
                    if let (Some(mine), Some(theirs)) = (mine, theirs) {
                        errors.entry(year.trust.weaker()).or_default().push((mine - theirs).abs());
                    }
                }
            }
        }
    }
    let mut lines =
        vec!["frost dates by each kind of input against the dates counted in seven daily files".to_owned()];
    for (input, mut found) in errors {
        found.sort_by(f64::total_cmp);
        let mean = found.iter().sum::<f64>() / found.len() as f64;
        lines.push(format!(
            "  {input}: mean error {mean:.1} d, median {:.1}, worst {:.1}, {} dates; said {:.0}",
            found[found.len() / 2],
            found[found.len() - 1],
            found.len(),
            input.error()
        ));
        assert!(mean <= input.error() + 3.0, "{input}: {mean}");
    }
    show(&lines);
}
