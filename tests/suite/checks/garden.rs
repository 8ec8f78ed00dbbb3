//! A small garden and a small crop book for the rules, written down in as few words as they need.

use catchcrop::calendar::{Date, read_date};
use catchcrop::check::{Context, Finding, check};
use catchcrop::crop::{Book, BookFile, BreakWeight, CropId, Entry, Family, Rotation, Start, Trouble};
use catchcrop::garden::{Block, Kind, Layer, Place, PlaceId, Point, Shape};
use catchcrop::growth::Dates;
use catchcrop::plan::{DiaryEntry, Event, Past, Plan, Planting, PlantingId, Settings, Stood, Why};
use catchcrop::site::{SiteSpec, SiteYear};
use catchcrop::units::{Length, LengthUnit, Measure, Volume, VolumeUnit};
use std::str::FromStr;
use std::sync::LazyLock;

pub(crate) static NEW_YORK: LazyLock<SiteYear> = LazyLock::new(|| SiteYear::preset("new-york").unwrap());
pub(crate) static CHRISTCHURCH: LazyLock<SiteYear> =
    LazyLock::new(|| SiteYear::preset("christchurch").unwrap());

pub(crate) fn date(text: &str) -> Date {
    read_date(text).unwrap()
}
pub(crate) fn length(text: &str) -> Length {
    Length::from_str(text).unwrap()
}

/// A crop with middling figures; each test changes what it is about.
const PLAIN: &str = r#"(
    id: "plain", name: "Plain", botanical: "Planta plana", code: "PL", uses: [Food], part: Leaf,
    spacing: (dense: "6 in", wide: "12 in"), depth: "1 cm", days: (min: 50, max: 60, from: Sowing),
    clock: Heat(season: Cool), starts: [InPlace], germination: Table([(5, 20), (20, 6), (25, 8)]),
    frost: (class: Hardy, foliage: "-8 C", harvest: "-6 C"), picking: (shape: Flush, days: 14, holds: 7),
    harvest: (low: "100 g", usual: "200 g", high: "300 g"), height: "30 cm", habit: Rosette,
    light: (least: 3, full: 5), root_depth: "20 cm",
    pot: (volume: "1 gal", depth: "15 cm", plants: 1),
    water: (kc: (0.7, 1.0, 0.9), stages: (0.2, 0.3, 0.3, 0.2), p: 0.4), feed: Medium,
    seed: (per_gram: 300, life: 4, sprouts: 85), closes: 40,
)"#;

/// A crop book under construction.
pub(crate) struct Shelf {
    crops: Vec<Entry>,
    families: Vec<Family>,
    troubles: Vec<Trouble>,
}

