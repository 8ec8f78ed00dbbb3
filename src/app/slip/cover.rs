//! Covers over a bed as one types them: "fleece A1-D2, 1 Mar to 1 May; shade cloth all, 1 Jul to 31 Aug".

use super::support::block;
use super::time;
use crate::app::model::Model;
use crate::calendar::day_text;
use crate::garden::{Cover, CoverKind, Place};
use crate::units::{Degrees, TempUnit};
use chrono::Datelike as _;

/// A kind of cover: its word, how much milder the night and warmer the day is under it (degrees Celsius), and the
/// share of the light it lets through, per cent. Usual figures of the trade (common practice); makers name their own.
struct Usual {
    kind: CoverKind,
    word: &'static str,
    frost_gain: f64,
    warmth: f64,
    light: u8,
}

const KINDS: [Usual; 5] = [
    Usual { kind: CoverKind::Fleece, word: "fleece", frost_gain: 2.0, warmth: 1.5, light: 85 },
    Usual { kind: CoverKind::Cloche, word: "cloche", frost_gain: 2.0, warmth: 3.0, light: 85 },
    Usual { kind: CoverKind::Frame, word: "frame", frost_gain: 3.0, warmth: 4.0, light: 80 },
    Usual { kind: CoverKind::ShadeCloth, word: "shade cloth", frost_gain: 0.0, warmth: -2.0, light: 60 },
    Usual { kind: CoverKind::InsectNet, word: "insect net", frost_gain: 0.0, warmth: 0.0, light: 90 },
];

/// The covers that a line describes; those that are there already keep their figures.
pub(super) fn read(model: &Model, place: &Place, text: &str) -> Result<Vec<Cover>, String> {
    let grid = place.grid(model.plan.settings.cell);
    let mut out = Vec::new();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        let wrong = || format!("'{part}': write what, where and when: fleece A1-D2, 1 Mar to 1 May.");
        let (head, when) = part.split_once(',').ok_or_else(wrong)?;
        let lower = head.trim().to_lowercase();
        let usual = KINDS.iter().find(|k| lower.starts_with(k.word)).ok_or_else(|| {
            format!("'{}' is neither fleece, cloche, frame, shade cloth nor insect net.", head.trim())
        })?;
        let cells = match lower.strip_prefix(usual.word).map(str::trim) {
            None | Some("") => "all",
            Some(cells) => cells,
        };
        let cells = block(cells, grid)
            .ok_or_else(|| format!("'{cells}' are no cells of {}: write A1-D2 or all.", place.name))?;
        let (from, until) = time::read_span(when, model)?;
        let old = place.covers.iter().find(|c| c.kind == usual.kind && c.cells == cells);
        out.push(old.map_or_else(
            || Cover {
                kind: usual.kind,
                cells,
                from,
                until,
                frost_gain: Degrees::new(usual.frost_gain, TempUnit::C),
                warmth: Degrees::new(usual.warmth, TempUnit::C),
                light: usual.light,
            },
            |old| Cover { from, until, ..old.clone() },
        ));
    }
    Ok(out)
}

/// Covers as they may be typed again.
pub fn words(covers: &[Cover]) -> String {
    let one = |c: &Cover| {
        let word = KINDS.iter().find(|k| k.kind == c.kind).map_or("", |k| k.word);
        let day = |d: crate::calendar::Date| format!("{} {}", day_text(d), d.year());
        format!("{word} {}, {} to {}", c.cells, day(c.from), day(c.until))
    };
    covers.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// What a line of covers comes to: how much milder and warmer it is under the last one.
pub(super) fn meaning(covers: &[Cover]) -> Option<String> {
    let last = covers.last()?;
    Some(format!(
        "nights {} milder, days {} warmer, {} % of the light",
        last.frost_gain.to_string().trim_start_matches('+'),
        last.warmth.to_string().trim_start_matches('+'),
        last.light
    ))
}
