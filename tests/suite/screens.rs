//! Screens: keys in, what the window shows out.

mod behind;
mod colours;
mod fitted;
mod looks;
mod pointed;
mod printed;
mod typed;

use crate::support::{bare, drawn, example, filled, opened, plain_look, press, screen, today};
use catchcrop::app::{Effect, Key, Message, Model, Over, Spot, View, read_wish, update, wish_words};
use catchcrop::calendar::{Date, Week};
use catchcrop::fill::{build, search};
use catchcrop::garden::PlaceId;
use catchcrop::work::JobKind;
use ratatui::style::Color;

/// The courtyard with a few things planted by hand in May.
pub(crate) fn planted() -> Model {
    let mut model = opened(bare("courtyard"));
    press(&mut model, "2");
    for (place, cell, crop) in [
        ("box-1", (0, 0), "radish"),
        ("box-1", (0, 2), "bean"),
        ("box-1", (0, 4), "bean"),
        ("box-1", (3, 7), "lettuce"),
        ("trellis-1", (0, 0), "cucumber"),
        ("box-3", (0, 0), "beet"),
        ("box-3", (0, 1), "beet"),
        ("box-3", (0, 2), "tomato"),
        ("border-1", (0, 0), "zinnia"),
        ("pot-1", (0, 0), "basil"),
        ("pot-5", (0, 0), "radish"),
    ] {
        model.go_to(&PlaceId::new(place), cell);
        press(&mut model, "p");
        press(&mut model, crop);
        press(&mut model, "<Enter>");
        press(&mut model, "<Enter>");
    }
    model
}

#[test]
fn ground_of_the_courtyard() {
    let mut model = opened(bare("courtyard"));
    insta::assert_snapshot!("empty_ground_80x24", screen(&mut model, 80, 24));
    press(&mut model, "npx");
    insta::assert_snapshot!("new_pot_80x24", screen(&mut model, 80, 24));
}

/// Every view of the planted courtyard, five weeks on.
fn every_view(cols: u16, rows: u16) {
    let mut model = planted();
    press(&mut model, ".....");
    for view in View::ALL {
        update(&mut model, Message::Pressed(Key::Char(digit(view))));
        insta::assert_snapshot!(format!("{}_{cols}x{rows}", view.word()), screen(&mut model, cols, rows));
    }
}

fn digit(view: View) -> char {
    let n = View::ALL.iter().position(|v| *v == view).unwrap();
    char::from_digit(u32::try_from(n + 1).unwrap(), 10).unwrap()
}

#[test]
fn every_view_at_80x24() {
    every_view(80, 24);
}

#[test]
fn every_view_at_160x50() {
    every_view(160, 50);
}

/// A small garden with three wishes in March: quick to fill.
pub(crate) fn small() -> Model {
    let mut plan = bare("courtyard");
    plan.places.retain(|p| ["box-2", "pot-1"].contains(&p.id.0.as_str()));
    plan.wishes.retain(|w| [1, 4, 14].contains(&w.id.0));
    plan.record.retain(|p| p.place.0 == "pot-1");
    let mut model = opened(plan);
    let day = |month, day| Date::from_ymd_opt(2027, month, day).unwrap();
    (model.today, model.week) = (day(3, 10), Week::of(day(6, 10)));
    model
}

#[test]
fn a_fill_is_shown_accepted_and_taken_back() {
    let mut model = small();
    let before = model.plan.clone();
    filled(&mut model, "fq");
    let offer = model.offer.as_ref().expect("a proposal");
    assert!(!offer.ghosts.is_empty());
    assert_eq!(model.plan, before, "what is only proposed is not in the garden yet");
    insta::assert_snapshot!("proposed_80x24", screen(&mut model, 80, 24));
    press(&mut model, "4");
    insta::assert_snapshot!("proposed_wishes_80x24", screen(&mut model, 80, 24));
    press(&mut model, "1p");
    assert!(model.over.is_none() && model.note.as_ref().unwrap().words.contains("only proposed"));
    press(&mut model, "a");
    assert!(model.offer.is_none() && !model.plan.plantings.is_empty());
    assert!(model.note.as_ref().unwrap().words.starts_with("Accepted a fill"));
    press(&mut model, "u");
    assert_eq!(model.plan, before);
}

