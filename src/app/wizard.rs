//! A new garden by twelve questions, each with a sensible answer to begin with; Esc goes one back.

mod answers;
mod layout;

use super::filling::{self, FillWay};
use super::message::Effect;
use super::model::{Model, Tone};
use super::slip::{self, Choice, Purpose, Reading};
use super::view::View;
use crate::calendar::{Date, Season};
use crate::crop::Book;
use crate::garden::{Kind, PlaceId};
use crate::growth::{Conditions, Risk, windows};
use crate::plan::{Edit, Past, Pattern, Plan, Settings, Wish, WishId};
use crate::site::{SiteSpec, SiteYear, presets};
use crate::units::{Amount, CountWord, Measure};
use answers::{family_stays, kinds, measure, month_day, risk, sizes, standing, sun, volumes};
pub use layout::lay_out;
use std::sync::Arc;

/// A question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// The name of the garden.
    Name,
    /// Units.
    Units,
    /// The nearest climate.
    Climate,
    /// Average last frost.
    LastFrost,
    /// Average first frost.
    FirstFrost,
    /// The risk taken.
    Risk,
    /// Boxes and beds.
    Beds,
    /// Pots.
    Pots,
    /// Hours of sun.
    Sun,
    /// What stands now.
    Standing,
    /// Families of the last years.
    Past,
    /// What is wished for.
    Wishes,
}

impl Step {
    /// Every question in order.
    pub const ALL: [Self; 12] = [
        Self::Name,
        Self::Units,
        Self::Climate,
        Self::LastFrost,
        Self::FirstFrost,
        Self::Risk,
        Self::Beds,
        Self::Pots,
        Self::Sun,
        Self::Standing,
        Self::Past,
        Self::Wishes,
    ];
    /// The question.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Name => "What is the garden called?",
            Self::Units => "Which units do you read? us or metric",
            Self::Climate => "Which of these climates is most like yours?",
            Self::LastFrost => "On which day is your last frost of spring, on average?",
            Self::FirstFrost => "On which day is your first frost of autumn, on average?",
            Self::Risk => "How much frost risk do you take? cautious, usual or bold",
            Self::Beds => "Which beds are there? their sizes with ; between",
            Self::Pots => "Which pots are there? their volumes with ; between",
            Self::Sun => "How many hours of direct sun are there in summer? empty: not known",
            Self::Standing => "What stands there now? such as: garlic in Box 1; kale in Box 2",
            Self::Past => {
                "Where stood nightshades, cabbages, legumes, onions? such as: onions in Box 1 in 2026"
            }
            Self::Wishes => "What do you want to grow? with , between; amounts can be changed later",
        }
    }
    fn at(self) -> usize {
        Self::ALL.iter().position(|s| *s == self).unwrap_or(0)
    }
}

/// The answers so far, one a question.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Wizard {
    answers: Vec<String>,
    /// What the garden is called unless the answer says otherwise.
    name: String,
}

