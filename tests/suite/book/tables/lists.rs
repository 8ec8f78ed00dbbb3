//! Figures that the charts leave open, against single lists: `tests/suite/book/lists.tsv`.

use super::{Tally, inches, of, overlap, range};
use catchcrop::crop::{Crop, FrostClass, Germination};
use catchcrop::units::TempUnit;

const LISTS: &str = include_str!("../lists.tsv");

/// Older names of families that still stand.
const OLDER: [(&str, &str); 1] = [("Compositae", "Asteraceae")];

/// Days of a list: the ranges overlap and their middles lie within 15 %, or 5 days; of a range open above, the
/// beginnings. From when they count the list does not say.
fn days(crop: &Crop, says: &str) -> bool {
    let ours = (f64::from(crop.days.min), f64::from(crop.days.max));
    let near = |a: f64, b: f64| (a - b).abs() <= (0.15 * b).max(5.0);
    match (says.strip_suffix('-'), range(says)) {
        (Some(least), _) => near(ours.0, least.parse().unwrap()),
        (None, Some(theirs)) => {
            overlap(ours, theirs) && near(crop.days.usual(), f64::midpoint(theirs.0, theirs.1))
        }
        (None, None) => panic!("{says}"),
    }
}

fn class(says: &str) -> FrostClass {
    match says {
        "hardy" | "very hardy" => FrostClass::Hardy,
        "half hardy" | "frost tolerant" => FrostClass::HalfHardy,
        "tender" => FrostClass::Tender,
        _ => panic!("{says}"),
    }
}

/// "21 C, 6 d" or "10-20 d": the best temperature within 3 C, the days at it within 2.
fn germination(crop: &Crop, says: &str) -> bool {
    let Germination::Limits { best, days, .. } = &crop.germination else { return false };
    says.split(", ").all(|part| {
        let (ours, room, text) = match part.strip_suffix(" C") {
            Some(warm) => (best.in_unit(TempUnit::C), 3.0, warm),
            None => (f64::from(*days), 2.0, part.strip_suffix(" d").unwrap()),
        };
        overlap((ours - room, ours + room), range(text).unwrap())
    })
}

pub(super) fn lists() -> Tally {
    let mut tally = Tally::default();
    for line in LISTS.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let [id, figure, code, says] = line.split('\t').collect::<Vec<_>>()[..] else { panic!("{line}") };
        let crop = of(id);
        let life = f64::from(crop.seed.life);
        let matches = match figure {
            "days" => days(crop, says),
            "frost.class" => class(says) == crop.frost.class,
            "germination" => germination(crop, says),
            "seed.life" => overlap((life, life), range(says).unwrap()),
            "family" => {
                let today = OLDER.iter().find(|(old, _)| *old == says).map_or(says, |(_, name)| name);
                crop.family == today
            }
            "spacing" => {
                let ours = (inches(crop.spacing.dense), inches(crop.spacing.wide));
                overlap(ours, range(says.trim_end_matches(" in")).unwrap())
            }
            _ => panic!("{line}"),
        };
        tally.rows += 1;
        tally.here += 1;
        tally.judge(crop, figure, code, matches, says);
    }
    tally
}

#[test]
fn figures_the_charts_leave_open_are_those_of_single_lists() {
    let tally = lists();
    tally.report(
        "lists.tsv",
        "the same family, class and years; days within 15 %; best temperature within 3 C and days at it within 2",
    );
    assert!(tally.same >= 50 && tally.rows >= 60, "{} {}", tally.same, tally.rows);
}
