//! The year in hand: jobs, diary, forecast, needs, close.

mod diary;
mod jobs;
mod needs;
mod published;

use crate::support::example;
use catchcrop::calendar::{Date, plus};
use catchcrop::crop::{Book, CropId, Start};
use catchcrop::garden::{Block, Layer, PlaceId, plants_in};
use catchcrop::growth::{Conditions, Dates, age, outlook};
use catchcrop::plan::{Edit, Plan, Planting, PlantingId, Why};
use catchcrop::site::SiteYear;

pub(crate) fn book() -> &'static Book {
    catchcrop::store::book()
}

pub(crate) fn day(text: &str) -> Date {
    catchcrop::calendar::read_date(text).unwrap()
}

/// Cells of a place: row, column, rows, columns.
pub(crate) fn block(row: u16, col: u16, rows: u16, cols: u16) -> Block {
    Block { row, col, rows, cols }
}

/// A garden of the examples with its site's year.
pub(crate) fn garden(stem: &str) -> (Plan, SiteYear) {
    let plan = example(stem);
    let year = SiteYear::new(&plan.site).unwrap();
    (plan, year)
}

/// Puts a planting that takes its cells from a day on, its dates from the garden's own conditions, in the first way
/// of starting the crop.
pub(crate) fn put(
    plan: &mut Plan,
    year: &SiteYear,
    (crop, place): (&str, &str),
    cells: Block,
    begins: &str,
) -> PlantingId {
    let crop = book().get(&CropId::new(crop)).unwrap();
    let start = crop.starts[0];
    let conditions = Conditions::new(year).by(plan.settings.method).at(plan.settings.risk);
    let on = plus(day(begins), -age(start));
    let schedule =
        outlook(crop, &conditions, start, on).schedule.unwrap_or_else(|| panic!("{} never ripens", crop.id));
    let mut planned: Dates = schedule.dates;
    if start == Start::InPlace {
        planned.sown = Some(day(begins));
    }
    let id = plan.next_planting();
    let planting = Planting {
        id,
        crop: crop.id.clone(),
        name: crop.name.clone(),
        botanical: crop.botanical.clone(),
        family: crop.family.clone(),
        place: PlaceId::new(place),
        block: cells,
        layer: Layer::Main,
        start,
        plants: plants_in(crop.spacing.wide, cells.rows, cells.cols, plan.settings.cell).max(1),
        planned,
        shift: None,
        real: Dates::default(),
        fixed: false,
        why: Why::Hand,
        failed: None,
        note: String::new(),
    };
    plan.apply(&Edit::Planting(id, Some(Box::new(planting)))).unwrap();
    id
}

/// The courtyard with a few plantings of one spring and summer.
pub(crate) fn courtyard() -> (Plan, SiteYear) {
    let (mut plan, year) = garden("courtyard");
    plan.plantings.clear();
    put(&mut plan, &year, ("radish", "box-1"), block(0, 0, 1, 1), "2027-04-10");
    put(&mut plan, &year, ("bean", "box-1"), block(0, 0, 1, 1), "2027-06-05");
    put(&mut plan, &year, ("carrot", "box-1"), block(1, 0, 2, 2), "2027-04-17");
    put(&mut plan, &year, ("tomato", "box-2"), block(0, 0, 2, 2), "2027-05-15");
    put(&mut plan, &year, ("garlic", "box-3"), block(0, 0, 2, 2), "2027-10-16");
    put(&mut plan, &year, ("pepper", "pot-1"), block(0, 0, 1, 1), "2027-05-29");
    (plan, year)
}