impl Wizard {
    /// Questions about a garden that would be called so.
    pub fn named(name: &str) -> Self {
        Self { answers: Vec::new(), name: name.to_owned() }
    }
    /// Takes an answer; what it comes to is said.
    ///
    /// # Errors
    /// Why it can't be used; the answers stay as they were.
    pub fn take(&mut self, step: Step, text: &str, book: &Book, today: Date) -> Result<String, String> {
        let mut after = self.clone();
        put(&mut after, step, text);
        let words = check(&after, step, book, today)?;
        // A new climate or new units bring other answers to begin with.
        if matches!(step, Step::Units | Step::Climate)
            && after.answers.get(step.at()) != self.answers.get(step.at())
        {
            after.answers.truncate(step.at() + 1);
        }
        *self = after;
        Ok(words)
    }
    fn answer(&self, step: Step) -> &str {
        self.answers.get(step.at()).map_or("", String::as_str)
    }
    fn measure(&self) -> Measure {
        measure(self.answer(Step::Units)).unwrap_or_default()
    }
    /// The site as far as it is told.
    fn site(&self) -> Result<SiteSpec, String> {
        let answer = self.answer(Step::Climate);
        let preset = presets::all()
            .iter()
            .find(|p| p.id == answer || p.name.eq_ignore_ascii_case(answer))
            .map(|p| p.id)
            .or_else(|| presets::nearest(answer))
            .ok_or("Choose one of the climates below.")?;
        let mut spec = SiteSpec::from_preset(preset).map_err(|e| e.to_string())?;
        let own = |step: Step| -> Result<_, String> {
            let text = self.answer(step);
            if text.is_empty() || text == self.usual(step) { Ok(None) } else { month_day(text) }
        };
        spec.last_frost = own(Step::LastFrost)?;
        spec.first_frost = own(Step::FirstFrost)?;
        Ok(spec)
    }
    /// What stands in the line of a question at first.
    pub fn usual(&self, step: Step) -> String {
        let us = self.measure() == Measure::Us;
        let frost = |which: fn(&crate::site::FrostCurves) -> Option<crate::calendar::ClimateDay>| {
            let bare = Self { answers: self.answers.iter().take(3).cloned().collect(), ..Self::default() };
            let year = bare.site().and_then(|s| SiteYear::new(&s).map_err(|e| e.to_string()));
            year.ok()
                .and_then(|y| which(&y.frost_plain(0.0)))
                .map(|d| d.month_day().words())
                .unwrap_or_default()
        };
        match step {
            Step::Name if self.name.is_empty() => String::from("My garden"),
            Step::Name => self.name.clone(),
            Step::Units => String::from("us"),
            Step::Climate => String::from("new-york"),
            Step::LastFrost => frost(|f| f.last.five_in_10),
            Step::FirstFrost => frost(|f| f.first.five_in_10),
            Step::Risk => String::from("usual"),
            Step::Beds => String::from(if us { "2 of 4 x 8 ft" } else { "2 of 120 x 240 cm" }),
            Step::Pots => String::from(if us { "2 of 10 gal" } else { "2 of 38 l" }),
            Step::Sun | Step::Standing | Step::Past => String::new(),
            Step::Wishes => String::from("lettuce, radish, carrot, beet, bean, tomato, basil"),
        }
    }
    /// The garden the answers describe.
    ///
    /// # Errors
    /// In words, where an answer can't be used.
    pub fn plan(&self, book: &Book, today: Date) -> Result<Plan, String> {
        let measure = self.measure();
        let mut settings = Settings::for_measure(measure);
        settings.risk = risk(self.answer(Step::Risk))?;
        let site = self.site()?;
        let year = SiteYear::new(&site).map_err(|e| e.to_string())?;
        let mut plan = Plan::new(self.answer(Step::Name).trim(), site, settings);
        let shapes = sizes(self.answer(Step::Beds), measure)?;
        let pots = volumes(self.answer(Step::Pots), measure)?;
        let mut since = today;
        let mut past = standing(self.answer(Step::Standing), &shapes, &pots, book, today)?;
        past.extend(family_stays(self.answer(Step::Past), &shapes, &pots, book, today)?);
        if let Some(first) = past.iter().map(|(_, _, from, _)| *from).min() {
            since = since.min(first);
        }
        let places: Vec<_> =
            shapes.iter().map(|s| (Kind::Box, *s)).chain(pots.iter().map(|s| (Kind::Pot, *s))).collect();
        for mut place in layout::lay_out(&places, measure, since, |kind| kind == Kind::Pot) {
            place.sun_hours = sun(self.answer(Step::Sun))?;
            plan.apply(&Edit::Place(place.id.clone(), Some(Box::new(place)))).map_err(|e| e.to_string())?;
        }
        plan.record = past
            .into_iter()
            .map(|(place, stood, from, to)| Past { place, block: None, stood, from, to, note: String::new() })
            .collect();
        let season = Season::holding(today, year.season_start_or_january());
        let conditions = plan.conditions(book, &year);
        for crop in kinds(self.answer(Step::Wishes), book)? {
            let id = plan.next_wish();
            plan.wishes.extend(wish(id, &crop, book, &conditions, (measure, season.first())));
        }
        Ok(plan)
    }
}

/// A modest wish for a crop in the weeks in which it can be ripe here; none where it never is.
fn wish(
    id: WishId,
    crop: &crate::crop::CropId,
    book: &Book,
    conditions: &Conditions<'_>,
    (measure, from): (Measure, Date),
) -> Option<Wish> {
    let crop = book.get(crop)?;
    let found = windows(crop, conditions, from);
    let from = found.iter().map(|w| w.ready_first).min()?;
    let to = found.iter().map(|w| w.ready_last).max()?;
    let amount = match crop.harvest.usual {
        Amount::Weight(_) => Amount::grams(if measure == Measure::Us { 453.6 } else { 500.0 }, measure),
        Amount::Count(_, CountWord::Stem) => Amount::count(10.0, CountWord::Stem),
        Amount::Count(_, word) => Amount::count(2.0, word),
    };
    let day = crate::calendar::MonthDay::of;
    Some(Wish {
        id,
        crop: crop.id.clone(),
        amount,
        pattern: Pattern::Even,
        from: day(from),
        to: day(to),
        season: None,
        importance: 3,
        places: Vec::new(),
        note: String::new(),
    })
}

/// Begins with the first question.
pub(super) fn begin(model: &mut Model) -> Vec<Effect> {
    model.wizard = Wizard::default();
    ask(model, Step::Name);
    Vec::new()
}

fn ask(model: &mut Model, step: Step) {
    let given = model.wizard.answers.get(step.at()).cloned();
    let text = given.unwrap_or_else(|| model.wizard.usual(step));
    slip::open(model, Purpose::Question(step), &text);
}

/// The title of a question.
pub(super) fn title(step: Step) -> String {
    format!("{} of {}: {}", step.at() + 1, Step::ALL.len(), step.words())
}

