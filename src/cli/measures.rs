//! Sizes, volumes and rows of figures as they are typed after a flag.

use crate::site::{Monthly, zone};
use crate::units::{Length, Temperature, Volume};

/// A rectangle of soil as it is typed: "4x8ft", "120x60cm", "4x8x1ft" with its depth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Outline {
    /// From west to east.
    pub(super) across: Length,
    /// From north to south.
    pub(super) down: Length,
    /// Depth of soil, where it is given.
    pub(super) depth: Option<Length>,
}

/// Reads an outline.
///
/// # Errors
/// Where the text is none.
pub(super) fn outline(text: &str) -> Result<Outline, String> {
    let error = || {
        format!(
            "'{text}' is not a size: write across, down and a unit, such as 4x8ft, 120x60cm or 4x8x1ft with its depth"
        )
    };
    let lower = text.to_lowercase().replace('\u{d7}', "x");
    let parts: Vec<&str> = lower.split('x').map(str::trim).collect();
    // A part without a unit has that of the last one.
    let unit = parts
        .last()
        .map(|p| p.trim_start_matches(|c: char| !c.is_alphabetic() && c != '"' && c != '\''))
        .unwrap_or_default();
    let length = |part: &&str| {
        let whole = if part.ends_with(|c: char| c.is_ascii_digit() || c == '.') {
            format!("{part} {unit}")
        } else {
            (*part).to_owned()
        };
        whole.parse::<Length>().ok().filter(|l| l.um() > 0).ok_or_else(error)
    };
    let lengths: Vec<Length> = parts.iter().map(length).collect::<Result<_, _>>()?;
    match *lengths {
        [across, down] => Ok(Outline { across, down, depth: None }),
        [across, down, depth] => Ok(Outline { across, down, depth: Some(depth) }),
        _ => Err(error()),
    }
}

/// Reads a volume above nothing.
///
/// # Errors
/// Where the text is none.
pub(super) fn volume(text: &str) -> Result<Volume, String> {
    let volume: Volume = text.parse().map_err(|e: crate::units::UnitError| e.to_string())?;
    if volume.ul() > 0 { Ok(volume) } else { Err(format!("'{text}' is no volume to plant in")) }
}

/// Reads a hardiness zone, or the mean of the yearly lowest temperature.
///
/// # Errors
/// Where the text is neither.
pub(super) fn zone(text: &str) -> Result<Temperature, String> {
    zone::middle(text).or_else(|| text.parse().ok()).ok_or_else(|| {
        format!(
            "'{text}' is no hardiness zone: write 1 to 13 with its half, such as 6b, or the mean of the yearly lowest \
             temperature with its unit, such as -21C"
        )
    })
}

/// Reads twelve figures, parted by spaces or commas.
///
/// # Errors
/// Where there are more or fewer, or one is no number.
pub(super) fn monthly(text: &str) -> Result<Monthly, String> {
    let words: Vec<&str> = text.split([' ', ',', ';']).filter(|w| !w.is_empty()).collect();
    let figures: Vec<f64> = words
        .iter()
        .map(|w| w.parse().ok().ok_or_else(|| format!("'{w}' is no number")))
        .collect::<Result<_, String>>()?;
    let count = figures.len();
    figures.try_into().ok().ok_or_else(|| format!("{count} figures where twelve are wanted, January first"))
}
