//! The bars of the timeline: sorted into lines without overlap, drawn with their marks and names.

use super::axis::Scale;
use super::ink::Rgb;
use super::key::Mark;
use super::page::{Edge, Fill, Outline, Page, Style};
use super::timeline::{Bar, Bed, Kind, Start};
use crate::calendar::{Date, plus};
use crate::units::num::real;

/// Width of the column of cells left of the bars.
pub(super) const CELLS: f64 = 44.0;
/// Height of a lane with its raising line, and of the bar in it.
const LANE: f64 = 14.0;
const BAR: f64 = 9.8;
const WORDS: Style = Style::plain(6.4);
const CODE: Style = Style::bold(6.4);

/// One line of bars that do not overlap, with what stands at its left.
pub(super) struct Track<'a> {
    pub(super) cells: Vec<String>,
    pub(super) bars: Vec<&'a Bar>,
    pub(super) height: f64,
}

/// Sorts the bars of a bed into lines without overlap. A mate stands under the planting it shares cells with.
pub(super) fn tracks<'a>(bed: &'a Bed, scale: &Scale) -> Vec<Track<'a>> {
    let mut out = Vec::new();
    for lane in &bed.lanes {
        let cells = if lane.cells.trim().is_empty() {
            Vec::new()
        } else {
            Style::plain(6.4).lines(&lane.cells, CELLS)
        };
        let mut lines: Vec<Vec<&Bar>> = Vec::new();
        let seen = |b: &&Bar| b.to.is_none_or(|to| to > scale.axis.begin()) && b.from < scale.axis.end();
        for mates in [false, true] {
            let mut bars: Vec<_> =
                lane.bars.iter().filter(seen).filter(|b| (b.kind == Kind::Mate) == mates).collect();
            bars.sort_by_key(|b| (b.from, b.to.is_none(), b.to));
            let base = lines.len();
            for bar in bars {
                let free =
                    |line: &Vec<&Bar>| line.last().is_none_or(|p| end(p, scale) <= scale.x(bar.from) + 0.01);
                match lines.iter_mut().skip(base).find(|l| free(l)) {
                    Some(line) => line.push(bar),
                    None => lines.push(vec![bar]),
                }
            }
        }
        if lines.is_empty() {
            lines.push(Vec::new());
        }
        let wrapped = 3.0 + Style::plain(6.4).leading() * real(cells.len());
        let mut cells = Some(cells);
        for bars in lines {
            let height = if cells.is_some() { LANE.max(wrapped) } else { LANE };
            out.push(Track { cells: cells.take().unwrap_or_default(), bars, height });
        }
    }
    out
}

/// The least a bar may show: its code in small letters beside the mark of its start.
fn least(bar: &Bar) -> f64 {
    CODE.sized(4.0).width(&bar.code) + 8.0
}

/// Where the planting ends on the axis.
fn close(bar: &Bar, scale: &Scale) -> f64 {
    bar.to.map_or(scale.right, |to| scale.x(to))
}

/// Where a bar ends on paper.
fn end(bar: &Bar, scale: &Scale) -> f64 {
    let (a, b) = (scale.x(bar.from), close(bar, scale));
    b.max((a + least(bar)).min(scale.right))
}

/// Draws one line of bars.
pub(super) fn row(page: &mut Page, scale: &Scale, top: f64, bars: &[&Bar]) {
    for bar in bars {
        if let Start::SetOut(Some(sown)) = bar.start
            && !bar.echo
        {
            raising(page, scale, top, bar, sown);
        }
    }
    for (n, bar) in bars.iter().enumerate() {
        if bar.echo {
            echo(page, scale, top + 1.6, bar);
            continue;
        }
        let next = bars.get(n + 1).map_or(scale.right, |b| scale.x(b.from));
        body(page, scale, top + 1.6, bar);
        let clear = label(page, scale, top + 1.6, bar, next);
        if let Some((from, _)) = bar.pick {
            let x = scale.x(from);
            let shown = from >= bar.from.max(scale.axis.begin()) && x > clear + 2.4 && x < close(bar, scale);
            if shown && x + 2.4 < scale.right {
                Mark::Picked.draw(page, x, top + 1.6 + BAR / 2.0, 1.7);
            }
        }
    }
}

