//! The book itself: every crop resolved, found by id, by an older id, or by any common name.

use super::disease::Trouble;
use super::entry::{BookFile, Crop, Entry, Resolved};
use super::family::{BreakWeight, Family, Rotation};
use super::fault::near;
use super::figures::CropId;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Something in the book that cannot be used, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BookFault {
    /// File it stands in.
    pub file: String,
    /// Entry it concerns.
    pub id: String,
    /// What is wrong and how to mend it.
    pub words: String,
}

/// All crops, families and troubles.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Book {
    crops: BTreeMap<CropId, Crop>,
    aliases: BTreeMap<CropId, CropId>,
    families: BTreeMap<String, Family>,
    troubles: BTreeMap<String, Trouble>,
    references: BTreeMap<String, String>,
    /// Which file has the last word on a crop, and which of the files it was.
    files: BTreeMap<CropId, (usize, String)>,
}

/// An entry, the file that has the last word on it, and the family of the file it first stood in.
struct Filed {
    layer: usize,
    file: String,
    family: Option<String>,
    entry: Entry,
}

impl Book {
    /// Resolves files in order: an entry of a later file with the same id is laid over the earlier one. Entries
    /// that cannot be used are left out and reported; the rest still works.
    pub fn build(files: Vec<(String, BookFile)>) -> (Self, Vec<BookFault>) {
        let mut book = Self::default();
        let mut faults = Vec::new();
        let mut entries: BTreeMap<CropId, Filed> = BTreeMap::new();
        for (layer, (file, content)) in files.into_iter().enumerate() {
            let family = content.family.as_ref().map(|f| f.name.clone());
            if let Some(family) = content.family {
                book.families.insert(family.name.clone(), family);
            }
            for trouble in content.troubles {
                book.troubles.insert(trouble.id.clone(), trouble);
            }
            book.references.extend(content.references);
            let sources = Arc::from(content.sources);
            for mut entry in content.crops {
                entry.cite(&content.src, &sources);
                let id = CropId(entry.id.clone());
                let next = match entries.remove(&id) {
                    Some(old) => {
                        let mut merged = entry.over(old.entry.clone());
                        merged.of = merged.of.or(old.entry.of);
                        merged.once.extend(old.entry.once);
                        Filed { layer, file: file.clone(), family: old.family, entry: merged }
                    }
                    None => Filed { layer, file: file.clone(), family: family.clone(), entry },
                };
                entries.insert(id, next);
            }
        }
        let mut take = |id: &CropId, layer: usize, file: &str, found: Result<Crop, String>| match found {
            Ok(crop) => {
                for old in &crop.once {
                    book.aliases.insert(old.clone(), id.clone());
                }
                book.files.insert(id.clone(), (layer, file.to_owned()));
                book.crops.insert(id.clone(), crop);
            }
            Err(words) => faults.push(BookFault { file: file.to_owned(), id: id.0.clone(), words }),
        };
        // Varieties first, while the entries they inherit from are still there.
        for (id, filed) in entries.iter().filter(|(_, f)| f.entry.of.is_some()) {
            take(id, filed.layer, &filed.file, chain(filed, &entries));
        }
        for (id, filed) in entries {
            if filed.entry.of.is_none() {
                take(&id, filed.layer, &filed.file, whole(filed.entry, filed.family.as_deref()));
            }
        }
        faults.sort_by(|a, b| (&a.file, &a.id).cmp(&(&b.file, &b.id)));
        (book, faults)
    }

