//! Single published figures, each with its source.

mod autumn;

use super::zones::Fit;
use super::{crop, date, site_of};
use crate::site::close;
use crate::support::show;
use catchcrop::calendar::{ClimateDay, Date, MonthDay, day_text, days_between, plus, read_date};
use catchcrop::crop::{Clock, CountedFrom, Crop, FrostClass, Germination, Maturity, Season, Start};
use catchcrop::growth::{Conditions, Refusal, Sprouting, outlook, schedule, windows};
use catchcrop::site::{Normals, SiteSpec, SiteYear};
use catchcrop::store::book;

/// Harrington & Minges 1954, as the crop book keeps the trial: each temperature between the ends of a crop's row left
/// out and computed from the others.
#[test]
fn germination_left_one_out() {
    let mut tables: Vec<&[(f64, f64)]> = Vec::new();
    for crop in book().crops().filter(|c| c.sources("germination").iter().any(|code| code == "HM54")) {
        if let Germination::Table(rows) = &crop.germination
            && !tables.contains(&rows.as_slice())
        {
            tables.push(rows);
        }
    }
    let (mut days, mut shares) = (Vec::new(), Vec::new());
    for seen in &tables {
        for out in 1..seen.len().saturating_sub(1) {
            let mut others = seen.to_vec();
            let (t, real) = others.remove(out);
            let mine = Sprouting::new(&Germination::Table(others)).unwrap().days(t).unwrap();
            days.push(mine - real);
            shares.push((mine - real).abs() / real);
        }
    }
    shares.sort_by(f64::total_cmp);
    let median = shares[shares.len() / 2];
    let mean = days.iter().map(|d| d.abs()).sum::<f64>() / days.len() as f64;
    show(&[format!(
        "germination 1954, {} crops, one temperature left out: {} rows, median {:.1} %, mean {mean:.1} d, worst {:.0} d",
        tables.len(),
        days.len(),
        median * 100.0,
        days.iter().fold(0.0_f64, |a, d| a.max(d.abs()))
    )]);
    assert!(tables.len() == 24 && days.len() >= 85 && median <= 0.12 && mean <= 1.5);
}

/// The same trial: days at soil temperatures in Fahrenheit (checks P34, P35, P37).
#[test]
fn emergence_at_soil_temperatures() {
    let days = |id: &str, fahrenheit: f64| {
        Sprouting::new(&crop(id).germination).unwrap().days((fahrenheit - 32.0) / 1.8).unwrap()
    };
    for (id, fahrenheit, published) in [
        ("lettuce", 77.0, 2.0),
        ("carrot", 41.0, 51.0),
        ("carrot", 50.0, 17.0),
        ("carrot", 77.0, 6.0),
        ("spinach", 59.0, 7.0),
        ("spinach", 77.0, 5.0),
        ("pea", 41.0, 36.0),
        ("pea", 50.0, 14.0),
        ("bean", 59.0, 16.0),
        ("pepper", 77.0, 8.0),
    ] {
        close(days(id, fahrenheit), published, 0.01);
    }
}

/// Packet days count from setting out for these (North Dakota State University H-912; check P26).
#[test]
fn days_of_a_packet_count_from_where_it_says() {
    for id in ["tomato", "pepper", "cabbage", "cauliflower", "brussels-sprouts"] {
        assert_eq!(crop(id).days.from, CountedFrom::SettingOut, "{id}");
    }
    for id in ["bean", "carrot", "beet", "pea", "radish", "spinach", "lettuce"] {
        assert_eq!(crop(id).days.from, CountedFrom::Sowing, "{id}");
    }
}

/// A site with its frost dates replaced.
fn framed(preset: &str, last: &str, first: &str) -> SiteYear {
    let read = |d: &str| Some(d.parse::<MonthDay>().unwrap());
    let spec = SiteSpec::from_preset(preset).unwrap();
    SiteYear::new(&SiteSpec { last_frost: read(last), first_frost: read(first), ..spec }).unwrap()
}

fn dated(id: &str, days: u16, picking: u16) -> Crop {
    let mut crop = crop(id);
    crop.days = Maturity { min: days, max: days, from: crop.days.from };
    crop.picking.days = picking;
    crop
}

fn day(text: &str) -> Date {
    read_date(text).unwrap()
}

