//! The tour, and the mouse where it is switched on.

use crate::support::{bare, opened, press, screen};
use catchcrop::app::{Effect, Message, Model, Over, STOPS, Spot, Target, Touch, View, Way, update};
use catchcrop::garden::PlaceId;
use catchcrop::screen::target;

const SIZE: (u16, u16) = (80, 24);

#[test]
fn the_tour_has_five_steps_and_can_be_left_at_any_of_them() {
    let mut model = opened(bare("courtyard"));
    press(&mut model, "i");
    for n in 0..STOPS {
        assert_eq!(model.over, Some(Over::Tour(n)));
        insta::assert_snapshot!(format!("tour_{}_80x24", n + 1), screen(&mut model, 80, 24));
        let effects = press(&mut model, "<Enter>");
        assert_eq!(effects.contains(&Effect::Toured), n + 1 == STOPS);
    }
    assert!(model.over.is_none() && model.view == View::Ground && !model.is_dirty());
    for n in 0..STOPS {
        press(&mut model, "i");
        press(&mut model, &"<Right>".repeat(n));
        press(&mut model, "<Left>");
        assert_eq!(model.over, Some(Over::Tour(n.saturating_sub(1))));
        assert_eq!(press(&mut model, "<Esc>"), [Effect::Toured]);
        assert!(model.over.is_none());
    }
}

/// A column and row of the screen that shows something.
fn find(model: &Model, wanted: Target) -> (u16, u16) {
    let all = (0..SIZE.1).flat_map(|y| (0..SIZE.0).map(move |x| (x, y)));
    all.into_iter()
        .find(|(x, y)| target(model, SIZE.0, SIZE.1, *x, *y) == Some(wanted))
        .unwrap_or_else(|| panic!("{wanted:?} is not shown"))
}

fn touch(model: &mut Model, touch: Touch, at: Target) -> Vec<Effect> {
    let (x, y) = find(model, at);
    let target = target(model, SIZE.0, SIZE.1, x, y);
    update(model, Message::Touched(touch, target))
}

#[test]
fn a_bed_is_dragged_and_taken_back() {
    let mut model = opened(bare("courtyard"));
    let start = model.plan.clone();
    let id = PlaceId::new("box-3");
    let foot = |model: &Model| model.footprint(model.plan.place(&id).unwrap()).at;
    let at = foot(&model);
    // Taken by its second cell, it keeps under the pointer.
    touch(&mut model, Touch::Press, Target::Spot(at.plus(1, 1)));
    assert_eq!(model.spot, at.plus(1, 1));
    touch(&mut model, Touch::Drag, Target::Spot(at.plus(1, 1)));
    assert!(model.carry.is_none(), "nothing was dragged yet");
    touch(&mut model, Touch::Drag, Target::Spot(at.plus(2, 2)));
    assert!(model.carry.is_some());
    drop(update(&mut model, Message::Touched(Touch::Release, None)));
    assert!(model.carry.is_none());
    assert_eq!(foot(&model), at.plus(1, 1));
    assert_eq!(model.note.as_ref().unwrap().words, "Moved Kitchen box.");
    press(&mut model, "u");
    assert_eq!(model.plan, start);
}

#[test]
fn a_planting_is_dragged_from_cell_to_cell() {
    let mut model = super::planted();
    press(&mut model, "2");
    model.go_to(&PlaceId::new("box-1"), (0, 0));
    update(&mut model, Message::Resized(SIZE.0, SIZE.1));
    let block = |model: &Model| model.plan.plantings.iter().find(|p| p.name == "Radish").unwrap().block;
    assert_eq!(block(&model).to_string(), "A1");
    touch(&mut model, Touch::Press, Target::Cell((0, 0)));
    touch(&mut model, Touch::Drag, Target::Cell((1, 1)));
    touch(&mut model, Touch::Release, Target::Cell((1, 1)));
    assert_eq!(block(&model).to_string(), "B2", "{:?}", model.note);
    press(&mut model, "u");
    assert_eq!(block(&model).to_string(), "A1");
}

#[test]
fn lines_pegs_and_weeks_are_gone_to() {
    let mut model = super::planted();
    update(&mut model, Message::Resized(SIZE.0, SIZE.1));
    for view in View::ALL {
        touch(&mut model, Touch::Press, Target::Peg(view));
        assert_eq!(model.view, view);
        if model.count(view) > 2 {
            touch(&mut model, Touch::Press, Target::Line(2));
            assert_eq!(model.line(view), 2, "{view:?}");
            drop(update(&mut model, Message::Touched(Touch::Wheel(Way::Up), None)));
            assert_eq!(model.line(view), 0, "{view:?}");
        }
    }
    let week = model.week.plus(4);
    touch(&mut model, Touch::Press, Target::Week(week));
    assert_eq!(model.week, week);
    // Where nothing is, nothing happens; a small window shows nothing to go to.
    drop(update(&mut model, Message::Touched(Touch::Press, None)));
    assert_eq!(target(&model, 40, 10, 3, 3), None);
    // While a line is typed the mouse rests.
    press(&mut model, "1p");
    drop(update(&mut model, Message::Touched(Touch::Press, Some(Target::Spot(Spot { x: 1, y: 1 })))));
    assert!(matches!(model.over, Some(Over::Slip(_))));
}

#[test]
fn the_mouse_is_off_until_it_is_switched_on() {
    let mut model = opened(bare("courtyard"));
    assert!(!model.mouse);
    assert_eq!(press(&mut model, "Gm"), [Effect::Mouse(true)]);
    assert_eq!(press(&mut model, "Gm"), [Effect::Mouse(false)]);
}
