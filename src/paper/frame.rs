//! What every sheet has: its size, its head, its foot.

use super::font::Face;
use super::ink::Rgb;
use super::page::{Anchor, Edge, Page, Style};
use crate::units::num::real;

/// The line at the foot of every page.
pub const ADVICE: &str = "General guidance, not engineering, medical or legal advice.";

/// White border in points (14 mm): every common printer reaches this far.
pub(super) const MARGIN: f64 = 39.7;
/// Room the foot takes above the lower margin.
const FOOT: f64 = 18.0;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 x 297 mm (ISO 216).
    A4,
    /// 8.5 x 11 in.
    Letter,
}

/// Which way the paper lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Orientation {
    /// Upright.
    Portrait,
    /// On its side.
    Landscape,
}

impl Orientation {
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Portrait => "portrait",
            Self::Landscape => "landscape",
        }
    }
}

impl Paper {
    /// Width and height in points.
    pub const fn size(self, orientation: Orientation) -> (f64, f64) {
        let (short, long) = match self {
            Self::A4 => (595.28, 841.89),
            Self::Letter => (612.0, 792.0),
        };
        match orientation {
            Orientation::Portrait => (short, long),
            Orientation::Landscape => (long, short),
        }
    }
}

/// What is the same on every page of a print.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Imprint {
    /// Size of the paper.
    pub paper: Paper,
    /// Name of the garden.
    pub garden: String,
    /// Day of printing, as it should read.
    pub printed: String,
    /// Which way every page lies; none: each sheet as it reads best.
    pub lies: Option<Orientation>,
}

impl Imprint {
    /// Which way the pages of a sheet lie that reads best in the way given.
    pub(super) fn lies(&self, best: Orientation) -> Orientation {
        self.lies.unwrap_or(best)
    }
}

/// Title block of one sheet, drawn on each of its pages.
#[derive(Debug)]
pub(super) struct Frame<'a> {
    pub(super) imprint: &'a Imprint,
    pub(super) orientation: Orientation,
    pub(super) title: &'a str,
    /// A sentence or two under the title of the first page.
    pub(super) note: &'a str,
}

const TITLE: Style = Style { face: Face::Title, size: 17.0, ink: Rgb::INK, anchor: Anchor::Start };
const NAME: Style = Style { face: Face::Title, size: 9.0, ink: Rgb::SOFT, anchor: Anchor::End };
const NOTE: Style = Style::plain(8.4).soft();

impl Frame<'_> {
    /// A page with its head; the height at which the content starts comes with it.
    pub(super) fn page(&self, first: bool) -> (Page, f64) {
        let (width, height) = self.imprint.paper.size(self.orientation);
        let mut page =
            Page { width, height, margin: MARGIN, title: self.title.to_owned(), items: Vec::new() };
        let inside = page.inside();
        let names = NAME.lines(&self.imprint.garden, inside.width() * 0.34);
        let room = inside.width() * 0.62;
        let style = if first { TITLE } else { TITLE.sized(12.0) };
        let title = if first { self.title.to_owned() } else { format!("{}, continued", self.title) };
        let base = inside.top + style.size * 0.8;
        let mut low = page.wrap(inside.left, base, room, style, &title) - style.leading();
        for (n, name) in names.iter().enumerate() {
            let y = base + NAME.leading() * real(n);
            page.write(inside.right, y, NAME, name);
            low = low.max(y);
        }
        if first && !self.note.trim().is_empty() {
            low = page.wrap(inside.left, low + 14.0, inside.width(), NOTE, self.note) - NOTE.leading();
        }
        let rule = low + 7.0;
        page.line((inside.left, rule), (inside.right, rule), Edge::solid(Rgb::INK, 0.7));
        (page, rule + 9.0)
    }

    /// How far down content may reach.
    pub(super) fn floor(&self) -> f64 {
        self.imprint.paper.size(self.orientation).1 - MARGIN - FOOT
    }
}

/// Pages of one sheet being filled from the top down.
#[derive(Debug)]
pub(super) struct Flow<'a> {
    frame: Frame<'a>,
    pages: Vec<Page>,
    page: Page,
    /// Where the next thing may start.
    pub(super) y: f64,
    top: f64,
}

impl<'a> Flow<'a> {
    pub(super) fn new(frame: Frame<'a>) -> Self {
        let (page, y) = frame.page(true);
        Self { frame, pages: Vec::new(), page, y, top: y }
    }

    /// The page being filled.
    pub(super) const fn page(&mut self) -> &mut Page {
        &mut self.page
    }

    /// Left and right borders.
    pub(super) fn sides(&self) -> (f64, f64) {
        let i = self.page.inside();
        (i.left, i.right)
    }

    /// Height still free.
    pub(super) fn room(&self) -> f64 {
        self.frame.floor() - self.y
    }

    /// Height of a whole page.
    pub(super) fn whole(&self) -> f64 {
        self.frame.floor() - self.top
    }

    /// Whether nothing stands on this page yet.
    pub(super) fn fresh(&self) -> bool {
        self.y <= self.top
    }

    /// Makes sure that `height` points are free, on a new page if need be; says whether it turned the page.
    pub(super) fn need(&mut self, height: f64) -> bool {
        if height <= self.room() || self.fresh() {
            return false;
        }
        self.turn();
        true
    }

    /// Starts a new page.
    pub(super) fn turn(&mut self) {
        let (page, y) = self.frame.page(false);
        self.pages.push(std::mem::replace(&mut self.page, page));
        self.y = y;
        self.top = y;
    }

    pub(super) fn finish(mut self) -> Vec<Page> {
        self.pages.push(self.page);
        self.pages
    }
}

/// Writes the foot of every page: the advice, the day of printing, the page number.
pub fn number(pages: &mut [Page], imprint: &Imprint) {
    let all = pages.len();
    let style = Style::plain(6.8).soft();
    for (n, page) in pages.iter_mut().enumerate() {
        let i = page.inside();
        page.line((i.left, i.bottom - 12.0), (i.right, i.bottom - 12.0), Edge::HAIR);
        let y = i.bottom - 3.0;
        page.write(i.left, y, style, ADVICE);
        let day = format!("Printed {}", imprint.printed);
        page.write(f64::midpoint(i.left, i.right) + 40.0, y, style.middle(), &day);
        page.write(i.right, y, style.end(), &format!("page {} of {all}", n + 1));
    }
}
