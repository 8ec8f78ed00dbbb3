//! Supports in a bed as one types them: "trellis A1-H1, 6 ft; stakes all, 5 ft".

use crate::app::model::Model;
use crate::garden::{Block, Place, Support, SupportKind};
use crate::units::{Length, LengthUnit, Measure};

/// Kinds with their words.
const KINDS: [(SupportKind, &str); 4] = [
    (SupportKind::Trellis, "trellis"),
    (SupportKind::Net, "net"),
    (SupportKind::Cage, "cage"),
    (SupportKind::Stakes, "stakes"),
];

/// Reads "A1", "A1-H2" or "all" in a place of so many rows and columns.
pub(super) fn block(text: &str, (rows, cols): (u16, u16)) -> Option<Block> {
    Block::named(text, (rows, cols))
}

/// The supports that a line describes; those that are there already keep their dates.
pub(super) fn read(model: &Model, place: &Place, text: &str) -> Result<Vec<Support>, String> {
    let measure = model.plan.settings.measure;
    let grid = place.grid(model.plan.settings.cell);
    let mut out = Vec::new();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        let (head, height) = part.split_once(',').unwrap_or((part, ""));
        let (word, cells) = head.trim().split_once(' ').unwrap_or_else(|| (head.trim(), "all"));
        let kind = KINDS.iter().find(|(_, w)| w.eq_ignore_ascii_case(word)).map(|(k, _)| *k);
        let kind = kind.ok_or_else(|| format!("'{word}' is neither trellis, net, cage nor stakes."))?;
        let cells = block(cells, grid)
            .ok_or_else(|| format!("'{cells}' are no cells of {}: write A1-H1 or all.", place.name))?;
        let height = match height.trim().trim_end_matches("high").trim() {
            "" => usual(measure),
            text => text.parse::<Length>().map_err(|e| format!("{e}."))?,
        };
        if !(0.2..=5.0).contains(&height.m()) {
            return Err(String::from("A support between 20 cm and 5 m high is wanted."));
        }
        let old = place.supports.iter().find(|s| s.kind == kind && s.cells == cells && s.until.is_none());
        let from = old.map_or_else(|| model.week.monday(), |s| s.from);
        out.push(Support { kind, cells, height, from, until: None });
    }
    Ok(out)
}

fn usual(measure: Measure) -> Length {
    match measure {
        Measure::Us => Length::new(6.0, LengthUnit::Ft),
        Measure::Metric => Length::new(180.0, LengthUnit::Cm),
    }
}

/// Supports as they may be typed again.
pub fn words(supports: &[Support]) -> String {
    let one = |s: &Support| {
        let word = KINDS.iter().find(|(k, _)| *k == s.kind).map_or("", |(_, w)| w);
        format!("{word} {}, {}", s.cells, s.height)
    };
    supports.iter().map(one).collect::<Vec<_>>().join("; ")
}
