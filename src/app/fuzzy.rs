//! Finding things by a few of their letters.

/// How well `needle` fits `hay`: higher is better, none where a letter is missing. Capitals don't matter; letters
/// that begin words and letters that stand together count more.
pub fn score(needle: &str, hay: &str) -> Option<i64> {
    let needle: Vec<char> = needle.to_lowercase().chars().filter(|c| !c.is_whitespace()).collect();
    let hay: Vec<char> = hay.to_lowercase().chars().collect();
    if needle.is_empty() {
        return Some(0);
    }
    (0..hay.len()).filter(|&at| hay[at] == needle[0]).filter_map(|at| from(&needle, &hay, at)).max()
}

/// The score with the first letter of `needle` at `at`, the others taken as soon as they come.
fn from(needle: &[char], hay: &[char], at: usize) -> Option<i64> {
    let starts_word = |i: usize| i == 0 || !hay[i - 1].is_alphanumeric();
    let mut total = if at == 0 { 12 } else { 0 };
    let mut next = at;
    let mut last = None;
    for &letter in needle {
        let found = (next..hay.len()).find(|&i| hay[i] == letter)?;
        total += 1;
        if starts_word(found) {
            total += 8;
        }
        if last.is_some_and(|l| l + 1 == found) {
            total += 5;
        }
        last = Some(found);
        next = found + 1;
    }
    if needle.len() == hay.len() {
        total += 20;
    }
    Some(total)
}

/// The items that fit, best first; equally good ones stay in order.
pub fn ranked<T>(needle: &str, items: impl Iterator<Item = T>, words: impl Fn(&T) -> Vec<String>) -> Vec<T> {
    let mut out: Vec<(i64, T)> = items
        .filter_map(|item| {
            let best = words(&item).iter().filter_map(|w| score(needle, w)).max()?;
            Some((best, item))
        })
        .collect();
    out.sort_by_key(|(score, _)| std::cmp::Reverse(*score));
    out.into_iter().map(|(_, item)| item).collect()
}
