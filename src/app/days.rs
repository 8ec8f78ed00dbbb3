//! The year in hand: jobs ticked off, the diary written, a season closed.

use super::message::Effect;
use super::model::{Model, Over, Question, Tone};
use super::slip::{self, Purpose};
use super::update::{commit, sentence};
use super::view::View;
use crate::calendar::{Date, Season};
use crate::check::{Context, rotation_outlook};
use crate::plan::{Cause, DiaryEntry, Edit, Event, Plan, PlantingId};
use crate::units::{Amount, Temperature};
use crate::work::{self, Job, JobKind};

/// Causes of a failure with their words.
pub const CAUSES: [(Cause, &str); 10] = [
    (Cause::NoSprout, "did not sprout"),
    (Cause::Drought, "too dry"),
    (Cause::Wet, "too wet"),
    (Cause::Frost, "frost"),
    (Cause::Heat, "heat"),
    (Cause::Eaten, "eaten by slugs, insects, birds or mammals"),
    (Cause::Disease, "a disease"),
    (Cause::Bolted, "ran to flower"),
    (Cause::Broken, "broken by wind, hail or a fall"),
    (Cause::Other, "something else"),
];

impl Model {
    /// The job the cursor is on.
    pub fn focus_job(&self) -> Option<&Job> {
        self.jobs.get(self.line(View::Jobs))
    }
    /// The planting an entry of the diary would be about.
    pub(super) fn diary_planting(&self) -> Option<PlantingId> {
        match self.view {
            View::Jobs => self.focus_job().and_then(|j| j.planting),
            View::Ground | View::Bed | View::Weeks => self.focus_planting().map(|p| p.id),
            View::Wishes | View::Findings | View::Record | View::Book | View::Needs => None,
        }
    }
    /// Reckons the lists of the view shown where the plan or the week has changed since.
    pub(super) fn reckon_lists(&mut self) {
        let Ok(year) = self.year.clone() else {
            self.jobs.clear();
            self.needs.clear();
            self.returns.clear();
            return;
        };
        if self.view == View::Jobs && self.jobs_for != Some((self.week, self.revision)) {
            let plan = self.shown();
            let jobs = if self.is_this_week() {
                work::due(plan, &self.book, &year, self.today)
            } else {
                work::jobs(plan, &self.book, &year, self.week)
            };
            let line = self.line(View::Jobs).min(jobs.len().saturating_sub(1));
            self.lines.insert(View::Jobs, line);
            self.jobs = jobs;
            self.jobs_for = Some((self.week, self.revision));
        }
        let season = self.season();
        if self.view == View::Needs && self.needs_for != Some((season, self.revision)) {
            let words = work::needs(self.shown(), &self.book, &year, season).words();
            self.needs = words.lines().map(str::to_owned).collect();
            self.needs_for = Some((season, self.revision));
        }
        if matches!(self.view, View::Ground | View::Bed) && self.carry.is_none() {
            if self.light_for != Some((season, self.revision)) {
                self.light.clear();
                self.light_for = Some((season, self.revision));
            }
            if let Some((place, cell)) = self.focus() {
                let key = (place.id.clone(), cell);
                if !self.light.contains_key(&key) {
                    let hours = self.shown().light_at(&self.book, &year, season, place, cell);
                    self.light.insert(key, hours);
                }
            }
        }
        let season = self.record_season();
        if self.view == View::Record && self.returns_for != Some((season, self.revision)) {
            let context = Context::whole(self.shown(), &self.book, &year);
            self.returns = rotation_outlook(&context, season.first(), 4);
            self.returns_for = Some((season, self.revision));
        }
    }
    /// What the diary says of the shown week, the latest last; what was corrected is left out.
    pub fn diary_of_week(&self) -> Vec<&DiaryEntry> {
        let mut out: Vec<&DiaryEntry> = self.plan.told().filter(|e| self.week.holds(e.on)).collect();
        out.sort_by_key(|e| (e.on, e.id));
        out
    }
}

/// The day an entry about the shown week is written for.
fn day(model: &Model, job: Option<&Job>) -> Result<Date, String> {
    if model.week.monday() > model.today {
        return Err(String::from("That week lies ahead: nothing of it has happened yet (t goes to today)."));
    }
    if model.is_this_week() {
        return Ok(model.today);
    }
    Ok(job.map_or_else(|| model.shown_day(), |j| j.best))
}

