//! How the grower wants things done, typed one matter at a time: hours, risk, units, weeks away, raising places.

use super::{Choice, Reading, time};
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::update::{commit, sentence};
use crate::calendar::{MONTHS, Weekday, day_text};
use crate::growth::Risk;
use crate::plan::{Away, Edit, RaisingPlace};
use crate::units::{Measure, Temperature};
use chrono::Datelike as _;

/// A matter of the garden as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Matter {
    /// Its name.
    Name,
    /// Hours a week there are for it.
    Hours,
    /// The frost risk taken.
    Risk,
    /// The units read.
    Units,
    /// The weekday on which most is done.
    Day,
    /// When nobody is there.
    Away,
    /// Where seedlings are raised.
    Raising,
}

/// Risks with their words and what they mean.
pub(in crate::app) const RISKS: [(Risk, &str, &str); 3] = [
    (Risk::Cautious, "cautious", "1 year of 10 may go wrong"),
    (Risk::Usual, "usual", "3 years of 10"),
    (Risk::Bold, "bold", "every other year"),
];

/// Units with their words and what they are.
pub(in crate::app) const UNITS: [(Measure, &str, &str); 2] = [
    (Measure::Us, "us", "feet, inches, gallons, pounds"),
    (Measure::Metric, "metric", "metres, litres, grams"),
];

/// Weekdays with their words.
const DAYS: [(Weekday, &str); 7] = [
    (Weekday::Mon, "Monday"),
    (Weekday::Tue, "Tuesday"),
    (Weekday::Wed, "Wednesday"),
    (Weekday::Thu, "Thursday"),
    (Weekday::Fri, "Friday"),
    (Weekday::Sat, "Saturday"),
    (Weekday::Sun, "Sunday"),
];

pub(super) fn title(matter: Matter) -> &'static str {
    match matter {
        Matter::Name => "What is the garden called?",
        Matter::Hours => "How many hours a week are there for the garden? empty: not counted",
        Matter::Risk => "How much frost risk do you take?",
        Matter::Units => "Which units do you read?",
        Matter::Day => "On which day is most of the work done?",
        Matter::Away => "When is nobody there? 3 Jul to 17 Jul; 24 Dec to 2 Jan",
        Matter::Raising => "Where are seedlings raised? windowsill 18 C, 40 cells, light",
    }
}

/// What stands in the line at first.
pub(in crate::app) fn now(model: &Model, matter: Matter) -> String {
    let plan = &model.plan;
    match matter {
        Matter::Name => plan.name.clone(),
        Matter::Hours => plan.settings.hours_a_week.map(|h| h.to_string()).unwrap_or_default(),
        Matter::Risk => word(&RISKS, plan.settings.risk),
        Matter::Units => word(&UNITS, plan.settings.measure),
        Matter::Day => {
            DAYS.iter().find(|(d, _)| *d == plan.settings.garden_day).map_or("", |(_, w)| w).to_owned()
        }
        Matter::Away => plan.settings.away.iter().map(away_words).collect::<Vec<_>>().join("; "),
        Matter::Raising => plan.raising.iter().map(raising_words).collect::<Vec<_>>().join("; "),
    }
}

fn word<T: PartialEq + Copy>(words: &[(T, &str, &str)], value: T) -> String {
    words.iter().find(|(v, ..)| *v == value).map_or("", |(_, w, _)| w).to_owned()
}

/// The value of a word, or the words one may write.
pub(in crate::app) fn value<T: Copy>(words: &[(T, &str, &str)], text: &str) -> Result<T, String> {
    let text = text.trim();
    let found = words.iter().find(|(_, w, _)| w.eq_ignore_ascii_case(text)).map(|(v, ..)| *v);
    found.ok_or_else(|| {
        let all: Vec<&str> = words.iter().map(|(_, w, _)| *w).collect();
        let (last, rest) = all.split_last().unwrap_or((&"", &[]));
        format!("Write {} or {last}.", rest.join(", "))
    })
}

fn away_words(away: &Away) -> String {
    let day = |d: crate::calendar::Date| format!("{} {}", day_text(d), d.year());
    format!("{} to {}", day(away.from), day(away.to))
}

fn raising_words(place: &RaisingPlace) -> String {
    let light = if place.light { ", light" } else { "" };
    format!("{} {}, {} cells{light}", place.name, place.temperature, place.cells)
}

/// "3 Jul to 17 Jul 2027; 24 Dec to 2 Jan".
fn read_away(model: &Model, text: &str) -> Result<Vec<Away>, String> {
    let mut out = Vec::new();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        let (from, to) = time::read_span(part, model)?;
        out.push(Away { from, to });
    }
    out.sort_by_key(|a| (a.from, a.to));
    Ok(out)
}

/// "windowsill 18 C, 40 cells, light; frame 50 F, 60 cells, light".
fn read_raising(text: &str) -> Result<Vec<RaisingPlace>, String> {
    let mut out = Vec::new();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        let mut pieces = part.split(',').map(str::trim);
        let head = pieces.next().unwrap_or_default();
        let wrong =
            || format!("'{part}': write its name, its warmth and its room: windowsill 18 C, 40 cells.");
        let at = head.find(|c: char| c.is_ascii_digit() || c == '-').ok_or_else(wrong)?;
        let (name, warm) = head.split_at(at);
        let temperature: Temperature = warm.to_uppercase().parse().map_err(|_e| wrong())?;
        if name.trim().is_empty() || !(0.0..=40.0).contains(&temperature.celsius()) {
            return Err(format!("'{head}': a name and a warmth between 0 C and 40 C are wanted."));
        }
        let mut place = RaisingPlace { name: name.trim().to_owned(), temperature, cells: 0, light: false };
        for piece in pieces {
            match piece.to_lowercase().as_str() {
                "light" => place.light = true,
                "dark" | "" => place.light = false,
                cells => {
                    let number = cells.trim_end_matches("tray cells").trim_end_matches("cells").trim();
                    place.cells = number.parse().map_err(|_e| wrong())?;
                }
            }
        }
        if place.cells == 0 {
            return Err(wrong());
        }
        out.push(place);
    }
    Ok(out)
}

