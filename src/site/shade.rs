//! Hours of direct sun behind walls, trees, houses and tall plantings.
//!
//! Shadows are cast from real sun positions: every quarter of an hour of two days a month. Positions on the ground
//! are metres on the site plan, `x` to the east and `y` to the south of its north-west corner; where the plan is
//! turned, its angle to true north is given.

use super::day::{Daily, MONTH_START, Monthly};
use super::spec::SiteError;
use super::sun;
use crate::calendar::{ClimateDay, MonthDay};
use crate::units::{Length, num};
use serde::{Deserialize, Serialize};

/// Sun this low, in degrees, does not count as direct sun: below it a sunshine recorder (120 W a square metre,
/// World Meteorological Organization) stays dark (from memory).
const LOWEST: f64 = 3.0;
/// Steps in an hour.
const STEPS: usize = 4;
/// Days of each month that are followed, from its first.
const FOLLOWED: [usize; 2] = [7, 22];
/// Share of direct sun a tree's crown lets through in leaf, and bare (from memory; bare crowns pass one half to
/// four fifths).
const LEAFY: f64 = 0.15;
const BARE: f64 = 0.65;

/// Hours of direct sun a day from which a place counts as full sun (extension bulletins: 6 to 8).
pub const FULL_SUN: f64 = 6.0;
/// Hours of direct sun a day from which a place counts as part shade (extension bulletins: 3 to 6).
pub const PART_SHADE: f64 = 4.0;

/// How much direct sun a place has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LightClass {
    /// Fewer than 4 hours a day.
    Shade,
    /// 4 to 6 hours a day.
    Part,
    /// 6 hours a day or more.
    Full,
}

impl LightClass {
    /// The class of so many hours a day.
    pub fn of(hours: f64) -> Self {
        if hours >= FULL_SUN {
            Self::Full
        } else if hours >= PART_SHADE {
            Self::Part
        } else {
            Self::Shade
        }
    }
    /// "full sun".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Shade => "shade",
            Self::Part => "part shade",
            Self::Full => "full sun",
        }
    }
}

/// Kinds of obstacle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum ObstacleKind {
    /// A solid wall.
    Wall,
    /// A close fence.
    Fence,
    /// A hedge.
    Hedge,
    /// A building.
    House,
    /// A tree: some sun comes through its crown, and beneath it.
    Tree,
}

/// Something beside the beds that casts a shadow: an upright block along the axes of the plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    /// The grower's name for it.
    pub name: String,
    /// What it is.
    pub kind: ObstacleKind,
    /// Its western edge, east of the plan's north-west corner; negative lies outside the plan.
    pub x: Length,
    /// Its northern edge, south of the plan's north-west corner.
    pub y: Length,
    /// Width from west to east.
    pub across: Length,
    /// Width from north to south.
    pub down: Length,
    /// Height of its top.
    pub height: Length,
    /// Height of the lowest branches; light passes beneath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clear: Option<Length>,
    /// First and last day without leaves.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bare: Option<(MonthDay, MonthDay)>,
}

impl Obstacle {
    /// Refuses one that has no body.
    pub(super) fn verify(&self) -> Result<(), SiteError> {
        let refuse = |trouble| Err(SiteError::Obstacle { name: self.name.clone(), trouble });
        if self.across.um() < 0 || self.down.um() < 0 {
            return refuse("has a negative width: give its western and northern edge and widths from there");
        }
        if self.height.um() <= 0 {
            return refuse("has no height: give the height of its top above the ground");
        }
        if self.clear.is_some_and(|clear| clear.um() < 0 || clear.um() >= self.height.um()) {
            return refuse(
                "is clear up to its top: give the height of its lowest branches, below its height",
            );
        }
        Ok(())
    }

    /// Its shadow-casting block.
    pub fn block(&self) -> Block {
        let (leafy, bare) = match self.kind {
            ObstacleKind::Tree => (LEAFY, if self.bare.is_some() { BARE } else { LEAFY }),
            ObstacleKind::Hedge => (0.0, if self.bare.is_some() { BARE } else { 0.0 }),
            ObstacleKind::Wall | ObstacleKind::Fence | ObstacleKind::House => (0.0, 0.0),
        };
        let days = |(from, to): (MonthDay, MonthDay)| (from.climate_day(), to.climate_day());
        Block {
            x: (self.x.m(), self.x.m() + self.across.m()),
            y: (self.y.m(), self.y.m() + self.down.m()),
            z: (self.clear.map_or(0.0, Length::m), self.height.m()),
            passes: leafy,
            bare_passes: bare,
            bare: self.bare.map(days),
            stands: None,
        }
    }
}

/// An upright block that takes light away: an obstacle or a tall planting. Metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// Western and eastern edge.
    pub x: (f64, f64),
    /// Northern and southern edge.
    pub y: (f64, f64),
    /// Bottom and top.
    pub z: (f64, f64),
    /// Share of direct sun let through.
    pub passes: f64,
    /// The same when bare.
    pub bare_passes: f64,
    /// First and last day without leaves.
    pub bare: Option<(ClimateDay, ClimateDay)>,
    /// First and last day it stands there; none: always.
    pub stands: Option<(ClimateDay, ClimateDay)>,
}

impl Block {
    /// A planting so tall, over so many metres of ground, standing from one day to another.
    pub const fn planting(
        x: (f64, f64),
        y: (f64, f64),
        height: f64,
        stands: Option<(ClimateDay, ClimateDay)>,
    ) -> Self {
        Self { x, y, z: (0.0, height), passes: 0.0, bare_passes: 0.0, bare: None, stands }
    }

