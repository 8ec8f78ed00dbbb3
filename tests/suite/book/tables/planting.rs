//! Distances, depths, days and yields.

use super::super::names::NAMES;
use super::{Row, Tally, days_match, inches, of, overlap, range, table};
use catchcrop::crop::{Crop, Piece, Start};

/// The book's code of a table's source.
const CODES: [(&str, &str); 13] = [
    ("S05", "FB255"),
    ("S08", "VCE335"),
    ("S09", "KSU-int"),
    ("S10", "UME"),
    ("S11", "MU"),
    ("S12", "UF"),
    ("S13", "UGA"),
    ("S14", "KSU"),
    ("S15", "FREE18"),
    ("S16", "KNOTT97"),
    ("S17", "WATTS"),
    ("S18", "BURR63"),
    ("S19", "KAINS12"),
];

/// The published source of a field of a row; none where the row gives it from memory.
fn code(row: &Row, fields: &[&str]) -> Option<&'static str> {
    let named = |part: &str| {
        let (key, value) = part.split_once('=')?;
        let first = value.get(..3)?;
        let published = CODES.iter().find(|(k, _)| *k == first).map(|(_, v)| *v);
        fields.contains(&key).then_some(published).flatten()
    };
    row["field_sources"].split(';').find_map(named)
}

fn genus(text: &str) -> Option<&str> {
    text.split_whitespace().next()
}

fn chart_days(crop: &Crop, theirs: (f64, f64), counted_from: &str) -> bool {
    let planted =
        matches!(crop.starts.first(), Some(Start::Piece(Piece::Crown | Piece::Slip) | Start::Bought));
    let from_sowing = !(counted_from.starts_with("transplant") || planted);
    let ours = (f64::from(crop.days.min), f64::from(crop.days.max));
    days_match(crop, theirs, from_sowing) || (crop.is_perennial() && overlap(ours, theirs))
}

pub(super) fn charts() -> Option<Tally> {
    let mut tally = Tally::default();
    for row in table("spacing_dtm.tsv")? {
        let Some(crop) = tally.crop(&row["crop"]) else { continue };
        if crop.family == row["family"] && genus(&crop.botanical) == genus(&row["botanical"]) {
            tally.same += 1;
            tally.published.insert((crop.id.clone(), "family"));
        } else {
            let (ours, theirs) = (&crop.botanical, &row["botanical"]);
            tally
                .wrong
                .push(format!("{}: {ours} of {}, but {theirs} of {}", crop.id, crop.family, row["family"]));
        }
        let spacing = ["inrow", "spacing/years"];
        if let (Some(theirs), Some(code)) = (range(&row["in_row_in"]), code(&row, &spacing)) {
            let ours = (inches(crop.spacing.dense), inches(crop.spacing.wide));
            let says = row["in_row_in"].split(" (").next().unwrap_or_default();
            tally.judge(crop, "spacing", code, overlap(ours, theirs), says);
        }
        if let (Some(theirs), Some(gap), Some(code)) = (range(&row["row_in"]), crop.row, code(&row, &["row"]))
        {
            let ours = inches(gap);
            let same = ours >= theirs.0 * 0.9 && ours <= theirs.1 * 1.1;
            tally.judge(crop, "row", code, same, &row["row_in"]);
        }
        if let (Some(theirs), Some(code)) = (range(&row["depth_in"]), code(&row, &["depth", "spacing/years"]))
        {
            let ours = inches(crop.depth);
            let same = ours >= theirs.0 - 0.0625 && ours <= theirs.1 + 0.0625;
            tally.judge(crop, "depth", code, same, &row["depth_in"]);
        }
        let bounds = (row["dtm_min"].parse::<f64>(), row["dtm_max"].parse::<f64>());
        if let ((Ok(least), Ok(most)), Some(code)) = (bounds, code(&row, &["dtm"])) {
            let same = chart_days(crop, (least, most), &row["dtm_counted_from"]);
            tally.judge(crop, "days", code, same, &format!("{least}-{most}"));
        }
        if let (Some(theirs), Some(code)) =
            (range(&row["seed_years"]), code(&row, &["years", "spacing/years"]))
        {
            let ours = f64::from(crop.seed.life);
            let same = overlap((ours, ours), theirs);
            if crop.seed.life > 0 && row["kind"] == "vegetable" {
                tally.judge(crop, "seed.life", code, same, &row["seed_years"]);
            }
        }
    }
    Some(tally)
}

