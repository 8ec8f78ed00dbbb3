//! How much of the book is published.

use super::{climate, lists, planting, seeds};
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

/// A group of crops, the share of its core figures that has to be published, per cent, and who belongs to it.
type Group = (&'static str, f64, Belongs);

/// What of a group's core figures is published: by figure, those found and all there are.
#[derive(Default)]
struct Share {
    crops: usize,
    by_figure: BTreeMap<&'static str, (u32, u32)>,
    lacking: BTreeMap<String, Vec<&'static str>>,
}

impl Share {
    fn percent((found, all): (u32, u32)) -> f64 {
        if all == 0 { 0.0 } else { 100.0 * f64::from(found) / f64::from(all) }
    }
    fn whole(&self) -> (u32, u32) {
        self.by_figure.values().fold((0, 0), |sum, (found, all)| (sum.0 + found, sum.1 + all))
    }
    fn print(&self, name: &str) {
        let columns: Vec<String> =
            CORE.iter().map(|f| format!("{:>7.0}", Self::percent(self.by_figure[f]))).collect();
        let (found, all) = self.whole();
        let share = Self::percent((found, all));
        println!("{name:<36}{:>5}{}{found:>6} of {all:<4}{share:>6.1}", self.crops, columns.concat());
    }
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
        Some(lists::lists()),
    ];
    if tables.iter().any(Option::is_none) {
        return;
    }
    let published: BTreeSet<(CropId, &str)> =
        tables.into_iter().flatten().flat_map(|t| t.published).collect();
    let is = |crop: &Crop, figure| published.contains(&(crop.id.clone(), figure));
    // A family is a matter of the genus: one row of the genus settles it.
    let genera: BTreeSet<&str> = store::book().crops().filter(|c| is(c, "family")).map(genus).collect();
    let charted: BTreeSet<&str> = planting::vegetables().unwrap_or_default().into_iter().collect();
    let grown_for = |what: Use| move |c: &Crop| c.of.is_none() && c.uses.first() == Some(&what);
    let groups: [Group; 6] = [
        ("vegetables of the extension charts", 85.0, Box::new(move |c| charted.contains(c.id.as_str()))),
        ("all vegetables and fruit", 80.0, Box::new(grown_for(Use::Food))),
        ("herbs", 30.0, Box::new(grown_for(Use::Herb))),
        ("cut flowers", 12.0, Box::new(grown_for(Use::CutFlower))),
        ("cover crops", 0.0, Box::new(grown_for(Use::Cover))),
        ("the whole book", 40.0, Box::new(|c| c.of.is_none())),
    ];
    let heads: Vec<String> = CORE.iter().map(|f| format!("{:>7}", f.get(..6).unwrap_or(f))).collect();
    println!("{:<36}crops{}       published  share, %", "core figures that match a row, %", heads.concat());
    for (name, least, belongs) in groups {
        let mut share = Share::default();
        for crop in store::book().crops().filter(|c| belongs(c)) {
            share.crops += 1;
            for figure in CORE {
                let (found, all) = share.by_figure.entry(figure).or_default();
                if crop.seed.per_gram <= 0.0 && ["germination", "seed.life"].contains(&figure) {
                    continue;
                }
                *all += 1;
                if is(crop, figure) || (figure == "family" && genera.contains(genus(crop))) {
                    *found += 1;
                } else {
                    share.lacking.entry(crop.id.to_string()).or_default().push(figure);
                }
            }
        }
        share.print(name);
        let reached = Share::percent(share.whole());
        assert!(reached >= least, "{name}: {reached:.1} %, lacking {:#?}", share.lacking);
    }
}
