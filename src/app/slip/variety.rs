//! A variety of a crop, asked for as its packet tells it: five answers, each as in the crop to begin with.

use super::{Purpose, Reading};
use crate::app::message::Effect;
use crate::app::model::{Model, Over, Tone};
use crate::crop::{Crop, CropId, Maturity, Spacing};
use crate::store::PacketEntry;
use crate::units::Length;

/// What is asked of a packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ask {
    /// The name of the variety.
    Name,
    /// Days to maturity.
    Days,
    /// Distance between plants.
    Apart,
    /// Depth of sowing.
    Deep,
    /// Height of the plants.
    High,
}

impl Ask {
    /// Every question in order.
    pub const ALL: [Self; 5] = [Self::Name, Self::Days, Self::Apart, Self::Deep, Self::High];
    fn at(self) -> usize {
        Self::ALL.iter().position(|a| *a == self).unwrap_or(0)
    }
}

/// The crop itself, or what it is a variety of: a variety's parent is never a variety.
fn parent<'a>(model: &'a Model, id: &CropId) -> Option<&'a Crop> {
    let crop = model.book.get(id)?;
    model.book.get(crop.base()).or(Some(crop))
}

pub(super) fn title(model: &Model, id: &CropId, ask: Ask) -> String {
    let name = parent(model, id).map_or("", |c| c.name.as_str());
    let words = match ask {
        Ask::Name => format!("What is the variety of {} called?", name.to_lowercase()),
        Ask::Days => String::from("How many days to maturity does the packet say? such as 55-65"),
        Ask::Apart => String::from("How far apart do the plants stand? such as 8-10 in"),
        Ask::Deep => String::from("How deep is it sown? such as 1/2 in"),
        Ask::High => String::from("How high does it grow? such as 24 in"),
    };
    format!("{} of {}: {words}", ask.at() + 1, Ask::ALL.len())
}

/// What stands in the line at first: the answer given before, or what the crop says.
fn usual(model: &Model, id: &CropId, ask: Ask) -> String {
    if let Some(given) = model.packet.get(ask.at()) {
        return given.clone();
    }
    let Some(crop) = parent(model, id) else { return String::new() };
    match ask {
        Ask::Name => format!("{}, ", crop.name.split(',').next().unwrap_or_default()),
        Ask::Days if crop.days.min == crop.days.max => crop.days.min.to_string(),
        Ask::Days => format!("{}-{}", crop.days.min, crop.days.max),
        Ask::Apart => spacing_words(crop.spacing),
        Ask::Deep => crop.depth.to_string(),
        Ask::High => crop.height.to_string(),
    }
}

fn spacing_words(spacing: Spacing) -> String {
    if spacing.dense == spacing.wide {
        spacing.wide.to_string()
    } else {
        format!("{} - {}", spacing.dense, spacing.wide)
    }
}

/// "55-65" or "60".
fn days(text: &str, crop: &Crop) -> Result<Maturity, String> {
    let wrong = || String::from("Write one or two numbers of days: 60, or 55-65.");
    let text = text.trim().trim_end_matches("days").trim();
    let (min, max) = text.split_once(['-', '\u{2013}']).unwrap_or((text, text));
    let day = |t: &str| t.trim().parse::<u16>().ok().filter(|d| (5..=1500).contains(d)).ok_or_else(wrong);
    let (min, max) = (day(min)?, day(max)?);
    if min > max { Err(wrong()) } else { Ok(Maturity { min, max, from: crop.days.from }) }
}

/// "8-10 in", "8 in - 10 in" or "9 in".
fn spacing(text: &str) -> Result<Spacing, String> {
    let wrong = || String::from("Write one or two distances: 9 in, or 8-10 in.");
    let text = text.trim();
    let (dense, wide) = text.split_once(['-', '\u{2013}']).unwrap_or((text, text));
    let wide: Length = wide.parse().map_err(|_e| wrong())?;
    let dense = dense.trim();
    let dense = match dense.parse::<Length>() {
        Ok(length) => length,
        Err(_) => format!("{dense} {}", wide.unit().symbol()).parse().map_err(|_e| wrong())?,
    };
    if dense.um() <= 0 || dense.um() > wide.um() || wide.m() > 5.0 {
        Err(wrong())
    } else {
        Ok(Spacing { dense, wide })
    }
}

fn length(text: &str, most: f64) -> Result<Length, String> {
    let length: Length = text.parse().map_err(|e: crate::units::UnitError| format!("{e}."))?;
    if (0.0..=most).contains(&length.m()) { Ok(length) } else { Err(format!("'{}' can't be.", text.trim())) }
}

