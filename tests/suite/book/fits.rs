//! What of the book fits a spot, in its light, from a week on, in so many weeks.

use crate::support::example;
use catchcrop::calendar::Date;
use catchcrop::crop::{CautionKind, Part, Use, Wanted};
use catchcrop::garden::{PlaceId, Tag};
use catchcrop::growth::{Conditions, Free};
use catchcrop::plan::Plan;
use catchcrop::site::SiteYear;
use catchcrop::store::book;
use catchcrop::work::{Fitting, fitting};

fn day(text: &str) -> Date {
    text.parse().unwrap()
}

/// What fits a place of a garden; whatever light there is if none is given.
fn fits(plan: &Plan, place: &str, sun: Option<f32>, free: Free) -> Vec<Fitting<'static>> {
    let year = SiteYear::new(&plan.site).unwrap();
    let place = plan.place(&PlaceId::new(place)).unwrap();
    let wanted = Wanted { sun, ..place.offers(None) };
    fitting(book(), &wanted, Some(place), free, |_| Conditions::new(&year))
}

fn ids<'a>(found: &'a [Fitting<'_>]) -> Vec<&'a str> {
    found.iter().map(|f| f.crop.id.as_str()).collect()
}

#[test]
fn in_six_weeks_of_summer_only_what_is_quick() {
    let plan = example("courtyard");
    let free = Free { today: day("2027-06-01"), from: day("2027-06-01"), weeks: Some(6) };
    let found = fits(&plan, "box-3", None, free);
    let names = ids(&found);
    assert!(names.contains(&"radish") && names.contains(&"lettuce-baby"), "{names:?}");
    for slow in ["carrot", "tomato", "parsnip", "garlic", "cabbage-storage", "rhubarb", "strawberry", "thyme"]
    {
        assert!(!names.contains(&slow), "{slow} in six weeks");
    }
    for fit in &found {
        let (begins, dates) = (fit.schedule.begins().unwrap(), fit.schedule.dates);
        let ripe = dates.first_pick.unwrap();
        assert!(begins >= free.from && ripe <= free.until().unwrap(), "{}: {begins} {ripe}", fit.crop.id);
        assert!(dates.sown.is_none_or(|sown| sown >= free.today), "{}: sown before today", fit.crop.id);
    }
    let order: Vec<_> = found.iter().map(|f| (f.schedule.begins(), f.schedule.dates.first_pick)).collect();
    assert!(order.is_sorted());
    let radish = found.iter().find(|f| f.crop.id.as_str() == "radish").unwrap();
    insta::assert_snapshot!(radish.words(free), @"sown 1 Jun, picked 2 Jul to 10 Jul");
}

#[test]
fn more_weeks_and_seedlings_in_time_let_more_in() {
    let plan = example("courtyard");
    let free = |today: &str, weeks| Free { today: day(today), from: day("2027-06-01"), weeks };
    let short = fits(&plan, "box-3", None, free("2027-06-01", Some(6))).len();
    let long = fits(&plan, "box-3", None, free("2027-06-01", Some(16)));
    let early = fits(&plan, "box-3", None, free("2027-03-01", Some(16)));
    assert!(short < long.len() && long.len() <= early.len(), "{short} {} {}", long.len(), early.len());
    // Of seedlings that must first be sown the ground waits; with time to raise them it takes them at once.
    let broccoli = |found: &[Fitting<'_>]| {
        found.iter().find(|f| f.crop.id.as_str() == "lettuce").and_then(|f| f.schedule.begins()).unwrap()
    };
    assert!(broccoli(&early) <= broccoli(&long));
    // Without an end what stands for years is among them too.
    let endless = fits(&plan, "box-3", None, free("2027-06-01", None));
    let thyme = endless.iter().find(|f| f.crop.id.as_str() == "thyme").unwrap();
    assert!(thyme.words(free("2027-06-01", None)).ends_with("stands for years"));
    assert!(endless.iter().all(|f| f.schedule.begins() == Some(day("2027-06-01"))));
}

#[test]
fn light_pots_and_supports_count() {
    let plan = example("courtyard");
    let free = Free { today: day("2027-03-01"), from: day("2027-05-20"), weeks: Some(20) };
    let open = fits(&plan, "box-3", None, free);
    let shade = fits(&plan, "box-3", Some(3.0), free);
    assert!(ids(&shade).contains(&"lettuce") && !ids(&shade).contains(&"bean"), "{:?}", ids(&shade));
    assert!(shade.len() < open.len() && shade.iter().all(|f| f.crop.light.least <= 3.0));
    // No support stands in the kitchen box, a trellis along the trellis bed.
    assert!(!ids(&open).contains(&"bean-pole"));
    assert!(ids(&fits(&plan, "trellis-1", None, free)).contains(&"bean-pole"));
    let pot = fits(&plan, "pot-7", None, free);
    let litres = plan.place(&PlaceId::new("pot-7")).unwrap().litres();
    assert!(ids(&pot).contains(&"radish") && !ids(&pot).contains(&"tomato"), "{:?}", ids(&pot));
    assert!(pot.iter().all(|f| f.crop.pot.is_some_and(|p| p.volume.litres() <= litres * 1.02)));
}

#[test]
fn a_place_is_kept_for_what_the_grower_said() {
    let mut plan = example("courtyard");
    let free = Free { today: day("2027-03-01"), from: day("2027-05-20"), weeks: Some(20) };
    let border = fits(&plan, "border-1", None, free);
    assert!(ids(&border).contains(&"zinnia") && !ids(&border).contains(&"kale"));
    plan.places.iter_mut().find(|p| p.id.0 == "box-3").unwrap().tags = vec![Tag::FoodOnly];
    let food = fits(&plan, "box-3", None, free);
    assert!(ids(&food).contains(&"kale") && !ids(&food).contains(&"zinnia"));
    assert!(food.iter().all(|f| f.crop.is_food() || f.crop.is_for(Use::Cover)));
}

/// Flowers that are grown for cutting and eaten too are few; each is a kitchen herb as well, and says of which plants
/// its flowers may be eaten. No other cut flower is food to any rule, and none that is poisonous is without its mark.
#[test]
fn flowers_that_are_eaten_are_named_and_marked() {
    let cut = |c: &&catchcrop::crop::Crop| c.of.is_none() && c.is_for(Use::CutFlower);
    let eaten: Vec<&str> =
        book().crops().filter(cut).filter(|c| c.part == Part::Flower).map(|c| c.id.as_str()).collect();
    assert_eq!(eaten, ["borage", "calendula", "lavender", "nasturtium", "viola"]);
    for crop in book().crops().filter(cut).filter(|c| c.part == Part::Flower) {
        assert!(crop.is_for(Use::Herb), "{}", crop.id);
        assert!(crop.note.contains("never sprayed"), "{}: {}", crop.id, crop.note);
        assert!(!crop.cautions.iter().any(|c| c.kind == CautionKind::NotFood), "{}", crop.id);
    }
    for id in ["sweet-pea", "daffodil", "snapdragon", "larkspur"] {
        let Some(crop) = book().get(&catchcrop::crop::CropId::new(id)) else { continue };
        assert!(!crop.is_food() && !crop.is_for(Use::Food), "{id}");
    }
    let pea = book().named("sweet-pea").unwrap();
    assert!(pea.cautions.iter().any(|c| c.kind == CautionKind::NotFood));
}
