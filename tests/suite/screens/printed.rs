//! Printing from the screen: what is chosen, what is written, and what is left alone.

use super::planted;
use crate::support::{drawn, look, opened, plain_look, press, printed, screen};
use catchcrop::app::{Effect, Message, Mode, Model, Over, PrintEnd, Printing, Tone, update};
use catchcrop::screen::{Depth, Look, Theme, USUAL};
use ratatui::style::{Color, Modifier};
use std::path::Path;

/// The planted courtyard, its plan in a folder.
fn courtyard(dir: &Path) -> Model {
    let mut model = planted();
    model.path = Some(dir.join("garden.ron"));
    model
}

fn dialogue(model: &Model) -> &Printing {
    let Some(Over::Print(printing)) = &model.over else { panic!("the dialogue is open: {:?}", model.over) };
    printing
}

fn said(model: &Model) -> &str {
    dialogue(model).said.as_ref().map_or("", |(_, words)| words)
}

/// Keys that go to the name of the file and type another.
fn name(model: &Model, text: &str) -> String {
    let erase = "<Back>".repeat(dialogue(model).file.text().chars().count());
    format!("{}<End>{erase}{text}", "<Down>".repeat(20))
}

#[test]
fn the_dialogue_in_every_look() {
    let mut model = opened(planted().plan);
    press(&mut model, "P");
    insta::assert_snapshot!("print_80x24", screen(&mut model, 80, 24));
    let ascii = drawn(&mut model, 80, 24, plain_look()).to_string();
    assert!(ascii.is_ascii(), "{ascii}");
    insta::assert_snapshot!("print_ascii_80x24", ascii);
    let colourless = Look { theme: Theme { depth: Depth::None, light: false }, glyphs: &USUAL };
    let bare = drawn(&mut model, 80, 24, colourless);
    assert_eq!(bare.to_string(), drawn(&mut model, 80, 24, look()).to_string(), "no word hangs on colour");
    let cells = &bare.buffer().content;
    assert!(cells.iter().all(|c| (c.fg, c.bg) == (Color::Reset, Color::Reset)));
    assert!(cells.iter().any(|c| c.modifier.contains(Modifier::REVERSED)), "the line at the cursor is seen");
    insta::assert_snapshot!("print_160x50", screen(&mut model, 160, 50));
    // On the least window the line at the cursor and the name of the file are reached by going down.
    press(&mut model, &"<Down>".repeat(13));
    assert_eq!(model.mode(), Mode::Naming);
    insta::assert_snapshot!("print_60x18", screen(&mut model, 60, 18));
}

#[test]
fn a_pdf_is_printed_beside_the_plan_and_its_path_shown() {
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    let before = model.plan.clone();
    printed(&mut model, "P<Enter>");
    assert!(model.over.is_none(), "{:?}", model.over);
    let path = dir.path().join("garden.pdf");
    assert_eq!(model.note.as_ref().unwrap().words, format!("Printed to {}.", path.display()));
    assert!(std::fs::read(&path).unwrap().starts_with(b"%PDF-"));
    assert_eq!(model.plan, before, "printing changes nothing of the garden");
}

#[test]
fn a_file_that_is_there_is_printed_over_only_after_a_yes() {
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    let path = dir.path().join("garden.pdf");
    std::fs::write(&path, "mine").unwrap();
    let there = || std::fs::read(&path).unwrap();
    printed(&mut model, "P<Enter>");
    assert_eq!((model.mode(), there().as_slice()), (Mode::PrintAsked, &b"mine"[..]));
    insta::with_settings!({filters => vec![(r"(?m)^.*is there already.*$", "[the question]"), (r"(?m)^.*file +.*$", "[the file]")]}, {
        insta::assert_snapshot!("print_asks_80x24", screen(&mut model, 80, 24));
    });
    // Enter, which began it, is no yes.
    printed(&mut model, "<Enter>");
    assert_eq!((model.mode(), there().as_slice()), (Mode::PrintAsked, &b"mine"[..]));
    printed(&mut model, "n");
    assert_eq!((model.mode(), there().as_slice()), (Mode::Naming, &b"mine"[..]));
    assert_eq!(said(&model), "Nothing was written.");
    // A yes holds for one print: the next asks again.
    printed(&mut model, "<Enter><Esc>");
    assert!(model.over.is_none() && there() == b"mine");
    printed(&mut model, "P<Enter>y");
    assert!(model.over.is_none() && there().starts_with(b"%PDF-"));
    printed(&mut model, "P<Enter>");
    assert_eq!(model.mode(), Mode::PrintAsked);
}

#[test]
fn sheets_paper_and_kind_are_chosen() {
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    press(&mut model, "P");
    let words = |model: &Model| dialogue(model).sheets.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(words(&model), ["weeks", "ground", "jobs"]);
    // The kind brings its ending and its usual sheets; so does an ending that is typed.
    press(&mut model, &format!("{}<Right><Right><Right>", "j".repeat(12)));
    assert!(dialogue(&model).file.text().ends_with("garden.ics"));
    assert_eq!(words(&model), ["weeks", "jobs"]);
    press(&mut model, "<Down><Back><Back><Back>csv");
    assert_eq!((dialogue(&model).kind().0, words(&model).len()), ("csv", 3));
    // The order for the press is what is ticked.
    press(&mut model, "<Up><Up><Right><Up><Right>");
    press(&mut model, &format!("{} j j j j ", "<Up>".repeat(20)));
    let effects = press(&mut model, "<Enter>");
    let Some(Effect::Print(_, task)) = effects.into_iter().next() else { panic!("a print") };
    let order = task.order;
    assert_eq!(order.sheets.iter().map(ToString::to_string).collect::<Vec<_>>(), ["seasons", "year"]);
    assert_eq!(
        order.paper,
        Some(catchcrop::paper::Paper::A4),
        "the courtyard is measured in feet: Letter first"
    );
    assert_eq!(order.lies, Some(catchcrop::paper::Orientation::Portrait));
    assert_eq!(order.week, model.week);
}

