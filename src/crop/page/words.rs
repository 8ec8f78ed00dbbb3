//! Figures and kinds in words.

use crate::crop::{CautionKind, FrostClass, Grade, Part, Piece, Start, Tending, Use};
use crate::units::{Length, LengthUnit, Mass, MassUnit, Measure, num};
use std::fmt::Write;

/// The measure a length was typed in.
pub(super) fn native(length: Length) -> Measure {
    use crate::units::LengthUnit::{Cm, Ft, In, M, Mm};
    match length.unit() {
        In | Ft => Measure::Us,
        Mm | Cm | M => Measure::Metric,
    }
}

/// " (...)" with the grower's measure, where the figure was typed in the other one.
pub(super) fn beside(measure: Measure, length: Length, words: impl FnOnce() -> String) -> String {
    if native(length) == measure { String::new() } else { format!(" ({})", words()) }
}

/// A length as typed, inches with the fractions of a ruler.
pub(super) fn fraction(length: Length) -> String {
    use crate::units::LengthUnit::In;
    let eighths = length.in_unit(In) * 8.0;
    if length.unit() != In || (eighths - eighths.round()).abs() > 1e-6 {
        return length.rounded(1);
    }
    let eighths = num::round_u(eighths);
    let (whole, part) = (eighths / 8, ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"][eighths % 8]);
    match (whole, part) {
        (_, "") => format!("{whole} in"),
        (0, _) => format!("{part} in"),
        (_, _) => format!("{whole} {part} in"),
    }
}

/// "1.23 lb a square foot (0.7 to 2.11)" of grams from a square metre: low, usual and high.
pub(super) fn area_words(grams: [f64; 3], measure: Measure) -> String {
    let (unit, side, place) = match measure {
        Measure::Us => (MassUnit::Lb, Length::new(1.0, LengthUnit::Ft), "lb a square foot"),
        Measure::Metric => (MassUnit::Kg, Length::new(1.0, LengthUnit::M), "kg a square metre"),
    };
    let shown = grams.map(|g| {
        let text = format!("{:.2}", Mass::new(g * side.m().powi(2), MassUnit::G).in_unit(unit));
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    });
    format!("{} {place} ({} to {})", shown[1], shown[0], shown[2])
}

pub(super) fn span(low: Length, high: Length, measure: Measure) -> String {
    let high = if native(high) == measure { high } else { high.for_measure(measure) };
    let low = low.shown_in(high.unit());
    let decimals = usize::from(measure == Measure::Us);
    let (low, high) = (low.rounded(decimals), high.rounded(decimals));
    if low == high {
        return high;
    }
    let number = low.split(' ').next().unwrap_or_default();
    format!("{number}-{high}")
}

pub(super) fn number_span(low: u16, high: u16) -> String {
    if low == high { low.to_string() } else { format!("{low}-{high}") }
}

pub(super) fn many(n: usize, word: &str) -> String {
    if n == 1 { format!("{n} {word}") } else { format!("{n} {word}s") }
}

pub(super) fn weeks_about((first, last): (i8, i8)) -> String {
    let side = |weeks: i8| match weeks {
        ..0 => format!("{} before", many(usize::from(weeks.unsigned_abs()), "week")),
        0 => String::from("at"),
        _ => format!("{} after", many(usize::from(weeks.unsigned_abs()), "week")),
    };
    format!("from {} to {} the first autumn frost", side(first), side(last))
}

pub(super) fn start_words(start: Start) -> String {
    match start {
        Start::InPlace => String::from("sown in place"),
        Start::Raised { weeks, per_station, pot_on, harden } => {
            let mut words = format!("raised, set out at {}-{} weeks", weeks.0, weeks.1);
            if per_station > 1 {
                let _ = write!(words, ", {per_station} to a station");
            }
            if pot_on {
                words.push_str(", potted on");
            }
            let _ = write!(words, ", hardened off for {harden} days");
            words
        }
        Start::Bought => String::from("bought as young plants"),
        Start::Piece(piece) => format!("from {}", piece_word(piece)),
    }
}

pub(super) fn piece_word(piece: Piece) -> &'static str {
    match piece {
        Piece::Set => "sets",
        Piece::Bulb => "bulbs or corms",
        Piece::Clove => "cloves",
        Piece::Tuber => "tubers",
        Piece::Slip => "slips",
        Piece::Crown => "crowns or divisions",
    }
}

pub(super) fn tending_words(work: Tending) -> String {
    match work {
        Tending::Thin(days) => format!("thin {days} days after it came up"),
        Tending::Tie(days) => format!("tie every {days} days"),
        Tending::Hill(days) => format!("draw soil up after {days} days, again three weeks later"),
        Tending::Feed(days) => format!("feed after {days} days"),
        Tending::Mulch(days) => format!("mulch after {days} days, once the soil is warm"),
        Tending::Uncover => String::from("take covers off at the first flowers"),
        Tending::Pinch(days) => format!("pinch out after {days} days"),
    }
}

pub(in crate::crop) fn use_word(what: Use) -> &'static str {
    match what {
        Use::Food => "food",
        Use::Herb => "herb",
        Use::CutFlower => "cut flower",
        Use::Cover => "cover",
    }
}

pub(super) fn part_word(part: Part) -> &'static str {
    match part {
        Part::Root => "the root is eaten",
        Part::Bulb => "the bulb or swollen stem is eaten",
        Part::Leaf => "the leaf is eaten",
        Part::Stem => "the stalk is eaten",
        Part::Flower => "the flower or bud is eaten",
        Part::Fruit => "the fruit is eaten",
        Part::Pod => "the pod is eaten",
        Part::Seed => "the seed is eaten",
        Part::Nothing => "nothing is eaten",
    }
}

pub(super) fn class_word(class: FrostClass) -> &'static str {
    match class {
        FrostClass::Tender => "tender",
        FrostClass::HalfHardy => "half-hardy",
        FrostClass::Hardy => "hardy",
    }
}

pub(super) fn grade_words(grade: Grade) -> &'static str {
    match grade {
        Grade::A => "A, several trials agree",
        Grade::B => "B, few trials or under conditions",
        Grade::C => "C, laboratory only",
        Grade::D => "D, tradition without a trial",
        Grade::X => "X, a myth",
    }
}

pub(super) fn caution_word(kind: &CautionKind) -> &'static str {
    match kind {
        CautionKind::NotFood => "not food",
        CautionKind::LooksLike(_) => "looks alike",
        CautionKind::Allergy => "allergy",
        CautionKind::Skin => "skin",
        CautionKind::CookFirst => "cook first",
        CautionKind::PartsPoisonous => "poisonous parts",
        CautionKind::Spreads => "spreads",
    }
}

pub(super) fn figure_words(figure: &str) -> String {
    match figure {
        "spacing" => String::from("distance"),
        "seed.life" => String::from("seed life"),
        other => other.replace(['.', '_'], " "),
    }
}
