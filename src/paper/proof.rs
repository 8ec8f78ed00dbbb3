//! A print: the sheets chosen, set for the form chosen, and pressed into files.

use super::book::{Form, Leaf, Sheet, pages};
use super::font::{Missing, missing};
use super::frame::Imprint;
use super::grid;
use super::ical::{self, Stamp};
use super::jobs::JobList;
use super::json;
use super::page::Page;
use super::press::{Format, Going, PaperError, render_told};
use std::path::{Path, PathBuf};

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

/// A print set but not pressed yet: what it lacks and which files it will be is known before anything is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    leaves: Vec<Leaf>,
    form: Form,
    imprint: Imprint,
    stamp: Stamp,
    /// The pages, where the form has any.
    pages: Vec<Page>,
}

impl Proof {
    /// Sets the leaves for a form. The stamp is used by calendar files only.
    pub fn new(leaves: Vec<Leaf>, form: Form, imprint: Imprint, stamp: Stamp) -> Self {
        let pages = if matches!(form, Form::Pages(_)) { pages(&leaves, &imprint) } else { Vec::new() };
        Self { leaves, form, imprint, stamp, pages }
    }
    /// Letters the faces lack: they would print as empty boxes.
    pub fn missing(&self) -> Vec<Missing> {
        missing(&self.pages)
    }
    /// What goes between the name and the ending of each file.
    fn suffixes(&self) -> Vec<String> {
        let one = || vec![String::new()];
        match self.form {
            Form::Pages(Format::Svg | Format::SvgOutlines | Format::Png(_)) if self.pages.len() > 1 => {
                (1..=self.pages.len()).map(|n| format!("-{n}")).collect()
            }
            Form::Csv if self.leaves.len() > 1 => {
                self.leaves.iter().map(|leaf| format!("-{}", leaf.sheet())).collect()
            }
            Form::Json => vec![String::new(), String::from("-schema")],
            Form::Pages(_) | Form::Csv | Form::Calendar | Form::Markdown | Form::Text => one(),
        }
    }
    /// The files it will be when it is printed to a path.
    pub fn paths(&self, to: &Path) -> Vec<PathBuf> {
        self.suffixes().iter().map(|suffix| named(to, suffix)).collect()
    }
    /// Presses it. `going` is told how far it is and may stop it.
    ///
    /// # Errors
    /// Where there is nothing to print in that form, the drawing was refused, or it was stopped.
    pub fn press(&self, going: Going<'_>) -> Result<Vec<Output>, PaperError> {
        let Self { leaves, imprint, .. } = self;
        if leaves.is_empty() {
            return Err(PaperError::Empty);
        }
        let grids = || leaves.iter().flat_map(Leaf::grids).collect::<Vec<_>>();
        let bytes = match self.form {
            Form::Pages(format) => render_told(&self.pages, format, &imprint.garden, going)?,
            Form::Calendar => vec![calendar(leaves, &self.stamp)?.into_bytes()],
            Form::Csv => leaves
                .iter()
                .map(|leaf| grid::csv(&leaf.records()).map(String::into_bytes))
                .collect::<Result<_, PaperError>>()?,
            Form::Json => {
                let tables: Vec<(Sheet, grid::Records)> =
                    leaves.iter().map(|l| (l.sheet(), l.records())).collect();
                let file = |value: &serde_json::Value| format!("{value:#}\n").into_bytes();
                vec![file(&json::tables(&imprint.garden, &tables)), file(&json::schema(&tables))]
            }
            Form::Markdown => vec![grid::markdown(&grids(), imprint).into_bytes()],
            Form::Text => vec![grid::text(&grids(), imprint).into_bytes()],
        };
        Ok(self.suffixes().into_iter().zip(bytes).map(|(suffix, bytes)| Output { suffix, bytes }).collect())
    }
}

/// Prints the leaves at one go. The stamp is used by calendar files only.
///
/// # Errors
/// Where there is nothing to print in that form, or the drawing was refused.
pub fn print(leaves: &[Leaf], form: Form, imprint: &Imprint, stamp: &Stamp) -> Result<Print, PaperError> {
    let proof = Proof::new(leaves.to_vec(), form, imprint.clone(), stamp.clone());
    Ok(Print { files: proof.press(&mut |_, _| true)?, missing: proof.missing() })
}

/// `yard.svg` and "-2" give `yard-2.svg`.
fn named(to: &Path, suffix: &str) -> PathBuf {
    if suffix.is_empty() {
        return to.to_owned();
    }
    let stem = to.file_stem().unwrap_or_default().to_string_lossy();
    let ending = to.extension().unwrap_or_default().to_string_lossy();
    to.with_file_name(format!("{stem}{suffix}.{ending}"))
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
