//! Plan files: what comes back is what was written, and nothing is lost on the way.

use super::{book, courtyard, plan};
use catchcrop::plan::{Edit, Plan};
use catchcrop::store::{self, Over, PlanFile, StoreError};
use proptest::prelude::*;
use std::fs;
use std::path::{Path, PathBuf};

fn saved(name: &str) -> (tempfile::TempDir, PathBuf) {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join(name);
    PlanFile::create(&path).unwrap().save(&courtyard(), Over::Never).unwrap();
    (dir, path)
}

fn named(plan: &Plan, name: &str) -> Plan {
    Plan { name: name.to_owned(), ..plan.clone() }
}

fn names(dir: &Path) -> Vec<String> {
    let mut out: Vec<String> =
        fs::read_dir(dir).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    out.sort();
    out
}

#[test]
fn every_example_comes_back_as_it_was() {
    for file in fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/plans")).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|e| e != "ron") {
            continue;
        }
        let loaded = store::look(&path, book()).unwrap_or_else(|e| panic!("{e}"));
        let text = store::plan_text(&loaded.plan).unwrap();
        assert_eq!(plan(&text), loaded.plan, "{}", path.display());
        assert_eq!(store::plan_text(&plan(&text)).unwrap(), text, "a second save changes no byte");
        let widest = text.lines().map(|l| l.chars().count()).max().unwrap();
        println!("{}: {} bytes, widest line {widest}", path.display(), text.len());
        assert!(widest <= 200, "{}: a line of {widest} letters", path.display());
    }
}

#[test]
fn a_garden_is_laid_out_for_reading() {
    let mut plan = plan(include_str!("old/schema-0.ron"));
    plan.note = String::from("says \"hello\" (and, perhaps: more) // not a comment");
    insta::assert_snapshot!("a_garden_file", store::plan_text(&plan).unwrap());
}

#[test]
fn one_change_is_one_line() {
    let before = courtyard();
    let mut after = before.clone();
    after.wishes[3].importance = 1;
    let (a, b) = (store::plan_text(&before).unwrap(), store::plan_text(&after).unwrap());
    assert_eq!(a.lines().count(), b.lines().count());
    assert_eq!(a.lines().zip(b.lines()).filter(|(a, b)| a != b).count(), 1);
}

#[test]
fn a_save_leaves_the_file_and_the_version_before() {
    let (dir, path) = saved("yard.ron");
    assert_eq!(names(dir.path()), ["yard.ron"], "no lock, journal or half-written file is left");
    let first = fs::read_to_string(&path).unwrap();
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    assert_eq!(loaded.plan, courtyard());
    assert!(!file.save(&loaded.plan, Over::Never).unwrap().written, "nothing changed, nothing written");
    assert!(file.save(&named(&loaded.plan, "Other"), Over::Never).unwrap().written);
    drop(file);
    assert_eq!(names(dir.path()), ["yard.ron", "yard.ron.before"]);
    assert_eq!(fs::read_to_string(dir.path().join("yard.ron.before")).unwrap(), first);
    assert_eq!(store::look(&path, book()).unwrap().plan.name, "Other");
}

#[cfg(unix)]
#[test]
fn mode_and_symbolic_link_survive() {
    use std::os::unix::fs::PermissionsExt;
    let (dir, path) = saved("yard.ron");
    let mode = |p: &Path| fs::metadata(p).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&path) & 0o600, 0o600);
    assert_ne!(mode(&path), 0o600, "a new file follows the umask, not the temporary file's mode");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let link = dir.path().join("link.ron");
    std::os::unix::fs::symlink("yard.ron", &link).unwrap();
    let (loaded, mut file) = PlanFile::open(&link, book()).unwrap();
    file.save(&named(&loaded.plan, "Through the link"), Over::Never).unwrap();
    drop(file);
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(mode(&path), 0o640);
    assert_eq!(store::look(&path, book()).unwrap().plan.name, "Through the link");
    assert_eq!(names(dir.path()), ["link.ron", "yard.ron", "yard.ron.before"]);
}

