//! The book against the climates the program comes with.

use catchcrop::calendar::{Date, plus};
use catchcrop::growth::{Conditions, schedule};
use catchcrop::site::{SiteYear, presets};
use catchcrop::store::book;

/// Every crop and variety can be grown on at least one of the preset sites, from at least one of its starts.
#[test]
fn every_crop_grows_somewhere() {
    let sites: Vec<(&str, SiteYear)> =
        presets::all().iter().map(|p| (p.id, SiteYear::preset(p.id).unwrap())).collect();
    let first = Date::from_ymd_opt(2026, 1, 1).unwrap();
    let mut nowhere = Vec::new();
    for crop in book().crops() {
        let grows = |year: &SiteYear| {
            let conditions = Conditions::new(year);
            let days = (0..365).step_by(5).map(|n| plus(first, n));
            crop.starts.iter().any(|s| days.clone().any(|on| schedule(crop, &conditions, *s, on).is_ok()))
        };
        if !sites.iter().any(|(_, year)| grows(year)) {
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
