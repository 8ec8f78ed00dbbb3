//! The schedule of one planting, and the way to it from a crop, the conditions and a start.

use super::choice::Method;
use super::conditions::Conditions;
use super::need::age;
use super::refusal::Refusal;
use super::season::season_crop;
use super::stage::Dates;
use super::youth::Beginning;
use super::{stand, winter};
use crate::calendar::{Date, Week, day_text, days_between, plus};
use crate::crop::{Clock, Crop, Start};

/// Days a crop takes longer in autumn, and the days a tender one must be ripe before the frost, by the extension
/// services' count (Virginia Tech horticulture, 2011; Progress-Index, 2017).
pub const AUTUMN_DAYS: f64 = 14.0;
/// The tender crop's part of it.
pub const TENDER_DAYS: f64 = 14.0;
/// Spread of a packet's days to maturity: variety and definition (10 to 15 per cent).
pub const PACKET_SPREAD: f64 = 0.12;
/// Spread of the weather on the day of harvest, days (24 to 27 stations: 3.5 to 5.1).
pub const WEATHER_SPREAD: f64 = 5.0;

/// What ended a planting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ending {
    /// It was picked to its end.
    Picked,
    /// Frost.
    Frost,
    /// Heat.
    Heat,
    /// It ran to flower.
    Bolting,
    /// The grower: it stands for years, or was there for the soil.
    Grower,
}

impl Ending {
    /// Its words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Picked => "picked to its end",
            Self::Frost => "ended by frost",
            Self::Heat => "ended by heat",
            Self::Bolting => "runs to flower",
            Self::Grower => "until you clear it",
        }
    }
}

/// Something to know about a schedule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Note {
    /// Temperatures at flowering time cost this share of the fruit.
    PoorSet(f64),
    /// It grows through short days: slower than the heat says.
    LowLight,
    /// Ripe, it holds in the ground until about this day.
    Holds(Date),
    /// It stands through the winter.
    Winters,
    /// Nothing but frost dates is known of the site: a quarter more or less.
    DatesAlone,
}

impl Note {
    /// In words.
    pub fn words(self) -> String {
        match self {
            Self::PoorSet(lost) => {
                format!("about {:.0} of 100 fruits fail to set at these temperatures", lost * 100.0)
            }
            Self::LowLight => String::from("grows through days under 10 hours: may be slower than reckoned"),
            Self::Holds(date) => format!("holds in the ground until about {}", day_text(date)),
            Self::Winters => String::from("stands through the winter"),
            Self::DatesAlone => {
                String::from("only frost dates are known here: days may be a quarter more or less")
            }
        }
    }
}

/// The dated stages of a planting, each with its spread, and what they rest on.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule {
    /// How it is started.
    pub start: Start,
    /// Expected dates.
    pub dates: Dates,
    /// Early dates: as many years lie outside as within one standard deviation (1 in 6 is earlier).
    pub early: Dates,
    /// Late dates.
    pub late: Dates,
    /// How maturity was computed.
    pub method: Method,
    /// Chance to ripen, and be picked for a while, before a killing frost.
    pub chance: f64,
    /// What ends it.
    pub ended_by: Ending,
    /// Degree days from sowing in place or setting out to the first picking; days by the catalogue.
    pub needs: f64,
    /// Days from sowing in place or setting out to the first picking.
    pub days: i64,
    /// Share of a plant's usual harvest expected in each week, frost weighed in; they sum to at most 1 in a season.
    pub weeks: Vec<(Week, f64)>,
    /// Share of the usual harvest that frost, heat or flowering costs.
    pub lost: f64,
    /// Until this day there is room for a mate.
    pub open_until: Option<Date>,
    /// Ripe, it can wait in the ground until this day.
    pub holds_until: Option<Date>,
    /// It grows through days shorter than ten hours.
    pub low_light: bool,
    /// Things to know.
    pub notes: Vec<Note>,
}

impl Schedule {
    /// The day from which it takes its cells.
    pub fn begins(&self) -> Option<Date> {
        match self.start {
            Start::InPlace => self.dates.sown,
            Start::Raised { .. } | Start::Bought | Start::Piece(_) => self.dates.set_out,
        }
    }
    /// Share of the usual harvest expected in all its weeks together.
    pub fn share(&self) -> f64 {
        self.weeks.iter().map(|w| w.1).sum()
    }
}

