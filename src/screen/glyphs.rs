//! Signs, each with a twin in plain ASCII.

/// A set of signs. Every sign is one column wide unless said.
#[derive(Debug, PartialEq, Eq)]
pub struct Glyphs {
    /// Corners of a bed: north-west, north-east, south-west, south-east.
    pub corners: [&'static str; 4],
    /// Level and upright side of a bed.
    pub sides: [&'static str; 2],
    /// Left and right rim of a pot.
    pub rims: [&'static str; 2],
    /// Two columns of bare soil.
    pub bare: &'static str,
    /// Two columns of each family pattern, in the order of the hatches on paper.
    pub patterns: [&'static str; 8],
    /// Eight levels, low to high.
    pub levels: [&'static str; 8],
    /// North.
    pub north: &'static str,
    /// Changes that are not saved.
    pub unsaved: &'static str,
    /// Marks the chosen line.
    pub pointer: &'static str,
    /// Marks today.
    pub today: &'static str,
    /// Cuts a text that is too long.
    pub more: &'static str,
    /// Parts things on one line.
    pub dot: &'static str,
    /// Between two ends of a stretch.
    pub to: &'static str,
    /// A level line.
    pub rule: &'static str,
    /// An upright line beside a card.
    pub edge: &'static str,
    /// Raised indoors.
    pub raised: &'static str,
    /// Growing.
    pub growing: &'static str,
    /// Being picked.
    pub picking: &'static str,
    /// Ground that lies idle in the season.
    pub idle: &'static str,
    /// Done.
    pub tick: &'static str,
    /// The bar of a share, full and empty.
    pub bar: [&'static str; 2],
    /// Stands fixed.
    pub fixed: &'static str,
    /// Before and after.
    pub before: &'static str,
    /// Coming next.
    pub next: &'static str,
    /// What shades: walls, hedges, trees.
    pub shading: &'static str,
    /// The cursor on bare ground, left and right.
    pub spot: [&'static str; 2],
}

/// The usual signs.
pub static USUAL: Glyphs = Glyphs {
    corners: ["╭", "╮", "╰", "╯"],
    sides: ["─", "│"],
    rims: ["(", ")"],
    bare: "· ",
    patterns: ["╱╱", "∙∙", "││", "╲╲", "∧∨", "──", "╳╳", "  "],
    levels: ["▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"],
    north: "↑",
    unsaved: "●",
    pointer: "▸",
    today: "▾",
    more: "…",
    dot: "·",
    to: "–",
    rule: "─",
    edge: "▏",
    raised: "╌",
    growing: "━",
    picking: "▇",
    idle: "·",
    tick: "✓",
    bar: ["■", "□"],
    fixed: "◆",
    before: "‹",
    next: "›",
    shading: "▒",
    spot: ["[", "]"],
};

/// Their twins.
pub static ASCII: Glyphs = Glyphs {
    corners: ["+", "+", "+", "+"],
    sides: ["-", "|"],
    rims: ["(", ")"],
    bare: ". ",
    patterns: ["//", "::", "||", "\\\\", "^v", "--", "xx", "  "],
    levels: ["_", ".", ",", "-", "~", "=", "*", "#"],
    north: "^",
    unsaved: "*",
    pointer: ">",
    today: "v",
    more: "~",
    dot: "-",
    to: "-",
    rule: "-",
    edge: "|",
    raised: ".",
    growing: "=",
    picking: "#",
    idle: ".",
    tick: "x",
    bar: ["#", "."],
    fixed: "!",
    before: "<",
    next: ">",
    shading: "%",
    spot: ["[", "]"],
};

impl Glyphs {
    /// Every sign with the columns it may take.
    pub fn all(&self) -> Vec<(&'static str, usize)> {
        let mut out: Vec<(&'static str, usize)> = Vec::new();
        out.extend(self.patterns.iter().map(|p| (*p, 2)));
        out.push((self.bare, 2));
        out.extend(self.corners.iter().chain(&self.sides).chain(&self.rims).map(|g| (*g, 1)));
        out.extend(self.levels.iter().chain(&self.bar).chain(&self.spot).map(|g| (*g, 1)));
        out.extend(
            [
                self.north,
                self.unsaved,
                self.pointer,
                self.today,
                self.more,
                self.dot,
                self.to,
                self.rule,
                self.edge,
                self.raised,
                self.growing,
                self.picking,
                self.idle,
                self.tick,
                self.fixed,
                self.before,
                self.next,
                self.shading,
            ]
            .map(|g| (g, 1)),
        );
        out
    }
}
