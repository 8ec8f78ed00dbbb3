//! The season timeline: beds and cells down, weeks across, the crop schedules as bars.

use super::axis::{Axis, RULER, Scale};
use super::bars::{CELLS, Track, row, tracks};
use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::ink::{Rgb, Tint};
use super::key::{self, Entry, Families, Mark, Swatch};
use super::page::{Edge, Fill, Page, Style};
use super::words::{iso, span};
use crate::calendar::Date;
use crate::units::num::real;

/// How a planting begins in its cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Start {
    /// Sown in place.
    Sown,
    /// Seedlings set out; raised from this day on, where it is known.
    SetOut(Option<Date>),
    /// A bought plant, bulb, set or tuber put in.
    Planted,
    /// It stood there before the sheet begins.
    Standing,
}

/// What a planting is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Asked for by a wish.
    Main,
    /// Shares the cells of a main planting.
    Mate,
    /// A quick crop in a gap.
    Catch,
    /// A cover crop.
    Cover,
}

/// One planting. Its dates may lie outside the weeks shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// A lasting name, the same in every print of the plan.
    pub id: String,
    /// Crop and variety.
    pub name: String,
    /// Two or three letters.
    pub code: String,
    /// How much: "16", "4 heads".
    pub amount: String,
    /// Family, as readers know it.
    pub family: String,
    /// Colour and hatch of the family.
    pub tint: Tint,
    /// How it begins.
    pub start: Start,
    /// First day in the cells.
    pub from: Date,
    /// First and last day of picking.
    pub pick: Option<(Date, Date)>,
    /// First day on which the cells are free again; none: it stays for years.
    pub to: Option<Date>,
    /// What it is for.
    pub kind: Kind,
    /// It takes cells of this lane, but its bar stands in another lane.
    pub echo: bool,
}

/// Bars that stand in the same cells one after another.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Lane {
    /// The cells: "A1-B2".
    pub cells: String,
    /// The plantings.
    pub bars: Vec<Bar>,
}

/// One bed or pot.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Bed {
    /// Its name.
    pub name: String,
    /// A word about it: size, light.
    pub note: String,
    /// Its lanes.
    pub lanes: Vec<Lane>,
}

/// The season of a garden.
#[derive(Debug, Clone, PartialEq)]
pub struct Timeline {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it: the place, its frosts.
    pub note: String,
    /// The weeks.
    pub axis: Axis,
    /// Hours of daylight by week.
    pub daylength: Vec<f64>,
    /// Chance, 0 to 1, by week, that a night at or below 0 C is still to come (before the warmest day) or has come
    /// already (after it).
    pub frost: Vec<f64>,
    /// Beds and pots.
    pub beds: Vec<Bed>,
}

const BED: f64 = 74.0;
const BAND: f64 = 19.0;
const NAME: Style = Style::bold(7.4);
const SMALL: Style = Style::plain(6.2).soft();

impl Timeline {
    /// Draws the timeline; feet are added by [`super::number`].
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame = Frame {
            imprint,
            orientation: imprint.lies(Orientation::Landscape),
            title: &self.title,
            note: &self.note,
        };
        let mut sheet = Sheet::new(self, Flow::new(frame));
        for bed in &self.beds {
            sheet.bed(bed);
        }
        sheet.close();
        sheet.flow.finish()
    }
}

/// Columns of the plantings as records.
const COLUMNS: [&str; 14] = [
    "id",
    "place",
    "cells",
    "crop",
    "code",
    "family",
    "amount",
    "kind",
    "start",
    "sown",
    "in_place_from",
    "first_pick",
    "last_pick",
    "cleared",
];

impl Kind {
    const fn word(self) -> &'static str {
        match self {
            Self::Main => "main",
            Self::Mate => "mate",
            Self::Catch => "catch crop",
            Self::Cover => "cover crop",
        }
    }
}

impl Start {
    const fn word(self) -> &'static str {
        match self {
            Self::Sown => "sown in place",
            Self::SetOut(_) => "set out",
            Self::Planted => "planted",
            Self::Standing => "standing",
        }
    }
}