#[test]
fn one_bed_of_a_proposal_is_accepted_and_the_rest_stays_proposed() {
    let mut model = small();
    filled(&mut model, "fq");
    model.go_to(&PlaceId::new("pot-1"), (0, 0));
    press(&mut model, "A");
    assert!(model.plan.plantings.iter().all(|p| p.place.0 == "pot-1"));
    let offer = model.offer.as_ref().expect("the box is still proposed");
    let pot = |p: &catchcrop::plan::Planting| p.place.0 == "pot-1";
    assert!(!offer.proposal.plantings.iter().any(pot));
    press(&mut model, "D");
    assert!(model.offer.is_none());
}

#[test]
fn reports_of_another_run_or_of_a_garden_that_has_changed_are_dropped() {
    let mut model = small();
    let effects = press(&mut model, "fq");
    let Some(Effect::StartFill(first, task)) = effects.into_iter().next() else { panic!("a run") };
    let built = build(&task.plan, &task.book, &task.year, task.request);
    let proposal = built.proposal(&search(&built.problem, &task.effort, 1, &mut |_| {}));
    press(&mut model, "fq");
    drop(update(&mut model, Message::Filled(first, Box::new(proposal.clone()))));
    assert!(model.offer.is_none(), "the first run was replaced");
    let second = model.run.as_ref().expect("the second run is on").id;
    press(&mut model, "4d");
    drop(update(&mut model, Message::Filled(second, Box::new(proposal))));
    assert!(model.offer.is_none() && model.run.is_none());
    assert!(model.note.as_ref().unwrap().words.contains("has changed"));
}

#[test]
fn a_run_tells_what_it_has_reached_and_what_is_possible() {
    let mut model = small();
    let effects = press(&mut model, "fq");
    let Some(Effect::StartFill(id, task)) = effects.into_iter().next() else { panic!("a run") };
    let built = build(&task.plan, &task.book, &task.year, task.request);
    let mut told = Vec::new();
    let outcome = search(&built.problem, &task.effort, 1, &mut |progress| told.push(progress));
    // Proved before the search goes on, and kept from then on; nothing that is found is worth more.
    let first = told.iter().position(|p| p.bound.is_some()).expect("a bound while it runs");
    assert!(told[first..].iter().all(|p| p.bound == told[first].bound));
    let searching = |p: &catchcrop::fill::Progress| p.stage == catchcrop::fill::Stage::Improve;
    assert!(told.iter().filter(|p| searching(p)).all(|p| p.bound.is_some()));
    let bound = told[first].bound.unwrap();
    assert!(bound >= outcome.value, "{bound} {}", outcome.value);
    let progress = *told.iter().find(|p| searching(p)).unwrap();
    let gauge = catchcrop::app::Gauge { points: 800, bound: Some(1000), seconds: 3 };
    drop(update(&mut model, Message::Progressed(id, progress, gauge)));
    let shown = screen(&mut model, 100, 24);
    assert!(
        shown.contains("% tried, 800 of") && shown.contains("at most 1000 (25.0 % more), 3 s"),
        "{shown}"
    );
}

#[test]
fn a_failed_run_says_so_and_changes_nothing() {
    let mut model = small();
    press(&mut model, "fq");
    let id = model.run.as_ref().unwrap().id;
    drop(update(&mut model, Message::Failed(id, String::from("out of range"))));
    assert!(model.note.as_ref().unwrap().words.contains("nothing was changed"));
}

#[test]
fn planting_by_hand_says_what_it_means() {
    let mut model = planted();
    press(&mut model, "2<Tab>p");
    insta::assert_snapshot!("choose_a_crop_80x24", screen(&mut model, 80, 24));
    press(&mut model, "potato<Enter>");
    insta::assert_snapshot!("carry_a_planting_80x24", screen(&mut model, 80, 24));
    press(&mut model, "<Esc>?");
    insta::assert_snapshot!("every_key_80x24", screen(&mut model, 80, 24));
    press(&mut model, "<Esc> und");
    insta::assert_snapshot!("find_a_command_80x24", screen(&mut model, 80, 24));
    press(&mut model, "<Esc>f");
    insta::assert_snapshot!("next_key_80x24", screen(&mut model, 80, 24));
    press(&mut model, "<Esc>q");
    insta::assert_snapshot!("leave_80x24", screen(&mut model, 80, 24));
}

