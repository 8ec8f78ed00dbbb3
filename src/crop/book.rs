//! The book itself: every crop resolved, found by id, by an older id, or by any common name.

use super::disease::Trouble;
use super::entry::{BookFile, Crop, Entry, Resolved};
use super::family::{BreakWeight, Family, Rotation};
use super::figures::CropId;
use std::collections::BTreeMap;

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
}

impl Book {
    /// Resolves files in order: an entry of a later file with the same id is laid over the earlier one. Entries
    /// that cannot be used are left out and reported; the rest still works.
    pub fn build(files: Vec<(String, BookFile)>) -> (Self, Vec<BookFault>) {
        let mut book = Self::default();
        let mut faults = Vec::new();
        let mut entries: BTreeMap<CropId, (String, Option<String>, Entry)> = BTreeMap::new();
        for (file, content) in files {
            let family = content.family.as_ref().map(|f| f.name.clone());
            if let Some(family) = content.family {
                book.families.insert(family.name.clone(), family);
            }
            for trouble in content.troubles {
                book.troubles.insert(trouble.id.clone(), trouble);
            }
            for entry in content.crops {
                let id = CropId(entry.id.clone());
                let next = match entries.remove(&id) {
                    Some((_, old_family, old)) => {
                        let mut merged = entry.over(old.clone());
                        merged.of = merged.of.or(old.of);
                        merged.once.extend(old.once);
                        (file.clone(), old_family, merged)
                    }
                    None => (file.clone(), family.clone(), entry),
                };
                entries.insert(id, next);
            }
        }
        for (id, (file, family, entry)) in &entries {
            match Self::chain(entry, family.as_deref(), &entries) {
                Ok(crop) => {
                    for old in &crop.once {
                        book.aliases.insert(old.clone(), id.clone());
                    }
                    book.crops.insert(id.clone(), crop);
                }
                Err(words) => faults.push(BookFault { file: file.clone(), id: id.0.clone(), words }),
            }
        }
        (book, faults)
    }

    fn chain(
        entry: &Entry,
        family: Option<&str>,
        all: &BTreeMap<CropId, (String, Option<String>, Entry)>,
    ) -> Result<Crop, String> {
        let mut whole = entry.clone();
        let mut family = family.map(str::to_owned);
        let mut parent = entry.of.clone();
        let mut depth = 0;
        while let Some(id) = parent.take() {
            let Some((_, parent_family, below)) = all.get(&id) else {
                return Err(format!(
                    "its parent '{id}' is not in the book: write the id of a crop after 'of:'"
                ));
            };
            depth += 1;
            if depth > 4 {
                return Err(format!("its parents go round in a circle at '{id}'"));
            }
            parent.clone_from(&below.of);
            family = family.or_else(|| parent_family.clone());
            whole = whole.over(below.clone());
        }
        match whole.resolve(family.as_deref()) {
            Resolved::Whole(crop) => Ok(*crop),
            Resolved::Missing(fields) => Err(format!(
                "missing: {}. Give them, or name a parent with 'of:' to inherit them",
                fields.join(", ")
            )),
        }
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
    /// The break that holds for a crop: its own, or its family's; one year minded where the family is unknown.
    pub fn rotation(&self, crop: &Crop) -> Rotation {
        crop.rotation.or_else(|| self.families.get(&crop.family).map(|f| f.rotation)).unwrap_or(Rotation {
            least: 1,
            advised: 1,
            weight: BreakWeight::Mind,
        })
    }
    /// Whether a trouble really harms a crop.
    pub fn harms(&self, trouble: &Trouble, crop: &Crop) -> bool {
        let named = |text: &str| text == crop.family || text == crop.id.0 || text == crop.base().0;
        trouble.hosts.iter().any(|h| named(h)) && !trouble.not_hosts.iter().any(|n| named(&n.0))
    }
}
