//! The figures of a crop, each with its units.

use crate::units::{Amount, Length, Mass, Temperature, Volume};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Names a crop or variety in files: short lower-case words joined by hyphens.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct CropId(pub String);

impl CropId {
    /// The id of that text.
    pub fn new(text: &str) -> Self {
        Self(text.to_owned())
    }
    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}
impl fmt::Display for CropId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// What a crop is grown for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Use {
    /// Vegetables and fruit.
    Food,
    /// Kitchen herbs.
    Herb,
    /// Flowers for cutting.
    CutFlower,
    /// Grown to cover, feed or mend the soil.
    Cover,
}

/// The part that is eaten: decides manure waits and what soil lead matters for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Part {
    /// Roots and tubers.
    Root,
    /// Bulbs and swollen stems at soil level.
    Bulb,
    /// Leaves.
    Leaf,
    /// Stalks and shoots.
    Stem,
    /// Flower heads and buds.
    Flower,
    /// Fruits.
    Fruit,
    /// Pods.
    Pod,
    /// Dry or fresh seeds and grains.
    Seed,
    /// Nothing is eaten.
    Nothing,
}

/// Distances between plants of one crop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spacing {
    /// For baby leaves, early or small harvests.
    pub dense: Length,
    /// For full-sized plants; what the plan uses unless told otherwise.
    pub wide: Length,
}

/// Days to maturity of a packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Maturity {
    /// The early figure, days.
    pub min: u16,
    /// The late figure, days.
    pub max: u16,
    /// What the days count from.
    pub from: CountedFrom,
}

impl Maturity {
    /// The middle figure, days.
    pub fn usual(self) -> f64 {
        f64::midpoint(f64::from(self.min), f64::from(self.max))
    }
}

/// What days to maturity count from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum CountedFrom {
    /// From sowing; germination is inside the figure.
    Sowing,
    /// From setting out a young plant.
    SettingOut,
}

/// Which growth curve a crop follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Season {
    /// Cool-season: grows from 2 C, slows above 22 C.
    Cool,
    /// Warm-season: grows from 10 C to 30 C.
    Warm,
}

/// The clock that ripens a crop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Clock {
    /// Days to maturity stretched by temperature.
    Heat {
        /// The default curve.
        season: Season,
        /// Base temperature where a publication gives another than the curve's.
        #[serde(default)]
        base: Option<Temperature>,
        /// Optimum (cool) or upper (warm) temperature where a publication gives another.
        #[serde(default)]
        upper: Option<Temperature>,
    },
    /// Planted in autumn, stands still in winter, ripe the next year.
    Overwintered {
        /// First and last planting, in weeks after the average first autumn frost (negative: before). Where frost
        /// never comes: after the start of the coldest quarter.
        plant: (i8, i8),
        /// What ripens it.
        ripe: Ripening,
    },
    /// Stands for years.
    Perennial {
        /// Share of the full yield by year of stand: first year, second ... ; the last holds on.
        by_year: Vec<f32>,
        /// Days of growth at the reference temperature from the spring restart to the first picking.
        wakes: u16,
        /// Years after which a stand is renewed.
        renew: u8,
    },
}

/// What ripens an overwintered crop.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Ripening {
    /// Daylength: so many days after the longest day, early and late.
    AfterLongestDay(i16, i16),
    /// Heat: so many days of growth at the reference temperature after the spring restart.
    HeatFromSpring(u16),
}

/// A way to start a crop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Start {
    /// Sown where it grows.
    InPlace,
    /// Raised indoors or in a frame and set out.
    Raised {
        /// Youngest and oldest age for setting out, weeks from sowing.
        weeks: (u8, u8),
        /// Plants in one station (multi-sown modules); usually 1.
        per_station: u8,
        /// Needs a larger pot on the way.
        pot_on: bool,
        /// Days of hardening off.
        harden: u8,
    },
    /// A young plant that is bought and set out.
    Bought,
    /// A set, bulb, clove, tuber, slip or crown.
    Piece(Piece),
}

