//! Story: maritime, 47.6 N, two boxes, one trellis, and never an empty cell.

use super::{Grower, beside, day, told};
use catchcrop::calendar::days_between;
use catchcrop::crop::{CropId, Start};
use catchcrop::growth::{Sprouting, Stage};
use catchcrop::plan::Event;
use catchcrop::units::num;
use catchcrop::work::forecast;

fn grower() -> Grower {
    Grower::new(
        "victoria-bc",
        ("03-10", "11-10"),
        &[("pea-60", "pea", 60, 14), ("beet-50", "beet", 50, 1), ("bean-52", "bean", 52, 14)],
    )
}

/// Peas of 60 days, picked for 14: 60 + 14 + 14 = 88 days before 10 November is 14 August (Virginia Tech horticulture,
/// quoted 2011: days to maturity, picking, 14 days of autumn).
#[test]
fn late_peas_wait_for_the_beets_only_until_the_fourteenth_of_august() {
    let mut grower = grower();
    assert_eq!(grower.latest("pea-60", "2027-11-10"), day("2027-08-14"));
    let beet = grower.put("beet-50", Start::InPlace, "2027-06-19", Some("2027-08-07"));
    let pea = grower.put("pea-60", Start::InPlace, "2027-08-07", None);
    // Six days lost in June: the peas go in on the garden day a week later, the last one in time.
    grower.say(beet, "2027-06-25", Event::Done(Stage::Sown));
    let seen = forecast(&grower.plan, &grower.book, &grower.year);
    assert_eq!(seen.conflicts, Vec::<String>::new());
    grower.plan.apply(&seen.edit).unwrap();
    assert_eq!(grower.of(pea).begins(), Some(day("2027-08-14")), "{:?}", seen.moved);
    // Cleared four days later still, there is no garden day left for peas, and the forecast says so.
    grower.say(beet, "2027-08-18", Event::Done(Stage::Cleared));
    let seen = forecast(&grower.plan, &grower.book, &grower.year);
    assert!(seen.conflicts[0].contains("14 Aug"), "{:?}", seen.conflicts);
    // One cell through the year: 87 + 51 + 88 of 230 days, 98 %.
    let taken: i64 =
        [("2027-03-25", "2027-06-20"), ("2027-06-22", "2027-08-12"), ("2027-08-14", "2027-11-10")]
            .iter()
            .map(|(a, b)| days_between(day(a), day(b)))
            .sum();
    assert_eq!(taken, 226);
    assert_eq!(num::round_i(100.0 * num::real_i(taken) / 230.0), 98);
}

/// Sown on 6 August the first picking is 19 October by the count (60 and 14 days), two weeks before days under 10 hours
/// (2 November at 47.6 N).
#[test]
fn the_sixth_of_august_leaves_two_weeks_of_light() {
    let grower = grower();
    let crop = grower.book.get(&CropId::new("pea-60")).unwrap();
    let seen = beside(&grower, "pea-60", Start::InPlace, "2027-08-06");
    assert_eq!(seen.catalogue, day("2027-10-19"));
    assert!(seen.days() > 7, "late summer and autumn here are cooler than the packet's 18 C: {seen:?}");
    let short = (0..365).find(|n| {
        let date = catchcrop::calendar::plus(day("2027-08-01"), *n);
        catchcrop::site::sun::daylength(47.6, -122.3, date, -0.833) < 10.0
    });
    let short = catchcrop::calendar::plus(day("2027-08-01"), short.unwrap());
    assert!(days_between(day("2027-11-02"), short).abs() <= 2, "{short}");
    // In warm soil peas are up in about a week (university germination table, in a reprint).
    let days = Sprouting::new(&crop.germination).unwrap().days(25.0).unwrap();
    assert!((5.0..=7.5).contains(&days), "{days}");
}

/// Half the cell stays empty in hot dry soil: the gaps are sown again by 14 August, or filled with lettuce raised
/// indoors, for which direct sowing at 86 F would bring 12 of 100.
#[test]
fn gaps_are_sown_again_by_the_fourteenth() {
    let mut grower = grower();
    let pea = grower.put_in("pea-60", ("box-2", (0, 0, 1, 2)), Start::InPlace, "2027-08-06");
    grower.say(pea, "2027-08-06", Event::Done(Stage::Sown));
    grower.say(pea, "2027-08-13", Event::Partly(Stage::Emerged));
    assert_eq!(grower.of(pea).real.emerged, None, "half a stand is no stand");
    // The empty half is another planting; the last day in time is the next one.
    assert_eq!(grower.latest("pea-60", "2027-11-10"), day("2027-08-14"));
    let again = grower.put_in("pea-60", ("box-2", (1, 0, 1, 2)), Start::InPlace, "2027-08-14");
    assert!(!grower.of(pea).collides(grower.of(again)));
    assert!(forecast(&grower.plan, &grower.book, &grower.year).conflicts.is_empty());
    let lettuce = grower.book.get(&CropId::new("lettuce")).unwrap();
    let told = catchcrop::cli::say::explain_text("soil-hot").unwrap();
    assert!(told.contains("99 % at 77 F and 12 %") && told.contains("Harrington and Minges"), "{told}");
    assert!(lettuce.starts.iter().any(|s| matches!(s, Start::Raised { .. })), "but it can be raised");
}

/// Peas in spring and again in August in one soil are legumes twice (Aphanomyces persists ten years and more: Pacific
/// Northwest Plant Disease Handbook); a bush bean between is a legume too; another box is free.
#[test]
fn late_peas_belong_in_the_other_box() {
    let mut grower = grower();
    grower.put_in("pea-60", ("box-1", (0, 0, 2, 2)), Start::InPlace, "2027-03-25");
    grower.put_in("pea-60", ("box-1", (0, 0, 2, 2)), Start::InPlace, "2027-08-06");
    let twice = told(&grower, "family-twice");
    assert!(twice.iter().any(|f| f.source.contains("pea root rot stays 10 years")), "{twice:#?}");
    let mut other = self::grower();
    other.put_in("pea-60", ("box-1", (0, 0, 2, 2)), Start::InPlace, "2027-03-25");
    other.put_in("pea-60", ("box-2", (0, 0, 2, 2)), Start::InPlace, "2027-08-06");
    assert!(told(&other, "family-twice").is_empty());
    let mut bean = self::grower();
    bean.put_in("pea-60", ("box-1", (0, 0, 2, 2)), Start::InPlace, "2027-03-25");
    bean.put_in("bean-52", ("box-1", (0, 0, 2, 2)), Start::InPlace, "2027-06-22");
    assert!(!told(&bean, "family-twice").is_empty(), "a bean after peas is a legume again");
}
