//! Frost classes and water.

use super::{Tally, of, table};
use catchcrop::crop::FrostClass::{self, HalfHardy, Hardy, Tender};

/// Columns of the table with the book's code of each.
const LISTS: [(&str, &str); 3] = [("class_UNR", "UNR"), ("class_CSU", "CSU"), ("frost_list", "FROST")];

/// Crops of the species a row names.
const KIN: [(&str, &str); 5] = [
    ("Bean snap", "bean-pole"),
    ("Lettuce", "lettuce-head"),
    ("Onion", "onion-sets spring-onion"),
    ("Turnip", "turnip-greens"),
    ("Tomato", "tomato-bush tomato-cherry"),
];

pub(super) fn frost() -> Option<Tally> {
    let mut tally = Tally::default();
    for row in table("frost_tolerance.tsv")? {
        let Some(first) = tally.crop(&row["crop"]) else { continue };
        let kin =
            KIN.iter().filter(|(name, _)| *name == row["crop"]).flat_map(|(_, ids)| ids.split_whitespace());
        let crops = std::iter::once(first).chain(kin.map(of));
        for (crop, (column, code)) in crops.flat_map(|c| LISTS.map(|list| (c, list))) {
            let text = &row[column];
            let list = [
                ("damaged", Tender),
                ("stands light", HalfHardy),
                ("withstands light", HalfHardy),
                ("hard frost", Hardy),
            ];
            let classes: Vec<FrostClass> = match text.as_str() {
                "" => continue,
                "hardy" => vec![Hardy],
                "semi-hardy" => vec![HalfHardy],
                "tender" | "very tender" => vec![Tender],
                words => list
                    .into_iter()
                    .filter(|(word, _)| words.contains(word))
                    .map(|(_, class)| class)
                    .collect(),
            };
            let says = text.split(" (").next().unwrap_or_default();
            tally.judge(crop, "frost.class", code, classes.contains(&crop.frost.class), says);
        }
    }
    Some(tally)
}

#[test]
fn frost_classes_are_those_of_the_lists() {
    let Some(tally) = frost() else { return };
    tally.report("frost_tolerance.tsv", "the same class");
    assert!(tally.here >= 50 && tally.same >= 80, "{} {}", tally.here, tally.same);
}

/// Rows of the FAO tables, and the crops that follow each; a group stands for crops that have no row of their own.
const WATERED: [(&str, &str); 57] = [
    (
        "small vegetables",
        "mustard mizuna komatsuna tatsoi wild-rocket pak-choi chinese-cabbage kale collards kohlrabi \
                          turnip-greens dandelion shungiku amaranth orach chervil cress nz-spinach purslane \
                          winter-purslane malabar-spinach florence-fennel rocket",
    ),
    ("broccoli", "broccoli"),
    ("brussel sprouts", "brussels-sprouts"),
    ("cabbage", "cabbage"),
    ("carrots", "carrot"),
    ("cauliflower", "cauliflower"),
    ("celery", "celery celeriac"),
    ("garlic", "garlic"),
    ("lettuce", "lettuce lettuce-head endive radicchio lambs-lettuce"),
    ("onions dry", "onion onion-sets shallot"),
    ("onions green", "spring-onion leek"),
    ("onions seed", ""),
    ("spinach", "spinach"),
    ("radish", "radish"),
    ("vegetables solanum family solanaceae", "tomatillo ground-cherry"),
    ("eggplant", "eggplant"),
    ("sweet peppers bell", "pepper"),
    ("tomato", "tomato"),
    ("vegetables cucumber family cucurbitaceae", ""),
    ("cantaloupe", "melon"),
    ("cucumber fresh market", "cucumber"),
    ("cucumber machine harvest", ""),
    ("pumpkin winter squash", "winter-squash pumpkin"),
    ("squash zucchini", "zucchini"),
    ("sweet melons", ""),
    ("watermelon", "watermelon"),
    ("roots tubers", "salsify chicory"),
    ("beets table", "beet chard"),
    ("cassava year 1", ""),
    ("cassava year 2", ""),
    ("parsnip", "parsnip"),
    ("potato", "potato jerusalem-artichoke"),
    ("sweet potato", "sweet-potato"),
    ("turnip rutabaga", "turnip rutabaga"),
    ("sugar beet", ""),
    ("legumes leguminosae", ""),
    ("beans green", "bean bean-pole lima-bean runner-bean"),
    ("beans dry pulses", ""),
    ("chickpea", ""),
    ("faba bean broad fresh", "broad-bean"),
    ("faba bean broad dry seed", ""),
    ("garbanzo", ""),
    ("green gram cowpeas harvested fresh", "southern-pea"),
    ("green gram cowpeas harvested dry", ""),
    ("groundnut peanut", "peanut"),
    ("lentil", ""),
    ("peas fresh", "pea"),
    ("peas dry seed", ""),
    ("soybeans", "soybean"),
    ("perennial vegetables winter dormancy bare mulched soil", "rhubarb sorrel horseradish"),
    ("artichokes", "artichoke cardoon"),
    ("asparagus", "asparagus"),
    ("mint", "mint basil perilla"),
    ("strawberries", "strawberry strawberry-alpine"),
    ("sunflower", "sunflower"),
    ("maize sweet corn fresh", "corn"),
    ("maize sweet corn dry", ""),
];

