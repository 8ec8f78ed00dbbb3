//! Twelve questions to a new garden; Enter takes the default, and an answer that is none is asked again with words.

use super::answer::Trouble;
use super::layout::{Sizes, lay_out};
use super::measures::{self, Outline};
use super::say;
use crate::calendar::{Date, MonthDay};
use crate::crop::Book;
use crate::garden::{Place, PlaceId};
use crate::plan::{Edit, Past, Plan, Settings, Stood};
use crate::site::{SiteSpec, SiteYear, presets};
use crate::store::nearest;
use crate::units::{Measure, Volume};
use chrono::Datelike;
use std::io::{BufRead, Write};

/// What was answered.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Answers {
    name: String,
    site: SiteSpec,
    measure: Measure,
    sizes: Sizes,
    fresh: bool,
    hours: Option<f32>,
    /// What stands now, and the families of the last years.
    past: Vec<(PlaceId, Stood, Date, Date)>,
}

impl Answers {
    /// The garden they describe.
    pub(super) fn plan(self, on: Date) -> Result<Plan, Trouble> {
        let mut settings = Settings::for_measure(self.measure);
        settings.hours_a_week = self.hours;
        let since = self.past.iter().map(|(_, _, from, _)| *from).min().unwrap_or(on).min(on);
        let mut plan = Plan::new(&self.name, self.site, settings);
        for place in lay_out(&self.sizes, self.measure, since, self.fresh) {
            plan.apply(&Edit::Place(place.id.clone(), Some(Box::new(place))))?;
        }
        let record = self
            .past
            .into_iter()
            .map(|(place, stood, from, to)| Past { place, block: None, stood, from, to, note: String::new() })
            .collect();
        plan.apply(&Edit::Record(record))?;
        Ok(plan)
    }
}

struct Talk<'a, I, O> {
    input: &'a mut I,
    output: &'a mut O,
    number: u8,
}

impl<I: BufRead, O: Write> Talk<'_, I, O> {
    /// Asks until the answer can be used.
    fn question<T>(
        &mut self,
        words: &str,
        default: &str,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> Result<T, Trouble> {
        self.number += 1;
        let fail = |e: std::io::Error| Trouble::Io(format!("the questions were broken off: {e}"));
        loop {
            let shown = if default.is_empty() { String::from("none") } else { default.to_owned() };
            write!(self.output, "{:>2}. {words} [{shown}] ", self.number)
                .and_then(|()| self.output.flush())
                .map_err(fail)?;
            let mut line = String::new();
            if self.input.read_line(&mut line).map_err(fail)? == 0 {
                return Err(Trouble::Io(String::from("the questions were broken off; nothing was written")));
            }
            let answer = if line.trim().is_empty() { default } else { line.trim() };
            match read(answer) {
                Ok(value) => return Ok(value),
                Err(words) => writeln!(self.output, "    {words}").map_err(fail)?,
            }
        }
    }
}

/// Asks about a new garden; `today` tells which the last years are.
pub(super) fn ask<I: BufRead, O: Write>(
    input: &mut I,
    output: &mut O,
    name: &str,
    today: Date,
    book: &Book,
) -> Result<Answers, Trouble> {
    let mut talk = Talk { input, output, number: 0 };
    let name = talk.question("What is the garden called?", name, |t| Ok::<_, String>(t.to_owned()))?;
    let mut site = talk.question(
        "Which built-in climate is most like yours? ('?' lists them)",
        "new-york",
        read_climate,
    )?;
    let home = site.preset.as_deref().and_then(presets::find).map_or("", |p| p.country);
    let usual = if home == "US" { "us" } else { "metric" };
    let measure = talk.question("Units: us or metric?", usual, read_measure)?;
    let frost = SiteYear::new(&site)?.frost_plain(0.0);
    let day =
        |d: Option<crate::calendar::ClimateDay>| d.map(|d| d.month_day().to_string()).unwrap_or_default();
    let (last, first) = (day(frost.last.five_in_10), day(frost.first.five_in_10));
    let own = |computed: String| move |t: &str| if t == computed { Ok(None) } else { read_day(t) };
    site.last_frost = talk.question("Your average last frost, MM-DD?", &last, own(last.clone()))?;
    site.first_frost = talk.question("Your average first frost, MM-DD?", &first, own(first.clone()))?;
    SiteYear::new(&site)?;
    let example = if measure == Measure::Us { "4x4ft 4x4ft" } else { "120x120cm 120x120cm" };
    let boxes = talk.question("Boxes, across x down each?", example, read_outlines)?;
    let beds = talk.question("Beds in the open ground?", "", read_outlines)?;
    let pots = talk.question("Pots, by their volume (such as 10gal 38l)?", "", read_volumes)?;
    let fresh =
        talk.question("Is all of it fresh potting mix or clean bought soil? (yes, no)", "no", read_yes)?;
    let hours = talk.question("Hours a week there are for it?", "", read_hours)?;
    let sizes = Sizes { boxes, beds, flower_beds: Vec::new(), pots };
    let places = lay_out(&sizes, measure, today, fresh);
    let ids: Vec<&str> = places.iter().map(|p: &Place| p.id.0.as_str()).collect();
    let shown = ids.join(", ");
    let mut past = talk.question(
        &format!("What stands there now? ('garlic box-1, kale box-2'; places: {shown})"),
        "",
        |t| read_standing(t, &ids, book, today),
    )?;
    past.extend(talk.question(
        "Where did nightshades, brassicas, legumes or onions stand in the last three years?\n    ('nightshades box-1 \
         2026, onions box-2 2025'; what is not said stays unknown)",
        "",
        |t| read_families(t, &ids, book, today),
    )?);
    Ok(Answers { name, site, measure, sizes, fresh, hours, past })
}

