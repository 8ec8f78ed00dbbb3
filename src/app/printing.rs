//! Printing from the screen: what is chosen in the dialogue, what is asked of the shell, and what came of it.

use super::field::Line;
use super::keymap::Mode;
use super::message::Effect;
use super::model::{Model, Over, Tone};
use super::update::sentence;
use crate::calendar::{Season, Week};
use crate::crop::Book;
use crate::paper::{Form, Order, Orientation, Paper, Sheet};
use crate::plan::Plan;
use crate::site::SiteYear;
use crate::units::num;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Numbers a print; what is told of another changes nothing on the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct PrintId(pub u64);

/// Everything a print is given.
#[derive(Debug, Clone, PartialEq)]
pub struct PrintTask {
    /// The garden.
    pub plan: Plan,
    /// The crop book.
    pub book: Arc<Book>,
    /// The site's year.
    pub year: Arc<SiteYear>,
    /// The season the sheets are of.
    pub season: Season,
    /// What is printed, and how.
    pub order: Order,
    /// The file.
    pub to: PathBuf,
    /// Whether a file that is there may be printed over.
    pub over: bool,
    /// Whether letters that print as empty boxes are put up with.
    pub boxes: bool,
}

/// Why a print waits for a yes or a no.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Doubt {
    /// Letters would print as empty boxes: what is said of each.
    Boxes(Vec<String>),
    /// A file of that name is there.
    There(PathBuf),
}

impl Doubt {
    /// As it is asked.
    pub fn words(&self) -> String {
        match self {
            Self::Boxes(all) => {
                let shown = all.iter().take(3).map(|words| sentence(words)).collect::<Vec<_>>().join(" ");
                let more = if all.len() > 3 { format!(" {} more do.", all.len() - 3) } else { String::new() };
                format!("{shown}{more} Print all the same?")
            }
            Self::There(path) => format!("{} is there already. Print over it?", path.display()),
        }
    }
}

/// How a print ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PrintEnd {
    /// These files were written.
    Done(Vec<PathBuf>),
    /// Nothing was written yet: it waits for an answer.
    Asks(Doubt),
    /// Nothing was written: why, in words.
    Failed(String),
    /// It was stopped before anything was written.
    Stopped,
}

/// A line of the dialogue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PrintField {
    /// A sheet, to tick.
    Sheet(Sheet),
    /// The size of the paper.
    Paper,
    /// Which way it lies.
    Lies,
    /// The kind of file.
    Kind,
    /// The name of the file.
    File,
}

/// The lines below the sheets.
const REST: [PrintField; 4] = [PrintField::Paper, PrintField::Lies, PrintField::Kind, PrintField::File];
/// The ways the paper may lie.
const WAYS: [Option<Orientation>; 3] = [None, Some(Orientation::Portrait), Some(Orientation::Landscape)];

/// What a print is about now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PrintState {
    /// It is chosen.
    Choosing,
    /// It is drawn: so many pages of so many.
    Running(PrintId, usize, usize),
    /// It waits for a yes or a no.
    Asked(Doubt),
}

/// The dialogue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printing {
    /// The line the cursor is on.
    pub at: usize,
    /// The sheets ticked.
    pub sheets: BTreeSet<Sheet>,
    /// The paper.
    pub paper: Paper,
    /// Which way it lies; none: each sheet as it reads best.
    pub lies: Option<Orientation>,
    /// The kind of file, by its place among the endings.
    kind: usize,
    /// The name of the file.
    pub file: Line,
    /// The season the sheets are of.
    pub season: Season,
    /// The week of the ground, and the first of the jobs.
    pub week: Week,
    /// What it is about now.
    pub state: PrintState,
    /// What was last said about it.
    pub said: Option<(Tone, String)>,
    /// What was answered with yes so far.
    over: bool,
    boxes: bool,
}

