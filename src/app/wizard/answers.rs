//! Reading the answers.

use super::place_ids;
use crate::app::size;
use crate::app::slip::{RISKS, UNITS, read_month_day, value};
use crate::calendar::{Date, MonthDay, plus};
use crate::crop::{Book, CropId};
use crate::garden::{Kind, PlaceId, Shape};
use crate::growth::Risk;
use crate::plan::Stood;
use crate::units::Measure;
use chrono::Datelike as _;

/// What stood somewhere, from when to when.
pub(super) type Stays = Vec<(PlaceId, Stood, Date, Date)>;

/// The most beds or pots of one answer.
const MOST: usize = 60;

pub(super) fn measure(text: &str) -> Result<Measure, String> {
    value(&UNITS, text)
}

pub(super) fn risk(text: &str) -> Result<Risk, String> {
    value(&RISKS, text)
}

pub(super) fn month_day(text: &str) -> Result<Option<MonthDay>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    read_month_day(text).map(Some).ok_or_else(|| format!("'{text}' is no day: write 12 May."))
}

pub(super) fn sun(text: &str) -> Result<Option<f32>, String> {
    let text = text.trim().trim_end_matches('h').trim();
    if text.is_empty() {
        return Ok(None);
    }
    let hours = text.parse::<f32>().ok().filter(|h| (0.0..=24.0).contains(h));
    hours.map(Some).ok_or_else(|| format!("'{text}' is no number of hours between 0 and 24."))
}

/// "2 of 4 x 8 ft; 4 x 4 ft" one by one.
fn each(text: &str) -> Result<Vec<&str>, String> {
    let mut out = Vec::new();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty() && *p != "none") {
        let (count, size) = match part.split_once(" of ") {
            Some((count, size)) => {
                let count = count.trim().parse::<usize>().ok().filter(|n| (1..=MOST).contains(n));
                (count.ok_or_else(|| format!("'{part}': how many? Such as 2 of 4 x 8 ft."))?, size)
            }
            None => (1, part),
        };
        out.extend(std::iter::repeat_n(size, count));
    }
    if out.len() > MOST { Err(format!("At most {MOST} can be laid out at once.")) } else { Ok(out) }
}

pub(super) fn sizes(text: &str, measure: Measure) -> Result<Vec<Shape>, String> {
    each(text)?.into_iter().map(|size| size::read(size, Kind::Box, measure)).collect()
}

pub(super) fn volumes(text: &str, measure: Measure) -> Result<Vec<Shape>, String> {
    each(text)?.into_iter().map(|size| size::read(size, Kind::Pot, measure)).collect()
}

/// The place of a name or an id.
fn place(word: &str, beds: &[Shape], pots: &[Shape]) -> Result<PlaceId, String> {
    let all = place_ids(beds.len(), pots.len());
    let word = word.trim();
    let found = all.iter().find(|(id, name)| id.0 == word || name.eq_ignore_ascii_case(word));
    found.map(|(id, _)| id.clone()).ok_or_else(|| {
        let names: Vec<&str> = all.iter().map(|(_, name)| name.as_str()).collect();
        format!("There is no {word}: there are {}.", names.join(", "))
    })
}

/// "garlic in Box 1; kale in Box 2".
pub(super) fn standing(
    text: &str,
    beds: &[Shape],
    pots: &[Shape],
    book: &Book,
    today: Date,
) -> Result<Stays, String> {
    let mut out = Vec::new();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        let (what, where_) =
            part.split_once(" in ").ok_or_else(|| format!("'{part}': where? Such as garlic in Box 1."))?;
        let crop = book.named(what).map_err(|e| crate::app::update::sentence(&e.to_string()))?;
        let stood = Stood::Crop { crop: crop.id.clone(), family: crop.family.clone() };
        // Since when is not known: the last months are certain.
        out.push((place(where_, beds, pots)?, stood, plus(today, -60), today));
    }
    Ok(out)
}

/// "onions in Box 1 in 2026; nightshades in Box 2 in 2025".
pub(super) fn family_stays(
    text: &str,
    beds: &[Shape],
    pots: &[Shape],
    book: &Book,
    today: Date,
) -> Result<Stays, String> {
    let mut out = Vec::new();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        let mut words = part.split(" in ");
        let (Some(what), Some(where_), Some(year)) = (words.next(), words.next(), words.next()) else {
            return Err(format!(
                "'{part}': where and when? Such as onions in Box 1 in {}.",
                today.year() - 1
            ));
        };
        let year = year.trim().parse::<i32>().ok().filter(|y| (today.year() - 20..=today.year()).contains(y));
        let year = year.ok_or_else(|| format!("'{part}': which year? Such as {}.", today.year() - 1))?;
        let (Some(from), Some(to)) = (Date::from_ymd_opt(year, 1, 1), Date::from_ymd_opt(year, 12, 31))
        else {
            continue;
        };
        out.push((place(where_, beds, pots)?, stood(what, book)?, from, to.min(today)));
    }
    Ok(out)
}

/// A family by any of its words, or a crop.
fn stood(word: &str, book: &Book) -> Result<Stood, String> {
    let lower = word.trim().to_lowercase();
    let stem = lower.trim_end_matches('s');
    let known = |f: &&crate::crop::Family| {
        let common = f.common.to_lowercase();
        common == lower || f.name.to_lowercase() == lower || common.starts_with(stem)
    };
    if let Some(family) = book.families().find(known) {
        return Ok(Stood::Family(family.name.clone()));
    }
    let crop = book.named(word).map_err(|e| crate::app::update::sentence(&e.to_string()))?;
    Ok(Stood::Crop { crop: crop.id.clone(), family: crop.family.clone() })
}

/// The crops of a list with commas.
pub(super) fn kinds(text: &str, book: &Book) -> Result<Vec<CropId>, String> {
    let mut out: Vec<CropId> = Vec::new();
    for word in text.split(',').map(str::trim).filter(|w| !w.is_empty()) {
        let crop = book.named(word).map_err(|e| crate::app::update::sentence(&e.to_string()))?;
        if !out.contains(&crop.id) {
            out.push(crop.id.clone());
        }
    }
    Ok(out)
}