fn read_climate(text: &str) -> Result<SiteSpec, String> {
    if text == "?" {
        return Err(format!("\n{}", say::climates_text()).replace('\n', "\n    "));
    }
    SiteSpec::from_preset(text).map_err(|e| e.to_string())
}

fn read_measure(text: &str) -> Result<Measure, String> {
    match text.to_lowercase().as_str() {
        "us" => Ok(Measure::Us),
        "metric" => Ok(Measure::Metric),
        _ => Err(String::from("write 'us' or 'metric'")),
    }
}

fn read_day(text: &str) -> Result<Option<MonthDay>, String> {
    if text.is_empty() {
        Ok(None)
    } else {
        text.parse().map(Some).map_err(|e: crate::calendar::DateError| e.to_string())
    }
}

/// Sizes parted by spaces or commas.
fn read_outlines(text: &str) -> Result<Vec<Outline>, String> {
    words(text).map(measures::outline).collect()
}

fn read_volumes(text: &str) -> Result<Vec<Volume>, String> {
    words(text).map(measures::volume).collect()
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split([' ', ',']).filter(|w| !w.is_empty() && *w != "none")
}

fn read_yes(text: &str) -> Result<bool, String> {
    match text.to_lowercase().as_str() {
        "y" | "yes" => Ok(true),
        "n" | "no" => Ok(false),
        _ => Err(String::from("write 'yes' or 'no'")),
    }
}

fn read_hours(text: &str) -> Result<Option<f32>, String> {
    if text.is_empty() || text == "none" {
        return Ok(None);
    }
    text.parse::<f32>()
        .ok()
        .filter(|h| (0.1..=168.0).contains(h))
        .map(Some)
        .ok_or_else(|| String::from("write a number of hours, such as 4"))
}

type Stays = Vec<(PlaceId, Stood, Date, Date)>;

fn read_place(word: &str, ids: &[&str]) -> Result<PlaceId, String> {
    if ids.contains(&word) {
        return Ok(PlaceId::new(word));
    }
    let hint = nearest(word, ids.iter().copied())
        .map_or_else(|| format!("places: {}", ids.join(", ")), |n| format!("did you mean '{n}'?"));
    Err(format!("there is no place '{word}'; {hint}"))
}

/// "garlic box-1, kale box-2": crops that stand on `today`, counted from half a year before.
fn read_standing(text: &str, ids: &[&str], book: &Book, today: Date) -> Result<Stays, String> {
    parts(text)
        .map(|part| {
            let (crop, place) =
                part.rsplit_once(' ').ok_or_else(|| format!("'{part}': write a crop and a place"))?;
            let crop = book.named(crop).map_err(|unknown| unknown.to_string())?;
            let place = read_place(place.trim(), ids)?;
            let stood = Stood::Crop { crop: crop.id.clone(), family: crop.family.clone() };
            Ok((place, stood, crate::calendar::plus(today, -182), today))
        })
        .collect()
}

/// "nightshades box-1 2026, onions box-2 2025".
fn read_families(text: &str, ids: &[&str], book: &Book, today: Date) -> Result<Stays, String> {
    parts(text)
        .map(|part| {
            let words: Vec<&str> = part.split_whitespace().collect();
            let [common @ .., place, year] = &words[..] else {
                return Err(format!("'{part}': write a family, a place and a year"));
            };
            let common = common.join(" ");
            let family = read_family(&common, book)?;
            let place = read_place(place, ids)?;
            let this = today.year();
            let year: i32 = year
                .parse()
                .ok()
                .filter(|y| (this - 30..=this).contains(y))
                .ok_or_else(|| format!("'{year}' is no year of the last thirty"))?;
            let day = |m, d| Date::from_ymd_opt(year, m, d).unwrap_or(today);
            Ok((place, Stood::Family(family), day(1, 1), day(12, 31).min(today)))
        })
        .collect()
}

fn parts(text: &str) -> impl Iterator<Item = &str> {
    text.split(',').map(str::trim).filter(|p| !p.is_empty() && *p != "none")
}

/// A family by its botanical or common name, by a word of it, or by one of its crops.
fn read_family(word: &str, book: &Book) -> Result<String, String> {
    let wanted = word.to_lowercase();
    let stem = wanted.trim_end_matches('s');
    let is = |text: &str| {
        let text = text.to_lowercase();
        text == wanted || text.split_whitespace().any(|w| w.trim_end_matches('s') == stem)
    };
    if let Some(family) = book.families().find(|f| is(&f.name) || is(&f.common)) {
        return Ok(family.name.clone());
    }
    if let Ok(crop) = book.named(word) {
        return Ok(crop.family.clone());
    }
    let common: Vec<&str> = book.families().map(|f| f.common.as_str()).collect();
    let hint = nearest(word, common.iter().copied())
        .map_or_else(|| format!("families: {}", common.join(", ")), |n| format!("did you mean '{n}'?"));
    Err(format!("there is no family '{word}'; {hint}"))
}
