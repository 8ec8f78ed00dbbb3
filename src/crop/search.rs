//! Finding a crop by whatever it is called, and choosing crops by what they need.

use super::book::Book;
use super::entry::Crop;
use super::figures::{CountedFrom, CropId, Start, SupportNeed, Use};
use super::page::use_word;
use crate::units::{Amount, Length, Measure, Volume, num};
use std::fmt;

/// Which of a crop's words was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum By {
    /// Its id, or an id it was once known by.
    Id,
    /// Its name.
    Name,
    /// Another common name.
    Also,
    /// Its botanical name.
    Botanical,
    /// Its family.
    Family,
    /// What it is grown for.
    Use,
}

/// A crop that answers a search.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit<'a> {
    /// The crop.
    pub crop: &'a Crop,
    /// How well it answers, 0 to 100.
    pub score: u8,
    /// Which word answered.
    pub by: By,
    /// The word itself.
    pub word: &'a str,
}

/// No crop is called that.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unknown {
    /// What was asked for.
    pub text: String,
    /// The nearest names and the ids behind them, best first; at most three.
    pub near: Vec<(String, CropId)>,
}

impl fmt::Display for Unknown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "no crop of the book is called '{}'", self.text)?;
        let mut words = self.near.iter().map(|(word, id)| {
            if fold(word) == fold(id.as_str()) { format!("'{id}'") } else { format!("'{id}' ({word})") }
        });
        let Some(first) = words.next() else { return Ok(()) };
        let rest: Vec<String> = words.collect();
        match rest.split_last() {
            None => write!(f, ": did you mean {first}?"),
            Some((last, [])) => write!(f, ": did you mean {first} or {last}?"),
            Some((last, middle)) => write!(f, ": did you mean {first}, {} or {last}?", middle.join(", ")),
        }
    }
}
impl std::error::Error for Unknown {}

/// Words a use is searched by.
const USES: [(Use, &[&str]); 4] = [
    (Use::Food, &["vegetable", "food", "salad"]),
    (Use::Herb, &["herb", "kitchen herb"]),
    (Use::CutFlower, &["flower", "cut flower"]),
    (Use::Cover, &["cover", "cover crop", "green manure"]),
];

/// Least score at which a crop answers at all, and from which on the answer is more than a resemblance.
const ANSWERS: u8 = 45;
const SURE: u8 = 64;
/// Least likeness (Damerau-Levenshtein, of the longer length) of a mistyped name.
const ALIKE: f64 = 0.68;

impl Book {
    /// The crops a word or two may mean, best first: common names of either side of the Atlantic, botanical names,
    /// families, uses; beginnings of words count, and slips of the pen.
    pub fn search(&self, text: &str) -> Vec<Hit<'_>> {
        let wanted = fold(text);
        if wanted.is_empty() {
            return Vec::new();
        }
        let mut hits: Vec<Hit<'_>> = self.crops().filter_map(|crop| self.answer(crop, &wanted)).collect();
        let best = hits.iter().map(|h| h.score).max().unwrap_or(0);
        // Beside a name that is really meant, what only resembles it is noise.
        let least = if best >= SURE { SURE.min(best) } else { ANSWERS };
        hits.retain(|hit| hit.score >= least);
        hits.sort_by_key(|hit| (std::cmp::Reverse(hit.score), hit.crop.of.is_some(), hit.by, &hit.crop.id));
        hits
    }

    /// The one crop of that id or name.
    ///
    /// # Errors
    /// Where none is called so: with the nearest names.
    pub fn named(&self, text: &str) -> Result<&Crop, Unknown> {
        let id = CropId::new(&text.trim().to_lowercase().replace(' ', "-"));
        if let Some(crop) = self.get(&id) {
            return Ok(crop);
        }
        let wanted = fold(text);
        let called = |crop: &&Crop| {
            let mut names = std::iter::once(&crop.name).chain(&crop.also);
            names.any(|name| fold(name) == wanted)
        };
        if let Some(crop) = self.crops().find(called) {
            return Ok(crop);
        }
        let hits = self.search(text);
        // A botanical name may be that of several crops: "Beta vulgaris" is beet and chard.
        let alone = |first: &&Hit<'_>| {
            hits.iter().all(|h| h.score < first.score || h.crop.base() == first.crop.base())
        };
        let exact = hits.first().filter(|hit| hit.score >= 90 && hit.by <= By::Botanical).filter(alone);
        exact.map(|hit| hit.crop).ok_or_else(|| {
            let mut near: Vec<(String, CropId)> = Vec::new();
            for hit in &hits {
                let twice = near.iter().any(|(_, id)| id == hit.crop.base() || id == &hit.crop.id);
                if !twice && near.len() < 3 {
                    near.push((hit.word.to_owned(), hit.crop.id.clone()));
                }
            }
            Unknown { text: text.trim().to_owned(), near }
        })
    }

    fn answer<'a>(&'a self, crop: &'a Crop, wanted: &str) -> Option<Hit<'a>> {
        let mut best: Option<Hit<'a>> = None;
        let mut offer = |likeness: u8, share: u8, by: By, word: &'a str| {
            let score = num::byte(usize::from(likeness) * usize::from(share) / 100);
            if score >= ANSWERS && best.as_ref().is_none_or(|b| score > b.score) {
                best = Some(Hit { crop, score, by, word });
            }
        };
        offer(likeness(wanted, crop.id.as_str()), 99, By::Id, crop.id.as_str());
        for old in &crop.once {
            offer(likeness(wanted, old.as_str()), 96, By::Id, old.as_str());
        }
        offer(likeness(wanted, &crop.name), 100, By::Name, &crop.name);
        for name in &crop.also {
            offer(likeness(wanted, name), 98, By::Also, name);
        }
        let species = crop.botanical.split(" (").next().unwrap_or_default();
        offer(likeness(wanted, species), 95, By::Botanical, species);
        if let Some(family) = self.family(&crop.family) {
            for word in [&family.name, &family.common] {
                offer(strict(wanted, word), 70, By::Family, word);
            }
        }
        for (what, words) in &USES {
            if crop.is_for(*what) {
                for word in *words {
                    offer(strict(wanted, word), 66, By::Use, word);
                }
            }
        }
        best
    }
}

