//! The run loop: one inbox, emptied before each frame; no event, no work. The terminal comes back on every path.

use super::errands::Errands;
use super::frame::view;
use super::glyphs::{ASCII, USUAL};
use super::hit::target;
use super::input::{Incoming, Replies, listen};
use super::pane::Look;
use super::press::Press;
use super::theme::{Depth, Theme};
use super::worker::Worker;
use crate::app::{Effect, Message, Model, Over, Question, update};
use crate::calendar::Date;
use crate::crop::Book;
use crate::plan::Plan;
use crate::store::{self, PlanFile, Recovery, StoreError};
use anyhow::Context as _;
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::crossterm::{cursor, event, execute, queue, style, terminal};
use std::collections::VecDeque;
use std::io::{self, BufWriter, Stdout, Write as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

/// What the program is started with.
pub struct Options {
    /// The plan.
    pub plan: Plan,
    /// Its file, opened to work on it; none: a garden that has none yet.
    pub file: Option<PlanFile>,
    /// Edits of an earlier session that were not saved.
    pub recovery: Option<Recovery>,
    /// The crop book.
    pub book: Arc<Book>,
    /// Today.
    pub today: Date,
    /// Tells what day it is later on; none: the day stays.
    pub clock: Option<fn() -> Date>,
    /// Signs of ASCII alone.
    pub ascii: bool,
    /// A light ground, a dark one, or as the terminal says.
    pub light: Option<bool>,
    /// The mouse is listened to from the start.
    pub mouse: bool,
    /// The tour is shown at first.
    pub tour: bool,
    /// The folder of the grower's settings and crops.
    pub config: Option<PathBuf>,
    /// Said at first.
    pub note: Option<String>,
}

/// Presses, drags and the wheel are reported, but not every move: nothing wakes where no button is held.
const MOUSE_ON: &str = "\x1b[?1000h\x1b[?1002h\x1b[?1006h";
/// The mouse is the terminal's own again.
const MOUSE_OFF: &str = "\x1b[?1006l\x1b[?1002l\x1b[?1000l";

type Screen = Terminal<CrosstermBackend<BufWriter<Stdout>>>;

/// Whether the terminal is ours now.
static TAKEN: AtomicBool = AtomicBool::new(false);

/// Gives the terminal back as it was; does nothing a second time.
fn restore() {
    if TAKEN.swap(false, Ordering::SeqCst) {
        let mut out = io::stdout();
        execute!(
            out,
            terminal::EndSynchronizedUpdate,
            event::DisableBracketedPaste,
            style::Print(MOUSE_OFF),
            terminal::LeaveAlternateScreen,
            cursor::Show
        )
        .unwrap_or_default();
        terminal::disable_raw_mode().unwrap_or_default();
    }
}

/// The terminal while it is ours.
struct Taken(Screen);

impl Taken {
    fn take() -> anyhow::Result<Self> {
        terminal::enable_raw_mode().context("the terminal can't be set to take single keys")?;
        TAKEN.store(true, Ordering::SeqCst);
        let mut out = BufWriter::with_capacity(1 << 16, io::stdout());
        let taken = execute!(out, terminal::EnterAlternateScreen, event::EnableBracketedPaste, cursor::Hide)
            .and_then(|()| Terminal::new(CrosstermBackend::new(out)));
        taken.map(Self).map_err(|error| {
            restore();
            anyhow::Error::new(error).context("the terminal can't be drawn on")
        })
    }
}

impl Drop for Taken {
    fn drop(&mut self) {
        restore();
    }
}

/// A panic of this thread gives the terminal back before it speaks; those of workers are caught and told elsewhere.
fn guard_panics() {
    let ours = std::thread::current().id();
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        if std::thread::current().id() == ours {
            restore();
            before(info);
        }
    }));
}

