//! What holds whatever one does: any keys on any window.

use crate::support::{example, filled, look, opened, plain_look};
use catchcrop::app::{BINDINGS, Effect, Key, Message, Model, Target, Touch, View, update};
use catchcrop::plan::Plan;
use catchcrop::screen::{Look, target, view};
use catchcrop::store;
use proptest::prelude::*;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::sync::LazyLock;

/// Every key of the table, so that no command is forgotten; the ones that go on are pressed more often.
fn any_key() -> impl Strategy<Value = Key> {
    let mut keys: Vec<Key> = BINDINGS.iter().flat_map(|b| b.keys.iter().copied()).collect();
    keys.sort_unstable();
    keys.dedup();
    prop_oneof![
        8 => prop::sample::select(keys),
        2 => prop::sample::select(vec![Key::Enter, Key::Tab, Key::Down, Key::Right, Key::Char('p'), Key::Char('m')]),
        1 => prop::sample::select(vec!['2', '4', ' ', 'x', ',', '1']).prop_map(Key::Char),
        1 => any::<char>().prop_map(Key::Char),
    ]
}

/// A key, or the mouse at a spot of the window.
#[derive(Debug, Clone)]
enum Act {
    Press(Key),
    Touch(Touch, u16, u16),
}

fn any_act() -> impl Strategy<Value = Act> {
    prop_oneof![
        9 => any_key().prop_map(Act::Press),
        1 => (prop::sample::select(vec![Touch::Press, Touch::Drag, Touch::Release]), 0_u16..250, 0_u16..80)
            .prop_map(|(touch, x, y)| Act::Touch(touch, x, y)),
    ]
}

fn draw(model: &Model, cols: u16, rows: u16, look: Look) {
    let area = Rect::new(0, 0, cols, rows);
    let mut buffer = Buffer::empty(area);
    view(&mut buffer, area, model, look);
}

/// Takes everything back.
fn undo_all(model: &mut Model) {
    for _ in 0..5_000 {
        if model.history.undoing().is_none() {
            return;
        }
        model.history.undo(&mut model.plan).unwrap();
    }
    panic!("no end of undoing");
}

/// The plan is one that can be saved and is read again as the same.
fn is_sound(plan: &Plan) {
    let text = store::plan_text(plan).unwrap();
    let (read, _) =
        store::read_plan("garden.ron", &text, store::book()).unwrap_or_else(|e| panic!("{e}\n{text}"));
    assert_eq!(read.in_order(), plan.clone().in_order());
}

/// A small garden with a proposal shown.
static PROPOSED: LazyLock<Model> = LazyLock::new(|| {
    let mut model = crate::screens::small();
    filled(&mut model, "fq");
    assert!(model.offer.is_some());
    model
});

fn garden(which: &str) -> Model {
    match which {
        "proposed" => PROPOSED.clone(),
        "planted" => crate::screens::planted(),
        stem => opened(example(stem)),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_keys_on_any_window(
        which in prop::sample::select(vec!["courtyard", "balcony", "southern", "plot", "proposed", "planted"]),
        shown in prop::sample::select(View::ALL.to_vec()),
        cols in 1_u16..=250,
        rows in 1_u16..=80,
        acts in prop::collection::vec(any_act(), 0..=200),
    ) {
        let mut model = garden(which);
        let mut root = model.clone();
        undo_all(&mut root);
        let mut start = root.plan;
        model.view = shown;
        update(&mut model, Message::Resized(cols, rows));
        for (n, act) in acts.into_iter().enumerate() {
            let message = match act {
                Act::Press(key) => Message::Pressed(key),
                Act::Touch(touch, x, y) => {
                    let at: Option<Target> = target(&model, cols, rows, x.min(cols - 1), y.min(rows - 1));
                    Message::Touched(touch, at)
                }
            };
            let effects = update(&mut model, message);
            if effects.contains(&Effect::LetGo) {
                // Twelve questions made a new garden.
                start = model.plan.clone();
            }
            if n % 16 == 0 {
                draw(&model, cols, rows, look());
            }
        }
        draw(&model, cols, rows, plain_look());
        is_sound(&model.plan);
        undo_all(&mut model);
        prop_assert_eq!(model.plan, start);
    }
}
