//! A page as a list of things with places, in points from the upper left corner.

use super::font::{self, ASCENT, DESCENT, Face, LEADING};
use super::ink::{Rgb, Tint};
use crate::units::num::real;

/// Which point of a text its place names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}

/// How a text is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    /// The face.
    pub face: Face,
    /// Size in points.
    pub size: f64,
    /// Colour.
    pub ink: Rgb,
    /// What its place means.
    pub anchor: Anchor,
}

impl Style {
    /// Plain text in ink, from the left.
    pub const fn plain(size: f64) -> Self {
        Self { face: Face::Plain, size, ink: Rgb::INK, anchor: Anchor::Start }
    }
    /// Bold text in ink, from the left.
    pub const fn bold(size: f64) -> Self {
        Self { face: Face::Bold, size, ink: Rgb::INK, anchor: Anchor::Start }
    }
    /// The same in soft ink.
    #[must_use]
    pub const fn soft(self) -> Self {
        Self { ink: Rgb::SOFT, ..self }
    }
    /// The same, centred on its place.
    #[must_use]
    pub const fn middle(self) -> Self {
        Self { anchor: Anchor::Middle, ..self }
    }
    /// The same, ending at its place.
    #[must_use]
    pub const fn end(self) -> Self {
        Self { anchor: Anchor::End, ..self }
    }
    /// The same at another size.
    #[must_use]
    pub const fn sized(self, size: f64) -> Self {
        Self { size, ..self }
    }
    /// Width of words in this style, in points.
    pub fn width(self, words: &str) -> f64 {
        font::width(words, self.face, self.size)
    }
    /// Words broken into lines of at most `room` points.
    pub fn lines(self, words: &str, room: f64) -> Vec<String> {
        font::lines(words, self.face, self.size, room)
    }
    /// Distance from one baseline to the next, in points.
    pub fn leading(self) -> f64 {
        self.size * LEADING
    }
    /// The largest size down to `least` at which the words fit the room; `None` if none does.
    pub fn fitted(self, words: &str, room: f64, least: f64) -> Option<Self> {
        let at = self.width(words);
        if at <= room {
            return Some(self);
        }
        let size = self.size * room / at;
        (size >= least).then(|| self.sized(size))
    }
}

/// An upright rectangle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outline {
    /// Left side.
    pub left: f64,
    /// Upper side.
    pub top: f64,
    /// Right side.
    pub right: f64,
    /// Lower side.
    pub bottom: f64,
}

impl Outline {
    /// Whether the two share more than `slack` points both ways.
    pub fn meets(&self, other: &Self, slack: f64) -> bool {
        self.left + slack < other.right
            && other.left + slack < self.right
            && self.top + slack < other.bottom
            && other.top + slack < self.bottom
    }
    /// Whether `other` lies inside, give or take `slack` points.
    pub fn holds(&self, other: &Self, slack: f64) -> bool {
        other.left >= self.left - slack
            && other.right <= self.right + slack
            && other.top >= self.top - slack
            && other.bottom <= self.bottom + slack
    }
    /// Width in points.
    pub fn width(&self) -> f64 {
        self.right - self.left
    }
    /// Height in points.
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }
}

/// One line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Place of the anchor from the left.
    pub x: f64,
    /// Height of the baseline from the top.
    pub y: f64,
    /// How it is set.
    pub style: Style,
    /// The words.
    pub words: String,
}

impl Text {
    /// The box the letters stay in.
    pub fn outline(&self) -> Outline {
        let w = self.style.width(&self.words);
        let left = match self.style.anchor {
            Anchor::Start => self.x,
            Anchor::Middle => self.x - w / 2.0,
            Anchor::End => self.x - w,
        };
        let size = self.style.size;
        Outline { left, top: self.y - ASCENT * size, right: left + w, bottom: self.y + DESCENT * size }
    }
}

/// What fills a shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fill {
    /// Nothing.
    None,
    /// One colour.
    Flat(Rgb),
    /// A pale ground with the lines of the pattern.
    Hatch(Tint),
}

