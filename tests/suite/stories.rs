//! Stories of growers, end to end: garden, site and plantings given, something happens, and the diary, the forecast
//! and the jobs answer. Frost dates and days of varieties are what the growers know; the sums are the extension
//! services' count back from the first frost (days, picking, 14 days of autumn, 14 for tender crops: Virginia Tech
//! horticulture, quoted 2011).

mod atlantic;
mod balcony;
mod city;
mod maritime;
mod prairie;
mod southern;

use catchcrop::calendar::{Date, MonthDay, plus, read_date};
use catchcrop::check::{Context, Finding, check};
use catchcrop::crop::{Book, BookFile, CropId, Entry, Maturity, Start};
use catchcrop::garden::{Block, Kind, Layer, Place, PlaceId, Point, Shape, plants_in};
use catchcrop::growth::{Conditions, Dates, Method, Refusal, Risk, age, outlook};
use catchcrop::plan::{Edit, Event, Plan, Planting, PlantingId, Settings, Why};
use catchcrop::site::{SiteSpec, SiteYear};
use catchcrop::store;
use catchcrop::units::{Length, LengthUnit, Measure};
use catchcrop::work::{self, Beside, entry, note};

fn day(text: &str) -> Date {
    read_date(text).unwrap()
}

/// A grower with two boxes of 4 x 4 ft and varieties of known days.
#[derive(Clone)]
pub(crate) struct Grower {
    plan: Plan,
    files: Vec<(String, BookFile)>,
    book: Book,
    year: SiteYear,
}

/// The findings of one rule.
fn told(grower: &Grower, code: &str) -> Vec<Finding> {
    let context = Context::whole(&grower.plan, &grower.book, &grower.year);
    check(&context).into_iter().filter(|f| f.code == code).collect()
}

/// The date by warmth beside the date by the count, said with the difference and why.
fn beside(grower: &Grower, crop: &str, start: Start, on: &str) -> Beside {
    let crop = grower.book.get(&CropId::new(crop)).unwrap();
    let seen = work::beside(crop, &grower.conditions(), start, day(on)).unwrap();
    let words = seen.words(Measure::Us);
    println!("{} begun {on}: {words}", crop.name);
    assert_eq!(words.contains("because"), seen.days() != 0, "{words}");
    seen
}

