//! Ids, names, codes and families.

use super::{Fault, Finder};
use crate::crop::{Book, Crop, CropId, Part, Use};
use std::collections::BTreeMap;

/// Names of one crop.
pub(super) fn rules(crop: &Crop, book: &Book, find: &mut Finder<'_>) {
    let id = crop.id.as_str();
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    find.must(!id.is_empty() && id.chars().all(plain), "id", || {
        String::from("an id is lower-case letters, digits and hyphens, such as \"bean-pole\"")
    });
    find.must(!crop.name.trim().is_empty(), "name", || String::from("give the name growers use"));
    find.must(crop.code.len() == 2 && crop.code.chars().all(|c| c.is_ascii_uppercase()), "code", || {
        format!("'{}' is no code: two capital letters stand for a crop on the grid", crop.code)
    });
    let mut words = crop.botanical.split_whitespace();
    let genus = words.next().unwrap_or_default();
    let latin = genus.chars().next().is_some_and(char::is_uppercase) && words.next().is_some();
    find.must(latin, "botanical", || {
        format!(
            "'{}' is no botanical name: write genus and species, such as \"Daucus carota\"",
            crop.botanical
        )
    });
    find.must(book.family(&crop.family).is_some(), "family", || {
        format!(
            "the family '{}' is not in the book{}",
            crop.family,
            near(&crop.family, book.families().map(|f| f.name.as_str()))
        )
    });
    let kin = book
        .crops()
        .find(|c| c.family != crop.family && c.botanical.split_whitespace().next() == Some(genus));
    if let Some(kin) = kin {
        find.say(
            "family",
            format!("{} is of {}, as {} is: one genus has one family", genus, kin.family, kin.id),
        );
    }
    find.must(!crop.uses.is_empty(), "uses", || {
        String::from("say what it is grown for: Food, Herb, CutFlower or Cover")
    });
    let eaten = crop.is_for(Use::Food) || crop.is_for(Use::Herb);
    find.must(!eaten || crop.part != Part::Nothing, "part", || {
        String::from("it is grown to be eaten: name the part eaten instead of Nothing")
    });
}

/// Clashes between crops: a name or a code that finds two crops, an old id that is another's id. The crop of the later
/// file is at fault.
pub(super) fn twice(book: &Book) -> Vec<Fault> {
    let mut found = Vec::new();
    let mut say = |crops: (&Crop, &Crop), figure: &str, words: &dyn Fn(&Crop) -> String| {
        let (newer, older) = book.newer(crops.0, crops.1);
        let (file, id) = (book.file(&newer.id).to_owned(), newer.id.0.clone());
        found.push(Fault { file, id, figure: figure.to_owned(), words: words(older) });
    };
    let mut names: BTreeMap<String, &Crop> = BTreeMap::new();
    for crop in book.crops() {
        let name = crop.name.to_lowercase();
        if let Some(other) = names.insert(name.clone(), crop) {
            say((crop, other), "name", &|o| {
                format!("'{name}' is the name of {} too: give this one another", o.id)
            });
        }
    }
    let mut also: BTreeMap<String, &Crop> = BTreeMap::new();
    for crop in book.crops() {
        for name in crop.also.iter().map(|n| n.to_lowercase()) {
            let other = names.get(&name).or_else(|| also.get(&name)).copied();
            if let Some(other) = other
                && other.base() != crop.base()
            {
                say((crop, other), "also", &|o| {
                    format!("'{name}' is a name of {} too: leave it out here", o.id)
                });
            }
            also.insert(name, crop);
        }
    }
    let mut codes: BTreeMap<&str, &Crop> = BTreeMap::new();
    for crop in book.crops() {
        if let Some(other) = codes.insert(crop.code.as_str(), crop)
            && other.base() != crop.base()
        {
            let code = &crop.code;
            say((crop, other), "code", &|o| {
                format!("{} has the code {code} too: give this one another", o.id)
            });
        }
    }
    for (old, id) in book.aliases() {
        let today = book.crops().find(|c| &c.id == old);
        if let (Some(crop), Some(today)) = (book.get(id), today) {
            say((crop, today), "once", &|_| format!("'{old}' is the id of another crop today: leave it out"));
        }
    }
    found
}

/// ": did you mean ..." for the nearest of some words, or nothing where none is near.
pub(in crate::crop) fn near<'a>(word: &str, all: impl Iterator<Item = &'a str>) -> String {
    let folded = word.to_lowercase();
    let best = all
        .map(|w| (strsim::jaro_winkler(&folded, &w.to_lowercase()), w))
        .filter(|(score, _)| *score >= 0.8)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    best.map_or_else(String::new, |(_, w)| format!(": did you mean '{w}'?"))
}

/// The same among the ids of a book's crops.
pub(super) fn near_id(id: &CropId, book: &Book) -> String {
    near(id.as_str(), book.crops().map(|c| c.id.as_str()))
}
