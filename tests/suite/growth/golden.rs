//! Reference values computed once by a slow prototype of the methods.

use super::{crop, date, site_of};
use crate::site::{close, golden, list};
use catchcrop::crop::{Clock, CountedFrom, Germination, Maturity, Season, Start};
use catchcrop::growth::{Conditions, Sprouting, outlook, ready, succession};

#[test]
fn emergence_is_the_reference_s() {
    let Some(golden) = golden("emergence.json") else { return };
    let crops = golden["crops"].as_array().unwrap();
    for crop in crops {
        let rows = crop["table"].as_array().unwrap().iter().map(|r| (list(r)[0], list(r)[1])).collect();
        let seed = Sprouting::new(&Germination::Table(rows)).unwrap();
        close(seed.base(), crop["t0"].as_f64().unwrap(), 1e-4);
        for (temperature, days) in crop["days_at"].as_object().unwrap() {
            let mine = seed.days(temperature.parse().unwrap());
            match days.as_f64() {
                Some(days) => close(mine.unwrap(), days, 1e-3 * days.max(1.0)),
                None => assert_eq!(mine, None, "{} at {temperature}", crop["crop"]),
            }
        }
    }
    println!("germination: {} crops, base and days at four temperatures agree", crops.len());
}

#[test]
fn harvests_inverses_and_successions_are_the_reference_s() {
    let Some(golden) = golden("planning.json") else { return };
    let mut rows = 0;
    for site in golden["sites"].as_array().unwrap() {
        let year = site_of(site["id"].as_str().unwrap());
        let conditions = Conditions::new(&year);
        let sow = site["sow"].as_i64().unwrap();
        for (key, season, days) in [("cool_60d", Season::Cool, 60), ("warm_65d", Season::Warm, 65)] {
            let golden = &site[key];
            let mut plain = crop("bean");
            plain.clock = Clock::Heat { season, base: None, upper: None };
            plain.days = Maturity { min: days, max: days, from: CountedFrom::Sowing };
            plain.germination = Germination::None;
            let on = date(2026, sow);
            let pick = |on| {
                let seen = outlook(&plain, &conditions, Start::InPlace, on).schedule.unwrap();
                (seen.dates.first_pick.unwrap(), seen.needs)
            };
            let (first, need) = pick(on);
            close(need, golden["need"].as_f64().unwrap(), 1e-9);
            let after = catchcrop::calendar::days_between(on, first);
            assert_eq!(after, golden["days"].as_i64().unwrap(), "{} {key}", site["id"]);
            let back = list(&golden["inverse_of_that_harvest"]);
            let latest = ready(&plain, &conditions, Start::InPlace, first).unwrap();
            assert_eq!(latest, date(2026, back[0] as i64), "{} {key} back", site["id"]);
            // The reference's list goes on after frost: only the dates of the harvests are compared.
            for pair in golden["succession_every_10d"].as_array().unwrap().iter().skip(1) {
                let (sow, harvest) = (list(pair)[0] as i64, list(pair)[1] as i64);
                assert_eq!(
                    ready(&plain, &conditions, Start::InPlace, date(2026, harvest)).unwrap(),
                    date(2026, sow),
                    "{} {key} {pair}",
                    site["id"]
                );
                rows += 1;
            }
            rows += 2;
        }
    }
    println!("planning: {rows} harvests, inverses and successive sowings agree to the day");
    // The product's own list stops where a start is refused.
    let year = site_of("ottawa");
    let conditions = Conditions::new(&year);
    let lettuce = crop("lettuce");
    let list = succession(&lettuce, &conditions, Start::InPlace, date(2026, 119), 10, date(2026, 300));
    let picks: Vec<_> = list.iter().map(|s| s.dates.first_pick.unwrap()).collect();
    assert!(picks.len() >= 3 && picks.windows(2).all(|p| p[0] < p[1]), "{picks:?}");
    let gaps: Vec<i64> = list
        .windows(2)
        .map(|s| catchcrop::calendar::days_between(s[0].dates.sown.unwrap(), s[1].dates.sown.unwrap()))
        .collect();
    println!("ottawa lettuce every 10 days, gaps between sowings: {gaps:?}");
    let (first, last) = (gaps[0], gaps[gaps.len() - 1]);
    assert!(first > 10 && last < 10, "wider than ten days in spring, closer in autumn: {gaps:?}");
}
