//! A planting in the hand of the grower: where it would stand, how many plants, its dates, and what speaks against it.

use super::model::{Model, Tone};
use super::reckon::Met;
use crate::calendar::{Date, Season, Week, day_text, plus};
use crate::check::{Context, Finding, Weight, check};
use crate::crop::{Book, Crop, Start};
use crate::garden::{Block, Layer, Place, capacity, shapes_in};
use crate::growth::{Dates, Outlook, age, outlook};
use crate::plan::{Edit, Plan, Planting, PlantingId, Why, WishId};
use crate::site::SiteYear;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What a planting would bring by weight, and what it would make go away.
type Judged = (Vec<(Weight, String)>, Vec<String>);

/// How far it is known what a planting would bring.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighed {
    /// It was moved since.
    Not,
    /// It is worked out beside the screen.
    Asked,
    /// It is known.
    Known,
}

/// What a planting is weighed against.
#[derive(Clone, Copy)]
struct Ground<'a> {
    plan: &'a Plan,
    book: &'a Book,
    year: &'a SiteYear,
    season: Season,
    findings: &'a [Finding],
    met: &'a BTreeMap<WishId, Met>,
}

/// A planting to be weighed beside the screen, with what it is weighed against.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighing {
    sowing: Sowing,
    plan: Plan,
    book: Arc<Book>,
    year: Arc<SiteYear>,
    season: Season,
    findings: Vec<Finding>,
    met: BTreeMap<WishId, Met>,
}

impl Weighing {
    /// Weighs it.
    pub fn run(mut self) -> Sowing {
        let ground = Ground {
            plan: &self.plan,
            book: &self.book,
            year: &self.year,
            season: self.season,
            findings: &self.findings,
            met: &self.met,
        };
        self.sowing.weigh(ground);
        self.sowing
    }
}

/// A planting being placed.
#[derive(Debug, Clone, PartialEq)]
pub struct Sowing {
    /// As it would stand; its place and block are those under the cursor.
    pub planting: Planting,
    /// Whether it is not in the plan yet.
    pub new: bool,
    /// Rows and columns it takes.
    pub shape: (u16, u16),
    /// The day on which it takes its cells.
    pub day: Date,
    /// What the site's year says to that day; none for a planting that only changes its place.
    pub outlook: Option<Outlook>,
    /// What it would bring that is not there without it: words by weight.
    pub findings: Vec<(Weight, String)>,
    /// What the check says now and would not say any more.
    pub gone: Vec<String>,
    /// How far the wish it would serve is met now, and with it, 0 to 1.
    pub wish: Option<(f64, f64)>,
    /// How far all that is known.
    pub weighed: Weighed,
}

/// How a start is said.
pub fn start_words(start: Start) -> &'static str {
    match start {
        Start::InPlace => "sown in place",
        Start::Raised { .. } => "raised and set out",
        Start::Bought => "bought and set out",
        Start::Piece(piece) => match piece {
            crate::crop::Piece::Set => "planted as sets",
            crate::crop::Piece::Bulb => "planted as bulbs",
            crate::crop::Piece::Clove => "planted as cloves",
            crate::crop::Piece::Tuber => "planted as tubers",
            crate::crop::Piece::Slip => "planted as slips",
            crate::crop::Piece::Crown => "planted as crowns",
        },
    }
}

