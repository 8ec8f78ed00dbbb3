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

/// Clashes between crops: a name or a code that finds two crops, an old id that is another's id.
pub(super) fn twice(book: &Book) -> Vec<Fault> {
    let mut found = Vec::new();
    let mut say = |crop: &Crop, figure: &str, words: String| {
        let (file, id) = (book.file(&crop.id).to_owned(), crop.id.0.clone());
        found.push(Fault { file, id, figure: figure.to_owned(), words });
    };
    let mut names: BTreeMap<String, &Crop> = BTreeMap::new();
    for crop in book.crops() {
        if let Some(other) = names.insert(crop.name.to_lowercase(), crop) {
            say(
                crop,
                "name",
                format!("'{}' is the name of {} too: give one of them another", crop.name, other.id),
            );
        }
    }
    let mut also: BTreeMap<String, &Crop> = BTreeMap::new();
    for crop in book.crops() {
        for name in &crop.also {
            let name = name.to_lowercase();
            let other = names.get(&name).or_else(|| also.get(&name)).copied();
            if let Some(other) = other
                && other.base() != crop.base()
            {
                say(crop, "also", format!("'{name}' is a name of {} too: leave it to one of them", other.id));
            }
            also.insert(name, crop);
        }
    }
    let mut codes: BTreeMap<&str, &Crop> = BTreeMap::new();
    for crop in book.crops() {
        if let Some(other) = codes.insert(crop.code.as_str(), crop)
            && other.base() != crop.base()
        {
            say(
                crop,
                "code",
                format!("{} has the code {} too: give one of them another", other.id, crop.code),
            );
        }
    }
    for (old, id) in book.aliases() {
        if let Some(crop) = book.get(id)
            && book.crops().any(|c| &c.id == old)
        {
            say(crop, "once", format!("'{old}' is the id of another crop today: leave it out of 'once'"));
        }
    }
    found
}

/// ": did you mean ..." for the nearest of some words, or nothing where none is near.
pub(super) fn near<'a>(word: &str, all: impl Iterator<Item = &'a str>) -> String {
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
