//! From a crop, a site year and a start to the dated stages of a planting, and back.
//!
//! [`schedule`] draws up one planting or says why it fails, [`outlook`] does both; [`windows`] lists the stretches of
//! the year in which starts succeed; [`ready`] and [`succession`] work backwards from the harvest. Days to maturity
//! are stretched by warmth ([`Method::Heat`]) or counted as they stand ([`Method::Catalogue`]).
//!
//! # What was set against what
//!
//! | figure | set against | reached, as the tests print it |
//! |---|---|---|
//! | emergence: rates between the rows of the trial | Harrington & Minges 1954, one temperature left out | median error 11 %, 87 rows |
//! | cool curve: base 2 C, falling above 22 C, packet days at 18 C | iceberg lettuce in three regions of California (University of California), midsummer at Salinas | mean error 11 d of 75 to 140 d with normals from memory (9 d with the trial's own); always 75 days: 27 d |
//! | warm curve: base 10 C, level above 30 C, packet days at 21 C | sweet corn in degree days (Oregon State University), 855 C-days for 85 packet days | 20 C |
//! | chance to ripen before frost | 165 cases of real years at 30 stations | bias -0.005, mean error 0.09 |
//! | spread of a harvest: 12 % of the days and 5 days | 24 to 27 stations, year by year | standard deviation 3.5 to 5.1 d |
//! | a week of picking (cool), three weeks (warm) before the even-chance frost | USDA fall zone table 1919, 16 crops sown in place that must be ripe before frost, by the lower packet days | 71 rows: median 6 d, 94 % within 16 d, bias -2.1 d by warmth alone; 7 d, 92 %, -2.9 d by the program's windows; flat count: 11 d, -11 d |
//! | seed given up after 18 days (twice the quickest emergence if slow), soil down to half a step below the trial's coldest row | USDA spring zone table 1919 | 178 rows: median 8.5 d; 30 rows sown colder than any trial of their seed: 30 d |
//! | autumn and tender days by the catalogue (14 and 14) | extension services | exact; by heat a median 9 d away |
//! | heat that ends a crop: the mean of the last month it has lived since half grown | greatest mean temperatures of a month (Knott 1997); peas sown in March at New York are picked in June | 20 March: 9 June (early), 23 June (main) |
//! | real weather up to a day, expected weather after it | 21 cases of bean and beet at 8 stations, expected first picking against the middle of 30 real years | mean error 1.3 d, bias -1.1 d |
//! | days of the garden's own diary: a season weighs as much as 5 days and a tenth of the length are certain | the packet's own uncertainty of 12 % | one season moves the figure 46 % of the way, three 72 %, ten 90 % |
//!
//! Rows of the zone tables that are printed apart, and why:
//!
//! - fall, plants set out: median 20 d of 28 rows. The table counts eggplant and pepper from seed and gives cauliflower
//!   the dates of cabbage, which takes longer.
//! - fall, greens and roots that stand frost (kale, lettuce, parsley, turnip): median 35 d of 20 rows as if the first
//!   frost ended them, 26 d by the nights that kill them. The table leaves 17 of the 20 fewer days than any packet asks
//!   for: they are cut young there, and grown on after frost; the 3 others are met within 8 d.
//! - fall, parsnip, salsify and muskmelon: given the whole season there, so that later starts are found here.
//! - spring, lima bean, melon, okra, pumpkin and squash sown in place: the table sows them one to three weeks after the
//!   last frost, into soil colder than any trial of their seed; the bulletin's own words are ground thoroughly warmed,
//!   about four weeks after it. With them the whole spring table has a median of 10.5 d of 208 rows (10 was hoped for).
//!
//! The climates that stand for the fall zones are built-in ones with the middle of the zone's frost dates set over
//! them; those of the spring zones lie between two built-in ones, because none stands between the Gulf and New York.
//!
//! The lettuce seasons of California rest on normals from memory, and are marked so where they are computed. Everything
//! marked "from memory" beside its constant was set against nothing.

mod alive;
mod choice;
mod conditions;
mod fitting;
mod limits;
mod need;
mod own;
mod pace;
mod picking;
mod refusal;
mod replay;
mod schedule;
mod season;
mod sprout;
mod stage;
mod stand;
mod tick;
mod water;
mod window;
mod winter;
mod youth;

pub use crate::site::words::years;
pub use choice::{Method, Risk};
pub use conditions::{Conditions, ROOM};
pub use fitting::{Free, grows, in_time};
pub use need::{age, days_needed};
pub use own::{OwnDays, days_shown, own_days};
pub use pace::{COOL_REFERENCE, WARM_REFERENCE};
pub use refusal::{Hindrance, Refusal, years_against};
pub use replay::{Replay, YearSeen, replay};
pub use schedule::{
    AUTUMN_DAYS, Ending, Note, Outlook, PACKET_SPREAD, Schedule, TENDER_DAYS, WEATHER_SPREAD, following,
    outlook, schedule, set_out_on,
};
pub use sprout::Sprouting;
pub use stage::{Dates, Stage};
pub use water::{coefficient, use_on, water_need};
pub use window::{Window, ready, succession, windows, windows_of};