#[test]
fn small_and_odd_windows() {
    let mut model = planted();
    insta::assert_snapshot!("too_small_40x12", screen(&mut model, 40, 12));
    // What can't be seen is not changed: keys rest until the window is large enough.
    let before = model.plan.clone();
    assert!(press(&mut model, "1dP").is_empty());
    assert_eq!((&model.plan, model.view, &model.over), (&before, View::Bed, &None));
    screen(&mut model, 61, 19);
    press(&mut model, "1");
    insta::assert_snapshot!("ground_61x19", screen(&mut model, 61, 19));
}

#[test]
fn plain_signs_and_no_colours() {
    let mut model = planted();
    press(&mut model, "1.....");
    let drawn = drawn(&mut model, 80, 24, plain_look());
    let text = drawn.to_string();
    assert!(text.is_ascii(), "{text}");
    for cell in &drawn.buffer().content {
        assert_eq!((cell.fg, cell.bg), (Color::Reset, Color::Reset));
    }
    insta::assert_snapshot!("ground_ascii_80x24", text);
}

#[test]
fn twelve_questions_make_a_garden_and_fill_it() {
    let mut model = opened(bare("courtyard"));
    press(&mut model, "N");
    insta::assert_snapshot!("first_question_80x24", screen(&mut model, 80, 24));
    press(&mut model, "<Enter>");
    press(&mut model, "<Back><Back>metric<Enter>");
    insta::assert_snapshot!("climate_question_80x24", screen(&mut model, 80, 24));
    press(&mut model, "<Enter><Enter>");
    // Esc goes one back, and the answer is still there.
    press(&mut model, "<Esc>");
    let Some(Over::Slip(slip)) = &model.over else { panic!("a question") };
    assert!(slip.title.starts_with("4 of 12"), "{}", slip.title);
    assert_eq!(slip.line.text(), "3 Apr");
    press(&mut model, "<Enter><Enter><Enter>");
    press(
        &mut model,
        "; 80 x 80 cm<Enter><Enter>6<Enter>garlic in Box 3<Enter>onions in Box 1 in 2026<Enter>",
    );
    let effects = press(&mut model, "<Enter>");
    assert!(effects.contains(&Effect::LetGo));
    assert!(effects.iter().any(|e| matches!(e, Effect::StartFill(..))));
    let plan = &model.plan;
    assert_eq!((plan.places.len(), plan.wishes.len(), plan.record.len()), (5, 7, 2));
    assert!(model.is_dirty() && model.path.is_none());
    assert_eq!(plan.places[0].sun_hours, Some(6.0));
    model.run = None;
    insta::assert_snapshot!("new_garden_80x24", screen(&mut model, 80, 24));
}

#[test]
fn a_wrong_answer_is_asked_again_and_the_first_question_can_be_left() {
    let mut model = opened(example("balcony"));
    press(&mut model, "N<Enter><Enter><Enter><Enter><Enter>x<Enter>");
    let Some(Over::Slip(slip)) = &model.over else { panic!("a question") };
    assert!(slip.title.starts_with("6 of 12"), "{}", slip.title);
    press(&mut model, "<Esc><Esc><Esc><Esc><Esc><Esc>");
    assert!(model.over.is_none());
    assert_eq!(model.plan.name, example("balcony").name);
}

#[test]
fn jobs_are_ticked_off_put_off_and_written_down() {
    let mut model = planted();
    press(&mut model, "5");
    insta::assert_snapshot!("jobs_before_80x24", screen(&mut model, 80, 24));
    let sow = model.jobs.iter().position(|j| j.kind == JobKind::Sow).expect("something to sow");
    let planting = model.jobs[sow].planting.unwrap();
    // Beet sown on one day in two cells is one job, and one tick.
    let act = model.jobs[sow].plantings.clone();
    assert!(act.len() == 2 && act[0] == planting);
    model.lines.insert(View::Jobs, sow);
    press(&mut model, "x");
    for id in &act {
        assert_eq!(model.plan.planting(*id).unwrap().real.sown, Some(today()));
    }
    assert!(!model.jobs.iter().any(|j| j.planting == Some(planting) && j.kind == JobKind::Sow));
    press(&mut model, "wslugs on the lettuce<Enter>wfrost -1 C<Enter>");
    assert_eq!(model.plan.diary.len(), act.len() + 2);
    insta::assert_snapshot!("jobs_after_80x24", screen(&mut model, 80, 24));
    press(&mut model, "uuu");
    assert!(model.plan.diary.is_empty());
    press(&mut model, ".....x");
    assert!(model.note.as_ref().unwrap().words.contains("lies ahead"));
}

