//! The whole screen: ruler, view, foot, and what lies over them.

use super::pane::{Look, Pane};
use super::theme::Role;
use super::{bed, book, findings, foot, ground, jobs, needs, over, record, ruler, weeks, wishes};
use crate::app::{LEAST, Model, View, is_too_small};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Draws the model.
pub fn view(buffer: &mut Buffer, area: Rect, model: &Model, look: Look) {
    let mut pane = Pane::new(buffer, area, look);
    pane.clear(Role::Plain);
    if is_too_small((area.width, area.height)) {
        too_small(&mut pane, area);
        return;
    }
    let (width, height) = (pane.width(), pane.height());
    ruler::draw(&mut pane.part(0, 0, width, ruler::HEIGHT), model);
    let body = height - ruler::HEIGHT - foot::HEIGHT;
    let mut inside = pane.part(0, ruler::HEIGHT, width, body);
    match model.view {
        View::Ground => ground::draw(&mut inside, model),
        View::Bed => bed::draw(&mut inside, model),
        View::Weeks => weeks::draw(&mut inside, model),
        View::Wishes => wishes::draw(&mut inside, model),
        View::Findings => findings::draw(&mut inside, model),
        View::Record => record::draw(&mut inside, model),
        View::Book => book::draw(&mut inside, model),
        View::Jobs => jobs::draw(&mut inside, model),
        View::Needs => needs::draw(&mut inside, model),
    }
    over::draw(&mut inside, model);
    foot::draw(&mut pane.part(0, height - foot::HEIGHT, width, foot::HEIGHT), model);
}

fn too_small(pane: &mut Pane<'_>, area: Rect) {
    let words = format!(
        "This window has {} columns and {} rows; {} and {} are needed.",
        area.width, area.height, LEAST.0, LEAST.1
    );
    let y = pane.words(0, 0, &words, pane.width(), Role::Plain);
    let words = "Make it larger, or its letters smaller. Nothing is lost, and keys rest until then.";
    pane.words(0, y, words, pane.width(), Role::Quiet);
}
