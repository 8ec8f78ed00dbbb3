//! The faces, their widths, wrapping, and which letters they lack.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use unicode_segmentation::UnicodeSegmentation as _;

use super::page::Page;

/// A face of the `DejaVu` family.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Running text: sans, condensed.
    Plain,
    /// Bold sans, condensed.
    Bold,
    /// Serif, for titles.
    Title,
    /// Mono, for pictures of the terminal.
    Mono,
    /// Bold mono.
    MonoBold,
}

/// Part of an em above the baseline that letters reach.
pub(crate) const ASCENT: f64 = 0.76;
/// Part of an em below the baseline that letters reach.
pub(crate) const DESCENT: f64 = 0.24;
/// Line distance in ems.
pub(crate) const LEADING: f64 = 1.24;
/// Kerning is not measured; wrapping keeps this much in hand.
const SLACK: f64 = 1.02;

impl Face {
    /// All faces.
    pub(crate) const ALL: [Self; 5] = [Self::Plain, Self::Bold, Self::Title, Self::Mono, Self::MonoBold];

    /// The font file.
    pub(crate) fn data(self) -> &'static [u8] {
        match self {
            Self::Plain => dejavu::sans_condensed::regular(),
            Self::Bold => dejavu::sans_condensed::bold(),
            Self::Title => dejavu::serif::regular(),
            Self::Mono => dejavu::sans_mono::regular(),
            Self::MonoBold => dejavu::sans_mono::bold(),
        }
    }

    fn metrics(self) -> Option<&'static Metrics> {
        static ALL: OnceLock<BTreeMap<Face, Metrics>> = OnceLock::new();
        ALL.get_or_init(|| Self::ALL.iter().filter_map(|&f| Some((f, Metrics::read(f.data())?))).collect())
            .get(&self)
    }

    /// Whether the face draws this letter.
    pub(crate) fn has(self, c: char) -> bool {
        self.metrics().is_some_and(|m| m.face.glyph_index(c).is_some())
    }
}

struct Metrics {
    face: ttf_parser::Face<'static>,
    em: f64,
    /// Advances of the first letters, in ems: nearly all that is ever asked.
    quick: Vec<f64>,
}

impl Metrics {
    fn read(data: &'static [u8]) -> Option<Self> {
        let face = ttf_parser::Face::parse(data, 0).ok()?;
        let mut m = Self { em: f64::from(face.units_per_em()), face, quick: Vec::new() };
        m.quick = ('\0'..'\u{250}').map(|c| m.slow(c)).collect();
        Some(m)
    }

    fn slow(&self, c: char) -> f64 {
        let glyph = self.face.glyph_index(c).unwrap_or_default();
        f64::from(self.face.glyph_hor_advance(glyph).unwrap_or(0)) / self.em
    }

    fn advance(&self, c: char) -> f64 {
        let known = usize::try_from(u32::from(c)).ok().and_then(|i| self.quick.get(i));
        known.copied().unwrap_or_else(|| self.slow(c))
    }
}

/// Width in points of `words` set in `face` at `size` points, without kerning.
pub fn width(words: &str, face: Face, size: f64) -> f64 {
    face.metrics().map_or(0.0, |m| words.chars().map(|c| m.advance(c)).sum::<f64>() * size)
}

/// `words` broken into lines no wider than `room` points: at spaces, and inside a word only when it is longer than a
/// whole line. At least one line comes back.
pub fn lines(words: &str, face: Face, size: f64, room: f64) -> Vec<String> {
    let fits = |s: &str| width(s, face, size) * SLACK <= room;
    let mut out: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words.split_whitespace() {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if fits(&longer) {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            out.push(std::mem::take(&mut line));
        }
        if fits(word) {
            word.clone_into(&mut line);
        } else {
            line = cut(word, fits, &mut out);
        }
    }
    if !line.is_empty() || out.is_empty() {
        out.push(line);
    }
    out
}

/// Breaks a word that is longer than a line; whole lines go to `out`, the rest comes back.
fn cut(word: &str, fits: impl Fn(&str) -> bool, out: &mut Vec<String>) -> String {
    let mut line = String::new();
    for letter in word.graphemes(true) {
        if !line.is_empty() && !fits(&format!("{line}{letter}-")) {
            let hyphen = line.ends_with(char::is_alphabetic) && letter.starts_with(char::is_alphabetic);
            let mut done = std::mem::take(&mut line);
            if hyphen {
                done.push('-');
            }
            out.push(done);
        }
        line.push_str(letter);
    }
    line
}

/// A letter that no face on the page can draw.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Missing {
    /// The letter.
    pub letter: char,
    /// The words it stands in.
    pub words: String,
}

impl Missing {
    /// What it means for a print.
    pub fn warning(&self) -> String {
        format!("'{}' of \"{}\" is in none of the faces and prints as an empty box", self.letter, self.words)
    }
}

/// Letters that would print as an empty box, each once, with the first words it stands in.
pub fn missing(pages: &[Page]) -> Vec<Missing> {
    let mut found: BTreeMap<char, String> = BTreeMap::new();
    for text in pages.iter().flat_map(Page::texts) {
        for letter in text.words.chars().filter(|c| !c.is_control() && !c.is_whitespace()) {
            // A letter the face lacks is taken from another of the faces.
            if !text.style.face.has(letter) && !Face::ALL.iter().any(|f| f.has(letter)) {
                found.entry(letter).or_insert_with(|| text.words.clone());
            }
        }
    }
    found.into_iter().map(|(letter, words)| Missing { letter, words }).collect()
}
