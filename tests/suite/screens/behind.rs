//! What is worked out beside the screen: a key is answered at once, and what is kept never outlives an edit.

use super::planted;
use crate::support::{opened, press, screen};
use catchcrop::app::{Effect, Errand, Message, Model, Sum, View, outlook, update};
use catchcrop::check::Finding;
use catchcrop::garden::PlaceId;
use catchcrop::plan::Plan;

/// The planted courtyard as the terminal runs it.
fn courtyard() -> Model {
    let mut model = planted();
    model.beside = true;
    model
}

fn errands(effects: Vec<Effect>) -> Vec<Errand> {
    let errand = |effect| if let Effect::Errand(errand) = effect { Some(errand) } else { None };
    effects.into_iter().filter_map(errand).collect()
}

fn run(model: &mut Model, errands: Vec<Errand>) {
    for errand in errands {
        drop(update(model, errand.run()));
    }
}

/// What the check says of a plan when nothing is kept.
fn anew(plan: &Plan) -> Vec<Finding> {
    let mut model = opened(plan.clone());
    press(&mut model, "6");
    model.reckoned.findings
}

#[test]
fn findings_come_in_beside_the_screen() {
    let mut model = courtyard();
    let asked = errands(press(&mut model, "6"));
    assert_eq!((asked.len(), model.view), (1, View::Findings));
    assert!(screen(&mut model, 80, 24).contains("Judging the garden as it is now"));
    assert!(errands(press(&mut model, "j16")).is_empty(), "it is asked for once");
    run(&mut model, asked);
    assert_eq!(model.reckoned.findings, anew(&model.plan));
    assert!(!model.is_behind(Sum::Findings) && !screen(&mut model, 80, 24).contains("Judging"));
    assert!(errands(press(&mut model, "k16j")).is_empty(), "nothing has changed since");
}

#[test]
fn an_edit_of_site_crop_or_settings_is_seen_in_what_follows_from_the_plan() {
    let mut model = courtyard();
    model.go_to(&PlaceId::new("box-1"), (2, 0));
    let asked = errands(press(&mut model, "6"));
    run(&mut model, asked);
    let mut before = model.reckoned.findings.clone();
    let mut differ = 0;
    for keys in [
        // Another site: a high wall on the sunward side.
        "1nwwall 60 x 1 ft, 30 ft high<Enter>6",
        // Another crop.
        "2pbeet<Enter><Enter>6",
        // Another risk.
        "Gr<Up><Up><Enter>",
        "u",
        "u",
    ] {
        let asked = errands(press(&mut model, keys));
        assert!(model.is_behind(Sum::Findings), "{keys}: what is shown is known to be old");
        run(&mut model, asked);
        assert!(!model.is_behind(Sum::Findings), "{keys}");
        assert_eq!(model.reckoned.findings, anew(&model.plan), "{keys}");
        differ += usize::from(before != model.reckoned.findings);
        before.clone_from(&model.reckoned.findings);
    }
    assert!(differ >= 3, "the edits change what the check says: {differ}");
}

#[test]
fn what_comes_after_another_edit_is_let_go() {
    let mut model = courtyard();
    let first = errands(press(&mut model, "4d"));
    let met = model.reckoned.met.clone();
    let second = errands(press(&mut model, "d"));
    assert!(first.iter().zip(&second).all(|(old, new)| old.is_outdone_by(new)) && !second.is_empty());
    run(&mut model, first);
    assert!(model.is_behind(Sum::Met) && model.reckoned.met == met);
    run(&mut model, second);
    assert!(!model.is_behind(Sum::Met) && model.reckoned.met != met);
    // The timeline of another season is another sum.
    let weeks = errands(press(&mut model, "3"));
    run(&mut model, weeks);
    let later = errands(press(&mut model, "T2028-06-01<Enter>"));
    assert_eq!(later.len(), 1);
    drop(update(&mut model, Message::ErrandFailed(String::from("out of range"))));
    assert!(model.note.as_ref().unwrap().words.contains("Out of range"));
}

#[test]
fn a_carried_planting_is_weighed_beside_the_screen_as_in_place() {
    let (mut model, mut plain) = (courtyard(), planted());
    let mut told = 0;
    for keys in ["2", "pbean<Enter>", "l", "j", ".", "<Enter>"] {
        if keys == "2" {
            for model in [&mut model, &mut plain] {
                model.go_to(&PlaceId::new("box-1"), (0, 0));
            }
        }
        press(&mut plain, keys);
        let mut asked = errands(press(&mut model, keys));
        let waits = outlook(&model).iter().any(|(_, words)| words.contains("is being weighed"));
        assert_eq!(waits, model.carry.is_some(), "{keys}: the screen answers before it is worked out");
        // What holds now is worked out first, then what would change.
        while let Some(errand) = asked.pop() {
            asked.extend(errands(update(&mut model, errand.run())));
        }
        assert_eq!(outlook(&model), outlook(&plain), "{keys}");
        told += outlook(&model).len();
    }
    assert!(told > 12 && model.plan == plain.plan);
    // What comes after it was moved on is let go.
    press(&mut model, "pbean<Enter>");
    let first = errands(press(&mut model, "l"));
    let second = errands(press(&mut model, "l"));
    run(&mut model, first);
    assert!(outlook(&model).iter().any(|(_, words)| words.contains("is being weighed")));
    run(&mut model, second);
}