#[test]
fn a_write_protected_file_is_left_alone() {
    let (_dir, path) = saved("yard.ron");
    let before = fs::read(&path).unwrap();
    let mut mode = fs::metadata(&path).unwrap().permissions();
    mode.set_readonly(true);
    fs::set_permissions(&path, mode).unwrap();
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    let error = file.save(&named(&loaded.plan, "Other"), Over::Never).unwrap_err();
    assert!(matches!(error, StoreError::Protected { .. }), "{error}");
    assert_eq!(fs::read(&path).unwrap(), before);
}

#[test]
fn two_programs_do_not_share_a_garden() {
    let (_dir, path) = saved("yard.ron");
    let (_, held) = PlanFile::open(&path, book()).unwrap();
    let error = PlanFile::open(&path, book()).unwrap_err();
    assert!(matches!(error, StoreError::Busy { .. }), "{error}");
    assert!(error.to_string().contains("is open in another catchcrop"), "{error}");
    assert!(store::look(&path, book()).is_ok(), "looking is free");
    drop(held);
    assert!(PlanFile::open(&path, book()).is_ok());
}

#[test]
fn a_change_by_another_program_is_not_saved_over() {
    let (dir, path) = saved("yard.ron");
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    assert!(!file.changed_outside());
    let theirs = fs::read_to_string(&path).unwrap().replace("Wrenfold Yard", "Renamed by hand");
    fs::write(&path, &theirs).unwrap();
    assert!(file.changed_outside());
    let error = file.save(&named(&loaded.plan, "Mine"), Over::Never).unwrap_err();
    assert!(matches!(error, StoreError::Changed { .. }), "{error}");
    assert_eq!(fs::read_to_string(&path).unwrap(), theirs);
    let done = file.save(&named(&loaded.plan, "Mine"), Over::Changed).unwrap();
    assert!(done.said[0].contains("yard.ron.theirs"), "{:?}", done.said);
    assert_eq!(fs::read_to_string(dir.path().join("yard.ron.theirs")).unwrap(), theirs);
    assert_eq!(store::look(&path, book()).unwrap().plan.name, "Mine");
    assert!(!file.changed_outside());
    // The same content written again by another program is no change.
    fs::write(&path, fs::read(&path).unwrap()).unwrap();
    assert!(!file.changed_outside());
}

#[test]
fn comments_by_hand_are_kept_beside_once() {
    let (dir, path) = saved("yard.ron");
    let commented =
        fs::read_to_string(&path).unwrap().replace("    wishes: [", "    // salad first\n    wishes: [");
    fs::write(&path, &commented).unwrap();
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    assert_eq!(loaded.remarks.len(), 1, "{:?}", loaded.remarks);
    let done = file.save(&named(&loaded.plan, "One"), Over::Never).unwrap();
    assert!(done.said[0].contains("yard.ron.comments"), "{:?}", done.said);
    assert_eq!(file.save(&named(&loaded.plan, "Two"), Over::Never).unwrap().said, Vec::<String>::new());
    assert_eq!(fs::read_to_string(dir.path().join("yard.ron.comments")).unwrap(), commented);
}

#[test]
fn a_broken_file_is_never_written() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("yard.ron");
    fs::write(&path, "(schema: 1, name: ").unwrap();
    assert!(PlanFile::open(&path, book()).unwrap_err().is_content());
    assert!(matches!(PlanFile::create(&path).unwrap_err(), StoreError::Exists { .. }));
    assert_eq!(names(dir.path()), ["yard.ron"]);
    assert_eq!(fs::read_to_string(&path).unwrap(), "(schema: 1, name: ");
}

#[test]
fn a_missing_file_is_told_with_its_neighbour() {
    let (dir, _) = saved("courtyard.ron");
    let error = PlanFile::open(&dir.path().join("cortyard.ron"), book()).unwrap_err();
    assert!(!error.is_content());
    assert!(error.to_string().ends_with("courtyard.ron?"), "{error}");
    assert_eq!(names(dir.path()), ["courtyard.ron"]);
    let nowhere = dir.path().join("no/such/garden.ron");
    assert!(PlanFile::create(&nowhere).unwrap_err().to_string().contains("there is no folder"));
}

