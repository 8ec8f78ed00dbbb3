//! The state of the program: everything a view may read.

use super::carry::{Carry, Load};
use super::errand::Errand;
use super::filling::{Offer, Reasons, Run};
use super::fits::Fits;
use super::key::Key;
use super::keymap::Mode;
use super::pointer::Hold;
use super::printing::Printing;
use super::reckon::{Reckoned, Stamps};
use super::siteplan::{Footprint, Spot};
use super::slip::{Narrowed, Slip};
use super::timeline::{Grouping, Row};
use super::view::View;
use super::wizard::Wizard;
use crate::calendar::{Date, Season, Week};
use crate::check::{Finding, Return};
use crate::crop::Book;
use crate::garden::{Layer, Place, PlaceId};
use crate::plan::{History, Plan, Planting, PlantingId, Wish};
use crate::site::{Monthly, SiteYear};
use crate::store::Recovery;
use crate::work::Job;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

/// The least window that shows everything it has to: columns and rows.
pub const LEAST: (u16, u16) = (60, 18);

/// Whether a window is too small to show anything but that.
pub const fn is_too_small((cols, rows): (u16, u16)) -> bool {
    cols < LEAST.0 || rows < LEAST.1
}

/// How much a line of words matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Said by the way.
    Plain,
    /// Went well.
    Good,
    /// To be minded.
    Mind,
    /// Does not work.
    Stop,
}

/// A line of words to the grower.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// How much it matters.
    pub tone: Tone,
    /// The words.
    pub words: String,
}

/// A question with a yes and a no.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// Leave with changes that are not saved?
    Leave,
    /// Take away a place and retire it instead, as it has plantings?
    Retire(PlaceId),
    /// Save over what another program wrote?
    SaveOver,
    /// Take up the edits of an earlier session?
    Recover(Recovery),
    /// Close a season?
    Close(Season),
}

/// What lies over the view.
#[derive(Debug, Clone, PartialEq)]
pub enum Over {
    /// The list of keys, so many lines down.
    Help(usize),
    /// A step of the tour, from 0.
    Tour(usize),
    /// A line to type.
    Slip(Box<Slip>),
    /// A question.
    Ask(Question),
    /// What to print.
    Print(Box<Printing>),
}

/// What can be taken up at the cursor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Grasp {
    /// A bed or pot.
    Place(PlaceId),
    /// A planting.
    Planting(PlantingId),
}

