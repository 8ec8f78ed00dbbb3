//! One line to type, with what it would mean said below while it is typed.

mod cover;
mod crop;
mod diary;
mod matter;
mod narrow;
mod obstacle;
mod packet;
mod palette;
mod past;
mod place;
mod support;
mod time;
mod variety;
mod wish;

use super::field::Line;
use super::message::Effect;
use super::model::{Model, Over, Tone};
use super::view::View;
use super::wizard::{self, Step};
use crate::calendar::Season;
use crate::crop::CropId;
use crate::fill::Freed;
use crate::garden::{Kind, PlaceId};
use crate::plan::WishId;
use chrono::Datelike as _;
pub use cover::words as cover_words;
pub use matter::Matter;
pub(super) use matter::{RISKS, UNITS, now as matter_now, value};
pub use narrow::Narrowed;
pub(super) use narrow::switch as narrow;
pub(super) use packet::now as packets_now;
pub(super) use past::recorded;
pub use place::tag_words;
pub(super) use place::{fresh, now};
pub use support::words as support_words;
pub(super) use time::read_month_day;
pub use variety::Ask;
pub(super) use variety::{added as variety_added, back as variety_back, begin as begin_variety};

/// What a line is typed for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Purpose {
    /// A command, by its words.
    Palette,
    /// The size of a new place.
    NewPlace(Kind),
    /// Something about a place.
    Place(PlaceId, About),
    /// Something about the garden as a whole.
    Matter(Matter),
    /// Seed of a crop in the drawer.
    Packets(CropId),
    /// A variety of a crop, as its packet tells it.
    Variety(CropId, Ask),
    /// A crop to plant at the cursor.
    Crop,
    /// A wish.
    Wish(WishId),
    /// Why a finding is set aside.
    Aside,
    /// A crop to look for in the book.
    Find,
    /// How many weeks the cell is free that crops of the book have to fit.
    Narrow,
    /// What stood in a place in a season.
    Past(PlaceId, Season),
    /// A question about a new garden.
    Question(Step),
    /// How much was picked.
    Picked,
    /// An entry of the diary.
    Diary,
    /// Something that shades.
    Obstacle,
    /// A date to go to.
    Date,
    /// A crop that fits a freed cell.
    Fit(Freed),
    /// The file to save to.
    SaveAs,
}

impl Purpose {
    /// Whether nothing but one of the choices is an answer.
    const fn is_closed(&self) -> bool {
        matches!(
            self,
            Self::Matter(Matter::Risk | Matter::Units | Matter::Day)
                | Self::Question(Step::Units | Step::Risk)
        )
    }
}

/// What is typed about a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// Its name.
    Name,
    /// Its size.
    Size,
    /// Its depth of soil.
    Depth,
    /// What may grow in it.
    Tags,
    /// Hours of direct sun.
    Sun,
    /// Where it stands.
    Position,
    /// Its supports.
    Supports,
    /// Its covers.
    Covers,
}

/// Something that may be chosen below the line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// What it is.
    pub label: String,
    /// More about it.
    pub detail: String,
    /// What choosing it puts into the line.
    pub fills: String,
    /// What it stands for.
    pub key: String,
}

/// What the typed line means so far.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Reading {
    /// Lines below it.
    pub words: Vec<(Tone, String)>,
    /// What may be chosen.
    pub choices: Vec<Choice>,
}

impl Reading {
    /// A reading of words alone.
    pub(super) fn say(tone: Tone, words: impl Into<String>) -> Self {
        Self { words: vec![(tone, words.into())], choices: Vec::new() }
    }
    /// A reading of choices alone.
    pub(super) const fn choose(choices: Vec<Choice>) -> Self {
        Self { words: Vec::new(), choices }
    }
}

/// A line being typed.
#[derive(Debug, Clone, PartialEq)]
pub struct Slip {
    /// What for.
    pub purpose: Purpose,
    /// What is asked.
    pub title: String,
    /// The line.
    pub line: Line,
    /// What it means so far.
    pub reading: Reading,
    /// The choice under the cursor.
    pub pick: usize,
}