impl Grower {
    /// At a climate framed by the grower's own frost dates, with varieties: id, crop, days, picking days.
    fn new(preset: &str, frosts: (&str, &str), varieties: &[(&str, &str, u16, u16)]) -> Self {
        Self::at(preset, None, frosts, varieties)
    }
    /// The same at another latitude.
    fn at(
        preset: &str,
        lat: Option<f64>,
        (last, first): (&str, &str),
        varieties: &[(&str, &str, u16, u16)],
    ) -> Self {
        let date = |text: &str| text.parse::<MonthDay>().unwrap();
        let mut site = SiteSpec {
            last_frost: Some(date(last)),
            first_frost: Some(date(first)),
            ..SiteSpec::from_preset(preset).unwrap()
        };
        site.lat = lat.unwrap_or(site.lat);
        let mut files: Vec<(String, BookFile)> = store::FILES
            .iter()
            .map(|(name, text)| ((*name).to_owned(), store::text::read(name, text).unwrap()))
            .collect();
        let plain = Book::build(files.clone()).0;
        let mut own = BookFile::default();
        for (id, of, days, picking) in varieties {
            let parent = plain.get(&CropId::new(of)).unwrap();
            let mut pick = parent.picking;
            pick.days = *picking;
            let from = parent.days.from;
            own.crops.push(Entry {
                id: (*id).to_owned(),
                of: Some(CropId::new(of)),
                days: Some(Maturity { min: *days, max: *days, from }),
                picking: Some(pick),
                ..Entry::default()
            });
        }
        files.push(("own.ron".to_owned(), own));
        let (book, faults) = Book::build(files.clone());
        assert!(faults.is_empty(), "{faults:?}");
        let settings =
            Settings { method: Method::Catalogue, risk: Risk::Bold, ..Settings::for_measure(Measure::Us) };
        let mut plan = Plan::new("Larkhollow", site, settings);
        let ft = |n: f64| Length::new(n, LengthUnit::Ft);
        for (n, x) in [(1, 0.0), (2, 6.0)] {
            let id = PlaceId::new(&format!("box-{n}"));
            let place = Place {
                fresh: true,
                ..Place::new(
                    id.clone(),
                    format!("Box {n}"),
                    Kind::Box,
                    Point { x: ft(x), y: ft(0.0) },
                    Shape::Rect { across: ft(4.0), down: ft(4.0), depth: ft(1.0) },
                    day("2024-03-01"),
                )
            };
            plan.apply(&Edit::Place(id, Some(Box::new(place)))).unwrap();
        }
        let year = SiteYear::new(&plan.site).unwrap();
        Self { plan, files, book, year }
    }
    fn conditions(&self) -> Conditions<'_> {
        Conditions::new(&self.year).by(Method::Catalogue).at(Risk::Bold)
    }
    /// The last day on which a sowing in place is in time, by the count.
    fn latest(&self, crop: &str, frost: &str) -> Date {
        let crop = self.book.get(&CropId::new(crop)).unwrap();
        let conditions = self.conditions();
        let late = |on| {
            let seen = outlook(crop, &conditions, Start::InPlace, on);
            seen.against.iter().any(|r| matches!(r, Refusal::Late { .. }))
        };
        (0..200).map(|n| plus(day(frost), -n)).find(|on| !late(*on)).unwrap()
    }
    /// Changes a crop or variety for this grower alone.
    fn own(&mut self, crop: &str, change: impl Fn(&mut Entry)) {
        let mut entry = Entry { id: crop.to_owned(), ..Entry::default() };
        change(&mut entry);
        let own = BookFile { crops: vec![entry], ..BookFile::default() };
        self.files.push(("changed.ron".to_owned(), own));
        let (book, faults) = Book::build(self.files.clone());
        assert!(faults.is_empty(), "{faults:?}");
        self.book = book;
    }
    /// Puts a planting into cells of a place: row, column, rows, columns.
    fn put_in(
        &mut self,
        crop: &str,
        (place, (row, col, rows, cols)): (&str, (u16, u16, u16, u16)),
        start: Start,
        on: &str,
    ) -> PlantingId {
        let crop = self.book.named(crop).unwrap().clone();
        let planned = outlook(&crop, &self.conditions(), start, day(on)).schedule;
        // What fails there is planted all the same: the check speaks of it.
        let planned = planned.map_or_else(
            || Dates {
                sown: Some(day(on)),
                first_pick: Some(plus(day(on), 60)),
                last_pick: Some(plus(day(on), 75)),
                cleared: Some(plus(day(on), 75)),
                ..Dates::default()
            },
            |s| s.dates,
        );
        let id = self.plan.next_planting();
        let cells = Block { row, col, rows, cols };
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
            plants: plants_in(crop.spacing.wide, rows, cols, self.plan.settings.cell).max(1),
            planned,
            shift: None,
            real: Dates::default(),
            fixed: false,
            why: Why::Hand,
            failed: None,
            note: String::new(),
        };
        self.plan.apply(&Edit::Planting(id, Some(Box::new(planting)))).unwrap();
        id
    }
    /// The same for raised plants that are set out on a day.
    fn put_raised(
        &mut self,
        crop: &str,
        cells: (&str, (u16, u16, u16, u16)),
        start: Start,
        out: &str,
    ) -> PlantingId {
        let sown = plus(day(out), -age(start)).to_string();
        self.put_in(crop, cells, start, &sown)
    }
    /// Puts a planting into the first box, cleared on a day of the grower's own if one is given.
    fn put(&mut self, crop: &str, start: Start, on: &str, cleared: Option<&str>) -> PlantingId {
        let id = self.put_in(crop, ("box-1", (0, 0, 2, 2)), start, on);
        if let Some(cleared) = cleared {
            let mut planting = self.of(id).clone();
            planting.planned.cleared = Some(day(cleared));
            planting.planned.last_pick = planting.planned.last_pick.map(|d| d.min(day(cleared)));
            self.plan.apply(&Edit::Planting(id, Some(Box::new(planting)))).unwrap();
        }
        id
    }
    fn say(&mut self, planting: PlantingId, on: &str, what: Event) {
        let said = entry(&self.plan, Some(planting), day(on), what);
        let edit = note(&self.plan, &self.book, &self.year, said).unwrap();
        self.plan.apply(&edit).unwrap();
    }
    fn of(&self, planting: PlantingId) -> &Planting {
        self.plan.planting(planting).unwrap()
    }
}
