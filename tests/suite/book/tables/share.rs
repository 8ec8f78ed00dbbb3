//! How much of the book is published.

use super::{climate, planting, seeds};
use catchcrop::crop::{Crop, CropId, Use};
use catchcrop::store;
use std::collections::{BTreeMap, BTreeSet};

/// The figures a plan stands on.
const CORE: [&str; 8] =
    ["spacing", "depth", "days", "frost.class", "family", "germination", "seed.life", "water.kc"];

/// Whether a crop belongs to a group.
type Belongs = Box<dyn Fn(&Crop) -> bool>;

fn genus(crop: &Crop) -> &str {
    crop.botanical.split_whitespace().next().unwrap_or_default()
}

/// Share of the core figures that match a row of a published table, by what crops are grown for first.
#[test]
fn most_core_figures_of_vegetables_are_published() {
    let tables = [
        planting::charts(),
        planting::intensive(),
        planting::old_days(),
        climate::frost(),
        climate::water(),
        seeds::longevity(),
        seeds::trial(),
        seeds::limits(),
    ];
    if tables.iter().any(Option::is_none) {
        return;
    }
    let published: BTreeSet<(CropId, &str)> =
        tables.into_iter().flatten().flat_map(|t| t.published).collect();
    let is = |crop: &Crop, figure| published.contains(&(crop.id.clone(), figure));
    // A family is a matter of the genus: one row of the genus settles it.
    let genera: BTreeSet<&str> = store::book().crops().filter(|c| is(c, "family")).map(genus).collect();
    let charted: BTreeSet<&str> = super::planting::vegetables().unwrap_or_default().into_iter().collect();
    let grown_for = |what: Use| move |c: &Crop| c.of.is_none() && c.uses.first() == Some(&what);
    let groups: [(&str, f64, Belongs); 5] = [
        ("vegetables of the extension charts", 80.0, Box::new(move |c| charted.contains(c.id.as_str()))),
        ("all vegetables and fruit", 70.0, Box::new(grown_for(Use::Food))),
        ("herbs", 30.0, Box::new(grown_for(Use::Herb))),
        ("cut flowers", 12.0, Box::new(grown_for(Use::CutFlower))),
        ("cover crops", 0.0, Box::new(grown_for(Use::Cover))),
    ];
    for (name, least, belongs) in groups {
        let (mut all, mut found, mut count) = (0, 0, 0);
        let mut lacking: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for crop in store::book().crops().filter(|c| belongs(c)) {
            count += 1;
            for figure in CORE {
                if crop.seed.per_gram <= 0.0 && ["germination", "seed.life"].contains(&figure) {
                    continue;
                }
                all += 1;
                if is(crop, figure) || (figure == "family" && genera.contains(genus(crop))) {
                    found += 1;
                } else {
                    lacking.entry(crop.id.as_str()).or_default().push(figure);
                }
            }
        }
        let share = 100.0 * f64::from(found) / f64::from(all);
        println!("{name}: {count} crops, {found} of {all} core figures match a published row: {share:.0} %");
        assert!(share >= least, "{name}: {share:.1} %, lacking {lacking:#?}");
    }
}
