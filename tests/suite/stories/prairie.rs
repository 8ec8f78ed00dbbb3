//! Story: continental prairie, 50 N, beans as often as possible, and tomatoes.

use super::{Grower, beside, day};
use catchcrop::calendar::{Week, days_between};
use catchcrop::crop::{CountedFrom, CropId, Start};
use catchcrop::growth::Stage;
use catchcrop::plan::{Cause, Event, SPARE};
use catchcrop::work::{JobKind, jobs};

fn grower() -> Grower {
    Grower::new(
        "intl-falls-mn",
        ("05-25", "09-12"),
        &[
            ("bean-52", "bean", 52, 14),
            ("tomato-70", "tomato-bush", 70, 60),
            ("lettuce-45", "lettuce", 45, 14),
        ],
    )
}

/// 52 + 14 + 14 + 14 = 94 days before 12 September is 10 June: sowings of 25 May and 8 June fit, one of 22 June misses by
/// 12 days; leaf lettuce (45 + 14 + 14 = 73) fits until 1 July.
#[test]
fn two_bean_sowings_fit_and_lettuce_takes_the_third() {
    let grower = grower();
    let last = grower.latest("bean-52", "2027-09-12");
    assert_eq!(last, day("2027-06-10"));
    assert!(day("2027-05-25") < last && day("2027-06-08") < last);
    assert_eq!(days_between(last, day("2027-06-22")), 12);
    assert_eq!(grower.latest("lettuce-45", "2027-09-12"), day("2027-07-01"));
    let seen = beside(&grower, "bean-52", Start::InPlace, "2027-06-08");
    assert_eq!(seen.catalogue, day("2027-07-30"));
    assert!(seen.days() > 0, "June at the Rainy River is cooler than 21 C: {seen:?}");
}

/// Tomatoes of 70 days from setting out: first ripe 3 or 17 August, 40 or 26 picking days before 12 September. A freeze
/// on 3 June takes the plants of 25 May; the fifth kept back (common practice) goes out on 8 June: 14 days lost, 35 %,
/// not the crop.
#[test]
fn a_freeze_in_june_costs_fourteen_days_of_tomatoes_not_the_crop() {
    let mut grower = grower();
    let days = grower.book.get(&CropId::new("tomato-70")).unwrap().days;
    assert_eq!(days.from, CountedFrom::SettingOut);
    let early = grower.put("tomato-70", Start::Bought, "2027-05-25", None);
    assert_eq!(grower.of(early).planned.first_pick, Some(day("2027-08-03")));
    grower.say(early, "2027-05-25", Event::Done(Stage::SetOut));
    grower.say(early, "2027-06-03", Event::Failed(Cause::Frost));
    assert_eq!(grower.of(early).ends(), Some(day("2027-06-03")));
    let spare = grower.put("tomato-70", Start::Bought, "2027-06-08", None);
    assert!(!grower.of(early).collides(grower.of(spare)), "the cells are free again");
    let frost = day("2027-09-12");
    let left = |id| days_between(grower.of(id).planned.first_pick.unwrap(), frost);
    assert_eq!((days_between(day("2027-08-03"), frost), left(spare)), (40, 26));
    assert!(((40.0_f64 - 26.0) / 40.0 - 0.35).abs() < 1e-9);
    assert!((SPARE - 1.2).abs() < 1e-9, "a fifth more is raised than is wanted");
    let week = jobs(&grower.plan, &grower.book, &grower.year, Week::of(day("2027-06-08")));
    assert!(week.iter().any(|j| j.kind == JobKind::SetOut && j.planting == Some(spare)));
    assert!(week.iter().all(|j| j.planting != Some(early)), "what froze makes no more work");
}
