//! The wishes: what is wanted, how much and when.

use super::cells::family_marks;
use super::list;
use super::pane::Pane;
use super::theme::Role;
use crate::app::{Model, View, amount_words, window_words, wish_words};
use crate::crop::Crop;
use crate::plan::Wish;
use crate::units::num;

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    if model.plan.wishes.is_empty() {
        pane.say(2, 1, "Nothing is wished for yet.", Role::Plain);
        pane.say(2, 2, "Press n and write: lettuce, 3 heads a week, May to October", Role::Quiet);
        return;
    }
    let at = model.line(View::Wishes);
    let columns = columns(width);
    for (x, word) in columns.heads() {
        pane.say(x, 0, word, Role::Quiet);
    }
    list::rest(pane, 0, at, model.plan.wishes.len());
    let detail = if width >= 110 { 6 } else { 4 };
    why(&mut pane.part(0, height - detail, width, detail), model);
    pane.rule(0, height - detail - 1, width);
    let mut inside = pane.part(0, 1, width, height - detail - 2);
    let rows = inside.height();
    for (row, n, wish) in list::shown(&model.plan.wishes, at, rows) {
        line(&mut inside, model, wish, row, &columns);
        if n == at {
            list::mark(&mut inside, row);
        }
    }
}

/// The wish under the cursor: how far it is met, and why not further.
fn why(pane: &mut Pane<'_>, model: &Model) {
    let Some(wish) = model.focus_wish() else { return };
    let width = pane.width() - 4;
    let words = wish_words(wish, model.shown(), &model.book);
    let mut y = pane.words(2, 0, &words, width, Role::Title);
    let met = model.reckoned.met.get(&wish.id);
    let words = match met {
        Some(met) if met.share >= 0.995 => format!("met: {} planned", met.harvest),
        Some(met) => format!("{:.0} % of it is met: {} planned", met.share * 100.0, met.harvest),
        None => format!("not in the season shown ({})", model.season()),
    };
    y = pane.words(2, y, &words, width, Role::Plain);
    for reason in model.reasons_for(wish.id) {
        y = pane.words(2, y, reason, width, Role::Mind);
    }
    if !wish.note.is_empty() {
        pane.words(2, y, &wish.note, width, Role::Quiet);
    }
}

/// Where the columns of the table begin.
struct Columns {
    crop: i32,
    amount: i32,
    window: i32,
    weight: i32,
    met: i32,
    places: i32,
    end: i32,
}

fn columns(width: i32) -> Columns {
    let crop = 2;
    let amount = crop + if width >= 110 { 30 } else { 22 };
    let window = amount + 18;
    let weight = window + 18;
    let met = weight + 7;
    Columns { crop, amount, window, weight, met, places: met + 24, end: width - 1 }
}

impl Columns {
    const fn heads(&self) -> [(i32, &'static str); 5] {
        [
            (self.crop, "crop"),
            (self.amount, "how much"),
            (self.window, "when"),
            (self.weight, "weight"),
            (self.met, "met"),
        ]
    }
}

fn line(pane: &mut Pane<'_>, model: &Model, wish: &Wish, row: i32, columns: &Columns) {
    let crop: Option<&Crop> = model.book.get(&wish.crop);
    let (hue, _) = family_marks(crop.and_then(|c| model.book.family(&c.family)));
    let code = crop.map_or("??", |c| c.code.as_str());
    let style = pane.look.theme.line(hue);
    let at = pane.text(columns.crop, row, code, style);
    let name = crop.map_or(wish.crop.as_str(), |c| c.name.as_str());
    pane.fit(at + 1, row, name, columns.amount - at - 2, Role::Plain);
    pane.fit(columns.amount, row, &amount_words(wish), columns.window - columns.amount - 1, Role::Plain);
    pane.fit(columns.window, row, &window_words(wish), columns.weight - columns.window - 1, Role::Quiet);
    let [full, empty] = pane.look.glyphs.bar;
    let mut x = columns.weight;
    for n in 1..=5 {
        x = if n <= wish.importance {
            pane.say(x, row, full, Role::Accent)
        } else {
            pane.say(x, row, empty, Role::Quiet)
        };
    }
    if let Some(met) = model.reckoned.met.get(&wish.id) {
        let tenths = num::floor_u(met.share * 10.0 + 0.05).min(10);
        let mut x = columns.met;
        let wide = if columns.end - columns.met >= 22 { 10 } else { 5 };
        for n in 0..wide {
            let lit = n * 10 < tenths * wide;
            x = if lit { pane.say(x, row, full, Role::Good) } else { pane.say(x, row, empty, Role::Quiet) };
        }
        if columns.end - x > 12 && met.share > 0.0 {
            pane.fit(x + 1, row, &met.harvest, 12, Role::Quiet);
        }
    }
    let places: Vec<&str> =
        wish.places.iter().filter_map(|id| model.plan.place(id)).map(|p| p.name.as_str()).collect();
    if !places.is_empty() {
        let words = format!("in {}", places.join(", "));
        pane.fit(columns.places, row, &words, columns.end - columns.places, Role::Quiet);
    }
}
