//! Labels for pots and rows, to be cut out.

use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::ink::{Rgb, Tint};
use super::page::{Edge, Fill, Outline, Page, Style};
use crate::units::num::real;

/// One label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// Crop and variety.
    pub name: String,
    /// Botanical name.
    pub botanical: String,
    /// Bed and cells.
    pub place: String,
    /// Dates and spacing, a line each.
    pub lines: Vec<String>,
    /// Two or three letters.
    pub code: String,
    /// Colour and hatch of the family.
    pub tint: Tint,
}

/// A sheet of labels.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Labels {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// The labels.
    pub labels: Vec<Label>,
}

const ACROSS: usize = 3;
/// Least height of a label in points (25 mm).
const LEAST: f64 = 71.0;
const NAME: Style = Style::bold(9.4);
const SMALL: Style = Style::plain(7.0);
const LATIN: Style = Style::plain(6.8).soft();
/// Width of the family's stripe.
const STRIPE: f64 = 9.0;
const PAD: f64 = 6.0;
const RECORD: [&str; 5] = ["crop", "botanical", "place", "code", "lines"];

impl Labels {
    /// Draws the labels, three across, with lines to cut along.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame = Frame {
            imprint,
            orientation: imprint.lies(Orientation::Portrait),
            title: &self.title,
            note: &self.note,
        };
        let mut flow = Flow::new(frame);
        let (left, right) = flow.sides();
        let width = (right - left) / real(ACROSS);
        for row in self.labels.chunks(ACROSS) {
            let height = row.iter().map(|l| l.height(width)).fold(LEAST, f64::max);
            flow.need(height);
            let y = flow.y;
            for (n, label) in row.iter().enumerate() {
                let x = left + width * real(n);
                label.draw(flow.page(), Outline { left: x, top: y, right: x + width, bottom: y + height });
            }
            flow.y += height;
        }
        flow.finish()
    }

    /// The labels in words.
    pub fn grids(&self) -> Vec<Grid> {
        let row = |l: &Label| vec![l.name.clone(), l.botanical.clone(), l.place.clone(), l.lines.join("; ")];
        vec![Grid {
            title: self.title.clone(),
            note: self.note.clone(),
            heads: vec!["Crop", "Botanical name", "Place", "Dates"],
            rows: self.labels.iter().map(row).collect(),
            drawing: Vec::new(),
        }]
    }

    /// The labels for other programs.
    pub fn records(&self) -> Records {
        let row = |l: &Label| {
            vec![l.name.clone(), l.botanical.clone(), l.place.clone(), l.code.clone(), l.lines.join("; ")]
        };
        Records { columns: &RECORD, rows: self.labels.iter().map(row).collect() }
    }
}

impl Label {
    fn words(&self) -> [(Style, &str); 3] {
        [(NAME, self.name.as_str()), (LATIN, self.botanical.as_str()), (SMALL, self.place.as_str())]
    }

    fn parts(&self) -> impl Iterator<Item = (Style, &str)> {
        let given = |(_, words): &(Style, &str)| !words.trim().is_empty();
        self.words().into_iter().chain(self.lines.iter().map(|l| (SMALL, l.as_str()))).filter(given)
    }

    fn height(&self, width: f64) -> f64 {
        let room = width - STRIPE - 3.0 * PAD;
        let tall: f64 = self.parts().map(|(s, w)| s.leading() * real(s.lines(w, room).len())).sum();
        tall + 3.0 * PAD
    }

    fn draw(&self, page: &mut Page, at: Outline) {
        page.pane(at, 0.0, Fill::None, Edge::dashed(Rgb::HAIR, 0.5));
        let stripe = Outline {
            left: at.left + PAD,
            top: at.top + PAD,
            right: at.left + PAD + STRIPE,
            bottom: at.bottom - PAD,
        };
        page.pane(stripe, 1.4, Fill::Hatch(self.tint), Edge::solid(self.tint.hue.line(), 0.6));
        let x = stripe.right + PAD;
        let mut y = at.top + PAD + NAME.size * 0.9;
        for (style, words) in self.parts() {
            y = page.wrap(x, y, at.right - PAD - x, style, words);
        }
    }
}
