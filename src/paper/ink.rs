//! Colours and hatch patterns: every family is told by both, so that a black-and-white print reads as well.

/// A colour of eight bits a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Rgb(pub u8, pub u8, pub u8);

impl Rgb {
    /// White.
    pub const WHITE: Self = Self(255, 255, 255);
    /// The ink of running text.
    pub const INK: Self = Self(0x22, 0x24, 0x22);
    /// Ink of notes and small heads.
    pub const SOFT: Self = Self(0x5c, 0x60, 0x5a);
    /// Hair lines.
    pub const HAIR: Self = Self(0xc4, 0xc6, 0xbe);
    /// The ground behind every second month or row.
    pub const WASH: Self = Self(0xf5, 0xf4, 0xee);

    /// The colour as `#rrggbb`.
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.0, self.1, self.2)
    }

    /// This colour thinned with white: `share` of 255 parts stay.
    #[must_use]
    pub fn thin(self, share: u8) -> Self {
        self.over(Self::WHITE, share)
    }

    /// This colour laid over another: `share` of 255 parts are this one.
    #[must_use]
    pub fn over(self, below: Self, share: u8) -> Self {
        let mix = |c: u8, d: u8| {
            let sum = u32::from(c) * u32::from(share) + u32::from(d) * (255 - u32::from(share));
            u8::try_from((sum + 127) / 255).unwrap_or(u8::MAX)
        };
        Self(mix(self.0, below.0), mix(self.1, below.1), mix(self.2, below.2))
    }
}

/// A hue of the palette for colour-blind readers by Okabe and Ito (2008), "Color Universal Design".
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hue {
    /// Orange.
    Orange,
    /// Sky blue.
    Sky,
    /// Bluish green.
    Green,
    /// Yellow.
    Yellow,
    /// Blue.
    Blue,
    /// Vermilion.
    Vermilion,
    /// Reddish purple.
    Purple,
    /// Grey, for what has no family of its own.
    Grey,
}

impl Hue {
    /// All hues in the published order, grey in the place of black.
    pub const ALL: [Self; 8] = [
        Self::Grey,
        Self::Orange,
        Self::Sky,
        Self::Green,
        Self::Yellow,
        Self::Blue,
        Self::Vermilion,
        Self::Purple,
    ];

    /// The full colour.
    pub const fn rgb(self) -> Rgb {
        match self {
            Self::Orange => Rgb(0xe6, 0x9f, 0x00),
            Self::Sky => Rgb(0x56, 0xb4, 0xe9),
            Self::Green => Rgb(0x00, 0x9e, 0x73),
            Self::Yellow => Rgb(0xf0, 0xe4, 0x42),
            Self::Blue => Rgb(0x00, 0x72, 0xb2),
            Self::Vermilion => Rgb(0xd5, 0x5e, 0x00),
            Self::Purple => Rgb(0xcc, 0x79, 0xa7),
            Self::Grey => Rgb(0x80, 0x80, 0x80),
        }
    }

    /// The colour of lines drawn in this hue: yellow alone is too light on white.
    pub const fn line(self) -> Rgb {
        match self {
            Self::Yellow => Rgb(0xa8, 0x9c, 0x00),
            Self::Sky => Rgb(0x2a, 0x8f, 0xcc),
            Self::Orange | Self::Green | Self::Blue | Self::Vermilion | Self::Purple | Self::Grey => {
                self.rgb()
            }
        }
    }
}

/// A hatch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pattern {
    /// No lines.
    Plain,
    /// Lines rising to the right.
    Rising,
    /// Lines falling to the right.
    Falling,
    /// Both.
    Crossed,
    /// Upright lines.
    Upright,
    /// Level lines.
    Level,
    /// Dots.
    Dots,
    /// Zigzag.
    Zigzag,
}

impl Pattern {
    /// All patterns.
    pub const ALL: [Self; 8] = [
        Self::Plain,
        Self::Rising,
        Self::Falling,
        Self::Crossed,
        Self::Upright,
        Self::Level,
        Self::Dots,
        Self::Zigzag,
    ];

    /// A short name, used in the ids of the page description.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Rising => "rising",
            Self::Falling => "falling",
            Self::Crossed => "crossed",
            Self::Upright => "upright",
            Self::Level => "level",
            Self::Dots => "dots",
            Self::Zigzag => "zigzag",
        }
    }

    /// Side of the repeated tile in points, and the path of its lines.
    pub(crate) const fn tile(self) -> (f64, &'static str) {
        match self {
            Self::Plain => (4.0, ""),
            Self::Rising => (4.0, "M-1 1L1 -1M0 4L4 0M3 5L5 3"),
            Self::Falling => (4.0, "M-1 3L1 5M0 0L4 4M3 -1L5 1"),
            Self::Crossed => (4.8, "M0 0L4.8 4.8M0 4.8L4.8 0"),
            Self::Upright => (3.0, "M1.5 0V3"),
            Self::Level => (3.0, "M0 1.5H3"),
            Self::Dots => (3.6, "M0.9 0.9h0.01M2.7 2.7h0.01"),
            Self::Zigzag => (4.0, "M0 3L2 1L4 3"),
        }
    }
}

/// How a family is told: a hue and a pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tint {
    /// The colour.
    pub hue: Hue,
    /// The hatch.
    pub pattern: Pattern,
}

impl Tint {
    /// Hue and pattern by their numbers, 0 to 7.
    pub fn of(hue: u8, pattern: u8) -> Self {
        Self { hue: Hue::ALL[usize::from(hue % 8)], pattern: Pattern::ALL[usize::from(pattern % 8)] }
    }
    /// What has no family: grey, without lines.
    pub const NONE: Self = Self { hue: Hue::Grey, pattern: Pattern::Plain };

    /// The pale ground under the hatch.
    pub fn ground(self) -> Rgb {
        self.hue.rgb().thin(46)
    }

    /// The denser colour of picking time.
    pub fn ripe(self) -> Rgb {
        self.hue.rgb().thin(150)
    }
}