pub(in crate::app) fn read_hours(text: &str) -> Result<Option<f32>, String> {
    let text = text.trim().trim_end_matches('h').trim();
    if text.is_empty() {
        return Ok(None);
    }
    let hours = text.parse::<f32>().ok().filter(|h| (0.1..=168.0).contains(h));
    hours.map(Some).ok_or_else(|| format!("'{text}' is no number of hours between 0.1 and 168."))
}

/// The edit that the line asks for.
fn edit(model: &Model, matter: Matter, text: &str) -> Result<Edit, String> {
    let mut settings = model.plan.settings.clone();
    let words = match matter {
        Matter::Name => {
            let name = text.trim();
            if name.is_empty() {
                return Err(String::from("A name is wanted."));
            }
            return Ok(Edit::Name(name.to_owned(), model.plan.note.clone()));
        }
        Matter::Raising => {
            let places = read_raising(text)?;
            return Ok(Edit::Raising(places));
        }
        Matter::Hours => {
            settings.hours_a_week = read_hours(text)?;
            settings.hours_a_week.map_or_else(
                || String::from("the hours a week are not counted any more"),
                |h| format!("set the hours a week to {h}"),
            )
        }
        Matter::Risk => {
            settings.risk = value(&RISKS, text)?;
            format!("set the frost risk to {}", word(&RISKS, settings.risk))
        }
        Matter::Units => {
            settings.measure = value(&UNITS, text)?;
            format!("set the units to {}", word(&UNITS, settings.measure))
        }
        Matter::Day => {
            let text = text.trim().to_lowercase();
            let found = DAYS.iter().find(|(_, w)| text.len() >= 2 && w.to_lowercase().starts_with(&text));
            let (day, word) = found.ok_or("Write a day of the week, such as Saturday.")?;
            settings.garden_day = *day;
            format!("set the garden day to {word}")
        }
        Matter::Away => {
            settings.away = read_away(model, text)?;
            match settings.away.len() {
                0 => String::from("nobody is away any more"),
                1 => format!("noted that nobody is there {}", away_words(&settings.away[0])),
                n => format!("noted {n} times in which nobody is there"),
            }
        }
    };
    Ok(Edit::Batch(words, vec![Edit::Settings(Box::new(settings))]))
}

pub(super) fn read(model: &Model, matter: Matter, text: &str) -> Reading {
    let mut reading = match edit(model, matter, text) {
        Ok(_) => match matter {
            Matter::Away => Reading::say(Tone::Plain, shown(model, text)),
            Matter::Raising => {
                Reading::say(Tone::Plain, "The first is where seedlings are reckoned to stand.")
            }
            Matter::Name | Matter::Hours | Matter::Risk | Matter::Units | Matter::Day => Reading::default(),
        },
        Err(words) => Reading::say(Tone::Mind, words),
    };
    let choice = |word: &str, detail: &str| Choice {
        label: word.to_owned(),
        detail: detail.to_owned(),
        fills: word.to_owned(),
        key: word.to_owned(),
    };
    reading.choices = match matter {
        Matter::Risk => RISKS.iter().map(|(_, w, d)| choice(w, d)).collect(),
        Matter::Units => UNITS.iter().map(|(_, w, d)| choice(w, d)).collect(),
        Matter::Day => DAYS.iter().map(|(_, w)| choice(w, "")).collect(),
        Matter::Name | Matter::Hours | Matter::Away | Matter::Raising => Vec::new(),
    };
    reading
}

/// The times away with their years, so that the right ones are meant.
fn shown(model: &Model, text: &str) -> String {
    match read_away(model, text) {
        Ok(all) if all.is_empty() => String::from("Always there."),
        Ok(all) => sentence(&format!("away {}", all.iter().map(away_words).collect::<Vec<_>>().join("; "))),
        Err(words) => words,
    }
}

/// Takes the line; a choice under the cursor stands for a word that was not typed in full.
pub(super) fn accept(
    model: &mut Model,
    matter: Matter,
    text: &str,
    choice: Option<&str>,
) -> Result<Vec<Effect>, String> {
    let edit = edit(model, matter, text).or_else(|words| match choice {
        Some(choice) if begins(choice, text) => self::edit(model, matter, choice),
        Some(_) | None => Err(words),
    })?;
    Ok(commit(model, edit))
}

/// Whether the first letters of a choice were typed.
fn begins(choice: &str, text: &str) -> bool {
    !text.trim().is_empty() && choice.to_lowercase().starts_with(&text.trim().to_lowercase())
}

/// Whether a word is that of a month: "Jul".
pub(super) fn is_month(word: &str) -> bool {
    word.len() >= 3 && MONTHS.iter().any(|m| word.to_lowercase().starts_with(&m.to_lowercase()))
}