fn rename(name: &str) -> Edit {
    Edit::Name(name.to_owned(), String::from("a (note), with: signs"))
}

#[test]
fn edits_survive_a_crash() {
    let (dir, path) = saved("yard.ron");
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    assert!(loaded.recovery.is_none());
    let mut worked = loaded.plan.clone();
    let planting = Edit::Wish(worked.wishes[0].id, None);
    for edit in [rename("One"), planting, rename("Two")] {
        file.journal(&edit).unwrap();
        worked.apply(&edit).unwrap();
    }
    drop(file);

    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    let recovery = loaded.recovery.expect("the edits wait");
    assert!(recovery.fits && !recovery.torn);
    let mut plan = loaded.plan.clone();
    assert_eq!(recovery.replay(&mut plan), (3, None));
    assert_eq!(plan, worked);
    let error = file.save(&loaded.plan, Over::Never).unwrap_err();
    assert!(matches!(error, StoreError::Waiting { .. }), "{error}");
    assert!(error.to_string().starts_with("3 edits from a session"), "{error}");
    file.take_up();
    file.journal(&rename("Three")).unwrap();
    plan.apply(&rename("Three")).unwrap();
    drop(file);

    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    let mut again = loaded.plan.clone();
    loaded.recovery.unwrap().replay(&mut again);
    assert_eq!(again, plan, "what was taken up stays written down until it is saved");
    file.take_up();
    file.save(&again, Over::Never).unwrap();
    drop(file);
    assert_eq!(names(dir.path()), ["yard.ron", "yard.ron.before"]);
    assert_eq!(store::look(&path, book()).unwrap().plan, plan);
}

#[test]
fn a_torn_or_foreign_journal_is_understood() {
    let (dir, path) = saved("yard.ron");
    let journal = dir.path().join("yard.ron.journal");
    let (_, mut file) = PlanFile::open(&path, book()).unwrap();
    file.journal(&rename("One")).unwrap();
    file.journal(&rename("Two")).unwrap();
    drop(file);
    let whole = fs::read_to_string(&journal).unwrap();

    fs::write(&journal, &whole[..whole.len() - 9]).unwrap();
    let recovery = store::look(&path, book()).unwrap().recovery.unwrap();
    assert!(recovery.torn && recovery.fits);
    assert_eq!(recovery.edits, [rename("One")]);

    fs::write(&journal, &whole).unwrap();
    fs::write(&path, fs::read_to_string(&path).unwrap().replace("Wrenfold", "Wrenfield")).unwrap();
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    assert!(!loaded.recovery.unwrap().fits, "they were made on another content");
    let aside = file.put_aside().unwrap();
    assert_eq!(fs::read_to_string(aside).unwrap(), whole, "dropped edits are not destroyed");
    file.save(&named(&loaded.plan, "Other"), Over::Never).unwrap();
}

