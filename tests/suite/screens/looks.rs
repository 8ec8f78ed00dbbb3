//! Every view in every look: usual signs and ASCII, in colour and without, at three sizes; and its styles.

use crate::support::{drawn, look, plain_look, press};
use catchcrop::app::{Model, View};
use catchcrop::screen::{Depth, Look, Theme, USUAL};
use ratatui::backend::TestBackend;
use ratatui::style::{Color, Modifier};
use std::fmt::Write as _;

/// The usual sizes, and an odd one.
const SIZES: [(u16, u16); 3] = [(80, 24), (160, 50), (97, 31)];

fn colourless() -> Look {
    Look { theme: Theme { depth: Depth::None, light: false }, glyphs: &USUAL }
}

/// Every view of the planted courtyard on a window of that size, one below the other.
fn every_view(
    model: &mut Model,
    (cols, rows): (u16, u16),
    look: Look,
    of: fn(&TestBackend) -> String,
) -> String {
    let mut out = String::new();
    for (n, view) in View::ALL.iter().enumerate() {
        press(model, &(n + 1).to_string());
        let drawn = drawn(model, cols, rows, look);
        writeln!(out, "== {}\n{}", view.word(), of(&drawn).trim_end()).unwrap();
    }
    out
}

fn text(drawn: &TestBackend) -> String {
    drawn.to_string()
}

/// The styles of each row: how many columns of which; plain ones are left out.
fn styles(drawn: &TestBackend) -> String {
    let buffer = drawn.buffer();
    let width = usize::from(buffer.area.width);
    let mut out = String::new();
    for (y, row) in buffer.content.chunks(width).enumerate() {
        let mut runs: Vec<(String, usize)> = Vec::new();
        for cell in row {
            let name = style(cell.fg, cell.bg, cell.modifier);
            match runs.last_mut() {
                Some((last, n)) if *last == name => *n += 1,
                Some(_) | None => runs.push((name, 1)),
            }
        }
        let words: Vec<String> = runs.iter().map(|(name, n)| format!("{n} {name}")).collect();
        writeln!(out, "{y:>2}: {}", words.join(", ")).unwrap();
    }
    out
}

fn style(fore: Color, back: Color, modifier: Modifier) -> String {
    let colour = |c: Color| {
        if let Color::Rgb(r, g, b) = c {
            format!("{r:02x}{g:02x}{b:02x}")
        } else if c == Color::Reset {
            String::from("-")
        } else {
            format!("{c:?}")
        }
    };
    let mut out = format!("{}/{}", colour(fore), colour(back));
    for (flag, sign) in [(Modifier::BOLD, '*'), (Modifier::UNDERLINED, '_'), (Modifier::REVERSED, '!')] {
        if modifier.contains(flag) {
            out.push(sign);
        }
    }
    out
}

fn courtyard() -> Model {
    let mut model = super::planted();
    press(&mut model, ".....");
    model
}

#[test]
fn at_an_odd_size() {
    let mut model = courtyard();
    insta::assert_snapshot!("views_97x31", every_view(&mut model, (97, 31), look(), text));
}

#[test]
fn in_plain_ascii_at_every_size() {
    let mut model = courtyard();
    for (cols, rows) in SIZES {
        let shown = every_view(&mut model, (cols, rows), plain_look(), text);
        assert!(shown.is_ascii(), "{shown}");
        insta::assert_snapshot!(format!("views_ascii_{cols}x{rows}"), shown);
    }
}

#[test]
fn without_colour_the_same_is_shown_at_every_size() {
    let mut model = courtyard();
    for size in SIZES {
        let without = every_view(&mut model, size, colourless(), text);
        assert_eq!(without, every_view(&mut model, size, look(), text), "{size:?}");
        let shown = every_view(&mut model, size, colourless(), styles);
        // Bold, underlined and reversed are all there is.
        let coloured = shown
            .lines()
            .filter(|l| !l.starts_with("=="))
            .any(|l| l.split(", ").any(|run| !run.trim_end_matches(['*', '_', '!']).ends_with(" -/-")));
        assert!(!coloured, "{shown}");
    }
    insta::assert_snapshot!("styles_no_colour_80x24", every_view(&mut model, (80, 24), colourless(), styles));
}

#[test]
fn the_styles_of_dark_and_light() {
    let mut model = courtyard();
    insta::assert_snapshot!("styles_dark_80x24", every_view(&mut model, (80, 24), look(), styles));
    let light = Look { theme: Theme { depth: Depth::Full, light: true }, glyphs: &USUAL };
    insta::assert_snapshot!("styles_light_80x24", every_view(&mut model, (80, 24), light, styles));
}

#[test]
fn the_cursor_is_seen_without_colour_in_every_view() {
    let mut model = courtyard();
    for n in 1..=View::ALL.len() {
        press(&mut model, &n.to_string());
        let drawn = drawn(&mut model, 80, 24, colourless());
        let seen = drawn
            .buffer()
            .content
            .iter()
            .any(|c| c.modifier.intersects(Modifier::REVERSED | Modifier::UNDERLINED));
        assert!(seen, "view {n}");
    }
}
