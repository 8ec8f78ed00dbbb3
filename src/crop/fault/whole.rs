//! Families and troubles.

use super::Fault;
use super::names::near;
use super::ties::PLAIN;
use crate::crop::{Book, CropId, TroubleKind};
use std::collections::BTreeMap;

/// Hues and hatches there are.
const LOOKS: u8 = 8;

fn fault(file: &str, id: &str, figure: &str, words: String) -> Fault {
    Fault { file: file.to_owned(), id: id.to_owned(), figure: figure.to_owned(), words }
}

fn known(book: &Book, code: &str) -> bool {
    PLAIN.contains(&code) || book.reference(code).is_some()
}

/// Breaks, looks and members of each family.
pub(super) fn families(book: &Book) -> Vec<Fault> {
    let mut found = Vec::new();
    let mut looks = BTreeMap::new();
    for family in book.families() {
        let member = book.crops().find(|c| c.family == family.name);
        let file = member.map_or("", |c| book.file(&c.id));
        let mut say = |figure: &str, words: String| found.push(fault(file, &family.name, figure, words));
        if member.is_none() {
            say("name", String::from("no crop of the book is of this family"));
        }
        if family.rotation.least > family.rotation.advised {
            say("rotation", String::from("the least break is longer than the advised one"));
        }
        if family.why.trim().is_empty() || family.src.is_empty() {
            say("why", String::from("say why the family is moved round, and who says so"));
        }
        for code in family.src.iter().filter(|c| !known(book, c)) {
            say("src", format!("the source '{code}' is unknown"));
        }
        if family.hue >= LOOKS || family.hatch >= LOOKS {
            say("hue", format!("hue and hatch are numbers below {LOOKS}"));
        }
        if let Some(other) = looks.insert((family.hue, family.hatch), &family.name) {
            say("hatch", format!("{other} is drawn in the same hue and hatch: change one of the two"));
        }
    }
    found
}

/// Hosts and breaks of each trouble.
pub(super) fn troubles(book: &Book) -> Vec<Fault> {
    let mut found = Vec::new();
    let mut names = BTreeMap::new();
    for trouble in book.troubles() {
        let mut say = |figure: &str, words: String| found.push(fault("", &trouble.id, figure, words));
        if trouble.hosts.is_empty() {
            say("hosts", String::from("name the crops or families it harms"));
        }
        let is = |host: &str| book.family(host).is_some() || book.crops().any(|c| c.id.0 == host);
        for host in
            trouble.hosts.iter().map(String::as_str).chain(trouble.not_hosts.iter().map(CropId::as_str))
        {
            if !is(host) {
                let all = book.crops().map(|c| c.id.as_str()).chain(book.families().map(|f| f.name.as_str()));
                say(
                    "hosts",
                    format!("'{host}' is neither a crop nor a family of the book{}", near(host, all)),
                );
            }
        }
        if trouble.least > trouble.advised {
            say("least", String::from("the least break is longer than the advised one"));
        }
        if trouble.kind == TroubleKind::SoilDisease && trouble.advised == 0 {
            say("advised", String::from("a disease of the soil brings a break: say how many years"));
        }
        if trouble.remedy.trim().is_empty() || trouble.src.is_empty() {
            say("remedy", String::from("say what to do, and who says so"));
        }
        for code in trouble.src.iter().filter(|c| !known(book, c)) {
            say("src", format!("the source '{code}' is unknown"));
        }
        if let Some(other) = names.insert(&trouble.name, &trouble.id) {
            say("name", format!("{other} has the same name"));
        }
    }
    found
}
