//! The fill on a thread of its own: it tells how far it is, can be stopped, and never takes the program down.

use super::input::Incoming;
use crate::app::{Gauge, Message, RunId, Task};
use crate::fill::{Effort, Progress, Quota, build, search};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;
use std::time::{Duration, Instant};

/// Reports come at most this often.
const PACE: Duration = Duration::from_millis(50);

/// Where this variable is set, a fill breaks off at once: so it can be seen that nothing is lost by it.
const BREAK: &str = "CATCHCROP_BREAK_FILL";

/// The run that is on.
#[derive(Debug, Default)]
pub(super) struct Worker {
    stop: Arc<AtomicBool>,
}

struct Allowance {
    effort: Effort,
    stop: Arc<AtomicBool>,
}

impl Quota for Allowance {
    fn effort(&self) -> Effort {
        self.effort
    }
    fn stop(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
    fn threads(&self) -> usize {
        std::thread::available_parallelism().map_or(1, |n| n.get().min(4))
    }
}

impl Worker {
    /// Tells the run to end with what it has.
    pub(super) fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }
    /// Starts a run; the one before is stopped.
    pub(super) fn start(&mut self, id: RunId, task: Task, inbox: &Sender<Incoming>) -> Option<Message> {
        self.stop();
        let stop = Arc::new(AtomicBool::new(false));
        self.stop = Arc::clone(&stop);
        let to = inbox.clone();
        let spawned = std::thread::Builder::new().name(String::from("fill")).spawn(move || {
            let message =
                guarded(|| work(id, &task, &stop, &to)).unwrap_or_else(|words| Message::Failed(id, words));
            to.send(Incoming::Said(message)).unwrap_or_default();
        });
        spawned.err().map(|error| Message::Failed(id, error.to_string()))
    }
}

/// Does work whose panic is not to take the program down.
///
/// # Errors
/// The words of the panic.
pub(super) fn guarded<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(work)).map_err(|panic| words(panic.as_ref()))
}

/// The words of a panic.
fn words(panic: &(dyn std::any::Any + Send)) -> String {
    let text = panic.downcast_ref::<&str>().map(|s| (*s).to_owned());
    text.or_else(|| panic.downcast_ref::<String>().cloned()).unwrap_or_else(|| String::from("it broke off"))
}

fn work(id: RunId, task: &Task, stop: &Arc<AtomicBool>, inbox: &Sender<Incoming>) -> Message {
    assert!(std::env::var_os(BREAK).is_none(), "it was told to break off");
    let built = build(&task.plan, &task.book, &task.year, task.request);
    let allowance = Allowance { effort: task.effort, stop: Arc::clone(stop) };
    let (began, point) = (Instant::now(), built.problem.point.max(1));
    let mut last: Option<(Instant, Progress)> = None;
    let outcome = search(&built.problem, &allowance, task.seed, &mut |progress| {
        let due = last.is_none_or(|(when, before)| when.elapsed() >= PACE && before != progress);
        if due {
            last = Some((Instant::now(), progress));
            let gauge = Gauge {
                points: progress.value / point,
                // What is proved is not made less by rounding.
                bound: progress
                    .bound
                    .map(|bound| bound.div_euclid(point) + i64::from(bound.rem_euclid(point) > 0)),
                seconds: began.elapsed().as_secs(),
            };
            inbox.send(Incoming::Said(Message::Progressed(id, progress, gauge))).unwrap_or_default();
        }
    });
    Message::Filled(id, Box::new(built.proposal(&outcome)))
}
