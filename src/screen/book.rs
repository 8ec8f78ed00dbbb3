//! The crop book: every crop with its figures, and when it can be started at this site.

use super::cells::family_marks;
use super::hit::Table;
use super::list;
use super::pane::{Pane, columns, wrap};
use super::theme::Role;
use crate::app::{Model, View, start_words};
use crate::calendar::day_text;
use crate::crop::{Crop, page_in};
use crate::growth::windows;

/// Columns below which the page of a crop is not made narrower, only broken.
const LEAST: usize = 48;

/// Columns of the list of crops.
const fn names(width: i32) -> i32 {
    if width >= 110 { 36 } else { 26 }
}

/// Where the crops lie.
pub(super) const fn table(width: i32, height: i32) -> Table {
    Table { top: 1, rows: height - 1, wide: names(width) }
}

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    let found = model.found();
    let wide = names(width);
    let at = model.line(View::Book);
    let fit = if model.narrowed.is_some() { "fit" } else { "crops" };
    let head = if model.find.trim().is_empty() {
        format!("{} {fit}", found.len())
    } else {
        format!("'{}': {} {fit}", model.find.trim(), found.len())
    };
    pane.fit(2, 0, &head, wide - 3, Role::Quiet);
    let mut inside = pane.part(0, 1, wide, height - 1);
    let rows = inside.height();
    for (row, n, crop) in list::shown(&found, at, rows) {
        let (hue, _) = family_marks(model.book.family(&crop.family));
        let style = inside.look.theme.line(hue);
        inside.text(2, row, &crop.code, style);
        let indent = if crop.of.is_some() { 6 } else { 5 };
        inside.fit(indent, row, &crop.name, wide - indent - 1, Role::Plain);
        if n == at {
            list::mark(&mut inside, row);
        }
    }
    pane.edge(wide, 0, height);
    if let (None, Some(fits)) = (found.get(at), &model.narrowed) {
        let width = width - wide - 3;
        for (y, line) in (0..).zip(wrap(&fits.words, width)) {
            pane.fit(wide + 2, y, &line, width, Role::Quiet);
        }
    }
    if let Some(crop) = found.get(at) {
        whole(&mut pane.part(wide + 2, 0, width - wide - 2, height), model, crop);
    }
}

/// The lines about a crop: dates for this site first, then the page of the book.
fn lines(model: &Model, crop: &Crop, width: i32) -> Vec<(Role, String)> {
    let mut out = Vec::new();
    if let Some(fits) = &model.narrowed {
        out.extend(wrap(&fits.words, width).into_iter().map(|line| (Role::Quiet, line)));
    }
    out.push((Role::Title, crop.name.clone()));
    if let Some(dates) = model.narrowed.as_ref().and_then(|fits| fits.dates(&crop.id)) {
        let words = format!("Here: {dates}.");
        out.extend(wrap(&words, width).into_iter().map(|line| (Role::Good, line)));
    }
    if let Some(conditions) = model.conditions() {
        let from = model.season().first();
        let windows = windows(crop, &conditions, from);
        if windows.is_empty() {
            out.push((Role::Mind, String::from("It can't be grown here at the risk you take.")));
        }
        for window in windows {
            let words = format!(
                "{} {} to {}: ripe {} to {}",
                start_words(window.start),
                day_text(window.first),
                day_text(window.last),
                day_text(window.ready_first),
                day_text(window.ready_last)
            );
            out.extend(wrap(&words, width).into_iter().map(|line| (Role::Accent, line)));
        }
    }
    if let Ok(year) = &model.year
        && let Some(own) = model.plan.own_days(&model.book, year).get(&crop.id)
    {
        let words = format!("Days to first picking {}.", own.words());
        out.extend(wrap(&words, width).into_iter().map(|line| (Role::Accent, line)));
    }
    let columns_there = usize::try_from(width).unwrap_or(0).max(LEAST);
    for line in page_in(columns_there, crop, &model.book, model.plan.settings.measure).lines() {
        if columns(line) <= width {
            out.push((Role::Plain, line.to_owned()));
            continue;
        }
        // A long line goes on under its own text.
        let indent = line.chars().take_while(|c| *c == ' ').count();
        let broken = wrap(line, width - i32::try_from(indent).unwrap_or(0));
        out.extend(broken.into_iter().map(|l| (Role::Plain, format!("{}{l}", " ".repeat(indent)))));
    }
    out
}

fn whole(pane: &mut Pane<'_>, model: &Model, crop: &Crop) {
    let (width, height) = (pane.width(), pane.height());
    let lines = lines(model, crop, width - 1);
    let rows = usize::try_from(height).unwrap_or(1);
    let first = model.scroll.min(lines.len().saturating_sub(rows));
    for (y, (role, line)) in (0..).zip(lines.iter().skip(first).take(rows)) {
        pane.fit(0, y, line, width, *role);
    }
}