/// A start looked at whole: its schedule where one can be drawn up, and everything that speaks against it.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// Its dates; none where it never ripens.
    pub schedule: Option<Schedule>,
    /// Why it should not be done, gravest last.
    pub against: Vec<Refusal>,
}

/// The schedule of a planting of `crop` begun on `on`: sown in place or in the raising place, or set out.
///
/// # Errors
/// The reason, where the start does not succeed at the risk the grower takes. [`outlook`] gives the dates all the
/// same.
pub fn schedule(
    crop: &Crop,
    conditions: &Conditions<'_>,
    start: Start,
    on: Date,
) -> Result<Schedule, Refusal> {
    let outlook = outlook(crop, conditions, start, on);
    match (outlook.against.last(), outlook.schedule) {
        (Some(refusal), _) => Err(*refusal),
        (None, Some(schedule)) => Ok(schedule),
        (None, None) => Err(Refusal::NeverRipe),
    }
}

/// The same with raised plants by the day of setting out; other starts begin on that day.
///
/// # Errors
/// As [`schedule`].
pub fn set_out_on(
    crop: &Crop,
    conditions: &Conditions<'_>,
    start: Start,
    out: Date,
) -> Result<Schedule, Refusal> {
    schedule(crop, conditions, start, plus(out, -age(start)))
}

/// Dates and objections of a start, whether it succeeds or not.
pub fn outlook(crop: &Crop, conditions: &Conditions<'_>, start: Start, on: Date) -> Outlook {
    following(crop, conditions, start, on, &Dates::default())
}

/// The same for a planting of which some dates are known: what really happened replaces what was expected, and
/// everything after it moves. `on` counts where neither sowing nor setting out has happened.
pub fn following(crop: &Crop, conditions: &Conditions<'_>, start: Start, on: Date, known: &Dates) -> Outlook {
    let on = match start {
        Start::InPlace => known.sown.unwrap_or(on),
        Start::Raised { .. } => {
            known.sown.or_else(|| known.set_out.map(|out| plus(out, -age(start)))).unwrap_or(on)
        }
        Start::Bought | Start::Piece(_) => known.set_out.or(known.sown).unwrap_or(on),
    };
    let mut against = Vec::new();
    if !crop.starts.iter().any(|s| std::mem::discriminant(s) == std::mem::discriminant(&start)) {
        against.push(Refusal::OtherWay);
    }
    let beginning = Beginning { start, on, known };
    let schedule = match &crop.clock {
        Clock::Heat { .. } => season_crop(crop, conditions, beginning, &mut against),
        Clock::Overwintered { plant, ripe } => {
            winter::overwintered(crop, conditions, (*plant, *ripe), beginning, &mut against)
        }
        Clock::Perennial { by_year, wakes, renew } => {
            stand::perennial(crop, conditions, by_year, (*wakes, *renew), beginning, &mut against)
        }
    };
    let schedule = schedule.map(|s| settled(s, known));
    if schedule.is_none() && against.is_empty() {
        against.push(Refusal::NeverRipe);
    }
    Outlook { schedule, against }
}

/// A schedule with the known dates in their place, everything after the last of them kept behind it.
fn settled(mut schedule: Schedule, known: &Dates) -> Schedule {
    if *known == Dates::default() {
        return schedule;
    }
    let moved =
        known.first_pick.zip(schedule.dates.first_pick).map_or(0, |(real, due)| days_between(due, real));
    for dates in [&mut schedule.dates, &mut schedule.early, &mut schedule.late] {
        if moved != 0 {
            dates.last_pick = dates.last_pick.map(|d| plus(d, moved));
            dates.cleared = dates.cleared.map(|d| plus(d, moved));
        }
        *dates = dates.with(known);
        dates.put_in_order(known);
    }
    if moved != 0 {
        for (week, _) in &mut schedule.weeks {
            *week = Week::of(plus(week.monday(), moved));
        }
    }
    if let Some(end) = known.cleared {
        schedule.weeks.retain(|(week, _)| week.monday() < end);
    }
    schedule
}