impl Shelf {
    /// Nightshades, legumes, cabbages, daisies and grasses, each with the crops the tests need.
    pub(crate) fn new() -> Self {
        let mut shelf = Self { crops: Vec::new(), families: Vec::new(), troubles: Vec::new() };
        shelf.family("Solanaceae", "nightshades", (3, 3, BreakWeight::Stop), false);
        shelf.family("Fabaceae", "legumes", (2, 3, BreakWeight::Mind), true);
        shelf.family("Brassicaceae", "cabbage family", (2, 3, BreakWeight::Mind), false);
        shelf.family("Asteraceae", "daisy family", (1, 2, BreakWeight::Mind), false);
        shelf.family("Poaceae", "grass family", (0, 1, BreakWeight::Off), false);
        for (id, name, family) in [
            ("tomato", "Tomato", "Solanaceae"),
            ("eggplant", "Eggplant", "Solanaceae"),
            ("potato", "Potato", "Solanaceae"),
            ("petunia", "Petunia", "Solanaceae"),
            ("pea", "Pea", "Fabaceae"),
            ("bean", "Bean, bush", "Fabaceae"),
            ("vetch", "Vetch", "Fabaceae"),
            ("kale", "Kale", "Brassicaceae"),
            ("radish", "Radish", "Brassicaceae"),
            ("lettuce", "Lettuce", "Asteraceae"),
            ("zinnia", "Zinnia", "Asteraceae"),
            ("corn", "Corn, sweet", "Poaceae"),
            ("rye", "Rye", "Poaceae"),
        ] {
            shelf.add(id, name, family, "");
        }
        shelf.change("eggplant", "(rotation: (least: 3, advised: 4, weight: Stop))");
        shelf.change("petunia", "(uses: [CutFlower], part: Nothing)");
        shelf.change("zinnia", "(uses: [CutFlower], part: Nothing)");
        shelf.change("vetch", "(uses: [Cover], part: Nothing)");
        shelf.change("rye", "(uses: [Cover], part: Nothing)");
        shelf
    }
    pub(crate) fn family(&mut self, name: &str, common: &str, rotation: (u8, u8, BreakWeight), once: bool) {
        self.families.push(Family {
            name: name.into(),
            common: common.into(),
            rotation: Rotation { least: rotation.0, advised: rotation.1, weight: rotation.2 },
            once_a_season: once,
            why: String::new(),
            src: Vec::new(),
            hue: 0,
            hatch: 0,
        });
    }
    /// A crop like the plain one, with these fields of its own.
    pub(crate) fn add(&mut self, id: &str, name: &str, family: &str, fields: &str) -> &mut Self {
        let plain: Entry = catchcrop::store::text::read("test", PLAIN).unwrap();
        let own = Entry { id: id.into(), name: Some(name.into()), family: Some(family.into()), ..plain };
        self.crops.push(own);
        if !fields.is_empty() {
            self.change(id, fields);
        }
        self
    }
    /// Fields of a crop that differ from the plain one's.
    pub(crate) fn change(&mut self, id: &str, fields: &str) -> &mut Self {
        let own: Entry = catchcrop::store::text::read("test", fields).unwrap();
        let at = self.crops.iter().position(|c| c.id == id).unwrap();
        let below = self.crops[at].clone();
        self.crops[at] = Entry { id: id.into(), ..own }.over(below);
        self
    }
    pub(crate) fn entry(&mut self, id: &str) -> &mut Entry {
        self.crops.iter_mut().find(|c| c.id == id).unwrap()
    }
    pub(crate) fn trouble(&mut self, text: &str) -> &mut Self {
        self.troubles.push(catchcrop::store::text::read("test", text).unwrap());
        self
    }
    pub(crate) fn book(&self) -> Book {
        let mut files: Vec<(String, BookFile)> = self
            .families
            .iter()
            .map(|f| (f.name.clone(), BookFile { family: Some(f.clone()), ..BookFile::default() }))
            .collect();
        let all =
            BookFile { crops: self.crops.clone(), troubles: self.troubles.clone(), ..BookFile::default() };
        files.push(("crops".into(), all));
        let (book, faults) = Book::build(files);
        assert!(faults.is_empty(), "{faults:?}");
        book
    }
}

/// A plan under construction.
pub(crate) struct Plot {
    pub(crate) plan: Plan,
    pub(crate) year: &'static SiteYear,
}

