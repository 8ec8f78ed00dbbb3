//! Which schema a plan file has, and the way from older ones to today's.
//!
//! Every older schema stays here as its own types, read as they were then, and turned into the next by code that
//! never changes again.

use super::fault::{Fault, Said, Source, Weight};
use super::near::nearest;
use super::text;
use super::tree::{Step, Tree};
use crate::calendar::{Date, MonthDay};
use crate::crop::{Book, CropId, Start};
use crate::garden::{Block, Kind, Layer, Place, PlaceId, Point, Shape, Tag};
use crate::growth::Dates;
use crate::plan::{Past, Pattern, Plan, Planting, PlantingId, SCHEMA, Settings, Stood, Why, Wish, WishId};
use crate::site::SiteSpec;
use crate::units::{Amount, Length, Measure};
use serde::Deserialize;

/// The schema number in a text, found without understanding the rest.
pub(super) fn peek(source: &Source<'_>, tree: &Tree<'_>) -> Result<u32, Box<Fault>> {
    let Some(root) = &tree.root else {
        return Err(Box::new(Fault::whole(
            Weight::Error,
            source.file,
            "the file is empty",
            Some(String::from("a backup may stand beside it, or make a new garden with 'catchcrop new'")),
        )));
    };
    let Some(node) = tree.field(root, "schema") else {
        let said = Said::new("no schema number: this is no garden of catchcrop")
            .help(format!("a garden begins with '(schema: {SCHEMA}, name: ...'"));
        return Err(Box::new(Fault::at(Weight::Error, source, &root.span, said)));
    };
    tree.slice(&node.span).parse().ok().ok_or_else(|| {
        let said = Said::new("the schema number is a whole number").help(format!("write 'schema: {SCHEMA}'"));
        Box::new(Fault::on(Weight::Error, source, tree, &[Step::Key("schema".into())], said))
    })
}

/// Schema 0: one record a bed, years without dates in the past, the climate by name only.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct PlanV0 {
    #[serde(rename = "schema")]
    _schema: u32,
    name: String,
    #[serde(default)]
    note: String,
    measure: Measure,
    climate: String,
    #[serde(default)]
    last_frost: Option<MonthDay>,
    #[serde(default)]
    first_frost: Option<MonthDay>,
    beds: Vec<BedV0>,
    #[serde(default)]
    wishes: Vec<WishV0>,
    #[serde(default)]
    plantings: Vec<PlantingV0>,
    #[serde(default)]
    past: Vec<PastV0>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct BedV0 {
    name: String,
    east: Length,
    south: Length,
    across: Length,
    down: Length,
    depth: Length,
    since: Date,
    #[serde(default)]
    flowers_only: bool,
}

