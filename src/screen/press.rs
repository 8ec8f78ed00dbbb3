//! Printing on a thread of its own: it tells how far it is, and can be stopped before anything is written.

use super::input::Incoming;
use super::worker::guarded;
use crate::app::{Doubt, Message, PrintEnd, PrintId, PrintTask};
use crate::paper::{Going, Missing, PaperError, Source};
use crate::store::{PrintError, StoreError, print_out};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;

/// The print that is under way.
#[derive(Debug, Default)]
pub(super) struct Press {
    stop: Arc<AtomicBool>,
}

impl Press {
    /// Tells the print to end.
    pub(super) fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }
    /// Starts a print; the one before is stopped.
    pub(super) fn start(
        &mut self,
        id: PrintId,
        task: PrintTask,
        inbox: &Sender<Incoming>,
    ) -> Option<Message> {
        self.stop();
        let stop = Arc::new(AtomicBool::new(false));
        self.stop = Arc::clone(&stop);
        let to = inbox.clone();
        let spawned = std::thread::Builder::new().name(String::from("print")).spawn(move || {
            let mut going = |done, all| {
                to.send(Incoming::Said(Message::PrintGoes(id, done, all))).unwrap_or_default();
                !stop.load(Ordering::Relaxed)
            };
            let end = guarded(|| print(&task, &mut going)).unwrap_or_else(PrintEnd::Failed);
            to.send(Incoming::Said(Message::Printed(id, end))).unwrap_or_default();
        });
        spawned.err().map(|error| Message::Printed(id, PrintEnd::Failed(error.to_string())))
    }
}

/// Prints as it was asked for: what is doubtful is said before anything is drawn.
pub fn print(task: &PrintTask, going: Going<'_>) -> PrintEnd {
    let source = Source { plan: &task.plan, book: &task.book, year: &task.year, season: task.season };
    if !going(0, 0) {
        return PrintEnd::Stopped;
    }
    let proof = task.order.proof(&source);
    let missing = proof.missing();
    if !missing.is_empty() && !task.boxes {
        return PrintEnd::Asks(Doubt::Boxes(missing.iter().map(Missing::warning).collect()));
    }
    match print_out(&proof, &task.to, task.over, going) {
        Ok(paths) => PrintEnd::Done(paths),
        Err(PrintError::Store(StoreError::Exists { path })) => PrintEnd::Asks(Doubt::There(path)),
        Err(PrintError::Paper(PaperError::Stopped)) => PrintEnd::Stopped,
        Err(error) => PrintEnd::Failed(error.to_string()),
    }
}
