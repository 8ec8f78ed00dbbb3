//! What lies over a view: slips to type on, questions, the list of keys, the keys that may come next.

use super::foot;
use super::pane::{Pane, columns, wrap};
use super::printing;
use super::theme::Role;
use crate::app::{
    Binding, Choice, Group, Line, Mode, Model, Over, Question, Resolution, STOPS, Slip, closing_words,
    keymap, names, tour_stop,
};

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    match &model.over {
        Some(Over::Slip(slip)) => draw_slip(pane, slip),
        Some(Over::Ask(question)) => draw_question(pane, model, question),
        Some(Over::Help(line)) => draw_help(pane, model, *line),
        Some(Over::Tour(n)) => draw_tour(pane, *n),
        Some(Over::Print(print)) => printing::draw(pane, print),
        None => {
            if let Resolution::Wait(rows) = keymap::resolve(model.mode(), &model.pending)
                && !model.pending.is_empty()
            {
                draw_next(pane, model, &rows);
            }
        }
    }
}

/// A slip of so many rows at the foot of the pane; its inside comes back.
pub(super) fn slip<'a>(pane: &'a mut Pane<'_>, title: &str, rows: i32) -> Pane<'a> {
    let (width, height) = (pane.width(), pane.height());
    let rows = rows.clamp(1, (height - 1).max(1));
    pane.rule(0, height - rows - 1, width);
    let shown = format!(" {title} ");
    pane.fit(2, height - rows - 1, &shown, width - 4, Role::Accent);
    let mut inside = pane.part(0, height - rows, width, rows);
    inside.clear(Role::Slip);
    inside
}

fn draw_slip(pane: &mut Pane<'_>, slip_of: &Slip) {
    let glyphs = pane.look.glyphs;
    let width = pane.width();
    let words: Vec<(Role, String)> = slip_of
        .reading
        .words
        .iter()
        .flat_map(|(tone, text)| wrap(text, width - 4).into_iter().map(|line| (foot::role(*tone), line)))
        .collect();
    let count = |n: usize| i32::try_from(n).unwrap_or(i32::MAX);
    let most = (pane.height() / 2).max(3);
    let choices = count(slip_of.reading.choices.len()).min(most);
    let rows = 1 + count(words.len()) + choices;
    let mut inside = slip(pane, &slip_of.title, rows);
    let at = inside.say(1, 0, glyphs.pointer, Role::SlipQuiet) + 1;
    line(&mut inside, at, 0, &slip_of.line);
    let mut y = 1;
    for (role, words) in &words {
        tinted(&mut inside, 3, y, words, *role);
        y += 1;
    }
    draw_choices(&mut inside, y, choices, &slip_of.reading.choices, slip_of.pick);
}

/// A line being typed from a column on, with its cursor; the end of a long one stays in sight.
pub(super) fn line(inside: &mut Pane<'_>, x: i32, y: i32, line: &Line) {
    let width = inside.width();
    let (before, behind) = line.parts();
    let room = (width - x - 2).max(1);
    let mut shown = before;
    while columns(&shown) > room {
        let mut letters = shown.chars();
        letters.next();
        shown = letters.as_str().to_owned();
    }
    let at = inside.say(x, y, &shown, Role::Slip);
    let (under, rest) = match behind.chars().next() {
        Some(first) => (first.to_string(), behind.chars().skip(1).collect::<String>()),
        None => (String::from(" "), String::new()),
    };
    let at = inside.say(at, y, &under, Role::Cursor);
    inside.fit(at, y, &rest, width - at - 1, Role::Slip);
}

/// Words of a role on the ground of a slip.
pub(super) fn tinted(inside: &mut Pane<'_>, x: i32, y: i32, words: &str, role: Role) {
    let style = inside
        .style(Role::Slip)
        .patch(ratatui::style::Style { bg: inside.style(Role::Slip).bg, ..inside.style(role) });
    inside.text(x, y, words, style);
}

fn draw_choices(inside: &mut Pane<'_>, top: i32, rows: i32, choices: &[Choice], pick: usize) {
    let glyphs = inside.look.glyphs;
    let width = inside.width();
    let rows_usize = usize::try_from(rows).unwrap_or(0);
    let first = pick.saturating_sub(rows_usize.saturating_sub(1));
    let wide = choices.iter().map(|c| columns(&c.label)).max().unwrap_or(0).min(width / 2);
    for (y, (n, choice)) in (top..).zip(choices.iter().enumerate().skip(first).take(rows_usize)) {
        let here = n == pick;
        if here {
            inside.say(1, y, glyphs.pointer, Role::Slip);
        }
        let role = if here { Role::Chosen } else { Role::Slip };
        inside.fit(3, y, &choice.label, wide, role);
        inside.fit(3 + wide + 2, y, &choice.detail, width - wide - 6, Role::SlipQuiet);
    }
}

/// A step of the tour at the foot of its view.
fn draw_tour(pane: &mut Pane<'_>, n: usize) {
    let stop = tour_stop(n);
    let lines = wrap(&stop.words, pane.width() - 4);
    let rows = i32::try_from(lines.len()).unwrap_or(3) + 1;
    let title = format!("the tour, {} of {STOPS}: {}", n + 1, stop.title);
    let mut inside = slip(pane, &title, rows);
    for (y, line) in (0..).zip(&lines) {
        inside.say(2, y, line, Role::Slip);
    }
    answers(&mut inside, Mode::Touring, rows - 1);
}