#[test]
fn several_files_are_written_and_named() {
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    press(&mut model, "P");
    let keys = name(&model, &format!("{}/tables.csv<Enter>", dir.path().display()));
    printed(&mut model, &keys);
    let words = &model.note.as_ref().unwrap().words;
    assert!(words.starts_with("Printed 3 files: ") && words.ends_with("to tables-jobs.csv."), "{words}");
    for sheet in ["weeks", "ground", "jobs"] {
        assert!(dir.path().join(format!("tables-{sheet}.csv")).exists(), "{sheet}");
    }
    // One of them is there: none is written before a yes.
    std::fs::remove_file(dir.path().join("tables-weeks.csv")).unwrap();
    press(&mut model, "P");
    let keys = name(&model, &format!("{}/tables.csv<Enter>", dir.path().display()));
    printed(&mut model, &keys);
    assert_eq!(model.mode(), Mode::PrintAsked);
    assert!(!dir.path().join("tables-weeks.csv").exists());
}

#[test]
fn what_can_not_be_written_is_said_with_what_helps_and_the_dialogue_stays() {
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    let at = dir.path().display().to_string();
    press(&mut model, "P");
    for (text, wanted) in [
        (String::new(), String::from("The name of a file is wanted, such as garden.pdf.")),
        (format!("{at}/"), String::from("The name of a file is wanted, such as garden.pdf.")),
        (String::from("x.doc"), String::from("'doc' is no ending this program can write: choose pdf, svg")),
        (format!("{at}/attic/x.pdf"), format!("there is no folder {at}/attic: make it, or choose another.")),
    ] {
        let keys = name(&model, &format!("{text}<Enter>"));
        printed(&mut model, &keys);
        assert!(said(&model).contains(&wanted), "{text}: {}", said(&model));
        assert_eq!(dialogue(&model).said.as_ref().unwrap().0, Tone::Stop);
    }
    let keys = format!("{}{}", name(&model, "x.pdf"), "<Up>".repeat(20));
    press(&mut model, &format!("{keys}j j jj <Enter>"));
    assert_eq!(said(&model), "No sheet is ticked: tick at least one.");
    assert_eq!(std::fs::read_dir(dir.path()).unwrap().count(), 0, "nothing was written");
}

#[cfg(unix)]
#[test]
fn a_write_protected_file_stays_as_it_is() {
    use std::os::unix::fs::PermissionsExt as _;
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    let path = dir.path().join("garden.pdf");
    std::fs::write(&path, "mine").unwrap();
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o444)).unwrap();
    printed(&mut model, "P<Enter>y");
    assert!(said(&model).contains("is write-protected: allow writing to it"), "{}", said(&model));
    assert_eq!(std::fs::read(&path).unwrap(), b"mine");
}

#[test]
fn letters_that_print_as_boxes_are_told_before_anything_is_written() {
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    model.plan.name = String::from("\u{6771} court");
    printed(&mut model, "P<Enter>");
    assert_eq!(model.mode(), Mode::PrintAsked);
    let shown = screen(&mut model, 80, 24);
    assert!(shown.contains("'\u{6771}'") && shown.contains("prints as an empty box."), "{shown}");
    printed(&mut model, "n");
    assert_eq!(std::fs::read_dir(dir.path()).unwrap().count(), 0, "nothing was written");
    printed(&mut model, "<Enter>y");
    assert!(dir.path().join("garden.pdf").exists());
    // A file that is there is asked about next.
    printed(&mut model, "P<Enter>y");
    assert!(screen(&mut model, 80, 24).contains("is there already"));
}

#[test]
fn a_print_can_be_left_at_any_point() {
    let dir = tempfile::tempdir().unwrap();
    let mut model = courtyard(dir.path());
    let effects = press(&mut model, "P<Enter>");
    let Some(Effect::Print(id, task)) = effects.into_iter().next() else { panic!("a print") };
    assert_eq!(model.mode(), Mode::Pressing);
    drop(update(&mut model, Message::PrintGoes(id, 1, 4)));
    assert!(screen(&mut model, 80, 24).contains("Drawing page 2 of 4"));
    assert_eq!(press(&mut model, "<Esc>"), [Effect::StopPrint]);
    assert!(model.over.is_none());
    // Told to stop before the second page, it writes nothing.
    let mut pages = 0;
    let end = catchcrop::screen::print(&task, &mut |done, _| {
        pages = done;
        done < 1
    });
    assert_eq!((&end, pages), (&PrintEnd::Stopped, 1));
    drop(update(&mut model, Message::Printed(id, end)));
    assert_eq!(model.note.as_ref().unwrap().words, "The print was stopped: nothing was written.");
    assert_eq!(std::fs::read_dir(dir.path()).unwrap().count(), 0);
    press(&mut model, "P<Esc>");
    assert!(model.over.is_none());
}