/// The line round a shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Colour.
    pub ink: Rgb,
    /// Thickness in points; 0 draws none.
    pub width: f64,
    /// Dash and gap in points.
    pub dash: Option<(f64, f64)>,
}

impl Edge {
    /// No line.
    pub const NONE: Self = Self::solid(Rgb::INK, 0.0);
    /// A hair line.
    pub const HAIR: Self = Self::solid(Rgb::HAIR, 0.4);

    /// An unbroken line.
    pub const fn solid(ink: Rgb, width: f64) -> Self {
        Self { ink, width, dash: None }
    }
    /// A dashed line.
    pub const fn dashed(ink: Rgb, width: f64) -> Self {
        Self { ink, width, dash: Some((2.0, 1.4)) }
    }
}

/// A filled rectangle.
#[derive(Debug, Clone, PartialEq)]
pub struct Pane {
    /// Its sides.
    pub at: Outline,
    /// Radius of the corners.
    pub round: f64,
    /// Fill.
    pub fill: Fill,
    /// Edge.
    pub edge: Edge,
}

/// A straight line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// From here.
    pub from: (f64, f64),
    /// To there.
    pub to: (f64, f64),
    /// How.
    pub edge: Edge,
}

/// A line through points, closed and filled where asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Poly {
    /// The corners.
    pub points: Vec<(f64, f64)>,
    /// Whether the last is joined to the first.
    pub closed: bool,
    /// Fill.
    pub fill: Fill,
    /// Edge.
    pub edge: Edge,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Text.
    Text(Text),
    /// Rectangle.
    Pane(Pane),
    /// Line.
    Line(Line),
    /// Polygon or polyline.
    Poly(Poly),
}

/// One side of paper. Later items lie over earlier ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Width in points.
    pub width: f64,
    /// Height in points.
    pub height: f64,
    /// White border on every side, in points.
    pub margin: f64,
    /// What the page shows: its bookmark.
    pub title: String,
    /// What lies on it, in order of painting.
    pub items: Vec<Item>,
}

impl Page {
    /// The texts on the page.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.items.iter().filter_map(|i| match i {
            Item::Text(t) => Some(t),
            Item::Pane(_) | Item::Line(_) | Item::Poly(_) => None,
        })
    }

    /// The page inside its margins.
    pub fn inside(&self) -> Outline {
        let m = self.margin;
        Outline { left: m, top: m, right: self.width - m, bottom: self.height - m }
    }

    /// Writes one line of text; empty words write nothing.
    pub fn write(&mut self, x: f64, y: f64, style: Style, words: &str) {
        if !words.trim().is_empty() {
            self.items.push(Item::Text(Text { x, y, style, words: words.trim().to_owned() }));
        }
    }

    /// Writes text wrapped to `room` points from baseline `y` down; the baseline after the last line comes back.
    pub fn wrap(&mut self, x: f64, y: f64, room: f64, style: Style, words: &str) -> f64 {
        let lines = style.lines(words, room);
        for (n, line) in lines.iter().enumerate() {
            self.write(x, y + style.leading() * real(n), style, line);
        }
        y + style.leading() * real(lines.len())
    }

    /// Draws a rectangle.
    pub fn pane(&mut self, at: Outline, round: f64, fill: Fill, edge: Edge) {
        self.items.push(Item::Pane(Pane { at, round, fill, edge }));
    }

    /// Draws a line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), edge: Edge) {
        self.items.push(Item::Line(Line { from, to, edge }));
    }

    /// Draws a closed shape.
    pub fn shape(&mut self, points: Vec<(f64, f64)>, fill: Fill, edge: Edge) {
        self.items.push(Item::Poly(Poly { points, closed: true, fill, edge }));
    }

    /// Draws a line through points.
    pub fn trace(&mut self, points: Vec<(f64, f64)>, edge: Edge) {
        self.items.push(Item::Poly(Poly { points, closed: false, fill: Fill::None, edge }));
    }
}