impl Printing {
    /// The lines.
    pub fn fields() -> Vec<PrintField> {
        Sheet::ALL.into_iter().map(PrintField::Sheet).chain(REST).collect()
    }
    /// The line the cursor is on.
    pub fn field(&self) -> PrintField {
        Self::fields().get(self.at).copied().unwrap_or(PrintField::File)
    }
    /// The kind of file: its ending, its form, and what it is.
    pub fn kind(&self) -> (&'static str, Form, &'static str) {
        Form::ENDINGS[self.kind.min(Form::ENDINGS.len() - 1)]
    }
    /// What is going on.
    pub(super) fn mode(&self) -> Mode {
        match self.state {
            PrintState::Running(..) => Mode::Pressing,
            PrintState::Asked(_) => Mode::PrintAsked,
            PrintState::Choosing if self.field() == PrintField::File => Mode::Naming,
            PrintState::Choosing => Mode::Printing,
        }
    }
    /// Takes another kind of file; where the usual sheets were ticked, those of the new kind are.
    fn become_kind(&mut self, kind: usize) {
        let before = Order::usual(self.kind().1);
        self.kind = kind;
        if self.sheets == before {
            self.sheets = Order::usual(self.kind().1);
        }
    }
    /// The kind of file whose ending a name has.
    fn kind_of(name: &str) -> Option<usize> {
        let ending = Path::new(name).extension()?.to_str()?.to_lowercase();
        Form::ENDINGS.iter().position(|(known, ..)| *known == ending)
    }
    /// Another choice of the line the cursor is on, so many on.
    fn choose(&mut self, steps: i64) {
        self.said = None;
        let next = |at: usize, of: usize| num::wrap(num::signed(at) + steps, of);
        match self.field() {
            PrintField::Sheet(sheet) => {
                if !self.sheets.remove(&sheet) {
                    self.sheets.insert(sheet);
                }
            }
            PrintField::Paper => {
                self.paper = if self.paper == Paper::A4 { Paper::Letter } else { Paper::A4 };
            }
            PrintField::Lies => {
                let at = WAYS.iter().position(|way| *way == self.lies).unwrap_or(0);
                self.lies = WAYS[next(at, WAYS.len())];
            }
            PrintField::Kind => {
                self.become_kind(next(self.kind, Form::ENDINGS.len()));
                let name = self.file.text();
                let path = match Self::kind_of(&name) {
                    Some(_) => Path::new(&name).with_extension(self.kind().0),
                    None => PathBuf::from(format!("{name}.{}", self.kind().0)),
                };
                self.file = Line::of(&path.display().to_string());
            }
            PrintField::File => {}
        }
    }
    /// The file as it is named.
    ///
    /// # Errors
    /// Where it has no name, or an ending that can't be written.
    fn path(&self) -> Result<PathBuf, String> {
        let text = self.file.text();
        let path = PathBuf::from(text.trim());
        if path.file_name().is_none() || text.trim().ends_with(['/', '\\']) {
            return Err(format!("The name of a file is wanted, such as garden.{}.", self.kind().0));
        }
        match path.extension().and_then(|e| e.to_str()) {
            None => Ok(path.with_extension(self.kind().0)),
            Some(ending) => Form::of(ending).map(|_| path.clone()).map_err(|words| sentence(&words)),
        }
    }
}

/// A name for a file of this garden, without its ending.
pub(super) fn stem(model: &Model) -> String {
    let letter = |c: char| if c.is_alphanumeric() { c } else { '-' };
    let stem: String = model.plan.name.to_lowercase().chars().map(letter).collect();
    if stem.is_empty() { String::from("garden") } else { stem }
}

/// Opens the dialogue: the usual sheets, the garden's own paper, a PDF beside the plan.
pub(super) fn begin(model: &mut Model) -> Vec<Effect> {
    let (ending, form, _) = Form::ENDINGS[0];
    let beside = model.path.as_ref().map(|path| path.with_extension(ending));
    let to = beside.unwrap_or_else(|| PathBuf::from(stem(model)).with_extension(ending));
    let said =
        model.offer.is_some().then(|| (Tone::Mind, String::from("What is only proposed is not printed.")));
    model.over = Some(Over::Print(Box::new(Printing {
        at: 0,
        sheets: Order::usual(form),
        paper: Order::usual_paper(model.plan.settings.measure),
        lies: None,
        kind: 0,
        file: Line::of(&to.display().to_string()),
        season: model.season(),
        week: model.week,
        state: PrintState::Choosing,
        said,
        over: false,
        boxes: false,
    })));
    Vec::new()
}

fn open(model: &mut Model) -> Option<&mut Printing> {
    match &mut model.over {
        Some(Over::Print(printing)) => Some(printing),
        Some(Over::Help(_) | Over::Tour(_) | Over::Slip(_) | Over::Ask(_)) | None => None,
    }
}

/// The cursor goes so many lines down.
pub(super) fn step(model: &mut Model, lines: i64) {
    if let Some(printing) = open(model) {
        printing.at = super::shift(printing.at, lines, Printing::fields().len() - 1);
    }
}

/// Takes another choice of the line at the cursor, or ticks it.
pub(super) fn choose(model: &mut Model, steps: i64) -> Vec<Effect> {
    if let Some(printing) = open(model) {
        printing.choose(steps);
    }
    Vec::new()
}

/// Works on the name of the file; an ending that is known tells the kind.
pub(super) fn edit(model: &mut Model, change: impl FnOnce(&mut Line)) -> Vec<Effect> {
    if let Some(printing) = open(model) {
        change(&mut printing.file);
        printing.said = None;
        if let Some(kind) = Printing::kind_of(&printing.file.text()) {
            printing.become_kind(kind);
        }
    }
    Vec::new()
}

