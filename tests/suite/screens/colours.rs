//! Colours can be read, and nothing rests on them alone.

use catchcrop::app::Phase;
use catchcrop::paper::Rgb;
use catchcrop::screen::{ASCII, Depth, Glyphs, Role, Theme, Tone, USUAL, contrast, fitted, indexed};
use unicode_width::UnicodeWidthStr as _;

/// The least contrast of text (WCAG 2.2, success criterion 1.4.3).
const LEAST: f64 = 4.5;

fn themes() -> [Theme; 2] {
    [false, true].map(|light| Theme { depth: Depth::Full, light })
}

/// Both as they are and as a terminal of 256 colours shows them.
fn can_be_read(what: &str, (fore, back): (Rgb, Rgb)) {
    let (few, ground) = fitted(fore, back);
    for (depth, ratio) in
        [("24 bits", contrast(fore, back)), ("256", contrast(indexed(few), indexed(ground)))]
    {
        assert!(ratio >= LEAST, "{what}: {ratio:.2} with {depth} ({fore:?} on {back:?})");
    }
}

#[test]
fn every_role_can_be_read() {
    for theme in themes() {
        for role in Role::TEXT {
            can_be_read(&format!("{role:?}, light {}", theme.light), theme.colours(role));
        }
        // Warnings on a slip keep the slip's ground.
        for role in [Role::Good, Role::Mind, Role::Stop, Role::Accent] {
            let colours = (theme.colours(role).0, theme.colours(Role::Slip).1);
            can_be_read(&format!("{role:?} on a slip, light {}", theme.light), colours);
        }
    }
}

#[test]
fn every_family_can_be_read() {
    for theme in themes() {
        for hue in 0..8 {
            for (tone, other) in
                [Tone::Pale, Tone::Middle, Tone::Strong].into_iter().flat_map(|t| [(t, false), (t, true)])
            {
                let what = format!("hue {hue}, {tone:?} {other}, light {}", theme.light);
                can_be_read(&what, theme.family_colours(hue, tone, other));
            }
            can_be_read(&format!("ghost {hue}, light {}", theme.light), theme.ghost_colours(hue));
            can_be_read(
                &format!("line {hue}, light {}", theme.light),
                (theme.family_line(hue), theme.ground()),
            );
        }
    }
}

#[test]
fn phases_differ_in_their_letters() {
    let phases = [Phase::Sown, Phase::Growing, Phase::Picking, Phase::Spent];
    let letters: Vec<String> = phases.iter().map(|p| p.letters("TO")).collect();
    for (n, a) in letters.iter().enumerate() {
        assert!(!letters[n + 1..].contains(a), "{letters:?}");
        assert_eq!(a.width(), 2);
    }
}

#[test]
fn patterns_differ_without_colour() {
    for glyphs in [&USUAL, &ASCII] {
        for (n, a) in glyphs.patterns.iter().enumerate() {
            assert!(!glyphs.patterns[n + 1..].contains(a) && *a != glyphs.bare);
        }
    }
}

#[test]
fn every_sign_has_a_twin_of_its_width_in_ascii() {
    let all = |glyphs: &Glyphs| glyphs.all();
    for ((usual, wide), (ascii, same)) in all(&USUAL).into_iter().zip(all(&ASCII)) {
        assert_eq!((usual.width(), ascii.width()), (wide, same), "{usual} {ascii}");
        assert!(ascii.is_ascii(), "{ascii}");
    }
}