/// Lower case, without accents; every other sign is a gap.
fn fold(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        let c = match c {
            'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' => 'a',
            'ç' => 'c',
            'è' | 'é' | 'ê' | 'ë' => 'e',
            'ì' | 'í' | 'î' | 'ï' => 'i',
            'ñ' => 'n',
            'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' => 'o',
            'ù' | 'ú' | 'û' | 'ü' => 'u',
            // "lamb's lettuce" and "lambs lettuce" are one.
            '\'' | '\u{2019}' => continue,
            c if c.is_alphanumeric() => c,
            _ => ' ',
        };
        if c != ' ' || !(out.is_empty() || out.ends_with(' ')) {
            out.push(c);
        }
    }
    out.truncate(out.trim_end().len());
    out
}

/// A word without the ending of the plural.
fn single(word: &str) -> &str {
    for (ending, rest) in [("oes", 2), ("ches", 2), ("shes", 2), ("s", 1)] {
        if word.len() > 3 && word.ends_with(ending) && !word.ends_with("ss") && !word.ends_with("us") {
            return word.get(..word.len() - rest).unwrap_or(word);
        }
    }
    word
}

fn singles(text: &str) -> Vec<&str> {
    text.split(' ').map(single).collect()
}

/// How well a word answers without slips, 0 to 100: the same, or its beginning.
fn strict(wanted: &str, word: &str) -> u8 {
    let word = fold(word);
    let (asked, given) = (singles(wanted), singles(&word));
    if asked == given {
        return 100;
    }
    if wanted.len() >= 4 && word.starts_with(wanted) { 96 } else { 0 }
}

/// How well a word answers, 0 to 100.
fn likeness(wanted: &str, word: &str) -> u8 {
    let word = fold(word);
    if wanted == word {
        return 100;
    }
    let (mut asked, mut given) = (singles(wanted), singles(&word));
    if asked == given {
        return 98;
    }
    asked.sort_unstable();
    given.sort_unstable();
    // "bush bean" finds "Bean, bush".
    if asked == given {
        return 94;
    }
    let beginning = asked.iter().all(|a| given.iter().any(|g| g.starts_with(a)));
    if beginning {
        let left_over = num::byte(given.len().saturating_sub(asked.len()));
        let whole = asked.iter().filter(|a| given.contains(a)).count();
        let base: u8 = if whole == asked.len() { 84 } else { 76 };
        return base.saturating_sub(left_over.saturating_mul(3)).max(66);
    }
    if wanted.len() >= 4 && word.contains(wanted) {
        return 65;
    }
    // Slips: letter by letter in the whole, or in one word of several.
    let whole = alike(wanted, &word);
    let part = given.iter().map(|g| alike(single(wanted), g)).fold(0.0, f64::max);
    let best = whole.max(part * 0.95);
    if best < ALIKE { 0 } else { num::byte(num::round_u(best * 70.0)) }
}

/// Likeness of two words letter by letter, 0 to 1; 0 at once where their lengths alone rule it out.
fn alike(a: &str, b: &str) -> f64 {
    let (short, long) = (a.len().min(b.len()), a.len().max(b.len()));
    if num::real(short) < ALIKE * num::real(long) {
        return 0.0;
    }
    strsim::normalized_damerau_levenshtein(a, b)
}

