//! The two or three rows below every view: what was said last, what the keys do here, and the pegs of the views.

use super::pane::{Pane, columns};
use super::theme::Role;
use crate::app::{Command, FillWay, Group, Mode, Model, Tone, View, keymap, names};
use crate::fill::Effort;

/// Rows it takes.
pub(super) const HEIGHT: i32 = 3;

/// The role of a tone.
pub(super) const fn role(tone: Tone) -> Role {
    match tone {
        Tone::Plain => Role::Plain,
        Tone::Good => Role::Good,
        Tone::Mind => Role::Mind,
        Tone::Stop => Role::Stop,
    }
}

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    said(pane, model);
    hints(pane, model);
    pegs(pane, model);
}

fn said(pane: &mut Pane<'_>, model: &Model) {
    let width = pane.width() - 2;
    if let Some(note) = &model.note {
        pane.fit(1, 0, &note.words, width, role(note.tone));
    } else if let Some(run) = &model.run {
        let at = pane.fit(1, 0, &run.words(), width, Role::Accent);
        let words = if run.stopping { "stopping" } else { "f s stops it and keeps the best" };
        pane.fit(at + 3, 0, words, width - at - 3, Role::Quiet);
    } else if let Some(offer) = &model.offer {
        pane.fit(1, 0, &offer.words(), width, Role::Accent);
    } else if model.plan.plantings.is_empty() && !model.plan.places.is_empty() && model.mode().is_view() {
        let key = |c: Command| keymap::keys_of(Mode::In(View::Ground), c).unwrap_or_default();
        let (fill, plant) = (key(Command::Fill(FillWay::With(Effort::Usual))), key(Command::Plant));
        let words =
            format!("Nothing is planted yet: {fill} fills it from the wishes, {plant} plants by hand.");
        pane.fit(1, 0, &words, width, Role::Quiet);
    }
}

/// What the keys do here, from the key table: each command once, the possible ones only, as many as fit.
fn hints(pane: &mut Pane<'_>, model: &Model) {
    let mode = model.mode();
    // Questions and the tour show their own answers.
    if matches!(mode, Mode::Touring | Mode::Asked | Mode::Leaving | Mode::PrintAsked) {
        return;
    }
    let mut at = 1;
    let mut seen: Vec<Command> = Vec::new();
    let mut prefixes = Vec::new();
    let help = keymap::keys_of(mode, Command::Help).map_or(0, |k| columns(&k) + 11);
    let urgent =
        |b: &&crate::app::Binding| model.offer.is_some() && b.group == Group::Fill && b.keys.len() == 1;
    let rows = keymap::rows(mode).filter(urgent).chain(keymap::rows(mode).filter(|b| !urgent(b)));
    for binding in rows {
        // Moving about is learnt in a minute; leaving is said where one is in a view.
        let known = matches!(binding.group, Group::Moving | Group::Views)
            || binding.command == Command::Help
            || (binding.command == Command::Quit && !mode.is_view());
        let Some(first) = binding.keys.first() else { continue };
        if known || seen.contains(&binding.command) || !binding.command.is_possible(model) {
            continue;
        }
        seen.push(binding.command);
        let (keys, words) = if binding.keys.len() > 1 {
            if prefixes.contains(first) {
                continue;
            }
            prefixes.push(*first);
            (first.name(), keymap::prefix_words(mode, *first))
        } else {
            (names(binding.keys), binding.words)
        };
        let wide = columns(&keys) + 1 + columns(words) + 2;
        if at + wide > pane.width() - help {
            continue;
        }
        at = pane.say(at, 1, &keys, Role::Key) + 1;
        at = pane.say(at, 1, words, Role::Quiet) + 2;
    }
    if let Some(key) = keymap::keys_of(mode, Command::Help) {
        let x = pane.width() - help + 1;
        let x = pane.say(x, 1, &key, Role::Key) + 1;
        pane.say(x, 1, "every key", Role::Quiet);
    }
}

/// The pegs with their columns, and the gap between them.
fn row(width: i32) -> (Vec<(i32, String, View)>, i32) {
    let names = View::ALL.iter().enumerate().map(|(n, view)| (format!("{} {}", n + 1, view.word()), *view));
    let names: Vec<(String, View)> = names.collect();
    let total: i32 = names.iter().map(|(n, _)| columns(n)).sum();
    let count = i32::try_from(names.len()).unwrap_or(9);
    let gap = ((width - 2 - total) / count).clamp(1, 4);
    let mut at = 1;
    let mut out = Vec::new();
    for (name, view) in names {
        let wide = columns(&name);
        out.push((at, name, view));
        at += wide + gap;
    }
    (out, gap)
}

/// The view whose peg stands at a column.
pub(super) fn peg_at(width: i32, x: i32) -> Option<View> {
    row(width).0.into_iter().find(|(at, name, _)| (*at..*at + columns(name)).contains(&x)).map(|(_, _, v)| v)
}

/// The views as pegs stuck in a row: the one shown stands out.
fn pegs(pane: &mut Pane<'_>, model: &Model) {
    let (pegs, gap) = row(pane.width());
    for (at, name, view) in pegs {
        let here = view == model.view;
        let role = if here { Role::Cursor } else { Role::Quiet };
        if here && gap > 1 {
            pane.say(at - 1, 2, &format!(" {name} "), role);
        } else {
            pane.say(at, 2, &name, role);
        }
    }
}
