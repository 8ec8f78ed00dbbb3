//! Colours by role: a light and a dark set, and none at all. No state is told by hue alone.

use crate::paper::{Hue, Rgb};
use ratatui::style::{Color, Modifier, Style};
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// How many colours the terminal shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// 24 bits.
    Full,
    /// The 256 of xterm.
    Indexed,
    /// None: only bold, underlined and reversed.
    None,
}

/// What a piece of the screen is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Running text.
    Plain,
    /// Text of less weight.
    Quiet,
    /// Lines and frames.
    Frame,
    /// Headings.
    Title,
    /// The one accent.
    Accent,
    /// What the cursor is on.
    Cursor,
    /// The chosen line of a list.
    Chosen,
    /// Bare soil of a bed.
    Soil,
    /// Went well.
    Good,
    /// To be minded.
    Mind,
    /// Does not work.
    Stop,
    /// A slip lying over the view.
    Slip,
    /// Less weight on a slip.
    SlipQuiet,
    /// The key of a hint.
    Key,
}

impl Role {
    /// Every role that carries text.
    pub const TEXT: [Self; 13] = [
        Self::Plain,
        Self::Quiet,
        Self::Title,
        Self::Accent,
        Self::Cursor,
        Self::Chosen,
        Self::Soil,
        Self::Good,
        Self::Mind,
        Self::Stop,
        Self::Slip,
        Self::SlipQuiet,
        Self::Key,
    ];
}

/// How far a planting has come, as its cells show it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Sown, or over.
    Pale,
    /// Growing.
    Middle,
    /// Being picked.
    Strong,
}

/// A set of colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    /// How many colours there are.
    pub depth: Depth,
    /// Dark letters on a light ground.
    pub light: bool,
}

struct Pair {
    fore: Rgb,
    back: Rgb,
    bold: bool,
}

impl Theme {
    /// The colour behind everything.
    pub const fn ground(self) -> Rgb {
        if self.light { Rgb(0xf7, 0xf5, 0xee) } else { Rgb(0x16, 0x19, 0x17) }
    }
    /// The colour of running text.
    pub const fn ink(self) -> Rgb {
        if self.light { Rgb(0x24, 0x27, 0x20) } else { Rgb(0xdb, 0xde, 0xd3) }
    }

    const fn pair(self, role: Role) -> Pair {
        let (ground, ink) = (self.ground(), self.ink());
        let slip = if self.light { Rgb(0xec, 0xe8, 0xda) } else { Rgb(0x25, 0x2b, 0x27) };
        let quiet = if self.light { Rgb(0x5a, 0x60, 0x54) } else { Rgb(0x98, 0x9f, 0x92) };
        let accent = if self.light { Rgb(0x6e, 0x4e, 0x00) } else { Rgb(0xe6, 0xca, 0x7a) };
        let soil = if self.light { Rgb(0xe7, 0xde, 0xcd) } else { Rgb(0x2b, 0x26, 0x20) };
        let frame = if self.light { Rgb(0xb4, 0xb6, 0xa8) } else { Rgb(0x4a, 0x53, 0x4a) };
        let good = if self.light { Rgb(0x00, 0x5f, 0x46) } else { Rgb(0x5c, 0xc8, 0xa2) };
        let mind = if self.light { Rgb(0x7a, 0x4d, 0x00) } else { Rgb(0xf0, 0xb4, 0x4a) };
        let stop = if self.light { Rgb(0x9c, 0x3a, 0x00) } else { Rgb(0xff, 0x93, 0x5c) };
        let (fore, back, bold) = match role {
            Role::Plain => (ink, ground, false),
            Role::Quiet => (quiet, ground, false),
            Role::Frame => (frame, ground, false),
            Role::Title => (ink, ground, true),
            Role::Accent | Role::Key => (accent, ground, true),
            Role::Cursor => (ground, accent, true),
            Role::Chosen => (ink, slip, true),
            Role::Soil => (quiet, soil, false),
            Role::Good => (good, ground, false),
            Role::Mind => (mind, ground, true),
            Role::Stop => (stop, ground, true),
            Role::Slip => (ink, slip, false),
            Role::SlipQuiet => (quiet, slip, false),
        };
        Pair { fore, back, bold }
    }