impl Bar {
    /// The day of sowing, under cover or in place.
    fn sown(&self) -> Option<Date> {
        match self.start {
            Start::Sown => Some(self.from),
            Start::SetOut(sown) => sown,
            Start::Planted | Start::Standing => None,
        }
    }
}

impl Timeline {
    /// Every bar of the sheet, echoes left out.
    pub fn each_bar(&self) -> impl Iterator<Item = &Bar> {
        self.each().map(|(_, _, bar)| bar)
    }

    fn each(&self) -> impl Iterator<Item = (&Bed, &Lane, &Bar)> {
        self.beds.iter().flat_map(|bed| {
            bed.lanes
                .iter()
                .flat_map(move |lane| lane.bars.iter().filter(|b| !b.echo).map(move |bar| (bed, lane, bar)))
        })
    }

    /// The timeline in words: a drawing of letters, and the plantings with their dates.
    pub fn grids(&self) -> Vec<Grid> {
        let day = |d: Option<Date>| d.map_or_else(String::new, |d| span(d, d));
        let rows = self.each().map(|(bed, lane, bar)| {
            let picked = bar.pick.map_or_else(String::new, |(a, b)| span(a, b));
            let free = bar.to.map_or_else(|| "stays".to_owned(), |d| span(d, d));
            let begins = format!("{} {}", bar.start.word(), span(bar.from, bar.from));
            vec![
                bed.name.clone(),
                lane.cells.clone(),
                bar.name.clone(),
                bar.amount.clone(),
                day(bar.sown()),
                begins,
                picked,
                free,
            ]
        });
        let heads = vec!["Bed", "Cells", "Crop", "Plants", "Sown", "In place", "Picked", "Free from"];
        vec![Grid {
            title: self.title.clone(),
            note: self.note.clone(),
            heads,
            rows: rows.collect(),
            drawing: super::chart::chart(self),
        }]
    }

    /// The plantings for other programs.
    pub fn records(&self) -> Records {
        let rows = self.each().map(|(bed, lane, bar)| {
            vec![
                bar.id.clone(),
                bed.name.clone(),
                lane.cells.clone(),
                bar.name.clone(),
                bar.code.clone(),
                bar.family.clone(),
                bar.amount.clone(),
                bar.kind.word().to_owned(),
                bar.start.word().to_owned(),
                iso(bar.sown()),
                iso(Some(bar.from)),
                iso(bar.pick.map(|p| p.0)),
                iso(bar.pick.map(|p| p.1)),
                iso(bar.to),
            ]
        });
        Records { columns: &COLUMNS, rows: rows.collect() }
    }
}

/// The page being filled. Ground and ruler are drawn when a page is full, since only then their height is known; they
/// go in front of the bars in the order of painting.
struct Sheet<'a> {
    line: &'a Timeline,
    flow: Flow<'a>,
    /// Index of the first thing on the page that lies over the months' ground.
    over: usize,
    top: f64,
    families: Families,
    covers: bool,
    echoes: bool,
}

impl<'a> Sheet<'a> {
    fn new(line: &'a Timeline, flow: Flow<'a>) -> Self {
        let mut sheet = Self {
            line,
            flow,
            over: 0,
            top: 0.0,
            families: Families::default(),
            covers: false,
            echoes: false,
        };
        sheet.open();
        sheet
    }

    fn scale(&self) -> Scale {
        let (left, right) = self.flow.sides();
        Scale { axis: self.line.axis, left: left + BED + CELLS + 4.0, right }
    }

    fn open(&mut self) {
        self.over = self.flow.page().items.len();
        self.top = self.flow.y;
        self.families = Families::default();
        self.flow.y += RULER;
        self.bands();
        self.flow.y += 3.0;
    }

