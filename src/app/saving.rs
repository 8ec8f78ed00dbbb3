//! Saving, leaving, and taking up what an earlier session left unsaved.

use super::message::Effect;
use super::model::{Model, Over, Question, Tone, site_year};
use super::slip::Purpose;
use super::update::{sentence, typed};
use crate::store::{self, Recovery, Saved, StoreError};
use std::path::PathBuf;

/// Saves to the garden's file, or asks for one.
pub(super) fn save(model: &mut Model) -> Vec<Effect> {
    if model.path.is_some() {
        return written(model, None, store::Over::Never);
    }
    let name = format!("{}.ron", super::printing::stem(model));
    typed(model, Purpose::SaveAs, &name)
}

/// Saves to the file that was typed.
pub(super) fn save_as(model: &mut Model, text: &str) -> Result<Vec<Effect>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Err(String::from("The name of a file is wanted, such as garden.ron."));
    }
    let mut path = PathBuf::from(text);
    if path.extension().is_none() {
        path.set_extension("ron");
    }
    Ok(written(model, Some(path), store::Over::Never))
}

/// Asks for the plan to be written.
pub(super) fn written(model: &Model, to: Option<PathBuf>, over: store::Over) -> Vec<Effect> {
    vec![Effect::Save { to, plan: Box::new(model.plan.clone()), over }]
}

/// The plan was written, or could not be.
pub(super) fn saved(model: &mut Model, done: Result<Saved, StoreError>) -> Vec<Effect> {
    match done {
        Ok(saved) => {
            model.history.mark_saved();
            model.new_garden = false;
            let mut words = format!("Saved to {}.", saved.path.display());
            for more in saved.said {
                words = format!("{words} {}", sentence(&more));
            }
            model.say(Tone::Good, words);
            model.path = Some(saved.path);
            if std::mem::take(&mut model.leaving) { vec![Effect::Quit] } else { Vec::new() }
        }
        Err(error) => {
            model.leaving = false;
            if matches!(error, StoreError::Changed { .. }) {
                model.over = Some(Over::Ask(Question::SaveOver));
            }
            model.say(Tone::Stop, sentence(&error.to_string()));
            Vec::new()
        }
    }
}

/// Leaves, or asks first where something is not saved.
pub(super) fn quit(model: &mut Model) -> Vec<Effect> {
    if model.is_dirty() {
        model.over = Some(Over::Ask(Question::Leave));
        Vec::new()
    } else {
        vec![Effect::Quit]
    }
}

/// Does the edits of an earlier session again, each as a step of its own.
pub(super) fn take_up(model: &mut Model, recovery: Recovery) -> Vec<Effect> {
    let all = recovery.edits.len();
    let mut done = 0;
    for edit in recovery.edits {
        match model.history.commit(&mut model.plan, edit) {
            Ok(_) => done += 1,
            Err(error) => {
                let words = format!("Took up {done} of {all} edits; the next can't be: {error}.");
                model.say(Tone::Mind, words);
                break;
            }
        }
    }
    model.year = site_year(&model.plan);
    model.refresh();
    if done == all {
        let torn = if recovery.torn { " The last one was cut off in writing and is lost." } else { "" };
        let edits = if all == 1 { "edit" } else { "edits" };
        model.say(Tone::Good, format!("Took up {all} {edits}: u takes them back one by one.{torn}"));
    }
    vec![Effect::TakeUp]
}

/// Edits that were not wanted were put aside, or could not be.
pub(super) fn put_aside(model: &mut Model, done: Result<PathBuf, String>) -> Vec<Effect> {
    match done {
        Ok(path) => model.say(Tone::Plain, format!("The edits are kept in {}.", path.display())),
        Err(words) => model.say(Tone::Stop, sentence(&words)),
    }
    Vec::new()
}