/// What is asked of a crop; what is left open lets everything through.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Wanted {
    /// Grown for one of these.
    pub uses: Vec<Use>,
    /// Of this family.
    pub family: Option<String>,
    /// Direct sun there is, hours a day.
    pub sun: Option<f32>,
    /// Depth of soil there is.
    pub depth: Option<Length>,
    /// Shorter side of the space there is.
    pub room: Option<Length>,
    /// Volume and depth of the pot there is.
    pub pot: Option<(Volume, Length)>,
    /// Whether a support stands there.
    pub support: Option<bool>,
    /// Days until the space is wanted for something else.
    pub days: Option<u16>,
}

impl Wanted {
    /// "5.2 h of sun, 12 in of soil, 2 ft across, no support": what there is, and what is asked for.
    pub fn words(&self, measure: Measure) -> String {
        let length = |l: Length| l.for_measure(measure).rounded(0);
        let uses: Vec<&str> = self.uses.iter().map(|u| use_word(*u)).collect();
        let parts = [
            (!uses.is_empty()).then(|| uses.join(" or ")),
            self.family.clone(),
            self.sun.map(|hours| format!("{hours:.1} h of sun")),
            self.pot.map(|(volume, depth)| {
                format!("a pot of {}, {} deep", volume.for_measure(measure).rounded(1), length(depth))
            }),
            self.depth.map(|depth| format!("{} of soil", length(depth))),
            self.room.map(|room| format!("{} across", length(room))),
            self.days.map(|days| format!("{days} days by the packet")),
            match self.support {
                Some(true) => Some(String::from("a support")),
                Some(false) => Some(String::from("no support")),
                None => None,
            },
        ];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
    /// Whether a crop can be what is wanted, by its own figures alone.
    pub fn suits(&self, crop: &Crop) -> bool {
        let use_ = self.uses.is_empty() || self.uses.iter().any(|u| crop.is_for(*u));
        let family = self.family.as_ref().is_none_or(|f| *f == crop.family);
        let sun = self.sun.is_none_or(|hours| crop.light.least <= hours);
        let depth = self.depth.is_none_or(|depth| crop.root_depth.um() <= depth.um());
        let room = self.room.is_none_or(|room| crop.spacing.wide.um() <= room.um());
        let pot = self.pot.is_none_or(|(volume, depth)| {
            crop.pot.is_some_and(|pot| pot.volume.ul() <= volume.ul() && pot.depth.um() <= depth.um())
        });
        let support = self.support != Some(false) || crop.support != SupportNeed::Needs;
        let days = self.days.is_none_or(|days| crop.ground_days() <= days);
        use_ && family && sun && depth && room && pot && support && days
    }
}

impl Book {
    /// The crops that suit, by id. `in_time` says whether one finishes in the weeks there are: pass the answer of the
    /// growth computed for the site, or accept every crop.
    pub fn suited(&self, wanted: &Wanted, in_time: impl Fn(&Crop) -> bool) -> Vec<&Crop> {
        self.crops().filter(|crop| wanted.suits(crop) && in_time(crop)).collect()
    }
}

impl Crop {
    /// The fewest days it takes the ground by its packet, from its quickest start to the first picking: raised plants
    /// spend their first weeks elsewhere.
    pub fn ground_days(&self) -> u16 {
        let raised = self.starts.iter().filter_map(|start| match start {
            Start::Raised { weeks, .. } => Some(7 * u16::from(weeks.0)),
            Start::InPlace | Start::Bought | Start::Piece(_) => None,
        });
        match self.days.from {
            CountedFrom::SettingOut => self.days.min,
            CountedFrom::Sowing => self.days.min.saturating_sub(raised.max().unwrap_or(0)),
        }
    }
    /// Weight of the usual harvest of one plant, grams; none where it is counted and not weighed.
    pub fn grams(&self) -> Option<f64> {
        self.weighed(self.harvest.usual)
    }
    /// Weight of the low, usual and high harvest of a square metre of plants at the wide distance, grams; none where it
    /// is counted and not weighed, or where there is no distance.
    pub fn grams_a_square_metre(&self) -> Option<[f64; 3]> {
        let yields = self.harvest;
        let plants = Some(self.spacing.wide.m()).filter(|m| *m > 0.0)?.powi(-2);
        let [low, usual, high] = [yields.low, yields.usual, yields.high].map(|a| self.weighed(a));
        Some([low? * plants, usual? * plants, high? * plants])
    }
    fn weighed(&self, amount: Amount) -> Option<f64> {
        match (amount, self.each) {
            (Amount::Weight(mass), _) => Some(mass.grams()),
            (Amount::Count(..), Some(each)) => Some(each.grams() * amount.value()),
            (Amount::Count(..), None) => None,
        }
    }
}