/// First and last day shorter than ten hours (solar geometry at -0.833 degrees, two days either way; P30, P31).
#[test]
fn days_under_ten_hours() {
    for (lat, from, to) in [
        (40.0, "11-16", "01-28"),
        (45.0, "11-06", "02-06"),
        (51.5, "10-28", "02-15"),
        (-41.0, "05-12", "08-02"),
        (-34.0, "06-05", "07-09"),
    ] {
        let spec = SiteSpec { lat, ..SiteSpec::from_preset("new-york").unwrap() };
        let span = SiteYear::new(&spec).unwrap().days_under(10.0).unwrap();
        let off = |day: ClimateDay, text: &str| {
            let there = text.parse::<MonthDay>().unwrap().climate_day();
            (day.index() as i64 - there.index() as i64).abs()
        };
        assert!(off(span.first, from) <= 2 && off(span.last, to) <= 2, "{lat}: {span:?}");
    }
}

/// Garlic planted on 20 October at New York is ripe late June to late July of the next year (common practice).
#[test]
fn garlic_is_ripe_the_next_july() {
    let year = site_of("new-york");
    let garlic = crop("garlic");
    let seen =
        outlook(&garlic, &Conditions::new(&year), garlic.starts[0], day("2027-10-20")).schedule.unwrap();
    let first = seen.dates.first_pick.unwrap();
    println!(
        "garlic: {} to {}, about {}",
        seen.early.first_pick.unwrap(),
        seen.late.first_pick.unwrap(),
        first
    );
    assert!(first > day("2028-06-20") && first < day("2028-07-31"));
    assert!(seen.early.first_pick.unwrap() >= day("2028-06-20"));
    assert!(seen.late.first_pick.unwrap() <= day("2028-07-31"));
    assert!(seen.dates.cleared.unwrap() < day("2028-08-15"));
    assert!(matches!(
        schedule(&garlic, &Conditions::new(&year), garlic.starts[0], day("2027-04-20")),
        Err(Refusal::Outside { .. })
    ));
}

/// Peas sown again in August where autumn is long enough (common practice), and not where frost comes too soon.
#[test]
fn peas_are_sown_again_in_late_summer_where_autumn_is_long() {
    let second = |preset: &str, id: &str| {
        let year = site_of(preset);
        let all = windows(&crop(id), &Conditions::new(&year), date(2027, 0));
        for w in &all {
            println!(
                "{preset} {id}: {} to {}, chance at last {:.2}, ready {} to {}",
                day_text(w.first),
                day_text(w.last),
                w.chance_at_last,
                day_text(w.ready_first),
                day_text(w.ready_last)
            );
        }
        all.iter().any(|w| w.last >= day("2027-07-25") && w.last <= day("2027-09-15"))
    };
    for preset in ["new-york", "toronto", "paris"] {
        assert!(second(preset, "pea"), "{preset}");
    }
    for preset in ["new-meadows-id", "edmonton"] {
        assert!(!second(preset, "pea"), "{preset}");
    }
    assert_eq!(windows(&crop("pea"), &Conditions::new(&site_of("new-york")), date(2027, 0)).len(), 2);
}

/// Peas sown in March and April at New York are picked in June and into July (common practice of the region: sown as
/// soon as the soil can be worked), and heat takes the tail of the harvest, not the whole of it.
#[test]
fn spring_peas_crop_in_june() {
    let year = site_of("new-york");
    let conditions = Conditions::new(&year);
    println!("peas sown in spring at New York: first and last picking, share of the harvest lost");
    for (id, sown, by, most) in [
        ("pea-early", "2027-03-20", "2027-06-20", 0.05),
        ("pea-early", "2027-04-10", "2027-06-30", 0.25),
        ("pea", "2027-03-20", "2027-06-30", 0.25),
        ("pea", "2027-03-29", "2027-06-30", 0.35),
        ("pea-snow", "2027-03-29", "2027-06-30", 0.35),
    ] {
        let seen = outlook(&crop(id), &conditions, Start::InPlace, day(sown));
        let s = seen.schedule.unwrap();
        let (first, last) = (s.dates.first_pick.unwrap(), s.dates.last_pick.unwrap());
        println!(
            "  {id:<10} sown {sown}: {first} to {last}, {:.0} % lost, {}",
            s.lost * 100.0,
            s.ended_by.words()
        );
        assert!(first > day("2027-05-31") && first <= day(by), "{id} {sown}: {first}");
        assert!(s.lost <= most, "{id} {sown}: {}", s.lost);
        assert!(seen.against.is_empty(), "{id} {sown}: {:?}", seen.against);
    }
    // Sown in May they meet the hot month before they are picked.
    let late = outlook(&crop("pea"), &conditions, Start::InPlace, day("2027-05-15"));
    assert!(late.against.iter().any(|r| matches!(r, Refusal::Heat { .. })), "{:?}", late.against);
}

