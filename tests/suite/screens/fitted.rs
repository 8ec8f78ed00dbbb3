//! What fits a freed cell, from the screen.

use super::small;
use crate::support::{press, screen, worked_out};
use catchcrop::app::{Effect, Mode, Model, Over, Tone, View, update};
use catchcrop::garden::{Layer, PlaceId};
use catchcrop::plan::{Event, Why};

/// The small garden in the middle of May, the cursor on the first cell of its box.
fn garden() -> Model {
    let mut model = small();
    model.today = catchcrop::calendar::read_date("2027-05-12").unwrap();
    press(&mut model, "t");
    model.go_to(&PlaceId::new("box-2"), (0, 0));
    model
}

fn choices(model: &Model) -> Vec<String> {
    let Some(Over::Slip(slip)) = &model.over else { panic!("the ranking is shown: {:?}", model.over) };
    slip.reading.choices.iter().map(|c| c.label.clone()).collect()
}

fn reasons(model: &Model) -> String {
    let Some(Over::Slip(slip)) = &model.over else { panic!("the ranking is shown") };
    slip.reading.words.iter().map(|(_, words)| words.as_str()).collect::<Vec<_>>().join(" ")
}

#[test]
fn a_free_cell_is_weighed_and_planted_from_the_ranking() {
    let mut model = garden();
    let before = model.plan.clone();
    let effects = press(&mut model, "F");
    assert!(reasons(&model).starts_with("Weighing every crop"), "the screen answers before it is worked out");
    let Some(Effect::Errand(errand)) = effects.into_iter().next() else { panic!("an errand") };
    drop(update(&mut model, errand.run()));
    insta::assert_snapshot!("fits_80x24", screen(&mut model, 80, 24));
    let shown = choices(&model);
    assert!(
        shown.len() > 10 && shown.iter().any(|c| c.starts_with('(')),
        "what does not fit comes last: {shown:?}"
    );
    // The ranking is the fill's own, and each crop has its reasons.
    let fits = model.fits.clone().unwrap().found.unwrap().fits;
    assert!(fits.windows(2).all(|w| w[0].points >= w[1].points - 0.1));
    let first = reasons(&model);
    for word in ["days", "points", "Soil", "h of sun", "family"] {
        assert!(first.contains(word), "{word}: {first}");
    }
    press(&mut model, "<Down>");
    assert_ne!(reasons(&model), first, "the words are those of the crop at the cursor");
    press(&mut model, "<Up><Enter>");
    assert!(model.over.is_none());
    let planting =
        model.standing(&PlaceId::new("box-2"), (0, 0), Layer::Main).expect("it stands there").clone();
    assert_eq!((&planting.name, planting.block, planting.why), (&fits[0].name, fits[0].block, Why::Hand));
    assert_eq!(planting.dates(), fits[0].dates);
    press(&mut model, "u");
    assert_eq!(model.plan, before);
}

#[test]
fn a_crop_is_looked_for_in_the_ranking_and_one_that_does_not_fit_says_why() {
    let mut model = garden();
    worked_out(&mut model, "F");
    let unfit = choices(&model).into_iter().find(|c| c.starts_with('(')).unwrap();
    let name = unfit.trim_matches(['(', ')']).to_owned();
    press(&mut model, &name);
    assert_eq!(choices(&model).first(), Some(&unfit), "{:?}", choices(&model));
    let before = model.plan.clone();
    press(&mut model, "<Enter>");
    let Some(Over::Slip(slip)) = &model.over else { panic!("it stays open") };
    let (tone, words) = &slip.reading.words[0];
    assert!(*tone == Tone::Stop && words.contains("does not fit: "), "{words}");
    assert_eq!(model.plan, before);
}

#[test]
fn after_a_failure_the_key_is_named_and_the_cell_is_free_again() {
    let mut model = garden();
    press(&mut model, "2pradish<Enter><Enter>");
    press(&mut model, "F");
    let note = model.note.clone().unwrap();
    assert!(model.over.is_none() && note.words.contains("Radish stands here until"), "{}", note.words);
    press(&mut model, "..");
    model.today = model.shown_day();
    let failed = model.focus_planting().unwrap().id;
    press(&mut model, "wfailed: frost<Enter>");
    assert!(matches!(model.plan.diary.last().unwrap().what, Event::Failed(_)));
    let note = model.note.clone().unwrap();
    assert!(note.words.ends_with("F tells what fits there now."), "{}", note.words);
    worked_out(&mut model, "F");
    assert_eq!(model.mode(), Mode::Typing);
    press(&mut model, "<Enter>");
    let here = |p: &&catchcrop::plan::Planting| p.id != failed && p.block.holds(0, 0);
    assert!(model.plan.plantings.iter().any(|p| here(&p)), "another stands there: {:?}", model.note);
    // A remark names no key.
    press(&mut model, "wslugs<Enter>");
    assert!(!model.note.clone().unwrap().words.contains("what fits"));
}

#[test]
fn weeks_that_are_past_and_places_without_cells_are_said() {
    let mut model = garden();
    press(&mut model, ",,F");
    assert!(model.over.is_none() && model.note.as_ref().unwrap().words.contains("That week is past"));
    press(&mut model, "t8F");
    assert!(model.over.is_none());
    // In the weeks the row of a bed is about its first free cell.
    press(&mut model, "2pradish<Enter><Enter>3");
    assert_eq!(model.view, View::Weeks);
    let effects = press(&mut model, "gg");
    assert!(effects.is_empty());
    press(&mut model, "F<Esc>");
    assert!(model.over.is_none());
    // What comes after the question was left changes nothing.
    press(&mut model, "1");
    model.go_to(&PlaceId::new("box-2"), (1, 1));
    let Some(Effect::Errand(errand)) = press(&mut model, "F").into_iter().next() else { panic!("an errand") };
    press(&mut model, "<Esc>");
    drop(update(&mut model, errand.run()));
    assert!(model.over.is_none() && model.fits.is_none());
}
