//! Names of crops inside a sentence.

/// First words of crop names that keep their capital inside a sentence.
const PROPER: [&str; 12] = [
    "Brussels",
    "Swiss",
    "Chinese",
    "French",
    "Welsh",
    "Florence",
    "Jerusalem",
    "Thai",
    "African",
    "Shirley",
    "Iceland",
    "Mexican",
];

/// A crop's name inside a sentence: "Tomato, bush" is "bush tomato".
pub fn inside(name: &str) -> String {
    let turned = match name.split_once(", ") {
        Some((what, which)) if ["from ", "for ", "in "].iter().any(|w| which.starts_with(w)) => {
            format!("{what} {which}")
        }
        Some((what, which)) if !which.contains(',') => format!("{which} {}", lower(what)),
        Some(_) | None => name.to_owned(),
    };
    lower(&turned)
}

fn lower(text: &str) -> String {
    let first = text.split_whitespace().next().unwrap_or_default();
    let shouted = first.chars().skip(1).any(char::is_uppercase);
    if shouted || PROPER.contains(&first) {
        return text.to_owned();
    }
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |l| l.to_lowercase().chain(letters).collect())
}
