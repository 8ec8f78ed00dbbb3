//! From a key to the drawn frame, on the largest example.

use catchcrop::app::{Key, Message, Model, View, update};
use catchcrop::calendar::Date;
use catchcrop::fill::{Effort, Request, build, search};
use catchcrop::screen::{Depth, Look, Theme, USUAL, view};
use catchcrop::site::SiteYear;
use catchcrop::store;
use divan::{Bencher, black_box};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
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
            model
        })
        .clone()
}

/// A key and the frame after it.
fn step(model: &mut Model, key: char, buffer: &mut Buffer) {
    let look = Look { theme: Theme { depth: Depth::Indexed, light: false }, glyphs: &USUAL };
    drop(black_box(update(model, Message::Pressed(Key::Char(key)))));
    let area = buffer.area;
    view(buffer, area, model, look);
}

#[divan::bench(args = View::ALL)]
fn cursor_and_frame(bencher: Bencher<'_, '_>, shown: View) {
    let mut model = plot();
    model.view = shown;
    let mut buffer = Buffer::empty(Rect::new(0, 0, 200, 60));
    let mut down = false;
    bencher.bench_local(|| {
        down = !down;
        step(&mut model, if down { 'j' } else { 'k' }, &mut buffer);
    });
}

#[divan::bench]
fn week_and_frame(bencher: Bencher<'_, '_>) {
    let mut model = plot();
    let mut buffer = Buffer::empty(Rect::new(0, 0, 200, 60));
    let mut later = false;
    bencher.bench_local(|| {
        later = !later;
        step(&mut model, if later { '.' } else { ',' }, &mut buffer);
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
        step(&mut model, if more { '+' } else { '-' }, &mut buffer);
    });
}
