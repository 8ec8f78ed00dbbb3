//! Beds drawn to scale with what stands in them, and names that keep out of each other's way.

use super::ground::{GroundBed, GroundBlock, GroundSupport};
use super::ink::Rgb;
use super::page::{Edge, Fill, Outline, Page, Style};
use crate::units::num::real;

/// Millimetres of the ground to points of the page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plot {
    pub(super) left: f64,
    pub(super) top: f64,
    /// The corner of the ground that lies at `left`, `top`.
    pub(super) origin: (f64, f64),
    /// Points a millimetre.
    pub(super) point: f64,
    /// Names in the blocks where they fit; else codes only.
    pub(super) detail: bool,
}

/// Soil.
const SOIL: Rgb = Rgb(0xf1, 0xec, 0xe2);
/// The smallest letters on a plan.
const LEAST: f64 = 3.8;

impl Plot {
    fn bed(&self, bed: &GroundBed) -> Outline {
        let left = self.left + (bed.x - self.origin.0) * self.point;
        let top = self.top + (bed.y - self.origin.1) * self.point;
        Outline { left, top, right: left + bed.across * self.point, bottom: top + bed.down * self.point }
    }
}

/// The part of a bed that is divided into cells: in a round pot of several cells the square inside it.
fn lattice(bed: &GroundBed, at: Outline) -> Outline {
    if !bed.round || bed.grid == (1, 1) {
        return at;
    }
    let inset = at.width() * (1.0 - std::f64::consts::FRAC_1_SQRT_2) / 2.0;
    Outline { left: at.left + inset, top: at.top + inset, right: at.right - inset, bottom: at.bottom - inset }
}

fn part(grid: (u16, u16), at: Outline, from: (u16, u16), size: (u16, u16)) -> Outline {
    let (dy, dx) = (at.height() / f64::from(grid.0.max(1)), at.width() / f64::from(grid.1.max(1)));
    let row = |n: u16| at.top + dy * f64::from(n.min(grid.0));
    let col = |n: u16| at.left + dx * f64::from(n.min(grid.1));
    Outline {
        left: col(from.1),
        top: row(from.0),
        right: col(from.1.saturating_add(size.1)),
        bottom: row(from.0.saturating_add(size.0)),
    }
}

/// Draws the beds. Names go where nothing else is, inside `within`.
pub(super) fn beds(page: &mut Page, plot: &Plot, beds: &[GroundBed], within: Outline) {
    let places: Vec<Outline> = beds.iter().map(|b| plot.bed(b)).collect();
    for (bed, at) in beds.iter().zip(&places) {
        ground(page, bed, *at);
        for block in &bed.blocks {
            shape(page, bed, *at, block);
        }
        let lattice = lattice(bed, *at);
        for support in &bed.supports {
            rail(page, part(bed.grid, lattice, support.at, support.size), support);
        }
    }
    let mut taken: Vec<Outline> = Vec::new();
    for (bed, at) in beds.iter().zip(&places) {
        title(page, bed, *at, &places, within, &mut taken);
    }
    for (bed, at) in beds.iter().zip(&places) {
        for block in &bed.blocks {
            let mates = bed.blocks.iter().any(|b| b.mate && meet(b, block));
            let spot = square(bed, spot(bed, *at, block, mates));
            name(page, plot, spot, block, &mut taken);
        }
    }
}

fn meet(a: &GroundBlock, b: &GroundBlock) -> bool {
    let apart = |a: u16, n: u16, b: u16, m: u16| a.saturating_add(n) <= b || b.saturating_add(m) <= a;
    !apart(a.at.0, a.size.0, b.at.0, b.size.0) && !apart(a.at.1, a.size.1, b.at.1, b.size.1)
}

fn ground(page: &mut Page, bed: &GroundBed, at: Outline) {
    let round = if bed.round { at.width() / 2.0 } else { 1.0 };
    page.pane(at, round, Fill::Flat(SOIL), Edge::solid(Rgb::INK, 0.8));
    let inner = lattice(bed, at);
    let hair = Edge::solid(Rgb::HAIR, 0.3);
    if bed.grid == (1, 1) {
        return;
    }
    for row in 1..bed.grid.0 {
        let y = inner.top + inner.height() * f64::from(row) / f64::from(bed.grid.0);
        page.line((inner.left, y), (inner.right, y), hair);
    }
    for col in 1..bed.grid.1 {
        let x = inner.left + inner.width() * f64::from(col) / f64::from(bed.grid.1);
        page.line((x, inner.top), (x, inner.bottom), hair);
    }
}

/// Where a block lies: a mate along the lower border of its cells, a main planting that has mates above them.
fn spot(bed: &GroundBed, at: Outline, block: &GroundBlock, mates: bool) -> Outline {
    let whole = part(bed.grid, lattice(bed, at), block.at, block.size);
    let split = whole.bottom - whole.height() * 0.34;
    if block.mate {
        Outline { top: split, ..whole }
    } else if mates {
        Outline { bottom: split, ..whole }
    } else {
        whole
    }
}

/// The part of a round pot in which a name may stand: the square inside the circle.
fn square(bed: &GroundBed, at: Outline) -> Outline {
    if !bed.round || bed.grid != (1, 1) {
        return at;
    }
    let inset = at.width() * 0.12;
    Outline { left: at.left + inset, right: at.right - inset, ..at }
}

