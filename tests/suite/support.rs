//! What several test files share: example gardens, pressing keys, reading the screen, showing figures reached.

use catchcrop::app::{Effect, Key, Message, Model, update};
use catchcrop::calendar::{Date, Week};
use catchcrop::crop::Book;
use catchcrop::fill::{build, search};
use catchcrop::plan::Plan;
use catchcrop::screen::{ASCII, Depth, Look, Theme, USUAL, view};
use catchcrop::store;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The day on which tests of the screen take place.
pub(crate) fn today() -> Date {
    Date::from_ymd_opt(2027, 5, 22).unwrap()
}

/// A file of the shared reading beside the project, or beside a folder it lies in; none where it is nowhere.
pub(crate) fn shared(path: &str) -> Option<PathBuf> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().map(|folder| folder.join("shared").join(path)).find(|found| found.exists())
}

/// An example garden by the stem of its file.
pub(crate) fn example(stem: &str) -> Plan {
    let path = format!("{}/plans/{stem}.ron", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
    store::text::read(&path, &text).unwrap_or_else(|e| panic!("{path}: {}", e.line_text()))
}

/// An example garden in which nothing is planted yet.
pub(crate) fn bare(stem: &str) -> Plan {
    let mut plan = example(stem);
    plan.plantings.clear();
    plan
}

/// The program opened on a plan.
pub(crate) fn opened(plan: Plan) -> Model {
    let book: Arc<Book> = Arc::new(store::book().clone());
    let mut model = Model::new(plan, book, Some("garden.ron".into()), today());
    model.week = Week::of(today());
    model
}

/// Keys as a test writes them: letters stand for themselves, `<Enter>` and the like for named keys.
pub(crate) fn keys(text: &str) -> Vec<Key> {
    let mut out = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        if first == '<'
            && let Some(end) = rest.find('>')
            && let Some(key) = named(&rest[1..end])
        {
            out.push(key);
            rest = &rest[end + 1..];
        } else {
            out.push(Key::Char(first));
            rest = &rest[first.len_utf8()..];
        }
    }
    out
}

fn named(name: &str) -> Option<Key> {
    Some(match name {
        "Enter" => Key::Enter,
        "Esc" => Key::Esc,
        "Tab" => Key::Tab,
        "BackTab" => Key::BackTab,
        "Back" => Key::Backspace,
        "Del" => Key::Delete,
        "Up" => Key::Up,
        "Down" => Key::Down,
        "Left" => Key::Left,
        "Right" => Key::Right,
        "Home" => Key::Home,
        "End" => Key::End,
        "PgUp" => Key::PageUp,
        "PgDn" => Key::PageDown,
        "C-c" => Key::Interrupt,
        _ => return None,
    })
}

/// Presses keys; the effects come back. Saving succeeds at once.
pub(crate) fn press(model: &mut Model, text: &str) -> Vec<Effect> {
    let mut effects = Vec::new();
    for key in keys(text) {
        effects.extend(update(model, Message::Pressed(key)));
    }
    effects
}

/// Colours and signs of most tests.
pub(crate) fn look() -> Look {
    Look { theme: Theme { depth: Depth::Full, light: false }, glyphs: &USUAL }
}

/// Neither colours nor signs beyond ASCII.
pub(crate) fn plain_look() -> Look {
    Look { theme: Theme { depth: Depth::None, light: false }, glyphs: &ASCII }
}

/// The screen drawn on a window of that size.
pub(crate) fn drawn(model: &mut Model, cols: u16, rows: u16, look: Look) -> TestBackend {
    update(model, Message::Resized(cols, rows));
    let mut terminal = Terminal::new(TestBackend::new(cols, rows)).unwrap();
    terminal
        .draw(|frame| {
            let area = frame.area();
            view(frame.buffer_mut(), area, model, look);
        })
        .unwrap();
    terminal.backend().clone()
}

/// The text of the screen.
pub(crate) fn screen(model: &mut Model, cols: u16, rows: u16) -> String {
    drawn(model, cols, rows, look()).to_string()
}

/// Presses keys, and prints as a worker would; how far it is comes in with every page.
pub(crate) fn printed(model: &mut Model, text: &str) {
    for key in keys(text) {
        for effect in update(model, Message::Pressed(key)) {
            let Effect::Print(id, task) = effect else { continue };
            let mut told = Vec::new();
            let end = catchcrop::screen::print(&task, &mut |done, all| {
                told.push((done, all));
                true
            });
            for (done, all) in told {
                drop(update(model, Message::PrintGoes(id, done, all)));
            }
            drop(update(model, Message::Printed(id, end)));
        }
    }
}

/// Presses keys; what is to be worked out beside the screen is, and comes back.
pub(crate) fn worked_out(model: &mut Model, text: &str) {
    for effect in press(model, text) {
        if let Effect::Errand(errand) = effect {
            drop(update(model, errand.run()));
        }
    }
}

/// Fills the garden as a worker would, and lets the program know.
pub(crate) fn filled(model: &mut Model, keys: &str) {
    for effect in press(model, keys) {
        if let Effect::StartFill(id, task) = effect {
            let built = build(&task.plan, &task.book, &task.year, task.request);
            let outcome = search(&built.problem, &task.effort, task.seed, &mut |_| {});
            drop(update(model, Message::Filled(id, Box::new(built.proposal(&outcome)))));
        }
    }
}

/// Shows what was reached against a published table, whether its test passes or not: straight to the error stream,
/// which the test harness does not keep back. One call a test, so that its lines stay together.
pub(crate) fn show(lines: &[String]) {
    use std::io::Write as _;
    writeln!(std::io::stderr().lock(), "{}", lines.join("\n")).unwrap();
}
