//! What a garden learns about its own days to maturity.

use super::{crop, date, site_of};
use catchcrop::calendar::{days_between, plus};
use catchcrop::crop::{Crop, Start};
use catchcrop::garden::{Block, Layer, PlaceId};
use catchcrop::growth::{Conditions, Dates, OwnDays, outlook};
use catchcrop::plan::{Plan, Planting, PlantingId, Settings, Why};
use catchcrop::site::SiteSpec;
use catchcrop::store::book;

#[test]
fn few_seasons_stay_near_the_catalogue_and_many_are_believed() {
    let of = |seen: &[(i32, f64)]| OwnDays::new(60.0, seen).unwrap();
    let seasons = |n: i32| (0..n).map(|s| (2020 + s, 75.0)).collect::<Vec<_>>();
    assert!(of(&seasons(1)).days > 60.0 && of(&seasons(1)).days < 69.0);
    assert!(of(&seasons(10)).days > 71.0 && of(&seasons(10)).days < 75.0);
    let closer: Vec<f64> = (1..12).map(|n| of(&seasons(n)).days).collect();
    assert!(closer.windows(2).all(|d| d[0] < d[1]), "{closer:?}");
    // Four plantings of one season share its weather: they weigh as much as one.
    let four = of(&[(2026, 73.0), (2026, 77.0), (2026, 74.0), (2026, 76.0)]);
    assert_eq!((four.seasons, four.plantings), (1, 4));
    assert!((four.days - of(&seasons(1)).days).abs() < 1e-9);
    // A slip of the pen is not believed.
    assert!(OwnDays::new(60.0, &[(2026, 600.0)]).is_none());
    assert!(OwnDays::new(60.0, &[(2026, f64::NAN)]).is_none());
    assert_eq!(of(&[(2026, 66.0), (2027, 600.0)]).seasons, 1);
    assert_eq!(of(&seasons(3)).words(), "in this garden: 71 days (3 seasons), book 60");
    assert_eq!(of(&seasons(1)).words(), "in this garden: 67 days (1 season), book 60");
}

/// Plants of a crop in a garden at New York, a season each, picked as `like` is ripe there.
pub(crate) fn seasons_of(crop: &Crop, like: &Crop, seasons: i32) -> Plan {
    let year = site_of("new-york");
    let plain = Conditions::new(&year);
    let mut plan = Plan::new("learning", SiteSpec::from_preset("new-york").unwrap(), Settings::default());
    plan.places.push(crate::plans::bed("box-1", 4.0, 4.0));
    for season in 0..seasons {
        let sown = date(2025 + season, 135 + i64::from(season) * 4);
        let real = outlook(like, &plain, Start::InPlace, sown).schedule.unwrap().dates.first_pick;
        let real = Dates { sown: Some(sown), first_pick: real, ..Dates::default() };
        plan.plantings.push(planting(crop, u32::try_from(season).unwrap() + 1, real));
    }
    plan
}

fn planting(crop: &Crop, id: u32, real: Dates) -> Planting {
    Planting {
        id: PlantingId(id),
        crop: crop.id.clone(),
        name: crop.name.clone(),
        botanical: crop.botanical.clone(),
        family: crop.family.clone(),
        place: PlaceId::new("box-1"),
        block: Block::cell(0, 0),
        layer: Layer::Main,
        start: Start::InPlace,
        plants: 4,
        planned: Dates::default(),
        shift: None,
        real,
        fixed: false,
        why: Why::Hand,
        failed: None,
        note: String::new(),
    }
}

/// Beans a fifth slower than the packet.
pub(crate) fn slow_bean() -> (Crop, Crop) {
    let bean = crop("bean");
    let mut slow = bean.clone();
    slow.days.min = slow.days.min * 6 / 5;
    slow.days.max = slow.days.max * 6 / 5;
    (bean, slow)
}

/// A garden whose beans are always a fifth slower than the packet: its own days rise, and its forecasts with them.
#[test]
fn a_garden_learns_from_its_diary() {
    let year = site_of("new-york");
    let (bean, slow) = slow_bean();
    let on = date(2030, 140);
    let before = outlook(&bean, &Conditions::new(&year), Start::InPlace, on).schedule.unwrap();
    let plan = seasons_of(&bean, &slow, 5);
    let own = plan.own_days(book(), &year)[&bean.id];
    println!("{}", own.words());
    assert_eq!((own.seasons, own.plantings), (5, 5));
    assert!((own.seen - slow.days.usual()).abs() < 2.0, "{own:?}");
    assert!(own.days > bean.days.usual() + 4.0 && own.days < own.seen);
    let after = outlook(&bean, &plan.conditions(book(), &year), Start::InPlace, on).schedule.unwrap();
    let moved = days_between(before.dates.first_pick.unwrap(), after.dates.first_pick.unwrap());
    assert!((3..=10).contains(&moved), "{moved}");
    assert!(after.dates.first_pick.unwrap() > plus(on, 40));
}

/// No room but `growth` and `plan` makes up conditions of its own, so that what a garden has learnt reaches every
/// screen, sheet, command, finding and proposal; a bare climate asked for on the command line has no garden.
#[test]
fn every_room_reckons_with_the_garden_s_own_days() {
    fn walk(folder: &std::path::Path, seen: &mut Vec<std::path::PathBuf>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                walk(&path, seen);
            } else if std::fs::read_to_string(&path).is_ok_and(|text| text.contains("Conditions::new(")) {
                seen.push(path);
            }
        }
    }
    let src = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut seen = Vec::new();
    walk(&src, &mut seen);
    for path in &seen {
        let inside = path.strip_prefix(&src).unwrap();
        assert!(
            inside.starts_with("growth") || inside.ends_with("learnt.rs") || inside.ends_with("grow.rs"),
            "{} makes its own conditions: take those of the plan",
            inside.display()
        );
    }
    assert!(seen.iter().any(|p| p.ends_with("learnt.rs")));
}