/// Everything.
#[derive(Debug, Clone)]
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of its own")]
pub struct Model {
    /// The garden.
    pub plan: Plan,
    /// The steps taken.
    pub history: History,
    /// The crop book.
    pub book: Arc<Book>,
    /// The site's year; why there is none, in words.
    pub year: Result<Arc<SiteYear>, String>,
    /// The file.
    pub path: Option<PathBuf>,
    /// Today.
    pub today: Date,
    /// The week shown.
    pub week: Week,
    /// The view shown.
    pub view: View,
    /// Columns and rows of the window.
    pub size: (u16, u16),
    /// The cursor on the site plan.
    pub spot: Spot,
    /// How much closer the site plan is looked at than the window suggests.
    pub zoom: i8,
    /// How much closer the timeline is looked at: columns are doubled so many times.
    pub closer: u8,
    /// The timeline shows the bed at the cursor alone.
    pub alone: bool,
    /// The bed shown large.
    pub bed: Option<PlaceId>,
    /// The cursor in it: row and column.
    pub cell: (u16, u16),
    /// What lies over the view.
    pub over: Option<Over>,
    /// What is carried about.
    pub carry: Option<Carry>,
    /// Keys of a sequence that is not finished.
    pub pending: Vec<Key>,
    /// The last thing said.
    pub note: Option<Note>,
    /// The mouse is listened to.
    pub mouse: bool,
    /// What the mouse has hold of.
    pub(super) hold: Option<Hold>,
    /// The program ends once the plan is saved.
    pub leaving: bool,
    /// The layer of a cell that is worked on.
    pub layer: Layer,
    /// The line the cursor is on in each list.
    pub lines: BTreeMap<View, usize>,
    /// How far the page beside a list is scrolled.
    pub scroll: usize,
    /// What the rows of the timeline are.
    pub grouping: Grouping,
    /// The record shows the cells of this bed or pot.
    pub cells_of: Option<PlaceId>,
    /// The season the record's cursor is on, counted from that of the shown week.
    pub season_at: i32,
    /// What is looked for in the crop book.
    pub find: String,
    /// What the crop book is narrowed to.
    pub narrowed: Option<Narrowed>,
    /// What follows from the plan.
    pub reckoned: Reckoned,
    /// What takes long is worked out beside the screen, so that a key is answered at once; else where it is needed.
    pub beside: bool,
    /// What is to be worked out beside the screen.
    pub(super) errands: Vec<Errand>,
    /// What fits the freed cell that is asked about; none while that is worked out.
    pub fits: Option<Fits>,
    /// The run of the fill that is on.
    pub run: Option<Run>,
    /// Runs of the fill and prints begun so far.
    pub(super) runs: u64,
    /// Seed of the next run.
    pub seed: u64,
    /// What the fill proposes.
    pub offer: Option<Offer>,
    /// Why the last fill could not meet each wish.
    pub(super) reasons: Reasons,
    /// Changes of the plan or of what is proposed so far: tells lists when they are stale.
    pub(super) revision: u64,
    /// What there is to do in the shown week.
    pub jobs: Vec<Job>,
    pub(super) jobs_for: Option<(Week, u64)>,
    /// What the season shown needs, line by line.
    pub needs: Vec<String>,
    pub(super) needs_for: Option<(Season, u64)>,
    /// Hours of direct sun a day by month on the cells the cursor has been on, as the season is planned now.
    pub light: BTreeMap<(PlaceId, (u16, u16)), Monthly>,
    pub(super) light_for: Option<(Season, u64)>,
    /// Which plant families may return to which soil from the season under the record's cursor on.
    pub returns: Vec<Return>,
    pub(super) returns_for: Option<(Season, u64)>,
    /// The answers to the questions about a new garden.
    pub(super) wizard: Wizard,
    /// The answers about a variety.
    pub(super) packet: Vec<String>,
    /// The garden was made here and has not been saved yet.
    pub new_garden: bool,
    /// Of which state what is reckoned is true.
    pub(super) stamps: Stamps,
}

impl Model {
    /// A garden just opened.
    pub fn new(plan: Plan, book: Arc<Book>, path: Option<PathBuf>, today: Date) -> Self {
        let plan = plan.in_order();
        let year = site_year(&plan);
        let mut model = Self {
            plan,
            history: History::new(),
            book,
            year,
            path,
            today,
            week: Week::of(today),
            view: View::Ground,
            size: (80, 24),
            spot: Spot::default(),
            zoom: 0,
            closer: 0,
            alone: false,
            bed: None,
            cell: (0, 0),
            over: None,
            carry: None,
            pending: Vec::new(),
            note: None,
            mouse: false,
            hold: None,
            leaving: false,
            layer: Layer::Main,
            lines: BTreeMap::new(),
            scroll: 0,
            grouping: Grouping::Places,
            cells_of: None,
            season_at: -1,
            find: String::new(),
            narrowed: None,
            reckoned: Reckoned::default(),
            beside: false,
            errands: Vec::new(),
            fits: None,
            run: None,
            runs: 0,
            seed: 1,
            offer: None,
            reasons: Reasons::new(),
            revision: 0,
            jobs: Vec::new(),
            jobs_for: None,
            needs: Vec::new(),
            needs_for: None,
            light: BTreeMap::new(),
            light_for: None,
            returns: Vec::new(),
            returns_for: None,
            wizard: Wizard::default(),
            packet: Vec::new(),
            new_garden: false,
            stamps: Stamps::default(),
        };
        if let Some(first) = model.places().first().map(|p| p.id.clone()) {
            model.go_to(&first, (0, 0));
        }
        model.refresh();
        model
    }

