//! Sources: which codes stand behind which figure, and what a code stands for.

use super::entry::{FIGURES, PARTS};
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

/// Source codes by figure. A list of codes is shared between the figures and the varieties that have it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sources(Vec<(Cow<'static, str>, Arc<[String]>)>);

impl Sources {
    /// The codes of a figure named so, and of nothing else.
    pub fn get(&self, figure: &str) -> Option<&[String]> {
        self.shared(figure).map(|codes| &**codes)
    }
    /// Figures and their codes.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &[String])> {
        self.0.iter().map(|(figure, codes)| (figure.as_ref(), &**codes))
    }
    /// Whether no figure names a source.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
    pub(super) fn shared(&self, figure: &str) -> Option<&Arc<[String]>> {
        self.0.iter().find(|(f, _)| f == figure).map(|(_, codes)| codes)
    }
    pub(super) fn put(&mut self, figure: &'static str, codes: Arc<[String]>) {
        self.0.push((Cow::Borrowed(figure), codes));
    }
    /// What stands below, but for the figures `replaced` there; what stands here wins.
    pub(super) fn over(self, below: Self, replaced: impl Fn(&str) -> bool) -> Self {
        let mut out = self.0;
        let mine = out.len();
        for (figure, codes) in below.0 {
            let here = out.iter().take(mine).any(|(f, _)| *f == figure);
            if !here && !replaced(&figure) {
                out.push((figure, codes));
            }
        }
        Self(out)
    }
}

impl Serialize for Sources {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.iter())
    }
}

impl<'de> Deserialize<'de> for Sources {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Figures;
        impl<'de> Visitor<'de> for Figures {
            type Value = Sources;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("figures and their source codes, such as {\"days\": [\"own\"]}")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Sources, A::Error> {
                let mut out = Vec::with_capacity(16);
                while let Some((figure, codes)) = map.next_entry::<String, Vec<String>>()? {
                    out.push((known(figure), Arc::from(codes)));
                }
                Ok(Sources(out))
            }
        }
        deserializer.deserialize_map(Figures)
    }
}

/// A figure's name without memory of its own, where it is one of the book's.
fn known(figure: String) -> Cow<'static, str> {
    let name = FIGURES.iter().chain(&PARTS).find(|f| **f == figure);
    name.map_or(Cow::Owned(figure), |f| Cow::Borrowed(f))
}

/// The codes of a Markdown text: of every table row, the first cell as code and the second as reference.
pub fn references(markdown: &str) -> BTreeMap<String, String> {
    markdown.lines().filter_map(row).collect()
}

fn row(line: &str) -> Option<(String, String)> {
    let mut cells = line.trim().strip_prefix('|')?.split('|').map(str::trim);
    let (code, reference) = (cells.next()?, cells.next()?);
    let heading = code.is_empty() || code == "code" || code.starts_with("---");
    (!heading).then(|| (code.to_owned(), reference.to_owned()))
}