/// What is planted when it is no seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Piece {
    /// Onion or shallot set.
    Set,
    /// Flower bulb or corm.
    Bulb,
    /// Garlic clove.
    Clove,
    /// Seed potato or other tuber.
    Tuber,
    /// Rooted shoot of sweet potato.
    Slip,
    /// Crown, offset or root piece of a perennial.
    Crown,
}

/// Emergence by soil temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Germination {
    /// Days to emergence at constant soil temperatures, degrees Celsius ascending: (temperature, days).
    Table(Vec<(f64, f64)>),
    /// Least, best and greatest soil temperature, and the days at the best.
    Limits {
        /// Below this, don't sow.
        least: Temperature,
        /// Fastest here.
        best: Temperature,
        /// Above this, don't sow.
        most: Temperature,
        /// Days to emergence at the best temperature.
        days: u16,
    },
    /// Not grown from seed here. (Written as another word than RON's own `None`, which would mean "not given".)
    #[serde(rename = "NotSown")]
    None,
}

/// How much frost a crop stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum FrostClass {
    /// Killed by the first frost.
    Tender,
    /// Stands a light frost.
    HalfHardy,
    /// Stands hard frost.
    Hardy,
}

/// Frost: its class and the temperatures that end it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Frost {
    /// Class of the extension lists.
    pub class: FrostClass,
    /// Screen temperature that kills the foliage.
    pub foliage: Temperature,
    /// Screen temperature that spoils what is picked (blossom, pods, heads).
    pub harvest: Temperature,
}

/// Limits of heat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct HeatLimits {
    /// Night temperature above which fruit does not set.
    pub set_night_most: Option<Temperature>,
    /// Day temperature above which fruit does not set.
    pub set_day_most: Option<Temperature>,
    /// Night temperature below which fruit does not set.
    pub set_night_least: Option<Temperature>,
    /// Mean temperature of a month above which it bolts, turns bitter or stops.
    pub mean_most: Option<Temperature>,
}

/// Response to the length of the day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Daylength {
    /// Runs to flower when days are longer than so many hours.
    BoltsAbove(f32),
    /// Forms its bulb when days are longer than so many hours.
    BulbsAbove(f32),
    /// Flowers or tubers only when days are shorter than so many hours.
    NeedsBelow(f32),
}

/// How a harvest comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum PickShape {
    /// All at one time.
    Once,
    /// Most of it within the picking days.
    Flush,
    /// Evenly over the picking days.
    Steady,
    /// Cut and come again.
    Cut {
        /// Number of cuts.
        cuts: u8,
        /// Days from one cut to the next, at the reference temperature.
        regrow: u8,
    },
}

/// Picking: its shape, its length and how long the crop waits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Picking {
    /// Shape of the harvest.
    pub shape: PickShape,
    /// Days from the first to the last picking (for `Cut`: computed from the cuts).
    pub days: u16,
    /// Days it holds in the ground after that without loss.
    pub holds: u16,
}

/// Harvest of one plant over its whole picking.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Yield {
    /// A poor year.
    pub low: Amount,
    /// What to plan with.
    pub usual: Amount,
    /// A good year.
    pub high: Amount,
}

/// How a plant grows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Habit {
    /// Low rosette.
    Rosette,
    /// Upright single stem or clump.
    Upright,
    /// Bushy.
    Bush,
    /// Spreads over the ground.
    Sprawling,
    /// Climbs or is tied up.
    Climbing,
}

/// Need of a support.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum SupportNeed {
    /// Stands alone. (Written as another word than RON's own `None`, which would mean "not given".)
    #[default]
    #[serde(rename = "Alone")]
    None,
    /// Better with one.
    Helps,
    /// Does not grow without one.
    Needs,
}

/// Direct sun, hours a day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Light {
    /// Below this it is no use planting.
    pub least: f32,
    /// From here on it grows fully.
    pub full: f32,
}

