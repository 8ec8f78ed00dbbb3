//! Share of the wishes met, the rolling larder, and idle ground, recomputed from the plan.

use super::garden::{Plot, Shelf, date};
use catchcrop::calendar::MonthDay;
use catchcrop::check::{Context, GroundUse, Larder, ShareMet, ground_use, growing_weeks, share_met};
use catchcrop::crop::CropId;
use catchcrop::plan::{Pattern, Why, Wish, WishId};

fn wish(n: u32, crop: &str, amount: &str, pattern: Pattern, from: (u8, u8), to: (u8, u8)) -> Wish {
    Wish {
        id: WishId(n),
        crop: CropId::new(crop),
        amount: amount.parse().unwrap(),
        pattern,
        from: MonthDay { month: from.0, day: from.1 },
        to: MonthDay { month: to.0, day: to.1 },
        season: None,
        importance: 3,
        places: Vec::new(),
        note: String::new(),
    }
}

fn met(plot: &Plot, shelf: &Shelf) -> ShareMet {
    let book = shelf.book();
    share_met(&Context::whole(&plot.plan, &book, plot.year), date("2027-03-01"))
}

/// Ten plants of 200 g in a flush of two weeks in June: 2 kg, less what frost and the like may cost.
fn kale(amount: &str, pattern: Pattern) -> Plot {
    let mut plot = Plot::new();
    plot.plan.wishes = vec![wish(1, "kale", amount, pattern, (6, 1), (7, 31))];
    let planting = plot.plant("kale", "box-1", (0, 0, 4, 4), "2027-04-10", "2027-08-01");
    planting.plants = 10;
    planting.why = Why::Wish(WishId(1));
    plot
}

#[test]
fn a_wish_is_met_by_what_its_plantings_give() {
    let out = met(&kale("4 kg", Pattern::AtOnce), &Shelf::new());
    let one = &out.wishes[0];
    assert!((one.wanted.value() - 4000.0).abs() < 1e-6);
    assert!((one.harvest.value() - 2000.0).abs() < 20.0, "{:?}", one.harvest);
    assert!((one.share - 0.5).abs() < 0.005 && (out.share - one.share).abs() < 1e-9);
    let more = met(&kale("1 kg", Pattern::AtOnce), &Shelf::new());
    assert!((more.share - 1.0).abs() < 1e-9, "nothing beyond what is asked for");
}

#[test]
fn importance_weighs_and_an_empty_list_is_met() {
    let mut plot = kale("1 kg", Pattern::AtOnce);
    plot.plan.wishes.push(Wish { importance: 1, ..wish(2, "pea", "1 kg", Pattern::Store, (6, 1), (7, 31)) });
    assert!((met(&plot, &Shelf::new()).share - 0.75).abs() < 1e-9);
    plot.plan.wishes.clear();
    assert!((met(&plot, &Shelf::new()).share - 1.0).abs() < 1e-9);
}