/// Ids of the vegetables the charts list, varieties left out.
pub(super) fn vegetables() -> Option<Vec<&'static str>> {
    let rows = table("spacing_dtm.tsv")?;
    let vegetables = rows.iter().filter(|r| r["kind"] == "vegetable");
    let ids = vegetables.filter_map(|r| NAMES.iter().find(|(n, _)| *n == r["crop"])).map(|(_, id)| *id);
    Some(ids.filter(|id| of(id).of.is_none()).collect())
}

#[test]
fn distances_depths_and_days_are_those_of_the_charts() {
    let Some(tally) = charts() else { return };
    tally.report(
        "spacing_dtm.tsv",
        "family and genus the same, distances overlap, rows within 10 %, depth within 1/16 in, days within 15 %, \
         seed years the same",
    );
    assert!(tally.here >= 110 && tally.same >= 350, "{} {}", tally.here, tally.same);
}

pub(super) fn intensive() -> Option<Tally> {
    let mut tally = Tally::default();
    let lists = [("VCE335", "vce_min_in", "vce_max_in"), ("KSU-int", "kstate_min_in", "kstate_max_in")];
    for row in table("intensive_spacing.tsv")? {
        let Some(crop) = tally.crop(&row["crop"]) else { continue };
        let ours = (inches(crop.spacing.dense), inches(crop.spacing.wide));
        for (code, least, most) in lists {
            let (Ok(least), Ok(most)) = (row[least].parse::<f64>(), row[most].parse::<f64>()) else {
                continue;
            };
            let same = if code == "VCE335" {
                (ours.0 - least).abs() < 0.01 && (ours.1 - most).abs() < 0.01
            } else {
                overlap(ours, (least, most))
            };
            tally.judge(crop, "spacing", code, same, &format!("{least}"));
        }
    }
    Some(tally)
}

#[test]
fn intensive_distances_are_the_published_ranges() {
    let Some(tally) = intensive() else { return };
    tally.report("intensive_spacing.tsv", "Virginia's range exactly, the Kansas one overlapping");
    assert!(tally.here >= 45 && tally.same >= 60, "{} {}", tally.here, tally.same);
}

/// Day counts of older tables, all from sowing.
pub(super) fn old_days() -> Option<Tally> {
    let mut tally = Tally::default();
    for row in table("row_table_1906.tsv")? {
        let Some(crop) = tally.crop(&row["crop"]) else { continue };
        let text = &row["ready_for_use_after_planting"];
        let slipped = row["note"].starts_with("ready column");
        let days = text.strip_suffix(" days").and_then(range);
        if let (Some(theirs), false) = (days, slipped) {
            let says = format!("{}-{}", theirs.0, theirs.1);
            tally.judge(crop, "days", "FB255", days_match(crop, theirs, true), &says);
        }
    }
    for row in table("row_table_1918.tsv")? {
        let Some(crop) = tally.crop(&row["crop"]) else { continue };
        let bounds = (row["days_seed_to_first_pick_min"].parse::<f64>(), row["max"].parse::<f64>());
        if let (Ok(least), Ok(most)) = bounds {
            let says = format!("{least}-{most}");
            // Nothing of sweet potato is sown: its days count from planting the slips.
            let sown = crop.seed.per_gram > 0.0 || crop.id.as_str() != "sweet-potato";
            tally.judge(crop, "days", "FREE18", days_match(crop, (least, most), sown), &says);
        }
    }
    Some(tally)
}

#[test]
fn days_of_the_older_tables_are_kept_where_they_differ() {
    let Some(tally) = old_days() else { return };
    tally.report("row_table_1906.tsv and row_table_1918.tsv", "days within 15 %");
    assert!(tally.here >= 80, "{}", tally.here);
}
