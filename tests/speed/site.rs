//! A site's year and what is asked of it.

use catchcrop::calendar::ClimateDay;
use catchcrop::site::degree::Response;
use catchcrop::site::shade::{Block, Spot, SunPaths};
use catchcrop::site::{SiteSpec, SiteYear, chance};
use divan::{Bencher, black_box};

/// A whole year with both shown frost thresholds, from normals.
#[divan::bench(args = ["new-york", "ottawa", "las-cruces-nm", "nairobi"])]
fn site_year(bencher: Bencher<'_, '_>, id: &str) {
    let Ok(spec) = SiteSpec::from_preset(id) else { return };
    bencher.bench(|| {
        SiteYear::new(black_box(&spec))
            .map(|year| (year.frost(0.0), year.frost(-2.2), year.rates(Response::COOL)))
    });
}

/// One more threshold, such as a crop's killing temperature.
#[divan::bench(args = ["new-york", "nairobi"])]
fn frost_threshold(bencher: Bencher<'_, '_>, id: &str) {
    let Ok(year) = SiteYear::preset(id) else { return };
    bencher.with_inputs(|| SiteYear::clone(&year)).bench_refs(|year| year.frost(-5.0));
}

/// The same threshold asked again.
#[divan::bench]
fn frost_again(bencher: Bencher<'_, '_>) {
    let Ok(year) = SiteYear::preset("new-york") else { return };
    bencher.bench(|| year.frost(black_box(-2.2)));
}

/// Chance to ripen before frost.
#[divan::bench]
fn ripe_before_frost(bencher: Bencher<'_, '_>) {
    let Ok(year) = SiteYear::preset("new-york") else { return };
    let (rate, frost) = (year.rates(Response::WARM), year.frost(-1.0));
    bencher
        .bench(|| chance::ripe_before_frost(&rate, black_box(ClimateDay::new(190)), 715.0, &frost, year.sd));
}

/// The sun's paths of a site, once a garden.
#[divan::bench]
fn sun_paths() -> SunPaths {
    SunPaths::new(black_box(45.0), 0.0)
}

/// Hours of sun by month of 1,000 cells behind ten obstacles.
#[divan::bench]
fn shade_1000_cells(bencher: Bencher<'_, '_>) {
    let paths = SunPaths::new(45.0, 0.0);
    let at = |i: u32| f64::from(i) * 1.1;
    let blocks: Vec<Block> =
        (0..10).map(|i| Block::planting((at(i), at(i) + 0.8), (9.0, 9.4), 3.0, None)).collect();
    bencher.bench(|| {
        (0..1000_u32)
            .map(|i| {
                let spot = Spot { x: f64::from(i % 40) * 0.3, y: f64::from(i / 40) * 0.3, z: 0.3 };
                paths.hours(spot, black_box(&blocks))[6]
            })
            .sum::<f64>()
    });
}
