//! The program as a whole in a pseudo-terminal.

mod session;

use session::{Session, given_back, program};
use std::path::Path;

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().unwrap()
}

/// An example garden copied into a folder.
fn garden(dir: &Path, stem: &str) -> String {
    let from = format!("{}/plans/{stem}.ron", env!("CARGO_MANIFEST_DIR"));
    std::fs::copy(from, dir.join("garden.ron")).unwrap();
    String::from("garden.ron")
}

fn signal(process: u32, name: &str) {
    let done = std::process::Command::new("kill").args([&format!("-{name}"), &process.to_string()]).status();
    assert!(done.unwrap().success());
}

#[test]
fn a_session_from_an_empty_garden_to_a_saved_one() {
    let dir = folder();
    let new = ["new", "yard.ron", "--site", "new-york", "--measure", "metric"];
    let made = std::process::Command::new(program()).args(new).current_dir(dir.path()).output().unwrap();
    assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
    let mut session = Session::start(dir.path(), &["yard.ron", "--on", "2027-05-22"], 80, 24);
    session.wait_for("Nothing is laid out yet.");
    session.send("nb");
    session.wait_for("How large is the new box?");
    session.send("120 x 240 cm\r");
    session.wait_for("Carrying");
    session.send("jjll\r");
    session.wait_for("Laid out Box 1.");
    session.send("llllllllnb120 x 120 cm\r");
    session.wait_for("Carrying");
    session.send("\r");
    session.wait_for("Laid out Box 2.");
    session.send("llllllnp38 l\r\r");
    session.wait_for("Laid out Pot 1.");
    session.send("4nlettuce, 3 heads a week, June to October\r");
    session.wait_for("of lettuce");
    session.send("nradish, 1 bunch a week, June to October\r");
    session.wait_for("of radish");
    session.send("nbean, 500 g a week, July to September\r");
    session.wait_for("of bean");
    session.send("fq");
    session.wait_for("Proposed:");
    session.send("a");
    session.wait_for("Accepted a fill of");
    session.send("1...");
    session.wait_for("week 23");
    session.send("u");
    session.wait_for("Undid: accepted a fill of");
    session.send("U");
    session.wait_for("Did again: accepted a fill of");
    // The year in hand: a job is ticked off, a remark written, the weeks go by to the autumn and back.
    session.send("t5");
    session.wait_for("job");
    session.send("x");
    session.wait_for("Wrote down: ");
    session.send("wslugs under the boards\r");
    session.wait_for("slugs under the boards");
    session.send("3>>>>");
    session.wait_for("Sep 2027");
    session.send("t62");
    session.wait_for("week 20");
    session.send("s");
    session.wait_for("Saved to yard.ron.");
    session.send("q");
    let (well, written) = session.end();
    assert!(well && given_back(&written), "{written:?}");
    let saved = std::fs::read_to_string(dir.path().join("yard.ron")).unwrap();
    assert!(saved.contains("\"Box 2\"") && saved.contains("Lettuce"), "{saved}");
    let read =
        |text: &str| -> catchcrop::plan::Plan { catchcrop::store::text::options().from_str(text).unwrap() };
    let plan = read(&saved);
    assert_eq!((plan.places.len(), plan.wishes.len()), (3, 3));
    assert!(plan.diary.len() >= 2 && plan.diary.iter().any(|e| e.words == "slugs under the boards"));
    assert!(plan.plantings.len() > 10, "the season is filled");
    assert_eq!(read(&catchcrop::store::text::options().to_string(&plan).unwrap()), plan, "it reloads equal");
}

#[test]
fn leaving_asks_before_changes_are_lost() {
    let dir = folder();
    let plan = garden(dir.path(), "courtyard");
    let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
    session.wait_for("Long box");
    session.send("o");
    session.wait_for("Resized Long box.");
    session.send("\x03");
    session.wait_for("There are changes that are not saved.");
    session.send("\x1b");
    session.wait_until("the question to go", |s| !s.contains("not saved"));
    session.send("qx");
    let (well, written) = session.end();
    assert!(well && given_back(&written), "{written:?}");
}

#[test]
fn signals_give_the_terminal_back_and_nothing_is_lost() {
    for name in ["TERM", "HUP"] {
        let dir = folder();
        let plan = garden(dir.path(), "courtyard");
        let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
        session.wait_for("Long box");
        session.send("o");
        session.wait_for("Resized Long box.");
        signal(session.process(), name);
        let (_, written) = session.end();
        assert!(given_back(&written), "{name}: {written:?}");
        let again = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
        again.wait_for("without saving 1 edit");
        let mut again = again;
        again.send("y");
        again.wait_for("Took up 1 edit");
        again.send("qx");
        assert!(again.end().0);
    }
}

