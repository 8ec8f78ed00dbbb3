//! The book against the climates the program comes with.

use catchcrop::growth::grows;
use catchcrop::site::{SiteYear, presets};
use catchcrop::store::book;

/// Every crop and variety can be grown on at least one of the preset sites, from at least one of its starts.
#[test]
fn every_crop_grows_somewhere() {
    let sites: Vec<(&str, SiteYear)> =
        presets::all().iter().map(|p| (p.id, SiteYear::preset(p.id).unwrap())).collect();
    let mut nowhere = Vec::new();
    for crop in book().crops() {
        if !sites.iter().any(|(_, year)| grows(crop, year)) {
            nowhere.push(crop.id.as_str());
        }
    }
    println!(
        "{} crops and varieties, each of which grows on one of {} sites",
        book().crops().count(),
        sites.len()
    );
    assert!(nowhere.is_empty(), "{nowhere:?}");
}
