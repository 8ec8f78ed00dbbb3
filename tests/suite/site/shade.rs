//! Shade by obstacles and tall plantings.

use super::close;
use catchcrop::calendar::ClimateDay;
use catchcrop::site::shade::{Block, LightClass, SunPaths, season_mean};
use catchcrop::site::shade::{Obstacle, ObstacleKind, Spot};
use catchcrop::site::{SiteSpec, SiteYear, sun};

const BED: Spot = Spot { x: 0.0, y: 0.0, z: 0.0 };

fn wall(x: (f64, f64), y: (f64, f64), height: f64) -> Block {
    Block::planting(x, y, height, None)
}

#[test]
fn an_open_sky_gives_the_daylength_less_the_low_sun() {
    for lat in [-34.0, 0.0, 40.8, 52.0] {
        let hours = SunPaths::new(lat, 0.0).open();
        let long = sun::daylengths(lat);
        for (month, hours) in hours.into_iter().enumerate() {
            let day = long[catchcrop::site::day::MONTH_START[month] + 15];
            assert!(hours < day && hours > day - 1.6, "{lat} month {month}: {hours} of {day}");
        }
    }
}

/// An endless wall to the east hides the sun until the tangent of its height, seen across the wall, passes the
/// wall's rise over run. At the equator on an equinox the sun climbs straight up from the east, 15 degrees an
/// hour: a wall as high as it is far away (45 degrees) takes away the first three hours.
#[test]
fn a_wall_at_the_equator_takes_the_hours_geometry_says() {
    let paths = SunPaths::new(0.0, 0.0);
    let east = wall((2.0, 2.2), (-1000.0, 1000.0), 2.0);
    let (open, shaded) = (paths.open(), paths.hours(BED, &[east]));
    // Sunrise to 3 degrees, 0.2 h, is not counted in the open either.
    close(open[2] - shaded[2], 2.8, 0.26);
    let west = wall((-2.2, -2.0), (-1000.0, 1000.0), 2.0);
    close(paths.hours(BED, &[west])[2], shaded[2], 0.26);
    close(paths.hours(BED, &[east, west])[2], open[2] - 5.6, 0.51);
}

/// At noon the sun stands 90 - latitude + declination high: an endless wall to the south whose top is lower than
/// that never hides the noon sun, one that is higher hides all of it in winter.
#[test]
fn a_wall_to_the_south_hides_the_winter_sun() {
    let paths = SunPaths::new(45.0, 0.0);
    // December noon 21.6 degrees, June 68.4 degrees; a wall seen 30 degrees high.
    let height = 3.0 * 30.0_f64.to_radians().tan();
    let south = wall((-1000.0, 1000.0), (3.0, 3.2), height);
    let hours = paths.hours(BED, &[south]);
    close(hours[11], 0.0, 1e-9);
    // In June the sun is north of the wall's line or above its top all day.
    close(hours[5], paths.open()[5], 0.8);
    // The same wall on the north side takes little, and nothing in winter.
    let north = wall((-1000.0, 1000.0), (-3.2, -3.0), height);
    close(paths.hours(BED, &[north])[11], paths.open()[11], 1e-9);
    // South of the equator it is the other way about.
    let turned = SunPaths::new(-45.0, 0.0);
    close(turned.hours(BED, &[north])[5], 0.0, 1e-9);
    close(turned.hours(BED, &[south])[5], turned.open()[5], 1e-9);
}

#[test]
fn a_turned_plan_turns_the_shadow() {
    // The plan's top points east: what lies at its right hand lies south.
    let paths = SunPaths::new(45.0, 90.0);
    let right = wall((3.0, 3.2), (-1000.0, 1000.0), 3.0 * 30.0_f64.to_radians().tan());
    close(paths.hours(BED, &[right])[11], 0.0, 1e-9);
}

#[test]
fn trees_let_light_through_and_lose_their_leaves() {
    let metres = |m: f64| catchcrop::units::Length::new(m, catchcrop::units::LengthUnit::M);
    let tree = Obstacle {
        name: "plum".into(),
        kind: ObstacleKind::Tree,
        x: metres(-3.0),
        y: metres(2.0),
        across: metres(6.0),
        down: metres(5.0),
        height: metres(7.0),
        clear: Some(metres(2.0)),
        bare: Some(("11-10".parse().unwrap(), "04-20".parse().unwrap())),
    };
    let paths = SunPaths::new(45.0, 0.0);
    let open = paths.open();
    let leafy = paths.hours(BED, &[Obstacle { bare: None, ..tree.clone() }.block()]);
    let real = paths.hours(BED, &[tree.block()]);
    close(real[6], leafy[6], 1e-12);
    assert!(real[0] > leafy[0] + 1.0 && real[0] < open[0]);
    let solid = paths.hours(BED, &[Block { passes: 0.0, ..Obstacle { bare: None, ..tree.clone() }.block() }]);
    assert!(solid.iter().zip(leafy).all(|(a, b)| *a <= b));
    // The low sun shines in beneath the crown.
    let skirted = paths.hours(BED, &[Obstacle { clear: None, ..tree.clone() }.block()]);
    assert!(skirted[9] < real[9]);
    let trouble = Obstacle { height: metres(0.0), ..tree };
    let spec = SiteSpec { obstacles: vec![trouble], ..SiteSpec::from_preset("ottawa").unwrap() };
    let error = SiteYear::new(&spec).unwrap_err().to_string();
    assert!(error.contains("'plum' has no height"), "{error}");
}

#[test]
fn tall_plantings_shade_their_neighbours_while_they_stand() {
    let paths = SunPaths::new(52.0, 0.0);
    let summer = Some((ClimateDay::new(150), ClimateDay::new(270)));
    // A trellis of beans 2 m high along the south side of the next cell.
    let beans = Block::planting((-1.5, 1.5), (0.3, 0.6), 2.0, summer);
    let behind = paths.hours(BED, &[beans]);
    let open = paths.open();
    assert!(behind[6] < open[6] - 2.0);
    close(behind[3], open[3], 1e-12);
    // Not themselves.
    let own = Spot { x: 0.0, y: 0.45, z: 0.3 };
    close(paths.hours(own, &[beans])[6], open[6], 1e-12);
    // A raised rim sees over a low row.
    let low = Block::planting((-1.5, 1.5), (0.3, 0.6), 0.3, None);
    close(paths.hours(Spot { z: 0.4, ..BED }, &[low])[6], open[6], 1e-12);
}

#[test]
fn classes_are_those_of_the_bulletins() {
    assert_eq!(
        [3.9, 4.0, 5.9, 6.0].map(LightClass::of).map(LightClass::words),
        ["shade", "part shade", "part shade", "full sun"]
    );
    let year = SiteYear::preset("ottawa").unwrap();
    let hours = std::array::from_fn(|m| if (4..9).contains(&m) { 8.0 } else { 2.0 });
    let mean = season_mean(&hours, &year.soil, 10.0);
    assert!((6.0..=8.0).contains(&mean), "{mean}");
}

#[test]
fn a_thousand_cells_behind_ten_obstacles_are_quick_to_ask() {
    let paths = SunPaths::new(45.0, 0.0);
    let blocks: Vec<Block> =
        (0..10).map(|i| wall((f64::from(i), f64::from(i) + 0.8), (-4.0, -3.0), 3.0)).collect();
    let sum: f64 = (0..1000)
        .map(|i| {
            paths.hours(Spot { x: f64::from(i % 40) * 0.3, y: f64::from(i / 40) * 0.3, z: 0.0 }, &blocks)[6]
        })
        .sum();
    assert!(sum > 1000.0);
}