#[derive(Debug, Clone, Copy, Deserialize)]
enum PatternV0 {
    Even,
    AtOnce,
    Store,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct WishV0 {
    crop: String,
    amount: Amount,
    pattern: PatternV0,
    from: MonthDay,
    to: MonthDay,
    importance: u8,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct PlantingV0 {
    crop: String,
    bed: String,
    cells: (u16, u16, u16, u16),
    plants: u16,
    #[serde(default)]
    sown: Option<Date>,
    #[serde(default)]
    set_out: Option<Date>,
    cleared: Date,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct PastV0 {
    bed: String,
    year: i32,
    family: String,
}

/// Reads a plan of an older schema.
pub(super) fn migrate(
    source: &Source<'_>,
    tree: &Tree<'_>,
    found: u32,
    book: &Book,
) -> Result<Plan, Box<Fault>> {
    if found == 0 {
        let old: PlanV0 = text::read(source.file, source.text)?;
        return from_v0(old, source, tree, book);
    }
    let said =
        Said::new(format!("there never was a schema {found}")).help(format!("write 'schema: {SCHEMA}'"));
    Err(Box::new(Fault::on(Weight::Error, source, tree, &[Step::Key("schema".into())], said)))
}

fn from_v0(old: PlanV0, source: &Source<'_>, tree: &Tree<'_>, book: &Book) -> Result<Plan, Box<Fault>> {
    let key = |name: &str| Step::Key(name.to_owned());
    let mut site = SiteSpec::from_preset(&old.climate).map_err(|error| {
        let said = Said::new(error.to_string());
        Box::new(Fault::on(Weight::Error, source, tree, &[key("climate")], said))
    })?;
    site.last_frost = old.last_frost;
    site.first_frost = old.first_frost;
    let mut plan = Plan::new(&old.name, site, Settings::for_measure(old.measure));
    plan.note = old.note;
    for bed in &old.beds {
        let place = bed.place(&plan);
        plan.places.push(place);
    }
    let place = |list: &str, n: usize, name: &str| {
        old.beds
            .iter()
            .position(|b| b.name == name)
            .and_then(|at| plan.places.get(at))
            .map(|p| p.id.clone())
            .ok_or_else(|| {
                let near = nearest(name, old.beds.iter().map(|b| b.name.as_str()));
                let said = Said::new(format!("there is no bed '{name}'"))
                    .maybe(near.map(|n| format!("did you mean '{n}'?")));
                Box::new(Fault::on(
                    Weight::Error,
                    source,
                    tree,
                    &[key(list), Step::Item(n), key("bed")],
                    said,
                ))
            })
    };
    let mut plantings = Vec::new();
    for (n, (id, p)) in (1..).zip(&old.plantings).enumerate() {
        plantings.push(p.planting(PlantingId(id), place("plantings", n, &p.bed)?, book));
    }
    let mut record = Vec::new();
    for (n, past) in old.past.iter().enumerate() {
        record.push(past.stay(place("past", n, &past.bed)?));
    }
    plan.plantings = plantings;
    plan.record = record;
    plan.wishes = (1..).zip(old.wishes).map(|(id, w)| w.wish(WishId(id))).collect();
    Ok(plan)
}

impl BedV0 {
    fn place(&self, plan: &Plan) -> Place {
        let stem: String =
            self.name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
        let id = PlaceId::new(&stem);
        let id = if plan.place(&id).is_none() { id } else { plan.free_place_id(&stem) };
        Place {
            tags: if self.flowers_only { vec![Tag::FlowersOnly] } else { Vec::new() },
            ..Place::new(
                id,
                self.name.clone(),
                if self.flowers_only { Kind::FlowerBed } else { Kind::Box },
                Point { x: self.east, y: self.south },
                Shape::Rect { across: self.across, down: self.down, depth: self.depth },
                self.since,
            )
        }
    }
}

impl PlantingV0 {
    fn planting(&self, id: PlantingId, place: PlaceId, book: &Book) -> Planting {
        let crop = CropId::new(&self.crop);
        let known = book.get(&crop);
        let text = |of: Option<&String>| of.cloned().unwrap_or_default();
        let (row, col, rows, cols) = self.cells;
        let start = if self.set_out.is_some() {
            known
                .and_then(|c| c.starts.iter().find(|s| matches!(s, Start::Raised { .. })))
                .copied()
                .unwrap_or(Start::Bought)
        } else {
            Start::InPlace
        };
        Planting {
            id,
            crop,
            name: known.map_or_else(|| self.crop.clone(), |c| c.name.clone()),
            botanical: text(known.map(|c| &c.botanical)),
            family: text(known.map(|c| &c.family)),
            place,
            block: Block { row, col, rows, cols },
            layer: Layer::Main,
            start,
            plants: self.plants,
            planned: Dates {
                sown: self.sown,
                set_out: self.set_out,
                cleared: Some(self.cleared),
                ..Dates::default()
            },
            shift: None,
            real: Dates::default(),
            fixed: false,
            why: Why::Hand,
            failed: None,
            note: String::new(),
        }
    }
}

impl PastV0 {
    fn stay(&self, place: PlaceId) -> Past {
        let day = |month, day| Date::from_ymd_opt(self.year, month, day).unwrap_or_default();
        Past {
            place,
            block: None,
            stood: Stood::Family(self.family.clone()),
            from: day(1, 1),
            to: day(12, 31),
            note: String::from("only the year is known"),
        }
    }
}

impl WishV0 {
    fn wish(self, id: WishId) -> Wish {
        Wish {
            id,
            crop: CropId::new(&self.crop),
            amount: self.amount,
            pattern: match self.pattern {
                PatternV0::Even => Pattern::Even,
                PatternV0::AtOnce => Pattern::AtOnce,
                PatternV0::Store => Pattern::Store,
            },
            from: self.from,
            to: self.to,
            season: None,
            importance: self.importance,
            places: Vec::new(),
            note: String::new(),
        }
    }
}