/// The keys one may answer with, each command once.
pub(super) fn answers(inside: &mut Pane<'_>, mode: Mode, y: i32) {
    let mut at = 2;
    let mut seen = Vec::new();
    for binding in keymap::rows(mode).filter(|b| b.group == Group::Here) {
        if seen.contains(&binding.command) {
            continue;
        }
        seen.push(binding.command);
        at = inside.say(at, y, &names(binding.keys), Role::Chosen) + 1;
        at = inside.say(at, y, binding.words, Role::SlipQuiet) + 3;
    }
}

fn draw_question(pane: &mut Pane<'_>, model: &Model, question: &Question) {
    let words = match question {
        Question::Close(season) => {
            let words = closing_words(model, *season);
            let told: Vec<&str> = words.lines().skip(1).map(str::trim).collect();
            let head = format!("Close the season {season}? Its record is frozen, and your wishes go on.");
            std::iter::once(head.as_str()).chain(told).collect::<Vec<_>>().join("\n")
        }
        Question::SaveOver => String::from(
            "Another program wrote to the file since it was opened. Save over it? Its version is kept beside it.",
        ),
        Question::Recover(recovery) => {
            let fits =
                if recovery.fits { "" } else { " The file was changed since, so some may not fit any more." };
            format!(
                "An earlier session ended without saving {}. Take up what was done?{fits}",
                recovery.count_words()
            )
        }
        Question::Leave => String::from("There are changes that are not saved."),
        Question::Retire(id) => {
            let name = model.plan.place(id).map_or_else(|| id.to_string(), |p| p.name.clone());
            format!(
                "{name} has plantings, so it can't be taken away without them. Retire it from this week on? What stood \
                 in it stays in the record."
            )
        }
    };
    let mode = model.mode();
    let lines: Vec<String> = words.lines().flat_map(|line| wrap(line, pane.width() - 4)).collect();
    // Where there is more to tell than room, the answers stay in sight.
    let most = usize::try_from(pane.height() / 2).unwrap_or(1).max(1);
    let lines = if lines.len() > most { lines.get(..most).unwrap_or_default() } else { &lines };
    let rows = i32::try_from(lines.len()).unwrap_or(2) + 1;
    let mut inside = slip(pane, "Before that", rows);
    let mut y = 0;
    for line in lines {
        inside.say(2, y, line, Role::Slip);
        y += 1;
    }
    answers(&mut inside, mode, y);
}

fn draw_next(pane: &mut Pane<'_>, model: &Model, rows: &[&Binding]) {
    let pressed = names(&model.pending);
    let count = i32::try_from(rows.len()).unwrap_or(1);
    let mut inside = slip(pane, &format!("{pressed} and then"), count);
    for (y, binding) in (0..).zip(rows) {
        let rest = names(binding.keys.get(model.pending.len()..).unwrap_or_default());
        let at = inside.say(2, y, &rest, Role::Chosen) + 2;
        let at = inside.say(at, y, binding.words, Role::Slip);
        if let Some(why) = binding.command.hindrance(model) {
            inside.fit(at + 2, y, why, inside.width() - at - 3, Role::SlipQuiet);
        }
    }
}

/// Lines of the list of keys.
fn help_lines(model: &Model) -> Vec<(Role, String, String)> {
    let mode = Mode::In(model.view);
    let mut out = Vec::new();
    for group in Group::ALL {
        let mut seen = Vec::new();
        let mut first = true;
        for binding in keymap::rows(mode).filter(|b| b.group == group && !b.keys.is_empty()) {
            if seen.contains(&binding.command) {
                continue;
            }
            seen.push(binding.command);
            if std::mem::take(&mut first) {
                out.push((Role::Accent, group.words().to_owned(), String::new()));
            }
            let keys: Vec<String> = keymap::rows(mode)
                .filter(|b| b.command == binding.command && !b.keys.is_empty())
                .map(|b| names(b.keys))
                .collect();
            out.push((Role::Plain, keys.join(", "), binding.words.to_owned()));
        }
    }
    out
}

fn draw_help(pane: &mut Pane<'_>, model: &Model, line: usize) {
    let lines = help_lines(model);
    let (width, height) = (pane.width(), pane.height());
    let columns_of = (width / 56).clamp(1, 3);
    let each = width / columns_of;
    let rows = height - 1;
    let mut inside = slip(pane, &format!("every key {}", Mode::In(model.view).words()), rows);
    let per = usize::try_from(rows).unwrap_or(1).max(1);
    let fit = per * usize::try_from(columns_of).unwrap_or(1);
    let first = line.min(lines.len().saturating_sub(fit));
    for (n, (role, keys, words)) in lines.iter().skip(first).take(fit).enumerate() {
        let x = i32::try_from(n / per).unwrap_or(0) * each + 1;
        let y = i32::try_from(n % per).unwrap_or(0);
        if words.is_empty() {
            let style = inside.style(*role).patch(ratatui::style::Style {
                bg: inside.style(Role::Slip).bg,
                ..ratatui::style::Style::new()
            });
            inside.text(x, y, keys, style);
        } else {
            inside.fit(x + 2, y, keys, 12, Role::Chosen);
            inside.fit(x + 15, y, words, each - 16, Role::Slip);
        }
    }
    if lines.len() > fit {
        let more = format!("{} of {}", (first + fit).min(lines.len()), lines.len());
        pane.right(width - 2, 0, &more, Role::Quiet);
    }
}