/// What a plant needs of a pot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PotNeed {
    /// Least volume for the number of plants given.
    pub volume: Volume,
    /// Least depth.
    pub depth: Length,
    /// Plants in that volume.
    pub plants: u8,
}

/// Water, by FAO Irrigation and Drainage Paper 56.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Water {
    /// Crop coefficients at the start, in the middle, at the end (FAO-56 table 12).
    pub kc: (f32, f32, f32),
    /// Shares of the growing time: initial, development, middle, late (FAO-56 table 11); they sum to 1.
    pub stages: (f32, f32, f32, f32),
    /// Depletion fraction p (FAO-56 table 22).
    pub p: f32,
}

/// How heavily a crop feeds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Feed {
    /// Wants compost or feed.
    Heavy,
    /// Middling.
    Medium,
    /// Takes what is left.
    Light,
    /// Leaves nitrogen if its roots stay.
    Gives,
}

/// Facts of the seed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seed {
    /// Seeds in a gram; 0 where nothing is sown.
    pub per_gram: f32,
    /// Years it keeps in a cool dry place.
    pub life: u8,
    /// Share of fresh seed that sprouts, per cent.
    pub sprouts: u8,
}

/// Storage life of the harvest.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Keeps {
    /// Days, low and high.
    pub days: (u16, u16),
    /// Where it keeps so long.
    pub how: String,
}

/// How good the evidence is for a claim about neighbours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Grade {
    /// Several field trials agree.
    A,
    /// One or few trials, or only under stated conditions.
    B,
    /// Laboratory or greenhouse only.
    C,
    /// Tradition; no trial seen.
    D,
    /// A trial contradicts it.
    X,
}

/// A claim about two crops side by side.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Neighbour {
    /// A crop id or a family name.
    pub with: String,
    /// Helps (true) or harms (false).
    pub helps: bool,
    /// Evidence.
    pub grade: Grade,
    /// What happens, in a short phrase.
    pub why: String,
    /// Source code.
    pub src: String,
}

/// A pair that may share cells.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MatePair {
    /// The main crop whose cells this one may share.
    pub main: CropId,
    /// How long.
    pub when: MateTime,
}

/// How long a mate may share its main crop's cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum MateTime {
    /// Until the main crop's canopy closes.
    UntilClosed,
    /// All along.
    Always,
}

/// A caution shown where the decision is taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// What kind.
    pub kind: CautionKind,
    /// In words, ending with what to do.
    pub words: String,
    /// Source code.
    pub src: String,
}

/// Kinds of caution.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum CautionKind {
    /// Not to be eaten.
    NotFood,
    /// Looks like a crop that is eaten (crop ids).
    LooksLike(Vec<CropId>),
    /// A known allergen.
    Allergy,
    /// Irritates or burns skin.
    Skin,
    /// Poisonous unless cooked.
    CookFirst,
    /// Some parts are poisonous.
    PartsPoisonous,
    /// Spreads and is hard to be rid of.
    Spreads,
}

/// Another published figure for the same thing: the range is kept where sources disagree.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Differs {
    /// The field's name in the file.
    pub figure: String,
    /// Source code.
    pub src: String,
    /// What it says, with units.
    pub says: String,
}

/// Weight of one counted piece, to turn heads into grams and back.
pub type Each = Mass;

/// Work on the way, with its trigger.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Tending {
    /// Thin to the final distance, so many days after emergence.
    Thin(u16),
    /// Tie or prune every so many days from setting out.
    Tie(u16),
    /// Draw soil up, so many days after emergence or setting out, again three weeks later.
    Hill(u16),
    /// Feed, so many days after setting out or emergence.
    Feed(u16),
    /// Mulch once the soil is warm, so many days after setting out or emergence.
    Mulch(u16),
    /// Take the cover off at the first flowers so that insects reach them.
    Uncover,
    /// Pinch out the tip, so many days after setting out or emergence.
    Pinch(u16),
}
