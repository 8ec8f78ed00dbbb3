//! Growth: one schedule, one window, a year of starts of the whole book.

use catchcrop::calendar::{Date, plus};
use catchcrop::crop::{Crop, CropId};
use catchcrop::growth::{Conditions, outlook, ready, schedule, windows};
use catchcrop::site::SiteYear;
use catchcrop::store::book;
use divan::{Bencher, black_box};
use std::sync::LazyLock;

static YEAR: LazyLock<Option<SiteYear>> = LazyLock::new(|| SiteYear::preset("new-york").ok());

fn set(id: &str) -> Option<(&'static Crop, Conditions<'static>)> {
    let year = YEAR.as_ref()?;
    Some((book().get(&CropId::new(id))?, Conditions::new(year)))
}

fn may() -> Date {
    Date::from_ymd_opt(2027, 5, 1).unwrap_or_default()
}

/// A schedule must stay below 20 microseconds: the fill draws up thousands.
#[divan::bench(args = ["radish", "pea", "bean", "tomato", "carrot", "onion", "spinach", "garlic", "strawberry"])]
fn one(bencher: Bencher<'_, '_>, id: &str) {
    let Some((crop, conditions)) = set(id) else { return };
    bencher.bench_local(|| outlook(black_box(crop), &conditions, crop.starts[0], black_box(may())));
}
/// The latest start for a day of harvest.
#[divan::bench]
fn backwards(bencher: Bencher<'_, '_>) {
    let Some((crop, conditions)) = set("bean") else { return };
    bencher.bench_local(|| ready(crop, &conditions, crop.starts[0], black_box(plus(may(), 100))));
}
/// All stretches of a year.
#[divan::bench]
fn stretches(bencher: Bencher<'_, '_>) {
    let Some((crop, conditions)) = set("pea") else { return };
    bencher.bench_local(|| windows(crop, &conditions, black_box(may())));
}
/// What the fill asks once: every crop and way of starting, each week of a year.
#[divan::bench(sample_count = 5)]
fn whole_book(bencher: Bencher<'_, '_>) {
    let Some((_, conditions)) = set("pea") else { return };
    bencher.bench_local(|| {
        let mut good = 0_usize;
        for crop in book().crops() {
            for start in &crop.starts {
                good += (0..52)
                    .filter(|w| schedule(crop, &conditions, *start, plus(may(), 7 * w)).is_ok())
                    .count();
            }
        }
        good
    });
}
