//! Laws that hold for every crop, site and start.

use super::{crop, date, site_of};
use catchcrop::calendar::{days_between, plus};
use catchcrop::crop::{Clock, Crop, Season};
use catchcrop::growth::{Conditions, Method, Risk, outlook, schedule, water_need, windows};
use catchcrop::site::{Normals, SiteSpec, SiteYear};
use catchcrop::store::book;
use proptest::prelude::*;
use std::sync::LazyLock;

const SITES: [&str; 8] =
    ["new-york", "ottawa", "london", "miami-fl", "edmonton", "melbourne", "nairobi", "new-meadows-id"];
static YEARS: LazyLock<Vec<SiteYear>> = LazyLock::new(|| SITES.iter().map(|s| site_of(s)).collect());
static CROPS: LazyLock<Vec<Crop>> = LazyLock::new(|| book().crops().cloned().collect());

fn any_method() -> impl Strategy<Value = Method> {
    prop_oneof![Just(Method::Heat), Just(Method::Catalogue)]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// The dates of a schedule are in order, its shares sum to at most one, its chance is a chance, and the early
    /// and late dates enclose the expected ones.
    #[test]
    fn schedules_hold_together(c in 0..CROPS.len(), y in 0..SITES.len(), on in 0_i64..730, m in any_method()) {
        let (crop, year) = (&CROPS[c], &YEARS[y]);
        let conditions = Conditions::new(year).by(m);
        for start in &crop.starts {
            let seen = outlook(crop, &conditions, *start, date(2027, on));
            let Some(s) = seen.schedule else { continue };
            for dates in [&s.dates, &s.early, &s.late] {
                let order = dates.in_order();
                prop_assert!(order.windows(2).all(|d| d[0] <= d[1]), "{} {start:?} {order:?}", crop.id);
            }
            prop_assert!((0.0..=1.0).contains(&s.chance));
            prop_assert!((0.0..=1.0).contains(&s.lost));
            let sum: f64 = s.weeks.iter().map(|w| w.1).sum();
            if !crop.is_perennial() {
                prop_assert!(sum <= 1.0 + 1e-9, "{} {sum}", crop.id);
                prop_assert!(s.dates.cleared.is_some());
                prop_assert!((sum + s.lost - 1.0).abs() < 1e-6);
            }
            prop_assert!(s.weeks.windows(2).all(|w| w[0].0 < w[1].0));
            for (early, middle, late) in [
                (s.early.emerged, s.dates.emerged, s.late.emerged),
                (s.early.first_pick, s.dates.first_pick, s.late.first_pick),
                (s.early.last_pick, s.dates.last_pick, s.late.last_pick),
            ] {
                prop_assert!(early <= middle && middle <= late, "{} {early:?} {middle:?} {late:?}", crop.id);
            }
            prop_assert!(s.needs >= 0.0 && s.days >= 0);
        }
    }

    /// A later sowing is never up, ripe or picked out earlier.
    #[test]
    fn a_later_sowing_never_finishes_earlier(
        c in 0..CROPS.len(), y in 0..SITES.len(), on in 0_i64..365, later in 1_i64..60, m in any_method()
    ) {
        let (crop, year) = (&CROPS[c], &YEARS[y]);
        let conditions = Conditions::new(year).by(m);
        for start in &crop.starts {
            let look = |day| outlook(crop, &conditions, *start, date(2027, day)).schedule.map(|s| s.dates);
            let (Some(first), Some(second)) = (look(on), look(on + later)) else { continue };
            if second.emerged.is_some() {
                prop_assert!(first.emerged <= second.emerged, "{} {start:?}", crop.id);
            }
            prop_assert!(first.first_pick <= second.first_pick, "{} {start:?} {on}+{later}", crop.id);
        }
    }

    /// After the warmest day, the chance to ripen in time falls with every day of waiting; a bolder risk refuses no
    /// more; a cover never lowers the chance.
    #[test]
    fn chances_are_monotone(c in 0..CROPS.len(), y in 0..5_usize, on in 206_i64..276, later in 1_i64..30) {
        let (crop, year) = (&CROPS[c], &YEARS[y]);
        if !matches!(crop.clock, Clock::Heat { .. }) || year.frost_plain(0.0).first.five_in_10.is_none() {
            return Ok(());
        }
        let conditions = Conditions::new(year);
        let start = crop.starts[0];
        let on = date(2027, on - catchcrop::growth::age(start));
        let chance = |conditions: &Conditions<'_>, day| {
            outlook(crop, conditions, start, day).schedule.map_or(0.0, |s| s.chance)
        };
        // A crop that stands the winter and ripens in spring is another matter: sown later, it is younger in winter.
        let ripe = outlook(crop, &conditions, start, plus(on, later)).schedule.and_then(|s| s.dates.first_pick);
        if ripe.is_none_or(|r| r > date(2027, 364)) {
            return Ok(());
        }
        // Sown before the frost of the same year: later ones wait for the next.
        let frost = year.frost_plain(0.0).first.five_in_10.unwrap().in_year(2027);
        if plus(on, later + 14) < frost {
            let (a, b) = (chance(&conditions, on), chance(&conditions, plus(on, later)));
            // Frost before it is outside is not counted against a later start: half a percent.
            prop_assert!(b <= a + 5e-3, "{} {a} {b}", crop.id);
        }
        let covered = conditions.clone().under(0.0, 3.0);
        prop_assert!(chance(&covered, on) + 1e-9 >= chance(&conditions, on), "{}", crop.id);
        if schedule(crop, &conditions.clone().at(Risk::Cautious), start, on).is_ok() {
            prop_assert!(schedule(crop, &conditions.clone().at(Risk::Bold), start, on).is_ok());
        }
    }

    /// No finite input, however odd, stops the program.
    #[test]
    fn nothing_panics(
        c in 0..CROPS.len(), y in 0..SITES.len(), on in -400_000_i64..400_000,
        warmth in -1e6_f64..1e6, gain in -1e6_f64..1e6, raising in -1e3_f64..1e3, scale in 0_u16..2000
    ) {
        let mut crop = CROPS[c].clone();
        crop.days.min = scale;
        crop.days.max = scale.saturating_mul(3);
        crop.picking.days = scale;
        let mut conditions = Conditions::new(&YEARS[y]).under(warmth, gain);
        conditions.raising = raising;
        for start in &crop.starts {
            let seen = outlook(&crop, &conditions, *start, date(2027, on));
            for refusal in seen.against {
                prop_assert!(!refusal.words(catchcrop::units::Measure::Us).is_empty());
            }
            if let Some(s) = seen.schedule {
                let week = catchcrop::calendar::Week::of(date(2027, on));
                prop_assert!(water_need(&crop.water, &YEARS[y], &s.dates, week).is_finite());
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// A warmer site never makes a warm-season crop slower, as long as days stay below its upper temperature.
    #[test]
    fn warmth_never_slows_a_warm_crop(on in 90_i64..200, warmer in 0.1_f64..3.0) {
        let preset = SiteSpec::from_preset("london").unwrap();
        let normals = preset.normals.clone().unwrap();
        let moved = |t: [f64; 12]| t.map(|t| t + warmer);
        let warm = SiteSpec {
            normals: Some(Normals { tmax: moved(normals.tmax), tmin: moved(normals.tmin), rain: normals.rain }),
            ..preset
        };
        let (cool, warm) = (&YEARS[2], SiteYear::new(&warm).unwrap());
        for crop in CROPS.iter().filter(|c| matches!(c.clock, Clock::Heat { season: Season::Warm, .. })) {
            let start = crop.starts[0];
            let days = |year: &SiteYear| {
                outlook(crop, &Conditions::new(year), start, date(2027, on)).schedule.map(|s| s.days)
            };
            if let Some(before) = days(cool) {
                prop_assert!(days(&warm).unwrap() <= before, "{}", crop.id);
            }
        }
    }
}

/// Every day of a window succeeds and the days beside it do not.
#[test]
fn windows_are_what_schedules_say() {
    for (preset, id) in
        [("new-york", "pea"), ("london", "bean"), ("melbourne", "carrot"), ("miami-fl", "tomato")]
    {
        let (year, crop) = (site_of(preset), crop(id));
        let conditions = Conditions::new(&year);
        let all = windows(&crop, &conditions, date(2027, 0));
        assert!(!all.is_empty(), "{preset} {id}");
        for w in all {
            let good = |day| schedule(&crop, &conditions, w.start, day).is_ok();
            let days = days_between(w.first, w.last);
            assert!((0..=days).all(|n| good(plus(w.first, n))), "{preset} {id} {w:?}");
            let ends = days < 364;
            assert!(!ends || (!good(plus(w.first, -1)) && !good(plus(w.last, 1))), "{preset} {id} {w:?}");
            assert!(w.chance_at_last >= 0.7 - 1e-9);
        }
    }
}

/// South of the equator the same climate half a year later gives the same days.
#[test]
fn the_south_is_the_north_half_a_year_later() {
    let north = SiteSpec::from_preset("new-york").unwrap();
    let normals = north.normals.clone().unwrap();
    let turned = |t: [f64; 12]| std::array::from_fn(|m| t[(m + 6) % 12]);
    let south = SiteSpec {
        lat: -north.lat,
        normals: Some(Normals { tmax: turned(normals.tmax), tmin: turned(normals.tmin), rain: normals.rain }),
        ..north.clone()
    };
    let (north, south) = (SiteYear::new(&north).unwrap(), SiteYear::new(&south).unwrap());
    for id in ["bean", "pea", "garlic", "carrot", "tomato"] {
        let crop = crop(id);
        let day = if id == "garlic" { 293 } else { 121 };
        let look = |year: &SiteYear, on: i64| {
            outlook(&crop, &Conditions::new(year), crop.starts[0], date(2027, on)).schedule.unwrap()
        };
        let (a, b) = (look(&north, day), look(&south, day + 182));
        assert!((a.days - b.days).abs() <= 4, "{id}: {} north, {} south", a.days, b.days);
    }
}

/// What really happened replaces the forecast and moves everything after it, and nothing before it.
#[test]
fn real_dates_move_what_follows() {
    use catchcrop::growth::{Dates, following};
    let year = site_of("new-york");
    let conditions = Conditions::new(&year);
    let bean = crop("bean");
    let on = date(2027, 140);
    let plan = outlook(&bean, &conditions, bean.starts[0], on).schedule.unwrap();
    let up = plan.dates.emerged.unwrap();
    // Up a week late: picked later, by about that week.
    let late = Dates { sown: Some(on), emerged: Some(plus(up, 7)), ..Dates::default() };
    let seen = following(&bean, &conditions, bean.starts[0], on, &late).schedule.unwrap();
    let moved = days_between(plan.dates.first_pick.unwrap(), seen.dates.first_pick.unwrap());
    assert!((3..=9).contains(&moved), "{moved}");
    assert_eq!(seen.dates.emerged, late.emerged);
    // Picked five days early: the end moves with it.
    let first = plus(plan.dates.first_pick.unwrap(), -5);
    let early = Dates { sown: Some(on), first_pick: Some(first), ..Dates::default() };
    let seen = following(&bean, &conditions, bean.starts[0], on, &early).schedule.unwrap();
    assert_eq!(seen.dates.first_pick, Some(first));
    assert!(seen.dates.last_pick < plan.dates.last_pick && seen.dates.last_pick > Some(first));
    // Cleared is cleared.
    let gone = Dates { cleared: Some(plus(first, 3)), ..early };
    let seen = following(&bean, &conditions, bean.starts[0], on, &gone).schedule.unwrap();
    assert_eq!(seen.dates.cleared, gone.cleared);
}