#[test]
fn needs_and_the_close_of_a_season() {
    let mut model = planted();
    press(&mut model, "9");
    insta::assert_snapshot!("needs_of_planted_80x24", screen(&mut model, 80, 24));
    press(&mut model, "7x");
    insta::assert_snapshot!("close_season_80x24", screen(&mut model, 80, 24));
    press(&mut model, "y");
    assert_eq!(model.plan.closed, [2026]);
}

#[test]
fn places_are_changed_by_typing() {
    let mut model = opened(bare("courtyard"));
    model.go_to(&PlaceId::new("box-3"), (0, 0));
    let at = |model: &Model| model.plan.place(&PlaceId::new("box-3")).unwrap().clone();
    let retype = |model: &mut Model, keys: &str, text: &str| {
        press(model, keys);
        let Some(Over::Slip(slip)) = &model.over else { panic!("a line to type") };
        let erase = "<Back>".repeat(slip.line.text().chars().count());
        press(model, &format!("{erase}{text}<Enter>"));
        assert!(model.over.is_none(), "{keys} {text}: {:?}", model.over);
    };
    retype(&mut model, "en", "Salad box");
    assert_eq!(at(&model).name, "Salad box");
    retype(&mut model, "es", "5 x 3 ft, 1 ft deep");
    assert_eq!(at(&model).grid(model.plan.settings.cell), (3, 5));
    retype(&mut model, "ed", "14 in");
    assert_eq!(at(&model).depth().to_string(), "14 in");
    retype(&mut model, "et", "food, legumes");
    assert_eq!(at(&model).tags.len(), 2);
    retype(&mut model, "eh", "5.5");
    assert_eq!(at(&model).sun_hours, Some(5.5));
    retype(&mut model, "eu", "trellis A1-E1, 6 ft; stakes all, 5 ft");
    assert_eq!(at(&model).supports.len(), 2);
    assert_eq!(at(&model).supports[0].cells.to_string(), "A1-E1");
    retype(&mut model, "ep", "3 ft, 8 ft");
    assert_eq!(at(&model).at.x.to_string(), "3 ft");
    press(&mut model, "o");
    assert_eq!(at(&model).grid(model.plan.settings.cell), (5, 3));
    // Taken up, moved and put down; a copy is another place.
    model.go_to(&PlaceId::new("box-3"), (0, 0));
    press(&mut model, "m<Right><Down><Enter>c<Left><Left><Left><Left><Enter>");
    assert_eq!(model.plan.places.len(), bare("courtyard").places.len() + 1);
    let steps = model.history.trail().len();
    for _ in 0..steps {
        press(&mut model, "u");
    }
    assert_eq!(model.plan, bare("courtyard").in_order());
}

#[test]
fn what_shades_is_set_up_and_taken_away() {
    let mut model = opened(bare("courtyard"));
    model.spot = Spot { x: 1, y: 18 };
    press(&mut model, "nwwall 20 x 1 ft, 6 ft high<Enter>");
    assert_eq!(model.plan.site.obstacles.len(), 1);
    insta::assert_snapshot!("wall_80x24", screen(&mut model, 80, 24));
    press(&mut model, "d");
    assert!(model.plan.site.obstacles.is_empty());
    assert_eq!(model.note.as_ref().unwrap().words, "Took away wall 1.");
}

#[test]
fn wishes_are_typed_and_read_again_as_they_were_meant() {
    let model = opened(bare("courtyard"));
    for wish in &model.plan.wishes {
        let words = wish_words(wish, &model.plan, &model.book);
        let back =
            read_wish(&words, wish.id, &model.plan, &model.book).unwrap_or_else(|e| panic!("{words}: {e:?}"));
        assert_eq!(catchcrop::plan::Wish { note: wish.note.clone(), ..back }, *wish, "{words}");
    }
    for (text, wanted) in [
        ("", "Which crop"),
        ("lettuce", "How much"),
        ("lettuce, 3 heads a week, sometimes", "'sometimes' is not understood"),
        ("lettuce, 0 heads a week", "More than nothing"),
        ("xyzzy, 3 heads", "no crop of the book"),
    ] {
        let error = read_wish(text, catchcrop::plan::WishId(1), &model.plan, &model.book).unwrap_err();
        assert!(error.words.to_lowercase().contains(&wanted.to_lowercase()), "{text}: {}", error.words);
    }
}