#[test]
fn even_wishes_are_met_week_by_week_and_a_crop_that_keeps_by_longer_stretches() {
    let even = met(&kale("230 g", Pattern::Even), &Shelf::new());
    let one = &even.wishes[0];
    assert!((one.wanted.value() - 9.0 * 230.0).abs() < 1e-6, "nine weeks: {:?}", one.wanted);
    assert!(one.share < 0.45, "a flush in one fortnight: {}", one.share);
    let larder = one.larder.unwrap();
    assert!(larder.weeks == 9 && larder.short >= 5 && larder.glut >= 1, "{larder:?}");
    let mut shelf = Shelf::new();
    shelf.change("kale", r#"(keeps: (days: (90, 120), how: "cold"))"#);
    let kept = met(&kale("230 g", Pattern::Even), &shelf);
    assert!(kept.wishes[0].share > one.share + 0.1);
    assert!(kept.wishes[0].larder.unwrap().even() > larder.even());
}

#[test]
fn a_larder_eats_the_oldest_first_and_counts_what_spoils() {
    let weeks = |picked: &[f64], life| {
        let out = Larder::follow(life, 1.0, picked);
        (out.short, out.glut)
    };
    assert_eq!(weeks(&[1.0, 1.0, 1.0], 1), (0, 0), "even");
    assert_eq!(weeks(&[3.0, 0.0, 0.0], 1), (2, 1), "all at once, and nothing keeps");
    assert_eq!(weeks(&[3.0, 0.0, 0.0], 3), (0, 0), "all at once, and it keeps three weeks");
    assert_eq!(weeks(&[3.0, 0.0, 0.0], 2), (1, 1), "it keeps two weeks");
    assert_eq!(weeks(&[0.5, 0.49, 1.0], 1), (1, 0), "half is enough");
    assert_eq!(weeks(&[1.5, 1.51, 1.0], 1), (0, 1), "half as much again is no glut");
}

#[test]
fn hand_plantings_count_for_the_first_wish_they_meet_and_catch_crops_for_none() {
    let mut plot = kale("1 kg", Pattern::AtOnce);
    plot.plan.plantings[0].why = Why::Hand;
    assert!((met(&plot, &Shelf::new()).share - 1.0).abs() < 1e-9);
    plot.plan.plantings[0].why = Why::Catch;
    assert!(met(&plot, &Shelf::new()).share < 1e-9);
    plot.plan.plantings[0].why = Why::Hand;
    plot.plan.plantings[0].failed = Some(date("2027-05-10"));
    assert!(met(&plot, &Shelf::new()).share < 1e-9, "what failed gives nothing");
}

#[test]
fn counts_and_weights_meet_by_the_weight_of_a_piece() {
    let mut shelf = Shelf::new();
    shelf.change("kale", r#"(each: "400 g")"#);
    let out = met(&kale("10 heads", Pattern::AtOnce), &shelf);
    assert!((out.share - 0.5).abs() < 0.005, "2 kg are 5 heads: {}", out.share);
}

fn quick() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.change(
        "radish",
        "(catch: true, days: (min: 25, max: 30, from: Sowing), picking: (shape: Once, days: 7, holds: 7))",
    );
    shelf
}

fn used(plot: &Plot) -> GroundUse {
    let book = quick().book();
    ground_use(&Context::whole(&plot.plan, &book, plot.year), date("2027-01-01"))
}

#[test]
fn the_growing_season_is_the_climates() {
    let book = quick().book();
    let plot = Plot::new();
    let weeks = growing_weeks(&Context::whole(&plot.plan, &book, plot.year), date("2027-01-01"));
    assert!((28..=42).contains(&weeks.len()), "New York: {} weeks", weeks.len());
    assert!(weeks[0] > date("2027-02-25") && weeks[0] < date("2027-04-15"), "{}", weeks[0]);
    assert!(*weeks.last().unwrap() < date("2027-11-25"), "days are not under ten hours");
}

#[test]
fn cells_without_a_planting_are_idle_and_cover_crops_are_counted_apart() {
    let mut plot = Plot::new();
    let bare = used(&plot);
    assert_eq!(bare.growing % 48, 0, "three boxes of sixteen cells");
    assert_eq!((bare.idle, bare.covered), (bare.growing, 0));
    // Two cells for nine garden weeks: Saturday 1 May to Saturday 3 July.
    plot.plant("kale", "box-1", (0, 0, 1, 2), "2027-05-01", "2027-07-03");
    assert_eq!(used(&plot).idle, bare.idle - 18);
    plot.plant("rye", "box-1", (1, 0, 1, 1), "2027-05-01", "2027-07-03");
    let now = used(&plot);
    assert_eq!((now.idle, now.covered), (bare.idle - 27, 9));
    // After the last picking the ground is idle though the plants still stand.
    plot.plan.plantings[0].planned.last_pick = Some(date("2027-06-18"));
    assert_eq!(used(&plot).idle, now.idle + 4);
}