    /// Share of direct sun it lets through on a day.
    fn passing(&self, day: usize) -> f64 {
        if self.stands.is_some_and(|span| !within(span, day)) {
            1.0
        } else if self.bare.is_some_and(|span| within(span, day)) {
            self.bare_passes
        } else {
            self.passes
        }
    }

    /// Whether a point lies inside it: a planting does not shade its own leaves.
    fn holds(&self, at: Spot) -> bool {
        let inside = |(low, high): (f64, f64), value: f64| low <= value && value <= high;
        inside(self.x, at.x) && inside(self.y, at.y) && inside(self.z, at.z)
    }

    /// Steepest height of sun, as rise over run, at which it can still shade the point.
    fn steepest(&self, at: Spot) -> f64 {
        let gap = |(low, high): (f64, f64), value: f64| (low - value).max(value - high).max(0.0);
        let run = gap(self.x, at.x).hypot(gap(self.y, at.y));
        let rise = self.z.1 - at.z;
        if rise <= 0.0 {
            0.0
        } else if run <= 1e-9 {
            f64::INFINITY
        } else {
            rise / run
        }
    }

    /// Whether the ray from `at` towards the sun passes through it.
    fn hides(&self, at: Spot, ray: &Ray) -> bool {
        let (mut near, mut far) = (0.0_f64, f64::INFINITY);
        for (from, way, (low, high)) in [(at.x, ray.x, self.x), (at.y, ray.y, self.y), (at.z, ray.z, self.z)]
        {
            if way.abs() < 1e-12 {
                if from < low || from > high {
                    return false;
                }
                continue;
            }
            let (a, b) = ((low - from) / way, (high - from) / way);
            near = near.max(a.min(b));
            far = far.min(a.max(b));
        }
        near < far && far > 1e-9
    }
}

/// Whether a day lies in a span that may run over the new year.
fn within((from, to): (ClimateDay, ClimateDay), day: usize) -> bool {
    let (from, to) = (from.index(), to.index());
    if from <= to { (from..=to).contains(&day) } else { day >= from || day <= to }
}

/// A point in the garden, metres: east, south, up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// East of the plan's north-west corner.
    pub x: f64,
    /// South of it.
    pub y: f64,
    /// Above the ground: the rim of a box, the height of a pot.
    pub z: f64,
}

/// One moment's sun: direction on the plan, and how steep.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Ray {
    x: f64,
    y: f64,
    z: f64,
    rise: f64,
}

/// The sun's paths over a site, ready to be asked for many cells.
#[derive(Debug, Clone, PartialEq)]
pub struct SunPaths {
    days: Vec<(usize, usize, Vec<Ray>)>,
}

impl SunPaths {
    /// The paths at latitude `lat` for a plan whose top points `turn` degrees clockwise of true north.
    pub fn new(lat: f64, turn: f64) -> Self {
        let follow = |month: usize, day: usize| {
            let rays = (0..24 * STEPS).filter_map(|step| {
                let hour = (num::real(step) + 0.5) / num::real(STEPS);
                let sun = sun::position(lat, day, hour);
                (sun.height >= LOWEST).then(|| {
                    let (azimuth, height) = ((sun.azimuth - turn).to_radians(), sun.height.to_radians());
                    Ray {
                        x: azimuth.sin() * height.cos(),
                        y: -azimuth.cos() * height.cos(),
                        z: height.sin(),
                        rise: height.tan(),
                    }
                })
            });
            (month, day, rays.collect())
        };
        let days = (0..12).flat_map(|month| FOLLOWED.map(|day| follow(month, MONTH_START[month] + day)));
        Self { days: days.collect() }
    }

    /// Hours of direct sun a day on a point, by month, behind the blocks that do not hold it.
    pub fn hours(&self, at: Spot, blocks: &[Block]) -> Monthly {
        let near: Vec<(&Block, f64)> = blocks
            .iter()
            .filter(|b| !b.holds(at))
            .map(|b| (b, b.steepest(at)))
            .filter(|(_, s)| *s > 0.0)
            .collect();
        let mut out = [0.0; 12];
        for (month, day, rays) in &self.days {
            let today: Vec<(&Block, f64, f64)> =
                near.iter().map(|(b, steep)| (*b, *steep, b.passing(*day))).filter(|b| b.2 < 1.0).collect();
            let hours: f64 = rays
                .iter()
                .map(|ray| {
                    let mut light = 1.0;
                    for (block, steep, passes) in &today {
                        if ray.rise <= *steep && block.hides(at, ray) {
                            light *= passes;
                            if light <= 0.0 {
                                break;
                            }
                        }
                    }
                    light
                })
                .sum();
            out[*month] += hours / num::real(STEPS * FOLLOWED.len());
        }
        out
    }

    /// Hours of direct sun a day under an open sky, by month.
    pub fn open(&self) -> Monthly {
        self.hours(Spot { x: 0.0, y: 0.0, z: 0.0 }, &[])
    }
}

/// Mean hours of sun over the months in which a daily curve is at least `least`, weighted by their days: the
/// growing season of a cell by the soil's warmth, for example. The whole year where no day is.
pub fn season_mean(hours: &Monthly, daily: &Daily, least: f64) -> f64 {
    let (mut sum, mut count) = (0.0, 0.0);
    for (day, value) in daily.iter().enumerate() {
        if *value >= least {
            sum += hours[ClimateDay::new(num::signed(day)).month0()];
            count += 1.0;
        }
    }
    if count > 0.0 { sum / count } else { hours.iter().sum::<f64>() / 12.0 }
}