#[test]
fn a_fill_that_breaks_off_takes_nothing_along() {
    let dir = folder();
    let plan = garden(dir.path(), "courtyard");
    let broken = [("CATCHCROP_BREAK_FILL", "1")];
    let mut session = Session::start_with(dir.path(), &[&plan, "--on", "2027-05-22"], (80, 24), &broken);
    session.wait_for("Long box");
    session.send("o");
    session.wait_for("Resized Long box.");
    session.send("fq");
    session.wait_for("The fill has failed, and nothing was changed");
    // The screen is whole and still answers.
    session.send(".");
    session.wait_for("week 21");
    assert!(session.shown().contains("1 ground 2 bed"), "{}", session.shown());
    session.send("u");
    session.wait_for("Undid: resized Long box.");
    session.send("q");
    let (well, written) = session.end();
    assert!(well && given_back(&written), "{written:?}");
}

#[test]
fn the_mouse_is_the_terminals_own_unless_it_is_switched_on_and_again_at_the_end() {
    let dir = folder();
    let plan = garden(dir.path(), "courtyard");
    let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
    session.wait_for("Long box");
    session.send("Gm");
    session.wait_for("The mouse is on");
    // Pressed on the third view of the lowest row.
    session.send("\x1b[<0;20;24M\x1b[<0;20;24m");
    session.wait_for("by place");
    signal(session.process(), "TERM");
    let (_, written) = session.end();
    assert!(given_back(&written), "{written:?}");
    let at = |text: &str| written.find(text).unwrap_or_else(|| panic!("no {text:?}"));
    assert!(at("\x1b[?1000h") < written.rfind("\x1b[?1000l").unwrap());
    let off = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
    off.wait_for("Long box");
    signal(off.process(), "TERM");
    assert!(!off.end().1.contains("\x1b[?1000h"));
}

#[test]
fn the_tour_is_shown_once_to_those_who_come_without_a_garden() {
    let dir = folder();
    let mut session = Session::start(dir.path(), &["--on", "2027-05-22"], 80, 24);
    session.wait_for("the tour, 1 of 5");
    session.send("\r");
    session.wait_for("the tour, 2 of 5");
    session.send("\x1b");
    session.wait_for("That was the tour");
    session.send("q");
    assert!(session.end().0);
    let mut again = Session::start(dir.path(), &["--on", "2027-05-22"], 80, 24);
    again.wait_for("Long box");
    assert!(!again.shown().contains("the tour"), "{}", again.shown());
    again.send("q");
    assert!(again.end().0);
}

#[test]
fn sheets_are_printed_on_a_thread_of_their_own() {
    let dir = folder();
    let plan = garden(dir.path(), "courtyard");
    let mut session =
        Session::start_with(dir.path(), &[&plan, "--on", "2027-05-22"], (80, 24), &[("NO_COLOR", "1")]);
    session.wait_for("Long box");
    session.send("P");
    session.wait_for("[x] weeks");
    session.send("\r");
    session.wait_for("Printed to garden.pdf.");
    let first = std::fs::read(dir.path().join("garden.pdf")).unwrap();
    assert!(first.starts_with(b"%PDF-"));
    session.send("P\r");
    session.wait_for("garden.pdf is there already. Print over it?");
    session.send("\x1b");
    session.wait_until("the dialogue to go", |s| !s.contains("Print over it?"));
    session.send("q");
    let (well, written) = session.end();
    assert!(well && given_back(&written), "{written:?}");
    assert_eq!(std::fs::read(dir.path().join("garden.pdf")).unwrap(), first);
}

#[test]
fn a_signal_during_a_fill_gives_the_terminal_back() {
    let dir = folder();
    let plan = garden(dir.path(), "plot");
    let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-03-01"], 80, 24);
    session.wait_for("season 2027");
    session.send("fd");
    session.wait_for("Filling");
    signal(session.process(), "TERM");
    let (_, written) = session.end();
    assert!(given_back(&written), "{written:?}");
}

/// How often the threads of a process were put on and off a processor, and the time they had there.
fn wakes(process: u32) -> Option<(u64, u64)> {
    let (mut switches, mut ticks) = (0, 0);
    for task in std::fs::read_dir(format!("/proc/{process}/task")).ok()? {
        let path = task.ok()?.path();
        let status = std::fs::read_to_string(path.join("status")).ok()?;
        switches += status
            .lines()
            .filter(|l| l.contains("ctxt_switches"))
            .filter_map(|l| l.split_whitespace().last()?.parse::<u64>().ok())
            .sum::<u64>();
        let stat = std::fs::read_to_string(path.join("stat")).ok()?;
        // User and system time stand 12 and 13 fields behind the name.
        let behind = stat.rsplit_once(')')?.1;
        ticks +=
            behind.split_whitespace().skip(11).take(2).filter_map(|n| n.parse::<u64>().ok()).sum::<u64>();
    }
    Some((switches, ticks))
}

#[test]
fn nothing_wakes_while_nothing_happens() {
    let dir = folder();
    let plan = garden(dir.path(), "courtyard");
    let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
    session.wait_for("Long box");
    session.send("j");
    session.written();
    match wakes(session.process()) {
        None => println!("skipped: this system does not tell how often a process wakes"),
        Some(before) => {
            std::thread::sleep(std::time::Duration::from_secs(2));
            let after = wakes(session.process()).unwrap();
            println!("idle for 2 s: {} switches, {} ticks", after.0 - before.0, after.1 - before.1);
            assert_eq!(after, before);
        }
    }
    session.send("q");
    assert!(session.end().0);
}

