//! The timeline drawn with letters, a column a week.

use unicode_width::UnicodeWidthStr as _;

use super::axis::month_name;
use super::timeline::{Bar, Kind, Start, Timeline};
use crate::calendar::Week;

/// Columns for the names of beds and cells.
const LEFT: usize = 24;

/// Lines of the drawing: months, then one line a lane, its crops by their codes.
pub(super) fn chart(line: &Timeline) -> Vec<String> {
    let weeks: Vec<Week> = line.axis.each().collect();
    if weeks.is_empty() {
        return Vec::new();
    }
    let mut out = vec![
        format!("{}{}", " ".repeat(LEFT), months(&weeks)),
        "a code begins a crop; - grows, = is picked, . stands idle, ~ cover crop, : seedlings under cover"
            .to_owned(),
    ];
    for bed in &line.beds {
        let mut name = bed.name.as_str();
        for lane in &bed.lanes {
            for mate in [false, true] {
                let mut bars: Vec<&Bar> =
                    lane.bars.iter().filter(|b| (b.kind == Kind::Mate) == mate).collect();
                if mate && bars.is_empty() {
                    continue;
                }
                bars.sort_by_key(|b| b.from);
                let cells = if mate { "mate" } else { lane.cells.as_str() };
                out.push(format!("{}{}", left(name, cells), row(&weeks, &bars)));
                name = "";
            }
        }
    }
    out
}

/// Bed and cells in exactly `LEFT` columns.
fn left(name: &str, cells: &str) -> String {
    let room = LEFT - 2 - cells.width().min(9);
    let mut o = String::new();
    for c in name.chars() {
        if o.width() + 1 > room {
            break;
        }
        o.push(c);
    }
    let cells: String = cells.chars().take(9).collect();
    let pad = (LEFT - 1).saturating_sub(o.width() + cells.width());
    format!("{o}{}{cells} ", " ".repeat(pad))
}

fn months(weeks: &[Week]) -> String {
    let mut o: Vec<char> = vec![' '; weeks.len()];
    let mut last = "";
    let mut free = 0;
    for (n, week) in weeks.iter().enumerate() {
        // The month of its Thursday, as ISO 8601 gives a week to a year.
        let name = month_name(crate::calendar::plus(week.monday(), 3));
        if name != last && n >= free && n + 3 <= weeks.len() {
            for (slot, c) in o.iter_mut().skip(n).zip(name.chars().take(3)) {
                *slot = c;
            }
            free = n + 4;
            last = name;
        }
    }
    o.into_iter().collect()
}

fn row(weeks: &[Week], bars: &[&Bar]) -> String {
    let mut o = vec!['.'; weeks.len()];
    for bar in bars {
        if let Start::SetOut(Some(sown)) = bar.start {
            for (slot, week) in o.iter_mut().zip(weeks) {
                if week.sunday() >= sown && week.sunday() < bar.from && *slot == '.' {
                    *slot = ':';
                }
            }
        }
    }
    for bar in bars {
        let mut code = bar.code.chars();
        for (slot, week) in o.iter_mut().zip(weeks) {
            let here = week.sunday() >= bar.from && bar.to.is_none_or(|to| week.monday() < to);
            if !here {
                continue;
            }
            let picked = bar.pick.is_some_and(|(a, b)| week.sunday() >= a && week.monday() <= b);
            let grows = if bar.kind == Kind::Cover { '~' } else { '-' };
            *slot = code.next().unwrap_or(if picked { '=' } else { grows });
        }
    }
    o.into_iter().collect()
}