/// Iceberg lettuce in three regions of California: 70 to 80 days in midsummer, up to 130 in late autumn sowings
/// (University of California's production guide). The normals and the ends of the seasons are from memory.
#[test]
fn lettuce_seasons_of_california() {
    let place = |name: &str, lat: f64, tmax: [f64; 12], tmin: [f64; 12]| {
        SiteYear::new(&SiteSpec {
            name: name.to_owned(),
            lat,
            lon: -120.0,
            normals: Some(Normals { tmax, tmin, rain: [20.0; 12] }),
            source: "from memory".to_owned(),
            ..SiteSpec::default()
        })
        .unwrap()
    };
    let salinas = place(
        "Salinas",
        36.7,
        [17.0, 17.3, 18.0, 19.0, 19.6, 20.7, 21.3, 22.0, 23.0, 22.2, 19.6, 17.0],
        [4.6, 5.6, 6.5, 7.1, 9.1, 10.6, 12.0, 12.4, 11.6, 9.3, 6.5, 4.3],
    );
    let fresno = place(
        "Fresno",
        36.8,
        [12.6, 16.2, 19.6, 23.4, 28.4, 33.1, 36.6, 35.7, 32.4, 26.1, 18.2, 12.6],
        [3.7, 5.5, 7.6, 9.8, 14.0, 17.6, 20.8, 20.0, 17.2, 12.2, 6.9, 3.5],
    );
    let el_centro = place(
        "El Centro",
        32.8,
        [21.4, 23.6, 27.0, 30.4, 35.0, 39.8, 41.9, 41.5, 38.8, 32.6, 25.9, 20.8],
        [5.5, 7.4, 10.0, 12.7, 16.8, 20.6, 24.9, 25.3, 21.9, 15.6, 9.4, 5.3],
    );
    // Calibrated on Salinas in midsummer: 75 days from sowing on 1 June.
    let mut lettuce = crop("lettuce-head");
    lettuce.clock = Clock::Heat { season: Season::Cool, base: None, upper: None };
    let days = |crop: &Crop, year: &SiteYear, on: &str| {
        outlook(crop, &Conditions::new(year), Start::InPlace, day(on)).schedule.unwrap().days
    };
    let packet =
        (40..120).min_by_key(|d| (days(&dated_as(&lettuce, *d), &salinas, "2027-06-01") - 75).abs()).unwrap();
    lettuce = dated_as(&lettuce, packet);
    let seasons = [
        ("Salinas, first", &salinas, "2026-12-28", 98),
        ("Salinas, last", &salinas, "2027-08-15", 82),
        ("San Joaquin, autumn", &fresno, "2027-08-15", 80),
        ("San Joaquin, spring first", &fresno, "2027-11-05", 140),
        ("San Joaquin, spring last", &fresno, "2027-12-31", 115),
        ("desert, first", &el_centro, "2027-09-15", 77),
        ("desert, middle", &el_centro, "2027-10-15", 95),
        ("desert, last", &el_centro, "2027-11-15", 130),
    ];
    let mut errors = Vec::new();
    let mut lines =
        vec![format!("lettuce seasons of California, normals from memory, packet of {packet} days at 18 C")];
    for (what, year, on, published) in seasons {
        let mine = days(&lettuce, year, on);
        lines.push(format!("  {what:<26} {on} {published} d published, {mine} d here"));
        errors.push((mine - published) as f64);
    }
    let mean = errors.iter().map(|e| e.abs()).sum::<f64>() / errors.len() as f64;
    let flat = seasons.iter().map(|s| (75 - s.3).abs() as f64).sum::<f64>() / seasons.len() as f64;
    lines.push(Fit::of(&errors).line("  in all"));
    lines.push(format!("  mean error {mean:.1} d; counting 75 days always: {flat:.1} d"));
    show(&lines);
    assert!(mean < 15.0 && mean < 0.6 * flat);
}

fn dated_as(crop: &Crop, days: u16) -> Crop {
    let mut crop = crop.clone();
    crop.days = Maturity { min: days, max: days, from: CountedFrom::Sowing };
    crop
}

/// Heat units of peas, base 40 F: the earliest varieties begin to flower before 675 and flower fully at 775
/// (University of Delaware Weekly Crop Update 2012; check P18), and are picked at about 1250 (base temperature tables).
#[test]
fn early_peas_flower_and_ripen_at_their_heat_units() {
    let year = site_of("new-york");
    let pea = crop("pea-early");
    let s = outlook(&pea, &Conditions::new(&year), Start::InPlace, day("2027-03-25")).schedule.unwrap();
    let units = s.needs * 1.8;
    println!("early pea: {units:.0} heat units F to the first picking, half of them {:.0}", units / 2.0);
    assert!((1150.0..=1400.0).contains(&units));
    // Fruit takes half of the days, so flowers open at half of the heat.
    assert!((600.0..=775.0).contains(&(units / 2.0)));
}

