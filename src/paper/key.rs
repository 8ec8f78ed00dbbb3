//! The key under a chart: marks and families, set as running text.

use std::collections::{BTreeMap, BTreeSet};

use super::ink::{Rgb, Tint};
use super::page::{Edge, Fill, Outline, Page, Style};

/// A small drawn sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mark {
    /// Sown under cover.
    Raised,
    /// Sown in place.
    Sown,
    /// Set out.
    SetOut,
    /// First picking.
    Picked,
    /// A bought plant, bulb or set put in.
    Planted,
}

impl Mark {
    /// Draws the sign round a point; `r` is its half width in points.
    pub(super) fn draw(self, page: &mut Page, x: f64, y: f64, r: f64) {
        let halo = Edge::solid(Rgb::WHITE, 0.6);
        let ink = Fill::Flat(Rgb::INK);
        let disc = Outline { left: x - r, top: y - r, right: x + r, bottom: y + r };
        match self {
            Self::Raised => {
                let small = r * 0.8;
                let at = Outline { left: x - small, top: y - small, right: x + small, bottom: y + small };
                page.pane(at, small, Fill::Flat(Rgb::WHITE), Edge::solid(Rgb::INK, 0.7));
            }
            Self::Sown => page.pane(disc, r, ink, halo),
            Self::SetOut => {
                page.shape(vec![(x - r * 1.15, y + r), (x + r * 1.15, y + r), (x, y - r * 1.1)], ink, halo);
            }
            Self::Picked => page.shape(
                vec![(x, y - r * 1.25), (x + r * 1.25, y), (x, y + r * 1.25), (x - r * 1.25, y)],
                Fill::Flat(Rgb::WHITE),
                Edge::solid(Rgb::INK, 0.7),
            ),
            Self::Planted => page.pane(disc, 0.0, ink, halo),
        }
    }
}

/// A swatch of the key.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Swatch {
    Mark(Mark),
    Fill(Fill, Edge),
    Rule(Edge),
}

/// One thing the key explains: a swatch and words that may break across lines.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    pub(super) swatch: Swatch,
    pub(super) head: String,
    pub(super) words: String,
}

const TEXT: Style = Style::plain(6.6);
const HEAD: Style = Style::bold(6.6);
const ROW: f64 = 9.6;
const SWATCH: f64 = 15.0;
const GAP: f64 = 9.0;

/// A word or swatch with its place in the key: column in points, row in lines.
enum Piece {
    Swatch(Swatch),
    Word(String, Style),
}

fn set(entries: &[Entry], room: f64) -> Vec<(f64, usize, Piece)> {
    let mut out = Vec::new();
    let (mut x, mut row) = (0.0, 0);
    for e in entries {
        let head: Vec<_> = e.head.split_whitespace().map(|w| (w, HEAD)).collect();
        let words = head.into_iter().chain(e.words.split_whitespace().map(|w| (w, TEXT)));
        let mut first = true;
        for (word, style) in words {
            for part in style.lines(word, room - SWATCH) {
                let w = style.width(&part);
                let lead = if first { SWATCH } else { 0.0 };
                if x > 0.0 && x + lead + w > room {
                    x = 0.0;
                    row += 1;
                }
                if first {
                    out.push((x, row, Piece::Swatch(e.swatch)));
                    first = false;
                }
                out.push((x + lead, row, Piece::Word(part, style)));
                x += lead + w + TEXT.size * 0.3;
            }
        }
        x += GAP;
    }
    out
}

/// Height of the key in points.
pub(super) fn height(entries: &[Entry], room: f64) -> f64 {
    let rows = set(entries, room).last().map_or(0, |(_, row, _)| row + 1);
    ROW * crate::units::num::real(rows)
}

/// Draws the key with its upper left corner at a point.
pub(super) fn draw(page: &mut Page, left: f64, top: f64, room: f64, entries: &[Entry]) {
    for (x, row, piece) in set(entries, room) {
        let (x, y) = (left + x, top + ROW * crate::units::num::real(row));
        match piece {
            Piece::Swatch(Swatch::Mark(m)) => m.draw(page, x + 8.0, y + 4.6, 2.2),
            Piece::Swatch(Swatch::Fill(fill, edge)) => {
                let at = Outline { left: x, top: y + 1.2, right: x + 12.0, bottom: y + 8.0 };
                page.pane(at, 1.0, fill, edge);
            }
            Piece::Swatch(Swatch::Rule(edge)) => page.line((x, y + 4.6), (x + 12.0, y + 4.6), edge),
            Piece::Word(words, style) => page.write(x, y + 7.0, style, &words),
        }
    }
}

/// Families seen on a page with the crops of each, for the key.
#[derive(Debug, Clone, Default)]
pub(super) struct Families(BTreeMap<String, Family>);

/// A family's tint, and code and name of its crops.
#[derive(Debug, Clone, Default)]
struct Family {
    tint: Option<Tint>,
    crops: BTreeSet<(String, String)>,
}

impl Families {
    /// Adds a crop: its family, tint, letter code and name.
    pub(super) fn add(&mut self, family: &str, tint: Tint, code: &str, name: &str) {
        let slot = self.0.entry(family.to_owned()).or_default();
        slot.tint = Some(tint);
        slot.crops.insert((code.to_owned(), name.to_owned()));
    }

    /// One entry a family: "Nightshades: PE Pepper, TO Tomato (cherry, paste)".
    pub(super) fn entries(&self) -> Vec<Entry> {
        self.0
            .iter()
            .map(|(family, Family { tint, crops })| {
                let fill = tint.map_or(Fill::None, Fill::Hatch);
                let edge = Edge::solid(tint.map_or(Rgb::SOFT, |t| t.hue.line()), 0.6);
                Entry { swatch: Swatch::Fill(fill, edge), head: family.clone(), words: kinds(crops) }
            })
            .collect()
    }
}

/// Codes and names; the kinds of one crop behind its name.
fn kinds(crops: &BTreeSet<(String, String)>) -> String {
    let mut by_crop: BTreeMap<(&str, &str), Vec<&str>> = BTreeMap::new();
    for (code, name) in crops {
        let (crop, kind) = name.split_once(", ").unwrap_or((name, ""));
        let kinds = by_crop.entry((code, crop)).or_default();
        if !kind.is_empty() {
            kinds.push(kind);
        }
    }
    let words = by_crop.into_iter().map(|((code, crop), kinds)| {
        if kinds.is_empty() {
            format!("{code} {crop}")
        } else {
            format!("{code} {crop} ({})", kinds.join(", "))
        }
    });
    words.collect::<Vec<_>>().join(", ")
}