    /// Ruler, months and key of the page that is now full.
    fn close(&mut self) {
        let (scale, low) = (self.scale(), self.flow.y);
        let (left, right) = self.flow.sides();
        let (top, over) = (self.top, self.over);
        let page = self.flow.page();
        let front = page.items.split_off(over);
        scale.draw(page, top, low);
        page.items.extend(front);
        page.line((left, low), (right, low), Edge::solid(Rgb::SOFT, 0.5));
        let entries = self.entries(&self.families);
        key::draw(self.flow.page(), left, low + 5.0, right - left, &entries);
    }

    fn turn(&mut self) {
        self.close();
        self.flow.turn();
        self.open();
    }

    fn entries(&self, families: &Families) -> Vec<Entry> {
        let entry = |swatch, words: &str| Entry { swatch, head: String::new(), words: words.to_owned() };
        let grey = Edge::solid(Rgb::SOFT, 0.6);
        let mut out = vec![
            entry(Swatch::Mark(Mark::Raised), "sown under cover"),
            entry(Swatch::Mark(Mark::SetOut), "set out"),
            entry(Swatch::Mark(Mark::Sown), "sown in place"),
            entry(Swatch::Mark(Mark::Planted), "planted"),
            entry(Swatch::Mark(Mark::Picked), "first picking"),
            entry(Swatch::Fill(Fill::Flat(Rgb::SOFT.thin(130)), grey), "picking"),
        ];
        if self.covers {
            let edge = Edge::dashed(Rgb::INK, 0.6);
            out.push(entry(Swatch::Fill(Fill::None, edge), "catch or cover crop"));
        }
        if self.echoes {
            let pale = Fill::Flat(Rgb::SOFT.thin(40));
            out.push(entry(
                Swatch::Fill(pale, Edge::solid(Rgb::SOFT, 0.3)),
                "taken by a planting named in another line",
            ));
        }
        out.extend(families.entries());
        out
    }

    /// Daylength and frost above the bars.
    fn bands(&mut self) {
        let scale = self.scale();
        let left = self.flow.sides().0;
        let line = self.line;
        if !line.daylength.is_empty() {
            let y = self.flow.y;
            let longest = line.daylength.iter().copied().fold(12.0, f64::max).ceil();
            let shortest = line.daylength.iter().copied().fold(12.0, f64::min).floor();
            let span = (longest - shortest).max(1.0);
            let part: Vec<_> = line.daylength.iter().map(|h| (h - shortest) / span).collect();
            let hue = super::ink::Hue::Orange.rgb();
            area(self.flow.page(), &scale, y, &part, hue);
            let words = format!("{shortest:.0} to {longest:.0} hours");
            self.label(left, y, "Daylength", &words);
            // Below ten hours most crops stand still: common practice.
            if shortest < 10.0 && longest > 10.0 {
                let at = y + BAND - (BAND - 4.0) * (10.0 - shortest) / span;
                self.level(&scale, at, "10 h");
            }
            self.flow.y += BAND;
        }
        if !line.frost.is_empty() {
            let y = self.flow.y;
            area(self.flow.page(), &scale, y, &line.frost, super::ink::Hue::Sky.line());
            self.label(left, y, "Frost", "chance at 0 \u{b0}C");
            self.level(&scale, y + BAND - (BAND - 4.0) * 0.5, "1 in 2");
            self.flow.y += BAND;
        }
    }

    fn label(&mut self, left: f64, y: f64, head: &str, words: &str) {
        self.flow.page().write(left, y + 9.0, NAME, head);
        self.flow.page().write(left, y + 16.6, SMALL, words);
    }

    fn level(&mut self, scale: &Scale, y: f64, words: &str) {
        self.flow.page().line((scale.left, y), (scale.right, y), Edge::dashed(Rgb::SOFT, 0.3));
        self.flow.page().write(scale.left - 3.0, y + 2.0, Style::plain(5.2).soft().end(), words);
    }

