//! The season timeline: beds and cells down, weeks across, the crop schedules as bars.

use super::axis::{Axis, RULER, Scale};
use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::ink::{Rgb, Tint};
use super::key::{self, Entry, Families, Mark, Swatch};
use super::page::{Edge, Fill, Outline, Page, Style};
use super::words::{iso, span};
use crate::calendar::{Date, plus};
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
const CELLS: f64 = 44.0;
const BAND: f64 = 19.0;
/// Height of a lane with its raising line, and of the bar in it.
const LANE: f64 = 14.0;
const BAR: f64 = 9.8;
const NAME: Style = Style::bold(7.4);
const SMALL: Style = Style::plain(6.2).soft();
const WORDS: Style = Style::plain(6.4);
const CODE: Style = Style::bold(6.4);

/// One line of bars that do not overlap, with what stands at its left.
struct Track<'a> {
    cells: Vec<String>,
    bars: Vec<&'a Bar>,
    height: f64,
}

impl Timeline {
    /// Draws the timeline; feet are added by [`super::number`].
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame =
            Frame { imprint, orientation: Orientation::Landscape, title: &self.title, note: &self.note };
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
    /// Every bar of the sheet.
    pub fn each_bar(&self) -> impl Iterator<Item = &Bar> {
        self.each().map(|(_, _, bar)| bar)
    }

    fn each(&self) -> impl Iterator<Item = (&Bed, &Lane, &Bar)> {
        self.beds.iter().flat_map(|bed| {
            bed.lanes.iter().flat_map(move |lane| lane.bars.iter().map(move |bar| (bed, lane, bar)))
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
}

impl<'a> Sheet<'a> {
    fn new(line: &'a Timeline, flow: Flow<'a>) -> Self {
        let mut sheet = Self { line, flow, over: 0, top: 0.0, families: Families::default(), covers: false };
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
        self.covers = false;
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

/// Sorts the bars of a bed into lines without overlap. A mate stands under the planting it shares cells with.
fn tracks<'a>(bed: &'a Bed, scale: &Scale) -> Vec<Track<'a>> {
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
fn row(page: &mut Page, scale: &Scale, top: f64, bars: &[&Bar]) {
    for bar in bars {
        if let Start::SetOut(Some(sown)) = bar.start {
            raising(page, scale, top, bar, sown);
        }
    }
    for (n, bar) in bars.iter().enumerate() {
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
