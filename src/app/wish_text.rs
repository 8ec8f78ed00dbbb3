//! A wish as one line of words: "lettuce, 3 heads a week, May to October, must", read and written.

use super::slip::read_month_day;
use crate::calendar::{MonthDay, plus};
use crate::crop::Book;
use crate::garden::PlaceId;
use crate::plan::{Pattern, Plan, Wish, WishId};
use crate::units::Amount;

/// Words of the importances, 1 to 5.
pub const IMPORTANCE: [&str; 5] = ["would be nice", "gladly", "wanted", "important", "must"];

/// What of a line is understood, and what is missing or not understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WishError {
    /// In words, with what to write.
    pub words: String,
}

/// Reads a wish. Parts stand between commas: the crop first, then in any order how much and how it is meant, when,
/// how important, and where.
///
/// # Errors
/// What is missing or not understood.
pub fn read(text: &str, id: WishId, plan: &Plan, book: &Book) -> Result<Wish, WishError> {
    let error = |words: String| WishError { words };
    let mut parts = text.split(',').map(str::trim).filter(|p| !p.is_empty());
    let name = parts.next().ok_or_else(|| error(String::from("Which crop? Write its name first.")))?;
    // A name may itself hold a comma, as "Tomato, cherry" does.
    let mut rest: Vec<&str> = parts.collect();
    let crop = match rest.first().and_then(|more| book.named(&format!("{name}, {more}")).ok()) {
        Some(crop) if !rest.is_empty() && part(rest[0], plan).is_none() => {
            rest.remove(0);
            crop
        }
        _ => book.named(name).map_err(|e| error(super::update::sentence(&e.to_string())))?,
    };
    let mut wish = Wish {
        id,
        crop: crop.id.clone(),
        amount: crop.harvest.usual,
        pattern: Pattern::Even,
        from: MonthDay { month: 1, day: 1 },
        to: MonthDay { month: 12, day: 31 },
        season: None,
        importance: 3,
        places: Vec::new(),
        note: String::new(),
    };
    let mut amount = None;
    for word in rest {
        match part(word, plan) {
            Some(Part::Amount(value, pattern)) => {
                amount = Some(value);
                wish.pattern = pattern;
            }
            Some(Part::Window(from, to)) => (wish.from, wish.to) = (from, to),
            Some(Part::Importance(n)) => wish.importance = n,
            Some(Part::Season(year)) => wish.season = Some(year),
            Some(Part::Place(place)) => wish.places.push(place),
            None => {
                return Err(error(format!(
                    "'{word}' is not understood: write how much (3 heads a week, 5 kg to store), when (May to \
                     October), how important (must), or where (in Long box)."
                )));
            }
        }
    }
    wish.amount = amount.ok_or_else(|| {
        error(format!("How much {}? Such as {} a week.", crop.name.to_lowercase(), crop.harvest.usual))
    })?;
    if wish.amount.value() <= 0.0 {
        return Err(error(String::from("More than nothing has to be wished for.")));
    }
    Ok(wish)
}

enum Part {
    Amount(Amount, Pattern),
    Window(MonthDay, MonthDay),
    Importance(u8),
    Season(i32),
    Place(PlaceId),
}

fn part(text: &str, plan: &Plan) -> Option<Part> {
    let lower = text.to_lowercase();
    if let Some(n) = IMPORTANCE.iter().position(|w| *w == lower) {
        return Some(Part::Importance(u8::try_from(n + 1).ok()?));
    }
    if let Some(n) = lower.strip_prefix("importance ") {
        return n.trim().parse().ok().filter(|n| (1..=5).contains(n)).map(Part::Importance);
    }
    if let Some(year) = lower.strip_prefix("season ") {
        return year.trim().parse().ok().filter(|y| (1900..=2200).contains(y)).map(Part::Season);
    }
    if let Some(name) = lower.strip_prefix("in ").or_else(|| lower.strip_prefix("only in "))
        && let Some(place) =
            plan.places.iter().find(|p| p.name.to_lowercase() == name.trim() || p.id.0 == name.trim())
    {
        return Some(Part::Place(place.id.clone()));
    }
    for (ending, pattern) in [
        (" a week", Pattern::Even),
        (" each week", Pattern::Even),
        ("/week", Pattern::Even),
        (" to store", Pattern::Store),
        (" for store", Pattern::Store),
        (" at once", Pattern::AtOnce),
        (" in all", Pattern::AtOnce),
    ] {
        if let Some(amount) = lower.strip_suffix(ending).and_then(|a| a.trim().parse().ok()) {
            return Some(Part::Amount(amount, pattern));
        }
    }
    if let Ok(amount) = lower.parse() {
        return Some(Part::Amount(amount, Pattern::Even));
    }
    let (from, to) = lower
        .split_once(" to ")
        .or_else(|| lower.split_once(" - "))
        .or_else(|| lower.split_once(" until "))
        .or_else(|| lower.split_once('\u{2013}'))?;
    let from = read_month_day(from.trim().trim_start_matches("from "))?;
    let end = read_month_day(to)?;
    // "to October" means to its end.
    let whole_month = !to.chars().any(|c| c.is_ascii_digit());
    Some(Part::Window(from, if whole_month { month_end(end) } else { end }))
}

/// The last day of a month.
fn month_end(day: MonthDay) -> MonthDay {
    let (year, month) = if day.month == 12 { (2028, 1) } else { (2027, day.month + 1) };
    MonthDay::of(plus(MonthDay { month, day: 1 }.in_year(year), -1))
}

/// A wish as it may be typed again.
pub fn words(wish: &Wish, plan: &Plan, book: &Book) -> String {
    let name = book.get(&wish.crop).map_or_else(|| wish.crop.to_string(), |c| c.name.clone());
    let mut parts = vec![name, amount_words(wish), window_words(wish)];
    let importance = usize::from(wish.importance.clamp(1, 5)) - 1;
    parts.push(IMPORTANCE[importance].to_owned());
    if let Some(year) = wish.season {
        parts.push(format!("season {year}"));
    }
    for id in &wish.places {
        let name = plan.place(id).map_or_else(|| id.to_string(), |p| p.name.clone());
        parts.push(format!("in {name}"));
    }
    parts.join(", ")
}

/// "3 heads a week", "5 kg to store".
pub fn amount_words(wish: &Wish) -> String {
    let meant = match wish.pattern {
        Pattern::Even => "a week",
        Pattern::AtOnce => "at once",
        Pattern::Store => "to store",
    };
    format!("{} {meant}", wish.amount)
}

/// "15 May to 31 Oct".
pub fn window_words(wish: &Wish) -> String {
    format!("{} to {}", wish.from.words(), wish.to.words())
}
