//! Sizes of beds and pots as one types them: "4x8 ft", "120 x 80 cm, 30 cm deep", "38 l".

use crate::garden::{Kind, Shape};
use crate::units::{Length, LengthUnit, Measure, Volume, VolumeUnit, num, split_number};

/// A container's depth as a share of its rim (common practice for nursery pots).
const PROPORTION: f64 = 0.85;
/// Volume of a container as a share of the cylinder round it: it narrows to its foot (common practice).
const TAPER: f64 = 0.8;
/// The longest side a bed may have, metres.
const LONGEST: f64 = 60.0;

/// The depth of soil a place has unless it is said, and what may be typed for its size.
fn usual(kind: Kind, measure: Measure) -> (Length, &'static str) {
    let (cm, inch) = match kind {
        Kind::Box => (30.0, 12.0),
        Kind::OpenBed | Kind::FlowerBed | Kind::Pot => (40.0, 16.0),
    };
    match (measure, kind) {
        (Measure::Metric, Kind::Pot) => (Length::new(cm, LengthUnit::Cm), "38 l, or 40 cm, or 60 x 20 cm"),
        (Measure::Us, Kind::Pot) => (Length::new(inch, LengthUnit::In), "10 gal, or 16 in, or 24 x 8 in"),
        (Measure::Metric, Kind::Box | Kind::OpenBed | Kind::FlowerBed) => {
            (Length::new(cm, LengthUnit::Cm), "120 x 240 cm, 30 cm deep")
        }
        (Measure::Us, Kind::Box | Kind::OpenBed | Kind::FlowerBed) => {
            (Length::new(inch, LengthUnit::In), "4 x 8 ft, 12 in deep")
        }
    }
}

/// An example of what may be typed.
pub(super) fn example(kind: Kind, measure: Measure) -> &'static str {
    usual(kind, measure).1
}

/// The depth of soil a place has unless it is said.
pub fn deep(kind: Kind, measure: Measure) -> Length {
    usual(kind, measure).0
}

/// Reads a size: from west to east x from north to south, or a volume or width of a round pot; a depth may follow
/// after a comma.
///
/// # Errors
/// In words, with an example, where it is no size.
pub fn read(text: &str, kind: Kind, measure: Measure) -> Result<Shape, String> {
    let (usual_depth, example) = usual(kind, measure);
    let wrong = |why: &str| format!("{why} Write it like {example}.");
    let (size, rest) = text.split_once(',').unwrap_or((text, ""));
    let depth = match rest.trim().trim_end_matches("deep").trim() {
        "" => None,
        text => Some(text.parse::<Length>().map_err(|e| e.to_string())?),
    };
    if depth.is_some_and(|d| !(0.02..=3.0).contains(&d.m())) {
        return Err(wrong("A depth between 2 cm and 3 m is wanted."));
    }
    if let Ok(volume) = size.parse::<Volume>() {
        if kind != Kind::Pot {
            return Err(wrong("A bed has two sides."));
        }
        if !(0.2..=2000.0).contains(&volume.litres()) {
            return Err(wrong("A pot between 0.2 and 2000 litres is wanted."));
        }
        return Ok(pot_of(volume, depth, measure));
    }
    let lower = size.to_lowercase().replace(['\u{d7}', '*'], "x").replace(" by ", " x ");
    let Some((first, second)) = lower.split_once('x') else {
        let width = size.parse::<Length>().map_err(|_e| wrong("That is no size."))?;
        if kind != Kind::Pot {
            return Err(wrong("A bed has two sides."));
        }
        if !(0.05..=3.0).contains(&width.m()) {
            return Err(wrong("A pot between 5 cm and 3 m wide is wanted."));
        }
        return Ok(pot_wide(width, depth, measure));
    };
    let down = second.trim().parse::<Length>().map_err(|_e| wrong("The second side has no unit."))?;
    let across = match split_number(first) {
        Some((value, "")) => Length::new(value, down.unit()),
        _ => first.trim().parse::<Length>().map_err(|_e| wrong("The first side is no length."))?,
    };
    if [across, down].iter().any(|side| !(0.05..=LONGEST).contains(&side.m())) {
        return Err(wrong("Sides between 5 cm and 60 m are wanted."));
    }
    Ok(Shape::Rect { across, down, depth: depth.unwrap_or(usual_depth) })
}

/// A round pot of that volume, and of that depth where one is given.
pub fn pot_of(volume: Volume, depth: Option<Length>, measure: Measure) -> Shape {
    let base = volume.litres() / 1000.0 / (std::f64::consts::FRAC_PI_4 * TAPER);
    let width = depth.map_or_else(|| (base / PROPORTION).cbrt(), |d| (base / d.m().max(0.01)).sqrt());
    Shape::Round {
        width: round(width, measure),
        depth: depth.unwrap_or_else(|| round(width * PROPORTION, measure)),
        volume,
    }
}

/// A round pot that wide.
fn pot_wide(width: Length, depth: Option<Length>, measure: Measure) -> Shape {
    let depth = depth.unwrap_or_else(|| round(width.m() * PROPORTION, measure));
    let litres = std::f64::consts::FRAC_PI_4 * TAPER * width.m().powi(2) * depth.m() * 1000.0;
    let volume = Volume::new((litres * 10.0).round() / 10.0, VolumeUnit::L);
    let volume = match measure {
        Measure::Metric => volume,
        Measure::Us => Volume::new((volume.in_unit(VolumeUnit::Gal) * 10.0).round() / 10.0, VolumeUnit::Gal),
    };
    Shape::Round { width, depth, volume }
}

/// So many metres, rounded to the half centimetre or the quarter inch a grower would say.
fn round(metres: f64, measure: Measure) -> Length {
    match measure {
        Measure::Metric => Length::new(num::real_i(num::round_i(metres * 200.0)) / 2.0, LengthUnit::Cm),
        Measure::Us => Length::new(num::real_i(num::round_i(metres / 0.0254 * 4.0)) / 4.0, LengthUnit::In),
    }
}

/// A size as it may be typed again.
pub fn words(shape: &Shape) -> String {
    match shape {
        Shape::Rect { across, down, depth } if across.unit() == down.unit() => {
            let number = across.to_string();
            let number = number.split(' ').next().unwrap_or_default();
            format!("{number} x {down}, {depth} deep")
        }
        Shape::Rect { across, down, depth } => format!("{across} x {down}, {depth} deep"),
        Shape::Round { depth, volume, .. } => format!("{volume}, {depth} deep"),
    }
}