/// What an answer means so far.
pub(super) fn read(model: &Model, step: Step, text: &str) -> Reading {
    let mut wizard = model.wizard.clone();
    put(&mut wizard, step, text);
    let mut reading = match check(&wizard, step, &model.book, model.today) {
        Ok(words) if words.is_empty() => Reading::default(),
        Ok(words) => Reading::say(Tone::Plain, words),
        Err(words) => Reading::say(Tone::Mind, words),
    };
    let choice = |word: &str, detail: &str| Choice {
        label: word.to_owned(),
        detail: detail.to_owned(),
        fills: word.to_owned(),
        key: word.to_owned(),
    };
    reading.choices = match step {
        Step::Units => slip::UNITS.iter().map(|(_, word, detail)| choice(word, detail)).collect(),
        Step::Risk => slip::RISKS.iter().map(|(_, word, detail)| choice(word, detail)).collect(),
        Step::Climate => {
            super::fuzzy::ranked(text, presets::all().iter(), |p| vec![p.id.to_owned(), p.name.to_owned()])
                .into_iter()
                .map(|p| Choice { key: p.id.to_owned(), ..choice(p.id, p.name) })
                .collect()
        }
        Step::Name
        | Step::LastFrost
        | Step::FirstFrost
        | Step::Beds
        | Step::Pots
        | Step::Sun
        | Step::Standing
        | Step::Past
        | Step::Wishes => Vec::new(),
    };
    reading
}

/// What an answer comes to, in words.
fn check(wizard: &Wizard, step: Step, book: &Book, today: Date) -> Result<String, String> {
    let text = wizard.answer(step);
    let (beds, pots) = (
        sizes(wizard.answer(Step::Beds), wizard.measure()),
        volumes(wizard.answer(Step::Pots), wizard.measure()),
    );
    match step {
        Step::Name if text.trim().is_empty() => Err(String::from("A name is wanted.")),
        Step::Name => Ok(String::new()),
        Step::Units => measure(text).map(|_| String::new()),
        Step::Climate => wizard.site().map(|s| s.name),
        Step::LastFrost | Step::FirstFrost => {
            let day = month_day(text)?;
            SiteYear::new(&wizard.site()?).map_err(|e| e.to_string())?;
            Ok(day.map(crate::calendar::MonthDay::words).unwrap_or_default())
        }
        Step::Risk => risk(text).map(|_: Risk| String::new()),
        Step::Beds => beds.map(|b| count(b.len(), "bed")),
        Step::Pots => pots.map(|p| count(p.len(), "pot")),
        Step::Sun => sun(text).map(|_| String::new()),
        Step::Standing => {
            standing(text, &beds?, &pots?, book, today).map(|_| String::from("Not said is unknown."))
        }
        Step::Past => family_stays(text, &beds?, &pots?, book, today)
            .map(|_| String::from("Not said is unknown; unknown is never taken as free.")),
        Step::Wishes => kinds(text, book).map(|k| count(k.len(), "crop")),
    }
}

/// "1 bed", "3 beds".
fn count(n: usize, word: &str) -> String {
    format!("{n} {word}{}", if n == 1 { "" } else { "s" })
}

fn put(wizard: &mut Wizard, step: Step, text: &str) {
    wizard.answers.resize(wizard.answers.len().max(step.at() + 1), String::new());
    text.trim().clone_into(&mut wizard.answers[step.at()]);
}

/// Takes an answer and goes on; after the last one the garden is made and filled.
pub(super) fn accept(
    model: &mut Model,
    step: Step,
    text: &str,
    choice: Option<&str>,
) -> Result<Vec<Effect>, String> {
    // A few letters of a climate are enough: the best one is meant.
    let text = if step == Step::Climate { choice.unwrap_or(text) } else { text };
    let (book, today) = (Arc::clone(&model.book), model.today);
    model.wizard.take(step, text, &book, today)?;
    if let Some(next) = Step::ALL.get(step.at() + 1) {
        ask(model, *next);
        return Ok(Vec::new());
    }
    let plan = model.wizard.plan(&book, today)?;
    Ok(open(model, plan))
}

/// Opens a garden that has no file yet, and fills it.
fn open(model: &mut Model, plan: Plan) -> Vec<Effect> {
    let size = model.size;
    *model = Model::new(plan, Arc::clone(&model.book), None, model.today);
    model.size = size;
    model.view = View::Ground;
    model.new_garden = true;
    let mut effects = vec![Effect::LetGo];
    effects.extend(filling::start(model, FillWay::With(crate::fill::Effort::Usual)));
    effects
}

/// One question back; from the first one the questions are left.
pub(super) fn back(model: &mut Model, step: Step) {
    match step.at().checked_sub(1).and_then(|at| Step::ALL.get(at)) {
        Some(before) => ask(model, *before),
        None => model.say(Tone::Plain, "No new garden was made."),
    }
}

/// Places by the order of the answers: ids and names.
fn place_ids(beds: usize, pots: usize) -> Vec<(PlaceId, String)> {
    let beds = (1..=beds).map(|n| layout::called(Kind::Box, n));
    beds.chain((1..=pots).map(|n| layout::called(Kind::Pot, n))).collect()
}
