//! Story: an old city lot, 42 N, lead of 320 ppm, horse manure on 1 April: what may be eaten when?

use super::{Grower, day, told};
use catchcrop::calendar::{Date, plus};
use catchcrop::check::Weight;
use catchcrop::crop::{Entry, Start};
use catchcrop::garden::{Amendment, AmendmentKind, Block, Kind, PlaceId, Support, SupportKind};
use catchcrop::growth::Stage;
use catchcrop::plan::{Edit, Event};
use catchcrop::units::{Length, LengthUnit};
use catchcrop::work::{CUBIC_FOOT, Mix};

/// A bed in the open ground with lead, and two boxes with clean mix, the second manured.
fn lot() -> Grower {
    let mut grower = Grower::new("toronto", ("05-01", "10-15"), &[("bean-52", "bean", 52, 30)]);
    let mut ground = grower.plan.places[0].clone();
    ground.id = PlaceId::new("ground");
    "Open ground".clone_into(&mut ground.name);
    ground.kind = Kind::OpenBed;
    ground.fresh = false;
    ground.lead = Some(320.0);
    grower.plan.apply(&Edit::Place(ground.id.clone(), Some(Box::new(ground)))).unwrap();
    let mut manured = grower.plan.place(&PlaceId::new("box-2")).unwrap().clone();
    manured.amendments = vec![Amendment { on: day("2027-04-01"), kind: AmendmentKind::RawManure }];
    manured.supports = vec![Support {
        kind: SupportKind::Trellis,
        cells: Block { row: 0, col: 0, rows: 1, cols: 4 },
        height: Length::new(6.0, LengthUnit::Ft),
        from: day("2027-04-20"),
        until: None,
    }];
    grower.plan.apply(&Edit::Place(manured.id.clone(), Some(Box::new(manured)))).unwrap();
    grower
}

/// 320 is above the federal screening level of 200 (EPA, January 2024) and below Maryland's 400: no leaf, root or herb
/// from that ground; fruits with care; boxes with clean soil for the rest.
#[test]
fn no_leaf_root_or_herb_from_the_ground() {
    for (crop, weight) in [
        ("lettuce", Weight::Stop),
        ("carrot", Weight::Stop),
        ("parsley", Weight::Stop),
        ("bean-52", Weight::Note),
    ] {
        let mut grower = lot();
        grower.put_in(crop, ("ground", (0, 0, 1, 1)), Start::InPlace, "2027-05-20");
        let found = told(&grower, "soil-lead");
        assert_eq!(found.first().map(|f| f.weight), Some(weight), "{crop}");
        let said = format!("{} {} {}", found[0].words, found[0].remedy, found[0].source);
        assert!(said.contains("320 mg/kg") && said.contains("200") && said.contains("EPA"), "{said}");
        let mut clean = lot();
        clean.put_in(crop, ("box-1", (0, 0, 1, 1)), Start::InPlace, "2027-05-20");
        assert!(told(&clean, "soil-lead").is_empty(), "{crop} in a box of clean mix");
    }
    // A box of 4 x 4 ft, a foot deep: 453 L, 521 L to order (15 %: common practice), 0.68 cubic yards.
    let mix = Mix::of(16.0 * CUBIC_FOOT);
    assert_eq!((mix.litres.round(), mix.order_litres.round()), (453.0, 521.0));
    assert!((mix.cubic_yards - 0.68).abs() < 0.005);
}

/// A planting in the manured box, first picked on a day.
fn picked(crop: &str, first: Date, change: impl Fn(&mut Entry)) -> Vec<catchcrop::check::Finding> {
    let mut grower = lot();
    grower.own(crop, change);
    let id = grower.put_in(crop, ("box-2", (0, 0, 1, 1)), Start::InPlace, "2027-05-10");
    let mut planting = grower.of(id).clone();
    planting.planned.first_pick = Some(first);
    planting.planned.last_pick = Some(plus(first, 21));
    planting.planned.cleared = Some(plus(first, 22));
    grower.plan.apply(&Edit::Planting(id, Some(Box::new(planting)))).unwrap();
    told(&grower, "raw-manure")
}

/// Parts that touch the soil wait 120 days, to 30 July, others 90, to 30 June (7 CFR 205.203(c)). Box 1, without manure,
/// takes the spring greens.
#[test]
fn the_manured_box_is_picked_from_the_end_of_june_or_july() {
    let same = |_: &mut Entry| {};
    for crop in ["lettuce", "radish", "carrot"] {
        assert_eq!(
            picked(crop, day("2027-07-29"), same).first().map(|f| f.weight),
            Some(Weight::Stop),
            "{crop}"
        );
        assert!(picked(crop, day("2027-07-30"), same).is_empty(), "{crop}");
    }
    for crop in ["bean-climbing", "tomato"] {
        let start_of = lot().book.named(crop).map(|c| c.id.clone()).unwrap();
        let found = picked(&start_of.0, day("2027-06-29"), same);
        assert_eq!(found.first().map(|f| f.weight), Some(Weight::Stop), "{crop}");
        assert!(found[0].source.contains("205.203"), "{}", found[0].source);
        assert!(picked(&start_of.0, day("2027-06-30"), same).is_empty(), "{crop}");
    }
    let mut grower = lot();
    grower.put_in("lettuce", ("box-1", (0, 0, 1, 1)), Start::InPlace, "2027-04-10");
    assert!(told(&grower, "raw-manure").is_empty());
}

/// A bush bean lodges and touches the soil; picked on 10 July it falls into the 120 days: not to be eaten raw, ask the
/// extension office. Said in the diary and, for the plan, as a bean whose pods touch the soil.
#[test]
fn a_bean_that_lodges_waits_as_long_as_lettuce() {
    assert!(picked("bean-52", day("2027-07-10"), |bean| bean.soil_contact = Some(false)).is_empty());
    let found = picked("bean-52", day("2027-07-10"), |bean| bean.soil_contact = Some(true));
    let said = format!("{} {}", found[0].words, found[0].remedy);
    assert!(said.contains("120 days") && said.contains("30 Jul 2027"), "{said}");
    assert!(said.contains("extension office"), "{said}");
    let mut grower = lot();
    let bean = grower.put_in("bean-52", ("box-2", (0, 0, 1, 1)), Start::InPlace, "2027-05-10");
    grower.say(bean, "2027-05-10", Event::Done(Stage::Sown));
    let edit = catchcrop::work::entry(&grower.plan, Some(bean), day("2027-07-10"), Event::Remark);
    assert_eq!(edit.place, Some(PlaceId::new("box-2")));
}

/// Posts of the trellis: buried lines are marked 2 to 3 business days after the call to 811 (state and city pages).
#[test]
fn before_posts_are_dug_in_the_lines_are_marked() {
    let found = told(&lot(), "buried-lines");
    let said = found.iter().fold(String::new(), |said, f| said + &f.words + " " + &f.remedy);
    assert!(said.contains("811") && said.contains("2 to 3 business days"), "{said}");
}