/// How many colours the terminal shows, as the environment tells.
fn depth() -> Depth {
    let var = |name: &str| std::env::var(name).unwrap_or_default();
    let term = var("TERM");
    if !var("NO_COLOR").is_empty() || matches!(term.as_str(), "dumb" | "linux" | "vt100" | "vt220") {
        Depth::None
    } else if matches!(var("COLORTERM").as_str(), "truecolor" | "24bit") {
        Depth::Full
    } else {
        Depth::Indexed
    }
}

/// Runs the program until the grower leaves.
///
/// # Errors
/// Where the terminal can't be used.
pub fn run(options: Options) -> anyhow::Result<()> {
    let depth = depth();
    let glyphs = if options.ascii { &ASCII } else { &USUAL };
    let mut look = Look { theme: Theme { depth, light: options.light.unwrap_or(false) }, glyphs };
    let path = options.file.as_ref().map(|f| f.path().to_owned());
    let mut model = Model::new(options.plan, options.book, path, options.today);
    model.over = options.recovery.map(|r| Over::Ask(Question::Recover(r)));
    if let Some(words) = options.note {
        model.say(crate::app::Tone::Plain, words);
    }
    if options.tour && model.over.is_none() {
        model.over = Some(Over::Tour(0));
    }
    model.mouse = options.mouse;
    model.beside = true;
    guard_panics();
    let mut taken = Taken::take()?;
    if options.mouse {
        mouse(true);
    }
    let (sender, inbox) = channel();
    let asks = options.light.is_none() && depth != Depth::None;
    if asks {
        let mut out = io::stdout();
        out.write_all(b"\x1b]11;?\x1b\\").and_then(|()| out.flush()).unwrap_or_default();
    }
    start_threads(&sender, if asks { Replies::asked() } else { Replies::default() })?;
    let size = taken.0.size().context("the size of the terminal is not known")?;
    update(&mut model, Message::Resized(size.width, size.height));
    let mut hands = Hands {
        file: options.file,
        config: options.config,
        worker: Worker::default(),
        press: Press::default(),
        errands: Errands::default(),
        inbox: sender,
    };
    turn(&mut taken.0, &mut model, &mut look, &inbox, options.clock, &mut hands)
}

/// Asks the terminal to report the mouse, or not to.
fn mouse(on: bool) {
    let mut out = io::stdout();
    let words = if on { MOUSE_ON } else { MOUSE_OFF };
    out.write_all(words.as_bytes()).and_then(|()| out.flush()).unwrap_or_default();
}

fn start_threads(sender: &Sender<Incoming>, replies: Replies) -> anyhow::Result<()> {
    let inbox = sender.clone();
    std::thread::Builder::new()
        .name(String::from("input"))
        .spawn(move || listen(&inbox, replies))
        .context("no thread for the keys")?;
    #[cfg(unix)]
    {
        use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGTERM};
        let mut signals = signal_hook::iterator::Signals::new([SIGTERM, SIGHUP, SIGINT, SIGCONT])
            .context("signals can't be listened to")?;
        let inbox = sender.clone();
        std::thread::Builder::new()
            .name(String::from("signals"))
            .spawn(move || {
                for signal in signals.forever() {
                    let incoming =
                        if signal == SIGCONT { Incoming::Redraw } else { Incoming::Said(Message::Stop) };
                    if inbox.send(incoming).is_err() {
                        break;
                    }
                }
            })
            .context("no thread for signals")?;
    }
    Ok(())
}

/// What the program does outside: files, and the fill.
struct Hands {
    file: Option<PlanFile>,
    config: Option<PathBuf>,
    worker: Worker,
    press: Press,
    errands: Errands,
    inbox: Sender<Incoming>,
}