    /// The crop of that id, or of an id it was once known by.
    pub fn get(&self, id: &CropId) -> Option<&Crop> {
        self.crops.get(id).or_else(|| self.crops.get(self.aliases.get(id)?))
    }
    /// Every crop and variety, by id.
    pub fn crops(&self) -> impl Iterator<Item = &Crop> {
        self.crops.values()
    }
    /// The varieties of a crop, not the crop itself.
    pub fn varieties<'a>(&'a self, of: &'a CropId) -> impl Iterator<Item = &'a Crop> {
        self.crops.values().filter(move |c| c.of.as_ref() == Some(of))
    }
    /// A family by its botanical name.
    pub fn family(&self, name: &str) -> Option<&Family> {
        self.families.get(name)
    }
    /// Every family.
    pub fn families(&self) -> impl Iterator<Item = &Family> {
        self.families.values()
    }
    /// A trouble by its id.
    pub fn trouble(&self, id: &str) -> Option<&Trouble> {
        self.troubles.get(id)
    }
    /// Every trouble.
    pub fn troubles(&self) -> impl Iterator<Item = &Trouble> {
        self.troubles.values()
    }
    /// What a source code stands for.
    pub fn reference(&self, code: &str) -> Option<&str> {
        self.references.get(code).map(String::as_str)
    }
    /// The file that has the last word on a crop; empty where it is unknown.
    pub fn file(&self, id: &CropId) -> &str {
        self.files.get(id).map_or("", |(_, file)| file.as_str())
    }
    /// Of two crops the one whose file came later.
    pub(super) fn newer<'a>(&self, a: &'a Crop, b: &'a Crop) -> (&'a Crop, &'a Crop) {
        let layer = |crop: &Crop| self.files.get(&crop.id).map_or(0, |(layer, _)| *layer);
        if layer(a) >= layer(b) { (a, b) } else { (b, a) }
    }
    /// Older ids that still find a crop, each with the id of today.
    pub fn aliases(&self) -> impl Iterator<Item = (&CropId, &CropId)> {
        self.aliases.iter()
    }
    /// The troubles that really harm a crop.
    pub fn troubles_of<'a>(&'a self, crop: &'a Crop) -> impl Iterator<Item = &'a Trouble> {
        self.troubles.values().filter(move |t| self.harms(t, crop))
    }
    /// The break that holds for a crop: its own, or its family's; one year minded where the family is unknown.
    pub fn rotation(&self, crop: &Crop) -> Rotation {
        crop.rotation.or_else(|| self.families.get(&crop.family).map(|f| f.rotation)).unwrap_or(Rotation {
            least: 1,
            advised: 1,
            weight: BreakWeight::Mind,
        })
    }
    /// Whether a trouble really harms a crop: the trouble names it as a host, or the crop names the trouble.
    pub fn harms(&self, trouble: &Trouble, crop: &Crop) -> bool {
        if crop.troubles.contains(&trouble.id) {
            return true;
        }
        let named = |text: &str| text == crop.family || text == crop.id.0 || text == crop.base().0;
        trouble.hosts.iter().any(|h| named(h)) && !trouble.not_hosts.iter().any(|n| named(&n.0))
    }
}

/// The whole crop of an entry: its parents laid under it, one after another.
fn chain(filed: &Filed, all: &BTreeMap<CropId, Filed>) -> Result<Crop, String> {
    let mut entry = filed.entry.clone();
    let mut family = filed.family.clone();
    let mut parent = entry.of.clone();
    let mut root = None;
    let mut depth = 0;
    while let Some(id) = parent.take() {
        let Some(below) = all.get(&id) else {
            let near = near(id.as_str(), all.keys().map(CropId::as_str));
            let hint =
                if near.is_empty() { String::from(": write the id of a crop after 'of:'") } else { near };
            return Err(format!("its parent '{id}' is not in the book{hint}"));
        };
        depth += 1;
        if depth > 4 {
            return Err(format!("its parents go round in a circle at '{id}'"));
        }
        parent.clone_from(&below.entry.of);
        root = Some(id);
        family = family.or_else(|| below.family.clone());
        entry = entry.over(below.entry.clone());
    }
    // A variety of a variety is one of the crop at the root.
    entry.of = root;
    whole(entry, family.as_deref())
}

fn whole(entry: Entry, family: Option<&str>) -> Result<Crop, String> {
    match entry.resolve(family) {
        Resolved::Whole(crop) => Ok(*crop),
        Resolved::Missing(fields) => Err(format!(
            "missing: {}. Give them, or name a parent with 'of:' to inherit them",
            fields.join(", ")
        )),
    }
}