#[test]
fn a_cursor_move_writes_only_what_changes() {
    let dir = folder();
    let plan = garden(dir.path(), "plot");
    let clock = std::time::Instant::now();
    let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 200, 60);
    session.wait_until("the first frame", |s| s.contains("1 ground"));
    println!("start to the first frame on the largest example, 200x60: {} ms", clock.elapsed().as_millis());
    let mut before = session.written();
    for view in ["1", "2", "3", "4", "5", "6", "7", "8", "9"] {
        session.send(view);
        before = session.written().max(before);
        for key in ["j", "l", "k"] {
            session.send(key);
            let after = session.written();
            println!("view {view}, {key}: {} bytes", after - before);
            // Left and right step the week in the timeline: the bars move then. A page of the book is another one.
            let steps = (view == "3" && key == "l") || matches!(view, "6" | "8");
            assert!(after - before < 2_000 || steps, "view {view}, {key}: {} bytes", after - before);
            before = after;
        }
    }
    session.send("q");
    assert!(session.end().0);
}

#[test]
fn any_window_is_drawn_while_it_changes() {
    let dir = folder();
    let plan = garden(dir.path(), "courtyard");
    let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
    session.wait_for("Long box");
    for n in 0..40_u16 {
        session.resize(20 + n * 4, 5 + n);
    }
    session.resize(30, 8);
    session.wait_for("are needed.");
    session.resize(120, 40);
    session.wait_for("Flower border");
    session.send("q");
    let (well, written) = session.end();
    assert!(well && given_back(&written));
}

#[test]
fn a_reply_about_the_background_is_swallowed_even_when_it_comes_in_pieces() {
    let dir = folder();
    let plan = garden(dir.path(), "courtyard");
    let mut session = Session::start(dir.path(), &[&plan, "--on", "2027-05-22"], 80, 24);
    session.wait_for("Long box");
    for piece in ["\x1b]11;rgb:ff", "ff/ffff/ff", "ff\x1b", "\\"] {
        session.send(piece);
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    session.send(".");
    session.wait_for("week 21");
    // Nothing of the reply was taken for keys: no view was changed, nothing is asked, nothing was done.
    assert!(session.shown().contains("Long box") && !session.shown().contains("Undid"));
    session.send("q");
    assert!(session.end().0);
}

#[test]
fn a_new_garden_from_answers() {
    let dir = folder();
    let mut session = Session::start(dir.path(), &["new", "yard.ron", "--on", "2027-03-01"], 100, 60);
    session.wait_for("1. What is the garden called? [Yard]");
    session.send("Quay Garden\r");
    session.wait_for("2. Which units do you read? us or metric [us]");
    session.send("metric\r");
    session.wait_for("3. Which of these climates is most like yours? ('?' lists them)");
    session.send("lndon\r");
    session.wait_for("London");
    session.wait_for("4. On which day is your last frost");
    session.send("20 Apr\r");
    session.wait_for("5. On which day is your first frost");
    session.send("\r");
    session.wait_for("6. How much frost risk");
    session.send("reckless\r");
    session.wait_for("Write cautious, usual or bold.");
    session.send("cautious\r");
    session.wait_for("7. Which beds are there?");
    session.send("120 x 120 cm; 240 x 60 cm\r");
    session.wait_for("2 beds");
    session.wait_for("8. Which pots are there?");
    session.send("38 l\r");
    session.wait_for("9. How many hours of direct sun");
    session.send("6\r");
    session.wait_for("10. What stands there now?");
    session.send("garlic in Box 1\r");
    session.wait_for("11. Where stood nightshades");
    session.send("nightshades in Box 3 in 2026\r");
    session.wait_for("There is no Box 3: there are Box 1, Box 2, Pot 1.");
    session.send("nightshades in Box 2 in 2026; onions in Box 1 in 2025\r");
    session.wait_for("12. What do you want to grow?");
    session.send("lettuce, tomato\r");
    session.wait_for("is in yard.ron: 2 beds and 1 pot at London");
    assert!(session.end().0);
    let book = catchcrop::store::book();
    let plan = catchcrop::store::look(&dir.path().join("yard.ron"), book).unwrap().plan;
    assert_eq!((plan.name.as_str(), plan.places.len()), ("Quay Garden", 3));
    assert_eq!(plan.site.last_frost.unwrap().to_string(), "04-20");
    assert_eq!((plan.wishes.len(), plan.places[0].sun_hours), (2, Some(6.0)));
    let families: Vec<Option<&str>> = plan.record.iter().map(catchcrop::plan::Past::family).collect();
    assert_eq!(families, [Some("Amaryllidaceae"), Some("Solanaceae"), Some("Amaryllidaceae")]);
}