impl Hands {
    /// Does what was asked; what came of it.
    fn perform(&mut self, effect: Effect) -> Option<Message> {
        match effect {
            Effect::Save { to, plan, over } => Some(Message::Saved(self.save(to, &plan, over))),
            Effect::Journal(edit) => {
                let written = self.file.as_mut().map(|f| f.journal(&edit))?;
                written.err().map(|e| Message::JournalFailed(e.to_string()))
            }
            Effect::StartFill(id, task) => self.worker.start(id, *task, &self.inbox),
            Effect::StopFill => {
                self.worker.stop();
                None
            }
            Effect::Errand(errand) => self.errands.send(errand, &self.inbox),
            Effect::Print(id, task) => self.press.start(id, *task, &self.inbox),
            Effect::StopPrint => {
                self.press.stop();
                None
            }
            Effect::TakeUp => {
                self.file.as_mut()?.take_up();
                None
            }
            Effect::PutAside => {
                let aside = self.file.as_mut()?.put_aside();
                Some(Message::PutAside(aside.map_err(|e| e.to_string())))
            }
            Effect::LetGo => {
                self.file = None;
                None
            }
            Effect::Mouse(on) => {
                mouse(on);
                None
            }
            Effect::Toured => {
                // Where it can't be kept, the tour is shown once more: no harm is done.
                if let Some(folder) = &self.config {
                    store::keep_toured(folder).unwrap_or_default();
                }
                None
            }
            Effect::AddVariety(entry) => Some(self.add(&entry)),
            Effect::Quit => None,
        }
    }

    /// Adds a variety to the file beside the garden's.
    fn add(&self, entry: &store::PacketEntry) -> Message {
        let done = match &self.file {
            Some(file) => {
                let beside = file.path().parent().unwrap_or_else(|| Path::new(""));
                let folders: Vec<&Path> = self.config.as_deref().into_iter().chain([beside]).collect();
                let added = store::add_variety(file.path(), &folders, entry);
                added
                    .map(|(shelf, path)| (Arc::new(shelf.book.into_owned()), path))
                    .map_err(|e| e.to_string())
            }
            None => Err(String::from("save the garden first: its own varieties lie in a file beside it")),
        };
        Message::Added(entry.id.clone(), done)
    }

    fn save(
        &mut self,
        to: Option<PathBuf>,
        plan: &Plan,
        over: store::Over,
    ) -> Result<store::Saved, StoreError> {
        if let Some(path) = to.filter(|to| self.file.as_ref().is_none_or(|f| f.path() != to)) {
            let mut new = PlanFile::create(&path)?;
            let saved = new.save(plan, over)?;
            self.file = Some(new);
            return Ok(saved);
        }
        match &mut self.file {
            Some(file) => file.save(plan, over),
            None => Err(StoreError::NotThere { path: PathBuf::from("a file for this garden"), near: None }),
        }
    }
}

/// The loop itself: draw, wait for one, take the rest.
fn turn(
    screen: &mut Screen,
    model: &mut Model,
    look: &mut Look,
    inbox: &Receiver<Incoming>,
    clock: Option<fn() -> Date>,
    hands: &mut Hands,
) -> anyhow::Result<()> {
    loop {
        queue!(screen.backend_mut(), terminal::BeginSynchronizedUpdate)?;
        screen.draw(|frame| {
            let area = frame.area();
            view(frame.buffer_mut(), area, model, *look);
        })?;
        execute!(screen.backend_mut(), terminal::EndSynchronizedUpdate)?;
        let Ok(first) = inbox.recv() else { return Ok(()) };
        let mut queue = VecDeque::from([first]);
        queue.extend(inbox.try_iter().take(500));
        if let Some(today) = clock.map(|c| c())
            && today != model.today
        {
            queue.push_front(Incoming::Said(Message::Day(today)));
        }
        while let Some(incoming) = queue.pop_front() {
            let message = match incoming {
                Incoming::Said(message) => message,
                Incoming::Touch(touch, x, y) => {
                    let (cols, rows) = model.size;
                    Message::Touched(touch, target(model, cols, rows, x, y))
                }
                Incoming::Light(light) => {
                    look.theme.light = light;
                    continue;
                }
                Incoming::Redraw => {
                    terminal::enable_raw_mode()?;
                    screen.clear()?;
                    continue;
                }
            };
            for effect in update(model, message) {
                if effect == Effect::Quit {
                    return Ok(());
                }
                queue.extend(hands.perform(effect).map(Incoming::Said));
            }
        }
    }
}