impl Sowing {
    /// A new planting of a crop, begun in the shown week.
    pub(super) fn new(model: &Model, crop: &Crop, place: &Place) -> Self {
        let start = crop.starts.first().copied().unwrap_or(Start::InPlace);
        let shape = shapes_in(crop, place, model.plan.settings.cell).first().map_or((1, 1), |s| (s.0, s.1));
        let planting = Planting {
            id: model.plan.next_planting(),
            crop: crop.id.clone(),
            name: crop.name.clone(),
            botanical: crop.botanical.clone(),
            family: crop.family.clone(),
            place: place.id.clone(),
            block: Block::cell(0, 0),
            layer: model.layer,
            start,
            plants: 0,
            planned: Dates::default(),
            shift: None,
            real: Dates::default(),
            fixed: true,
            why: Why::Hand,
            failed: None,
            note: String::new(),
        };
        let day = model.shown_day();
        let mut sowing = Self {
            planting,
            new: true,
            shape,
            day,
            outlook: None,
            findings: Vec::new(),
            gone: Vec::new(),
            wish: None,
            weighed: Weighed::Not,
        };
        sowing.dated(model);
        sowing
    }
    /// A planting of the plan taken up.
    pub(super) fn lifted(planting: &Planting) -> Self {
        let shape = (planting.block.rows, planting.block.cols);
        let day = planting.begins().unwrap_or_default();
        let planting = planting.clone();
        Self {
            planting,
            new: false,
            shape,
            day,
            outlook: None,
            findings: Vec::new(),
            gone: Vec::new(),
            wish: None,
            weighed: Weighed::Not,
        }
    }
    /// The dates it has when it takes its cells on its day.
    pub(super) fn dated(&mut self, model: &Model) {
        let (Some(crop), Ok(year)) = (model.book.get(&self.planting.crop), &model.year) else { return };
        let start = self.planting.start;
        let conditions = model.plan.conditions(&model.book, year);
        let outlook = outlook(crop, &conditions, start, plus(self.day, -age(start)));
        self.planting.planned = outlook.schedule.as_ref().map(|s| s.dates).unwrap_or_default();
        self.outlook = Some(outlook);
    }
    /// Sets it to a cell of a place and counts its plants. What it brings with it is weighed at once, or beside the
    /// screen where that is possible.
    pub(super) fn settle(&mut self, model: &Model, place: &Place, cell: (u16, u16)) {
        let side = model.plan.settings.cell;
        let (rows, cols) = place.grid(side);
        let (high, wide) = (self.shape.0.min(rows).max(1), self.shape.1.min(cols).max(1));
        let block =
            Block { row: cell.0.min(rows - high), col: cell.1.min(cols - wide), rows: high, cols: wide };
        if self.planting.place != place.id || self.planting.block != block || self.planting.plants == 0 {
            if let Some(crop) = model.book.get(&self.planting.crop) {
                self.planting.plants = capacity(crop, place, high, wide, side);
            }
            self.planting.place = place.id.clone();
            self.planting.block = block;
        }
        (self.findings, self.gone, self.wish) = (Vec::new(), Vec::new(), None);
        self.weighed = Weighed::Not;
        if !model.beside
            && let Ok(year) = &model.year
        {
            self.weigh(Ground {
                plan: &model.plan,
                book: &model.book,
                year,
                season: model.season(),
                findings: &model.reckoned.findings,
                met: &model.reckoned.met,
            });
        }
    }
    /// What is to be worked out beside the screen where it is not known what it would bring.
    pub(super) fn weighing(&self, model: &Model) -> Option<Weighing> {
        let year = model.year.as_ref().ok().filter(|_| self.weighed == Weighed::Not)?;
        Some(Weighing {
            sowing: self.clone(),
            plan: model.plan.clone(),
            book: Arc::clone(&model.book),
            year: Arc::clone(year),
            season: model.season(),
            findings: model.reckoned.findings.clone(),
            met: model.reckoned.met.clone(),
        })
    }
    fn weigh(&mut self, ground: Ground<'_>) {
        (self.findings, self.gone) = self.judged(ground).unwrap_or_default();
        self.wish = self.served(ground);
        self.weighed = Weighed::Known;
    }
    /// The next shape the crop may take in its place, or the block turned where there is none other.
    pub(super) fn reshape(&mut self, model: &Model) {
        let (Some(crop), Some(place)) =
            (model.book.get(&self.planting.crop), model.plan.place(&self.planting.place))
        else {
            return;
        };
        let shapes: Vec<(u16, u16)> =
            shapes_in(crop, place, model.plan.settings.cell).iter().map(|s| (s.0, s.1)).collect();
        let at = shapes.iter().position(|s| *s == self.shape);
        self.shape = match at {
            Some(at) => shapes[(at + 1) % shapes.len()],
            None => shapes.first().copied().unwrap_or((self.shape.1, self.shape.0)),
        };
    }
    /// The next way of starting the crop.
    pub(super) fn restart(&mut self, model: &Model) {
        let Some(crop) = model.book.get(&self.planting.crop) else { return };
        let at = crop.starts.iter().position(|s| *s == self.planting.start).unwrap_or(0);
        if let Some(start) = crop.starts.get((at + 1) % crop.starts.len().max(1)) {
            self.planting.start = *start;
            self.dated(model);
        }
    }
    /// Main plantings that stand in its way: those that may be taken away, and those that may not.
    pub fn in_the_way<'a>(&self, plan: &'a Plan) -> (Vec<&'a Planting>, Vec<&'a Planting>) {
        plan.plantings
            .iter()
            .filter(|p| p.id != self.planting.id && p.collides(&self.planting))
            .partition(|p| !p.fixed && !p.has_begun())
    }
    /// The edit that puts it into the plan.
    ///
    /// # Errors
    /// Why it can't be put there.
    pub(super) fn edit(&self, plan: &Plan) -> Result<Edit, String> {
        let name = &self.planting.name;
        if self.planting.plants == 0 {
            return Err(format!("{name} does not fit there: not one plant has room."));
        }
        if self.planting.begins().is_none() {
            return Err(self.no_dates(plan));
        }
        let (aside, firm) = self.in_the_way(plan);
        if let Some(firm) = firm.first() {
            let why = if firm.has_begun() { "stands there already" } else { "is fixed there" };
            return Err(format!("{} {why}: take it away first.", firm.name));
        }
        let id: PlantingId = self.planting.id;
        let own = Edit::Planting(id, Some(Box::new(self.planting.clone())));
        if aside.is_empty() {
            return Ok(own);
        }
        let names: Vec<String> = aside.iter().map(|p| p.name.clone()).collect();
        let mut edits: Vec<Edit> = aside.iter().map(|p| Edit::Planting(p.id, None)).collect();
        edits.push(own);
        let place = plan.place(&self.planting.place).map(|p| p.name.clone()).unwrap_or_default();
        let verb = if self.new { "planted" } else { "moved" };
        let words =
            format!("{verb} {name} to {place} {} in place of {}", self.planting.block, names.join(", "));
        Ok(Edit::Batch(words, edits))
    }

    /// Why it has no dates.
    fn no_dates(&self, plan: &Plan) -> String {
        let why = self.outlook.as_ref().and_then(|o| o.against.last());
        let words = why.map_or_else(String::new, |r| r.words(plan.settings.measure));
        format!("{} can't be begun on that day: {words}.", self.planting.name)
    }

    /// The plan with it in its place; none where it can't be put there.
    fn with_it(&self, plan: &Plan) -> Option<Plan> {
        let edit = self.edit(plan).ok()?;
        let mut plan = plan.clone();
        plan.apply(&edit).ok()?;
        Some(plan)
    }

    /// What the check says of the plan with it that it does not say without it, and the other way round.
    fn judged(&self, ground: Ground<'_>) -> Option<Judged> {
        let begins = self.planting.begins()?;
        let plan = self.with_it(ground.plan)?;
        let last = self.planting.ends().unwrap_or_else(|| plus(begins, 365));
        let context = Context::new(&plan, ground.book, ground.year, begins, last);
        let after = check(&context);
        let counts = |f: &&Finding| f.counts() && f.weight != Weight::Note;
        let known = |f: &Finding| ground.findings.iter().any(|old| same(old, f));
        let new =
            after.iter().filter(counts).filter(|f| !known(f)).map(|f| (f.weight, f.words.clone())).collect();
        // Of what is said now only that about itself and about what it displaces is weighed: the rest may lie outside
        // its weeks.
        let (aside, _) = self.in_the_way(ground.plan);
        let own = |f: &&Finding| {
            f.planting.is_some_and(|id| id == self.planting.id || aside.iter().any(|p| p.id == id))
        };
        let stays = |f: &Finding| after.iter().any(|new| new.code == f.code && new.planting == f.planting);
        let gone = ground.findings.iter().filter(counts).filter(own);
        let gone = gone.filter(|f| !stays(f)).map(|f| f.words.clone()).collect();
        Some((new, gone))
    }

    /// How far the wish it would serve is met now, and with it.
    fn served(&self, ground: Ground<'_>) -> Option<(f64, f64)> {
        let crop = ground.book.get(&self.planting.crop)?;
        let wish = ground
            .plan
            .wishes
            .iter()
            .find(|w| (w.crop == crop.id || w.crop == *crop.base()) && ground.met.contains_key(&w.id))?;
        let now = ground.met.get(&wish.id)?.share;
        let plan = self.with_it(ground.plan)?;
        let after = super::reckon::met_of(&plan, ground.book, ground.year, ground.season);
        Some((now, after.get(&wish.id)?.share))
    }

    /// What putting it down here would mean, in words.
    pub(super) fn words(&self, model: &Model) -> Vec<(Tone, String)> {
        let planting = &self.planting;
        let mut out = Vec::new();
        let plants = if planting.plants == 1 { "plant" } else { "plants" };
        let tone = if planting.plants == 0 { Tone::Stop } else { Tone::Plain };
        let place = model.plan.place(&planting.place).map_or("", |p| p.name.as_str());
        out.push((
            tone,
            format!("{}: {} {plants} in {place} {}", planting.name, planting.plants, planting.block),
        ));
        if planting.plants == 0 {
            out.push((Tone::Stop, String::from("not one plant has room there")));
        }
        if planting.layer == Layer::Mate {
            out.push((Tone::Plain, String::from("as a mate of what stands there")));
        }
        out.extend(self.date_words());
        let (aside, firm) = self.in_the_way(&model.plan);
        if !firm.is_empty() {
            out.push((Tone::Stop, format!("in the way: {}", names(&firm))));
        }
        if let Some(outlook) = &self.outlook {
            let tone = if outlook.schedule.is_some() { Tone::Mind } else { Tone::Stop };
            let measure = model.plan.settings.measure;
            out.extend(outlook.against.iter().map(|r| (tone, r.words(measure))));
        }
        if !aside.is_empty() {
            out.push((Tone::Mind, format!("takes the place of {}", names(&aside))));
        }
        if self.weighed != Weighed::Known {
            out.push((Tone::Plain, String::from("what it would bring is being weighed ...")));
        }
        if let Some((now, with)) = self.wish {
            let (now, with) = (now * 100.0, with * 100.0);
            out.push((Tone::Plain, format!("its wish: {now:.0} % met now, {with:.0} % with it")));
        }
        for (weight, words) in &self.findings {
            let tone = if *weight == Weight::Stop { Tone::Stop } else { Tone::Mind };
            out.push((tone, words.clone()));
        }
        for words in &self.gone {
            out.push((Tone::Good, format!("no more: {words}")));
        }
        out.extend(self.late(model));
        if let Some(schedule) = self.outlook.as_ref().and_then(|o| o.schedule.as_ref()) {
            out.extend(schedule.notes.iter().map(|n| (Tone::Plain, n.words())));
        }
        out
    }

    /// A seedling that should have been started before today.
    fn late(&self, model: &Model) -> Option<(Tone, String)> {
        let sown = self.planting.dates().sown?;
        let late = matches!(self.planting.start, Start::Raised { .. })
            && sown < model.today
            && self.planting.real.sown.is_none();
        let words = || format!("its seed had to be started by {}: w takes another start", day_text(sown));
        late.then(|| (Tone::Mind, words()))
    }

    /// How it is begun, picked and cleared, with its spreads.
    fn date_words(&self) -> Vec<(Tone, String)> {
        let dates = self.planting.dates();
        let spread = self.outlook.as_ref().and_then(|o| o.schedule.as_ref());
        let range = |of: fn(&Dates) -> Option<Date>| {
            let (early, late) = (of(&spread?.early)?, of(&spread?.late)?);
            (early != late).then(|| format!(" ({} - {})", day_text(early), day_text(late)))
        };
        let way = start_words(self.planting.start);
        let begun = match (dates.sown, dates.set_out) {
            (Some(sown), Some(out)) => format!("{way}: sown {}, out {}", day_text(sown), day_text(out)),
            (Some(day), None) | (None, Some(day)) => format!("{way} {}", day_text(day)),
            (None, None) => way.to_owned(),
        };
        let mut out = vec![(Tone::Plain, begun)];
        if let Some(first) = dates.first_pick {
            let spread = range(|d| d.first_pick).unwrap_or_default();
            let last = dates.last_pick.map_or_else(String::new, |d| format!(" to {}", day_text(d)));
            out.push((Tone::Plain, format!("picked {}{spread}{last}", day_text(first))));
        }
        if let Some(cleared) = dates.cleared {
            let spread = range(|d| d.cleared).unwrap_or_default();
            out.push((Tone::Plain, format!("cleared {}{spread}", day_text(cleared))));
        }
        out
    }
}

