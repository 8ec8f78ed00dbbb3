//! A print: the sheets chosen, in the form chosen.

use std::fmt;
use std::str::FromStr;

use super::font::{Missing, missing};
use super::frame::{Imprint, number};
use super::grid::{self, Grid, Records};
use super::ground::GroundPlan;
use super::ical::{self, Stamp};
use super::jobs::JobList;
use super::json;
use super::kitchen::KitchenCalendar;
use super::labels::Labels;
use super::needs::NeedsList;
use super::page::Page;
use super::pickings::Pickings;
use super::press::{Format, PaperError, render};
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

    fn grids(&self) -> Vec<Grid> {
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

    fn records(&self) -> Records {
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
    /// The form that belongs to the ending of a file name, without the dot.
    ///
    /// # Errors
    /// The words to show where no form has that ending.
    pub fn of(ending: &str) -> Result<Self, String> {
        Ok(match ending.to_lowercase().as_str() {
            "pdf" => Self::Pages(Format::Pdf),
            "svg" => Self::Pages(Format::Svg),
            "png" => Self::Pages(Format::Png(DOTS)),
            "ics" => Self::Calendar,
            "csv" => Self::Csv,
            "json" => Self::Json,
            "md" => Self::Markdown,
            "txt" => Self::Text,
            other => {
                return Err(format!(
                    "'{other}' is no ending this program can write: choose pdf, svg, png, ics, csv, json, md or txt"
                ));
            }
        })
    }
}

/// One file of a print.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Output {
    /// What goes between the name and the ending: empty where the print is one file, else "-2", "-jobs".
    pub suffix: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// A finished print.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Print {
    /// Its files.
    pub files: Vec<Output>,
    /// Letters the faces lack: they print as empty boxes.
    pub missing: Vec<Missing>,
}

/// The pages of the leaves, with page numbers.
pub fn pages(leaves: &[Leaf], imprint: &Imprint) -> Vec<Page> {
    let mut pages: Vec<Page> = leaves.iter().flat_map(|l| l.pages(imprint)).collect();
    number(&mut pages, imprint);
    pages
}

/// Prints the leaves. The stamp is used by calendar files only.
///
/// # Errors
/// Where there is nothing to print in that form, or the drawing was refused.
pub fn print(leaves: &[Leaf], form: Form, imprint: &Imprint, stamp: &Stamp) -> Result<Print, PaperError> {
    let grids = || leaves.iter().flat_map(Leaf::grids).collect::<Vec<_>>();
    let one = |words: String| vec![Output { suffix: String::new(), bytes: words.into_bytes() }];
    let mut lacking = Vec::new();
    let files = match form {
        Form::Pages(format) => {
            let pages = pages(leaves, imprint);
            lacking = missing(&pages);
            let files = render(&pages, format, &imprint.garden)?;
            let several = files.len() > 1;
            let suffix = |n: usize| if several { format!("-{}", n + 1) } else { String::new() };
            files.into_iter().enumerate().map(|(n, bytes)| Output { suffix: suffix(n), bytes }).collect()
        }
        Form::Calendar => one(calendar(leaves, stamp)?),
        Form::Csv => {
            let several = leaves.len() > 1;
            let file = |leaf: &Leaf| {
                let suffix = if several { format!("-{}", leaf.sheet()) } else { String::new() };
                Ok(Output { suffix, bytes: grid::csv(&leaf.records())?.into_bytes() })
            };
            leaves.iter().map(file).collect::<Result<_, PaperError>>()?
        }
        Form::Json => {
            let tables: Vec<(Sheet, Records)> = leaves.iter().map(|l| (l.sheet(), l.records())).collect();
            let file = |suffix: &str, value: &serde_json::Value| Output {
                suffix: suffix.to_owned(),
                bytes: format!("{value:#}\n").into_bytes(),
            };
            vec![file("", &json::tables(&imprint.garden, &tables)), file("-schema", &json::schema(&tables))]
        }
        Form::Markdown => one(grid::markdown(&grids(), imprint)),
        Form::Text => one(grid::text(&grids(), imprint)),
    };
    if leaves.is_empty() || files.is_empty() {
        return Err(PaperError::Empty);
    }
    Ok(Print { files, missing: lacking })
}

/// The calendar holds the jobs and the picking times among the leaves.
fn calendar(leaves: &[Leaf], stamp: &Stamp) -> Result<String, PaperError> {
    let mut jobs = JobList::default();
    let mut season = None;
    let mut found = false;
    for leaf in leaves {
        match leaf {
            Leaf::Jobs(list) => {
                jobs.weeks.extend(list.weeks.iter().cloned());
                found = true;
            }
            Leaf::Weeks(line) => {
                season = Some(line);
                found = true;
            }
            Leaf::Ground(_)
            | Leaf::Seasons(_)
            | Leaf::Kitchen(_)
            | Leaf::Needs(_)
            | Leaf::Record(_)
            | Leaf::Pickings(_)
            | Leaf::Labels(_)
            | Leaf::Year(_) => {}
        }
    }
    if !found {
        return Err(PaperError::Words(
            "a calendar: only the sheets 'jobs' and 'weeks' have dates to put in".to_owned(),
        ));
    }
    Ok(ical::calendar(&jobs, season, stamp))
}
