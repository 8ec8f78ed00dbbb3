//! What comes in, and what is asked of the shell.

use super::errand::Errand;
use super::filling::{Gauge, RunId, Task};
use super::fits::Fits;
use super::key::Key;
use super::pointer::{Target, Touch};
use super::printing::{PrintEnd, PrintId, PrintTask};
use super::reckon::Sums;
use super::sowing::Sowing;
use crate::calendar::Date;
use crate::crop::{Book, CropId};
use crate::fill::{Progress, Proposal};
use crate::plan::{Edit, Plan};
use crate::store::{Over, PacketEntry, Saved, StoreError};
use std::path::PathBuf;
use std::sync::Arc;

/// Something that happened outside.
#[derive(Debug, Clone, PartialEq)]
pub enum Message {
    /// A key.
    Pressed(Key),
    /// The mouse did something over what a spot of the screen shows.
    Touched(Touch, Option<Target>),
    /// Text was pasted.
    Pasted(String),
    /// The window has this many columns and rows.
    Resized(u16, u16),
    /// It is this day now.
    Day(Date),
    /// The plan was written, or could not be.
    Saved(Result<Saved, StoreError>),
    /// A run of the fill has come so far.
    Progressed(RunId, Progress, Gauge),
    /// It has ended with a proposal.
    Filled(RunId, Box<Proposal>),
    /// It has failed: in words.
    Failed(RunId, String),
    /// Edits that were not wanted were put aside in that file, or could not be: in words.
    PutAside(Result<PathBuf, String>),
    /// A variety was written to a file, and the book was read anew; or could not be: in words.
    Added(CropId, Result<(Arc<Book>, PathBuf), String>),
    /// The journal could not be written: in words.
    JournalFailed(String),
    /// What fits a freed cell.
    Fitted(Box<Fits>),
    /// Something that follows from the plan.
    Reckoned(Box<Sums>),
    /// What a planting that is carried would bring.
    Weighed(Box<Sowing>),
    /// An errand has failed: in words.
    ErrandFailed(String),
    /// A print has drawn so many pages of so many.
    PrintGoes(PrintId, usize, usize),
    /// A print has ended.
    Printed(PrintId, PrintEnd),
    /// The process is asked to end.
    Stop,
}

/// Something the shell is asked to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Write the plan to its file, or to another.
    Save {
        /// The other file.
        to: Option<PathBuf>,
        /// The plan.
        plan: Box<Plan>,
        /// Whether a version that another program wrote may be saved over.
        over: Over,
    },
    /// Fill a garden; a run that is on is stopped.
    StartFill(RunId, Box<Task>),
    /// End the run early.
    StopFill,
    /// Edits of an earlier session are part of the plan now.
    TakeUp,
    /// They are not wanted.
    PutAside,
    /// The garden on the screen is a new one: let go of the file of the one before.
    LetGo,
    /// Keep the edit for the case of a crash.
    Journal(Box<Edit>),
    /// Work something out beside the screen.
    Errand(Errand),
    /// Print sheets; one that is under way is stopped.
    Print(PrintId, Box<PrintTask>),
    /// End the print that is under way.
    StopPrint,
    /// Add a variety to the grower's own crops.
    AddVariety(Box<PacketEntry>),
    /// Listen to the mouse, or not.
    Mouse(bool),
    /// The tour was taken: it need not be shown by itself again.
    Toured,
    /// End.
    Quit,
}