/// Opens a line with `text` in it.
pub(super) fn open(model: &mut Model, purpose: Purpose, text: &str) {
    let title = title(model, &purpose);
    let line = Line::of(text);
    let reading = read(model, &purpose, text);
    let pick = reading.choices.iter().position(|c| purpose.is_closed() && c.fills == text).unwrap_or(0);
    model.over = Some(Over::Slip(Box::new(Slip { purpose, title, line, reading, pick })));
}

/// Changes the line and reads it anew.
pub(super) fn edit(model: &mut Model, change: impl FnOnce(&mut Line)) -> Vec<Effect> {
    let Some(Over::Slip(mut slip)) = model.over.take() else { return Vec::new() };
    let before = slip.line.text();
    change(&mut slip.line);
    let text = slip.line.text();
    if text != before {
        slip.pick = 0;
        if slip.purpose == Purpose::Find {
            model.find.clone_from(&text);
            model.lines.insert(View::Book, 0);
        }
        slip.reading = read(model, &slip.purpose, &text);
    }
    model.over = Some(Over::Slip(slip));
    Vec::new()
}

/// Reads the line anew: what it is read by has changed.
pub(super) fn reread(model: &mut Model) {
    let Some(Over::Slip(mut slip)) = model.over.take() else { return };
    slip.reading = read(model, &slip.purpose, &slip.line.text());
    slip.pick = slip.pick.min(slip.reading.choices.len().saturating_sub(1));
    model.over = Some(Over::Slip(slip));
}

/// Goes so many choices on.
pub(super) fn pick(model: &mut Model, steps: i64) {
    let fits = |slip: &Slip| {
        let choice = slip.reading.choices.get(slip.pick)?;
        matches!(slip.purpose, Purpose::Fit(_)).then(|| choice.key.clone())
    };
    picked(model, steps);
    // What is said is said of the crop at the cursor.
    let Some(Over::Slip(slip)) = &model.over else { return };
    if let Some(key) = fits(slip) {
        let words = super::fits::words(model, &key);
        if let Some(Over::Slip(slip)) = &mut model.over {
            slip.reading.words = words;
        }
    }
}

fn picked(model: &mut Model, steps: i64) {
    if let Some(Over::Slip(slip)) = &mut model.over {
        let last = slip.reading.choices.len().saturating_sub(1);
        slip.pick = super::shift(slip.pick, steps, last);
        // Where nothing but the choices is an answer, going to one writes it.
        if slip.purpose.is_closed()
            && let Some(choice) = slip.reading.choices.get(slip.pick)
        {
            slip.line = Line::of(&choice.fills);
        }
    }
}

/// Puts the choice under the cursor into the line.
pub(super) fn complete(model: &mut Model) -> Vec<Effect> {
    let Some(Over::Slip(slip)) = &model.over else { return Vec::new() };
    let Some(choice) = slip.reading.choices.get(slip.pick) else { return Vec::new() };
    let fills = choice.fills.clone();
    edit(model, |line| *line = Line::of(&fills))
}

/// Accepts the line; where it can't be, the line stays and says why.
pub(super) fn accept(model: &mut Model) -> Vec<Effect> {
    let Some(Over::Slip(slip)) = model.over.take() else { return Vec::new() };
    let text = slip.line.text();
    let choice = slip.reading.choices.get(slip.pick).map(|c| c.key.clone());
    let done = match &slip.purpose {
        Purpose::Palette => palette::accept(model, choice.as_deref()),
        Purpose::NewPlace(kind) => place::lay_out(model, *kind, &text),
        Purpose::Place(id, about) => place::accept(model, id, *about, &text),
        Purpose::Matter(matter) => matter::accept(model, *matter, &text, choice.as_deref()),
        Purpose::Packets(crop) => packet::accept(model, crop, &text),
        Purpose::Variety(crop, ask) => variety::accept(model, crop, *ask, &text),
        Purpose::Crop => crop::chosen(choice.as_deref()).and_then(|id| super::growing::take(model, &id)),
        Purpose::Wish(id) => wish::accept(model, *id, &text),
        Purpose::Aside => past::aside(model, &text),
        Purpose::Find => Ok(Vec::new()),
        Purpose::Narrow => narrow::accept(model, &text),
        Purpose::Past(place, season) => past::accept(model, place, *season, &text),
        Purpose::Question(step) => wizard::accept(model, *step, &text, choice.as_deref()),
        Purpose::Picked => super::days::picked(model, &text),
        Purpose::Diary => super::days::diary(model, &text).inspect(|_| super::fits::hint(model)),
        Purpose::Fit(_) => super::fits::accept(model, choice.as_deref()),
        Purpose::Obstacle => obstacle::accept(model, &text),
        Purpose::Date => time::accept(model, &text),
        Purpose::SaveAs => super::saving::save_as(model, &text),
    };
    match done {
        Ok(effects) => effects,
        Err(words) => {
            let mut slip = slip;
            slip.reading.words = vec![(Tone::Stop, words)];
            model.over = Some(Over::Slip(slip));
            Vec::new()
        }
    }
}

