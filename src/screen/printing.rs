//! The dialogue of a print: sheets to tick, the paper, the kind of file and its name, and how it goes.

use super::foot;
use super::list;
use super::over::{answers, line, slip, tinted};
use super::pane::{Pane, wrap};
use super::theme::Role;
use crate::app::{PrintField, PrintState, Printing, Tone};
use crate::calendar::day_text;
use crate::paper::{Orientation, Paper};

/// Where the values stand.
const VALUE: i32 = 16;

pub(super) fn draw(pane: &mut Pane<'_>, printing: &Printing) {
    let width = pane.width();
    let fields = Printing::fields();
    let told: Vec<(Role, String)> = told(printing)
        .into_iter()
        .flat_map(|(role, words)| wrap(&words, width - 4).into_iter().map(move |line| (role, line)))
        .collect();
    let asked = matches!(printing.state, PrintState::Asked(_));
    let below = count(told.len()) + i32::from(asked);
    let title = format!(
        "print the season {}, the ground and the jobs from {} on",
        printing.season,
        day_text(printing.week.monday())
    );
    let mut inside = slip(pane, &title, count(fields.len()) + below);
    let rows = (inside.height() - below).max(1);
    for (row, n, field) in list::shown(&fields, printing.at, rows) {
        draw_field(&mut inside, row, printing, *field, n == printing.at);
    }
    for (y, (role, words)) in (rows..).zip(&told) {
        tinted(&mut inside, 2, y, words, *role);
    }
    if asked {
        answers(&mut inside, crate::app::Mode::PrintAsked, rows + count(told.len()));
    }
}

fn count(n: usize) -> i32 {
    i32::try_from(n).unwrap_or(i32::MAX)
}

fn draw_field(inside: &mut Pane<'_>, y: i32, printing: &Printing, field: PrintField, here: bool) {
    if here {
        let pointer = inside.look.glyphs.pointer;
        inside.say(1, y, pointer, Role::Slip);
    }
    let role = if here && printing.state == PrintState::Choosing { Role::Chosen } else { Role::Slip };
    let room = inside.width() - VALUE - 2;
    let (name, value) = match field {
        PrintField::Sheet(sheet) => {
            let tick = if printing.sheets.contains(&sheet) { "[x]" } else { "[ ]" };
            inside.say(3, y, &format!("{tick} {sheet}"), role);
            inside.fit(VALUE, y, sheet.about(), room, Role::SlipQuiet);
            return;
        }
        PrintField::Paper => (
            "paper",
            match printing.paper {
                Paper::A4 => "A4, 210 x 297 mm",
                Paper::Letter => "Letter, 8.5 x 11 in",
            }
            .to_owned(),
        ),
        PrintField::Lies => {
            ("it lies", printing.lies.map_or("as each sheet reads best", Orientation::word).to_owned())
        }
        PrintField::Kind => {
            let (ending, _, about) = printing.kind();
            ("kind", format!("{ending}: {about}"))
        }
        PrintField::File => {
            inside.say(3, y, "file", role);
            if here && printing.state == PrintState::Choosing {
                line(inside, VALUE, y, &printing.file);
            } else {
                inside.fit(VALUE, y, &printing.file.text(), room, Role::Slip);
            }
            return;
        }
    };
    inside.say(3, y, name, role);
    inside.fit(VALUE, y, &value, room, Role::Slip);
}

/// What is said below the lines.
fn told(printing: &Printing) -> Vec<(Role, String)> {
    let words = match &printing.state {
        PrintState::Asked(doubt) => (foot::role(Tone::Mind), doubt.words()),
        PrintState::Running(_, _, 0) => (Role::Accent, String::from("Setting the sheets ...")),
        PrintState::Running(_, done, all) => {
            (Role::Accent, format!("Drawing page {} of {all} ...", (done + 1).min(*all)))
        }
        PrintState::Choosing => match &printing.said {
            Some((tone, words)) => (foot::role(*tone), words.clone()),
            None => return Vec::new(),
        },
    };
    vec![words]
}
