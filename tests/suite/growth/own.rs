//! What a garden learns about its own days to maturity.

use super::{crop, date, site_of};
use catchcrop::calendar::{days_between, plus};
use catchcrop::crop::Start;
use catchcrop::garden::{Block, Layer, PlaceId};
use catchcrop::growth::{Conditions, Dates, OwnDays, outlook};
use catchcrop::plan::{Plan, Planting, PlantingId, Settings, Why};
use catchcrop::site::SiteSpec;
use catchcrop::store::book;

#[test]
fn few_seasons_stay_near_the_catalogue_and_many_are_believed() {
    let of = |seen: &[f64]| OwnDays::new(60.0, seen).unwrap().days;
    assert!(of(&[75.0]) > 60.0 && of(&[75.0]) < 69.0);
    assert!(of(&[75.0; 10]) > 71.0 && of(&[75.0; 10]) < 75.0);
    let closer: Vec<f64> = (1..12).map(|n| of(&vec![75.0; n])).collect();
    assert!(closer.windows(2).all(|d| d[0] < d[1]), "{closer:?}");
    // A slip of the pen is not believed.
    assert!(OwnDays::new(60.0, &[600.0]).is_none());
    assert!(OwnDays::new(60.0, &[f64::NAN]).is_none());
    assert_eq!(OwnDays::new(60.0, &[66.0, 600.0]).unwrap().count, 1);
}

/// A garden whose beans are always a fifth slower than the packet: its own days rise, and its forecasts with them.
#[test]
fn a_garden_learns_from_its_diary() {
    let year = site_of("new-york");
    let bean = crop("bean");
    let mut slow = bean.clone();
    slow.days.min = slow.days.min * 6 / 5;
    slow.days.max = slow.days.max * 6 / 5;
    let plain = Conditions::new(&year);
    let mut plan = Plan::new("learning", SiteSpec::from_preset("new-york").unwrap(), Settings::default());
    let on = date(2030, 140);
    let before = outlook(&bean, &plan.conditions(book(), &year), Start::InPlace, on).schedule.unwrap();
    for season in 0..5 {
        let sown = date(2025 + season, 135 + i64::from(season) * 4);
        let real = outlook(&slow, &plain, Start::InPlace, sown).schedule.unwrap().dates.first_pick;
        plan.plantings.push(Planting {
            id: PlantingId(u32::try_from(season).unwrap() + 1),
            crop: bean.id.clone(),
            name: bean.name.clone(),
            botanical: bean.botanical.clone(),
            family: bean.family.clone(),
            place: PlaceId::new("box-1"),
            block: Block::cell(0, 0),
            layer: Layer::Main,
            start: Start::InPlace,
            plants: 4,
            planned: Dates::default(),
            real: Dates { sown: Some(sown), first_pick: real, ..Dates::default() },
            fixed: false,
            why: Why::Hand,
            failed: None,
            note: String::new(),
        });
    }
    let own = plan.own_days(book(), &year)[&bean.id];
    println!("{}", own.words());
    assert_eq!(own.count, 5);
    assert!((own.seen - slow.days.usual()).abs() < 2.0, "{own:?}");
    assert!(own.days > bean.days.usual() + 4.0 && own.days < own.seen);
    let after = outlook(&bean, &plan.conditions(book(), &year), Start::InPlace, on).schedule.unwrap();
    let moved = days_between(before.dates.first_pick.unwrap(), after.dates.first_pick.unwrap());
    assert!((3..=10).contains(&moved), "{moved}");
    assert!(after.dates.first_pick.unwrap() > plus(on, 40));
}