impl Plot {
    /// Three boxes of 4x4 ft set up new in 2020 with fresh mix, US measure.
    pub(crate) fn new() -> Self {
        let settings = Settings::for_measure(Measure::Us);
        let mut plot = Self { plan: Plan::new("Test yard", SiteSpec::default(), settings), year: &NEW_YORK };
        for n in 1..=3 {
            plot.boxed(&format!("box-{n}"), &format!("Box {n}"));
        }
        plot
    }
    pub(crate) fn boxed(&mut self, id: &str, name: &str) -> &mut Place {
        let at = 6.0 * catchcrop::units::num::real(self.plan.places.len());
        let feet = |n: f64| Length::new(n, LengthUnit::Ft);
        self.plan.places.push(Place {
            fresh: true,
            ..Place::new(
                PlaceId::new(id),
                name,
                Kind::Box,
                Point { x: feet(at), y: feet(0.0) },
                Shape::Rect { across: feet(4.0), down: feet(4.0), depth: length("12 in") },
                date("2020-03-01"),
            )
        });
        self.plan.places.last_mut().unwrap()
    }
    pub(crate) fn pot(&mut self, id: &str, name: &str, litres: f64, deep: &str, wide: &str) -> &mut Place {
        let place = self.boxed(id, name);
        place.kind = Kind::Pot;
        place.shape = Shape::Round {
            width: length(wide),
            depth: length(deep),
            volume: Volume::new(litres, VolumeUnit::L),
        };
        place
    }
    pub(crate) fn place(&mut self, id: &str) -> &mut Place {
        self.plan.places.iter_mut().find(|p| p.id.0 == id).unwrap()
    }
    /// One planting, sown or set out on `from` and cleared on `to`; `cells` is (row, col, rows, cols).
    pub(crate) fn plant(
        &mut self,
        crop: &str,
        place: &str,
        cells: (u16, u16, u16, u16),
        from: &str,
        to: &str,
    ) -> &mut Planting {
        let id = self.plan.next_planting();
        let names = Shelf::new().book();
        let of = names.get(&CropId::new(crop));
        let dates =
            Dates { sown: Some(date(from)), cleared: (!to.is_empty()).then(|| date(to)), ..Dates::default() };
        self.plan.plantings.push(Planting {
            id,
            crop: CropId::new(crop),
            name: of.map_or_else(|| crop.replace('-', " "), |c| c.name.clone()),
            botanical: String::new(),
            family: of.map_or_else(String::new, |c| c.family.clone()),
            place: PlaceId::new(place),
            block: Block { row: cells.0, col: cells.1, rows: cells.2, cols: cells.3 },
            layer: Layer::Main,
            start: Start::InPlace,
            plants: 1,
            planned: dates,
            shift: None,
            real: Dates::default(),
            fixed: false,
            why: Why::Hand,
            failed: None,
            note: String::new(),
        });
        self.plan.plantings.last_mut().unwrap()
    }
    /// Something of the record.
    pub(crate) fn stood(&mut self, place: &str, crop: &str, family: &str, from: &str, to: &str) {
        let stood = match (crop, family) {
            ("", "") => Stood::Nothing,
            ("", family) => Stood::Family(family.into()),
            (crop, family) => Stood::Crop { crop: CropId::new(crop), family: family.into() },
        };
        self.plan.record.push(Past {
            place: PlaceId::new(place),
            block: None,
            stood,
            from: date(from),
            to: date(to),
            note: String::new(),
        });
    }
    /// A diary entry about a place.
    pub(crate) fn note(&mut self, place: &str, on: &str, what: Event) {
        let id = self.plan.next_entry();
        self.plan.diary.push(DiaryEntry {
            id,
            on: date(on),
            planting: None,
            place: Some(PlaceId::new(place)),
            what,
            words: String::new(),
            corrects: None,
        });
    }
    /// Everything the judge says.
    pub(crate) fn judge(&self, crops: &Shelf) -> Vec<Finding> {
        let book = crops.book();
        check(&Context::whole(&self.plan, &book, self.year))
    }
    /// What one rule says.
    pub(crate) fn says(&self, crops: &Shelf, code: &str) -> Vec<Finding> {
        assert!(catchcrop::check::rule(code).is_some(), "there is no rule {code}");
        self.judge(crops).into_iter().filter(|f| f.code == code).collect()
    }
}

/// The one finding there is.
pub(crate) fn only(findings: &[Finding]) -> &Finding {
    assert_eq!(findings.len(), 1, "{findings:#?}");
    &findings[0]
}

/// A finding's words and remedy hold all of these.
pub(crate) fn tells(finding: &Finding, parts: &[&str]) {
    let text = format!("{} {}", finding.words, finding.remedy);
    for part in parts {
        assert!(text.contains(part), "'{part}' is not in: {text}");
    }
}

pub(crate) fn id(n: u32) -> PlantingId {
    PlantingId(n)
}
