//! What the program can be told to do.

use super::field::Stroke;
use super::filling::{self, FillWay};
use super::fits;
use super::model::Model;
use super::slip::{About, Matter};
use super::view::View;
use crate::garden::Kind;

/// A direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// North, or to the line before.
    Up,
    /// South, or to the next line.
    Down,
    /// West, or backwards.
    Left,
    /// East, or onwards.
    Right,
}

/// One thing to do. What a command needs beyond its own values it takes from the model: the view, the cursor, the
/// chosen week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Command {
    /// Show a view.
    Go(View),
    /// So many weeks on.
    Weeks(i64),
    /// So many months on.
    Months(i64),
    /// Back to the week of today.
    Today,
    /// To a date that is typed.
    Date,
    /// The cursor goes one step.
    Cursor(Way),
    /// The cursor goes a page.
    Page(Way),
    /// The cursor goes to the first line.
    First,
    /// The cursor goes to the last line.
    Last,
    /// To the next bed or pot, or section.
    Next,
    /// To the one before.
    Previous,
    /// Go into what the cursor is on.
    Open,
    /// Go back out, or let go of what is carried.
    Back,
    /// Take the last step back.
    Undo,
    /// Do it again.
    Redo,
    /// Write the plan to its file.
    Save,
    /// Write it to another file.
    SaveAs,
    /// Leave.
    Quit,
    /// Save, then leave.
    SaveAndQuit,
    /// Leave and let the changes go.
    QuitUnsaved,
    /// Every key of this view.
    Help,
    /// A tour of five steps.
    Tour,
    /// Listen to the mouse, or not.
    Mouse,
    /// Find any command by its words.
    Palette,
    /// Lay out a new place of that kind.
    New(Kind),
    /// Set up something that shades.
    Obstacle,
    /// Take up what is under the cursor to move it.
    Carry,
    /// Take up a copy of it.
    Copy,
    /// Turn what is carried, or the place under the cursor.
    Turn,
    /// Put down what is carried.
    Drop,
    /// Take away what is under the cursor.
    Remove,
    /// Change something about it by typing.
    Edit(About),
    /// Draw it larger or smaller.
    Stretch,
    /// Change something about the garden as a whole.
    Matter(Matter),
    /// Write down the seed of a crop in the drawer.
    Packets,
    /// Add a variety of the crop under the cursor.
    Variety,
    /// What is carried changes places with what stands under the cursor.
    Swap,
    /// Retire it from the chosen week on.
    Retire,
    /// Look closer, or from farther away.
    Zoom(i8),
    /// Plant a crop at the cursor.
    Plant,
    /// Fix the planting under the cursor, or free it.
    Fix,
    /// Move it by weeks.
    Shift(i64),
    /// Work on the other layer.
    Layer,
    /// Start what is carried in another way.
    Restart,
    /// Write a new wish.
    Wish,
    /// Make the wish under the cursor more or less important.
    Weigh(i8),
    /// Set the finding under the cursor aside, or take it up again.
    Aside,
    /// Order the rows of the timeline otherwise.
    Group,
    /// The timeline of one bed alone, or of the whole garden.
    Alone,
    /// Look for a crop in the book.
    Find,
    /// Show of the book what fits the cell at the cursor, or all of it again.
    Narrow,
    /// Mark the job under the cursor as done.
    Tick,
    /// Put it off.
    PutOff,
    /// Write into the diary.
    Diary,
    /// Close a season.
    CloseSeason,
    /// Make a new garden by answering questions.
    NewGarden,
    /// Fill the garden.
    Fill(FillWay),
    /// End the fill early.
    StopFill,
    /// Accept the whole proposal.
    AcceptAll,
    /// Accept what is proposed for one bed or pot.
    AcceptPlace,
    /// Drop the proposal.
    DropOffer,
    /// Accept what is typed or chosen.
    Accept,
    /// Complete what is typed from the line chosen below.
    Complete,
    /// Work on the line that is typed.
    Stroke(Stroke),
    /// Say yes.
    Yes,
    /// Say no, and go on.
    No,
    /// What fits the cell under the cursor from the shown week on.
    Fits,
    /// Choose sheets to print.
    Print,
    /// Tick the line under the cursor, or take its next choice.
    Choose,
}

