//! Stories of growers, end to end: garden, site and plantings given, something happens, and the diary, the forecast
//! and the jobs answer. Frost dates and days of varieties are what the growers know; the sums are the extension
//! services' count back from the first frost (days, picking, 14 days of autumn, 14 for tender crops: Virginia Tech
//! horticulture, quoted 2011).

use catchcrop::calendar::{Date, MonthDay, Week, days_between, plus, read_date};
use catchcrop::crop::{Book, BookFile, CountedFrom, CropId, Entry, Maturity, Start};
use catchcrop::garden::{Block, Kind, Layer, Place, PlaceId, Point, Shape, plants_in};
use catchcrop::growth::{Conditions, Dates, Method, Refusal, Risk, Stage, outlook};
use catchcrop::plan::{Cause, Edit, Event, Plan, Planting, PlantingId, Settings, Why};
use catchcrop::site::{SiteSpec, SiteYear};
use catchcrop::store;
use catchcrop::units::{Length, LengthUnit, Measure};
use catchcrop::work::{JobKind, entry, forecast, jobs, note};

fn day(text: &str) -> Date {
    read_date(text).unwrap()
}

/// A grower with one box of 4 x 4 ft and varieties of known days.
struct Grower {
    plan: Plan,
    book: Book,
    year: SiteYear,
}

