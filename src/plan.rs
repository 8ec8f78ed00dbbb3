//! One garden through the years: wishes, plantings, record, diary, and edits that can be taken back.

mod diary;
mod edit;
mod harvest;
mod history;
mod learnt;
mod light;
mod minutes;
mod planting;
mod raising;
mod record;
mod settings;
mod wish;
mod words;

pub use diary::{Cause, DiaryEntry, Event};
pub use edit::{Edit, EditError};
pub use history::{History, Revision};
pub use light::PlaceLight;
pub use minutes::{Minutes, Task};
pub use planting::{Planting, PlantingId, Shift, Why};
pub use raising::{POTTED_CELLS, SPARE};
pub use record::{Past, Stood};
pub use settings::{Away, RaisingPlace, RotationSetting, Settings};
pub use wish::{Pattern, Wish, WishId};
pub use words::edit_words;

use crate::calendar::{Date, Season, SeasonStart};
use crate::crop::CropId;
use crate::garden::{Place, PlaceId};
use crate::site::SiteSpec;
use crate::units::Mass;
use serde::{Deserialize, Serialize};

/// The schema number this program writes.
pub const SCHEMA: u32 = 1;

/// A finding the grower has looked at and decided to live with.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetAside {
    /// Code word of the rule.
    pub code: String,
    /// Where it was found; none: everywhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    /// The planting it was about; none: any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub planting: Option<PlantingId>,
    /// Why.
    pub reason: String,
}

/// A packet in the seed drawer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Packet {
    /// What it is.
    pub crop: CropId,
    /// Year it was packed.
    pub packed: i32,
    /// What is left of it.
    pub left: Mass,
    /// Seedlings out of ten in the last test.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tested: Option<u8>,
}

/// A garden: everything its file holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// Number of the file's schema.
    pub schema: u32,
    /// Name of the garden.
    pub name: String,
    /// The grower's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// How the grower wants things done.
    pub settings: Settings,
    /// Place and climate.
    pub site: SiteSpec,
    /// Beds and pots, retired ones too.
    pub places: Vec<Place>,
    /// Where seedlings are raised.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub raising: Vec<RaisingPlace>,
    /// What is wished for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub wishes: Vec<Wish>,
    /// What is planted, has been and will be.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub plantings: Vec<Planting>,
    /// What stood before the program knew the garden.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub record: Vec<Past>,
    /// What really happened.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub diary: Vec<DiaryEntry>,
    /// Findings set aside.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub set_aside: Vec<SetAside>,
    /// Seed in the drawer.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub drawer: Vec<Packet>,
    /// Seasons closed, by the year in which they began.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub closed: Vec<i32>,
}

impl Plan {
    /// An empty garden at a site.
    pub fn new(name: &str, site: SiteSpec, settings: Settings) -> Self {
        Self {
            schema: SCHEMA,
            name: name.to_owned(),
            note: String::new(),
            settings,
            site,
            places: Vec::new(),
            raising: Vec::new(),
            wishes: Vec::new(),
            plantings: Vec::new(),
            record: Vec::new(),
            diary: Vec::new(),
            set_aside: Vec::new(),
            drawer: Vec::new(),
            closed: Vec::new(),
        }
    }
    /// The same garden with everything in the order that edits keep.
    pub fn in_order(mut self) -> Self {
        self.places.sort_by(|a, b| a.id.cmp(&b.id));
        self.plantings.sort_by_key(|p| p.id);
        self.wishes.sort_by_key(|w| w.id);
        self.diary.sort_by_key(|e| e.id);
        self
    }
    /// The bed or pot of that id.
    pub fn place(&self, id: &PlaceId) -> Option<&Place> {
        self.places.iter().find(|p| p.id == *id)
    }
    /// Beds and pots there on a date.
    pub fn places_on(&self, date: Date) -> impl Iterator<Item = &Place> {
        self.places.iter().filter(move |p| p.stands_on(date))
    }
    /// The planting of that id.
    pub fn planting(&self, id: PlantingId) -> Option<&Planting> {
        self.plantings.iter().find(|p| p.id == id)
    }
    /// The wish of that id.
    pub fn wish(&self, id: WishId) -> Option<&Wish> {
        self.wishes.iter().find(|w| w.id == id)
    }
    /// Plantings in a place, in the order of their dates.
    pub fn plantings_in<'a>(&'a self, place: &'a PlaceId) -> impl Iterator<Item = &'a Planting> {
        self.plantings.iter().filter(move |p| p.place == *place)
    }
    /// What stands in a cell of a place on a date, in a layer.
    pub fn standing(
        &self,
        place: &PlaceId,
        cell: (u16, u16),
        layer: crate::garden::Layer,
        date: Date,
    ) -> Option<&Planting> {
        self.plantings.iter().find(|p| {
            p.place == *place && p.layer == layer && p.block.holds(cell.0, cell.1) && p.stands_on(date)
        })
    }
    /// The next free number for a planting.
    pub fn next_planting(&self) -> PlantingId {
        PlantingId(self.plantings.iter().map(|p| p.id.0).max().unwrap_or(0) + 1)
    }
    /// The next free number for a wish.
    pub fn next_wish(&self) -> WishId {
        WishId(self.wishes.iter().map(|w| w.id.0).max().unwrap_or(0) + 1)
    }
    /// The next free number for a diary entry.
    pub fn next_entry(&self) -> u32 {
        self.diary.iter().map(|e| e.id).max().unwrap_or(0) + 1
    }
    /// A place id of that stem that is not taken: "box-3".
    pub fn free_place_id(&self, stem: &str) -> PlaceId {
        let mut n = 1_u32;
        loop {
            let id = PlaceId(format!("{stem}-{n}"));
            if self.place(&id).is_none() {
                return id;
            }
            n += 1;
        }
    }
    /// The season in which a date lies; `start` is the site's own unless the grower set one.
    pub fn season(&self, date: Date, site_start: SeasonStart) -> Season {
        Season::holding(date, self.settings.season_start.unwrap_or(site_start))
    }
}