fn title(model: &Model, purpose: &Purpose) -> String {
    match purpose {
        Purpose::Palette => String::from("What do you want to do?"),
        Purpose::NewPlace(kind) => {
            let word = place::word(*kind);
            format!(
                "How large is the new {word}? {}",
                super::size::example(*kind, model.plan.settings.measure)
            )
        }
        Purpose::Place(id, about) => place::title(model, id, *about),
        Purpose::Matter(matter) => matter::title(*matter).to_owned(),
        Purpose::Variety(crop, ask) => variety::title(model, crop, *ask),
        Purpose::Packets(crop) => {
            let name = model.book.get(crop).map_or_else(|| crop.to_string(), |c| c.name.clone());
            format!(
                "Seed of {name} in the drawer? 120 seeds, {}; 2 g, {}, 8 of 10",
                model.today.year() - 1,
                model.today.year()
            )
        }
        Purpose::Crop => {
            let day = crate::calendar::day_text(model.shown_day());
            format!("Which crop, begun about {day}?")
        }
        Purpose::Wish(_) => String::from("What do you wish for? crop, how much, when, how important"),
        Purpose::Aside => String::from("Why do you live with this finding?"),
        Purpose::Find => String::from("Which crop? Its name, family or use"),
        Purpose::Narrow => narrow::title(model),
        Purpose::Past(id, season) => {
            let name = model.plan.place(id).map_or_else(|| id.to_string(), |p| p.name.clone());
            format!("What stood in {name} in {season}? tomato A1-B2; cabbage family; nothing")
        }
        Purpose::Question(step) => wizard::title(*step),
        Purpose::Picked => String::from("How much was picked? Such as 1.2 kg or 3 heads; empty: not weighed"),
        Purpose::Diary => {
            String::from("What happened? A remark, frost -2 C, soil 12 C, a disease, failed: why")
        }
        Purpose::Obstacle => String::from("What shades the garden here? wall 20 x 1 ft, 6 ft high"),
        Purpose::Date => String::from("Go to which day? 2027-05-12, 12 May, or week 20"),
        Purpose::Fit(freed) => super::fits::title(model, freed),
        Purpose::SaveAs => String::from("Save to which file?"),
    }
}

fn read(model: &Model, purpose: &Purpose, text: &str) -> Reading {
    match purpose {
        Purpose::Palette => palette::read(model, text),
        Purpose::NewPlace(kind) => place::read_size(model, *kind, text),
        Purpose::Place(id, about) => place::read(model, id, *about, text),
        Purpose::Matter(matter) => matter::read(model, *matter, text),
        Purpose::Packets(crop) => packet::read(model, crop, text),
        Purpose::Variety(crop, ask) => variety::read(model, crop, *ask, text),
        Purpose::Crop => crop::read(model, text),
        Purpose::Wish(id) => wish::read(model, *id, text),
        Purpose::Past(place, season) => past::read(model, place, *season, text),
        Purpose::Narrow => narrow::read(model, text),
        Purpose::Question(step) => wizard::read(model, *step, text),
        Purpose::Diary => diary::read(model, text),
        Purpose::Obstacle => obstacle::read(model, text),
        Purpose::Date => time::read(model, text),
        Purpose::Fit(freed) => super::fits::read(model, freed, text),
        Purpose::SaveAs | Purpose::Aside | Purpose::Find | Purpose::Picked => Reading::default(),
    }
}
