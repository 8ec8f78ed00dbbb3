//! Germination, seed life, and weeks in the seedling pot.

use super::{Tally, of, overlap, range, table};
use catchcrop::crop::{Germination, Start};
use catchcrop::units::TempUnit;

pub(super) fn longevity() -> Option<Tally> {
    let mut tally = Tally::default();
    let lists = [
        ("years_Knott_1997", "KNOTT97"),
        ("years_Watts_1910s", "WATTS"),
        ("years_Burr_1863", "BURR63"),
        ("years_Kains_1912", "KAINS12"),
    ];
    for row in table("seed_longevity.tsv")? {
        let Some(crop) = tally.crop(&row["crop"]) else { continue };
        if crop.seed.per_gram <= 0.0 {
            continue;
        }
        for (column, code) in lists {
            let text = row[column].trim_start_matches("up to ");
            let Some(theirs) = range(text) else { continue };
            let life = f64::from(crop.seed.life);
            tally.judge(crop, "seed.life", code, overlap((life, life), theirs), &row[column]);
        }
    }
    Some(tally)
}

#[test]
fn seed_lives_are_those_of_the_lists() {
    let Some(tally) = longevity() else { return };
    tally.report("seed_longevity.tsv", "the same years, or within a list's range");
    assert!(tally.here >= 60 && tally.same >= 60, "{} {}", tally.here, tally.same);
}

/// Crops of the same species or kind as a plant of the trial, which follow its row.
const KIN: [(&str, &str); 8] = [
    ("Cabbage", "kale collards kohlrabi brussels-sprouts"),
    ("Onion", "leek spring-onion"),
    ("Celery", "celeriac"),
    ("Turnip", "turnip-greens chinese-cabbage pak-choi mizuna komatsuna tatsoi"),
    ("Bean, snap", "bean-pole"),
    ("Lettuce", "lettuce-head"),
    ("Squash", "winter-squash"),
    ("Beet", ""),
];

pub(super) fn trial() -> Option<Tally> {
    let mut tally = Tally::default();
    for row in table("germination_days.tsv")? {
        let Some(first) = tally.crop(&row["crop"]) else { continue };
        let kin =
            KIN.iter().filter(|(name, _)| *name == row["crop"]).flat_map(|(_, ids)| ids.split_whitespace());
        let code = if row["source"] == "S01" { "HM54" } else { "HM-later" };
        let days = |n: u8| row[&format!("d_{}C", 5 * n)].parse::<f64>().ok();
        let cells: Vec<(f64, f64)> = (0..=8).filter_map(|n| Some((5.0 * f64::from(n), days(n)?))).collect();
        for crop in std::iter::once(first).chain(kin.map(of)) {
            match &crop.germination {
                Germination::Table(ours) => {
                    tally.judge(crop, "germination", code, *ours == cells, "as printed");
                }
                // The rows added later give few cells: limits of another list stand instead.
                Germination::Limits { .. } if code == "HM-later" => tally.kept += 1,
                Germination::Limits { .. } | Germination::None => {
                    tally.wrong.push(format!("{} has no table", crop.id));
                }
            }
        }
    }
    Some(tally)
}

#[test]
fn germination_is_that_of_the_1954_trial() {
    let Some(tally) = trial() else { return };
    tally.report("germination_days.tsv", "every cell with days the same");
    assert!(tally.here >= 30 && tally.same >= 40, "{} {}", tally.here, tally.same);
}

pub(super) fn limits() -> Option<Tally> {
    let mut tally = Tally::default();
    for row in table("germination_temperature_limits.tsv")? {
        let Some(crop) = tally.crop(&row["crop"]) else { continue };
        let Germination::Limits { least, best, most, .. } = &crop.germination else { continue };
        let theirs = ["minimum_F", "optimum_F", "maximum_F"].map(|c| row[c].parse::<f64>().unwrap());
        let ours = [least, best, most].map(|t| t.in_unit(TempUnit::F));
        let same = ours.iter().zip(theirs).all(|(a, b)| (a - b).abs() < 0.5);
        tally.judge(crop, "germination", "GERM-T", same, &row["minimum_F"]);
    }
    for row in table("annual_flowers_seed.tsv")? {
        let Some(crop) = tally.crop(&row["flower"]) else { continue };
        let (warm, days) =
            (range(&row["germination_temp_F"]).unwrap(), range(&row["days_to_germinate"]).unwrap());
        if let Germination::Limits { best, days: ours, .. } = &crop.germination {
            let t = best.in_unit(TempUnit::F);
            let same =
                overlap((t - 0.5, t + 0.5), warm) && overlap((f64::from(*ours), f64::from(*ours)), days);
            tally.judge(crop, "germination", "ISU-fl", same, &row["germination_temp_F"]);
        }
        weeks(&mut tally, crop, "ISU-fl", &row["weeks_sowing_to_planting"]);
    }
    Some(tally)
}

/// The ages for setting out overlap the row's weeks.
fn weeks(tally: &mut Tally, crop: &catchcrop::crop::Crop, code: &str, text: &str) {
    let raised = crop.starts.iter().find_map(|s| match s {
        Start::Raised { weeks, .. } => Some((f64::from(weeks.0), f64::from(weeks.1))),
        Start::InPlace | Start::Bought | Start::Piece(_) => None,
    });
    if let (Some(ours), Some(theirs)) = (raised, range(text)) {
        tally.judge(crop, "starts", code, overlap(ours, theirs), text);
    }
}

#[test]
fn germination_limits_and_flower_weeks_are_published() {
    let Some(tally) = limits() else { return };
    tally.report(
        "germination_temperature_limits.tsv, annual_flowers_seed.tsv",
        "to 0.5 F, days and weeks overlap",
    );
    assert!(tally.same >= 25, "{}", tally.same);
}

#[test]
fn seedling_weeks_overlap_the_lists() {
    let Some(rows) = table("seedling_weeks.tsv") else { return };
    let mut tally = Tally::default();
    for row in rows {
        let Some(crop) = tally.crop(&row["crop"]) else { continue };
        let lists = [
            ("UCCE", "weeks_A_California"),
            ("NE-wk", "weeks_B_New_England"),
            ("HOME-wk", "weeks_C_general"),
            ("NC-wk", "weeks_D_North_Carolina"),
        ];
        let given = |(code, column): (&'static str, &str)| Some((code, range(&row[column])?));
        let found: Vec<(&str, (f64, f64))> = lists.into_iter().filter_map(given).collect();
        let least = found.iter().map(|(_, r)| r.0).fold(f64::MAX, f64::min);
        let most = found.iter().map(|(_, r)| r.1).fold(0.0, f64::max);
        weeks(&mut tally, crop, found[0].0, &format!("{least}-{most}"));
    }
    tally.report("seedling_weeks.tsv", "the ages for setting out overlap the span of the four lists");
    assert!(tally.same >= 20, "{}", tally.same);
}
