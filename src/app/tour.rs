//! A tour of five steps for those who open the program for the first time. It can be left at any time.

use super::command::{Command, Way};
use super::filling::FillWay;
use super::keymap::{Mode, keys_of};
use super::message::Effect;
use super::model::{Model, Over, Tone};
use super::view::View;
use crate::fill::Effort;
use crate::garden::Kind;

/// A step of the tour: the view it shows, a title, and what there is to know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stop {
    /// The view shown.
    pub view: View,
    /// What it is about.
    pub title: &'static str,
    /// In a few sentences.
    pub words: String,
}

/// Steps there are.
pub const STOPS: usize = 5;

/// A step by its number from 0; the last one beyond. The keys come from the key table.
pub fn stop(n: usize) -> Stop {
    let key = |mode: Mode, command: Command| keys_of(mode, command).unwrap_or_default();
    let every = |command: Command| key(Mode::Every, command);
    match n {
        0 => Stop {
            view: View::Ground,
            title: "the ground",
            words: format!(
                "This is the garden from above, north at the top: boxes, beds and round pots. The arrow keys move the \
                 cursor, and the card at the right says what is under it. {} lays out a new box, {} a new pot; {} \
                 takes one up to move it.",
                key(Mode::In(View::Ground), Command::New(Kind::Box)),
                key(Mode::In(View::Ground), Command::New(Kind::Pot)),
                key(Mode::In(View::Ground), Command::Carry),
            ),
        },
        1 => Stop {
            view: View::Wishes,
            title: "the wishes",
            words: format!(
                "Here you say what you want to eat and cut, how much of it and when. {} changes a line; {} writes a \
                 new one in plain words: lettuce, 3 heads a week, May to October. The small bars show how far each is \
                 met, month by month.",
                key(Mode::In(View::Wishes), Command::Open),
                key(Mode::In(View::Wishes), Command::Wish),
            ),
        },
        2 => Stop {
            view: View::Ground,
            title: "filling the garden",
            words: format!(
                "{} plans the whole year: the wishes are met as far as the ground allows, and none of it lies idle for \
                 long. It is only proposed: {} accepts it, {} drops it. {} plants a crop by hand where the cursor is. Whatever you do, {} takes \
                 it back.",
                every(Command::Fill(FillWay::With(Effort::Usual))),
                every(Command::AcceptAll),
                every(Command::DropOffer),
                key(Mode::In(View::Ground), Command::Plant),
                every(Command::Undo),
            ),
        },
        3 => Stop {
            view: View::Weeks,
            title: "the weeks",
            words: format!(
                "The year runs from left to right, a line for each planting; where the line grows thick it is picked. \
                 The bright column is the week shown: {} and {} step a week in every view, {} goes back to today.",
                every(Command::Weeks(-1)),
                every(Command::Weeks(1)),
                every(Command::Today),
            ),
        },
        _ => Stop {
            view: View::Jobs,
            title: "the jobs, and help",
            words: format!(
                "What there is to do in the week shown, and why now. {} marks a job as done, and later dates follow. \
                 {} saves. {} shows every key, {} finds a command by its words, and {} asks twelve questions to a \
                 garden of your own.",
                key(Mode::In(View::Jobs), Command::Tick),
                every(Command::Save),
                every(Command::Help),
                every(Command::Palette),
                every(Command::NewGarden),
            ),
        },
    }
}

/// Begins at the first step.
pub(super) fn begin(model: &mut Model) -> Vec<Effect> {
    model.carry = None;
    show(model, 0);
    Vec::new()
}

fn show(model: &mut Model, n: usize) {
    model.view = stop(n).view;
    model.note = None;
    model.over = Some(Over::Tour(n));
}

/// A step on or back; after the last one the tour ends.
pub(super) fn step(model: &mut Model, way: Way) -> Vec<Effect> {
    let Some(Over::Tour(n)) = model.over else { return Vec::new() };
    match way {
        Way::Up | Way::Left => show(model, n.saturating_sub(1)),
        Way::Down | Way::Right if n + 1 < STOPS => show(model, n + 1),
        Way::Down | Way::Right => return end(model),
    }
    Vec::new()
}

/// Ends the tour; it is not shown by itself again.
pub(super) fn end(model: &mut Model) -> Vec<Effect> {
    model.over = None;
    model.view = View::Ground;
    let again = keys_of(Mode::Every, Command::Tour).unwrap_or_default();
    model.say(
        Tone::Plain,
        format!("That was the tour: {again} shows it again. Try anything; nothing is saved by itself."),
    );
    vec![Effect::Toured]
}
