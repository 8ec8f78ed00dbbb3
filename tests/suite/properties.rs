//! What holds whatever one does: any keys on any window.

use crate::support::{example, keys, look, opened, plain_look};
use catchcrop::app::{Key, Message, Model, update};
use catchcrop::screen::{Look, view};
use proptest::prelude::*;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

fn any_key() -> impl Strategy<Value = Key> {
    prop_oneof![
        6 => prop::sample::select(keys("hjklnbofpmcoedtsThrd+-.,<>uU ?123456789yx4 ")),
        4 => prop::sample::select(keys("<Enter><Esc><Tab><BackTab><Back><Del><Up><Down><Left><Right><Home><End><PgUp><PgDn>")),
        1 => any::<char>().prop_map(Key::Char),
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
        let Some(edit) = model.history.undoing().cloned() else { return };
        drop(edit);
        model.history.undo(&mut model.plan).unwrap();
    }
    panic!("no end of undoing");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_keys_on_any_window(
        garden in prop::sample::select(vec!["courtyard", "balcony", "southern"]),
        cols in 1_u16..250,
        rows in 1_u16..80,
        pressed in prop::collection::vec(any_key(), 0..200),
    ) {
        let mut model = opened(example(garden));
        let start = model.plan.clone();
        update(&mut model, Message::Resized(cols, rows));
        for (n, key) in pressed.into_iter().enumerate() {
            drop(update(&mut model, Message::Pressed(key)));
            if n % 16 == 0 {
                draw(&model, cols, rows, look());
            }
        }
        draw(&model, cols, rows, plain_look());
        undo_all(&mut model);
        prop_assert_eq!(model.plan, start);
    }
}