    /// The two colours of a role, letters and ground, before they are fitted to the terminal.
    pub const fn colours(self, role: Role) -> (Rgb, Rgb) {
        let pair = self.pair(role);
        (pair.fore, pair.back)
    }

    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        let pair = self.pair(role);
        let style = if pair.bold { Style::new().add_modifier(Modifier::BOLD) } else { Style::new() };
        match (self.depth, role) {
            (Depth::None, Role::Cursor) => Style::new().add_modifier(Modifier::REVERSED),
            (Depth::None, Role::Chosen) => style.add_modifier(Modifier::UNDERLINED),
            (Depth::None, _) => style,
            (Depth::Full | Depth::Indexed, _) => self.paint(style, pair.fore, pair.back),
        }
    }

    /// The two colours of a family's cells, letters and ground.
    /// Neighbours of one family are told apart by a slightly other shade of it.
    pub fn family_colours(self, hue: u8, tone: Tone, other: bool) -> (Rgb, Rgb) {
        let hue = Hue::ALL[usize::from(hue) % Hue::ALL.len()].rgb();
        let back = match (tone, self.light) {
            (Tone::Pale, true) => hue.over(self.ground(), 60),
            (Tone::Pale, false) => hue.over(self.ground(), 50),
            (Tone::Middle, true) => hue.over(self.ground(), if other { 150 } else { 110 }),
            (Tone::Middle, false) => hue.over(self.ground(), if other { 130 } else { 96 }),
            (Tone::Strong, _) => hue,
        };
        let (dark, light) = (Rgb(0x0c, 0x0e, 0x0c), Rgb(0xff, 0xff, 0xff));
        (if contrast(dark, back) >= contrast(light, back) { dark } else { light }, back)
    }

    /// The style of a family's cells.
    pub fn family(self, hue: u8, tone: Tone, other: bool) -> Style {
        let (fore, back) = self.family_colours(hue, tone, other);
        match (self.depth, tone) {
            (Depth::None, Tone::Strong) => Style::new().add_modifier(Modifier::BOLD),
            (Depth::None, Tone::Pale | Tone::Middle) => Style::new(),
            (Depth::Full | Depth::Indexed, Tone::Strong) => {
                self.paint(Style::new(), fore, back).add_modifier(Modifier::BOLD)
            }
            (Depth::Full | Depth::Indexed, Tone::Pale | Tone::Middle) => self.paint(Style::new(), fore, back),
        }
    }

    /// The colour of a family's lines on the plain ground.
    pub fn family_line(self, hue: u8) -> Rgb {
        let hue = Hue::ALL[usize::from(hue) % Hue::ALL.len()];
        let mut colour = hue.rgb();
        let to = if self.light { Rgb(0, 0, 0) } else { Rgb(255, 255, 255) };
        // Moved towards black or white until it can be read.
        for share in [230, 200, 170, 140, 110] {
            if contrast(colour, self.ground()) >= READABLE {
                break;
            }
            colour = hue.rgb().over(to, share);
        }
        colour
    }

    /// The style of a family's lines.
    pub fn line(self, hue: u8) -> Style {
        match self.depth {
            Depth::None => Style::new(),
            Depth::Full | Depth::Indexed => self.paint(Style::new(), self.family_line(hue), self.ground()),
        }
    }

    /// The colours of what is only proposed: the family's line on bare soil.
    pub fn ghost_colours(self, hue: u8) -> (Rgb, Rgb) {
        let soil = self.colours(Role::Soil).1;
        let (to, hue) = (if self.light { Rgb(0, 0, 0) } else { Rgb(255, 255, 255) }, self.family_line(hue));
        let shares = [255, 230, 200, 170, 140, 110, 80, 50, 20];
        let colours = shares.map(|share| hue.over(to, share));
        let fore = colours.into_iter().find(|c| contrast(*c, soil) >= READABLE).unwrap_or(to);
        (fore, soil)
    }

    /// The style of what is only proposed.
    pub fn ghost(self, hue: u8) -> Style {
        let (fore, back) = self.ghost_colours(hue);
        match self.depth {
            Depth::None => Style::new(),
            Depth::Full | Depth::Indexed => self.paint(Style::new(), fore, back),
        }
    }

    /// A style with two colours, as far as the terminal has them.
    fn paint(self, style: Style, fore: Rgb, back: Rgb) -> Style {
        match self.depth {
            Depth::Full => {
                style.fg(Color::Rgb(fore.0, fore.1, fore.2)).bg(Color::Rgb(back.0, back.1, back.2))
            }
            Depth::Indexed => {
                let (fore, back) = fitted(fore, back);
                style.fg(Color::Indexed(fore)).bg(Color::Indexed(back))
            }
            Depth::None => style,
        }
    }
}

/// The least contrast of letters and their ground (WCAG 2.2, success criterion 1.4.3).
const READABLE: f64 = 4.5;

/// Pairs fitted so far: there are some dozens, each asked for many times a frame.
static FITTED: Mutex<BTreeMap<(Rgb, Rgb), (u8, u8)>> = Mutex::new(BTreeMap::new());

/// Two colours among the 256 of xterm: the ground as near as may be, the letters as near as can be read on it.
pub fn fitted(fore: Rgb, back: Rgb) -> (u8, u8) {
    let mut known = FITTED.lock().unwrap_or_else(PoisonError::into_inner);
    *known.entry((fore, back)).or_insert_with(|| fit(fore, back))
}

fn fit(fore: Rgb, back: Rgb) -> (u8, u8) {
    let ground = nearest(back, |_| true);
    let readable = |n: u8| contrast(indexed(n), indexed(ground)) >= READABLE;
    (nearest(fore, |n| contrast(fore, back) < READABLE || readable(n)), ground)
}

/// Brightness of a step of the cube of 216 colours.
const STEPS: [u8; 6] = [0, 95, 135, 175, 215, 255];

/// The colour of that number among the 256 of xterm, from 16 on.
pub fn indexed(n: u8) -> Rgb {
    if n >= 232 {
        let grey = 8 + 10 * (n - 232);
        return Rgb(grey, grey, grey);
    }
    let n = usize::from(n.saturating_sub(16));
    Rgb(STEPS[n / 36 % 6], STEPS[n / 6 % 6], STEPS[n % 6])
}

/// The nearest of those of the 256 colours of xterm that will do.
fn nearest(colour: Rgb, will_do: impl Fn(u8) -> bool) -> u8 {
    let far = |a: u8, b: u8| (i32::from(a) - i32::from(b)).pow(2);
    let distance =
        |n: u8| far(indexed(n).0, colour.0) + far(indexed(n).1, colour.1) + far(indexed(n).2, colour.2);
    (16..=255).filter(|n| will_do(*n)).min_by_key(|n| distance(*n)).unwrap_or(16)
}

/// Contrast of two colours, 1 to 21 (WCAG 2.2, relative luminance).
pub fn contrast(a: Rgb, b: Rgb) -> f64 {
    let linear = |c: u8| {
        let c = f64::from(c) / 255.0;
        if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    let light = |c: Rgb| 0.2126 * linear(c.0) + 0.7152 * linear(c.1) + 0.0722 * linear(c.2) + 0.05;
    let (a, b) = (light(a), light(b));
    if a > b { a / b } else { b / a }
}