/// Whether an answer can be used.
fn check(model: &Model, id: &CropId, ask: Ask, text: &str) -> Result<(), String> {
    let crop = parent(model, id).ok_or_else(|| format!("'{id}' is not in the crop book."))?;
    match ask {
        Ask::Name => name(model, text).map(drop),
        Ask::Days => days(text, crop).map(drop),
        Ask::Apart => spacing(text).map(drop),
        Ask::Deep => length(text, 0.5).map(drop),
        Ask::High => length(text, 6.0).map(drop),
    }
}

/// A name of its own, and the id that comes of it.
fn name(model: &Model, text: &str) -> Result<(String, CropId), String> {
    let name = text.trim();
    if name.is_empty() || name.ends_with(',') {
        return Err(String::from("The name on the packet is wanted, behind that of the crop."));
    }
    if model.book.crops().any(|c| c.name.eq_ignore_ascii_case(name)) {
        return Err(format!("{name} is in the book already."));
    }
    let letters = name.to_lowercase();
    let words = letters.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
    let id = CropId(words.collect::<Vec<_>>().join("-"));
    if model.book.get(&id).is_some() {
        return Err(format!("{name} is too like a name that is in the book already."));
    }
    Ok((name.to_owned(), id))
}

/// Begins with the first question.
pub(in crate::app) fn begin(model: &mut Model, id: &CropId) -> Vec<Effect> {
    if model.path.is_none() {
        model.say(Tone::Mind, "Save the garden first (s): its own varieties lie in a file beside it.");
        return Vec::new();
    }
    model.packet = Vec::new();
    ask(model, id, Ask::Name);
    Vec::new()
}

fn ask(model: &mut Model, id: &CropId, ask: Ask) {
    let text = usual(model, id, ask);
    super::open(model, Purpose::Variety(id.clone(), ask), &text);
}

/// One question back; from the first one they are left.
pub(in crate::app) fn back(model: &mut Model, id: &CropId, from: Ask) {
    match from.at().checked_sub(1).and_then(|at| Ask::ALL.get(at)) {
        Some(before) => ask(model, id, *before),
        None => model.say(Tone::Plain, "No variety was added."),
    }
}

pub(super) fn read(model: &Model, id: &CropId, ask: Ask, text: &str) -> Reading {
    match check(model, id, ask, text) {
        Ok(()) if text.trim() == usual(model, id, ask).trim() && ask != Ask::Name => {
            Reading::say(Tone::Plain, "as in the crop")
        }
        Ok(()) => Reading::default(),
        Err(words) => Reading::say(Tone::Mind, words),
    }
}

pub(super) fn accept(model: &mut Model, id: &CropId, now: Ask, text: &str) -> Result<Vec<Effect>, String> {
    check(model, id, now, text)?;
    model.packet.truncate(model.packet.len().max(now.at()));
    model.packet.resize(model.packet.len().max(now.at() + 1), String::new());
    text.trim().clone_into(&mut model.packet[now.at()]);
    if let Some(next) = Ask::ALL.get(now.at() + 1) {
        ask(model, id, *next);
        return Ok(Vec::new());
    }
    let entry = entry(model, id)?;
    Ok(vec![Effect::AddVariety(Box::new(entry))])
}

/// The entry the answers describe; what is as in the crop is left out.
fn entry(model: &Model, id: &CropId) -> Result<PacketEntry, String> {
    let crop = parent(model, id).ok_or_else(|| format!("'{id}' is not in the crop book."))?;
    let answer = |ask: Ask| model.packet.get(ask.at()).map_or("", String::as_str);
    let (name, new) = name(model, answer(Ask::Name))?;
    let (days, spacing) = (days(answer(Ask::Days), crop)?, spacing(answer(Ask::Apart))?);
    let (depth, height) = (length(answer(Ask::Deep), 0.5)?, length(answer(Ask::High), 6.0)?);
    Ok(PacketEntry {
        id: new,
        of: crop.id.clone(),
        name,
        days: (days != crop.days).then_some(days),
        spacing: (spacing != crop.spacing).then_some(spacing),
        depth: (depth != crop.depth).then_some(depth),
        height: (height != crop.height).then_some(height),
    })
}

/// The book was read anew with a variety in it.
pub(in crate::app) fn added(model: &mut Model, id: &CropId, file: &str) {
    model.find.clear();
    let at = model.found().iter().position(|c| c.id == *id).unwrap_or(0);
    model.lines.insert(crate::app::view::View::Book, at);
    model.scroll = 0;
    let name = model.book.get(id).map_or_else(|| id.to_string(), |c| c.name.clone());
    model.say(Tone::Good, format!("{name} is in the book now, and written to {file}."));
    if matches!(model.over, Some(Over::Slip(_))) {
        model.over = None;
    }
}