/// The same sowing of 25 February had 306 units by late March of a warm year and 181 in the year before (check P19):
/// a difference of days that real weather makes, within what Marches differ by.
#[test]
fn one_sowing_date_two_springs() {
    let year = site_of("new-york");
    let units = |warmer: f64| -> f64 {
        (55..86)
            .map(|d| {
                let (low, high) = (year.tmin[d] + warmer, year.tmax[d] + warmer);
                catchcrop::site::degree::average_held(
                    low,
                    high,
                    40.0_f64.mul_add(5.0 / 9.0, -160.0 / 9.0),
                    50.0,
                ) * 1.8
            })
            .sum()
    };
    let reach = |wanted: f64| (-80..160).map(|t| f64::from(t) / 10.0).find(|t| units(*t) >= wanted).unwrap();
    let (cold, warm) = (reach(181.0), reach(306.0));
    println!("peas of 25 February: 181 units at {cold:+.1} C, 306 at {warm:+.1} C against the normal March");
    assert!((306.0_f64 / 181.0 - 1.69).abs() < 0.01);
    assert!((1.0..4.0).contains(&(warm - cold)));
}

/// Heat between two sowings for so many days of supply (check P14): seven days at 24 units a day of harvest are 168
/// units, waited for in the time of sowing; the successive starts of `succession` keep that gap of harvest.
#[test]
fn sowings_wait_for_the_heat_of_the_harvest() {
    let year = site_of("ottawa");
    let conditions = Conditions::new(&year);
    let corn = dated("corn", 80, 7);
    let starts = catchcrop::growth::succession(
        &corn,
        &conditions,
        Start::InPlace,
        day("2027-05-25"),
        7,
        day("2027-09-05"),
    );
    assert!(starts.len() >= 2);
    let rate = |on: Date| {
        catchcrop::site::degree::Response::WARM.expected(
            year.tmin[ClimateDay::of(on).index()],
            year.tmax[ClimateDay::of(on).index()],
            year.sd,
        )
    };
    let heat = |from: Date, to: Date| (0..days_between(from, to)).map(|n| rate(plus(from, n))).sum::<f64>();
    for pair in starts.windows(2) {
        let (sown, next) = (pair[0].dates.sown.unwrap(), pair[1].dates.sown.unwrap());
        let (first, second) = (pair[0].dates.first_pick.unwrap(), pair[1].dates.first_pick.unwrap());
        assert_eq!(days_between(first, second), 7);
        let (waited, harvest) = (heat(sown, next), heat(first, second));
        println!("corn {sown}, {next}: {waited:.0} units waited for {harvest:.0} at harvest");
        assert!((waited - harvest).abs() <= 18.0);
    }
}

/// Plants hardly grow in days under ten hours (Oregon State University column 2018; check P33): at 45 N a day of
/// 21 January has 9.3 hours, and what grows through such days says so.
#[test]
fn short_days_of_january() {
    let spec = SiteSpec { lat: 45.0, ..SiteSpec::from_preset("new-york").unwrap() };
    let year = SiteYear::new(&spec).unwrap();
    close(year.daylength[20], 9.3, 0.1);
    let kale = outlook(&crop("kale"), &Conditions::new(&year), Start::InPlace, day("2027-09-20"));
    assert!(kale.schedule.unwrap().low_light);
}

/// Frost classes of the lists: killed by a light frost, standing light frost, standing hard frost.
#[test]
fn tender_crops_die_first() {
    let kills = |id: &str| crop(id).frost.foliage.celsius();
    assert!(crop("bean").frost.class == FrostClass::Tender);
    assert!(kills("bean") > kills("carrot") && kills("carrot") > kills("kale"));
    let year = site_of("new-york");
    let conditions = Conditions::new(&year);
    // Late peas: the foliage lives on, blossoms and pods freeze first.
    let late = outlook(&crop("pea"), &conditions, Start::InPlace, day("2027-08-25")).schedule.unwrap();
    let pea = crop("pea");
    assert!(pea.frost.harvest.celsius() > pea.frost.foliage.celsius());
    assert_eq!(late.ended_by, catchcrop::growth::Ending::Frost);
    assert!(late.lost > 0.3, "{}", late.lost);
}
