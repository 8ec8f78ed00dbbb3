//! How much of it: seeds, plants, distances and depths in the grower's measure.

use crate::crop::{Crop, Piece, Start, Tending};
use crate::plan::{Planting, SPARE};
use crate::units::{Length, LengthUnit, Measure, num};

/// Seeds a plant where the crop is sown thickly in place and thinned (common practice).
const THINNED: f64 = 2.0;

/// "1 seed", "16 seeds".
pub(super) fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

/// The name of a crop inside a sentence.
pub(super) fn inside(name: &str) -> String {
    match name.split_once(", from ") {
        Some((what, which)) => format!("{} from {which}", crate::check::inside(what)),
        None => crate::check::inside(name),
    }
}

/// Seeds to sow for a planting when the share `sprouts` of them comes up; none where nothing is sown.
pub(super) fn seeds(crop: &Crop, planting: &Planting, sprouts: f64) -> usize {
    let plants = f64::from(planting.plants);
    let each = 1.0 / sprouts.clamp(0.05, 1.0);
    let thinned = crop.tending.iter().any(|t| matches!(t, Tending::Thin(_)));
    match planting.start {
        Start::InPlace if thinned => num::round_u((plants * (SPARE * each).max(THINNED)).ceil()),
        Start::InPlace => num::round_u((plants * SPARE * each).ceil()),
        Start::Raised { per_station, .. } => {
            let a_station = (f64::from(per_station.max(1)) * each).ceil();
            num::round_u(planting.stations() * a_station)
        }
        Start::Bought | Start::Piece(_) => 0,
    }
}

/// What a piece is called, one and many.
pub(super) const fn piece(piece: Piece) -> (&'static str, &'static str) {
    match piece {
        Piece::Set => ("set", "sets"),
        Piece::Bulb => ("bulb", "bulbs"),
        Piece::Clove => ("clove", "cloves"),
        Piece::Tuber => ("tuber", "tubers"),
        Piece::Slip => ("slip", "slips"),
        Piece::Crown => ("crown", "crowns"),
    }
}

/// A length for reading: inches with a fraction, or centimetres.
pub(super) fn length(length: Length, measure: Measure) -> String {
    match measure {
        Measure::Us => inches(length),
        Measure::Metric => {
            let cm = length.cm();
            if cm < 10.0 { length.shown_in(LengthUnit::Cm).rounded(1) } else { format!("{cm:.0} cm") }
        }
    }
}

/// Inches to the nearest quarter below a foot, whole ones above; the smallest depth is an eighth.
fn inches(length: Length) -> String {
    let eighths = num::round_i(length.in_unit(LengthUnit::In) * 8.0).max(1);
    let eighths = if eighths > 96 {
        (eighths + 4) / 8 * 8
    } else if eighths > 2 {
        (eighths + 1) / 2 * 2
    } else {
        eighths
    };
    let (whole, part) = (eighths / 8, eighths % 8);
    let part = match part {
        1 => "1/8",
        2 => "1/4",
        4 => "1/2",
        6 => "3/4",
        _ => "",
    };
    match (whole, part) {
        (0, part) => format!("{part} in"),
        (whole, "") => format!("{whole} in"),
        (whole, part) => format!("{whole} {part} in"),
    }
}

/// "3 in apart".
pub(super) fn apart(crop: &Crop, measure: Measure) -> String {
    format!("{} apart", length(crop.spacing.wide, measure))
}

/// "1/2 in deep", "on the surface".
pub(super) fn deep(crop: &Crop, measure: Measure) -> String {
    if crop.depth.um() < 500 {
        return "on the surface".to_owned();
    }
    format!("{} deep", length(crop.depth, measure))
}
