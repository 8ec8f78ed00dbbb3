//! How a planting looks in cells: letters that grow with the crop, the hue and the pattern of its family.

use super::pane::Look;
use super::theme::{Role, Tone};
use crate::app::{Model, Phase};
use crate::calendar::Date;
use crate::crop::Family;
use crate::plan::Planting;
use ratatui::style::{Modifier, Style};

/// How a planting is drawn on a date.
pub(super) struct Dress {
    /// Its two letters.
    pub(super) letters: String,
    /// The pattern of its family, two columns.
    pub(super) pattern: &'static str,
    /// Its colours.
    pub(super) style: Style,
    /// It shares its cells with a main planting.
    pub(super) beside: bool,
}

/// Two letters of a crop; from its name where the book does not know it.
pub(super) fn code(model: &Model, planting: &Planting) -> String {
    model
        .book
        .get(&planting.crop)
        .map_or_else(|| planting.name.chars().take(2).collect(), |crop| crop.code.clone())
}

/// A family's hue and hatch; grey and plain where the book does not know it.
pub(super) fn family_marks(family: Option<&Family>) -> (u8, u8) {
    family.map_or((7, 7), |f| (f.hue, f.hatch))
}

impl Dress {
    pub(super) fn of(look: &Look, model: &Model, planting: &Planting, date: Date) -> Self {
        let phase = Phase::of(planting, date);
        let (hue, hatch) = family_marks(model.book.family(&planting.family));
        let tone = match phase {
            Phase::Sown | Phase::Spent => Tone::Pale,
            Phase::Growing => Tone::Middle,
            Phase::Picking => Tone::Strong,
        };
        let mut style = look.theme.family(hue, tone, planting.id.0 % 2 == 1);
        if model.is_ghost(planting.id) {
            // What is only proposed lies on bare soil, underlined.
            style = look.theme.ghost(hue).add_modifier(Modifier::UNDERLINED);
        }
        Self {
            letters: phase.letters(&code(model, planting)),
            pattern: look.glyphs.patterns[usize::from(hatch) % look.glyphs.patterns.len()],
            style,
            beside: false,
        }
    }
}

/// The style of bare soil.
pub(super) fn bare(look: &Look) -> Style {
    look.style(Role::Soil)
}