/// Marks the job at the cursor as done; of a picking it is asked how much.
pub(super) fn tick(model: &mut Model) -> Vec<Effect> {
    let Some(job) = model.focus_job().cloned() else { return Vec::new() };
    if let Err(words) = day(model, Some(&job)) {
        model.say(Tone::Mind, words);
        return Vec::new();
    }
    if job.kind == JobKind::Pick {
        slip::open(model, Purpose::Picked, "");
        return Vec::new();
    }
    let what = job.kind.stage().map_or_else(|| Event::Job(job.kind.word().to_owned()), Event::Done);
    written(model, Some(&job), what, "")
}

/// Puts the job at the cursor off.
pub(super) fn put_off(model: &mut Model) -> Vec<Effect> {
    let Some(job) = model.focus_job().cloned() else { return Vec::new() };
    let Some(stage) = job.kind.stage() else {
        model.say(Tone::Mind, "Nothing hangs on the day of this job: do it when there is time.");
        return Vec::new();
    };
    written(model, Some(&job), Event::NotDone(stage), "")
}

/// What was picked.
pub(super) fn picked(model: &mut Model, text: &str) -> Result<Vec<Effect>, String> {
    let job = model.focus_job().cloned();
    let what = if text.trim().is_empty() {
        Event::Job(JobKind::Pick.word().to_owned())
    } else {
        Event::Picked(text.parse::<Amount>().map_err(|e| sentence(&e.to_string()))?)
    };
    Ok(written(model, job.as_ref(), what, ""))
}

/// What an entry of the diary means: a frost, the soil thermometer, a disease or pest, a failure, or a remark.
pub(super) fn event(model: &Model, text: &str) -> Result<Event, String> {
    let text = text.trim();
    let lower = text.to_lowercase();
    let degrees = |rest: &str| rest.trim().parse::<Temperature>().map_err(|e| sentence(&e.to_string()));
    if lower == "frost" {
        return Ok(Event::Frost(None));
    }
    if let Some(rest) = lower.strip_prefix("frost ")
        && rest.trim().starts_with(|c: char| c.is_ascii_digit() || c == '-')
    {
        return degrees(rest.to_uppercase().as_str()).map(|t| Event::Frost(Some(t)));
    }
    if let Some(rest) = lower.strip_prefix("soil ")
        && rest.trim().starts_with(|c: char| c.is_ascii_digit() || c == '-')
    {
        return degrees(rest.to_uppercase().as_str()).map(Event::SoilTemperature);
    }
    if let Some(trouble) =
        model.book.troubles().find(|t| t.name.to_lowercase() == lower || t.id.to_lowercase() == lower)
    {
        return Ok(Event::Trouble(trouble.id.clone()));
    }
    if let Some(rest) = lower.strip_prefix("failed")
        && let Some((cause, _)) = CAUSES.iter().find(|(_, w)| rest.trim_start_matches([':', ' ']) == *w)
    {
        return Ok(Event::Failed(*cause));
    }
    if text.is_empty() { Err(String::from("Something has to be written.")) } else { Ok(Event::Remark) }
}

/// Writes what was typed into the diary.
pub(super) fn diary(model: &mut Model, text: &str) -> Result<Vec<Effect>, String> {
    let what = event(model, text)?;
    if matches!(what, Event::Failed(_)) && model.diary_planting().is_none() {
        return Err(String::from("Which planting failed? Go to it in its bed first."));
    }
    let words = if what == Event::Remark { text.trim() } else { "" };
    let job = if model.view == View::Jobs { model.focus_job().cloned() } else { None };
    Ok(written(model, job.as_ref(), what, words))
}