/// The thin line of seedlings under cover, below the bars: another crop may still stand in the cells then.
fn raising(page: &mut Page, scale: &Scale, top: f64, bar: &Bar, sown: Date) {
    let y = top + LANE - 1.2;
    let (a, b) = (scale.x(sown), scale.x(bar.from));
    if b - a < 1.0 {
        return;
    }
    page.line((a, y), (b, y), Edge::solid(bar.tint.hue.line(), 1.1));
    page.line((b, y), (b, top + 10.0), Edge::solid(bar.tint.hue.line(), 0.6));
    if sown >= scale.axis.begin() {
        Mark::Raised.draw(page, a + 1.4, y, 1.8);
    }
}

/// The cells of the lane are taken by a planting whose bar stands in another lane: a low, pale bar with its code.
fn echo(page: &mut Page, scale: &Scale, top: f64, bar: &Bar) {
    let (a, b) = (scale.x(bar.from), close(bar, scale).max(scale.x(bar.from) + 1.0));
    let at = Outline { left: a, top: top + 2.2, right: b, bottom: top + BAR - 2.2 };
    page.pane(at, 1.0, Fill::Flat(bar.tint.ground()), Edge::solid(bar.tint.hue.line(), 0.3));
    let style = Style::plain(5.0).soft();
    if style.width(&bar.code) + 4.0 <= b - a {
        page.write(a + 2.0, top + 6.7, style, &bar.code);
    }
}

fn body(page: &mut Page, scale: &Scale, top: f64, bar: &Bar) {
    let (a, b) = (scale.x(bar.from), close(bar, scale));
    let whole = Outline { left: a, top, right: b.max(a + 1.0), bottom: top + BAR };
    page.pane(whole, 1.4, Fill::Hatch(bar.tint), Edge::NONE);
    if let Some((from, to)) = bar.pick {
        let (p, q) = (scale.x(from.max(bar.from)), scale.x(plus(to, 1)).min(b));
        if q > p {
            let at = Outline { left: p, right: q, ..whole };
            page.pane(at, 0.0, Fill::Flat(bar.tint.ripe()), Edge::NONE);
        }
    }
    let ink = bar.tint.hue.line();
    let edge = match bar.kind {
        Kind::Main | Kind::Mate => Edge::solid(ink, 0.7),
        Kind::Catch | Kind::Cover => Edge::dashed(Rgb::INK, 0.7),
    };
    page.pane(whole, 1.4, Fill::None, edge);
    if marked(bar, scale) && a + 6.0 < scale.right {
        mark(bar.start).draw(page, a + 3.4, top + BAR / 2.0, 2.0);
    }
}

/// Whether the sheet shows how the bar began.
fn marked(bar: &Bar, scale: &Scale) -> bool {
    bar.from >= scale.axis.begin() && bar.start != Start::Standing
}

const fn mark(start: Start) -> Mark {
    match start {
        Start::Sown | Start::Standing => Mark::Sown,
        Start::SetOut(_) => Mark::SetOut,
        Start::Planted => Mark::Planted,
    }
}

/// The bar's name: inside where it fits, else beside it, else the code alone, smaller if need be. From where on the
/// bar is free of letters comes back.
fn label(page: &mut Page, scale: &Scale, top: f64, bar: &Bar, next: f64) -> f64 {
    let (a, b) = (scale.x(bar.from), end(bar, scale));
    let base = top + 7.2;
    let left = a + if marked(bar, scale) { 7.2 } else { 2.6 };
    let inside = b - 1.2 - left;
    let full = if bar.amount.is_empty() { bar.name.clone() } else { format!("{} {}", bar.name, bar.amount) };
    let choices = [(full.as_str(), WORDS), (bar.name.as_str(), WORDS), (bar.code.as_str(), CODE)];
    for (words, style) in choices {
        let w = style.width(words);
        if w <= inside {
            plate(page, left, top, w);
            page.write(left, base, style, words);
            return left + w;
        }
        // One point of air on both sides keeps it apart from the next bar.
        if words != bar.name && b + 1.4 + w <= next - 1.0 {
            page.write(b + 1.4, base, style, words);
            return left;
        }
    }
    let room = (b - 0.6 - left).max(CODE.sized(4.0).width(&bar.code).min(scale.right - left));
    if let Some(style) = CODE.fitted(&bar.code, room, 1.0) {
        plate(page, left, top, style.width(&bar.code));
        page.write(left, base - (CODE.size - style.size) / 3.0, style, &bar.code);
        return left + style.width(&bar.code);
    }
    left
}

/// A white ground that keeps letters clear of the hatch.
fn plate(page: &mut Page, left: f64, top: f64, width: f64) {
    let at = Outline { left: left - 0.9, top: top + 1.2, right: left + width + 0.9, bottom: top + BAR - 1.0 };
    page.pane(at, 1.2, Fill::Flat(Rgb::WHITE), Edge::NONE);
}
