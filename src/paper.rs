//! Room `paper`: what leaves the program on paper or as a file for another program.
//!
//! A sheet is a pure function from plain data to [`Page`]s; a page is a list of texts, boxes and lines in points
//! (1/72 in), so that its geometry can be tested. [`render`] turns pages into one PDF, or one SVG or PNG a page;
//! equal pages give equal bytes. Nothing here reads a clock or touches a file.
//!
//! [`Source`] makes the content of the sheets from a plan, [`print()`] turns sheets into files of any form.

mod axis;
mod bars;
mod book;
mod chart;
mod font;
mod frame;
mod from_plan;
mod grid;
mod ground;
mod ical;
mod ink;
mod jobs;
mod json;
mod key;
mod kitchen;
mod labels;
mod needs;
mod order;
mod page;
mod pickings;
mod picture;
mod plot;
mod press;
mod proof;
mod record;
mod summary;
mod svg;
mod table;
mod timeline;
mod words;

pub use axis::Axis;
pub use book::{Form, Leaf, Sheet, pages};
pub use font::{Face, Missing, lines, missing, width};
pub use frame::{ADVICE, Imprint, Orientation, Paper, number};
pub use from_plan::{Extra, Source};
pub use grid::{Grid, Records, csv, markdown, text};
pub use ground::{GroundBed, GroundBlock, GroundPlan, GroundSupport, GroundView};
pub use ical::{Stamp, calendar};
pub use ink::{Hue, Pattern, Rgb, Tint};
pub use jobs::{Job, JobList, JobWeek};
pub use kitchen::{KitchenCalendar, KitchenRow};
pub use labels::{Label, Labels};
pub use needs::{NeedsList, NeedsPart, NeedsRow};
pub use order::Order;
pub use page::{Anchor, Edge, Fill, Item, Line, Outline, Page, Pane, Poly, Style, Text};
pub use pickings::{Picking, Pickings};
pub use picture::{TermCell, TermPicture};
pub use press::{Format, Going, PaperError, render};
pub use proof::{Output, Print, Proof, print};
pub use record::{Known, RecordByYears, Soil, Stay};
pub use summary::{SummaryFamily, SummaryWish, YearSummary};
pub use timeline::{Bar, Bed, Kind, Lane, Start, Timeline};
pub use words::{day, minutes, span, week};