impl Grower {
    /// At a climate framed by the grower's own frost dates, with varieties: id, crop, days, picking days.
    fn new(preset: &str, (last, first): (&str, &str), varieties: &[(&str, &str, u16, u16)]) -> Self {
        let date = |text: &str| text.parse::<MonthDay>().unwrap();
        let site = SiteSpec {
            last_frost: Some(date(last)),
            first_frost: Some(date(first)),
            ..SiteSpec::from_preset(preset).unwrap()
        };
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
        let (book, faults) = Book::build(files);
        assert!(faults.is_empty(), "{faults:?}");
        let settings =
            Settings { method: Method::Catalogue, risk: Risk::Bold, ..Settings::for_measure(Measure::Us) };
        let mut plan = Plan::new("Larkhollow", site, settings);
        let ft = |n: f64| Length::new(n, LengthUnit::Ft);
        let id = PlaceId::new("box-1");
        let place = Place {
            id: id.clone(),
            name: "Box".to_owned(),
            kind: Kind::Box,
            at: Point { x: ft(0.0), y: ft(0.0) },
            shape: Shape::Rect { across: ft(4.0), down: ft(4.0), depth: ft(1.0) },
            on_paving: false,
            on_deck: false,
            tags: Vec::new(),
            since: day("2024-03-01"),
            fresh: true,
            until: None,
            refilled: Vec::new(),
            sun_hours: None,
            supports: Vec::new(),
            covers: Vec::new(),
            amendments: Vec::new(),
            lead: None,
            moves: Vec::new(),
            note: String::new(),
        };
        plan.apply(&Edit::Place(id, Some(Box::new(place)))).unwrap();
        let year = SiteYear::new(&plan.site).unwrap();
        Self { plan, book, year }
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
    /// Puts a planting into a cell, cleared on a day of the grower's own if one is given.
    fn put(&mut self, crop: &str, start: Start, on: &str, cleared: Option<&str>) -> PlantingId {
        let crop = self.book.get(&CropId::new(crop)).unwrap();
        let mut planned = outlook(crop, &self.conditions(), start, day(on)).schedule.unwrap().dates;
        if let Some(cleared) = cleared {
            planned.cleared = Some(day(cleared));
            planned.last_pick = planned.last_pick.map(|d| d.min(day(cleared)));
        }
        let id = self.plan.next_planting();
        let block = Block { row: 0, col: 0, rows: 2, cols: 2 };
        let planting = Planting {
            id,
            crop: crop.id.clone(),
            name: crop.name.clone(),
            botanical: crop.botanical.clone(),
            family: crop.family.clone(),
            place: PlaceId::new("box-1"),
            block,
            layer: Layer::Main,
            start,
            plants: plants_in(crop.spacing.wide, 2, 2, self.plan.settings.cell).max(1),
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
    fn say(&mut self, planting: PlantingId, on: &str, what: Event) {
        let said = entry(&self.plan, Some(planting), day(on), what);
        let edit = note(&self.plan, &self.book, &self.year, said).unwrap();
        self.plan.apply(&edit).unwrap();
    }
    fn of(&self, planting: PlantingId) -> &Planting {
        self.plan.planting(planting).unwrap()
    }
}

/// Maritime, two boxes, late peas (60 days, picked for 14): 60 + 14 + 14 = 88 days before 10 November is 14 August.
#[test]
fn late_peas_wait_for_the_beets_only_until_the_fourteenth_of_august() {
    let mut grower = Grower::new(
        "victoria-bc",
        ("03-10", "11-10"),
        &[("pea-60", "pea", 60, 14), ("beet-50", "beet", 50, 1)],
    );
    assert_eq!(grower.latest("pea-60", "2027-11-10"), day("2027-08-14"));
    let beet = grower.put("beet-50", Start::InPlace, "2027-06-19", Some("2027-08-07"));
    let pea = grower.put("pea-60", Start::InPlace, "2027-08-07", None);
    // Six days lost in June: the peas go in on the garden day a week later, the last one in time.
    grower.say(beet, "2027-06-25", Event::Done(Stage::Sown));
    let seen = forecast(&grower.plan, &grower.book, &grower.year);
    assert_eq!(seen.conflicts, Vec::<String>::new());
    grower.plan.apply(&seen.edit).unwrap();
    assert_eq!(grower.of(pea).begins(), Some(day("2027-08-14")), "{:?}", seen.moved);
    // Cleared four days later still, there is no garden day left for peas, and the forecast says so.
    grower.say(beet, "2027-08-18", Event::Done(Stage::Cleared));
    let seen = forecast(&grower.plan, &grower.book, &grower.year);
    assert!(seen.conflicts[0].contains("14 Aug"), "{:?}", seen.conflicts);
    // One cell through the year: 87 + 51 + 88 of 230 days.
    let taken: i64 =
        [("2027-03-25", "2027-06-20"), ("2027-06-22", "2027-08-12"), ("2027-08-14", "2027-11-10")]
            .iter()
            .map(|(a, b)| days_between(day(a), day(b)))
            .sum();
    assert_eq!(taken, 226);
}

/// Prairie, beans of 52 days and tomatoes of 70: what a freeze on 3 June costs.
#[test]
fn a_freeze_in_june_costs_fourteen_days_of_tomatoes_not_the_crop() {
    let mut grower = Grower::new(
        "intl-falls-mn",
        ("05-25", "09-12"),
        &[("bean-52", "bean", 52, 14), ("tomato-70", "tomato-bush", 70, 60)],
    );
    assert_eq!(grower.latest("bean-52", "2027-09-12"), day("2027-06-10"));
    let days = grower.book.get(&CropId::new("tomato-70")).unwrap().days;
    assert_eq!(days.from, CountedFrom::SettingOut);
    let early = grower.put("tomato-70", Start::Bought, "2027-05-25", None);
    assert_eq!(grower.of(early).planned.first_pick, Some(day("2027-08-03")));
    grower.say(early, "2027-05-25", Event::Done(Stage::SetOut));
    grower.say(early, "2027-06-03", Event::Failed(Cause::Frost));
    assert_eq!(grower.of(early).ends(), Some(day("2027-06-03")));
    let spare = grower.put("tomato-70", Start::Bought, "2027-06-08", None);
    assert!(!grower.of(early).collides(grower.of(spare)), "the cells are free again");
    let frost = day("2027-09-12");
    let left = |id| days_between(grower.of(id).planned.first_pick.unwrap(), frost);
    assert_eq!((days_between(day("2027-08-03"), frost), left(spare)), (40, 26));
    let week = jobs(&grower.plan, &grower.book, &grower.year, Week::of(day("2027-06-08")));
    assert!(week.iter().any(|j| j.kind == JobKind::SetOut && j.planting == Some(spare)));
    assert!(week.iter().all(|j| j.planting != Some(early)), "what froze makes no more work");
}

/// Atlantic, peas cleared on 5 July: beet by 29 July, and once more in time after slugs on 20 July.
#[test]
fn beets_eaten_on_the_twentieth_of_july_are_sown_again_that_day() {
    let mut grower = Grower::new(
        "london",
        ("04-15", "10-20"),
        &[
            ("bean-52", "bean", 52, 14),
            ("beet-55", "beet", 55, 14),
            ("carrot-70", "carrot", 70, 14),
            ("lettuce-45", "lettuce", 45, 14),
        ],
    );
    assert_eq!(days_between(day("2027-07-05"), day("2027-10-20")), 107);
    for (crop, last) in
        [("bean-52", "07-18"), ("carrot-70", "07-14"), ("beet-55", "07-29"), ("lettuce-45", "08-08")]
    {
        assert_eq!(grower.latest(crop, "2027-10-20"), day(&format!("2027-{last}")), "{crop}");
    }
    let beet = grower.put("beet-55", Start::InPlace, "2027-07-05", None);
    grower.say(beet, "2027-07-05", Event::Done(Stage::Sown));
    grower.say(beet, "2027-07-20", Event::Failed(Cause::Eaten));
    let free = grower.plan.standing(&PlaceId::new("box-1"), (0, 0), Layer::Main, day("2027-07-20"));
    assert!(free.is_none(), "{free:?}");
    assert_eq!(days_between(day("2027-07-20"), day("2027-10-20")), 92);
    let again = grower.put("beet-55", Start::InPlace, "2027-07-20", None);
    let week = jobs(&grower.plan, &grower.book, &grower.year, Week::of(day("2027-07-20")));
    let sow = week.iter().find(|j| j.kind == JobKind::Sow).unwrap();
    assert_eq!(sow.planting, Some(again));
    assert!(forecast(&grower.plan, &grower.book, &grower.year).conflicts.is_empty());
}
