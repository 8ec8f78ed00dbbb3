//! Words as they stand at the head of a sentence.

/// The words with a capital letter at their start.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The words as a sentence: a capital letter at their start, a full stop at their end unless there is a mark already.
pub fn sentence(words: &str) -> String {
    let stop = if words.ends_with(['.', '?', '!']) { "" } else { "." };
    format!("{}{stop}", capital(words))
}