    /// The day of the shown week that the views show: the garden day, after its work.
    pub fn shown_day(&self) -> Date {
        self.week.day(self.plan.settings.garden_day)
    }
    /// Whether the shown week is that of today.
    pub fn is_this_week(&self) -> bool {
        self.week.holds(self.today)
    }
    /// What is going on.
    pub fn mode(&self) -> Mode {
        match &self.over {
            Some(Over::Help(_)) => Mode::Helping,
            Some(Over::Tour(_)) => Mode::Touring,
            Some(Over::Slip(_)) => Mode::Typing,
            Some(Over::Print(printing)) => printing.mode(),
            Some(Over::Ask(Question::Leave)) => Mode::Leaving,
            Some(Over::Ask(
                Question::Retire(_) | Question::SaveOver | Question::Recover(_) | Question::Close(_),
            )) => Mode::Asked,
            None if self.carry.is_some() => Mode::Carrying,
            None => Mode::In(self.view),
        }
    }
    /// Beds and pots of the shown day, from north-west to south-east.
    pub fn places(&self) -> Vec<&Place> {
        let (date, cell) = (self.shown_day(), self.plan.settings.cell);
        let mut out: Vec<&Place> = self.shown().places_on(date).collect();
        out.sort_by_key(|p| {
            let at = Spot::near(p.at_on(date), cell);
            (at.y, at.x, p.id.clone())
        });
        out
    }
    /// Whether there is something to save.
    pub const fn is_dirty(&self) -> bool {
        self.new_garden || self.history.is_dirty()
    }
    /// Where a place lies on the shown day.
    pub fn footprint(&self, place: &Place) -> Footprint {
        Footprint::of(place, self.shown_day(), self.plan.settings.cell)
    }
    /// The place and cell at a spot of the site plan.
    pub fn at_spot(&self, spot: Spot) -> Option<(&Place, (u16, u16))> {
        self.places().into_iter().find_map(|p| Some((p, self.footprint(p).cell_at(spot)?)))
    }
    /// The place and cell the cursor is on.
    pub fn focus(&self) -> Option<(&Place, (u16, u16))> {
        match self.view {
            View::Ground => self.at_spot(self.spot),
            View::Bed => self.bed.as_ref().and_then(|id| self.plan.place(id)).map(|p| (p, self.cell)),
            View::Weeks => match self.row()? {
                Row::Place(id) => self.plan.place(&id).map(|p| (p, (0, 0))),
                Row::Cell(id, cell) => self.plan.place(&id).map(|p| (p, cell)),
                Row::Planting(id) => {
                    let planting = self.shown().planting(id)?;
                    let place = self.plan.place(&planting.place)?;
                    Some((place, (planting.block.row, planting.block.col)))
                }
                Row::Crop(_) => None,
            },
            View::Wishes | View::Jobs | View::Findings | View::Record | View::Book | View::Needs => None,
        }
    }
    /// The cell of the bed shown large.
    pub fn bed_cell(&self) -> Option<(&Place, (u16, u16))> {
        self.bed.as_ref().and_then(|id| self.plan.place(id)).map(|p| (p, self.cell))
    }
    /// The place the cursor is on.
    pub fn focus_place(&self) -> Option<&Place> {
        self.focus().map(|(place, _)| place)
    }
    /// What stands in a cell on the shown day.
    pub fn standing(&self, place: &PlaceId, cell: (u16, u16), layer: Layer) -> Option<&Planting> {
        self.shown().standing(place, cell, layer, self.shown_day())
    }
    /// The planting the cursor is on: in the layer that is worked on, or else in the other.
    pub fn focus_planting(&self) -> Option<&Planting> {
        if self.view == View::Weeks {
            return self.row_planting();
        }
        let (place, cell) = self.focus()?;
        let other = if self.layer == Layer::Main { Layer::Mate } else { Layer::Main };
        self.standing(&place.id, cell, self.layer).or_else(|| self.standing(&place.id, cell, other))
    }
    /// The wish the cursor is on.
    pub fn focus_wish(&self) -> Option<&Wish> {
        self.plan.wishes.get(self.line(View::Wishes))
    }
    /// The finding the cursor is on.
    pub fn focus_finding(&self) -> Option<&Finding> {
        self.reckoned.findings.get(self.line(View::Findings))
    }
    /// The crop of the book the cursor is on.
    pub fn focus_crop(&self) -> Option<&crate::crop::Crop> {
        if self.view == View::Book { self.found().into_iter().nth(self.line(View::Book)) } else { None }
    }
    /// What can be taken up at the cursor: a place on the ground, a planting in a bed.
    pub fn grasp(&self) -> Option<Grasp> {
        match self.view {
            View::Ground => self.focus_place().map(|p| Grasp::Place(p.id.clone())),
            View::Bed | View::Weeks => self.focus_planting().map(|p| Grasp::Planting(p.id)),
            View::Wishes | View::Jobs | View::Findings | View::Record | View::Book | View::Needs => None,
        }
    }
    /// The place that is carried.
    pub fn carried_place(&self) -> Option<&Place> {
        match self.carry.as_ref()?.load {
            Load::Place { ref place, .. } => Some(place),
            Load::Planting(_) => None,
        }
    }