impl Command {
    /// Why it can't be done now; none where it can.
    pub fn hindrance(self, model: &Model) -> Option<&'static str> {
        if model.offer.is_some() && self.changes() {
            return Some("That is only proposed: accept it (a) or drop it (D) first.");
        }
        let place = || model.focus_place().is_none().then_some("There is no bed or pot under the cursor.");
        match self {
            Self::Undo => model.history.undoing().is_none().then_some("There is nothing to take back."),
            Self::Redo => model.history.redoing().is_none().then_some("There is nothing to do again."),
            Self::Remove if model.obstacle_at(model.spot).is_some() && model.view == View::Ground => None,
            Self::Remove if model.view == View::Wishes => {
                model.focus_wish().is_none().then_some("There is no wish yet.")
            }
            Self::Carry | Self::Copy | Self::Remove => {
                model.grasp().is_none().then_some("There is nothing here to take up.")
            }
            Self::Turn if model.carry.is_none() => place(),
            Self::Edit(_) | Self::Retire | Self::Stretch => place(),
            Self::Packets | Self::Variety => model.focus_crop().is_none().then_some("There is no crop here."),
            Self::Narrow if model.year.is_err() => Some("Nothing can be reckoned without a climate."),
            Self::Narrow => model.bed_cell().is_none().then_some("There is no bed or pot yet."),
            Self::Swap => model.carried_planting().is_none().then_some("Only plantings change places."),
            Self::Zoom(step) if model.view == View::Weeks => {
                let to = i16::from(model.closer) + i16::from(step);
                (!(0..=3).contains(&to)).then_some("It does not go any further that way.")
            }
            Self::Zoom(step) => {
                (!(-3..=3).contains(&(model.zoom + step))).then_some("It does not go any further that way.")
            }
            Self::Today => model.is_this_week().then_some("This is the week of today."),
            Self::Tick | Self::PutOff => model.focus_job().is_none().then_some("There is no job here."),
            Self::NewGarden if model.is_dirty() => {
                Some("Save this garden first (s), or take its changes back.")
            }
            Self::Fill(_) if model.year.is_err() => Some("Nothing can be filled without a climate."),
            Self::Fill(_) if model.plan.places.is_empty() => Some("There is no bed or pot to fill yet."),
            Self::Fits if model.year.is_err() => Some("Nothing can be weighed without a climate."),
            Self::Fits => (!fits::is_possible(model)).then_some("There is no cell under the cursor."),
            Self::Print if model.year.is_err() => Some("Nothing can be printed without a climate."),
            Self::Print if model.plan.places.is_empty() => Some("There is no bed or pot to print yet."),
            Self::StopFill => model.run.is_none().then_some("No fill is on."),
            Self::AcceptAll | Self::DropOffer => model.offer.is_none().then_some("Nothing is proposed."),
            Self::AcceptPlace => {
                let none = model.offer.is_none() || filling::place(model).is_none();
                none.then_some("Nothing is proposed for a bed or pot here.")
            }
            Self::Plant => model.plan.places.is_empty().then_some("There is no bed or pot to plant in yet."),
            Self::Fix | Self::Shift(_) => {
                model.focus_planting().is_none().then_some("There is no planting under the cursor.")
            }
            Self::Weigh(_) => model.focus_wish().is_none().then_some("There is no wish yet."),
            Self::Aside => model.focus_finding().is_none().then_some("There is no finding here."),
            Self::Next | Self::Previous => {
                (model.plan.places.is_empty()).then_some("There is no bed or pot yet.")
            }
            Self::Go(_)
            | Self::Weeks(_)
            | Self::Months(_)
            | Self::Date
            | Self::Matter(_)
            | Self::Cursor(_)
            | Self::Page(_)
            | Self::First
            | Self::Last
            | Self::Open
            | Self::Back
            | Self::Save
            | Self::SaveAs
            | Self::Quit
            | Self::SaveAndQuit
            | Self::QuitUnsaved
            | Self::Help
            | Self::Tour
            | Self::Mouse
            | Self::Palette
            | Self::New(_)
            | Self::Obstacle
            | Self::Turn
            | Self::Drop
            | Self::Diary
            | Self::CloseSeason
            | Self::NewGarden
            | Self::Fill(_)
            | Self::Layer
            | Self::Restart
            | Self::Wish
            | Self::Group
            | Self::Alone
            | Self::Find
            | Self::Accept
            | Self::Complete
            | Self::Stroke(_)
            | Self::Yes
            | Self::No
            | Self::Print
            | Self::Choose => None,
        }
    }
    /// Whether it changes the garden by hand.
    const fn changes(self) -> bool {
        matches!(
            self,
            Self::New(_)
                | Self::Obstacle
                | Self::Carry
                | Self::Copy
                | Self::Turn
                | Self::Remove
                | Self::Edit(_)
                | Self::Retire
                | Self::Stretch
                | Self::Matter(_)
                | Self::Packets
                | Self::Swap
                | Self::Plant
                | Self::Fits
                | Self::Fix
                | Self::Shift(_)
                | Self::Wish
                | Self::Weigh(_)
                | Self::Tick
                | Self::PutOff
                | Self::Diary
                | Self::CloseSeason
        )
    }
    /// Whether it can be done now.
    pub fn is_possible(self, model: &Model) -> bool {
        self.hindrance(model).is_none()
    }
}