/// A crash between putting the new file in place and taking the journal away.
#[test]
fn a_journal_whose_edits_are_saved_is_not_offered() {
    let (dir, path) = saved("yard.ron");
    let journal = dir.path().join("yard.ron.journal");
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    let mut plan = loaded.plan;
    plan.apply(&rename("One")).unwrap();
    file.journal(&rename("One")).unwrap();
    let before = fs::read_to_string(&journal).unwrap();
    file.save(&plan, Over::Never).unwrap();
    drop(file);
    let base = before.lines().next().unwrap();
    // FNV-1a of the content, as the journal names it.
    let content = fs::read(&path)
        .unwrap()
        .iter()
        .fold(0xcbf2_9ce4_8422_2325_u64, |h, b| (h ^ u64::from(*b)).wrapping_mul(0x0000_0100_0000_01b3));
    fs::write(&journal, format!("{before}// Saved: {content:016x}\n")).unwrap();
    assert!(store::look(&path, book()).unwrap().recovery.is_none(), "{base}");
    drop(PlanFile::open(&path, book()).unwrap());
    assert_eq!(names(dir.path()), ["yard.ron", "yard.ron.before"]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    /// Random edits of a good file: it opens or says why, and what opens comes back the same.
    #[test]
    fn no_text_breaks_the_reader(cuts in prop::collection::vec((0_usize..6000, 0_usize..40, "[(){}\\[\\],:\"/*a-z0-9é.\\\\ \n]{0,6}"), 1..4)) {
        let mut text = include_str!("../../../plans/balcony.ron").to_owned();
        for (at, len, put) in cuts {
            let border = |mut i: usize| { i = i.min(text.len()); while !text.is_char_boundary(i) { i -= 1 } i };
            let (a, b) = (border(at), border(at + len));
            text.replace_range(a..b, &put);
        }
        match store::read_plan("x.ron", &text, book()) {
            Ok((read, _)) => {
                let again = store::plan_text(&read).unwrap();
                prop_assert_eq!(plan(&again), read);
            }
            Err(error) => {
                prop_assert!(error.is_content());
                prop_assert!(!error.to_string().is_empty());
            }
        }
    }
}

/// Every kind of edit comes back from the journal as it went in.
#[test]
fn every_edit_can_be_written_down() {
    use catchcrop::crop::CropId;
    use catchcrop::garden::PlaceId;
    use catchcrop::growth::Stage;
    use catchcrop::plan::{Cause, DiaryEntry, Event, Packet, SetAside};
    let (_dir, path) = saved("yard.ron");
    let plan = plan(include_str!("old/schema-0.ron"));
    let yard = courtyard();
    let mut edits = vec![
        Edit::Planting(plan.plantings[1].id, Some(Box::new(plan.plantings[1].clone()))),
        Edit::Planting(plan.plantings[0].id, None),
        Edit::Wish(yard.wishes[26].id, Some(Box::new(yard.wishes[26].clone()))),
        Edit::Record(plan.record.clone()),
        Edit::Settings(Box::new(yard.settings.clone())),
        Edit::Site(Box::new(plan.site.clone())),
        Edit::Raising(yard.raising.clone()),
        Edit::SetAside(vec![SetAside {
            code: "x".into(),
            place: Some(PlaceId::new("box-1")),
            planting: None,
            reason: "because \"so\"\nand more".into(),
        }]),
        Edit::Drawer(vec![Packet {
            crop: CropId::new("leek"),
            packed: 2025,
            left: "3 g".parse().unwrap(),
            tested: Some(8),
        }]),
        Edit::Closed(vec![2025, 2026]),
    ];
    edits.extend(yard.places.iter().map(|p| Edit::Place(p.id.clone(), Some(Box::new(p.clone())))));
    let events = [
        Event::Done(Stage::SetOut),
        Event::Failed(Cause::Eaten),
        Event::Picked("3 heads".parse().unwrap()),
        Event::Frost(None),
        Event::Frost(Some("-1.5 C".parse().unwrap())),
        Event::SoilTemperature("48 F".parse().unwrap()),
        Event::Trouble("clubroot".into()),
        Event::Volunteer(CropId::new("borage")),
        Event::Remark,
    ];
    edits.extend((1..).zip(events).map(|(id, what)| {
        let on = catchcrop::calendar::read_date("2027-05-01").unwrap();
        let entry = DiaryEntry {
            id,
            on,
            planting: None,
            place: None,
            what,
            words: String::from("caf\u{e9} // no comment"),
            corrects: None,
        };
        Edit::Entry(id, Some(Box::new(entry)))
    }));
    edits.push(Edit::Batch(String::from("all of it, again"), edits.clone()));
    let (_, mut file) = PlanFile::open(&path, book()).unwrap();
    for edit in &edits {
        file.journal(edit).unwrap();
    }
    let back = store::look(&path, book()).unwrap().recovery.unwrap();
    assert!(back.fits && !back.torn);
    assert_eq!(back.edits, edits);
}
