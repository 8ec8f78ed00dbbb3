//! From a key to the drawn frame, on the largest example.

use catchcrop::app::{Effect, Key, Message, Model, View, update};
use catchcrop::calendar::Date;
use catchcrop::fill::{Effort, Request, build, search};
use catchcrop::screen::{Depth, Look, Theme, USUAL, view};
use catchcrop::site::SiteYear;
use catchcrop::store;
use divan::{Bencher, black_box};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::cell::RefCell;
use std::sync::{Arc, OnceLock};

/// Forty beds filled for a season.
fn plot() -> Model {
    static MODEL: OnceLock<Model> = OnceLock::new();
    MODEL
        .get_or_init(|| {
            let path = concat!(env!("CARGO_MANIFEST_DIR"), "/plans/plot.ron");
            let text = std::fs::read_to_string(path).unwrap_or_default();
            let Ok(mut plan) = store::text::read::<catchcrop::plan::Plan>(path, &text) else {
                unreachable!("the example reads")
            };
            let today = Date::from_ymd_opt(2027, 5, 22).unwrap_or_default();
            if let Ok(year) = SiteYear::new(&plan.site) {
                let base = plan.clone();
                let from = Date::from_ymd_opt(2027, 1, 2).unwrap_or_default();
                let built = build(&base, store::book(), &year, Request::from(from));
                let outcome = search(&built.problem, &Effort::Quick, 1, &mut |_| ());
                drop(plan.apply(&built.proposal(&outcome).edit()));
            }
            let mut model = Model::new(plan, Arc::new(store::book().clone()), None, today);
            drop(update(&mut model, Message::Resized(200, 60)));
            model.beside = true;
            model
        })
        .clone()
}

/// A key and the frame after it; what is to be worked out beside the screen comes back.
fn step(model: &mut Model, key: char, buffer: &mut Buffer) -> Vec<Effect> {
    let look = Look { theme: Theme { depth: Depth::Indexed, light: false }, glyphs: &USUAL };
    let effects = black_box(update(model, Message::Pressed(Key::Char(key))));
    let area = buffer.area;
    view(buffer, area, model, look);
    effects
}

/// Works out what was asked for, as the thread beside the screen does.
fn work_out(model: &mut Model, effects: Vec<Effect>) {
    for effect in effects {
        if let Effect::Errand(errand) = effect {
            drop(update(model, errand.run()));
        }
    }
}

/// A thousand keys of a session: every view, moving about, weeks on and back, edits and their undoing. The slowest
/// must stay below 16 ms, the median below 2 ms.
#[divan::bench(sample_count = 1_000, sample_size = 1)]
fn any_key_and_frame(bencher: Bencher<'_, '_>) {
    const SESSION: &str = "1jjllkh.,2jlkh..,,xu3jjkk+-.,>4jj+-kk6jjkk.,7jjkk9jj1jlkh2jlkhxu3jk6jk4+-6jjk";
    let model = RefCell::new(plot());
    let asked = RefCell::new(Vec::new());
    let mut buffer = Buffer::empty(Rect::new(0, 0, 200, 60));
    let mut keys = SESSION.chars().cycle();
    bencher
        .with_inputs(|| {
            work_out(&mut model.borrow_mut(), asked.take());
            keys.next().unwrap_or('1')
        })
        .bench_local_values(|key| {
            let effects = step(&mut model.borrow_mut(), key, &mut buffer);
            asked.borrow_mut().extend(effects);
        });
}

/// What the findings view waits for after an edit, beside the screen.
#[divan::bench(sample_count = 20)]
fn findings_beside(bencher: Bencher<'_, '_>) {
    let mut model = plot();
    let mut more = false;
    model.view = View::Wishes;
    bencher
        .with_inputs(|| {
            more = !more;
            drop(update(&mut model, Message::Pressed(Key::Char('4'))));
            drop(update(&mut model, Message::Pressed(Key::Char(if more { '+' } else { '-' }))));
            update(&mut model, Message::Pressed(Key::Char('6')))
        })
        .bench_local_values(|effects| {
            for effect in effects {
                if let Effect::Errand(errand) = effect {
                    drop(black_box(errand.run()));
                }
            }
        });
}

/// A planting carried a cell on: its dates, what it would bring, and the frame.
#[divan::bench(sample_count = 20)]
fn carry_and_frame(bencher: Bencher<'_, '_>) {
    let mut model = plot();
    let mut buffer = Buffer::empty(Rect::new(0, 0, 200, 60));
    drop(step(&mut model, '2', &mut buffer));
    drop(step(&mut model, 'm', &mut buffer));
    let mut right = false;
    bencher.bench_local(|| {
        right = !right;
        drop(step(&mut model, if right { 'l' } else { 'h' }, &mut buffer));
    });
}

#[divan::bench(args = View::ALL)]
fn cursor_and_frame(bencher: Bencher<'_, '_>, shown: View) {
    let mut model = plot();
    model.view = shown;
    let mut buffer = Buffer::empty(Rect::new(0, 0, 200, 60));
    let mut down = false;
    bencher.bench_local(|| {
        down = !down;
        drop(step(&mut model, if down { 'j' } else { 'k' }, &mut buffer));
    });
}

#[divan::bench]
fn week_and_frame(bencher: Bencher<'_, '_>) {
    let mut model = plot();
    let mut buffer = Buffer::empty(Rect::new(0, 0, 200, 60));
    let mut later = false;
    bencher.bench_local(|| {
        later = !later;
        drop(step(&mut model, if later { '.' } else { ',' }, &mut buffer));
    });
}

#[divan::bench(sample_count = 20)]
fn edit_and_frame(bencher: Bencher<'_, '_>) {
    let mut model = plot();
    let mut buffer = Buffer::empty(Rect::new(0, 0, 200, 60));
    model.view = View::Wishes;
    let mut more = false;
    bencher.bench_local(|| {
        more = !more;
        drop(step(&mut model, if more { '+' } else { '-' }, &mut buffer));
    });
}