/// Prints what is chosen.
pub(super) fn accept(model: &mut Model) -> Vec<Effect> {
    if let Some(printing) = open(model) {
        (printing.over, printing.boxes) = (false, false);
    }
    start(model)
}

fn start(model: &mut Model) -> Vec<Effect> {
    let Ok(year) = model.year.clone() else { return Vec::new() };
    let id = PrintId(model.runs + 1);
    let (plan, book, printed) = (model.plan.clone(), Arc::clone(&model.book), model.today);
    let Some(printing) = open(model) else { return Vec::new() };
    if printing.sheets.is_empty() {
        printing.said = Some((Tone::Stop, String::from("No sheet is ticked: tick at least one.")));
        return Vec::new();
    }
    let to = match printing.path() {
        Ok(to) => to,
        Err(words) => {
            printing.said = Some((Tone::Stop, words));
            return Vec::new();
        }
    };
    // An ending that was added is seen.
    printing.file = Line::of(&to.display().to_string());
    let order = Order {
        sheets: printing.sheets.clone(),
        paper: Some(printing.paper),
        lies: printing.lies,
        week: printing.week,
        ..Order::new(printing.kind().1, printing.season, printed)
    };
    let (over, boxes, season) = (printing.over, printing.boxes, printing.season);
    printing.said = None;
    printing.state = PrintState::Running(id, 0, 0);
    model.runs = id.0;
    vec![Effect::Print(id, Box::new(PrintTask { plan, book, year, season, order, to, over, boxes }))]
}

/// Yes: it is printed over the file, or with its boxes.
pub(super) fn yes(model: &mut Model) -> Vec<Effect> {
    let Some(printing) = open(model) else { return Vec::new() };
    match printing.state {
        PrintState::Asked(Doubt::There(_)) => printing.over = true,
        PrintState::Asked(Doubt::Boxes(_)) => printing.boxes = true,
        PrintState::Choosing | PrintState::Running(..) => return Vec::new(),
    }
    start(model)
}

/// No: back to the choices, the cursor on the name of the file.
pub(super) fn no(model: &mut Model) -> Vec<Effect> {
    if let Some(printing) = open(model) {
        if matches!(printing.state, PrintState::Asked(Doubt::There(_))) {
            printing.at = Printing::fields().len() - 1;
        }
        printing.state = PrintState::Choosing;
        printing.said = Some((Tone::Plain, String::from("Nothing was written.")));
    }
    Vec::new()
}

/// The dialogue was left: a print that is under way is stopped.
pub(super) fn left(printing: &Printing) -> Vec<Effect> {
    match printing.state {
        PrintState::Running(..) => vec![Effect::StopPrint],
        PrintState::Choosing | PrintState::Asked(_) => Vec::new(),
    }
}

/// A print has come so far.
pub(super) fn goes(model: &mut Model, id: PrintId, done: usize, all: usize) {
    if let Some(printing) = open(model)
        && matches!(printing.state, PrintState::Running(of, ..) if of == id)
    {
        printing.state = PrintState::Running(id, done, all);
    }
}

/// A print has ended.
pub(super) fn ended(model: &mut Model, id: PrintId, end: PrintEnd) {
    let ours = open(model).filter(|p| matches!(p.state, PrintState::Running(of, ..) if of == id));
    match (end, ours) {
        (PrintEnd::Done(paths), ours) => {
            if ours.is_some() {
                model.over = None;
            }
            model.say(Tone::Good, done_words(&paths));
        }
        (PrintEnd::Asks(doubt), Some(printing)) => printing.state = PrintState::Asked(doubt),
        (PrintEnd::Failed(words), Some(printing)) => {
            printing.state = PrintState::Choosing;
            printing.said = Some((Tone::Stop, sentence(&words)));
        }
        (PrintEnd::Failed(words), None) => model.say(Tone::Stop, sentence(&words)),
        (PrintEnd::Stopped, None) => model.say(Tone::Plain, "The print was stopped: nothing was written."),
        (PrintEnd::Asks(_), None) | (PrintEnd::Stopped, Some(_)) => {}
    }
}

/// "Printed to yard.pdf."
fn done_words(paths: &[PathBuf]) -> String {
    match paths {
        [] => String::from("Nothing was printed."),
        [one] => format!("Printed to {}.", one.display()),
        [first, .., last] => {
            let last = last.file_name().unwrap_or_default().to_string_lossy();
            format!("Printed {} files: {} to {last}.", paths.len(), first.display())
        }
    }
}