    /// The planting that is carried.
    pub fn carried_planting(&self) -> Option<&Planting> {
        match self.carry.as_ref()?.load {
            Load::Planting(ref sowing) => Some(&sowing.planting),
            Load::Place { .. } => None,
        }
    }
    /// Puts the cursors on a cell of a place.
    pub fn go_to(&mut self, id: &PlaceId, cell: (u16, u16)) {
        let Some(place) = self.plan.place(id) else { return };
        let foot = self.footprint(place);
        let cell = (cell.0.min(foot.rows.saturating_sub(1)), cell.1.min(foot.cols.saturating_sub(1)));
        self.spot = foot.spot_of(cell.0, cell.1).plus(0, 0);
        self.bed = Some(id.clone());
        self.cell = cell;
    }
    /// Says something.
    pub fn say(&mut self, tone: Tone, words: impl Into<String>) {
        self.note = Some(Note { tone, words: words.into() });
    }
    /// The plan the views show: with the proposal where there is one.
    pub fn shown(&self) -> &Plan {
        self.offer.as_ref().map_or(&self.plan, |offer| &offer.plan)
    }
    /// Computes anew what depends on the plan, and mends cursors that point nowhere.
    pub fn refresh(&mut self) {
        self.revision += 1;
        self.reckon();
        for view in View::ALL {
            let last = self.count(view).saturating_sub(1);
            if let Some(line) = self.lines.get_mut(&view) {
                *line = (*line).min(last);
            }
        }
        if self.bed.as_ref().is_none_or(|id| self.plan.place(id).is_none()) {
            self.bed = self.places().first().map(|p| p.id.clone());
            self.cell = (0, 0);
        }
        if let Some(place) = self.bed.as_ref().and_then(|id| self.plan.place(id)) {
            let (rows, cols) = place.grid(self.plan.settings.cell);
            self.cell = (self.cell.0.min(rows.saturating_sub(1)), self.cell.1.min(cols.saturating_sub(1)));
        }
    }
}

/// The year of a plan's site.
pub(super) fn site_year(plan: &Plan) -> Result<Arc<SiteYear>, String> {
    SiteYear::new(&plan.site).map(Arc::new).map_err(|e| e.to_string())
}
