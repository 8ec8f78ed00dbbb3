//! Entries as they stand in files, crops as the program uses them, and the inheritance between the two.

use super::disease::Trouble;
use super::family::{Family, Rotation};
use super::figures::{
    Caution, Clock, CropId, Daylength, Differs, Each, Feed, Frost, Germination, Habit, HeatLimits, Keeps,
    Light, MatePair, Maturity, Neighbour, Part, Picking, PotNeed, Seed, Spacing, Start, SupportNeed, Tending,
    Use, Water, Yield,
};
use super::source::Sources;
use crate::units::Length;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// One file of the crop book.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct BookFile {
    /// The family its crops belong to, where the file is about one.
    pub family: Option<Family>,
    /// Source codes that hold for the whole file where an entry names none.
    pub sources: Vec<String>,
    /// The same for single figures.
    pub src: Sources,
    /// What source codes of one's own stand for.
    pub references: BTreeMap<String, String>,
    /// Crops and varieties.
    pub crops: Vec<Entry>,
    /// Diseases and pests.
    pub troubles: Vec<Trouble>,
}

/// The fields that hold figures, and so name a source.
pub const FIGURES: [&str; 26] = [
    "spacing",
    "row",
    "depth",
    "days",
    "clock",
    "starts",
    "germination",
    "frost",
    "heat",
    "daylength",
    "picking",
    "every",
    "harvest",
    "each",
    "keeps",
    "height",
    "closes",
    "light",
    "root_depth",
    "pot",
    "water",
    "feed",
    "seed",
    "rotation",
    "tending",
    "mates",
];

/// Parts of a figure that may name sources of their own.
pub const PARTS: [&str; 7] =
    ["frost.class", "water.kc", "water.stages", "water.p", "seed.per_gram", "seed.life", "seed.sprouts"];

/// The field of a figure: "seed.life" is a part of "seed".
pub(crate) fn whole_field(figure: &str) -> &str {
    figure.split_once('.').map_or(figure, |(field, _)| field)
}