/// Writes an entry; dates that follow from it move with it, as one step.
fn written(model: &mut Model, job: Option<&Job>, what: Event, words: &str) -> Vec<Effect> {
    let on = match day(model, job) {
        Ok(on) => on,
        Err(words) => {
            model.say(Tone::Mind, words);
            return Vec::new();
        }
    };
    // The sky and the soil are nobody's own.
    let common = matches!(what, Event::Frost(_) | Event::SoilTemperature(_));
    let planting = model.diary_planting().filter(|_| !common);
    let mut entry = work::entry(&model.plan, planting, on, what);
    words.clone_into(&mut entry.words);
    if entry.place.is_none() && !common {
        entry.place = job.and_then(|j| j.place.clone());
    }
    // Remarks, diseases and failures are of one planting; work and pickings of the whole act.
    let act = match entry.what {
        Event::Done(_) | Event::NotDone(_) | Event::Partly(_) | Event::Job(_) | Event::Picked(_) => {
            job.map_or(&[][..], |j| &j.plantings)
        }
        Event::Failed(_)
        | Event::Frost(_)
        | Event::SoilTemperature(_)
        | Event::Trouble(_)
        | Event::Volunteer(_)
        | Event::Remark => &[],
    };
    match noted(model, &entry, (job.map(|j| j.what.as_str()), act)) {
        Ok((edit, conflicts)) => {
            let effects = commit(model, edit);
            if let Some(conflict) = conflicts.first() {
                model.say(Tone::Mind, sentence(conflict));
            }
            effects
        }
        Err(words) => {
            model.say(Tone::Stop, sentence(&words));
            Vec::new()
        }
    }
}

/// The edit that writes an entry and moves what follows from it; what can't move comes with it.
fn noted(
    model: &Model,
    entry: &DiaryEntry,
    (job, act): (Option<&str>, &[PlantingId]),
) -> Result<(Edit, Vec<String>), String> {
    let year = model.year.as_ref().map_err(Clone::clone)?;
    let happened = happened(&model.plan, entry, job);
    let told = work::tell(&model.plan, &model.book, year, entry, act).map_err(|e| e.to_string())?;
    let words = match told.moved.len() {
        0 => format!("wrote down: {happened}"),
        1 => format!("wrote down: {happened}; 1 planting moves"),
        n => format!("wrote down: {happened}; {n} plantings move"),
    };
    Ok((Edit::Batch(words, vec![told.edit]), told.conflicts))
}

/// What happened, in a few words.
fn happened(plan: &Plan, entry: &DiaryEntry, job: Option<&str>) -> String {
    let name = entry.planting.and_then(|id| plan.planting(id)).map_or("", |p| p.name.as_str());
    let what = event_words(&entry.what);
    match (job, name) {
        (Some(job), _) if matches!(entry.what, Event::Done(_) | Event::Job(_)) => job.to_lowercase(),
        (_, "") => what,
        (_, name) => format!("{name} {what}"),
    }
}

/// An event in a few words.
pub fn event_words(event: &Event) -> String {
    match event {
        Event::Done(stage) => stage.word().to_owned(),
        Event::Partly(stage) => format!("{} in part", stage.word()),
        Event::NotDone(stage) => format!("not {} yet", stage.word()),
        Event::Failed(cause) => {
            let words = CAUSES.iter().find(|(c, _)| c == cause).map_or("", |(_, w)| w);
            format!("failed: {words}")
        }
        Event::Picked(amount) => format!("picked {amount}"),
        Event::Frost(Some(reading)) => format!("frost, {reading}"),
        Event::Frost(None) => String::from("frost"),
        Event::SoilTemperature(reading) => format!("soil {reading}"),
        Event::Trouble(id) => id.clone(),
        Event::Volunteer(crop) => format!("a volunteer: {crop}"),
        Event::Job(word) => word.clone(),
        Event::Remark => String::from("a remark"),
    }
}

/// Asks whether the season of the record's cursor is to be closed.
pub(super) fn ask_close(model: &mut Model) -> Vec<Effect> {
    let season = model.record_season();
    model.over = Some(Over::Ask(Question::Close(season)));
    Vec::new()
}

/// Closes a season.
pub(super) fn close(model: &mut Model, season: Season) -> Vec<Effect> {
    let edit = work::close(&model.plan, season);
    let words = format!("closed the season {season}");
    commit(model, Edit::Batch(words, vec![edit]))
}

/// What a season leaves behind, in words.
pub fn closing_words(model: &Model, season: Season) -> String {
    let Ok(year) = &model.year else { return String::new() };
    work::closing(&model.plan, &model.book, year, season).words(model.plan.settings.measure)
}