pub(super) fn water() -> Option<Tally> {
    let mut tally = Tally::default();
    for row in table("kc.tsv")? {
        tally.rows += 1;
        let name = &row["crop_fao_name"];
        let Some((_, ids)) = WATERED.iter().find(|(n, _)| n == name) else {
            tally.wrong.push(format!("'{name}' is not in the list of names"));
            continue;
        };
        tally.here += usize::from(!ids.is_empty());
        for crop in ids.split_whitespace().map(of) {
            let kc = [crop.water.kc.0, crop.water.kc.1, crop.water.kc.2].map(f64::from);
            let theirs = ["Kc_ini", "Kc_mid", "Kc_end"].map(|c| row[c].parse::<f64>().unwrap());
            let same = kc.iter().zip(theirs).all(|(a, b)| (a - b).abs() < 0.005);
            tally.judge(crop, "water.kc", "FAO56", same, &row["Kc_mid"]);
            if let Ok(p) = row["p"].parse::<f64>() {
                tally.judge(crop, "water.p", "FAO56", (f64::from(crop.water.p) - p).abs() < 0.005, &row["p"]);
            }
            // Roots of open ground are deeper than boxes: kept beside the book's own figure.
            if !row["Zr_min_m"].is_empty() && crop.sources("water.kc") == ["FAO56"] {
                let says = format!("{}-{} m", row["Zr_min_m"], row["Zr_max_m"]);
                tally.judge(crop, "root_depth", "FAO56", false, &says);
            }
        }
    }
    Some(tally)
}

#[test]
fn crop_coefficients_are_those_of_fao_56() {
    let Some(tally) = water() else { return };
    tally.report("kc.tsv", "Kc and p to 0.005");
    assert!(tally.here >= 40 && tally.same >= 100, "{} {}", tally.here, tally.same);
}

/// Rows of the stage lengths that crops follow, where their names differ from those of the coefficients.
const STAGES: [(&str, &str); 30] = [
    ("carrots", "carrot"),
    ("cauliflower", "cauliflower"),
    ("celery", "celery"),
    ("crucifers", "broccoli cabbage kale kohlrabi mustard mizuna pak-choi turnip collards rutabaga"),
    ("lettuce", "lettuce lettuce-head endive radicchio"),
    ("onion dry", "onion onion-sets shallot"),
    ("onion green", "spring-onion"),
    ("spinach", "spinach"),
    ("radish", "radish"),
    ("eggplant", "eggplant"),
    ("sweet peppers bell", "pepper"),
    ("tomato", "tomato"),
    ("cantaloupe", "melon"),
    ("cucumber", "cucumber"),
    ("pumpkin winter squash", "winter-squash pumpkin"),
    ("squash zucchini", "zucchini"),
    ("water melons", "watermelon"),
    ("beets table", "beet chard"),
    ("potato", "potato"),
    ("sweet potato", "sweet-potato"),
    ("beans green", "bean bean-pole lima-bean runner-bean"),
    ("faba bean broad", "broad-bean"),
    ("green gram cowpeas", "southern-pea"),
    ("groundnut", "peanut"),
    ("peas", "pea"),
    ("soybeans", "soybean"),
    ("artichoke", "artichoke"),
    ("asparagus", "asparagus"),
    ("sunflower", "sunflower"),
    ("maize sweet", "corn"),
];

#[test]
fn stage_shares_are_those_of_fao_56() {
    let Some(rows) = table("fao56_stage_lengths.tsv") else { return };
    let (mut crops, mut worst) = (0, 0.0_f64);
    for (name, ids) in STAGES {
        let share = |row: &super::Row| {
            let days = ["L_ini", "L_dev", "L_mid", "L_late"].map(|c| row[c].parse::<f64>().unwrap());
            days.map(|d| d / days.iter().sum::<f64>())
        };
        let shares: Vec<[f64; 4]> = rows.iter().filter(|r| r["crop"] == name).map(share).collect();
        assert!(!shares.is_empty(), "{name}");
        for crop in ids.split_whitespace().map(of) {
            let s = crop.water.stages;
            let ours = [s.0, s.1, s.2, s.3].map(f64::from);
            let far = |row: &[f64; 4]| row.iter().zip(ours).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            let near = shares.iter().map(far).fold(f64::MAX, f64::min);
            assert!(near <= 0.02, "{}: {ours:?} is {near:.3} from the nearest row of {name}", crop.id);
            (crops, worst) = (crops + 1, worst.max(near));
        }
    }
    println!(
        "fao56_stage_lengths.tsv: {} rows; {crops} crops within 0.02 of a row of theirs, the worst {worst:.3}",
        rows.len()
    );
    assert!(crops >= 40);
}
