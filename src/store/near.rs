//! "Did you mean": the name most like a mistyped one.

/// How alike two words must be, by Jaro-Winkler, for a hint to help more than it misleads.
const ALIKE: f64 = 0.78;

/// The name most like `word`, if any is like it at all; upper and lower case count as one.
pub fn nearest<'a>(word: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    names
        .into_iter()
        .map(|name| (strsim::jaro_winkler(&word, &name.to_lowercase()), name))
        .filter(|(likeness, _)| *likeness > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0).then_with(|| b.1.cmp(a.1)))
        .map(|(_, name)| name)
}
