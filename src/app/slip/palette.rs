//! Finding a command by its words.

use super::{Choice, Reading};
use crate::app::command::Command;
use crate::app::fuzzy;
use crate::app::key::names;
use crate::app::keymap::{BINDINGS, Binding, Mode, rows};
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::update::perform;

/// The commands one can choose in the view shown, each once.
fn commands(model: &Model) -> Vec<&'static Binding> {
    let mut seen: Vec<Command> = Vec::new();
    let mut out = Vec::new();
    for binding in rows(Mode::In(model.view)) {
        let trivial = matches!(
            binding.command,
            Command::Cursor(_) | Command::Page(_) | Command::Palette | Command::Back
        );
        if !trivial && !seen.contains(&binding.command) {
            seen.push(binding.command);
            out.push(binding);
        }
    }
    out
}

pub(super) fn read(model: &Model, text: &str) -> Reading {
    let found = fuzzy::ranked(text, commands(model).into_iter(), |b| vec![b.words.to_owned()]);
    let choices = found
        .into_iter()
        .map(|b| {
            let keys = names(b.keys);
            let detail = b.command.hindrance(model).map_or(keys, str::to_owned);
            Choice { label: b.words.to_owned(), detail, fills: b.words.to_owned(), key: b.words.to_owned() }
        })
        .collect();
    Reading::choose(choices)
}

pub(super) fn accept(model: &mut Model, choice: Option<&str>) -> Result<Vec<Effect>, String> {
    let Some(words) = choice else { return Err(String::from("There is no such command.")) };
    let mode = Mode::In(model.view);
    let Some(binding) = rows(mode).chain(BINDINGS).find(|b| b.words == words) else {
        return Err(String::from("There is no such command."));
    };
    if let Some(why) = binding.command.hindrance(model) {
        model.say(Tone::Mind, why);
        return Ok(Vec::new());
    }
    Ok(perform(model, binding.command))
}