    fn bed(&mut self, bed: &'a Bed) {
        let tracks = tracks(bed, &self.scale());
        let names = NAME.lines(&bed.name, BED);
        let notes = if bed.note.trim().is_empty() { Vec::new() } else { SMALL.lines(&bed.note, BED) };
        let head = 3.0 + NAME.leading() * real(names.len()) + SMALL.leading() * real(notes.len());
        let (mut at, mut first) = (0, true);
        while first || at < tracks.len() {
            let mut end = at;
            let mut height = 2.0;
            let mut seen = self.families.clone();
            while let Some(track) = tracks.get(end) {
                let mut with = seen.clone();
                track.bars.iter().for_each(|b| with.add(&b.family, b.tint, &b.code, &b.name));
                let first = end == at && self.bare();
                if !first && !self.fits((height + track.height).max(head), &with) {
                    break;
                }
                seen = with;
                height += track.height;
                end += 1;
            }
            let height = height.max(head);
            // A bed that is only begun here needs at least two lanes on the page, or all it has.
            let stub = end < tracks.len() && end < at + 2;
            if (stub || !self.fits(height, &seen)) && !self.bare() {
                self.turn();
                continue;
            }
            let part = tracks.get(at..end).unwrap_or_default();
            self.block(&names, &notes, part, height);
            self.families = seen;
            at = end;
            first = false;
        }
    }

    /// Whether no bed stands on this page yet.
    fn bare(&self) -> bool {
        let bands = [&self.line.daylength, &self.line.frost].iter().filter(|b| !b.is_empty()).count();
        self.flow.y <= self.top + RULER + 3.0 + BAND * real(bands) + 0.01
    }

    fn fits(&self, height: f64, families: &Families) -> bool {
        let (left, right) = self.flow.sides();
        let key = key::height(&self.entries(families), right - left) + 6.0;
        height + key <= self.flow.room()
    }

    /// One bed, or the part of it that goes on this page.
    fn block(&mut self, names: &[String], notes: &[String], tracks: &[Track<'a>], height: f64) {
        let (left, right) = self.flow.sides();
        let (scale, y) = (self.scale(), self.flow.y);
        self.covers |=
            tracks.iter().flat_map(|t| &t.bars).any(|b| matches!(b.kind, Kind::Catch | Kind::Cover));
        let page = self.flow.page();
        let mut base = y + 8.6;
        for name in names {
            page.write(left, base, NAME, name);
            base += NAME.leading();
        }
        for note in notes {
            page.write(left, base - 1.2, SMALL, note);
            base += SMALL.leading();
        }
        let mut top = y + 1.0;
        for (n, track) in tracks.iter().enumerate() {
            if n > 0 {
                page.line((left + BED + 2.0, top), (right, top), Edge::solid(Rgb::HAIR, 0.2));
            }
            for (k, words) in track.cells.iter().enumerate() {
                let style = Style::plain(6.4).end();
                page.write(left + BED + CELLS, top + 7.6 + style.leading() * real(k), style, words);
            }
            row(page, &scale, top, &track.bars);
            top += track.height;
        }
        self.flow.y += height;
        let low = self.flow.y;
        self.flow.page().line((left, low), (right, low), Edge::HAIR);
    }
}

/// A curve over the weeks, filled down to the foot of its band. Parts are 0 to 1.
fn area(page: &mut Page, scale: &Scale, y: f64, parts: &[f64], hue: Rgb) {
    let low = y + BAND;
    let spot = |n: usize, part: f64| {
        let x = scale.left + scale.week() * (real(n) + 0.5);
        (x.min(scale.right), low - (BAND - 4.0) * part.clamp(0.0, 1.0))
    };
    let mut curve: Vec<_> =
        parts.iter().take(scale.axis.weeks).enumerate().map(|(n, p)| spot(n, *p)).collect();
    if let (Some(&(_, a)), Some(&(_, b))) = (curve.first(), curve.last()) {
        curve.insert(0, (scale.left, a));
        curve.push((scale.right, b));
    }
    let mut ground = curve.clone();
    ground.push((scale.right, low));
    ground.insert(0, (scale.left, low));
    page.shape(ground, Fill::Flat(hue.thin(54)), Edge::NONE);
    page.trace(curve, Edge::solid(hue, 0.8));
    page.line((scale.left, low), (scale.right, low), Edge::HAIR);
}
