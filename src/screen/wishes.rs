//! The wishes: what is wanted, how much and when.

use super::cells::family_marks;
use super::hit::Table;
use super::list;
use super::pane::Pane;
use super::theme::Role;
use crate::app::{Command, FillWay, Mode, Model, View, amount_words, keymap, window_words, wish_words};
use crate::calendar::MONTHS;
use crate::crop::Crop;
use crate::fill::Effort;
use crate::plan::Wish;
use crate::units::num;
use chrono::Datelike as _;

/// Rows about the wish under the cursor.
const fn detail(width: i32) -> i32 {
    if width >= 110 { 6 } else { 4 }
}

/// Where the wishes lie.
pub(super) const fn table(width: i32, height: i32) -> Table {
    Table { top: 1, rows: height - detail(width) - 2, wide: i32::MAX }
}

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
    // The months of the season by their first letters.
    let first = num::index(model.season().first().month0());
    for (x, n) in (columns.months..).zip(0..12) {
        let letter: String = MONTHS[(first + n) % 12].chars().take(1).collect();
        pane.say(x, 0, &letter, Role::Quiet);
    }
    let detail = detail(width);
    why(&mut pane.part(0, height - detail, width, detail), model);
    pane.rule(0, height - detail - 1, width);
    list::rest(pane, height - detail - 1, at, model.plan.wishes.len());
    let table = table(width, height);
    let mut inside = pane.part(0, table.top, width, table.rows);
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
    let short = met.is_some_and(|m| m.share < 0.995);
    if short && model.reasons_for(wish.id).is_empty() && model.run.is_none() {
        let key = keymap::keys_of(Mode::In(View::Wishes), Command::Fill(FillWay::With(Effort::Usual)))
            .unwrap_or_default();
        y = pane.words(
            2,
            y,
            &format!("{key} fills the garden, and then tells why it is not met further"),
            width,
            Role::Quiet,
        );
    }
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
    months: i32,
    harvest: i32,
    places: i32,
    end: i32,
}

fn columns(width: i32) -> Columns {
    let crop = 2;
    let spare = if width >= 110 { 8 } else { 0 };
    let amount = crop + 20 + spare;
    let window = amount + 16 + spare / 4;
    let weight = window + 18 + spare / 4;
    let months = weight + 11 + spare / 4;
    let harvest = months + 14;
    Columns { crop, amount, window, weight, months, harvest, places: harvest + 14, end: width - 1 }
}

impl Columns {
    const fn heads(&self) -> [(i32, &'static str); 5] {
        [
            (self.crop, "crop"),
            (self.amount, "how much"),
            (self.window, "when"),
            (self.weight, "weight"),
            (self.months - 4, "met"),
        ]
    }
}

/// How far a wish is met by month, as levels; months in which nothing is wished for stay free.
fn months(pane: &mut Pane<'_>, months: &[Option<f64>; 12], left: i32, row: i32) {
    for (x, share) in (left..).zip(months) {
        let Some(share) = share else { continue };
        let level = num::floor_u(share * 7.0 + 0.01).min(7);
        let sign = pane.look.glyphs.levels[level];
        let role = if level == 7 {
            Role::Good
        } else if level == 0 {
            Role::Mind
        } else {
            Role::Plain
        };
        pane.say(x, row, sign, role);
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
        let role = if met.share >= 0.995 { Role::Good } else { Role::Plain };
        pane.right(columns.months - 1, row, &format!("{:.0}%", met.share * 100.0), role);
        months(pane, &met.months, columns.months, row);
        if columns.end - columns.harvest > 12 && met.share > 0.0 {
            pane.fit(columns.harvest, row, &met.harvest, 12, Role::Quiet);
        }
    }
    let places: Vec<&str> =
        wish.places.iter().filter_map(|id| model.plan.place(id)).map(|p| p.name.as_str()).collect();
    if !places.is_empty() {
        let words = format!("in {}", places.join(", "));
        pane.fit(columns.places, row, &words, columns.end - columns.places, Role::Quiet);
    }
}
