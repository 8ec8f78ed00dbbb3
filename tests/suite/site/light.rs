//! Hours of direct sun on the cells of a garden.

use crate::growth::own::slow_bean;
use crate::support::{example, opened, press, screen};
use catchcrop::calendar::{Season, Week, read_date};
use catchcrop::crop::CropId;
use catchcrop::garden::{Block, PlaceId};
use catchcrop::growth::Dates;
use catchcrop::plan::{Plan, Planting, Settings};
use catchcrop::site::{LightClass, Obstacle, ObstacleKind, SiteSpec, SiteYear};
use catchcrop::store::{book, plan_text};
use catchcrop::units::{Length, LengthUnit};

fn m(value: f64) -> Length {
    Length::new(value, LengthUnit::M)
}

/// A box of 4 by 4 cells with a wall three metres high a pace to its south.
fn walled() -> Plan {
    let mut plan = Plan::new("walled", SiteSpec::from_preset("new-york").unwrap(), Settings::default());
    plan.places.push(crate::plans::bed("box-1", 4.0, 4.0));
    plan.site.obstacles.push(Obstacle {
        name: String::from("wall"),
        kind: ObstacleKind::Wall,
        x: m(-20.0),
        y: m(2.0),
        across: m(40.0),
        down: m(0.3),
        height: m(3.0),
        clear: None,
        bare: None,
    });
    plan
}

fn season(plan: &Plan, year: &SiteYear) -> Season {
    plan.season(read_date("2027-05-01").unwrap(), year.season_start_or_january())
}

#[test]
fn a_wall_takes_the_sun_of_winter_first_and_of_near_cells_most() {
    let plan = walled();
    let year = SiteYear::new(&plan.site).unwrap();
    let light = plan.light(book(), &year, season(&plan, &year));
    let [place] = &light[..] else { panic!("one place") };
    assert_eq!((place.grid, place.cells.len(), place.tall), ((4, 4), 16, 0));
    let (north, south) = (&place.cells[0], &place.cells[15]);
    // Twenty-six degrees of noon sun in December do not clear the wall, seventy in June do.
    assert!(north[11] < 0.5 && south[11] < 0.5, "{north:?}");
    assert!(south[5] > 14.0 && south[4] > 5.0 && south[4] < north[4] - 2.0, "{north:?} {south:?}");
    assert!(place.season[15] < place.season[0]);
    let open = Plan { site: SiteSpec::from_preset("new-york").unwrap(), ..plan.clone() };
    let free = open.light(book(), &year, season(&open, &year));
    assert!(free[0].cells.iter().all(|h| h[4] >= north[4] && h[11] > 7.0));
    assert_eq!(free[0].class(0), LightClass::Full);
    // An open box has one figure for all of its cells.
    assert_eq!(free[0].alike().len(), 1);
    assert!(place.alike().iter().map(|(block, _)| block.area()).sum::<usize>() == 16);
}

#[test]
fn a_tall_planting_shades_its_neighbours_while_it_stands() {
    let mut plan = walled();
    plan.site.obstacles.clear();
    let year = SiteYear::new(&plan.site).unwrap();
    let before = plan.light(book(), &year, season(&plan, &year))[0].cells.clone();
    let corn = book().get(&CropId::new("corn")).unwrap();
    let mut tall: Planting =
        crate::growth::own::seasons_of(&slow_bean().0, &slow_bean().1, 1).plantings.remove(0);
    tall.crop = corn.id.clone();
    tall.block = Block { row: 3, col: 0, rows: 1, cols: 4 };
    tall.real = Dates::default();
    let day = |text: &str| read_date(text).unwrap();
    tall.planned = Dates {
        sown: Some(day("2027-05-10")),
        first_pick: Some(day("2027-08-01")),
        cleared: Some(day("2027-09-30")),
        ..Dates::default()
    };
    plan.plantings.push(tall);
    let light = plan.light(book(), &year, season(&plan, &year));
    let place = &light[0];
    assert_eq!(place.tall, 1);
    let lost = |cell: usize, month: usize| before[cell][month] - place.cells[cell][month];
    // The row to its north loses sun in August, nothing in April and November; its own row loses nothing.
    assert!(lost(9, 7) > 2.0, "{}", lost(9, 7));
    assert!(lost(9, 7) > lost(1, 7));
    assert!(lost(9, 3).abs() < 1e-9 && lost(9, 10).abs() < 1e-9);
    assert!(lost(13, 7).abs() < 1e-9);
    // The season after has no corn.
    let next = plan.season(day("2028-05-01"), year.season_start_or_january());
    assert_eq!(plan.light(book(), &year, next)[0].tall, 0);
}

/// On the screen a cell's hours are reckoned when the cursor first comes to it, kept as long as the season and the plan
/// stay as they are, and told on the card of the cell.
#[test]
fn the_card_tells_the_hours_and_keeps_them() {
    let mut model = opened(walled());
    let words = screen(&mut model, 80, 24);
    let key = |row, col| (PlaceId::new("box-1"), (row, col));
    assert_eq!(model.light.keys().cloned().collect::<Vec<_>>(), [key(0, 0)]);
    let hours = model.light[&key(0, 0)];
    assert!(words.contains(&format!("May sun {:.1} h: full sun", hours[4])), "{words}");
    press(&mut model, "jjj");
    assert_eq!(model.light.len(), 4);
    assert!(model.light[&key(3, 0)][4] < hours[4]);
    // A mark that only a new reckoning would wipe out.
    model.light.insert(key(0, 0), [1.5; 12]);
    press(&mut model, "kkk");
    assert!(screen(&mut model, 80, 24).contains("May sun 1.5 h: shade"));
    // Another season may have other tall plantings, and a change of the plan too.
    model.week = Week::of(read_date("2028-05-20").unwrap());
    press(&mut model, "j");
    assert_eq!(model.light.keys().cloned().collect::<Vec<_>>(), [key(1, 0)]);
}

#[test]
fn the_command_prints_every_cell() {
    let home = crate::cli::Home::new();
    let garden = home.file("walled.ron", &plan_text(&walled()).unwrap());
    let json = home.run(&["site", "--sun", &garden, "--on", "2027-05-01", "--json"]).json();
    assert_eq!(json["season"], 2027);
    let place = &json["places"][0];
    let cells = place["cells"].as_array().unwrap();
    assert_eq!((place["rows"].as_u64(), cells.len()), (Some(4), 16));
    assert_eq!(cells[7]["row"], 1);
    assert_eq!(cells[7]["col"], 3);
    assert!(cells.iter().all(|c| c["hours"].as_array().unwrap().len() == 12 && c["class"].is_string()));
    let text = home.run(&["site", &garden, "--sun", "--on", "2027-05-01"]).done();
    for word in ["A1", "Jun", "part shade", "open sky", "season of 2027"] {
        assert!(text.contains(word), "{word}: {text}");
    }
    println!("{text}");
    let bare = home.run(&["site", "new-york", "--sun"]);
    assert_eq!(bare.code, 2);
    assert!(bare.said.contains("catchcrop site PLAN --sun"), "{}", bare.said);
    // A place whose hours were counted says so.
    let courtyard = example("courtyard");
    if courtyard.places.iter().any(|p| p.sun_hours.is_some()) {
        let path = super::super::cli::example("courtyard.ron");
        assert!(home.run(&["site", &path, "--sun"]).done().contains("counted by you"));
    }
}
