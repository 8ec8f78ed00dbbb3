//! What can be printed: the sheets, and the forms a print may take.

use std::fmt;
use std::str::FromStr;

use super::frame::{Imprint, number};
use super::grid::{Grid, Records};
use super::ground::GroundPlan;
use super::jobs::JobList;
use super::kitchen::KitchenCalendar;
use super::labels::Labels;
use super::needs::NeedsList;
use super::page::Page;
use super::pickings::Pickings;
use super::press::Format;
use super::record::RecordByYears;
use super::summary::YearSummary;
use super::timeline::Timeline;

/// A kind of sheet, as the grower chooses it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sheet {
    /// The season timeline.
    Weeks,
    /// The ground plan of one week.
    Ground,
    /// The ground in four weeks of the year.
    Seasons,
    /// Jobs by week.
    Jobs,
    /// The kitchen calendar.
    Kitchen,
    /// The shopping list.
    Needs,
    /// The record by years.
    Record,
    /// What was picked.
    Pickings,
    /// Labels for pots and rows.
    Labels,
    /// The year on one page.
    Year,
}

impl Sheet {
    /// Every sheet in the order in which they are bound.
    pub const ALL: [Self; 10] = [
        Self::Year,
        Self::Weeks,
        Self::Ground,
        Self::Seasons,
        Self::Jobs,
        Self::Kitchen,
        Self::Needs,
        Self::Record,
        Self::Pickings,
        Self::Labels,
    ];
    /// What is printed unless something else is asked for.
    pub const USUAL: [Self; 3] = [Self::Weeks, Self::Ground, Self::Jobs];

    /// Its word on the command line and in file names.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Weeks => "weeks",
            Self::Ground => "ground",
            Self::Seasons => "seasons",
            Self::Jobs => "jobs",
            Self::Kitchen => "kitchen",
            Self::Needs => "needs",
            Self::Record => "record",
            Self::Pickings => "pickings",
            Self::Labels => "labels",
            Self::Year => "year",
        }
    }
    /// What is on it.
    pub const fn about(self) -> &'static str {
        match self {
            Self::Weeks => "the season timeline",
            Self::Ground => "the ground plan of one week, to scale",
            Self::Seasons => "the ground in four weeks of the year",
            Self::Jobs => "jobs by week, to tick",
            Self::Kitchen => "what comes to the kitchen when",
            Self::Needs => "the shopping list",
            Self::Record => "what stood where, by years",
            Self::Pickings => "what was picked, by the diary",
            Self::Labels => "labels for pots and rows",
            Self::Year => "the year on one page",
        }
    }
}

impl fmt::Display for Sheet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.word())
    }
}

impl FromStr for Sheet {
    type Err = String;
    fn from_str(word: &str) -> Result<Self, String> {
        let word = word.trim().to_lowercase();
        Self::ALL.into_iter().find(|s| s.word() == word).ok_or_else(|| {
            let all: Vec<_> = Self::ALL.iter().map(|s| s.word()).collect();
            format!("there is no sheet '{word}': choose from {}", all.join(", "))
        })
    }
}

/// A sheet with its content.
#[derive(Debug, Clone, PartialEq)]
pub enum Leaf {
    /// The season timeline.
    Weeks(Timeline),
    /// The ground plan of one week.
    Ground(GroundPlan),
    /// The ground in four weeks of the year.
    Seasons(GroundPlan),
    /// Jobs by week.
    Jobs(JobList),
    /// The kitchen calendar.
    Kitchen(KitchenCalendar),
    /// The shopping list.
    Needs(NeedsList),
    /// The record by years.
    Record(RecordByYears),
    /// What was picked.
    Pickings(Pickings),
    /// Labels.
    Labels(Labels),
    /// The year on one page.
    Year(YearSummary),
}