macro_rules! crop_fields {
    (must { $( $(#[$mdoc:meta])* $must:ident : $mty:ty ),* $(,)? } may { $( $(#[$odoc:meta])* $may:ident : $oty:ty ),* $(,)? }) => {
        /// A crop or variety as it stands in a file: what is left out comes from its parent.
        #[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
        #[serde(deny_unknown_fields, default)]
        pub struct Entry {
            /// Its id.
            pub id: String,
            /// The crop it is a variety of.
            pub of: Option<CropId>,
            /// Older ids it was known by.
            pub once: Vec<CropId>,
            /// Family, where the file's family is not its own.
            pub family: Option<String>,
            /// Source codes by field name; "mem" = from memory, "cp" = common practice.
            pub src: Sources,
            /// Other published figures.
            pub differs: Vec<Differs>,
            $( $(#[$mdoc])* pub $must: Option<$mty>, )*
            $( $(#[$odoc])* pub $may: Option<$oty>, )*
        }

        /// A crop or variety with every figure in its place.
        #[derive(Debug, Clone, PartialEq)]
        pub struct Crop {
            /// Its id.
            pub id: CropId,
            /// The crop it is a variety of.
            pub of: Option<CropId>,
            /// Older ids it was known by.
            pub once: Vec<CropId>,
            /// Botanical family.
            pub family: String,
            /// Source codes by field name.
            pub src: Sources,
            /// Other published figures.
            pub differs: Vec<Differs>,
            $( $(#[$mdoc])* pub $must: $mty, )*
            $( $(#[$odoc])* pub $may: $oty, )*
        }

        impl Entry {
            /// Names of the fields that hold figures.
            pub const FIELDS: &'static [&'static str] = &[ $( stringify!($must), )* $( stringify!($may), )* ];
            /// Names of the fields that must be given or inherited.
            pub const MUST: &'static [&'static str] = &[ $( stringify!($must), )* ];

            /// The fields given in this entry itself.
            pub fn given(&self) -> Vec<&'static str> {
                let mut out = Vec::new();
                $( if self.$must.is_some() { out.push(stringify!($must)); } )*
                $( if self.$may.is_some() { out.push(stringify!($may)); } )*
                out
            }

            /// Names the file's sources for every figure given here that names none itself.
            pub(super) fn cite(&mut self, by_figure: &Sources, sources: &Arc<[String]>) {
                for field in self.given() {
                    if FIGURES.contains(&field) && self.src.get(field).is_none() {
                        let codes = by_figure.shared(field).unwrap_or(sources);
                        if !codes.is_empty() {
                            self.src.put(field, Arc::clone(codes));
                        }
                    }
                }
            }

            /// This entry laid over another: what is given here wins, field by field. A figure given here takes
            /// neither the sources nor the disagreement of the one it replaces.
            pub fn over(self, below: Self) -> Self {
                let given = self.given();
                let replaced = |figure: &str| given.iter().any(|field| *field == whole_field(figure));
                let src = self.src.over(below.src, replaced);
                let mut differs = below.differs;
                differs.retain(|other| !replaced(&other.figure));
                differs.extend(self.differs);
                Self {
                    id: self.id,
                    of: self.of,
                    once: self.once,
                    family: self.family.or(below.family),
                    src,
                    differs,
                    $( $must: self.$must.or(below.$must), )*
                    $( $may: self.$may.or(below.$may), )*
                }
            }

            /// The whole crop, once every parent has been laid under this entry.
            pub fn resolve(self, file_family: Option<&str>) -> Resolved {
                let mut missing = Vec::new();
                $( if self.$must.is_none() { missing.push(stringify!($must)); } )*
                let family = self.family.or_else(|| file_family.map(str::to_owned));
                if family.is_none() { missing.push("family"); }
                match (family, $( self.$must, )*) {
                    (Some(family), $( Some($must), )*) => Resolved::Whole(Box::new(Crop {
                        id: CropId(self.id),
                        of: self.of,
                        once: self.once,
                        family,
                        src: self.src,
                        differs: self.differs,
                        $( $must, )*
                        $( $may: self.$may.unwrap_or_default(), )*
                    })),
                    _ => Resolved::Missing(missing),
                }
            }
        }
    };
}

/// The outcome of resolving an entry.
#[derive(Debug, Clone, PartialEq)]
pub enum Resolved {
    /// Every figure is there.
    Whole(Box<Crop>),
    /// These fields are neither given nor inherited.
    Missing(Vec<&'static str>),
}

crop_fields! {
    must {
        /// What growers call it.
        name: String,
        /// Botanical name.
        botanical: String,
        /// Two letters that stand for it on the grid.
        code: String,
        /// What it is grown for.
        uses: Vec<Use>,
        /// The part eaten.
        part: Part,
        /// Distances between plants.
        spacing: Spacing,
        /// Depth of sowing or planting.
        depth: Length,
        /// Days to maturity.
        days: Maturity,
        /// What ripens it.
        clock: Clock,
        /// Ways to start it, the usual one first.
        starts: Vec<Start>,
        /// Emergence by soil temperature.
        germination: Germination,
        /// Frost limits.
        frost: Frost,
        /// How the harvest comes.
        picking: Picking,
        /// Harvest of one plant.
        harvest: Yield,
        /// Height when grown.
        height: Length,
        /// Habit.
        habit: Habit,
        /// Direct sun.
        light: Light,
        /// Depth the roots want.
        root_depth: Length,
        /// Water.
        water: Water,
        /// Feeding.
        feed: Feed,
        /// Seed.
        seed: Seed,
    }
    may {
        /// Other common names, US and British.
        also: Vec<String>,
        /// Distance between rows in an open bed; none: as far apart as the plants.
        row: Option<Length>,
        /// Support.
        support: SupportNeed,
        /// Days from sowing in place or setting out until the canopy closes.
        closes: Option<u16>,
        /// Limits of heat.
        heat: HeatLimits,
        /// Response to daylength.
        daylength: Option<Daylength>,
        /// Pot; none: not grown in pots.
        pot: Option<PotNeed>,
        /// Weight of one counted piece.
        each: Option<Each>,
        /// Storage life; none: used on the day.
        keeps: Option<Keeps>,
        /// Claims about neighbours.
        neighbours: Vec<Neighbour>,
        /// Crops whose cells it may share.
        mates: Vec<MatePair>,
        /// Soil-borne troubles it suffers from (ids).
        troubles: Vec<String>,
        /// Cautions.
        cautions: Vec<Caution>,
        /// Its own break where it differs from its family's.
        rotation: Option<Rotation>,
        /// Quick enough to fill a gap.
        catch: bool,
        /// The eaten part touches or is splashed by soil.
        soil_contact: bool,
        /// Usual days between successive sowings, low and high; none: sown once.
        every: Option<(u16, u16)>,
        /// Needs a net or fleece from the first day against insects.
        net: bool,
        /// Tied, earthed up or otherwise tended on the way.
        tending: Vec<Tending>,
        /// A remark of use.
        note: String,
    }
}

impl Crop {
    /// Source codes of a figure or a part of it ("seed.life"): its own, else those of the whole; empty where none is
    /// named.
    pub fn sources(&self, figure: &str) -> &[String] {
        self.src.get(figure).or_else(|| self.src.get(whole_field(figure))).unwrap_or_default()
    }
    /// Whether any of it is eaten.
    pub fn is_food(&self) -> bool {
        self.part != Part::Nothing
    }
    /// Whether it is grown for that use.
    pub fn is_for(&self, what: Use) -> bool {
        self.uses.contains(&what)
    }
    /// Whether it stands for years.
    pub fn is_perennial(&self) -> bool {
        matches!(self.clock, Clock::Perennial { .. })
    }
    /// The id of the crop itself, or of the crop this is a variety of.
    pub fn base(&self) -> &CropId {
        self.of.as_ref().unwrap_or(&self.id)
    }
}
