//! The one table of keys. Lookup, hints, the next-key list, the overlay, the palette and the README come from it.

mod table;

use super::command::Command;
use super::key::{Key, names};
use super::view::View;
use std::fmt::Write as _;
pub use table::{BINDINGS, PREFIXES};

/// What is going on when a key is pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Mode {
    /// Any view.
    Every,
    /// A view.
    In(View),
    /// Something is carried about.
    Carrying,
    /// A line is being typed.
    Typing,
    /// A yes or no is asked for.
    Asked,
    /// Leaving with changes that are not saved.
    Leaving,
    /// The list of keys is shown.
    Helping,
    /// The tour is on.
    Touring,
    /// What to print is chosen.
    Printing,
    /// The name of the file to print to is typed.
    Naming,
    /// A print is under way.
    Pressing,
    /// A print waits for a yes or a no.
    PrintAsked,
}

impl Mode {
    /// Every mode.
    pub const ALL: [Self; 20] = [
        Self::Every,
        Self::In(View::Ground),
        Self::In(View::Bed),
        Self::In(View::Weeks),
        Self::In(View::Wishes),
        Self::In(View::Jobs),
        Self::In(View::Findings),
        Self::In(View::Record),
        Self::In(View::Book),
        Self::In(View::Needs),
        Self::Carrying,
        Self::Typing,
        Self::Asked,
        Self::Leaving,
        Self::Helping,
        Self::Touring,
        Self::Printing,
        Self::Naming,
        Self::Pressing,
        Self::PrintAsked,
    ];
    /// Where the keys of this mode hold, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Every => "in every view",
            Self::In(View::Ground) => "on the ground",
            Self::In(View::Bed) => "in a bed",
            Self::In(View::Weeks) => "in the weeks",
            Self::In(View::Wishes) => "in the wishes",
            Self::In(View::Jobs) => "in the jobs",
            Self::In(View::Findings) => "in the findings",
            Self::In(View::Record) => "in the record",
            Self::In(View::Book) => "in the book",
            Self::In(View::Needs) => "in the needs",
            Self::Carrying => "while carrying",
            Self::Typing => "while typing",
            Self::Asked => "when asked",
            Self::Leaving => "when leaving",
            Self::Helping => "in the list of keys",
            Self::Touring => "on the tour",
            Self::Printing => "when choosing what to print",
            Self::Naming => "on the name of the file to print to",
            Self::Pressing => "while it prints",
            Self::PrintAsked => "when a print asks",
        }
    }
    /// Whether the keys of every view hold here too.
    pub const fn is_view(self) -> bool {
        matches!(self, Self::In(_))
    }
    /// The modes whose rows hold in this one, nearest first.
    fn rows(self) -> impl Iterator<Item = Self> {
        [Some(self), self.is_view().then_some(Self::Every)].into_iter().flatten()
    }
}

/// What a command is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// What this view is for.
    Here,
    /// Laying out.
    Layout,
    /// Filling.
    Fill,
    /// The week shown.
    Time,
    /// The cursor.
    Moving,
    /// The views.
    Views,
    /// The garden as a whole.
    Garden,
}

impl Group {
    /// Every group in the order of the overlay.
    pub const ALL: [Self; 7] =
        [Self::Here, Self::Layout, Self::Fill, Self::Time, Self::Moving, Self::Views, Self::Garden];
    /// Its heading.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Here => "here",
            Self::Layout => "laying out",
            Self::Fill => "filling",
            Self::Time => "the week shown",
            Self::Moving => "moving about",
            Self::Views => "views",
            Self::Garden => "the garden",
        }
    }
}

/// A row of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Binding {
    /// When it holds.
    pub mode: Mode,
    /// The keys, one after the other; none: only through the palette.
    pub keys: &'static [Key],
    /// What it does.
    pub command: Command,
    /// What it is about.
    pub group: Group,
    /// What it does, in at most 40 columns.
    pub words: &'static str,
}

/// What a sequence of keys comes to.
#[derive(Debug, Clone, PartialEq)]
pub enum Resolution {
    /// This command.
    Run(Command),
    /// One of these, by the next key.
    Wait(Vec<&'static Binding>),
    /// Nothing.
    Unknown,
}

/// The rows that hold in a mode, its own first.
pub fn rows(mode: Mode) -> impl Iterator<Item = &'static Binding> {
    mode.rows().flat_map(|m| BINDINGS.iter().filter(move |b| b.mode == m))
}

/// What a sequence of keys comes to in a mode.
pub fn resolve(mode: Mode, keys: &[Key]) -> Resolution {
    let mut waiting: Vec<&'static Binding> = Vec::new();
    for binding in rows(mode).filter(|b| !b.keys.is_empty() && b.keys.starts_with(keys)) {
        if binding.keys.len() == keys.len() {
            return Resolution::Run(binding.command);
        }
        waiting.push(binding);
    }
    if waiting.is_empty() { Resolution::Unknown } else { Resolution::Wait(waiting) }
}

/// The keys of a command in a mode, as they are written; none where it has none there.
pub fn keys_of(mode: Mode, command: Command) -> Option<String> {
    rows(mode).find(|b| b.command == command && !b.keys.is_empty()).map(|b| names(b.keys))
}

/// Writing to a string cannot fail.
fn put(out: &mut String, words: std::fmt::Arguments<'_>) {
    out.write_fmt(words).unwrap_or_default();
}

/// The key list of the README: one table a mode.
pub fn readme() -> String {
    let mut out = String::new();
    for mode in Mode::ALL {
        put(&mut out, format_args!("\n**{}**\n\n| keys | does |\n|---|---|\n", mode.words()));
        let mut done: Vec<Command> = Vec::new();
        for binding in BINDINGS.iter().filter(|b| b.mode == mode && !b.keys.is_empty()) {
            if done.contains(&binding.command) {
                continue;
            }
            done.push(binding.command);
            let keys: Vec<String> = BINDINGS
                .iter()
                .filter(|b| b.mode == mode && b.command == binding.command && !b.keys.is_empty())
                .map(|b| format!("`{}`", names(b.keys)))
                .collect();
            put(&mut out, format_args!("| {} | {} |\n", keys.join(" or "), binding.words));
        }
    }
    out
}

/// What a first key of a longer sequence leads to, in a word or two.
pub fn prefix_words(mode: Mode, key: Key) -> &'static str {
    PREFIXES
        .iter()
        .find(|(m, k, _)| *k == key && mode.rows().any(|row| row == *m))
        .map_or("more", |(_, _, words)| words)
}