impl Leaf {
    /// Which sheet it is.
    pub const fn sheet(&self) -> Sheet {
        match self {
            Self::Weeks(_) => Sheet::Weeks,
            Self::Ground(_) => Sheet::Ground,
            Self::Seasons(_) => Sheet::Seasons,
            Self::Jobs(_) => Sheet::Jobs,
            Self::Kitchen(_) => Sheet::Kitchen,
            Self::Needs(_) => Sheet::Needs,
            Self::Record(_) => Sheet::Record,
            Self::Pickings(_) => Sheet::Pickings,
            Self::Labels(_) => Sheet::Labels,
            Self::Year(_) => Sheet::Year,
        }
    }

    fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        match self {
            Self::Weeks(s) => s.pages(imprint),
            Self::Ground(s) | Self::Seasons(s) => s.pages(imprint),
            Self::Jobs(s) => s.pages(imprint),
            Self::Kitchen(s) => s.pages(imprint),
            Self::Needs(s) => s.pages(imprint),
            Self::Record(s) => s.pages(imprint),
            Self::Pickings(s) => s.pages(imprint),
            Self::Labels(s) => s.pages(imprint),
            Self::Year(s) => s.pages(imprint),
        }
    }

    pub(super) fn grids(&self) -> Vec<Grid> {
        match self {
            Self::Weeks(s) => s.grids(),
            Self::Ground(s) | Self::Seasons(s) => s.grids(),
            Self::Jobs(s) => s.grids(),
            Self::Kitchen(s) => s.grids(),
            Self::Needs(s) => s.grids(),
            Self::Record(s) => s.grids(),
            Self::Pickings(s) => s.grids(),
            Self::Labels(s) => s.grids(),
            Self::Year(s) => s.grids(),
        }
    }

    pub(super) fn records(&self) -> Records {
        match self {
            Self::Weeks(s) => s.records(),
            Self::Ground(s) | Self::Seasons(s) => s.records(),
            Self::Jobs(s) => s.records(),
            Self::Kitchen(s) => s.records(),
            Self::Needs(s) => s.records(),
            Self::Record(s) => s.records(),
            Self::Pickings(s) => s.records(),
            Self::Labels(s) => s.records(),
            Self::Year(s) => s.records(),
        }
    }
}

/// A form a print may take, told by the ending of its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Pages: one PDF, or an SVG or PNG a page.
    Pages(Format),
    /// A calendar file of jobs and picking times.
    Calendar,
    /// Tables for other programs, one file a sheet.
    Csv,
    /// The same tables as JSON in one file, and its JSON Schema beside it.
    Json,
    /// Markdown.
    Markdown,
    /// Plain text.
    Text,
}

/// Dots per inch of a PNG.
const DOTS: u16 = 150;

impl Form {
    /// Every ending a file may have, the form that belongs to it, and what it is.
    pub const ENDINGS: [(&'static str, Self, &'static str); 8] = [
        ("pdf", Self::Pages(Format::Pdf), "every page in one file, for the printer"),
        ("svg", Self::Pages(Format::Svg), "a drawing a page"),
        ("png", Self::Pages(Format::Png(DOTS)), "a picture a page"),
        ("ics", Self::Calendar, "jobs and picking times for a calendar"),
        ("csv", Self::Csv, "a table a sheet, for other programs"),
        ("json", Self::Json, "the same tables in one file, and their schema"),
        ("md", Self::Markdown, "tables in Markdown"),
        ("txt", Self::Text, "tables in plain text"),
    ];

    /// The form that belongs to the ending of a file name, without the dot.
    ///
    /// # Errors
    /// The words to show where no form has that ending.
    pub fn of(ending: &str) -> Result<Self, String> {
        let asked = ending.to_lowercase();
        Self::ENDINGS.iter().find(|(known, ..)| *known == asked).map(|(_, form, _)| *form).ok_or_else(|| {
            let all = Self::ENDINGS.map(|(known, ..)| known);
            let (last, others) = all.split_last().unwrap_or((&"", &[]));
            format!("'{asked}' is no ending this program can write: choose {} or {last}", others.join(", "))
        })
    }
}

/// The pages of the leaves, with page numbers.
pub fn pages(leaves: &[Leaf], imprint: &Imprint) -> Vec<Page> {
    let mut pages: Vec<Page> = leaves.iter().flat_map(|l| l.pages(imprint)).collect();
    number(&mut pages, imprint);
    pages
}
