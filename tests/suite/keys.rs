//! The key table: nothing hides, everything can be reached, every word fits.

use catchcrop::app::{BINDINGS, Binding, Command, Key, Mode, Resolution, keymap, names, resolve};
use unicode_width::UnicodeWidthStr as _;

fn rows(mode: Mode) -> Vec<&'static Binding> {
    keymap::rows(mode).filter(|b| !b.keys.is_empty()).collect()
}

#[test]
fn no_sequence_hides_another() {
    for mode in Mode::ALL {
        let rows = rows(mode);
        for (n, a) in rows.iter().enumerate() {
            for b in &rows[n + 1..] {
                let (long, short) = if a.keys.len() > b.keys.len() { (a, b) } else { (b, a) };
                // A view may give a key of every view another meaning only by saying the same thing.
                let hides = long.keys.starts_with(short.keys);
                assert!(!hides, "{mode:?}: {} and {} share {}", a.words, b.words, names(short.keys));
            }
        }
    }
}

#[test]
fn every_row_is_found_by_its_keys() {
    for binding in BINDINGS.iter().filter(|b| !b.keys.is_empty()) {
        assert_eq!(
            resolve(binding.mode, binding.keys),
            Resolution::Run(binding.command),
            "{}",
            binding.words
        );
    }
}

#[test]
fn words_fit_and_are_there() {
    for binding in BINDINGS {
        assert!(!binding.words.is_empty());
        assert!(binding.words.width() <= 40, "'{}' is wider than 40 columns", binding.words);
    }
}

#[test]
fn no_key_needs_alt_or_ctrl_but_the_one_to_leave() {
    for binding in BINDINGS.iter().filter(|b| b.keys.contains(&Key::Interrupt)) {
        assert_eq!(binding.command, Command::Quit);
    }
}

#[test]
fn every_first_key_of_a_longer_sequence_has_words() {
    for mode in Mode::ALL {
        for binding in rows(mode).into_iter().filter(|b| b.keys.len() > 1) {
            assert_ne!(
                keymap::prefix_words(mode, binding.keys[0]),
                "more",
                "{mode:?} {}",
                names(binding.keys)
            );
        }
    }
}