fn shape(page: &mut Page, bed: &GroundBed, at: Outline, block: &GroundBlock) {
    let whole = spot(bed, at, block, false);
    let inset = (whole.width().min(whole.height()) * 0.05).min(0.9);
    let place = Outline {
        left: whole.left + inset,
        top: whole.top + inset,
        right: whole.right - inset,
        bottom: whole.bottom - inset,
    };
    let round = if bed.round && bed.grid == (1, 1) && !block.mate { place.width() / 2.0 } else { 1.2 };
    let edge = Edge { width: 0.7, ..Edge::solid(block.tint.hue.line(), 0.7) };
    let edge = if block.mate { Edge::dashed(edge.ink, 0.7) } else { edge };
    page.pane(place, round, Fill::Hatch(block.tint), edge);
}

/// A support: a strong line with posts along the longer side of its cells.
fn rail(page: &mut Page, at: Outline, support: &GroundSupport) {
    let level = support.size.1 >= support.size.0;
    let (from, to) = if level {
        ((at.left + 0.8, at.top + 1.4), (at.right - 0.8, at.top + 1.4))
    } else {
        ((at.left + 1.4, at.top + 0.8), (at.left + 1.4, at.bottom - 0.8))
    };
    page.line(from, to, Edge::solid(Rgb::INK, 1.3));
    for end in [from, to] {
        let post = Outline { left: end.0 - 1.4, top: end.1 - 1.4, right: end.0 + 1.4, bottom: end.1 + 1.4 };
        page.pane(post, 1.4, Fill::Flat(Rgb::INK), Edge::NONE);
    }
}

/// Where the baseline of a name begins, by the bed, its width and its size.
type Spot = fn(&Outline, f64, f64) -> (f64, f64);

/// The bed's name above it, below it or beside it, where it meets no bed and no other name; else in its corner.
fn title(
    page: &mut Page,
    bed: &GroundBed,
    at: Outline,
    beds: &[Outline],
    within: Outline,
    taken: &mut Vec<Outline>,
) {
    // Above wherever it can be, so that no name is taken for its neighbour's; then beside, then below.
    let spots: [Spot; 5] = [
        |at, _, _| (at.left, at.top - 2.6),
        |at, w, _| (at.right - w, at.top - 2.6),
        |at, _, size| (at.right + 3.0, f64::midpoint(at.top, at.bottom) + size * 0.3),
        |at, w, size| (at.left - w - 3.0, f64::midpoint(at.top, at.bottom) + size * 0.3),
        |at, _, size| (at.left, at.bottom + size * 0.95),
    ];
    for spot in spots {
        for size in [6.6, 5.6, 4.8] {
            let style = Style::bold(size);
            let w = style.width(&bed.name);
            let (x, y) = spot(&at, w, size);
            let text = Outline { left: x, top: y - size * 0.78, right: x + w, bottom: y + size * 0.26 };
            let clear = beds.iter().chain(taken.iter()).all(|o| !o.meets(&text, 0.0));
            if clear && within.holds(&text, 0.0) {
                page.write(x, y, style, &bed.name);
                taken.push(text);
                return;
            }
        }
    }
    // Inside, on a white ground, smaller if need be.
    let style = Style::bold(6.0);
    if let Some(style) = style.fitted(&bed.name, at.width() - 3.0, LEAST) {
        plate(page, (at.left + 1.5, at.top + style.size + 0.8), style, &bed.name, taken);
    }
}

/// Words on a white ground, unless others stand there: the list has them all.
fn plate(page: &mut Page, at: (f64, f64), style: Style, words: &str, taken: &mut Vec<Outline>) {
    let (x, y) = at;
    let text = Outline {
        left: x - 0.8,
        top: y - style.size * 0.84,
        right: x + style.width(words) + 0.8,
        bottom: y + style.size * 0.28,
    };
    if taken.iter().all(|t| !t.meets(&text, 0.0)) {
        page.pane(text, 1.0, Fill::Flat(Rgb::WHITE), Edge::NONE);
        page.write(x, y, style, words);
        taken.push(text);
    }
}

/// A block's name in as many lines as fit; else its code, smaller if need be; else nothing: the list has it.
fn name(page: &mut Page, plot: &Plot, at: Outline, block: &GroundBlock, taken: &mut Vec<Outline>) {
    let room = (at.width() - 2.6, at.height() - 3.0);
    let words =
        if block.amount.is_empty() { block.name.clone() } else { format!("{} {}", block.name, block.amount) };
    let mut choices: Vec<(Style, Vec<String>)> = Vec::new();
    if plot.detail {
        for size in [7.0, 6.0, 5.2] {
            for words in [&words, &block.name] {
                let style = Style::plain(size);
                let whole = words.split_whitespace().all(|w| style.width(w) * 1.03 <= room.0);
                if whole {
                    choices.push((style, style.lines(words, room.0)));
                }
            }
        }
    }
    if let Some(style) = Style::bold(7.0).fitted(&block.code, room.0.max(0.1), LEAST) {
        choices.push((style, vec![block.code.clone()]));
    }
    for (style, lines) in choices {
        let tall = style.leading() * real(lines.len());
        if tall > room.1 + 1.0 {
            continue;
        }
        let wide = lines.iter().map(|l| style.width(l)).fold(0.0, f64::max);
        let (cx, top) = (f64::midpoint(at.left, at.right), f64::midpoint(at.top, at.bottom) - tall / 2.0);
        let ground = Outline {
            left: cx - wide / 2.0 - 1.2,
            top: top - 0.2,
            right: cx + wide / 2.0 + 1.2,
            bottom: top + tall + 0.2,
        };
        if taken.iter().any(|t| t.meets(&ground, 0.0)) {
            continue;
        }
        page.pane(ground, 1.4, Fill::Flat(Rgb::WHITE), Edge::NONE);
        for (n, line) in lines.iter().enumerate() {
            let y = top + style.leading() * real(n) + style.size * 0.93;
            page.write(cx, y, style.middle(), line);
        }
        taken.push(ground);
        return;
    }
}