/// Plantings by their names, the same only once, no more than three: "Beet, Kale and 2 more".
fn names(plantings: &[&Planting]) -> String {
    let mut all: Vec<&str> = Vec::new();
    for planting in plantings {
        if !all.contains(&planting.name.as_str()) {
            all.push(&planting.name);
        }
    }
    let more = all.len().saturating_sub(3);
    let shown = all[..all.len().min(3)].join("; ");
    if more == 0 { shown } else { format!("{shown} and {more} more") }
}

/// Whether two findings say the same of the same thing.
fn same(a: &Finding, b: &Finding) -> bool {
    (a.code, &a.place, a.planting, &a.words) == (b.code, &b.place, b.planting, &b.words)
}

/// A planting so many weeks later with its dates computed anew.
///
/// # Errors
/// Why it can't be: it has begun, or it would not ripen.
pub(super) fn shifted(model: &Model, planting: &Planting, weeks: i64) -> Result<Edit, String> {
    if planting.has_begun() {
        return Err(format!("{} has begun already: its past stays.", planting.name));
    }
    let mut sowing = Sowing::lifted(planting);
    sowing.day = plus(sowing.day, 7 * weeks);
    sowing.dated(model);
    if model.book.get(&planting.crop).is_none() {
        return Err(format!("{} is not in the crop book, so its dates can't be computed.", planting.name));
    }
    if sowing.planting.begins().is_none() {
        return Err(sowing.no_dates(&model.plan));
    }
    Ok(Edit::Planting(planting.id, Some(Box::new(sowing.planting))))
}

impl Model {
    /// The week in which a day lies, clamped to what can be shown.
    pub(super) fn show_day(&mut self, day: Date) {
        self.week = Week::of(day);
    }
}
