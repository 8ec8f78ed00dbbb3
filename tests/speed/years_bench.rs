//! A garden of ten years.

use super::years::ten_years;
use catchcrop::calendar::{Date, Week};
use catchcrop::site::SiteYear;
use catchcrop::{store, work};
use divan::{Bencher, black_box};

/// From the text of the file to a plan that can be worked with. Must stay below 100 ms.
#[divan::bench(sample_count = 20)]
fn open(bencher: Bencher<'_, '_>) {
    let text = store::plan_text(&ten_years()).unwrap_or_default();
    bencher.bench(|| {
        store::read_plan("garden.ron", black_box(&text), store::book()).map_or(0, |p| p.0.plantings.len())
    });
}

/// What is due today.
#[divan::bench(sample_count = 10)]
fn due(bencher: Bencher<'_, '_>) {
    let plan = ten_years();
    let Ok(year) = SiteYear::new(&plan.site) else { return };
    let today = Date::from_ymd_opt(2026, 6, 10).unwrap_or_default();
    bencher.bench(|| {
        work::due(black_box(&plan), store::book(), &year, today).len()
            + usize::from(Week::of(today).number() > 60)
    });
}

/// The forecast that follows an entry.
#[divan::bench(sample_count = 10)]
fn forecast(bencher: Bencher<'_, '_>) {
    let plan = ten_years();
    let Ok(year) = SiteYear::new(&plan.site) else { return };
    bencher.bench(|| work::forecast(black_box(&plan), store::book(), &year).moved.len());
}
